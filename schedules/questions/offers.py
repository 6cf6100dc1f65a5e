"""Which answers are possible to a question, as the equipment sheet and the other answers leave them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.quantities.lengths import format_length
from schedules.questions.field import Option
from schedules.questions.fields import FIELDS
from schedules.questions.picking import pick
from schedules.tables import load

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from schedules.derived import Derived
    from schedules.job.records import Site
    from schedules.sheet.choices import Choice, Group
    from schedules.sheet.wiring import Cable


_NAMES_A_WALL = (
    ("site", "range_wall"),
    ("place", "wall"),
    ("cabinet", "wall"),
    ("keep_out", "wall"),
    ("stud", "wall"),
)


def offered(derived: Derived, table: str, row: str | None, key: str) -> tuple[Option, ...]:
    """The possible answers to one question; those that can't be now carry the reason. Empty: free text."""
    if table == "run" and key in ("from_opening", "to_opening", "extension"):
        return _of_cable(derived, row, key)
    offers: dict[tuple[str, str], Callable[[], Iterable[Option]]] = {
        ("run", "route"): lambda: _routes(derived.job.site),
        ("circuit", "downstream_of"): lambda: _feeds(derived, row),
        ("raceway", "cables"): lambda: _cables(derived),
        ("as_built", "landed"): lambda: _ends(derived, row),
        ("bundle", "cables"): lambda: _cables(derived),
        ("framing", "cable"): lambda: _cables(derived),
        ("framing", "raceway"): lambda: _raceways(derived),
        ("framing", "lumber"): _lumber,
        ("wall", "lumber"): _lumber,
        **dict.fromkeys(_NAMES_A_WALL, lambda: _walls(derived)),
    }
    return tuple(offers.get((table, key), lambda: FIELDS[table, key].options)())


def offered_rows(derived: Derived, table: str) -> tuple[Option, ...]:
    """The names that a new entry of a table may have, where something else gives them; empty where a tag is made."""
    match table:
        case "space":
            return tuple(Option(item.tag, item.tag, item.name) for item in derived.selection.enclosures)
        case "as_built":
            return tuple(_cables(derived))
        case "step":
            return tuple(_steps(derived))
        case "amendment":
            rules = load("nec_rules").rows
            return tuple(Option(row.text("rule"), row.text("rule"), row.text("words")) for row in rules)
        case _:
            return ()


def _steps(derived: Derived) -> Iterator[Option]:
    # Deferred: few jobs state durations, and the order of work loads a graph library.
    from schedules.work.order_of_work import usual_steps  # noqa: PLC0415
    from schedules.work.site_work import brought  # noqa: PLC0415

    return (Option(step.id, step.id, step.work) for step in usual_steps(brought(derived.selection)))


def offered_choices(derived: Derived, group: Group) -> tuple[Option, ...]:
    """What one group of the sheet offers beside the choices made in the other groups."""
    chosen = frozenset(derived.job.choices)
    return tuple(_choice(derived, chosen, choice) for choice in group.choice)


def _choice(derived: Derived, chosen: frozenset[str], choice: Choice) -> Option:
    if choice.id in chosen:
        return Option(choice.id, choice.title, choice.note or "")
    picking = pick(derived.sheet, chosen, choice)
    notes = [choice.note or ""]
    notes += [f"Brings with it: {item.title}." for item in picking.brought]
    notes += [f"Takes out: {item.title}." for item in picking.dropped]
    return Option(choice.id, choice.title, " ".join(filter(None, notes)), picking.barred)


def _routes(site: Site) -> Iterator[Option]:
    closed = {
        "overhead": (
            ("the room says that nothing can run above the ceiling",) if site.above == "closed" else ()
        ),
        "underfloor": (("the room says that the floor is a slab",) if site.below == "slab" else ()),
    }
    for option in FIELDS["run", "route"].options:
        yield Option(option.value, option.words, option.note, closed.get(str(option.value), ()))


def _of_cable(derived: Derived, tag: str | None, key: str) -> tuple[Option, ...]:
    cable = next((item for item in derived.selection.cables if item.tag == tag), None)
    if cable is None:
        return ()
    if key == "extension":
        return tuple(_extensions(derived, cable))
    end = cable.origin if key == "from_opening" else cable.target
    return tuple(
        Option(
            opening.tag, opening.tag, f"{opening.kind}, {_size(opening.trade_size, opening.clear_diameter)}"
        )
        for opening in derived.selection.openings
        if opening.enclosure == end.enclosure
    )


def _cables(derived: Derived) -> Iterator[Option]:
    return (Option(cable.tag, cable.tag, cable.name) for cable in derived.selection.cables)


def _ends(derived: Derived, cable: str | None) -> Iterator[Option]:
    conductors = derived.connections.conductors.values()
    for conductor in sorted(conductors, key=lambda item: int(item.number)):
        if conductor.cable == cable:
            yield from (
                Option(str(end), f"{end}, wire {conductor.number}") for end in (conductor.a, conductor.b)
            )


def _raceways(derived: Derived) -> Iterator[Option]:
    return (Option(raceway.tag, raceway.tag, raceway.kind) for raceway in derived.job.raceway)


def _walls(derived: Derived) -> Iterator[Option]:
    return (Option(wall.tag, wall.tag, f"{format_length(wall.length)} long") for wall in derived.job.wall)


def _lumber() -> Iterator[Option]:
    return (Option(row.text("size"), row.text("size")) for row in load("lumber_actual_size").rows)


def _size(trade_size: object, clear_in: float | None) -> str:
    return f"trade size {trade_size}" if clear_in is None else f"{clear_in:.2f} in clear"


def _extensions(derived: Derived, cable: Cable) -> Iterator[Option]:
    names = {part.id: part.name for part in derived.sheet.part}
    for extension in cable.extension:
        name = names.get(extension.part, extension.part)
        yield Option(extension.part, name, f"{format_length(extension.length)} longer")


def _feeds(derived: Derived, tag: str | None) -> Iterator[Option]:
    for circuit in derived.selection.circuits:
        if circuit.tag != tag:
            yield Option(circuit.tag, f"load side of {circuit.tag}", circuit.name)
