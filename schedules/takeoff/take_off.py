"""What the wiring takes of cable, conductors and raceway: what is cut, from which stock, and what goes with it."""

from __future__ import annotations

import itertools
import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.practice import practice
from schedules.site.routes import Route
from schedules.tables import rule
from schedules.takeoff.cutting_stock import cut_from_stock
from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from schedules.connections.options import Selection
    from schedules.job.records import Job, Raceway
    from schedules.raceways.raceway_plan import RacewayPlan
    from schedules.sheet.wiring import Cable
    from schedules.site.reach import CableLength
    from schedules.takeoff.cutting_stock import Cutting

_IN_PER_FT = 12.0
_STICKS = frozenset({"EMT", "RMC", "PVC-40", "PVC-80"})
"""Raceways that come in straight sticks, joined by couplings; the others come in coils."""

_SINGLES = "singles"
"""Word in a cable's type that says that its conductors are bought one by one."""


@dataclass(frozen=True, slots=True)
class Piece:
    """One piece to cut: for which cable or raceway, and how long [in]."""

    for_what: str
    length_in: float


@dataclass(frozen=True, slots=True)
class Bought:
    """One thing that is bought by length. pieces: as they are cut, a joined raceway in its parts.

    cutting: None where a piece is longer than any stock. stock: where its lengths come from.
    """

    kind: str
    item: str
    pieces: tuple[Piece, ...]
    cutting: Cutting | None
    stock: Source

    @property
    def length_in(self) -> float:
        """All its pieces together [in]."""
        return math.fsum(piece.length_in for piece in self.pieces)


@dataclass(frozen=True, slots=True)
class Counted:
    """Fittings and fasteners of one kind: how many, for what, by which rule."""

    item: str
    count: int
    for_what: tuple[str, ...]
    source: Source


@dataclass(frozen=True, slots=True)
class TakeOff:
    """Everything bought by length, and what is counted with it. unknown: cables and raceways without a length."""

    bought: tuple[Bought, ...]
    counted: tuple[Counted, ...]
    unknown: tuple[str, ...]


def take_off(
    job: Job, selection: Selection, lengths: tuple[CableLength, ...], raceways: tuple[RacewayPlan, ...]
) -> TakeOff:
    """Take off one job's field cable, conductors, raceway, and their fittings."""
    cut = {length.cable: length.cut_in for length in lengths}
    field_cables = [cable for cable in selection.cables if cable.make == "field"]
    laid = [(plan, raceway_length(job, plan, lengths)) for plan in raceways]
    known = [(plan, length) for plan, length in laid if length is not None and plan.size is not None]
    wires = [piece for cable in field_cables for piece in _wires(cable, cut[cable.tag])]
    unknown = [cable.tag for cable in field_cables if cut[cable.tag] is None]
    unknown += [plan.raceway for plan, length in laid if length is None or plan.size is None]
    return TakeOff(
        bought=(
            *_bought(job, wires),
            *_bought(job, [piece for plan, length in known for piece in _tubes(plan, length)]),
        ),
        counted=(*_fittings(job, known), *_staples(job, field_cables, cut)),
        unknown=tuple(unknown),
    )


def raceway_length(job: Job, plan: RacewayPlan, lengths: tuple[CableLength, ...]) -> float | None:
    """Length of a raceway [in]: of its course where that is given, else of the longest way of a cable in it.

    None while no way in it is measured.
    """
    given = _raceway(job, plan.raceway)
    if len(given.path) > 1:
        points = [(point.along, point.out, point.up) for point in given.path]
        return math.fsum(math.dist(a, b) for a, b in itertools.pairwise(points))
    ways = [
        item.route.length_in
        for item in lengths
        if item.cable in plan.cables and isinstance(item.route, Route)
    ]
    return max(ways, default=None)


def _raceway(job: Job, tag: str) -> Raceway:
    return next(item for item in job.raceway if item.tag == tag)


Wanted = tuple[str, str, str, Piece]
"""Kind, item, the stock that the trade knows for it, and a piece of it."""


def _wires(cable: Cable, cut_in: float | None) -> Iterator[Wanted]:
    """A cable as one piece, or each of its conductors where they are bought one by one."""
    if cut_in is None:
        return
    if _SINGLES not in cable.type:
        yield "cable", cable.type, "cable_coils", Piece(cable.tag, cut_in)
        return
    insulation = cable.type.replace(_SINGLES, "").strip()
    for core in cable.core:
        item = f"{core.size} {core.colour} {insulation}".strip()
        yield "conductor", item, "conductor_reels", Piece(f"{cable.tag} {core.id}", cut_in)


def _tubes(plan: RacewayPlan, length_in: float) -> Iterator[Wanted]:
    stock = "raceway_sticks" if plan.kind in _STICKS else "raceway_coils"
    yield "raceway", f"{plan.kind} {plan.size}", stock, Piece(plan.raceway, length_in)


def _bought(job: Job, wanted: Sequence[Wanted]) -> Iterator[Bought]:
    """Each item with all its pieces, cut from the job's stock or what the trade sells."""
    items = dict.fromkeys((kind, item, stock) for kind, item, stock, _ in wanted)
    for kind, item, known in items:
        pieces = tuple(piece for *key, piece in wanted if tuple(key) == (kind, item, known))
        own = [entry.length for entry in job.stock if entry.item == item]
        usual = practice(known)
        stock = own or [number * _IN_PER_FT for number in usual.numbers]
        source = Source("stock lengths of the job", Confidence.JOB) if own else usual.source
        longest = max(stock)
        if known == "raceway_sticks":
            pieces = tuple(part for piece in pieces for part in _parts(piece, longest))
        fits = all(piece.length_in <= longest for piece in pieces)
        cutting = cut_from_stock([piece.length_in for piece in pieces], stock) if fits else None
        yield Bought(kind, item, pieces, cutting, source)


def _parts(piece: Piece, longest: float) -> Iterator[Piece]:
    """Whole sticks, then what is left to make a raceway's length."""
    rest = piece.length_in
    while rest > longest:
        yield Piece(piece.for_what, longest)
        rest -= longest
    yield Piece(piece.for_what, rest)


def _fittings(job: Job, known: Sequence[tuple[RacewayPlan, float]]) -> Iterator[Counted]:
    """Connectors, couplings, bends and straps of every raceway, by kind and size."""
    counts: dict[tuple[str, Source], dict[str, int]] = {}

    def count(item: str, number: int, raceway: str, source: Source) -> None:
        if number > 0:
            found = counts.setdefault((item, source), {})
            found[raceway] = found.get(raceway, 0) + number

    plain = Source("one at each end, one at each joint, one at each bend", Confidence.COMMON_PRACTICE)
    for plan, length in known:
        name = f"{plan.kind} {plan.size}"
        boxes = sum(bend.pull_box for bend in plan.bends)
        count(f"{name} connector", 2 + 2 * boxes, plan.raceway, plain)
        count(f"pull box for {name}", boxes, plan.raceway, plain)
        if plan.kind in _STICKS:
            own = [entry.length for entry in job.stock if entry.item == name]
            stick = max(own or [number * _IN_PER_FT for number in practice("raceway_sticks").numbers])
            count(f"{name} coupling", math.ceil(length / stick - 1e-9) - 1, plan.raceway, plain)
            count(f"{name} bend", len(plan.bends), plan.raceway, plain)
        if plan.kind == "EMT":
            every, first = rule("emt_support_every", job.adopted), rule("emt_support_from_box", job.adopted)
            straps = supports(length, every.number * _IN_PER_FT, first.number * _IN_PER_FT)
            count(f"{name} strap", straps, plan.raceway, every.source)
    for (item, source), by_raceway in counts.items():
        yield Counted(item, sum(by_raceway.values()), tuple(by_raceway), source)


def _staples(job: Job, cables: Sequence[Cable], cut: dict[str, float | None]) -> Iterator[Counted]:
    """Staples of nonmetallic-sheathed cable, as if none of it ran through bored holes, which support it too."""
    every, first = rule("nm_support_every", job.adopted), rule("nm_support_from_box", job.adopted)
    known = [
        (cable.tag, length)
        for cable in cables
        if cable.type.startswith("NM") and (length := cut[cable.tag]) is not None
    ]
    if known:
        number = sum(supports(length, every.number * _IN_PER_FT, first.number) for _, length in known)
        yield Counted("staple for NM cable, at most", number, tuple(tag for tag, _ in known), every.source)


def supports(length_in: float, every_in: float, first_in: float) -> int:
    """How many supports a run takes [in]: one near each end, and no two farther apart than allowed."""
    if length_in <= first_in:
        return 1
    between = length_in - 2 * first_in
    return 2 + max(0, math.ceil(between / every_in - 1e-9) - 1)
