"""May every hole be bored that the measured ways take?"""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.framing.framing_plan import FRAMING_RULES, framing_code
from schedules.quantities.lengths import format_length
from schedules.tables import rule
from schedules.working import Input

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.framing.bored_holes import BoredHole


def check_boring(derived: Derived) -> Iterator[Finding]:
    """Report holes that a wall's studs and plates may not have; what the job declares of framing is checked with it."""
    refused: dict[tuple[str, str, str], list[BoredHole]] = {}
    for hole in derived.holes:
        if hole.plan is not None and not hole.plan.allowed and not hole.declared:
            refused.setdefault((hole.passes, hole.wall, hole.member), []).append(hole)
    for (passes, wall, member), holes in refused.items():
        yield _finding(derived, passes, wall, member, holes)


def _finding(derived: Derived, passes: str, wall: str, member: str, holes: list[BoredHole]) -> Finding:
    plan = holes[0].plan
    lumber = plan.framing.lumber if plan is not None else ""
    most = "" if plan is None or plan.hole is None else f"; at most {plan.hole.limit.limit_in:.2f} in may be"
    where = ", ".join(format_length(hole.along_in) for hole in holes)
    raceway = any(item.raceway == passes for item in derived.raceways)
    return Finding(
        code="hole-not-allowed",
        severity=Severity.STOP,
        subject=passes,
        says=(
            f"{passes} would be bored through the {lumber} {member} of wall {wall} at {where}: "
            f"{holes[0].diameter_in or 0.0:g} in wide{most}"
        ),
        rule="framing keeps its strength: holes stay within their share, and away from edges",
        source=rule("stud_hole_edge", framing_code(derived.job), FRAMING_RULES).source,
        numbers=(Input("holes", str(len(holes)), "plan"),),
        answer=("raceway", passes, "path") if raceway else ("run", passes, "route"),
        remedies=(
            _on_the_surface(
                derived, passes, lumber, "plate" if "plate" in member else "stud", raceway=raceway
            ),
        ),
    )


def _on_the_surface(derived: Derived, passes: str, lumber: str, member: str, *, raceway: bool) -> Remedy:
    """Run it on the wall instead, and say so."""
    taken = {item.tag for item in derived.job.framing}
    tag = next(f"F{number}" for number in itertools.count(1) if f"F{number}" not in taken)
    edits = {"raceway" if raceway else "cable": passes, "member": member, "lumber": lumber, "way": "surface"}
    return Remedy(
        f"run {passes} on the wall's surface, past its {member}s",
        tuple(Edit("framing", tag, key, value) for key, value in edits.items()),
    )
