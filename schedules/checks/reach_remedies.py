"""What may be proposed where a cable doesn't reach, its way is barred, or a box can't stand where it is said to."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from schedules.findings import Edit, Remedy
from schedules.quantities.lengths import format_length
from schedules.site.ends import Surroundings
from schedules.site.reach import run_of
from schedules.site.reach_places import nearest_mark, reachable_places
from schedules.site.standing_room import standing_region
from schedules.site.ways import possible_kinds

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.job.records import Place
    from schedules.site.reach import CableLength
    from schedules.site.reach_places import Mark
    from schedules.site.wall_devices import WallDevice

MOVE_STEP_IN = 1.0
"""What stands on no wall is proposed to move by whole inches."""

_WORDS = {
    "direct": "on the wall",
    "overhead": "overhead",
    "underfloor": "under the floor",
    "cabinets": "through the cabinets",
}


def surroundings(derived: Derived) -> Surroundings | None:
    """What ways are searched in, None while no wall is measured."""
    if derived.room is None:
        return None
    return Surroundings.of(derived.job, derived.room, derived.devices, derived.hung)


def reach_remedies(derived: Derived, tag: str) -> Iterator[Remedy]:
    """For a cable that is short or tight: the shortest extension, another way, the nearest places for its ends."""
    length = next(item for item in derived.lengths if item.cable == tag)
    yield from _extensions(derived, length)
    yield from route_remedies(derived, tag)
    around = surroundings(derived)
    if around is not None:
        for reachable in reachable_places(derived.job, derived.selection, around, length):
            place = _place(derived, reachable.device.enclosure)
            mark = nearest_mark(derived.job, place, reachable.device, reachable.regions)
            if mark is not None:
                yield _to(place, mark, reachable.device)
    yield from _shifts(derived, length)


def route_remedies(derived: Derived, tag: str) -> Iterator[Remedy]:
    """Every other kind of way that the room allows."""
    run = run_of(derived.job, tag)
    if run is None or derived.room is None:
        return
    for kind in possible_kinds(derived.job.site):
        if kind != run.route:
            yield Remedy(f"run {tag} {_WORDS[kind]}", (Edit("run", tag, "route", kind),))


def place_remedies(derived: Derived, tag: str) -> Iterator[Remedy]:
    """The nearest place at which a box can stand, whatever its cables need."""
    around = surroundings(derived)
    device = next((item for item in derived.devices if item.enclosure == tag), None)
    if around is None or device is None:
        return
    place = _place(derived, tag)
    regions = tuple(standing_region(device, wall, around) for wall in around.room.standing)
    mark = nearest_mark(derived.job, place, device, regions)
    if mark is not None:
        yield _to(place, mark, device)


def _extensions(derived: Derived, length: CableLength) -> Iterator[Remedy]:
    """The shortest extension that reaches in the worst case."""
    cable = next(item for item in derived.selection.cables if item.tag == length.cable)
    parts = {part.id: part.name for part in derived.sheet.part}
    missing = -(length.worst_in or 0.0)
    for extension in sorted(cable.extension, key=lambda item: item.length):
        if extension.length >= missing:
            words = f"order {parts[extension.part]}, {format_length(extension.length)}"
            yield Remedy(words, (Edit("run", cable.tag, "extension", extension.part),))
            return


def _to(place: Place, mark: Mark, device: WallDevice) -> Remedy:
    """Move a box to a marked place of a wall."""
    tag, along, up = place.enclosure, format_length(mark.along_in), format_length(mark.up_in)
    rough = " from the rough surfaces" if place.surface == "rough" else ""
    return Remedy(
        f"move {tag} {format_length(mark.away_in)}, to {along} along and {up} up on wall {mark.wall}{rough}",
        (
            *((Edit("place", tag, "wall", mark.wall),) if mark.wall != device.wall.tag else ()),
            Edit("place", tag, "along", along),
            Edit("place", tag, "up", up),
        ),
    )


def _shifts(derived: Derived, length: CableLength) -> Iterator[Remedy]:
    """Move an end that stands on no wall towards the other one, as little as lets the cable reach."""
    cable = next(item for item in derived.selection.cables if item.tag == length.cable)
    places = {place.enclosure: place for place in derived.job.place}
    near, far = places.get(cable.origin.enclosure), places.get(cable.target.enclosure)
    on_walls = {device.enclosure for device in derived.devices}
    if near is None or far is None or far.enclosure in on_walls:
        return
    shift = math.ceil(-(length.worst_in or 0.0) / MOVE_STEP_IN) * MOVE_STEP_IN
    for axis in ("along", "out", "up"):
        here, there = getattr(near, axis), getattr(far, axis)
        if here is not None and there is not None and abs(here - there) >= shift:
            there += shift if here > there else -shift
            yield Remedy(
                f"move {far.enclosure} {format_length(shift)} towards {near.enclosure}: {axis} {format_length(there)}",
                (Edit("place", far.enclosure, axis, format_length(there)),),
            )


def _place(derived: Derived, enclosure: str) -> Place:
    return next(item for item in derived.job.place if item.enclosure == enclosure)
