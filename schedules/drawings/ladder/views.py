"""Ladders of a plan: the whole installation, one circuit, one interlock."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.cautions import ON_A_DRAWING
from schedules.drawings.ladder.content import Ladder
from schedules.drawings.ladder.sections import sections_of
from schedules.drawings.ladder.slices import of_circuit, of_effect
from schedules.drawings.picture import Paper
from schedules.drawings.views import CONTACTS, job_line, warning

if TYPE_CHECKING:
    from schedules.drawings.ladder.content import Section
    from schedules.plan import Plan


def ladder(plan: Plan, paper: Paper = Paper.TABLOID) -> Ladder:
    """Every circuit, every supply of its own and every loop by others."""
    return _ladder(plan, "Ladder diagram", sections_of(plan), paper)


def circuit_ladder(plan: Plan, tag: str, paper: Paper = Paper.TABLOID) -> Ladder:
    """One circuit and whatever it feeds.

    Raises LookupError for a circuit that the plan doesn't have.
    """
    need = next((item for item in plan.derived.circuits if item.circuit.tag == tag), None)
    if need is None:
        known = ", ".join(item.circuit.tag for item in plan.derived.circuits)
        raise LookupError(f"no circuit {tag} with these options; there are: {known}")
    title = f"Ladder diagram of circuit {tag}  {need.circuit.name}"
    return _ladder(plan, title, of_circuit(sections_of(plan), tag), paper)


def interlock_ladder(plan: Plan, effect: str, paper: Paper = Paper.TABLOID) -> Ladder:
    """All that stands between energy and one effect, and nothing else.

    Raises LookupError for an effect that no load of the plan has.
    """
    known = effects(plan)
    if effect not in known:
        raise LookupError(f"no effect {effect} with these options; there are: {', '.join(known)}")
    landings = {str(point): landing for point, landing in plan.derived.connections.landings.items()}
    return _ladder(
        plan,
        f"Interlock of {effect}: {known[effect]}",
        of_effect(sections_of(plan), effect, landings),
        paper,
        "Only what stands between energy and this effect is shown. ",
    )


def effects(plan: Plan) -> dict[str, str]:
    """The effects that some load of the plan has, with their names, in the sheet's order."""
    present = {getattr(item.spec, "effect", "") for item in plan.derived.connections.inside.values()}
    return {effect.id: effect.name for effect in plan.derived.sheet.effect if effect.id in present}


def _ladder(plan: Plan, title: str, sections: tuple[Section, ...], paper: Paper, said: str = "") -> Ladder:
    return Ladder(
        title=title,
        subtitle=f"{plan.derived.job.job.name}{warning(plan)}",
        sections=sections,
        footer=(job_line(plan), f"{said}{CONTACTS} {ON_A_DRAWING}"),
        paper=paper,
    )
