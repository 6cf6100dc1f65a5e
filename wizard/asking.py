"""Make a question of a field and what the job says to it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.job.job_tables import TABLES
from schedules.quantities.lengths import Style, format_length, parse_length
from schedules.quantities.numerals import UnitError
from schedules.questions.field import Field, Option
from schedules.questions.fields import FIELDS
from schedules.questions.offers import offered, offered_choices
from schedules.raceways.raceway_edits import NEW, NONE, raceway_of
from wizard.question import Kind, Question

if TYPE_CHECKING:
    from schedules.derived import Derived
    from schedules.plan import Plan
    from schedules.sheet.choices import Group as SheetGroup
    from wizard.question import Answer
    from wizard.session import Snapshot

IN_RACEWAY = Field(
    "run",
    "in_raceway",
    "Raceway",
    "option",
    "Conduit or tubing that it is pulled through: an existing one together with its cables, or a new one.",
    "R1",
)


@dataclass(frozen=True, slots=True)
class Asking:
    """Makes questions from one snapshot. style: how lengths are shown.

    wanted: every answer that the plan waits for. doubted: every answer that a finding bears on.
    """

    snapshot: Snapshot
    plan: Plan
    style: Style | None
    wanted: frozenset[Answer]
    doubted: frozenset[Answer]

    @property
    def derived(self) -> Derived:
        """What was derived from the job."""
        return self.plan.derived

    def ask(self, field: Field, row: str | None = None, closed: str = "") -> Question:
        """One key of the job's file."""
        value = self.snapshot.written(field.table, row, field.key)
        options = offered(self.derived, field.table, row, field.key)
        return Question(
            field=field,
            row=row,
            written=as_text(value),
            shown=shown_value(field, value, options, self.style),
            needed=(field.required and field.table in ("job", "site"))
            or (field.table, row, field.key) in self.wanted,
            options=options,
            picked=frozenset(values_of(value)),
            several=field.reads == "options",
            closed=closed,
            doubted=(field.table, row, field.key) in self.doubted,
        )

    def ask_choices(self, group: SheetGroup) -> Question:
        """One group of the sheet's choices."""
        options = offered_choices(self.derived, group)
        chosen = self.snapshot.draft.job.choices
        picked = frozenset(option.value for option in options if option.value in chosen)
        titles = ", ".join(option.words for option in options if option.value in picked)
        return Question(
            field=FIELDS["", "choices"],
            row=None,
            written=titles,
            shown=titles,
            needed=group.pick != "any",
            options=options,
            picked=picked,
            several=group.pick != "one",
            kind="choices",
        )

    def ask_raceway(self, cable: str) -> Question:
        """Which raceway a cable is pulled through."""
        job = self.snapshot.draft.job
        inside = raceway_of(job, cable)
        there = [
            Option(item.tag, f"{item.tag}, {item.kind}", f"with {', '.join(item.cables)}")
            for item in job.raceway
        ]
        made = [
            Option(f"{NEW}{option.value}", f"a new {option.words}", option.note)
            for option in FIELDS["raceway", "kind"].options
        ]
        return Question(
            field=IN_RACEWAY,
            row=cable,
            written=inside or "",
            shown=next((option.words for option in there if option.value == inside), ""),
            options=(Option(NONE, "none"), *there, *made),
            picked=frozenset({inside or NONE}),
            kind="raceway",
        )


def entry_question(kind: Kind, table: str, row: str | None = None) -> Question:
    """A row of the screen that adds an entry to a table, or removes one from it."""
    one = TABLES[table].one
    if kind == "add":
        label, why = f"Add a {one}", TABLES[table].why
    else:
        label, why = f"Remove this {one}", "u takes it back."
    field = Field(table, kind, label, "line", why, "", longest=1)
    return Question(field, row, "", "press enter", kind=kind)


def shown_value(field: Field, value: object, options: tuple[Option, ...], style: Style | None) -> str:
    """A value as the file writes it, for the eye."""
    if value is None:
        return ""
    if field.reads == "length":
        return shown_length(str(value), style)
    names = {option.value: option.words for option in options}
    if names:
        return ", ".join(names.get(item, str(item)) for item in values_of(value))
    return as_text(value)


def shown_length(written: str, style: Style | None) -> str:
    """A length for the eye: as it was written where no style is asked for, or where it is no length."""
    if style is None:
        return written
    try:
        return format_length(parse_length(written), style)
    except UnitError:
        return written


def values_of(value: object) -> tuple[str | int, ...]:
    """The values that options are held against."""
    if isinstance(value, list):
        return tuple(item for item in value if isinstance(item, str | int))
    return (value,) if isinstance(value, str | int) else ()


def as_text(value: object) -> str:
    """A value as a person would type it."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, list):
        points = [
            ", ".join(str(part) for part in point.values()) for point in value if isinstance(point, dict)
        ]
        return "; ".join(points) or ", ".join(str(item) for item in value)
    return str(value)
