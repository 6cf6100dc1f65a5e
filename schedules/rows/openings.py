"""Raceways and openings: what each must pass, and the size to make."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from schedules.plan import Plan
    from schedules.raceways.openings import Entry
    from schedules.raceways.raceway_plan import RacewayPlan


@dataclass(frozen=True, slots=True)
class OpeningRow:
    """One cable entering one opening. Diameters [in]."""

    enclosure: str
    opening: str
    kind: str
    size: str
    cable: str
    connector: str
    body_in: float | None
    clear_in: float
    passes: bool


@dataclass(frozen=True, slots=True)
class RacewayRow:
    """One raceway. fill: share of its bore that is taken [%], None where nothing in it has a known width."""

    raceway: str
    kind: str
    size: str
    needed: str
    governed: str
    fill_percent: float | None
    fill_limit_percent: float | None
    bends_deg: float
    pull_boxes: str
    pull_order: str
    cables: str
    large_enough: bool


def openings(plan: Plan) -> Schedule[OpeningRow]:
    """One row per cable end and opening, grouped by enclosure."""
    names = {item.tag: item.name for item in plan.derived.selection.enclosures}
    rows = sorted(
        (_opening(entry) for entry in plan.derived.entries),
        key=lambda row: (row.enclosure, row.opening, int(row.cable[1:])),
    )
    return Schedule(
        id="openings",
        title="Openings",
        columns=(
            Column("opening", "Opening", lambda row: row.opening),
            Column("kind", "Kind", lambda row: row.kind),
            Column("size", "Size", lambda row: row.size),
            Column("cable", "Cable", lambda row: row.cable),
            Column("clear", "Clear", lambda row: f"{row.clear_in:.2f} in", right=True),
            Column(
                "body", "Must pass", lambda row: f"{row.body_in:.2f} in" if row.body_in else DASH, right=True
            ),
            Column("passes", "Passes", lambda row: "yes" if row.passes else "NO"),
            Column("connector", "Connector", lambda row: row.connector or DASH, rank=2),
        ),
        rows=tuple(rows),
        group=lambda row: f"{row.enclosure}  {names.get(row.enclosure, '')}",
        enclosures=lambda row: (row.enclosure,),
    )


def raceways(plan: Plan) -> Schedule[RacewayRow]:
    """One row per raceway of the job."""
    return Schedule(
        id="raceways",
        title="Raceways",
        columns=(
            Column("raceway", "Raceway", lambda row: row.raceway),
            Column("kind", "Kind", lambda row: row.kind),
            Column("size", "Size", lambda row: row.size),
            Column("needed", "At least", lambda row: row.needed),
            Column("cables", "Cables", lambda row: row.cables),
            Column("enough", "Enough", lambda row: "yes" if row.large_enough else "NO"),
            Column("governed", "Decided by", lambda row: row.governed, rank=2),
            Column("fill", "Fill", _fill, rank=2, right=True),
            Column("bends", "Bends", _bends, rank=3, right=True),
            Column("order", "Pull in this order", lambda row: row.pull_order, rank=3),
        ),
        rows=tuple(_raceway(item) for item in plan.derived.raceways),
        note="Fill at the least size. Pull the bulkiest connector first, through the emptiest raceway.",
    )


def _opening(entry: Entry) -> OpeningRow:
    opening = entry.opening
    size = (
        f"trade size {opening.trade_size}" if opening.trade_size is not None else f"{entry.clear_in:.2f} in"
    )
    return OpeningRow(
        enclosure=entry.used.enclosure,
        opening=opening.tag,
        kind=opening.kind,
        size=size,
        cable=entry.cable,
        connector=entry.plug.name if entry.plug is not None else "",
        body_in=entry.plug.across_in if entry.plug is not None else None,
        clear_in=entry.clear_in,
        passes=entry.passes,
    )


def _raceway(planned: RacewayPlan) -> RacewayRow:
    sized = planned.sized
    order = (
        [step.pull.occupant.name for step in sized.pulls.steps] if sized and sized.pulls else planned.cables
    )
    return RacewayRow(
        raceway=planned.raceway,
        kind=planned.kind,
        size=str(planned.size) if planned.size is not None else DASH,
        needed=str(planned.needed) if planned.needed is not None else "none made",
        governed=" and ".join(sized.governed_by) if sized else "width of its cables unknown",
        fill_percent=sized.fill.percent if sized else None,
        fill_limit_percent=sized.fill.limit_percent if sized else None,
        bends_deg=sized.bends.degrees if sized else 0.0,
        pull_boxes=", ".join(
            f"after bend {number}" for number, bend in enumerate(planned.bends, start=1) if bend.pull_box
        ),
        pull_order=", ".join(order),
        cables=", ".join(planned.cables),
        large_enough=planned.large_enough,
    )


def _fill(row: RacewayRow) -> str:
    return DASH if row.fill_percent is None else f"{row.fill_percent:.0f} of {row.fill_limit_percent:g} %"


def _bends(row: RacewayRow) -> str:
    """Degrees between two pull points, and where those are."""
    boxes = f", pull box {row.pull_boxes}" if row.pull_boxes else ""
    return f"{row.bends_deg:g}°{boxes}"
