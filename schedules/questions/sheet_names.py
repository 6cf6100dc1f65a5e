"""Which names a sheet has declared so far, for a key that has to hold one of them; the sheet may be unfinished."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from schedules.files.condition import Condition
from schedules.questions.field import Option

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from schedules.files.toml_positions import TomlPath


def declared(document: Mapping[str, Any], path: TomlPath, names: str) -> tuple[Option, ...]:
    """The names that may stand at a path, in the order in which the sheet declares them.

    names: what they are names of, as the list of keys says it.
    """
    return tuple(dict.fromkeys(_KINDS[names](document, path)))


def entry_title(entry: Mapping[str, Any]) -> str:
    """What an entry of a list is called: its own name or tag and what it says of itself."""
    name = next((entry[key] for key in _NAME_KEYS if _is_name(entry.get(key))), "")
    said = next((entry[key] for key in _SAY_KEYS if isinstance(entry.get(key), str)), "")
    return "  ".join(str(part) for part in (name, said) if part != "")


def condition_words(value: object) -> str:
    """A condition as the file has it, in words, though it may not be whole yet."""
    if not isinstance(value, dict):
        return Condition().in_words() if value is None else str(value)
    said = {key: tuple(map(str, value.get(key, ()))) for key in Condition.model_fields}
    return Condition.model_construct(None, **said).in_words()


_NAME_KEYS = ("tag", "id", "number", "from", "part", "across", "airflow")
_SAY_KEYS = (
    "name",
    "title",
    "kind",
    "potential",
    "type",
    "colour",
    "effect",
    "to",
    "enclosure",
    "reason",
    "up",
)


def _is_name(value: object) -> bool:
    return isinstance(value, str | int) and value != ""


def _entries(document: Mapping[str, Any], *tables: str) -> Iterator[Mapping[str, Any]]:
    """Every entry of a table, or of the tables within its entries."""
    around: list[Mapping[str, Any]] = [document]
    for table in tables:
        around = [
            entry
            for home in around
            for entry in (home.get(table) if isinstance(home.get(table), list) else ()) or ()
            if isinstance(entry, dict)
        ]
    yield from around


def _named(*tables: str, key: str) -> Callable[[Mapping[str, Any], TomlPath], Iterator[Option]]:
    def options(document: Mapping[str, Any], _path: TomlPath) -> Iterator[Option]:
        for entry in _entries(document, *tables):
            if isinstance(entry.get(key), str):
                yield Option(entry[key], entry_title(entry))

    return options


def _terminals(document: Mapping[str, Any], _path: TomlPath) -> Iterator[Option]:
    """Every terminal as DEVICE:TERMINAL, those of the breakers first."""
    for circuit in _entries(document, "circuit"):
        lines = ("L",) if circuit.get("poles") == 1 else ("L1", "L2")
        neutral = ("N",) if circuit.get("neutral") else ()
        trip = ("ST1", "ST2") if circuit.get("shunt_trip") else ()
        for name in (*lines, *neutral, "PE", *trip):
            tag = f"{circuit.get('tag', '')}:{name}"
            yield Option(tag, f"{tag}  {circuit.get('name', '')}".strip())
    for device in _entries(document, "device"):
        for terminal in _entries(device, "terminal"):
            tag = f"{device.get('tag', '')}:{terminal.get('id', '')}"
            yield Option(tag, f"{tag}  {terminal.get('potential', '')}".strip())


def _own(table: str) -> Callable[[Mapping[str, Any], TomlPath], Iterator[Option]]:
    """Terminals or loads of the device that the path is in."""

    def options(document: Mapping[str, Any], path: TomlPath) -> Iterator[Option]:
        for entry in _entries(_entry(document, path), table):
            if isinstance(entry.get("id"), str) and (table == "terminal" or entry.get("kind") == "load"):
                yield Option(entry["id"], entry_title(entry))

    return options


def _compartments(document: Mapping[str, Any], path: TomlPath) -> Iterator[Option]:
    """Compartments of the enclosure that the entry is in."""
    tag = _entry(document, path).get("enclosure")
    for enclosure in _entries(document, "enclosure"):
        if enclosure.get("tag") == tag:
            yield from (Option(name, name) for name in enclosure.get("compartments", ()))


def _openings(document: Mapping[str, Any], path: TomlPath) -> Iterator[Option]:
    """Openings of the enclosure in which this end of the cable lands; every one while that is not said."""
    cable = _entry(document, path)
    end = cable.get(str(path[-2])) if len(path) > 1 else None
    tag = end.get("enclosure") if isinstance(end, dict) else None
    for opening in _entries(document, "opening"):
        if tag is None or opening.get("enclosure") == tag:
            size = opening.get("trade_size") or opening.get("clear_diameter") or ""
            yield Option(str(opening.get("tag", "")), f"{opening.get('tag', '')}  {size}".strip())


def _entry(document: Mapping[str, Any], path: TomlPath) -> Mapping[str, Any]:
    """The entry of the first list on a path; an empty one where there is none."""
    entries = list(_entries(document, str(path[0])))
    place = path[1] if len(path) > 1 else None
    return entries[place] if isinstance(place, int) and place < len(entries) else {}


_KINDS: Mapping[str, Callable[[Mapping[str, Any], TomlPath], Iterator[Option]]] = {
    "choice": _named("group", "choice", key="id"),
    "enclosure": _named("enclosure", key="tag"),
    "opening": _openings,
    "compartment": _compartments,
    "clamp": _named("clamp", key="id"),
    "connector": _named("connector", key="id"),
    "circuit": _named("circuit", key="tag"),
    "terminal": _terminals,
    "own terminal": _own("terminal"),
    "own load": _own("element"),
    "signal": _named("signal", key="id"),
    "effect": _named("effect", key="id"),
    "state": _named("state", key="id"),
    "part": _named("part", key="id"),
}
