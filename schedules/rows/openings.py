"""Raceways and openings: what each must pass, and the size to make."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from schedules.plan import Plan
    from schedules.pulls import Entry, Pull


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
    """One raceway."""

    raceway: str
    kind: str
    size: str
    needed: str
    governed: str
    cables: str
    connector: str
    passes: bool


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
            Column("passes", "Passes", lambda row: "yes" if row.passes else "NO"),
            Column("governed", "Decided by", lambda row: row.governed, rank=2),
        ),
        rows=tuple(_raceway(pull) for pull in plan.derived.pulls),
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
        connector=entry.connector.name if entry.connector is not None else "",
        body_in=entry.body_in,
        clear_in=entry.clear_in,
        passes=entry.passes,
    )


def _raceway(pull: Pull) -> RacewayRow:
    return RacewayRow(
        raceway=pull.raceway,
        kind=pull.kind,
        size=str(pull.size) if pull.size is not None else DASH,
        needed=str(pull.needed) if pull.needed is not None else "none made",
        governed=pull.governed,
        cables=", ".join(pull.cables),
        connector=pull.connector.name if pull.connector is not None else "",
        passes=pull.passes,
    )
