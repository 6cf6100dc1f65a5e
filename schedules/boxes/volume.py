"""How much volume do the conductors and fittings in this box need, and does the box have it?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import reaches, resting_on
from schedules.tables import has_rule, load, rule
from schedules.tables.conductors import as_wire_size, table_cell
from schedules.working import Input, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from schedules.quantities.sizes import WireSize
    from schedules.tables import Rule
    from schedules.tables.edition import Code
    from schedules.working import Source

_VOLUMES = "nec_314_16_b_1_volume_per_conductor"
_BOXES = "nec_314_16_a_metal_boxes"


@dataclass(frozen=True, slots=True)
class Yoke:
    """A device on its yoke or strap: the largest conductor landed on it; gangs, more than one where it is wide."""

    size: WireSize | str
    gangs: int = 1

    def __post_init__(self) -> None:
        if self.gangs < 1:
            raise ValueError(f"a device takes at least one gang, not {self.gangs}")


@dataclass(frozen=True, slots=True)
class BoxContents:
    """What takes room in one box, or in one compartment of a divided one.

    conductors: each that comes in and ends, is spliced or goes straight through, by size; not those that stay
    inside, and no pigtails. looped: each that goes through in an unbroken loop of at least twice the free
    length. grounding: equipment grounding conductors that come in. internal_clamps: any, however many.
    fitting_kinds: kinds of support fittings inside (studs, hickeys). terminal_blocks: the largest conductor on
    each. Wires of a domed luminaire canopy that may be left out are left out by whoever counts.
    """

    conductors: Mapping[str, int]
    looped: Mapping[str, int] | None = None
    grounding: Sequence[WireSize | str] = ()
    internal_clamps: bool = False
    fitting_kinds: int = 0
    devices: Sequence[Yoke] = ()
    terminal_blocks: Sequence[WireSize | str] = ()


@dataclass(frozen=True, slots=True)
class Allowance:
    """Volume for one kind of thing in a box: how many allowances [1] of which conductor's volume [cu in]."""

    what: str
    count: float
    size: WireSize
    each_cu_in: float
    source: Source

    @property
    def volume_cu_in(self) -> float:
        """Volume of them all [cu in]."""
        return self.count * self.each_cu_in


@dataclass(frozen=True, slots=True)
class ConductorVolume:
    """Volume to allow for one conductor [cu in]."""

    volume_cu_in: float
    working: Working


@dataclass(frozen=True, slots=True)
class BoxFill:
    """Volume that a box's contents need [cu in], item by item."""

    volume_cu_in: float
    allowances: tuple[Allowance, ...]
    working: Working


@dataclass(frozen=True, slots=True)
class BoxCheck:
    """A box's volume against what its contents need [cu in]."""

    volume_cu_in: float
    needed: BoxFill
    working: Working

    @property
    def spare_cu_in(self) -> float:
        """Volume left over [cu in]; negative where the box is too small."""
        return self.volume_cu_in - self.needed.volume_cu_in

    @property
    def holds(self) -> bool:
        """Whether the box is large enough."""
        return reaches(self.volume_cu_in, self.needed.volume_cu_in)


@dataclass(frozen=True, slots=True)
class StandardBox:
    """A metal box as published: kind, trade size and volume [cu in]."""

    kind: str
    trade_size: str
    volume_cu_in: float
    source: Source


@dataclass(frozen=True, slots=True)
class MostInBox:
    """How many conductors of one size a published box holds with nothing else in it."""

    count: int
    working: Working


def conductor_volume(size: WireSize | str, *, edition: Code) -> ConductorVolume:
    """Volume to allow for one conductor in a box [cu in], NEC 314.16(B).

    Raises LookupError for a size not printed; 4 AWG and larger go by `pull_boxes`.
    """
    wire = as_wire_size(size)
    table = load(_VOLUMES)
    row = table.row(table_cell(wire))
    volume = row.number("volume_cu_in")
    return ConductorVolume(
        volume,
        Working(
            name=f"box volume for one {wire}",
            formula="as printed",
            inputs=(Input("row", str(wire)),),
            result=f"{volume:g} cu in",
            source=table.source(row, "volume_cu_in", edition),
        ),
    )


def box_fill(contents: BoxContents, *, edition: Code) -> BoxFill:
    """Volume that a box's contents need [cu in], NEC 314.16(B).

    Raises LookupError for a size the table doesn't print, or a terminal block before the edition that counts
    them; ValueError for a negative count, or clamps and fittings without any conductor to size them by.
    """
    items = [
        *_conductor_allowances(contents.conductors, "box_conductor", 1, edition),
        *_conductor_allowances(contents.looped or {}, "box_conductor", 2, edition),
        *_by_largest(contents, edition),
        *_grounding_allowances(contents.grounding, edition),
    ]
    total = sum(item.volume_cu_in for item in items)
    return BoxFill(
        total,
        tuple(items),
        Working(
            name="box fill",
            formula="sum of allowances, each of the volume of the conductor that it goes by",
            inputs=tuple(
                Input(
                    item.what,
                    f"{item.count:g} x {item.each_cu_in:.2f} = {item.volume_cu_in:.2f} cu in",
                    str(item.source),
                )
                for item in items
            ),
            result=f"{total:.2f} cu in",
            source=_fill_source(items, edition),
            note="" if has_rule("box_terminal_block", edition) else "terminal blocks are counted since 2023",
        ),
    )


def check_box(volumes_cu_in: Iterable[float], contents: BoxContents, *, edition: Code) -> BoxCheck:
    """Whether a box holds its contents, by volume [cu in]: marked, published, or of the maker's own enclosure.

    volumes_cu_in: the box and every extension, ring or domed cover marked with a volume of its own.
    Raises as `box_fill`, and ValueError for a volume that is not above zero.
    """
    volumes = tuple(volumes_cu_in)
    if not volumes or min(volumes) <= 0:
        raise ValueError(f"a box's volumes must be above 0 cu in: {volumes}")
    needed = box_fill(contents, edition=edition)
    total = sum(volumes)
    spare = total - needed.volume_cu_in
    return BoxCheck(
        total,
        needed,
        Working(
            name="box against its contents",
            formula="volume of the box and its rings and covers, not below the volume that its contents need",
            inputs=(
                Input("volume", " + ".join(f"{volume:g}" for volume in volumes) + " cu in"),
                Input("needed", needed.working.result, str(needed.working.source)),
            ),
            result=f"{spare:.2f} cu in to spare" if spare >= 0 else f"{-spare:.2f} cu in short",
            source=needed.working.source,
            steps=(needed.working,),
        ),
    )


def standard_boxes(*, edition: Code) -> tuple[StandardBox, ...]:
    """Every metal box of Table 314.16(A), in the table's order. Raises LookupError for an unknown edition."""
    table = load(_BOXES)
    return tuple(
        StandardBox(
            row.text("box_type"),
            row.text("trade_size"),
            row.number("volume_cu_in"),
            table.source(row, "volume_cu_in", edition),
        )
        for row in table.rows
    )


def boxes_that_hold(contents: BoxContents, *, edition: Code) -> tuple[StandardBox, ...]:
    """The published metal boxes that hold these contents, smallest volume first. Raises as `box_fill`."""
    needed = box_fill(contents, edition=edition).volume_cu_in
    holding = [box for box in standard_boxes(edition=edition) if reaches(box.volume_cu_in, needed)]
    return tuple(sorted(holding, key=lambda box: box.volume_cu_in))


def most_in_box(kind: str, trade_size: str, size: WireSize | str, *, edition: Code) -> MostInBox:
    """How many conductors of one size a metal box holds with nothing else in it, Table 314.16(A).

    Raises LookupError for a box or size not printed.
    """
    wire = as_wire_size(size)
    table = load(_BOXES)
    row = table.row(kind, trade_size)
    column = f"max_{table_cell(wire)}awg"
    if column not in table.columns:
        raise LookupError(f"{table.title}: no column for {wire}")
    count = row.count(column)
    return MostInBox(
        count,
        Working(
            name=f"most {wire} in a {trade_size} {kind.replace('_', ' ')} box",
            formula="as printed",
            inputs=(Input("volume", f"{row.number('volume_cu_in'):g} cu in"),),
            result=str(count),
            source=table.source(row, column, edition),
        ),
    )


def _allowance(what: str, count: float, size: WireSize | str, stated: Rule, edition: Code) -> Allowance:
    each = conductor_volume(size, edition=edition)
    printed = each.working.source
    source = resting_on(f"{stated.source.citation} and {printed.citation}", stated.source, printed)
    return Allowance(what, count, as_wire_size(size), each.volume_cu_in, source)


def _conductor_allowances(
    conductors: Mapping[str, int], name: str, times: int, edition: Code
) -> list[Allowance]:
    stated = rule(name, edition)
    items = []
    for size, count in conductors.items():
        if count < 0:
            raise ValueError(f"a count of conductors can't be negative: {count} of {size}")
        what = f"{count} conductors {as_wire_size(size)}" + (", looped" if times > 1 else "")
        items.append(_allowance(what, stated.number * times * count, size, stated, edition))
    return items


def _by_largest(contents: BoxContents, edition: Code) -> list[Allowance]:
    """Clamps and fittings go by the largest conductor in the box, devices and blocks by the largest on them."""
    items = []
    if contents.internal_clamps:
        stated = rule("box_clamps", edition)
        items.append(_allowance("internal clamps", stated.number, _largest(contents), stated, edition))
    if contents.fitting_kinds:
        stated = rule("box_fittings", edition)
        count = stated.number * contents.fitting_kinds
        items.append(_allowance("support fittings", count, _largest(contents), stated, edition))
    for device in contents.devices:
        stated = rule("box_yoke", edition)
        what = f"device on {as_wire_size(device.size)}" + (
            f", {device.gangs} gangs" if device.gangs > 1 else ""
        )
        items.append(_allowance(what, stated.number * device.gangs, device.size, stated, edition))
    for size in contents.terminal_blocks:
        stated = rule("box_terminal_block", edition)
        items.append(
            _allowance(f"terminal block on {as_wire_size(size)}", stated.number, size, stated, edition)
        )
    return items


def _largest(contents: BoxContents) -> WireSize:
    present = [
        *(size for size, count in contents.conductors.items() if count),
        *(size for size, count in (contents.looped or {}).items() if count),
        *contents.grounding,
    ]
    if not present:
        raise ValueError("clamps and fittings go by the largest conductor in the box, and there is none")
    return max(as_wire_size(size) for size in present)


def _grounding_allowances(grounding: Sequence[WireSize | str], edition: Code) -> list[Allowance]:
    """The first few together count once, every further one a quarter, all by the largest of them."""
    if not grounding:
        return []
    first, beyond = rule("box_egc_first_four", edition), rule("box_egc_beyond_four", edition)
    largest = max(as_wire_size(size) for size in grounding)
    together = int(rule("box_egc_first_count", edition).number)
    items = [_allowance("equipment grounding conductors", first.number, largest, first, edition)]
    extra = len(grounding) - together
    if extra > 0:
        what = f"{extra} equipment grounding conductors beyond {together}"
        items.append(_allowance(what, beyond.number * extra, largest, beyond, edition))
    return items


def _fill_source(items: Sequence[Allowance], edition: Code) -> Source:
    citation = f"NEC {edition} 314.16(B)"
    return resting_on(citation, rule("box_conductor", edition).source, *(item.source for item in items))
