"""Every box: what takes room in it against the room it has."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from schedules.boxes.box_plan import BoxPlan
    from schedules.plan import Plan


@dataclass(frozen=True, slots=True)
class BoxRow:
    """One box. Volumes [cu in]; has and spare are None where nobody gives the box's."""

    enclosure: str
    name: str
    has_cu_in: float | None
    needs_cu_in: float
    spare_cu_in: float | None
    conductors: str
    grounds: int
    devices: int
    clamps: str
    holds: bool
    pull: str


def boxes(plan: Plan) -> Schedule[BoxRow]:
    """One row per box, and per piece of equipment whose volume the sheet gives."""
    return Schedule(
        id="boxes",
        title="Boxes",
        columns=(
            Column("box", "Box", lambda row: row.enclosure),
            Column("needs", "Needs", lambda row: f"{row.needs_cu_in:.2f} cu in", right=True),
            Column("has", "Has", lambda row: _volume(row.has_cu_in), right=True),
            Column("spare", "To spare", lambda row: _volume(row.spare_cu_in), right=True),
            Column("holds", "Enough", _enough),
            Column("conductors", "Conductors", lambda row: row.conductors or DASH),
            Column("grounds", "Grounds", lambda row: str(row.grounds), rank=2, right=True),
            Column("devices", "Devices", lambda row: str(row.devices), rank=2, right=True),
            Column("clamps", "Clamps", lambda row: row.clamps, rank=2),
            Column("name", "What it is", lambda row: row.name, rank=3),
            Column("pull", "Pulled through", lambda row: row.pull or DASH, rank=4),
        ),
        rows=tuple(_row(box) for box in plan.derived.boxes),
        enclosures=lambda row: (row.enclosure,),
        note="Equipment grounding conductors count together. Clamps count unless the box has none inside.",
    )


def _row(box: BoxPlan) -> BoxRow:
    contents, check = box.contents, box.check
    pull = ""
    if box.pull is not None:
        pull = f"{box.pull.straight.length_in:g} in straight, {box.pull.angle.length_in:g} in at an angle"
    return BoxRow(
        enclosure=box.enclosure.tag,
        name=box.enclosure.name,
        has_cu_in=None if check is None else check.volume_cu_in,
        needs_cu_in=box.needed.volume_cu_in,
        spare_cu_in=None if check is None else check.spare_cu_in,
        conductors=", ".join(f"{count} x {size}" for size, count in contents.conductors.items()),
        grounds=len(contents.grounding),
        devices=len(contents.devices) + len(contents.terminal_blocks),
        clamps=_clamps(box),
        holds=box.holds,
        pull=pull,
    )


def _clamps(box: BoxPlan) -> str:
    stated = box.enclosure.internal_clamps
    return "counted" if stated is None else "inside" if stated else "none inside"


def _enough(row: BoxRow) -> str:
    return DASH if row.has_cu_in is None else "yes" if row.holds else "NO"


def _volume(value: float | None) -> str:
    return DASH if value is None else f"{value:.2f} cu in"
