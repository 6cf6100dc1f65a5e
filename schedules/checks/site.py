"""Can the kitchen be as it was measured, and can each enclosure stand where it is said to?"""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING

from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.quantities.lengths import format_length
from schedules.site.lumber import lumber
from schedules.site.room import finished_place
from schedules.site.zones import Zone
from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.job.records import Place, Site
    from schedules.site.hood_place import HungHood
    from schedules.site.room import PlacedWall, Room, Spot
    from schedules.site.routes import Answer
    from schedules.site.wall_devices import WallDevice

_SITE = Source("measured on site", Confidence.JOB)
_POSSIBLE = "two things never take the same place, and a position lies where it is said to be"
_REACHABLE = "what has to be opened or reset later is not put behind, or in the way of, the hood"


MISPLACED = (
    "place-taken",
    "place-on-stud",
    "place-in-hood",
    "place-in-service-space",
    "boxes-overlap",
    "beyond-wall",
)
"""Findings about a box that can stand elsewhere on its wall."""


def check_site(derived: Derived) -> Iterator[Finding]:
    """Report walls that don't fit, and positions that can't be. Without walls, only heights are held against."""
    room = derived.room
    if room is None:
        for place in derived.job.place:
            yield from _height(derived.job.site, place)
        return
    yield from _walls(derived, room)
    yield from _furniture(derived, room)
    for place in derived.job.place:
        yield from _position(derived, room, place)
    for device in derived.devices:
        yield from _on_wall(derived, device)
    yield from _overlaps(derived.devices)
    yield from _unmeasured(derived, room)


def _walls(derived: Derived, room: Room) -> Iterator[Finding]:
    job = derived.job
    known = {wall.tag for wall in room.walls}
    named: list[tuple[str, str | None, Answer]] = [
        ("the room", job.site.range_wall, ("site", None, "range_wall")),
        *((item.tag, item.wall, ("cabinet", item.tag, "wall")) for item in job.cabinet),
        *((item.tag, item.wall, ("keep_out", item.tag, "wall")) for item in job.keep_out),
        *((item.tag, item.wall, ("stud", item.tag, "wall")) for item in job.stud),
        *((item.enclosure, item.wall, ("place", item.enclosure, "wall")) for item in job.place),
    ]
    for what, wall, answer in named:
        if wall is not None and wall not in known:
            yield _finding(
                "wall-unknown",
                what,
                f"{what} names wall {wall}, which the job doesn't have; it has {', '.join(sorted(known))}",
                "a position names a wall that was measured",
                answer,
                remedies=(Remedy(f"measure wall {wall}, or correct the name to that of a wall that was"),),
            )
    if room.closed:
        yield from _gap(derived, room)


def _gap(derived: Derived, room: Room) -> Iterator[Finding]:
    """Walls that turn once round end where they began, but for what each of them may be off."""
    for axis, gap, level in (("along", room.gap_in[0], 0), ("out", room.gap_in[1], 1)):
        count = sum(1 for wall in room.walls if wall.right[level] != 0)
        allowed = count * derived.job.site.tolerance
        if abs(gap) > allowed + 1e-9:
            yield _finding(
                "walls-do-not-close",
                room.walls[-1].tag,
                f"the walls go once round the room, but the last one ends {format_length(abs(gap))} {axis} from where "
                f"the first one begins; their measurements may be off by {format_length(allowed)} together",
                "walls that go round a room meet, within what their measurements may be off",
                ("wall", room.walls[-1].tag, "length"),
                remedies=(
                    Remedy(f"measure {_listed(room, level)} again, and look which way each corner turns"),
                ),
            )


def _listed(room: Room, level: int) -> str:
    """The walls whose length tells where the last one ends on one axis."""
    return "walls " + ", ".join(wall.tag for wall in room.walls if abs(wall.right[level]) > 1e-9)


def _furniture(derived: Derived, room: Room) -> Iterator[Finding]:
    """Cabinets and keep-outs lie on their walls and not over one another; none stands in the hood's way."""
    for wall in room.walls:
        face = _face(derived, wall)
        parts = [("cabinet", item.tag, item.zone) for item in wall.cabinets]
        parts += [(item.kind, item.tag, item.zone) for item in wall.taken]
        for kind, tag, zone in parts:
            if not zone.within(face):
                table = "cabinet" if kind == "cabinet" else "keep_out"
                yield _finding(
                    "beyond-wall",
                    tag,
                    f"{kind} {tag} goes from {_span(zone)}, beyond wall {wall.tag}, which is {_size(face)}",
                    _POSSIBLE,
                    (table, tag, "left"),
                    remedies=(Remedy(f"measure {tag} and wall {wall.tag} again, or give {tag} less of it"),),
                )
        solid = [(kind, tag, zone) for kind, tag, zone in parts if kind in ("cabinet", "window", "door")]
        for (kind, tag, zone), (other_kind, other, other_zone) in itertools.combinations(solid, 2):
            if zone.overlaps(other_zone):
                table = "cabinet" if kind == "cabinet" else "keep_out"
                yield _finding(
                    "furniture-overlaps",
                    tag,
                    f"{kind} {tag} and {other_kind} {other} overlap on wall {wall.tag}",
                    _POSSIBLE,
                    (table, tag, "left"),
                    remedies=(_part(tag, other, zone, other_zone),),
                )
    hood = derived.hung
    if hood is not None:
        for cabinet in room.main.cabinets:
            if cabinet.zone.overlaps(hood.body):
                yield _finding(
                    "furniture-overlaps",
                    cabinet.tag,
                    f"cabinet {cabinet.tag} and the hood overlap on wall {room.main.tag}",
                    _POSSIBLE,
                    ("cabinet", cabinet.tag, "left"),
                    remedies=(_part(cabinet.tag, "the hood", cabinet.zone, hood.body),),
                )


def _part(tag: str, other: str, zone: Zone, other_zone: Zone) -> Remedy:
    """By how much one of two zones that overlap must move, the shorter way along and up."""
    along = min(zone.right - other_zone.left, other_zone.right - zone.left)
    up = min(zone.top - other_zone.bottom, other_zone.top - zone.bottom)
    far = f"{format_length(along, rounding='up')} along or {format_length(up, rounding='up')} up or down"
    return Remedy(f"measure both again; as measured, {tag} is clear of {other} once it is {far} away")


def _height(site: Site, place: Place) -> Iterator[Finding]:
    """A place above the ceiling or under the floor is asked about where nobody said that there is room for it."""
    own = finished_place(site, place)
    if own is None or place.stands == "elsewhere":
        return
    tag, up = place.enclosure, own[2]
    if site.ceiling is not None and up > site.ceiling + 1e-9 and site.above in (None, "closed"):
        known = "nobody said what lies above it" if site.above is None else "what lies above it is closed"
        words = f"{tag} is {format_length(up)} up, {format_length(up - site.ceiling)} above the ceiling"
        words += f" at {format_length(site.ceiling)}, and {known}"
    elif up < -1e-9 and site.below in (None, "slab"):
        known = "nobody said what lies below it" if site.below is None else "below it is a slab"
        words = f"{tag} is {format_length(-up)} below the floor, and {known}"
    else:
        return
    elsewhere = _stands(tag, "elsewhere", "in another room or outside")
    yield Finding(
        code="height-beyond-room",
        severity=Severity.CHECK,
        subject=tag,
        says=words,
        rule=_POSSIBLE,
        source=_SITE,
        answer=("place", tag, "up"),
        remedies=(elsewhere,),
    )


def _position(derived: Derived, room: Room, place: Place) -> Iterator[Finding]:
    """A place said to be on a wall, in the attic or under the floor is there."""
    wall, own = room.wall(place.wall), finished_place(derived.job.site, place)
    if wall is None or own is None:
        return
    tag, ceiling = place.enclosure, derived.job.site.ceiling
    if place.stands in ("wall", "free"):
        yield from _inside(derived, room, wall, place, own)
    elif place.stands == "attic" and ceiling is not None and own[2] < ceiling:
        words = f"{tag} is said to be in the attic, but {format_length(own[2])} up is below the ceiling"
        yield _outside(tag, words, "up", ())
    elif place.stands == "underfloor" and own[2] > 0:
        words = f"{tag} is said to be under the floor, but is {format_length(own[2])} above it"
        yield _outside(tag, words, "up", ())
    elif place.stands == "elsewhere" and room.holds(wall.spot(*own)) and 0 < own[2] < (ceiling or 0.0):
        words = f"{tag} is said to be outside the kitchen, but its position lies in it"
        yield _outside(tag, words, "stands", (_stands(tag, "wall", "on its wall"),))


def _inside(derived: Derived, room: Room, wall: PlacedWall, place: Place, own: Spot) -> Iterator[Finding]:
    along, out, up = own
    tag, ceiling = place.enclosure, derived.job.site.ceiling
    elsewhere = _stands(tag, "elsewhere", "in another room or outside")
    if up < 0:
        words = f"{tag} is {format_length(-up)} below the floor"
        yield _outside(tag, words, "up", (_stands(tag, "underfloor", "under the floor"),))
    elif ceiling is not None and up > ceiling:
        words = f"{tag} is {format_length(up - ceiling)} above the ceiling"
        yield _outside(tag, words, "up", (_stands(tag, "attic", "in the attic"), elsewhere))
    if place.stands == "wall" and wall.open:
        yield _outside(tag, f"{tag} stands on {wall.tag}, an open side without a wall", "wall", ())
    elif along < 0 or along > wall.length_in:
        off, end = (-along, "left") if along < 0 else (along - wall.length_in, "right")
        words = f"{tag} is {format_length(off)} beyond the {end} corner of wall {wall.tag}"
        yield _outside(tag, words, "along", (elsewhere,))
    elif out < -_depth(wall):
        words = f"{tag} is {format_length(-out)} behind the face of wall {wall.tag}, which is {_thick(wall)}"
        yield _outside(tag, words, "out", (elsewhere,))
    elif out > 0 and room.holds(wall.spot(*own)) is False:
        words = f"{tag} is {format_length(out)} out from wall {wall.tag}, beyond the walls opposite"
        yield _outside(tag, words, "out", (elsewhere,))


def _on_wall(derived: Derived, device: WallDevice) -> Iterator[Finding]:
    """Hold a device against what is taken of its wall, the wall's ends and studs, and the hood."""
    if _is_hood(derived, device):
        return
    tag, wall, zone = device.enclosure, device.wall, device.zone
    for item in wall.barred("devices"):
        if _meets(zone, item.zone):
            yield _misplaced("place-taken", tag, f"{tag} stands in {item.kind} {item.tag} of wall {wall.tag}")
    if device.sized and not zone.within(_face(derived, wall)):
        words = f"{tag} takes {_span(zone)}, beyond wall {wall.tag}, which is {_size(_face(derived, wall))}"
        yield _misplaced("beyond-wall", tag, words)
    for stud in wall.studs if device.flush and device.sized else ():
        if stud.left_in < zone.right - 1e-9 and zone.left < stud.right_in - 1e-9:
            left, right = format_length(stud.left_in), format_length(stud.right_in)
            words = f"{tag} is set into the wall where a stud stands, {left} to {right} along"
            yield _misplaced("place-on-stud", tag, words)
    hood = derived.hung
    if hood is not None and derived.room is not None and wall is derived.room.main:
        yield from _by_the_hood(device, hood)


def _by_the_hood(device: WallDevice, hood: HungHood) -> Iterator[Finding]:
    tag = device.enclosure
    if device.out_in > hood.reach_in:
        return
    if _meets(device.zone, hood.body):
        words = f"{tag} is inside or behind the hood's body, which covers {_span(hood.body)}"
        yield _misplaced("place-in-hood", tag, words, _REACHABLE)
    elif _meets(device.zone, hood.service):
        words = f"{tag} is where the hood comes down for service, {_span(hood.service)}"
        yield _misplaced("place-in-service-space", tag, words, _REACHABLE)


def _overlaps(devices: tuple[WallDevice, ...]) -> Iterator[Finding]:
    for one, other in itertools.combinations(devices, 2):
        sized = one.sized or other.sized
        if one.wall is other.wall and sized and _meets(other.zone, one.zone) and _alike_deep(one, other):
            yield _finding(
                "boxes-overlap",
                one.enclosure,
                f"{one.enclosure} and {other.enclosure} overlap on wall {one.wall.tag}",
                _POSSIBLE,
                ("place", one.enclosure, "along"),
            )


def _alike_deep(one: WallDevice, other: WallDevice) -> bool:
    """Whether two devices lie at one depth: something that stands out from the wall clears a box set into it."""
    front, behind = (one, other) if one.out_in >= other.out_in else (other, one)
    return front.out_in <= max(behind.out_in, 0.0) + (behind.depth_in or 0.0 if not behind.flush else 0.0)


def _unmeasured(derived: Derived, room: Room) -> Iterator[Finding]:
    """Say what can't be held against anything, since nobody measured it."""
    if derived.job.site.ceiling is None:
        yield _note("room", "the ceiling's height isn't measured", ("site", None, "ceiling"))
    for wall in room.walls:
        here = [device for device in derived.devices if device.wall is wall]
        if here and (wall.lumber is None or not wall.studs):
            words = f"the studs of wall {wall.tag} aren't measured: no box or hole is held against them"
            yield _note(wall.tag, words, ("wall", wall.tag, "first_stud"))
        if here and wall.lumber is not None and wall.bearing is None:
            words = f"nobody said whether wall {wall.tag} bears: no hole in its studs is judged"
            yield _note(wall.tag, words, ("wall", wall.tag, "bearing"))
        points = [item.enclosure for item in here if not item.sized and not _is_hood(derived, item)]
        if points:
            words = f"no size is given for {', '.join(points)}: held against the rest of the wall as points"
            yield _note(wall.tag, words, ("place", points[0], "width"))


def _is_hood(derived: Derived, device: WallDevice) -> bool:
    return derived.hung is not None and derived.hung.enclosure == device.enclosure


def _meets(zone: Zone, other: Zone) -> bool:
    return zone.overlaps(other) or other.holds(*zone.centre) or zone.holds(*other.centre)


def _face(derived: Derived, wall: PlacedWall) -> Zone:
    """What there is of a wall; without a measured ceiling it has no upper end."""
    return Zone(0.0, wall.length_in, 0.0, derived.job.site.ceiling or float("inf"))


def _depth(wall: PlacedWall) -> float:
    """How far behind its face a wall goes at most [in]: its studs, an inch of finish on either side; else unknown."""
    return float("inf") if wall.lumber is None else lumber(wall.lumber).depth_in + 2.0


def _thick(wall: PlacedWall) -> str:
    return f"{format_length(_depth(wall))} thick at most"


def _span(zone: Zone) -> str:
    left, right, bottom, top = (
        format_length(value) for value in (zone.left, zone.right, zone.bottom, zone.top)
    )
    return f"{left} to {right} along, {bottom} to {top} up"


def _size(face: Zone) -> str:
    high = "" if face.top == float("inf") else f" and {format_length(face.top)} high"
    return f"{format_length(face.right)} long{high}"


def _stands(tag: str, where: str, words: str) -> Remedy:
    return Remedy(f"say that {tag} stands {words}, if it does", (Edit("place", tag, "stands", where),))


def _outside(tag: str, words: str, field: str, remedies: tuple[Remedy, ...]) -> Finding:
    return Finding(
        code="outside-room",
        severity=Severity.FIX,
        subject=tag,
        says=words,
        rule=_POSSIBLE,
        source=_SITE,
        answer=("place", tag, field),
        remedies=remedies,
    )


def _misplaced(code: str, tag: str, words: str, rule: str = _POSSIBLE) -> Finding:
    return _finding(code, tag, words, rule, ("place", tag, "along"))


def _finding(
    code: str, subject: str, says: str, rule: str, answer: Answer, *, remedies: tuple[Remedy, ...] = ()
) -> Finding:
    return Finding(code, Severity.FIX, subject, says, rule, _SITE, (), answer, remedies)


def _note(subject: str, says: str, answer: Answer) -> Finding:
    rule = "what isn't measured is said, never assumed"
    return Finding("site-not-measured", Severity.NOTE, subject, says, rule, _SITE, (), answer)
