"""Does wiring in or along framing need a steel plate against nails and screws?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.answers import Verdict, reaches, resting_on, rule_input
from schedules.tables import load, rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from schedules.tables import Rule
    from schedules.tables.edition import Code
    from schedules.working import Source

_KINDS = "raceway_kinds"
CABLE = "cable"
"""Wiring without a raceway of its own: NM, MC and the like."""


def plate_for_hole(edge_in: float, *, wiring: str, edition: Code) -> Verdict:
    """Whether a bored hole needs a steel plate or bushing, NEC 300.4(A)(1).

    edge_in: from the hole's edge to the nearest edge of the wood [in]. wiring: a raceway type as in
    `raceway_kinds` or `cable`. Raises LookupError for an unknown raceway, ValueError for a negative distance.
    """
    return _verdict("bored hole", edge_in, rule("bored_hole_edge", edition), wiring, edition)


def plate_along_framing(edge_in: float, *, wiring: str, edition: Code) -> Verdict:
    """Whether wiring along a framing member needs a steel plate or sleeve, NEC 300.4(D).

    edge_in: from the wiring to the nearest edge of the member where nails go in [in]. Otherwise as
    `plate_for_hole`.
    """
    return _verdict("run along framing", edge_in, rule("parallel_edge", edition), wiring, edition)


def plate_for_notch(*, wiring: str, edition: Code) -> Verdict:
    """Whether a notch needs a steel plate, NEC 300.4(A)(2): for every wiring that is not exempt.

    Raises LookupError for an unknown raceway.
    """
    stated = rule("notch_plate", edition)
    exempt = exempt_from_plates(wiring)
    reason = f"{wiring} is exempt" if exempt else "laid in a notch"
    return Verdict(
        not exempt,
        (reason, f"plate at least {stated.number:g} {stated.unit} thick") if not exempt else (reason,),
        Working(
            name="steel plate at a notch",
            formula="every notch, unless the raceway is exempt",
            inputs=(Input("wiring", wiring), rule_input(stated)),
            result=f"{'not needed' if exempt else 'needed'}: {reason}",
            source=_source(stated, wiring, edition),
            note=stated.note,
        ),
    )


def _verdict(what: str, edge_in: float, stated: Rule, wiring: str, edition: Code) -> Verdict:
    if edge_in < 0:
        raise ValueError(f"a distance can't be negative: {edge_in:g} in")
    thickness = rule("steel_plate_thickness", edition)
    exempt = exempt_from_plates(wiring)
    near = not reaches(edge_in, stated.number)
    needed = near and not exempt
    reason = f"{edge_in:.3f} in from the edge" + (f"; {wiring} is exempt" if near and exempt else "")
    plate = f"plate at least {thickness.number:g} {thickness.unit} thick, or a thinner one listed for it"
    return Verdict(
        needed,
        (reason, plate) if needed else (reason,),
        Working(
            name=f"steel plate at a {what}",
            formula="needed nearer to the edge than the published distance, unless the raceway is exempt",
            inputs=(
                Input("wiring", wiring),
                Input("distance to the nearest edge", f"{edge_in:.3f} in"),
                rule_input(stated),
                rule_input(thickness),
            ),
            result=f"{'needed' if needed else 'not needed'}: {reason}",
            source=_source(stated, wiring, edition),
            note=thickness.note,
        ),
    )


def exempt_from_plates(wiring: str) -> bool:
    """Whether this wiring keeps nails out by itself, NEC 300.4. Raises LookupError for an unknown raceway."""
    return wiring != CABLE and load(_KINDS).row(wiring).text("steel_plate_exempt") == "yes"


def _source(stated: Rule, wiring: str, edition: Code) -> Source:
    if wiring == CABLE:
        return stated.source
    table = load(_KINDS)
    exemption = table.source(table.row(wiring), "steel_plate_exempt", edition)
    return resting_on(stated.source.citation, stated.source, exemption)
