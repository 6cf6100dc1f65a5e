"""Every piece of framing that wiring passes: the cut, its limit, plates and ties."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from schedules.answers import Verdict
    from schedules.framing.framing_plan import FramingPlan
    from schedules.plan import Plan


@dataclass(frozen=True, slots=True)
class FramingRow:
    """One kind of member. Cut: diameter of a hole or depth of a notch [in]; limit, edge [in], None where not known."""

    framing: str
    passes: str
    member: str
    way: str
    cut: str
    cut_in: float | None
    limit_in: float | None
    edge_in: float | None
    steel_plate: str
    tie: str
    allowed: bool
    open: int


def framing(plan: Plan) -> Schedule[FramingRow]:
    """One row per kind of member that a raceway or cable passes."""
    return Schedule(
        id="framing",
        title="Framing",
        columns=(
            Column("framing", "Framing", lambda row: row.framing),
            Column("passes", "Passes", lambda row: row.passes),
            Column("member", "Member", lambda row: row.member),
            Column("cut", "Cut", lambda row: f"{row.cut} {_length(row.cut_in)}" if row.cut else DASH),
            Column("limit", "At most", lambda row: _length(row.limit_in), right=True),
            Column("allowed", "Allowed", _allowed),
            Column("plate", "Steel plate", lambda row: row.steel_plate),
            Column("edge", "Left at edge", lambda row: _length(row.edge_in), rank=2, right=True),
            Column("tie", "Tie", lambda row: row.tie, rank=2),
            Column("way", "Way", lambda row: row.way, rank=3),
        ),
        rows=tuple(_row(item) for item in plan.derived.framing),
        note="Holes stand in the member's middle unless the job says otherwise. Never hole and notch at one section.",
    )


def _row(plan: FramingPlan) -> FramingRow:
    framed = plan.framing
    bears = "" if framed.member == "joist" else ", bearing" if framed.bearing is not False else ""
    doubled = ", doubled" if framed.doubled else ""
    cut, cut_in, limit_in = "", None, None
    if framed.way == "through":
        cut, cut_in = ("notch", framed.notch) if framed.notch is not None else ("hole", plan.hole_in)
    if plan.hole is not None:
        limit_in = plan.hole.limit.limit_in
    elif plan.notch is not None:
        limit_in = plan.notch.limit_in
    return FramingRow(
        framing=framed.tag,
        passes=plan.passes,
        member=f"{framed.lumber} {framed.member}{bears}{doubled}",
        way=framed.way,
        cut=cut,
        cut_in=cut_in,
        limit_in=limit_in,
        edge_in=plan.hole.edge_in if plan.hole is not None else framed.edge,
        steel_plate=_wanted(plan.steel, framed.steel_plate),
        tie=_wanted(plan.tie, framed.tie),
        allowed=plan.allowed,
        open=len(plan.open),
    )


def _wanted(verdict: Verdict | None, planned: bool) -> str:
    if verdict is None:
        return DASH
    if not verdict.holds:
        return "planned, not needed" if planned else "not needed"
    return "planned" if planned else "NEEDED"


def _allowed(row: FramingRow) -> str:
    return "NO" if not row.allowed else "open" if row.open else "yes"


def _length(value: float | None) -> str:
    return DASH if value is None else f"{value:.2f} in"
