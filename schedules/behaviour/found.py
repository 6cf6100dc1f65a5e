"""What was found, as a person writes it: `state cooking = exhaust off`, `ohms X1:1L X1:1N = OL`."""

from __future__ import annotations

import difflib
from typing import TYPE_CHECKING

from schedules.behaviour.foretelling import RIGHT
from schedules.behaviour.meter_words import OPEN, read_ohms, read_volts
from schedules.behaviour.probes import ProbeKind
from schedules.quantities.numerals import UnitError
from schedules.text import printable

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from schedules.behaviour.diagnose import Finder, Found
    from schedules.behaviour.foretelling import Value
    from schedules.behaviour.probes import Probe

_LEVELS = {"off": 0.0, "part": 0.5, "on": 1.0}
_ANSWERS = {"no": 0.0, "yes": 1.0}
_OHMS = (ProbeKind.OHMS, ProbeKind.ELEMENT, ProbeKind.LOOP)


def read_found(finder: Finder, text: str) -> Found:
    """Read `PROBE = VALUE`. Raises UnitError, which says what may stand there."""
    name, equals, value = text.partition("=")
    if not equals:
        raise UnitError(printable(text), "PROBE = VALUE, such as state cooking = all right")
    probe = finder.probe(" ".join(name.split()))
    if probe is None:
        close = difflib.get_close_matches(name.strip(), [item.id for item in finder.probes], n=1)
        hint = f"; did you mean {close[0]}?" if close else ""
        raise UnitError(printable(name.strip()), f"a probe by its name{hint}")
    return finder.found(probe, read_value(finder, probe, value.strip()))


def read_value(finder: Finder, probe: Probe, text: str) -> Value:
    """Read what a probe showed: a level, yes or no, a quantity, or words. Raises UnitError."""
    if probe.kind is ProbeKind.SEE:
        return _one_of(text, _LEVELS)
    if probe.kind is ProbeKind.LOOK:
        return _one_of(text, _ANSWERS)
    if probe.kind is ProbeKind.VOLTS:
        return read_volts(text)
    if probe.kind in _OHMS:
        return read_ohms(text)
    words = _words(text, finder.possible(probe))
    if probe.kind is ProbeKind.STATE and words != RIGHT:
        _refuse_unseen(words, effects_seen(finder, probe.case))
    return words


def effects_seen(finder: Finder, case: str) -> tuple[str, ...]:
    """The effects that can be looked at in a state, by their ids."""
    return tuple(item.subject for item in finder.probes if item.kind is ProbeKind.SEE and item.case == case)


def _refuse_unseen(words: str, effects: tuple[str, ...]) -> None:
    """What is wrong in a state is an effect's level, something that trips, or contacts that chatter."""
    for part in _parts(words):
        thing, _, does = part.rpartition(" ")
        if not (part == "chatters" or (thing and does == "trips") or (thing in effects and does in _LEVELS)):
            allowed = f"all right, or what is wrong, such as {effects[0]} off; effects: {', '.join(effects)}"
            raise UnitError(printable(part), allowed)


def show_value(probe: Probe, value: Value) -> str:
    """Show a value as it is read."""
    if isinstance(value, str):
        return value
    if probe.kind is ProbeKind.SEE:
        return next(word for word, level in _LEVELS.items() if level == value)
    if probe.kind is ProbeKind.LOOK:
        return next(word for word, level in _ANSWERS.items() if level == value)
    if value == OPEN:
        return "OL"
    unit = "V" if probe.kind is ProbeKind.VOLTS else "ohm"
    return f"{value:.0f} {unit}" if value >= 10 else f"{value:.1f} {unit}"


def told_value(probe: Probe, value: Value, names: Mapping[str, str]) -> str:
    """Say a value to who need not enter it, by the names of effects and breakers. names: of effects, by their ids."""
    if probe.kind is not ProbeKind.STATE or not isinstance(value, str):
        return show_value(probe, value)
    return "; ".join(_told(part, names) for part in value.split(", "))


def _told(part: str, names: Mapping[str, str]) -> str:
    """One thing that is wrong in a state."""
    thing, _, does = part.rpartition(" ")
    if does == "trips":
        return f"{thing.upper()} trips"
    return f"{names[thing]}: {does}" if thing in names else part


def outcome_words(probe: Probe, value: Value) -> str:
    """Say what a probe may show before it is taken: of loads only that they measure something, not how much."""
    if probe.kind in (ProbeKind.OHMS, ProbeKind.ELEMENT) and value not in (0.0, OPEN):
        return "some ohms"
    return show_value(probe, value)


def _one_of(text: str, words: dict[str, float]) -> float:
    value = words.get(text.lower())
    if value is None:
        raise UnitError(printable(text) or "nothing", " or ".join(words))
    return value


def _words(text: str, possible: Iterable[Value]) -> str:
    """Words in any order; those that no single fault leads to stand as they are, for two faults may."""
    given = _parts(text)
    if not text or given in ({"ok"}, {RIGHT}):
        return RIGHT
    for value in possible:
        if isinstance(value, str) and _parts(value) == given:
            return value
    return ", ".join(sorted(given))


def _parts(text: str) -> frozenset[str]:
    return frozenset(" ".join(part.split()) for part in text.split(",") if part.strip())
