"""The interlock matrix: causes in rows, effects in columns, every cell stated."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.behaviour.interlocks import Does, interlock_matrix
from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from schedules.behaviour.interlocks import Cause, Cell, Matrix
    from schedules.plan import Plan

_NOTE = (
    "Solved, not declared. Contacts are named in shelf state: no power, no fire, nothing pulled in. on, off: whatever "
    "a person's switches are set to. follows: as they call for. unchanged: as just before. watched: an alarm input at "
    "rest through its end-of-line resistor. Rows in brackets are added to the sheet's own states."
)
_SIGNS = {Does.FOLLOWS: "follows", Does.UNCHANGED: "unchanged", Does.DEPENDS: "see note", Does.PART: "part"}


@dataclass(frozen=True, slots=True)
class InterlockRow:
    """One cause: what it does to each of `effects`, what a hand must reset, the time until all is at rest [s]."""

    cause: str
    name: str
    of_sheet: bool
    effects: tuple[str, ...]
    does: tuple[str, ...]
    reset: str
    after_s: float
    notes: str


@dataclass(frozen=True, slots=True)
class CauseRow:
    """One cause in words: the effects that are on, off, follow their call, do something else; times are seconds [s]."""

    cause: str
    name: str
    of_sheet: bool
    on: str
    off: str
    follows: str
    other: str
    reset: str
    after_s: float


def interlocks(plan: Plan) -> Schedule[InterlockRow]:
    """One row per cause, one column per effect."""
    matrix = interlock_matrix(plan.derived)
    names = {signal.id: signal.name for signal in plan.derived.sheet.signal}
    return Schedule(
        id="interlocks",
        title="Interlock matrix",
        columns=(
            Column("cause", "Cause", _shown_name),
            *(_effect_column(place, effect.id, effect.name) for place, effect in enumerate(matrix.effects)),
            Column("reset", "Reset by hand", lambda row: row.reset, rank=2),
            Column("delay", "At rest after", _delay, rank=2, right=True),
            Column("notes", "Notes", lambda row: row.notes, rank=2),
        ),
        rows=tuple(_row(cause, matrix, names) for cause in matrix.causes),
        note=_NOTE,
    )


def causes(plan: Plan) -> Schedule[CauseRow]:
    """The same matrix in words, one row per cause, for a narrow page."""
    matrix = interlock_matrix(plan.derived)
    names = {signal.id: signal.name for signal in plan.derived.sheet.signal}
    return Schedule(
        id="causes",
        title="Interlocks in words",
        columns=(
            Column("cause", "Cause", _shown_name),
            Column("on", "On", lambda row: row.on),
            Column("off", "Off", lambda row: row.off),
            Column("follows", "Follows its call", lambda row: row.follows),
            Column("other", "Else", lambda row: row.other, rank=2),
            Column("reset", "Reset by hand", lambda row: row.reset, rank=2),
            Column("delay", "At rest after", _delay, rank=3, right=True),
        ),
        rows=tuple(_in_words(cause, matrix, names) for cause in matrix.causes),
        note=_NOTE,
    )


def _effect_column(place: int, key: str, name: str) -> Column[InterlockRow]:
    return Column(key, name, lambda row: row.does[place])


def _row(cause: Cause, matrix: Matrix, names: dict[str, str]) -> InterlockRow:
    notes = [] if cause.settled else ["never comes to rest"]
    notes += dict.fromkeys(cell.note for cell in cause.cells if cell.note and not _is_watched(cell))
    return InterlockRow(
        cause=cause.case.id,
        name=cause.case.name,
        of_sheet=cause.case.of_sheet,
        effects=tuple(effect.id for effect in matrix.effects),
        does=tuple(map(sign, cause.cells)),
        reset=_reset(cause, names),
        after_s=cause.after_s,
        notes="; ".join(notes) or DASH,
    )


def _in_words(cause: Cause, matrix: Matrix, names: dict[str, str]) -> CauseRow:
    signs = list(zip((effect.name for effect in matrix.effects), map(sign, cause.cells), strict=True))

    def those(*wanted: str) -> str:
        return "; ".join(name for name, sign in signs if sign in wanted) or DASH

    other = [f"{name}: {sign}" for name, sign in signs if sign not in ("on", "off", "follows", "watched")]
    return CauseRow(
        cause=cause.case.id,
        name=cause.case.name,
        of_sheet=cause.case.of_sheet,
        on=those("on"),
        off=those("off", "watched"),
        follows=those("follows"),
        other="; ".join(other) or DASH,
        reset=_reset(cause, names),
        after_s=cause.after_s,
    )


def _shown_name(row: InterlockRow | CauseRow) -> str:
    return row.name if row.of_sheet else f"({row.name})"


def _reset(cause: Cause, names: dict[str, str]) -> str:
    return "; ".join(names.get(signal, signal) for signal in cause.held) or DASH


def sign(cell: Cell) -> str:
    """A cell in a word or two."""
    if _is_watched(cell):
        return "watched"
    return _SIGNS.get(cell.does, str(cell.does))


def _is_watched(cell: Cell) -> bool:
    return cell.does is Does.OFF and bool(cell.note)


def _delay(row: InterlockRow | CauseRow) -> str:
    return f"{row.after_s:g} s" if row.after_s else "at once"
