"""Small equipment sheets for tests of behaviour: everything in one box `E`, wired by short lines."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from schedules.derived import derive
from schedules.job.records import Job
from schedules.sheet.sheet import Sheet

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from schedules.derived import Derived

CLAMP = {
    "id": "any",
    "style": "screw",
    "smallest": "22 AWG",
    "largest": "6 AWG",
    "holds": 4,
    "prepare": "bare",
    "strip": "3/8 in",
}


def enclosure(tag: str, kind: str = "equipment", *, metal: bool = True) -> dict[str, Any]:
    return {
        "tag": tag,
        "name": tag,
        "kind": kind,
        "metal": metal,
        "entry": "6 in",
        "free_conductor": "6 in",
    }


def circuit(tag: str, poles: int = 1, rating: str = "15 A", **more: Any) -> dict[str, Any]:
    return {
        "tag": tag,
        "name": tag,
        "poles": poles,
        "neutral": True,
        "rating": rating,
        "individual": True,
        "serves": "other",
    } | more


def device(
    tag: str, terminals: str, *elements: dict[str, Any], box: str = "E", limited: bool = False
) -> dict[str, Any]:
    """A device whose terminals are named by words; a name that starts with N or PE carries neutral or ground."""
    return {
        "tag": tag,
        "name": tag,
        "enclosure": box,
        "terminal": tuple(
            {
                "id": name,
                "potential": f"{tag} {name}",
                "carries": carried(name, limited=limited),
                "clamp": "any",
                "class": "class-2" if limited else "power",
                "land": "optional",
            }
            for name in terminals.split()
        ),
        "element": elements,
    }


def carried(name: str, *, limited: bool) -> str:
    if limited:
        return "signal"
    return "ground" if name.startswith("PE") else "neutral" if name.startswith("N") else "line"


def element(kind: str, name: str, a: str, b: str, **more: Any) -> dict[str, Any]:
    return {"kind": kind, "id": name, "between": (a, b)} | more


def contact(name: str, a: str, b: str, form: str, **more: Any) -> dict[str, Any]:
    return element("contact", name, a, b, form=form, **more)


def coil(name: str, a: str, b: str, drives: str, rated: str = "120 V", **more: Any) -> dict[str, Any]:
    return element("coil", name, a, b, rated=rated, burden="5 VA", drives=drives, **more)


def load(name: str, a: str, b: str, effect: str, rated: str = "120 V", **more: Any) -> dict[str, Any]:
    return element("load", name, a, b, rated=rated, effect=effect, **({"power": "60 W"} | more))


def small_sheet(
    devices: Sequence[dict[str, Any]],
    wires: str,
    *,
    outside: str = "",
    driven: str = "",
    latched: str = "",
    effects: Mapping[str, str] | None = None,
    circuits: Sequence[dict[str, Any]] = (),
    enclosures: Sequence[dict[str, Any]] = (),
    size: str = "14 AWG",
    **more: Any,
) -> Sheet:
    """A sheet of these devices.

    wires: lines such as `Q1:L K1:1`, each a conductor of its own cable. outside, driven: signals set by people or
    coils; `fire` is added where nothing is named so. effects: name -> kind.
    """
    boxes = [enclosure("PB", "panel"), enclosure("E"), *enclosures]
    box_of = {item["tag"]: item["enclosure"] for item in devices}
    fed = tuple(circuits) or (circuit("Q1"),)
    cables = [
        {
            "number": place,
            "name": f"wire {place}",
            "make": "field",
            "type": "THHN",
            "from": {"enclosure": box_of.get(a.split(":")[0], "PB")},
            "to": {"enclosure": box_of.get(b.split(":")[0], "PB")},
            "core": ({"id": "1", "colour": "BK", "size": size, "from": a, "to": b},),
        }
        for place, (a, b) in enumerate((line.split() for line in wires.strip().splitlines()), start=1)
    ]
    signals = [
        {
            "id": name,
            "name": name,
            "set_by": by,
            "fire": name.startswith("fire"),
            "latched": name in latched.split(),
        }
        for by, names in (("outside", outside), ("coil", driven))
        for name in names.split()
    ]
    if not any(item["fire"] for item in signals):
        signals.append({"id": "fire", "name": "fire", "set_by": "outside", "fire": True})
    return Sheet.model_validate(
        {
            "format": 1,
            "sheet": {"id": "small", "name": "small", "revision": "1", "source": "made for a test"},
            "group": (),
            "enclosure": tuple(boxes),
            "opening": (),
            "clamp": (CLAMP,),
            "device": tuple(devices),
            "circuit": fed,
            "cable": tuple(cables),
            "signal": tuple(signals),
            "effect": tuple(
                {"id": name, "name": name, "kind": kind}
                for name, kind in (effects or {"lamp": "light"}).items()
            ),
        }
        | more
    )


def small_job(**more: Any) -> Job:
    return Job.model_validate(
        {
            "format": 1,
            "job": {"name": "small", "sheet": "none", "revision": "1", "date": "2026-01-01", "code": 2023},
            "choices": (),
            "site": {"tolerance": "1/4 in"},
        }
        | more
    )


def small(devices: Sequence[dict[str, Any]], wires: str, **more: Any) -> Derived:
    """Derive a job from a small sheet."""
    return derive(small_sheet(devices, wires, **more), small_job())
