"""Which opening does each cable enter by, and does the connector fitted to it pass?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.raceways.fill import bore, trade_sizes
from schedules.raceways.passage import pass_opening, rectangular_plug, round_plug
from schedules.site.reach import run_of

if TYPE_CHECKING:
    from schedules.connections.options import Selection
    from schedules.job.records import Job, Raceway
    from schedules.raceways.passage import Passage, Plug
    from schedules.sheet.hardware import Connector, Opening
    from schedules.sheet.wiring import Cable
    from schedules.site.routes import Answer
    from schedules.tables.edition import Code

FITTING = "EMT"
"""The raceway whose bore stands for a trade-size opening without one: a fitting there leaves about as much clear."""


@dataclass(frozen=True, slots=True)
class UsedOpening:
    """An opening that a cable enters by. answer: the job's answer that chose it, None where the sheet did."""

    enclosure: str
    opening: str
    answer: Answer | None


@dataclass(frozen=True, slots=True)
class Entry:
    """One cable end at its opening. clear_in: the opening [in]. passage: None where nothing fitted must pass."""

    cable: str
    used: UsedOpening
    opening: Opening
    clear_in: float
    plug: Plug | None
    passage: Passage | None

    @property
    def passes(self) -> bool:
        """Whether what is fitted to this cable passes the opening."""
        return self.passage is None or self.passage.passes


def find_entries(job: Job, selection: Selection) -> tuple[Entry, ...]:
    """Hold every cable end against its opening."""
    openings = {opening.tag: opening for opening in selection.openings}
    return tuple(
        _entry(job, selection, cable, used, openings[used.opening])
        for cable in selection.cables
        for used in used_openings(job, cable)
        if used.opening in openings
    )


def used_openings(job: Job, cable: Cable) -> tuple[UsedOpening, ...]:
    """The openings that a cable enters by: the job's where it says so, else the sheet's."""
    run = run_of(job, cable.tag)
    ends = (
        (cable.origin, "from_opening", run and run.from_opening),
        (cable.target, "to_opening", run and run.to_opening),
    )
    used = []
    for end, field, by_job in ends:
        opening = by_job or end.opening
        if opening is not None:
            answer = ("run", cable.tag, field) if by_job else None
            used.append(UsedOpening(end.enclosure, opening, answer))
    return tuple(used)


def leading_plug(selection: Selection, cable: Cable) -> Plug | None:
    """The connector that must pass when this cable is pulled: the narrower of the ends that can lead.

    None where a bare end can lead, or nothing is fitted.
    """
    kinds = {item.id: item for item in selection.sheet.connector}
    leading = [end for end in (cable.origin, cable.target) if not end.fixed]
    if not leading or any(end.connector is None for end in leading):
        return None
    plugs = [as_plug(kinds[end.connector]) for end in leading if end.connector is not None]
    return min(plugs, key=lambda plug: plug.across_in)


def as_plug(connector: Connector) -> Plug:
    """A connector of the sheet as a rigid body."""
    if connector.diameter is not None:
        return round_plug(connector.name, connector.diameter, connector.rigid_length)
    return rectangular_plug(
        connector.name, connector.width or 0.0, connector.height or 0.0, connector.rigid_length
    )


def opening_clear(opening: Opening, raceway: Raceway | None, edition: Code) -> float:
    """Clear diameter of an opening [in]: as given, else the bore of its trade size, which a fitting leaves."""
    if opening.clear_diameter is not None:
        return opening.clear_diameter
    if opening.trade_size is None:
        raise ValueError(f"opening {opening.tag} has no size")
    # A raceway not made in that size enters by a reducer: its own bore is held against the plug elsewhere.
    made = raceway is not None and str(opening.trade_size) in trade_sizes(raceway.kind)
    kind = raceway.kind if raceway is not None and made else FITTING
    return bore(kind, opening.trade_size, edition=edition).diameter_in


def _entry(job: Job, selection: Selection, cable: Cable, used: UsedOpening, opening: Opening) -> Entry:
    raceway = next((item for item in job.raceway if cable.tag in item.cables), None)
    clear = opening_clear(opening, raceway, job.adopted)
    plug = leading_plug(selection, cable)
    passage = None if plug is None else pass_opening(clear, plug, where=f"opening {opening.tag}")
    return Entry(cable.tag, used, opening, clear, plug, passage)
