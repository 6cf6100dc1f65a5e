"""A small kitchen for tests of circuits, boxes and framing: hood, electric range, a fan by others, a signal pair.

Invented. Every run is taped, so that lengths are known: entry, free conductor and service loop are left out.
"""

from __future__ import annotations

import copy
from typing import TYPE_CHECKING, Any

import tomlkit

from schedules.job.draft import draft_from_text
from schedules.job.records import Job
from schedules.plan import plan_job
from schedules.remedies import with_remedies
from schedules.rows.every import SCHEDULES
from schedules.sheet.consistency import disagreements
from schedules.sheet.sheet import Sheet

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.circuits.circuit_plan import CircuitPlan
    from schedules.findings import Finding
    from schedules.plan import Plan

CLAMP = {
    "id": "any",
    "style": "screw",
    "smallest": "22 AWG",
    "largest": "2 AWG",
    "holds": 4,
    "prepare": "bare",
    "strip": "3/8 in",
}


LIMITED = {"class": "class-2"}


def _enclosure(tag: str, kind: str, **more: Any) -> dict[str, Any]:
    return {
        "tag": tag,
        "name": tag,
        "kind": kind,
        "metal": False,
        "entry": "0 in",
        "free_conductor": "0 in",
    } | more


def _circuit(tag: str, serves: str, poles: int = 1, rating: str = "15 A", **more: Any) -> dict[str, Any]:
    return {
        "tag": tag,
        "name": tag,
        "poles": poles,
        "neutral": True,
        "rating": rating,
        "individual": True,
        "serves": serves,
    } | more


def _terminal(name: str, potential: str, carries: str, **more: Any) -> dict[str, Any]:
    return {
        "id": name,
        "potential": potential,
        "carries": carries,
        "clamp": "any",
        "land": "optional",
    } | more


def _element(kind: str, name: str, a: str, b: str, **more: Any) -> dict[str, Any]:
    return {"kind": kind, "id": name, "between": (a, b)} | more


def _device(tag: str, box: str, terminals: tuple[Any, ...], *elements: Any, **more: Any) -> dict[str, Any]:
    return {"tag": tag, "name": tag, "enclosure": box, "terminal": terminals, "element": elements} | more


def _cable(number: int, kind: str, origin: str, target: str, *cores: str, **more: Any) -> dict[str, Any]:
    """A cable; each core reads `COLOUR SIZE FROM TO`, sizes in AWG."""
    return {
        "number": number,
        "name": f"cable {number}",
        "make": "field",
        "type": kind,
        "from": {"enclosure": origin},
        "to": {"enclosure": target},
        "core": tuple(
            {"id": f"{place}", "colour": colour, "size": f"{size} AWG", "from": a, "to": b}
            for place, (colour, size, a, b) in enumerate((core.split() for core in cores), start=1)
        ),
    } | more


SHEET: dict[str, Any] = {
    "format": 1,
    "sheet": {"id": "kitchen", "name": "kitchen", "revision": "1", "source": "made for a test"},
    "group": (),
    "enclosure": (
        _enclosure("PB", "panel"),
        _enclosure("H", "equipment"),
        _enclosure("RR", "box", volume="60 cu in", internal_clamps=False),
        _enclosure("FN", "by-others"),
        _enclosure("SA", "equipment"),
        _enclosure("SB", "equipment"),
    ),
    "opening": (
        {"tag": "RRK1", "enclosure": "RR", "kind": "knockout", "trade_size": "1-1/4"},
        {"tag": "HK1", "enclosure": "H", "kind": "knockout", "trade_size": "2"},
    ),
    "clamp": (CLAMP,),
    "connector": (
        {"id": "big", "name": "big round plug", "poles": 2, "diameter": "1.75 in", "rigid_length": "3 in"},
    ),
    "circuit": (
        _circuit("Q1", "controls", connection="hardwired"),
        _circuit(
            "Q2",
            "cooking",
            2,
            "50 A",
            multiwire=True,
            connection="cord",
            receptacle="50 A",
            receptacles=1,
        ),
        _circuit("Q3", "fan", connection="hardwired"),
    ),
    "device": (
        _device(
            "X1",
            "H",
            (
                _terminal("L", "Q1 L", "line"),
                _terminal("N", "Q1 N", "neutral"),
                _terminal("PE", "PE", "ground"),
            ),
            _element("load", "electronics", "L", "N", rated="120 V", power="60 W", effect="controls"),
        ),
        _device(
            "S1",
            "SA",
            (_terminal("1", "loop +", "signal", **LIMITED), _terminal("2", "loop -", "signal", **LIMITED)),
            _element("supply", "loop", "1", "2", volts="24 V", current="dc", listed="class-2"),
        ),
        _device(
            "S2",
            "SB",
            (_terminal("1", "loop +", "signal", **LIMITED), _terminal("2", "loop -", "signal", **LIMITED)),
            _element("resistor", "end-of-line", "1", "2", ohms="4.7 kohm"),
        ),
        _device(
            "K1",
            "H",
            (
                _terminal("L", "Q3 L", "line"),
                _terminal("T", "fan line", "line"),
                _terminal("N1", "Q3 N", "neutral"),
                _terminal("N2", "Q3 N", "neutral"),
                _terminal("PE1", "PE", "ground"),
                _terminal("PE2", "PE", "ground"),
            ),
            _element(
                "contact",
                "fan",
                "L",
                "T",
                form="NO",
                operates={"all": ("fan-key",)},
                rated="10 A",
                rated_for="motor",
                rated_voltage="120 V",
            ),
            _element("link", "neutral", "N1", "N2"),
            _element("link", "ground", "PE1", "PE2"),
        ),
        _device(
            "X2",
            "RR",
            (
                _terminal("X", "Q2 L1", "line"),
                _terminal("Y", "Q2 L2", "line"),
                _terminal("W", "Q2 N", "neutral"),
                _terminal("G", "PE", "ground"),
            ),
            _element(
                "load",
                "elements",
                "X",
                "Y",
                rated="240 V",
                power="12 kW",
                effect="heat",
                appliance="electric range",
            ),
            mounts="yoke",
            gangs=2,
        ),
        _device(
            "M1",
            "FN",
            (
                _terminal("L", "fan line", "line"),
                _terminal("N", "Q3 N", "neutral"),
                _terminal("PE", "PE", "ground"),
            ),
            _element(
                "load",
                "motor",
                "L",
                "N",
                rated="120 V",
                current="6 A",
                effect="air",
                motor=True,
                continuous=True,
            ),
        ),
    ),
    "cable": (
        _cable(
            1,
            "NM-B 14/2 G",
            "PB",
            "H",
            "BK 14 Q1:L X1:L",
            "WH 14 Q1:N X1:N",
            "bare 14 Q1:PE X1:PE",
            circuit="Q1",
        ),
        _cable(
            2,
            "NM-B 6/3 G",
            "PB",
            "RR",
            "BK 6 Q2:L1 X2:X",
            "RD 6 Q2:L2 X2:Y",
            "WH 6 Q2:N X2:W",
            "bare 10 Q2:PE X2:G",
            circuit="Q2",
        ),
        _cable(
            3,
            "NM-B 14/2 G",
            "PB",
            "H",
            "BK 14 Q3:L K1:L",
            "WH 14 Q3:N K1:N1",
            "bare 14 Q3:PE K1:PE1",
            circuit="Q3",
        ),
        _cable(
            4,
            "NM-B 14/2 G",
            "H",
            "FN",
            "BK 14 K1:T M1:L",
            "WH 14 K1:N2 M1:N",
            "bare 14 K1:PE2 M1:PE",
            circuit="Q3",
        ),
        _cable(5, "CL2 18/2", "SA", "SB", "RD 18 S1:1 S2:1", "BK 18 S1:2 S2:2", **LIMITED),
    ),
    "signal": (
        {"id": "fan-key", "name": "fan key", "set_by": "outside"},
        {"id": "fire", "name": "fire", "set_by": "outside", "fire": True},
    ),
    "effect": (
        {"id": "controls", "name": "controls", "kind": "controls"},
        {"id": "heat", "name": "heat", "kind": "cooking"},
        {"id": "air", "name": "air", "kind": "exhaust"},
    ),
}

JOB: dict[str, Any] = {
    "format": 1,
    "job": {"name": "kitchen", "sheet": "none", "revision": "1", "date": "2026-01-01", "code": 2023},
    "choices": (),
    "site": {"tolerance": "1/4 in", "ambient": "30 C"},
    "run": tuple({"cable": f"W{number}", "route": "taped", "taped": "30 ft"} for number in range(1, 6)),
}

_NAMES = {"circuit": "tag", "enclosure": "tag", "device": "tag", "cable": "number", "run": "cable"}


def sheet(changes: Mapping[str, Any] | None = None) -> Sheet:
    """The kitchen's sheet. changes: `circuit.Q2.rating` or `device.X2.element.elements.power` -> value."""
    made = Sheet.model_validate(_changed(SHEET, changes or {}))
    assert disagreements(made) == []
    return made


def job(changes: Mapping[str, Any] | None = None, **more: Any) -> Job:
    """The kitchen's job. changes: `run.W1.taped` or `site.ambient` -> value; more: whole tables."""
    return Job.model_validate(_changed(JOB, changes or {}) | more)


def planned(
    in_sheet: Mapping[str, Any] | None = None, in_job: Mapping[str, Any] | None = None, **more: Any
) -> Plan:
    """The kitchen planned with these changes."""
    return plan_job(sheet(in_sheet), job(in_job, **more))


def found(plan: Plan, code: str) -> list[Finding]:
    """The findings of one check."""
    return [finding for finding in plan.findings if finding.code == code]


def codes(plan: Plan) -> set[str]:
    """What is found at all."""
    return {finding.code for finding in plan.findings}


def _changed(base: dict[str, Any], changes: Mapping[str, Any]) -> dict[str, Any]:
    data: dict[str, Any] = copy.deepcopy(base)
    for path, value in changes.items():
        *way, last = path.split(".")
        home: Any = data
        for place, step in enumerate(way):
            home = home[step] if isinstance(home, dict) else _row(home, way[place - 1], step)
        if value is None:
            home.pop(last, None)
        else:
            home[last] = value
    return data


def _row(rows: Any, table: str, name: str) -> Any:
    key = _NAMES.get(table, "id")
    return next(row for row in rows if str(row[key]) == name.removeprefix("W") or row[key] == name)


def remedied(
    in_sheet: Mapping[str, Any] | None = None, in_job: Mapping[str, Any] | None = None, **more: Any
) -> Plan:
    """The kitchen planned with these changes, each remedy planned again and kept only if it cures."""
    text = tomlkit.dumps(_changed(JOB, in_job or {}) | more)
    draft = draft_from_text(text, "job.toml")
    made = sheet(in_sheet)
    return with_remedies(made, draft, plan_job(made, draft.job))


def words(plan: Plan, code: str) -> list[str]:
    """The remedies with edits that were proved for the one finding of a check."""
    (finding,) = found(plan, code)
    return [remedy.words for remedy in finding.remedies if remedy.edits]


def branch(plan: Plan, tag: str) -> CircuitPlan:
    """What the plan says of one circuit."""
    return next(item for item in plan.derived.branches if item.circuit.tag == tag)


def row(plan: Plan, tag: str) -> Any:
    """The circuit's row on paper."""
    return next(item for item in SCHEDULES["circuits"](plan).rows if item.circuit == tag)
