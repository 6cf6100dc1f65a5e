"""Has the excess of every factory cable a place to lie?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Finding, Severity
from schedules.quantities.lengths import format_length
from schedules.working import Input

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.boxes.coils import Coil
    from schedules.derived import Derived


def check_excess(derived: Derived) -> Iterator[Finding]:
    """Say where each coil can lie, or that nothing that was measured takes it."""
    for coil in derived.coils:
        yield _finding(coil)


def _finding(coil: Coil) -> Finding:
    excess = format_length(coil.excess_in, rounding="down")
    severity = Severity.NOTE
    if coil.lies:
        lie = coil.lies[0]
        outer, thick = format_length(lie.outer_in, rounding="up"), format_length(lie.thick_in, rounding="up")
        says = f"{excess} of {coil.cable} is left over: a loose coil {outer} wide, {thick} thick, in {lie.space.words}"
    elif coil.refused:
        severity = Severity.CHECK
        looked = ", ".join(space.words for space in coil.refused)
        says = f"{excess} of {coil.cable} is left over, and its coil fits nowhere on its way: not in {looked}"
    else:
        says = f"{excess} of {coil.cable} is left over; no space on its way was measured that would take its coil"
    return Finding(
        code="excess-coil" if coil.lies else "excess-without-place",
        severity=severity,
        subject=coil.cable,
        says=says,
        rule="a factory cable is not cut: its excess lies loose, no tighter than it may be bent, where it stays cool",
        source=coil.working.source,
        numbers=(
            Input("turns at the least radius", f"{coil.turns:.1f}", "plan"),
            Input("least inner radius", f"{coil.inside_in:.2f} in", "plan"),
            *(
                Input(f"share of {lie.space.words}", f"{lie.share_percent:.0f} %", "plan")
                for lie in coil.lies
                if lie.share_percent
            ),
        ),
        answer=("run", coil.cable, "route"),
    )
