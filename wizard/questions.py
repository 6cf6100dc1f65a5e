"""Which questions each step asks, in which groups, and how each one stands."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from schedules.fields import FIELDS, fields_of
from schedules.findings import Edit
from schedules.lengths import Style, format_length, parse_length
from schedules.numerals import UnitError
from schedules.offers import offered, offered_choices
from schedules.routes import Unmeasured

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from schedules.derived import Derived
    from schedules.field import Field, Option
    from schedules.plan import Plan
    from schedules.sheet.choices import Group as SheetGroup
    from wizard.session import Snapshot

Answer = tuple[str, str | None, str]
StepId = Literal[
    "equipment", "options", "room", "places", "routes", "circuits", "findings", "schedules", "diagram"
]


@dataclass(frozen=True, slots=True)
class Question:
    """One question as it stands now.

    written: the answer as the file writes it, empty where there is none. shown: the same for the eye. needed: the
    plan waits for it. picked: the values taken, where there are options. closed: why it can't be answered yet.
    """

    field: Field
    row: str | None
    written: str
    shown: str
    needed: bool
    options: tuple[Option, ...] = ()
    picked: frozenset[str | int] = frozenset()
    several: bool = False
    closed: str = ""

    @property
    def answer(self) -> Answer:
        """Where the job keeps it: table, row, field."""
        return self.field.table, self.row, self.field.key

    @property
    def key(self) -> str:
        """A name for widgets."""
        return "/".join((self.field.table, self.row or "", self.field.key))


@dataclass(frozen=True, slots=True)
class Group:
    """Questions that belong together. spread: its options are rows of the screen rather than a list to open."""

    id: str
    title: str
    why: str
    questions: tuple[Question, ...]
    spread: bool = False

    @property
    def missing(self) -> int:
        """How many answers the plan waits for."""
        return sum(1 for question in self.questions if question.needed and not question.written)

    @property
    def answered(self) -> int:
        """How many are answered."""
        return sum(1 for question in self.questions if question.written)


def groups_of(step: StepId, snapshot: Snapshot, style: Style | None) -> tuple[Group, ...]:
    """The question groups of one step; none while there is no plan, and none for a step that only shows."""
    if snapshot.plan is None:
        return ()
    ask = _STEPS.get(step)
    return () if ask is None else tuple(ask(_Asking(snapshot, snapshot.plan, style, wanted(snapshot.plan))))


def wanted(plan: Plan) -> frozenset[Answer]:
    """Every answer that the plan waits for."""
    derived = plan.derived
    waiting: set[Answer] = set()
    for length in derived.lengths:
        if isinstance(length.route, Unmeasured):
            waiting.update(length.route.missing)
    taped = {run.cable for run in derived.job.run if run.route == "taped"}
    measured = {
        end.enclosure
        for cable in derived.selection.cables
        if cable.tag not in taped
        for end in (cable.origin, cable.target)
    }
    placed = {place.enclosure: place for place in derived.job.place}
    for tag in measured:
        for key in ("along", "out", "up"):
            if getattr(placed.get(tag), key, None) is None:
                waiting.add(("place", tag, key))
    return frozenset(waiting)


@dataclass(frozen=True, slots=True)
class _Asking:
    """Makes questions from one snapshot."""

    snapshot: Snapshot
    plan: Plan
    style: Style | None
    wanted: frozenset[Answer]

    @property
    def _derived(self) -> Derived:
        return self.plan.derived

    def equipment(self) -> Iterator[Group]:
        yield Group(
            "job",
            "Equipment and job",
            "What identifies the job on every page, and whose data it is planned by.",
            tuple(self._question(field) for field in fields_of("job")),
        )

    def options(self) -> Iterator[Group]:
        return (self._options(group) for group in self.snapshot.sheet.group)

    def _options(self, group: SheetGroup) -> Group:
        field = FIELDS["", "choices"]
        options = offered_choices(self._derived, group)
        chosen = self.snapshot.draft.job.choices
        picked = frozenset(option.value for option in options if option.value in chosen)
        titles = [option.words for option in options if option.value in picked]
        question = Question(
            field=field,
            row=None,
            written=", ".join(titles),
            shown=", ".join(titles) or ("none" if group.pick == "any" else ""),
            needed=group.pick != "any",
            options=options,
            picked=picked,
            several=group.pick != "one",
        )
        return Group(group.id, group.title, group.why, (question,), spread=True)

    def room(self) -> Iterator[Group]:
        yield Group(
            "site",
            "The room",
            "Measure along the wall from its left corner, out from it, and up from the floor.",
            tuple(self._question(field) for field in fields_of("site")),
        )

    def places(self) -> Iterator[Group]:
        for enclosure in self._derived.selection.enclosures:
            hint = f"Measure to {enclosure.place_hint}." if enclosure.place_hint else ""
            yield Group(
                enclosure.tag,
                f"{enclosure.tag}  {enclosure.name}",
                hint or "The point at which its cables enter.",
                tuple(self._question(field, enclosure.tag) for field in fields_of("place")),
            )

    def routes(self) -> Iterator[Group]:
        for cable in self._derived.selection.cables:
            run = next((item for item in self.snapshot.draft.job.run if item.cable == cable.tag), None)
            route = run.route if run is not None else None
            closed = "" if run is not None else "choose the route first"
            asked = [FIELDS["run", "route"]]
            asked += [FIELDS["run", key] for key in _FOLLOW.get(route or "", ())]
            asked += [
                FIELDS["run", key]
                for key in ("from_opening", "to_opening", "extension")
                if offered(self._derived, "run", cable.tag, key)
            ]
            questions = tuple(
                self._question(field, cable.tag, closed="" if field.key == "route" else closed)
                for field in asked
            )
            ends = f"{cable.origin.enclosure} to {cable.target.enclosure}"
            made = "factory cable, fixed length" if cable.make == "factory" else "cut on site"
            yield Group(cable.tag, f"{cable.tag}  {cable.name}", f"{ends}, {cable.type}, {made}.", questions)

    def ways(self) -> Iterator[Group]:
        yield from self.routes()
        yield from self.raceways()

    def raceways(self) -> Iterator[Group]:
        for raceway in self.snapshot.draft.job.raceway:
            yield Group(
                raceway.tag,
                f"{raceway.tag}  Raceway for {', '.join(raceway.cables) or 'no cable'}",
                "What is pulled through it decides its trade size.",
                tuple(self._question(field, raceway.tag) for field in fields_of("raceway")),
            )

    def circuits(self) -> Iterator[Group]:
        for circuit in self._derived.selection.circuits:
            poles = "1 pole" if circuit.poles == 1 else "2 poles"
            yield Group(
                circuit.tag,
                f"{circuit.tag}  {circuit.name}",
                f"{circuit.rating:g} A, {poles}{', individual branch circuit' if circuit.individual else ''}.",
                tuple(self._question(field, circuit.tag) for field in fields_of("circuit")),
            )

    def _question(self, field: Field, row: str | None = None, closed: str = "") -> Question:
        value = self.snapshot.written(field.table, row, field.key)
        options = offered(self._derived, field.table, row, field.key)
        written = _text(value)
        return Question(
            field=field,
            row=row,
            written=written,
            shown=self._shown(field, value, options),
            needed=(field.required and field.table in ("job", "site"))
            or (field.table, row, field.key) in self.wanted,
            options=options,
            picked=frozenset(_values(value)),
            several=field.reads == "options",
            closed=closed,
        )

    def _shown(self, field: Field, value: object, options: tuple[Option, ...]) -> str:
        if value is None:
            return ""
        if field.reads == "length":
            return shown_length(str(value), self.style)
        names = {option.value: option.words for option in options}
        if names:
            return ", ".join(names.get(item, str(item)) for item in _values(value))
        return _text(value)


_STEPS: dict[StepId, Callable[[_Asking], Iterator[Group]]] = {
    "equipment": _Asking.equipment,
    "options": _Asking.options,
    "room": _Asking.room,
    "places": _Asking.places,
    "routes": _Asking.ways,
    "circuits": _Asking.circuits,
}

_FOLLOW = {"taped": ("taped",), "waypoints": ("waypoint",)}
"""What a kind of route asks for besides."""


def shown_length(written: str, style: Style | None) -> str:
    """A length for the eye: as it was written where no style is asked for, or where it is no length."""
    if style is None:
        return written
    try:
        return format_length(parse_length(written), style)
    except UnitError:
        return written


def edits_for(question: Question, value: object) -> tuple[Edit, ...]:
    """The edit that gives a question this answer; None takes the answer out."""
    table, row, key = question.answer
    return (Edit(table, row, key, value),)


def _values(value: object) -> tuple[str | int, ...]:
    if value is None:
        return ()
    if isinstance(value, list):
        return tuple(item for item in value if isinstance(item, str | int))
    return (value,) if isinstance(value, str | int) else ()


def _text(value: object) -> str:
    if value is None:
        return ""
    if isinstance(value, list):
        points = [", ".join(point.values()) for point in value if isinstance(point, dict)]
        return "; ".join(points) or ", ".join(str(item) for item in value)
    return str(value)
