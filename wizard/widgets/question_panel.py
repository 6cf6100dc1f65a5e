"""One question group at a time, as rows; the others are a key away."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import getters
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from wizard.widgets.question_row import QuestionRow
from wizard.wording import question_content

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from textual.app import ComposeResult

    from wizard.messages import Looked
    from wizard.question import Answer, Group, Question


class QuestionPanel(Vertical):
    """The groups of one step, one of them in view."""

    head = getters.query_one("#group-title", Static)
    reason = getters.query_one("#group-why", Static)
    rows = getters.query_one("#rows", VerticalScroll)
    about = getters.query_one("#about", Static)

    class PastEnd(Message):
        """The cursor went beyond the first or last group: forward tells which way."""

        def __init__(self, *, forward: bool) -> None:
            super().__init__()
            self.forward = forward

    def __init__(self, *, id: str) -> None:  # noqa: A002  the framework's own word
        super().__init__(id=id)
        self._groups: tuple[Group, ...] = ()
        self._place = 0
        self._typed: dict[str, str] = {}
        self._empty = ""
        # Rows are kept and given other questions, so that keys typed ahead find a row to go to.
        self._kept: list[QuestionRow] = []

    def compose(self) -> ComposeResult:
        """Lay the panel out."""
        yield Static(id="group-title")
        yield Static(id="group-why")
        yield VerticalScroll(id="rows", can_focus=False)
        yield Static(id="about")

    @property
    def group(self) -> Group | None:
        """The group in view."""
        return self._groups[self._place] if self._groups else None

    @property
    def in_view(self) -> list[QuestionRow]:
        """The rows in view, from the top."""
        return [row for row in self._kept if row.display]

    def show(self, groups: tuple[Group, ...], *, fresh: bool, empty: str) -> None:
        """Take the groups as they stand now. fresh: another step's, so begin with the first that waits for answers.

        empty: what is said where there are none.
        """
        self._empty = empty
        before, cursor = self.group, self._under_cursor()
        self._keep_typed()
        self._groups = groups
        if fresh:
            self._place = next((place for place, group in enumerate(groups) if group.missing), 0)
        elif before is not None:
            self._place = next(
                (place for place, group in enumerate(groups) if group.id == before.id),
                min(self._place, max(len(groups) - 1, 0)),
            )
        self._fill()
        if cursor is not None and not fresh and self._under_cursor() != cursor:
            self._stand_on(lambda row: (row.question.key, row.place) == cursor)
        here = next((row for row in self.in_view if row.has_focus_within), None)
        if here is not None:
            # What stands there now may be another answer than the one that was explained.
            self.about.update(question_content(here.question))

    def turn(self, by: int, *, last_row: bool = False) -> None:
        """Go to another group; beyond the ends, ask for the next or previous step."""
        place = self._place + by
        if not 0 <= place < len(self._groups):
            self.post_message(self.PastEnd(forward=by > 0))
            return
        self._keep_typed()
        self._place = place
        self._fill()
        self.rows.scroll_home(animate=False)
        self.enter(last_row=last_row)

    def seek(self, answer: Answer, subject: str) -> None:
        """Bring the question that asks for this answer under the cursor, else one about its subject."""
        wishes: tuple[Callable[[Question], bool], ...] = (
            lambda question: question.answer == answer,
            lambda question: question.answer[:2] == answer[:2],
            lambda question: question.row == subject,
            lambda question: question.field.table == answer[0],
        )
        place = next((place for wish in wishes if (place := self._holding(wish)) is not None), self._place)
        self._keep_typed()
        self._place = place
        self._fill()
        in_raceway = answer[0] == "raceway"
        self._stand_on(
            lambda row: row.question.answer == answer,
            lambda row: in_raceway and row.question.kind == "raceway",
        )

    def enter(self, *, last_row: bool = False) -> None:
        """Put the cursor on the first question that waits for an answer, else on the first, or on the last."""
        if last_row:
            last = self.in_view[-1:]
            self._stand_on(lambda row: row in last)
        else:
            self._stand_on(lambda row: row.question.missing, lambda row: row.picked)

    def row_of(self, key: str) -> QuestionRow | None:
        """The row of one question, if it is in view."""
        return next((row for row in self.in_view if row.question.key == key), None)

    def move(self, row: QuestionRow, by: int) -> None:
        """Move the cursor from one row to another, over the group's edge where need be."""
        rows = self.in_view
        place = rows.index(row) + by if row in rows else 0
        if 0 <= place < len(rows):
            self.screen.set_focus(rows[place])
        else:
            self.turn(by, last_row=by < 0)

    def on_looked(self, event: Looked) -> None:
        """Explain the question under the cursor."""
        event.stop()
        self.about.update(question_content(event.question))

    def _holding(self, fits: Callable[[Question], bool]) -> int | None:
        """The first group with a question that fits."""
        return next(
            (place for place, group in enumerate(self._groups) if any(map(fits, group.questions))), None
        )

    def _stand_on(self, *wishes: Callable[[QuestionRow], bool]) -> None:
        """Put the cursor on the first row that fulfils a wish, the first wish first, else on the first row."""
        rows = self.in_view
        fitting = (row for wish in wishes for row in rows if wish(row))
        target = next(fitting, rows[0] if rows else None)
        if target is not None:
            self.screen.set_focus(target)
            self.call_after_refresh(target.scroll_visible, animate=False)
            self.about.update(question_content(target.question))

    def _under_cursor(self) -> tuple[str, int | None] | None:
        """The question, and the option, that the cursor stands on."""
        return next(((row.question.key, row.place) for row in self.in_view if row.has_focus_within), None)

    def _keep_typed(self) -> None:
        """Remember what was typed and not accepted, and forget what was."""
        for row in self.in_view:
            typed = row.unaccepted
            if typed is not None and row.place is None:
                self._typed[row.question.key] = typed
            else:
                self._typed.pop(row.question.key, None)

    def _fill(self) -> None:
        """Give the rows the questions of the group in view; more rows are made where there are too few."""
        wanted = list(_contents(self.group))
        for number, (question, place) in enumerate(wanted):
            typed = self._typed.get(question.key) if place is None else None
            if number == len(self._kept):
                self._kept.append(QuestionRow(question, self.move, place))
                self.rows.mount(self._kept[-1])
            self._kept[number].show(question, place, typed)
            self._kept[number].display = True
        for row in self._kept[len(wanted) :]:
            row.display = False
        self._title()

    def _title(self) -> None:
        group = self.group
        if group is None:
            self.head.update(Content(self._empty))
            self.reason.update(Content(""))
            self.about.update(Content(""))
            return
        count = f"   {self._place + 1} of {len(self._groups)}" if len(self._groups) > 1 else ""
        self.head.update(Content.assemble((group.title, "bold"), count))
        self.reason.update(Content(group.why))


def _contents(group: Group | None) -> Iterable[tuple[Question, int | None]]:
    """What the rows show: the questions, or, where they are spread, the options of the one question."""
    if group is None:
        return ()
    if group.spread:
        return ((group.questions[0], place) for place in range(len(group.questions[0].options)))
    return ((question, None) for question in group.questions)
