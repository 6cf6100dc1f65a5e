"""What each connector must pass: the raceway that it is pulled through, the opening that it enters by.

Here the body's clear diameter alone decides, beside the size that the maker prescribes.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.lengths import format_length
from schedules.reach import run_of
from schedules.sizes import parse_trade_size
from schedules.tables import load
from schedules.working import Confidence, Input, Source, Working

if TYPE_CHECKING:
    from schedules.job.records import Job, Raceway
    from schedules.options import Selection
    from schedules.routes import Answer
    from schedules.sheet.hardware import Connector, Opening
    from schedules.sheet.wiring import Cable
    from schedules.sizes import TradeSize

PASSING_ALLOWANCE_IN = 0.05
"""Taken off a bore for couplings, burrs and a plug that is not held straight [in]; ours, common practice."""


@dataclass(frozen=True, slots=True)
class Pull:
    """One raceway and what is pulled through it.

    prescribed: the largest size that the maker asks for. needed: the least size that does everything, None where
    no published size does. given: the size that the job fixed. governed: which rule decided.
    """

    raceway: str
    kind: str
    cables: tuple[str, ...]
    prescribed: TradeSize | None
    connector: Connector | None
    needed: TradeSize | None
    given: TradeSize | None
    governed: str
    working: Working

    @property
    def passes(self) -> bool:
        """Whether the size that is planned is large enough."""
        return self.needed is not None and (self.given is None or self.given >= self.needed)

    @property
    def size(self) -> TradeSize | None:
        """The size to install: the job's, else the least that serves."""
        return self.given or self.needed


@dataclass(frozen=True, slots=True)
class Entry:
    """One cable end at the opening that it enters by. clear_in, body_in: opening and connector [in]."""

    cable: str
    used: UsedOpening
    opening: Opening
    connector: Connector | None
    clear_in: float
    body_in: float | None
    working: Working

    @property
    def passes(self) -> bool:
        """Whether what is fitted to this cable passes the opening."""
        return self.body_in is None or self.body_in + PASSING_ALLOWANCE_IN <= self.clear_in


@dataclass(frozen=True, slots=True)
class UsedOpening:
    """An opening that a cable enters by. answer: the job's answer that chose it, None where the sheet did."""

    enclosure: str
    opening: str
    answer: Answer | None


def clear_diameter(connector: Connector) -> float:
    """Diameter of the smallest round hole that the connector's body passes [in]: a rectangle's is its diagonal."""
    if connector.diameter is not None:
        return connector.diameter
    return math.hypot(connector.width or 0.0, connector.height or 0.0)


def find_pulls(job: Job, selection: Selection) -> tuple[Pull, ...]:
    """Size every raceway that the job plans."""
    cables = {cable.tag: cable for cable in selection.cables}
    pulls = []
    for raceway in job.raceway:
        inside = [cables[tag] for tag in raceway.cables if tag in cables]
        if inside:
            pulls.append(_pull(job, selection, raceway, inside))
    return tuple(pulls)


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


def leading_body(selection: Selection, cable: Cable) -> Connector | None:
    """The connector that must pass when this cable is pulled: the smaller of the ends that can lead.

    None where a bare end can lead, or nothing is fitted.
    """
    kinds = {item.id: item for item in selection.sheet.connector}
    leading = [end for end in (cable.origin, cable.target) if not end.fixed]
    if not leading or any(end.connector is None for end in leading):
        return None
    return min((kinds[end.connector] for end in leading if end.connector), key=clear_diameter)


def _pull(job: Job, selection: Selection, raceway: Raceway, inside: list[Cable]) -> Pull:
    bodies = [body for cable in inside if (body := leading_body(selection, cable)) is not None]
    connector = max(bodies, key=clear_diameter, default=None)
    prescribed = max((cable.raceway for cable in inside if cable.raceway is not None), default=None)
    for_body = None if connector is None else _smallest_bore(raceway.kind, connector)
    wanted = [size for size in (prescribed, for_body) if size is not None]
    none_large_enough = connector is not None and for_body is None
    needed = None if none_large_enough else max(wanted, default=_smallest(raceway.kind))
    if for_body is not None and for_body == needed and (prescribed is None or for_body > prescribed):
        governed = (
            f"the connector {connector.name} of {format_length(clear_diameter(connector))}"
            if connector
            else ""
        )
    else:
        governed = "the maker's least size" if prescribed is not None else "the smallest size made"
    working = _pull_working(job, raceway, prescribed, connector, needed, governed)
    tags = tuple(cable.tag for cable in inside)
    return Pull(
        raceway.tag, raceway.kind, tags, prescribed, connector, needed, raceway.trade_size, governed, working
    )


def bore(kind: str, size: TradeSize) -> float:
    """Inside diameter of a raceway [in], NEC Chapter 9 Table 4. Raises LookupError for a size not made."""
    return load("nec_ch9_table4_raceway_internal").row(kind, str(size)).number("internal_diameter_in")


def _sizes(kind: str) -> list[TradeSize]:
    rows = load("nec_ch9_table4_raceway_internal").where(raceway=kind)
    return sorted(parse_trade_size(row.text("trade_size")) for row in rows)


def _smallest(kind: str) -> TradeSize:
    return next(size for size in _sizes(kind) if size >= parse_trade_size("1/2"))


def _smallest_bore(kind: str, connector: Connector) -> TradeSize | None:
    least = clear_diameter(connector) + PASSING_ALLOWANCE_IN
    return next((size for size in _sizes(kind) if bore(kind, size) >= least), None)


def _pull_working(
    job: Job,
    raceway: Raceway,
    prescribed: TradeSize | None,
    connector: Connector | None,
    needed: TradeSize | None,
    governed: str,
) -> Working:
    inputs = []
    if prescribed is not None:
        inputs.append(Input("maker's least size", str(prescribed), "sheet"))
    if connector is not None:
        inputs.append(Input(f"body of {connector.name}", format_length(clear_diameter(connector)), "sheet"))
        inputs.append(
            Input("allowance", format_length(PASSING_ALLOWANCE_IN, resolution_denominator=64), "ours")
        )
    if needed is not None:
        inputs.append(
            Input(f"bore of {raceway.kind} {needed}", f"{bore(raceway.kind, needed):.3f} in", "table")
        )
    table = load("nec_ch9_table4_raceway_internal")
    return Working(
        name=f"trade size of {raceway.tag}",
        formula="the larger of the maker's least size and the smallest bore that the connector's body passes",
        inputs=tuple(inputs),
        result=f"{needed}, decided by {governed}" if needed else "no size made is large enough",
        source=Source(table.citation(str(job.job.code)), Confidence.TWO_TEXTS),
    )


def _entry(job: Job, selection: Selection, cable: Cable, used: UsedOpening, opening: Opening) -> Entry:
    connector = leading_body(selection, cable)
    clear = opening_clear(opening, _raceway_of(job, cable.tag))
    body = None if connector is None else clear_diameter(connector)
    inputs = [Input(f"opening {opening.tag}", f"{clear:.3f} in", "sheet")]
    if connector is not None and body is not None:
        inputs.append(Input(f"body of {connector.name}", f"{body:.3f} in", "sheet"))
    working = Working(
        name=f"{cable.tag} through {opening.tag}",
        formula="the opening is clear of the connector's body by the allowance",
        inputs=tuple(inputs),
        result="nothing fitted that must pass" if body is None else f"{clear - body:.3f} in clear",
        source=Source("sheet's opening and connector", Confidence.SHEET),
    )
    return Entry(cable.tag, used, opening, connector, clear, body, working)


def opening_clear(opening: Opening, raceway: Raceway | None) -> float:
    """Clear diameter of an opening [in]: as given, else the bore of its trade size, which a fitting leaves."""
    if opening.clear_diameter is not None:
        return opening.clear_diameter
    if opening.trade_size is None:
        raise ValueError(f"opening {opening.tag} has no size")
    return bore(raceway.kind if raceway is not None else "EMT", opening.trade_size)


def _raceway_of(job: Job, cable: str) -> Raceway | None:
    return next((item for item in job.raceway if cable in item.cables), None)
