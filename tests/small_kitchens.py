"""Small kitchens for tests of routes and places: two boxes E and F on measured walls, joined by one factory cable."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING, Any

from schedules.derived import derive
from tests.small_sheets import device, enclosure, small_job, small_sheet

if TYPE_CHECKING:
    from schedules.derived import Derived
    from schedules.job.records import Job
    from schedules.sheet.sheet import Sheet

CORE = {"id": "1", "colour": "BK", "size": "14 AWG", "from": "X1:L", "to": "X2:L"}
HOOD = {
    "enclosure": "F",
    "width": "36 in",
    "height": "18 in",
    "depth": "20 in",
    "weight": "60 lb",
    "weight_out": "9 in",
    "lowered": "12 in",
    "bracket": {
        "thickness": "1/8 in",
        "steel": "a36",
        "bears": "1 in",
        "hole": ({"across": "-8 in", "up": "16 in"}, {"across": "8 in", "up": "16 in"}),
    },
    "collar": {"diameter": "8 in"},
}


@cache
def kitchen_sheet(length: str = "20 ft", *, make: str = "factory", hood: bool = False) -> Sheet:
    """One cable W1 from E to F, without entry or free conductor, so that its way is all it needs."""
    boxes = [enclosure(tag) | {"entry": "0 in", "free_conductor": "0 in"} for tag in ("F", "G")]
    cable = {
        "number": 1,
        "name": "cable",
        "make": make,
        "type": "NM-B 14/2 G",
        "from": {"enclosure": "E"},
        "to": {"enclosure": "F"},
        "core": (CORE,),
        "extension": ({"part": "more", "length": "5 ft"}, {"part": "much-more", "length": "15 ft"}),
    }
    if make == "factory":
        cable |= {"length": length, "diameter": "0.4 in"}
    more: dict[str, Any] = {"cable": (cable,)}
    more["part"] = tuple({"id": name, "name": name} for name in ("more", "much-more"))
    if hood:
        more["hood"] = HOOD
    sheet = small_sheet(
        [device("X1", "L"), device("X2", "L", box="F")], "Q1:L X1:L", enclosures=boxes, **more
    )
    first = sheet.enclosure[1].model_copy(update={"entry": 0.0, "free_conductor": 0.0})
    return sheet.model_copy(update={"enclosure": (sheet.enclosure[0], first, *sheet.enclosure[2:])})


def inches(value: float) -> str:
    return f"{value:.6f} in"


def wall(tag: str, length: float, **more: Any) -> dict[str, Any]:
    return {"tag": tag, "length": inches(length)} | more


def place(tag: str, along: float, up: float, out: float = 0.0, **more: Any) -> dict[str, Any]:
    return {"enclosure": tag, "along": inches(along), "up": inches(up), "out": inches(out)} | more


def keep_out(
    tag: str, left: float, width: float, bottom: float, height: float, **more: Any
) -> dict[str, Any]:
    sides = {"left": left, "width": width, "bottom": bottom, "height": height}
    return {"tag": tag, "kind": "window"} | {key: inches(value) for key, value in sides.items()} | more


def kitchen_job(
    walls: tuple[dict[str, Any], ...],
    places: tuple[dict[str, Any], ...],
    route: str = "direct",
    *,
    tolerance: str = "0 in",
    site: dict[str, Any] | None = None,
    **more: Any,
) -> Job:
    """A job with measured walls, 8 ft high, an attic above and a crawlspace below."""
    room = {
        "tolerance": tolerance,
        "ceiling": "96 in",
        "above": "attic",
        "below": "crawlspace",
        "rise_above": "6 in",
        "drop_below": "10 in",
        "cabinet_height": "84 in",
    }
    run = {"cable": "W1", "route": route} | more.pop("run", {})
    return small_job(site=room | (site or {}), wall=walls, place=places, run=(run,), **more)


def kitchen(job: Job, length: str = "20 ft", *, make: str = "factory", hood: bool = False) -> Derived:
    return derive(kitchen_sheet(length, make=make, hood=hood), job)
