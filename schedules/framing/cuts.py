"""May this hole or notch be cut into this stud, plate or joist?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import Verdict, reaches, resting_on, rule_input
from schedules.site.lumber import Lumber, lumber
from schedules.tables import rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from schedules.tables import Rule
    from schedules.tables.edition import Code

_RULES = "irc_framing_rules"


@dataclass(frozen=True, slots=True)
class Cut:
    """The largest hole or notch that one member may have [in], and which rule sets it."""

    limit_in: float
    governed_by: str
    working: Working


@dataclass(frozen=True, slots=True)
class Hole:
    """One bored hole in one member: largest allowed and wanted diameter, wood left at the nearer edge [in]."""

    diameter_in: float
    limit: Cut
    edge_in: float
    least_edge_in: float
    working: Working

    @property
    def allowed(self) -> bool:
        """Whether the member may be bored so."""
        return reaches(self.limit.limit_in, self.diameter_in) and reaches(self.edge_in, self.least_edge_in)


def stud_hole_limit(size: str, *, bearing: bool, doubled: bool = False, edition: Code) -> Cut:
    """Largest hole in a stud [in], IRC R602.6: a share of its depth, and wood left at both edges.

    bearing: an exterior or bearing wall. doubled: two studs side by side at this hole, in no more studs in a row
    than the code says. Raises LookupError for an unknown size or edition.
    """
    piece = lumber(size)
    name = "stud_hole_nonbearing" if not bearing else "stud_hole_doubled" if doubled else "stud_hole_bearing"
    share, edge = rule(name, edition, _RULES), rule("stud_hole_edge", edition, _RULES)
    note = ""
    if bearing and doubled:
        note = (
            f"no more than {rule('stud_hole_doubled_in_a_row', edition, _RULES).number:g} such studs in a row"
        )
    by_share = share.number / 100 * piece.depth_in
    by_edge = piece.depth_in - 2 * edge.number
    return _smaller(f"largest hole in a {size} stud", piece, (by_share, share), (by_edge, edge), note)


def stud_notch_limit(size: str, *, bearing: bool, edition: Code) -> Cut:
    """Deepest notch in a stud [in], IRC R602.6. bearing: an exterior or bearing wall.

    Raises LookupError for an unknown size or edition.
    """
    piece = lumber(size)
    share = rule("stud_notch_bearing" if bearing else "stud_notch_nonbearing", edition, _RULES)
    return _one(f"deepest notch in a {size} stud", piece, share.number / 100 * piece.depth_in, share)


def joist_hole_limit(size: str, *, edition: Code) -> Cut:
    """Largest hole in a joist [in], IRC R502.8.1: a part of its depth, and wood left at both edges.

    Dressed lumber only; engineered members go by their maker. Raises LookupError for an unknown size or edition.
    """
    piece = lumber(size)
    part, edge = rule("joist_hole_divisor", edition, _RULES), rule("joist_hole_edge", edition, _RULES)
    by_part = piece.depth_in / part.number
    by_edge = max(0.0, piece.depth_in - 2 * edge.number)
    return _smaller(f"largest hole in a {size} joist", piece, (by_part, part), (by_edge, edge), part.note)


def joist_notch_limit(size: str, *, at_end: bool, edition: Code) -> Cut:
    """Deepest notch in a joist [in], IRC R502.8.1, at its end or in the outer thirds of its span.

    Raises LookupError for an unknown size or edition.
    """
    piece = lumber(size)
    part = rule("joist_end_notch_divisor" if at_end else "joist_notch_depth_divisor", edition, _RULES)
    return _one(f"deepest notch in a {size} joist", piece, piece.depth_in / part.number, part)


def joist_notch_length(size: str, *, edition: Code) -> Cut:
    """Longest notch in a joist [in], IRC R502.8.1. Raises LookupError for an unknown size or edition."""
    piece = lumber(size)
    part = rule("joist_notch_length_divisor", edition, _RULES)
    return _one(f"longest notch in a {size} joist", piece, piece.depth_in / part.number, part)


def stud_hole(
    size: str,
    diameter_in: float,
    *,
    bearing: bool,
    doubled: bool = False,
    off_centre_in: float = 0.0,
    edition: Code,
) -> Hole:
    """Whether a hole [in] may be bored through a stud, off_centre_in [in] from the middle of its depth.

    Raises ValueError for a size that is not above zero, LookupError for an unknown size or edition.
    """
    limit = stud_hole_limit(size, bearing=bearing, doubled=doubled, edition=edition)
    edge = rule("stud_hole_edge", edition, _RULES)
    return _hole("stud", lumber(size), diameter_in, off_centre_in, limit=limit, edge=edge)


def joist_hole(size: str, diameter_in: float, *, off_centre_in: float = 0.0, edition: Code) -> Hole:
    """Whether a hole [in] may be bored through a joist, off_centre_in [in] from the middle of its depth.

    Raises ValueError for a size that is not above zero, LookupError for an unknown size or edition.
    """
    limit = joist_hole_limit(size, edition=edition)
    edge = rule("joist_hole_edge", edition, _RULES)
    return _hole("joist", lumber(size), diameter_in, off_centre_in, limit=limit, edge=edge)


def plate_tie_needed(size: str, cut_in: float, *, bearing: bool, edition: Code) -> Verdict:
    """Whether a top plate cut this wide [in] across its width must be tied, IRC R602.6.1.

    bearing: an exterior or bearing wall. Raises ValueError for a cut that is negative or wider than the plate,
    LookupError for an unknown size or edition.
    """
    piece = lumber(size)
    if not 0 <= cut_in <= piece.depth_in:
        raise ValueError(f"a cut of {cut_in:g} in can't be made in a plate {piece.depth_in:g} in wide")
    above = rule("plate_cut_tied_above", edition, _RULES)
    thick, wide = (rule(f"plate_tie_{side}", edition, _RULES) for side in ("thickness", "width"))
    past = rule("plate_tie_past_opening", edition, _RULES)
    share = 100 * cut_in / piece.depth_in
    needed = bearing and not reaches(above.number, share)
    tie = f"metal tie {thick.number:g} in thick, {wide.number:g} in wide, {past.number:g} in past the cut each side"
    reason = f"{share:.0f} % of the plate's width is cut" + ("" if bearing else "; the wall bears nothing")
    return Verdict(
        needed,
        (reason, tie) if needed else (reason,),
        Working(
            name=f"tie across a {size} top plate",
            formula="needed where an exterior or bearing wall's top plate is cut by more than the published share",
            inputs=(
                Input("cut", f"{cut_in:g} in"),
                Input("width of the plate", f"{piece.depth_in:g} in", str(piece.source)),
                rule_input(above),
            ),
            result=f"{'needed' if needed else 'not needed'}: {reason}",
            source=resting_on(above.source.citation, above.source, piece.source),
            note=f"{tie}; {thick.note}" if needed else above.note,
        ),
    )


def _smaller(
    name: str, piece: Lumber, by_share: tuple[float, Rule], by_edge: tuple[float, Rule], note: str
) -> Cut:
    limit, decisive = min(by_share, by_edge, key=lambda pair: pair[0])
    inputs = (
        Input("actual depth", f"{piece.depth_in:g} in", str(piece.source)),
        rule_input(by_share[1]),
        Input("by that", f"{by_share[0]:.3f} in"),
        rule_input(by_edge[1]),
        Input("by that", f"{by_edge[0]:.3f} in"),
    )
    source = resting_on(decisive.source.citation, by_share[1].source, by_edge[1].source, piece.source)
    working = Working(name, "the smaller of the two limits", inputs, f"{limit:.3f} in", source, note)
    return Cut(limit, decisive.words, working)


def _one(name: str, piece: Lumber, limit: float, stated: Rule) -> Cut:
    inputs = (Input("actual depth", f"{piece.depth_in:g} in", str(piece.source)), rule_input(stated))
    source = resting_on(stated.source.citation, stated.source, piece.source)
    working = Working(name, "published part of the depth", inputs, f"{limit:.3f} in", source, stated.note)
    return Cut(limit, stated.words, working)


def _hole(
    member: str, piece: Lumber, diameter_in: float, off_centre_in: float, *, limit: Cut, edge: Rule
) -> Hole:
    if diameter_in <= 0:
        raise ValueError(f"a hole must be above 0 in, not {diameter_in:g}")
    left = (piece.depth_in - diameter_in) / 2 - abs(off_centre_in)
    too_large = diameter_in - limit.limit_in
    fits = reaches(limit.limit_in, diameter_in) and reaches(left, edge.number)
    result = (
        "may be bored" if fits else f"{too_large:.3f} in too large" if too_large > 0 else "too near the edge"
    )
    working = Working(
        name=f"hole of {diameter_in:g} in in a {piece.size} {member}",
        formula="not above the largest allowed, and enough wood left at the nearer edge",
        inputs=(
            Input("largest allowed", f"{limit.limit_in:.3f} in", str(limit.working.source)),
            Input("off the middle", f"{off_centre_in:g} in"),
            Input("wood left at the nearer edge", f"{left:.3f} in"),
            rule_input(edge),
        ),
        result=result,
        source=limit.working.source,
        steps=(limit.working,),
    )
    return Hole(diameter_in, limit, left, edge.number, working)
