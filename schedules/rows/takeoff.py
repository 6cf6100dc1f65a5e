"""Take-off: what is bought by length or counted, and how it is cut."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.quantities.lengths import format_length
from schedules.rows.schedule import DASH, Column, Schedule
from schedules.takeoff.cutting_stock import in_grains
from schedules.takeoff.take_off import take_off

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.plan import Plan
    from schedules.takeoff.take_off import Bought, TakeOff


@dataclass(frozen=True, slots=True)
class TakeOffRow:
    """One thing to buy. Lengths [in], None for what is counted. waste: of what is bought [%].

    proved: nothing less could be bought.
    """

    kind: str
    item: str
    quantity: str
    needed_in: float | None
    bought_in: float | None
    waste_percent: float | None
    proved: bool | None
    for_what: str
    source: str


@dataclass(frozen=True, slots=True)
class CutRow:
    """One stick, coil or reel and the pieces cut from it [in]."""

    item: str
    number: int
    stock_in: float
    pieces: str
    left_in: float


def takeoff(plan: Plan) -> Schedule[TakeOffRow]:
    """One row per thing that is bought."""
    found = _of(plan)
    missing = (
        f" Not in it, since their length is not known: {', '.join(found.unknown)}." if found.unknown else ""
    )
    return Schedule(
        id="takeoff",
        title="Materials take-off",
        columns=(
            Column("item", "What", lambda row: row.item),
            Column("quantity", "Buy", lambda row: row.quantity),
            Column("needed", "Needs", lambda row: _length(row.needed_in), right=True),
            Column("waste", "Left over", _waste, right=True),
            Column("for", "For", lambda row: row.for_what, rank=2),
            Column("source", "By", lambda row: row.source, rank=3),
        ),
        rows=(*map(_bought, found.bought), *_counted(found)),
        group=lambda row: row.kind,
        note=f"Field cable with the job's waste in it. Bends take nothing off a raceway's length.{missing}",
    )


def cuts(plan: Plan) -> Schedule[CutRow]:
    """One row per stick, coil or reel, with the pieces to cut from it."""
    return Schedule(
        id="cuts",
        title="Cut list",
        columns=(
            Column("number", "No.", lambda row: str(row.number), right=True),
            Column("stock", "From", lambda row: format_length(row.stock_in), right=True),
            Column("pieces", "Cut", lambda row: row.pieces),
            Column("left", "Left", lambda row: format_length(row.left_in, rounding="down"), right=True),
        ),
        rows=tuple(row for bought in _of(plan).bought for row in _cuts(bought)),
        group=lambda row: row.item,
        note="Laid out for the least bought. A raceway longer than a stick takes whole sticks first.",
    )


def _of(plan: Plan) -> TakeOff:
    derived = plan.derived
    return take_off(derived.job, derived.selection, derived.lengths, derived.raceways)


def _bought(bought: Bought) -> TakeOffRow:
    cutting = bought.cutting
    return TakeOffRow(
        kind=bought.kind,
        item=bought.item,
        quantity=_quantity(bought),
        needed_in=bought.length_in,
        bought_in=None if cutting is None else cutting.bought_in,
        waste_percent=None if cutting is None else cutting.waste_percent,
        proved=None if cutting is None else cutting.proved,
        for_what=", ".join(dict.fromkeys(piece.for_what for piece in bought.pieces)),
        source=str(bought.stock),
    )


def _quantity(bought: Bought) -> str:
    """`2 × 250' 0", 1 × 50' 0"`, or the length where no stock is long enough."""
    if bought.cutting is None:
        return f"{format_length(bought.length_in, rounding='up')}, longer than any stock"
    counts: dict[float, int] = {}
    for stick in bought.cutting.sticks:
        counts[stick.stock_in] = counts.get(stick.stock_in, 0) + 1
    return ", ".join(f"{count} × {format_length(length)}" for length, count in counts.items())


def _counted(found: TakeOff) -> Iterator[TakeOffRow]:
    for counted in found.counted:
        yield TakeOffRow(
            kind="fittings and fasteners",
            item=counted.item,
            quantity=str(counted.count),
            needed_in=None,
            bought_in=None,
            waste_percent=None,
            proved=None,
            for_what=", ".join(counted.for_what),
            source=str(counted.source),
        )


def _cuts(bought: Bought) -> Iterator[CutRow]:
    """Give each piece of the cutting the name of what it is for; of pieces of one length any will do."""
    if bought.cutting is None:
        return
    names: dict[int, list[str]] = {}
    for piece in bought.pieces:
        names.setdefault(in_grains(piece.length_in), []).append(piece.for_what)
    for number, stick in enumerate(bought.cutting.sticks, start=1):
        pieces = [
            f"{names[in_grains(length)].pop(0)} {format_length(length, rounding='up')}"
            for length in stick.pieces_in
        ]
        yield CutRow(bought.item, number, stick.stock_in, "; ".join(pieces), stick.left_in)


def _length(value: float | None) -> str:
    return DASH if value is None else format_length(value, rounding="up")


def _waste(row: TakeOffRow) -> str:
    if row.waste_percent is None:
        return DASH
    return f"{row.waste_percent:.0f} %" + ("" if row.proved else ", not proved least")
