"""Each box: what takes room in it, the volume that this needs, and how long it is where thick conductors are pulled."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.boxes.pull_boxes import angle_pull_distance, straight_pull_length
from schedules.boxes.volume import BoxContents, Yoke, box_fill, check_box
from schedules.quantities.sizes import WireSize
from schedules.raceways.openings import used_openings
from schedules.tables import has_rule, load, rule
from schedules.tables.conductors import table_cell

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.boxes.pull_boxes import Distance
    from schedules.boxes.volume import BoxCheck, BoxFill
    from schedules.connections.graph import Connections
    from schedules.connections.options import Selection
    from schedules.job.records import Job
    from schedules.quantities.sizes import TradeSize
    from schedules.sheet.hardware import Device, Enclosure
    from schedules.tables.edition import Code
    from schedules.working import Working

_VOLUMES = "nec_314_16_b_1_volume_per_conductor"


@dataclass(frozen=True, slots=True)
class PullLength:
    """Least inside length where conductors of 4 AWG or larger are pulled: straight, or at an angle [in]."""

    straight: Distance
    angle: Distance


@dataclass(frozen=True, slots=True)
class BoxPlan:
    """One box, or equipment whose volume the sheet gives.

    contents: what takes room. needed: the volume for it. check: that against the volume it has, None where nobody gives
    one. unmounted: devices of which the sheet doesn't say how they take room; each counts as one gang. uncounted: thin
    conductors for which the table prints no volume. pull: None where nothing thick is pulled; unsized: openings of no
    trade size by which it would be.
    """

    enclosure: Enclosure
    contents: BoxContents
    needed: BoxFill
    check: BoxCheck | None
    unmounted: tuple[str, ...]
    uncounted: int
    pull: PullLength | None
    unsized: tuple[str, ...]

    @property
    def holds(self) -> bool:
        """Whether it has room for its contents; what nobody knows the volume of doesn't fail."""
        return self.check is None or self.check.holds

    @property
    def workings(self) -> Iterator[Working]:
        """How its numbers came about."""
        yield self.needed.working if self.check is None else self.check.working
        if self.pull is not None:
            yield self.pull.straight.working
            yield self.pull.angle.working


def plan_boxes(job: Job, selection: Selection, connections: Connections) -> tuple[BoxPlan, ...]:
    """Fill every box, and every other enclosure that the sheet gives a volume for."""
    return tuple(
        _plan(job, selection, connections, enclosure)
        for enclosure in selection.enclosures
        if enclosure.kind == "box" or (enclosure.volume is not None and enclosure.kind != "panel")
    )


def _plan(job: Job, selection: Selection, connections: Connections, enclosure: Enclosure) -> BoxPlan:
    edition = job.adopted
    devices = [item for item in selection.devices if item.enclosure == enclosure.tag]
    unmounted = tuple(item.tag for item in devices if item.mounts is None and enclosure.kind == "box")
    wires, grounds = _entering(enclosure.tag, connections)
    counted, thick, uncounted = _by_table(wires)
    contents = BoxContents(
        conductors=counted,
        grounding=[size for size in grounds if _printed(size)],
        internal_clamps=enclosure.internal_clamps is not False and bool(counted),
        devices=list(_yokes(enclosure, devices, connections)),
        terminal_blocks=list(_blocks(devices, connections, edition)),
    )
    needed = box_fill(contents, edition=edition)
    check = None
    if enclosure.volume is not None:
        check = check_box((enclosure.volume,), contents, edition=edition)
    sizes, unsized = _thick_openings(job, selection, connections, enclosure.tag, edition)
    pull = None
    if thick and sizes:
        pull = PullLength(
            straight_pull_length(sizes, edition=edition), angle_pull_distance([sizes], edition=edition)
        )
    return BoxPlan(enclosure, contents, needed, check, unmounted, uncounted, pull, unsized)


def _entering(enclosure: str, connections: Connections) -> tuple[list[WireSize], list[WireSize]]:
    """Conductors that come in from outside, spares too; those that ground equipment apart."""
    wires: list[WireSize] = []
    grounds: list[WireSize] = []
    for conductor in connections.conductors.values():
        for end in (conductor.a, conductor.b):
            landing = connections.landings[end]
            if landing.enclosure == enclosure:
                (grounds if landing.carries == "ground" else wires).append(conductor.size)
    wires += [spare.size for spare in connections.spares if enclosure in spare.enclosures]
    return wires, grounds


def _printed(size: WireSize) -> bool:
    return bool(load(_VOLUMES).where(size=table_cell(size)))


def _by_table(wires: Iterable[WireSize]) -> tuple[dict[str, int], bool, int]:
    """Counts by size as the table prints them, whether any is too thick for it, and how many are too thin."""
    sizes = Counter(wires)
    counted = {str(size): count for size, count in sorted(sizes.items()) if _printed(size)}
    thickest = max(WireSize.from_table(row.text("size")) for row in load(_VOLUMES).rows)
    thin = sum(count for size, count in sizes.items() if not _printed(size) and size < thickest)
    return counted, any(size > thickest for size in sizes), thin


def _yokes(enclosure: Enclosure, devices: Iterable[Device], connections: Connections) -> Iterator[Yoke]:
    for device in devices:
        mounts = device.mounts or ("yoke" if enclosure.kind == "box" else "nothing")
        size = _largest_on(device, connections)
        if mounts == "yoke" and size is not None and _printed(size):
            yield Yoke(size, device.gangs)


def _blocks(devices: Iterable[Device], connections: Connections, edition: Code) -> Iterator[WireSize]:
    """Terminal blocks, in the editions that count them."""
    if not has_rule("box_terminal_block", str(edition)):
        return
    for device in devices:
        size = _largest_on(device, connections)
        if device.mounts == "terminal block" and size is not None and _printed(size):
            yield size


def _largest_on(device: Device, connections: Connections) -> WireSize | None:
    sizes = [
        conductor.size
        for conductor in connections.conductors.values()
        for end in (conductor.a, conductor.b)
        if end.device == device.tag
    ]
    return max(sizes, default=None)


def _thick_openings(
    job: Job, selection: Selection, connections: Connections, enclosure: str, edition: Code
) -> tuple[list[TradeSize], tuple[str, ...]]:
    """Trade sizes of the openings by which conductors of 4 AWG or larger come in, and openings that have none."""
    least = WireSize(gauge=int(rule("pull_box_from_size", edition).number))
    thick = {item.cable for item in connections.conductors.values() if item.size >= least}
    openings = {item.tag: item for item in selection.openings}
    used = [
        openings[entry.opening]
        for cable in selection.cables
        if cable.tag in thick
        for entry in used_openings(job, cable)
        if entry.enclosure == enclosure and entry.opening in openings
    ]
    sizes = [opening.trade_size for opening in used if opening.trade_size is not None]
    return sizes, tuple(opening.tag for opening in used if opening.trade_size is None)
