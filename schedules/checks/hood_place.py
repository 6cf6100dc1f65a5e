"""Does the hood hang on its wall at all, over the range, and where its own cables are said to enter it?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.quantities.lengths import format_length
from schedules.site.room import finished_spot
from schedules.site.zones import Zone
from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.site.hood_place import HungHood
    from schedules.site.room import PlacedWall, Taken
    from schedules.site.routes import Answer

_OPENINGS = ("window", "door")
_SITE = Source("measured on site", Confidence.JOB)
_PRACTICE = Source("hood over the range", Confidence.COMMON_PRACTICE)
_POSSIBLE = "the hood hangs whole on its wall, on studs and not before a window or door"
_ONE_PLACE = "one thing has one place: the hood's cables enter it where it hangs"
_COVERS = "the hood hangs over the middle of the range and is no narrower than it"
_CENTRE: Answer = ("mounting", None, "centre")


def check_hood_place(derived: Derived) -> Iterator[Finding]:
    """Hold hood and range against the range wall, and the hood against range and cable entry."""
    hood, room = derived.hung, derived.room
    if hood is None:
        return
    yield from _entry(derived, hood)
    yield from _over_range(derived, hood)
    if room is None:
        return
    wall = room.main
    for item in wall.taken:
        if item.kind in _OPENINGS and item.zone.overlaps(hood.body):
            words = f"the hood hangs before {item.kind} {item.tag} of wall {wall.tag}"
            yield _impossible("hood-before-opening", "hood", words, _CENTRE, _clear(hood, item))
    hearth = _range_sides(derived)
    spans = [("hood", (hood.body.left, hood.body.right), _CENTRE)]
    spans += [] if hearth is None else [("range", hearth, ("cooking_range", None, "centre"))]
    for name, (left, right), answer in spans:
        if not Zone(left, right, 0.0, 0.0).within(Zone(0.0, wall.length_in, 0.0, 0.0)):
            words = (
                f"the {name} takes {format_length(left)} to {format_length(right)} along, beyond wall {wall.tag}, "
                f"which is {format_length(wall.length_in)} long"
            )
            yield _impossible("beyond-wall", name, words, answer, _on_the_wall(name, right - left, wall))


def _clear(hood: HungHood, item: Taken) -> Remedy:
    """Where the hood's middle may be so that it is beside an opening."""
    half = hood.body.width / 2
    left = format_length(item.zone.left - half, rounding="down")
    right = format_length(item.zone.right + half, rounding="up")
    middle = f"its middle at {left} or less, or at {right} or more along"
    return Remedy(f"measure both again; the hood is clear of {item.tag} with {middle}")


def _on_the_wall(name: str, width_in: float, wall: PlacedWall) -> Remedy:
    """Where the middle of what must stand whole on a wall can be."""
    least, most = width_in / 2, wall.length_in - width_in / 2
    if least > most:
        return Remedy(f"measure both again; the {name} is wider than wall {wall.tag}")
    span = f"{format_length(least, rounding='up')} to {format_length(most, rounding='down')}"
    return Remedy(f"measure again; the {name} stands whole on wall {wall.tag} with its middle {span} along")


def _entry(derived: Derived, hood: HungHood) -> Iterator[Finding]:
    """The hood's own place is measured apart from its middle and height: both say where it hangs."""
    job = derived.job
    place = next((item for item in job.place if item.enclosure == hood.enclosure), None)
    spot = finished_spot(job.site, place, derived.room)
    if place is None or spot is None:
        return
    off = job.site.tolerance + (job.site.tolerance if place.tolerance is None else place.tolerance)
    along, _, up = spot
    body = hood.body
    if not body.left - off <= along <= body.right + off:
        says = f"{place.enclosure}'s cables enter {format_length(along)} along"
        covers = _reach(body.left, body.right)
        yield _apart(place.enclosure, f"{says}, but the hood covers {covers}", "along", covers)
    elif up < body.bottom - off:
        says = f"{place.enclosure}'s cables enter {format_length(up)} up"
        bottom = format_length(body.bottom)
        yield _apart(
            place.enclosure, f"{says}, but the hood's underside is {bottom} up", "up", f"{bottom} or more"
        )


def _over_range(derived: Derived, hood: HungHood) -> Iterator[Finding]:
    hearth = _range_sides(derived)
    if hearth is None:
        return
    off = 2 * derived.job.site.tolerance
    open_in = max(hood.body.left - hearth[0], hearth[1] - hood.body.right)
    if open_in > off:
        yield Finding(
            code="range-uncovered",
            severity=Severity.CHECK,
            subject="hood",
            says=(
                f"the range, {_reach(*hearth)} along, stands out {format_length(open_in)} beside the hood, "
                f"{_reach(hood.body.left, hood.body.right)}"
            ),
            rule=_COVERS,
            source=_PRACTICE,
            answer=_CENTRE,
            remedies=(_over_its_middle((hearth[0] + hearth[1]) / 2),),
        )


def _over_its_middle(middle_in: float) -> Remedy:
    at = format_length(middle_in)
    return Remedy(f"hang the hood with its middle at {at} along, over the range's", (Edit(*_CENTRE, at),))


def _range_sides(derived: Derived) -> tuple[float, float] | None:
    """From where to where along its wall the range stands [in], None while it isn't measured."""
    hearth = derived.job.cooking_range
    if hearth.centre is None or hearth.width is None:
        return None
    return hearth.centre - hearth.width / 2, hearth.centre + hearth.width / 2


def _reach(left: float, right: float) -> str:
    return f"{format_length(left)} to {format_length(right)}"


def _apart(tag: str, says: str, field: str, where: str) -> Finding:
    cure = Remedy(
        f"measure where {tag}'s cables enter and where the hood hangs again: they enter it {where} {field}"
    )
    answer = ("place", tag, field)
    return Finding("hood-in-two-places", Severity.FIX, tag, says, _ONE_PLACE, _SITE, (), answer, (cure,))


def _impossible(code: str, subject: str, says: str, answer: Answer, cure: Remedy) -> Finding:
    return Finding(code, Severity.FIX, subject, says, _POSSIBLE, _SITE, (), answer, (cure,))
