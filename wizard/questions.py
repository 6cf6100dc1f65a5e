"""Which questions each step asks, in which groups."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.fields import FIELDS, fields_of
from schedules.offers import offered
from schedules.routes import Unmeasured
from schedules.sheet.hardware import Load
from wizard.asking import Asking, entry_question
from wizard.question import Group

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from schedules.lengths import Style
    from schedules.plan import Plan
    from schedules.sheet.wiring import Cable, Circuit
    from wizard.question import Answer, Question, StepId
    from wizard.session import Snapshot

ROOM = ("ceiling", "above", "below")
POSITION = ("along", "out", "up")
_FOLLOW = {"taped": ("taped",), "waypoints": ("waypoint",)}
"""What a kind of route asks for besides."""
_OF_CABLE_ENDS = ("from_opening", "to_opening", "extension")
_OF_FIELD_CABLE = ("size", "ground")
_PANEL = ("downstream_of", "breaker_type", "spaces", "directory", "extends")
"""What of a circuit only the panel on site can tell; the rest is asked where the sheet leaves it open."""


def groups_of(step: StepId, snapshot: Snapshot, style: Style | None) -> tuple[Group, ...]:
    """The question groups of one step; none while there is no plan, and none for a step that only shows."""
    ask = _STEPS.get(step)
    if snapshot.plan is None or ask is None:
        return ()
    return tuple(ask(Asking(snapshot, snapshot.plan, style, wanted(snapshot.plan))))


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
    return frozenset(waiting)


def _equipment(asking: Asking) -> Iterator[Group]:
    yield Group(
        "job",
        "Equipment and job",
        "What identifies the job on every page, and whose data it is planned by.",
        tuple(asking.ask(field) for field in fields_of("job")),
    )
    for amendment in asking.snapshot.draft.job.amendment:
        yield Group(
            f"amendment {amendment.rule}",
            f"Local amendment of {amendment.rule}",
            "The number that the authority has put in place of the code's.",
            (
                *(asking.ask(field, amendment.rule) for field in fields_of("amendment")),
                entry_question("remove", "amendment", amendment.rule),
            ),
        )


def _options(asking: Asking) -> Iterator[Group]:
    for group in asking.snapshot.sheet.group:
        yield Group(group.id, group.title, group.why, (asking.ask_choices(group),), spread=True)


def _room(asking: Asking) -> Iterator[Group]:
    yield Group(
        "site",
        "The room",
        "Measure along the wall from its left corner, out from it, and up from the floor.",
        tuple(asking.ask(field) for field in fields_of("site")),
    )


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
    job = asking.snapshot.draft.job
    for raceway in job.raceway:
        title = f"{raceway.tag}  Raceway for {', '.join(raceway.cables)}"
        yield _entry_group(
            asking, "raceway", raceway.tag, title, "What is pulled through it decides its size."
        )
    for bundle in job.bundle:
        title = f"{bundle.tag}  Cables that lie together"
        yield _entry_group(asking, "bundle", bundle.tag, title, "Without air between them each carries less.")
    for member in job.framing:
        title = f"{member.tag}  {member.member.capitalize()} {member.lumber}"
        yield _entry_group(
            asking, "framing", member.tag, title, "What passes it, and what is left of the wood."
        )
    yield Group(
        "more",
        "What else bears on the cables",
        "Only where it is so on this site.",
        (entry_question("add", "bundle"), entry_question("add", "framing")),
    )


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


def _entry_group(asking: Asking, table: str, tag: str, title: str, why: str) -> Group:
    questions = (
        *(asking.ask(field, tag) for field in fields_of(table)),
        entry_question("remove", table, tag),
    )
    return Group(f"{table} {tag}", title, why, questions)


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
        if field.key in _PANEL or getattr(circuit, field.key, None) is None:
            yield asking.ask(field, circuit.tag)


_STEPS: dict[StepId, Callable[[Asking], Iterator[Group]]] = {
    "equipment": _equipment,
    "options": _options,
    "room": _room,
    "places": _places,
    "routes": _routes,
    "circuits": _circuits,
}
