"""Which questions each step asks, in which groups."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.job.draft import ROW_KEYS
from schedules.job.job_tables import TABLES
from schedules.questions.fields import FIELDS, fields_of
from schedules.questions.offers import offered
from schedules.sheet.hardware import Load
from schedules.site.routes import Unmeasured
from wizard.asking import Asking, entry_question
from wizard.question import Group

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from schedules.plan import Plan
    from schedules.quantities.lengths import Style
    from schedules.sheet.wiring import Cable, Circuit
    from wizard.question import Answer, Question, StepId
    from wizard.session import Snapshot

ROOM = ("ceiling", "above", "below")
_MEASURED: tuple[StepId, ...] = ("room", "places")
POSITION = ("along", "out", "up")
_FOLLOW = {"taped": ("taped",), "waypoints": ("waypoint",)}
"""What a kind of route asks for besides."""
_OF_CABLE_ENDS = ("from_opening", "to_opening", "extension")
_OF_FIELD_CABLE = ("size", "ground")
_PANEL = ("downstream_of", "breaker_type", "gfci_receptacle", "spaces", "directory", "extends")
"""What of a circuit only the panel on site can tell; the rest is asked where the sheet leaves it open."""


def groups_of(step: StepId, snapshot: Snapshot, style: Style | None) -> tuple[Group, ...]:
    """The question groups of one step; none while there is no plan, and none for a step that only shows."""
    ask = _STEPS.get(step)
    plan = snapshot.plan
    if plan is None or ask is None:
        return ()
    return tuple(ask(Asking(snapshot, plan, style, wanted(plan), doubted(plan))))


def measurements(snapshot: Snapshot) -> tuple[tuple[Group, Question], ...]:
    """Every length of the room and the places, with its group: those that the plan waits for, else all of them."""
    every = [
        (group, question)
        for step in _MEASURED
        for group in groups_of(step, snapshot, None)
        for question in group.questions
        if question.field.reads == "length" and not question.closed
    ]
    return tuple(pair for pair in every if pair[1].missing) or tuple(every)


def wanted(plan: Plan) -> frozenset[Answer]:
    """Every answer that the plan waits for."""
    derived = plan.derived
    waiting: set[Answer] = set()
    for length in derived.lengths:
        if isinstance(length.route, Unmeasured):
            waiting.update(length.route.missing)
    known = {item.cable for item in derived.lengths if not isinstance(item.route, Unmeasured)}
    placed = {place.enclosure: place for place in derived.job.place}
    # A cable whose route is not chosen yet will want both its ends, so they are asked for from the start.
    for cable in derived.selection.cables:
        run = next((item for item in derived.job.run if item.cable == cable.tag), None)
        if cable.tag in known or (run is not None and run.route == "taped"):
            continue
        if run is None:
            # What lies above and below decides which routes there are to choose from.
            waiting.update(("site", None, key) for key in ROOM if getattr(derived.job.site, key) is None)
        for end in (cable.origin, cable.target):
            place = placed.get(end.enclosure)
            waiting.update(
                ("place", end.enclosure, key) for key in POSITION if getattr(place, key, None) is None
            )
    # Whatever else stands in the way for want of an answer asks for that answer.
    waiting.update(finding.answer for finding in plan.findings if finding.answer and finding.severity.blocks)
    return frozenset(waiting)


def doubted(plan: Plan) -> frozenset[Answer]:
    """Every answer that a finding bears on."""
    return frozenset(finding.answer for finding in plan.findings if finding.answer)


def _equipment(asking: Asking) -> Iterator[Group]:
    yield _single(asking, "job")
    yield from _several(asking, "amendment")


def _single(asking: Asking, table: str) -> Group:
    """A table that a job has once."""
    about = TABLES[table]
    return Group(table, about.title, about.why, tuple(asking.ask(field) for field in fields_of(table)))


def _several(asking: Asking, table: str) -> Iterator[Group]:
    """A table with entries: each of them, then a way to add one."""
    about, key = TABLES[table], ROW_KEYS[table]
    for entry in getattr(asking.snapshot.draft.job, table):
        row = getattr(entry, key)
        questions = (
            *(asking.ask(field, row) for field in fields_of(table)),
            entry_question("remove", table, row),
        )
        yield Group(f"{table} {row}", f"{row}  {about.one.capitalize()}", about.why, questions)
    yield Group(f"{table} +", about.title, about.why, (entry_question("add", table),))


def _options(asking: Asking) -> Iterator[Group]:
    for group in asking.snapshot.sheet.group:
        yield Group(group.id, group.title, group.why, (asking.ask_choices(group),), spread=True)


def _room(asking: Asking) -> Iterator[Group]:
    yield _single(asking, "site")
    yield _single(asking, "cooking_range")
    for table in ("wall", "cabinet", "keep_out"):
        yield from _several(asking, table)
    yield _single(asking, "routing")


def _places(asking: Asking) -> Iterator[Group]:
    placed = {place.enclosure for place in asking.snapshot.draft.job.place}
    boxes = {box.enclosure for box in asking.snapshot.draft.job.box}
    for enclosure in asking.derived.selection.enclosures:
        measured = "" if enclosure.tag in placed else "measure the position first"
        questions = [
            asking.ask(field, enclosure.tag, closed="" if field.key in POSITION else measured)
            for field in fields_of("place")
        ]
        if enclosure.kind == "box":
            given = "" if enclosure.tag in boxes else "give the volume first"
            questions += [
                asking.ask(field, enclosure.tag, closed="" if field.required else given)
                for field in fields_of("box")
            ]
        hint = f"Measure to {enclosure.place_hint}." if enclosure.place_hint else "Where its cables enter."
        yield Group(enclosure.tag, f"{enclosure.tag}  {enclosure.name}", hint, tuple(questions))


def _routes(asking: Asking) -> Iterator[Group]:
    for cable in asking.derived.selection.cables:
        ends = f"{cable.origin.enclosure} to {cable.target.enclosure}"
        made = "factory cable, fixed length" if cable.make == "factory" else "cut on site"
        yield Group(
            cable.tag,
            f"{cable.tag}  {cable.name}",
            f"{ends}, {cable.type}, {made}.",
            tuple(_of_cable(asking, cable)),
        )
    for table in ("raceway", "bundle", "framing", "stock", "as_built"):
        yield from _several(asking, table)


def _mounting(asking: Asking) -> Iterator[Group]:
    yield _single(asking, "mounting")
    yield from _several(asking, "stud")
    yield from _several(asking, "space")
    yield _single(asking, "work")
    yield from _several(asking, "step")


def _air(asking: Asking) -> Iterator[Group]:
    yield _single(asking, "duct")
    yield from _several(asking, "fitting")
    yield _single(asking, "air")
    yield _single(asking, "gas")


def _of_cable(asking: Asking, cable: Cable) -> Iterator[Question]:
    run = next((item for item in asking.snapshot.draft.job.run if item.cable == cable.tag), None)
    closed = "" if run is not None else "choose the route first"
    yield asking.ask(FIELDS["run", "route"], cable.tag)
    for key in _FOLLOW.get(run.route, ()) if run is not None else ():
        yield asking.ask(FIELDS["run", key], cable.tag)
    yield asking.ask_raceway(cable.tag)
    for key in _OF_CABLE_ENDS:
        if offered(asking.derived, "run", cable.tag, key):
            yield asking.ask(FIELDS["run", key], cable.tag, closed)
    yield asking.ask(FIELDS["run", "ambient"], cable.tag, closed)
    for key in _OF_FIELD_CABLE if cable.make == "field" else ():
        yield asking.ask(FIELDS["run", key], cable.tag, closed)


def _circuits(asking: Asking) -> Iterator[Group]:
    for circuit in asking.derived.selection.circuits:
        poles = "1 pole" if circuit.poles == 1 else "2 poles"
        alone = ", individual branch circuit" if circuit.individual else ""
        yield Group(
            circuit.tag,
            f"{circuit.tag}  {circuit.name}",
            f"{circuit.rating:g} A, {poles}{alone}.",
            tuple(_of_circuit(asking, circuit)),
        )
    effects = {effect.id: effect.name for effect in asking.snapshot.sheet.effect}
    for device in asking.derived.selection.devices:
        for load in device.element:
            if isinstance(load, Load):
                name = f"{device.tag}.{load.id}"
                yield Group(
                    name,
                    f"{name}  {device.name}: {effects.get(load.effect, load.effect)}",
                    "Only where the nameplate says otherwise than the equipment sheet.",
                    tuple(asking.ask(field, name) for field in fields_of("nameplate")),
                )


def _of_circuit(asking: Asking, circuit: Circuit) -> Iterator[Question]:
    for field in fields_of("circuit"):
        open_in_sheet = getattr(circuit, field.key, None) is None
        said = asking.snapshot.written("circuit", circuit.tag, field.key) is not None
        if field.key in _PANEL or open_in_sheet or said:
            yield asking.ask(field, circuit.tag)


_STEPS: dict[StepId, Callable[[Asking], Iterator[Group]]] = {
    "equipment": _equipment,
    "options": _options,
    "room": _room,
    "places": _places,
    "routes": _routes,
    "circuits": _circuits,
    "mounting": _mounting,
    "air": _air,
}
