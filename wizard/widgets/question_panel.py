"""One question group at a time, as rows; the others are a key away."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import getters
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Static

from wizard.widgets.answer_row import AnswerRow
from wizard.widgets.option_row import OptionRow
from wizard.wording import question_content

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from textual.app import ComposeResult

    from wizard.messages import Looked, Moved
    from wizard.question import Answer, Group, Question

Row = AnswerRow | OptionRow


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

    async def show(self, groups: tuple[Group, ...], *, fresh: bool) -> None:
        """Take the groups as they stand now. fresh: another step's, so begin with the first that waits for answers."""
        before = self.group
        self._groups = groups
        if fresh:
            self._place = next((place for place, group in enumerate(groups) if group.missing), 0)
        elif before is not None:
            self._place = next(
                (place for place, group in enumerate(groups) if group.id == before.id),
                min(self._place, max(len(groups) - 1, 0)),
            )
        if fresh or not self._same_rows(before):
            await self._rebuild()
        else:
            self._update()

    async def turn(self, by: int, *, last_row: bool = False) -> None:
        """Go to another group; beyond the ends, ask for the next or previous step."""
        place = self._place + by
        if not 0 <= place < len(self._groups):
            self.post_message(self.PastEnd(forward=by > 0))
            return
        self._keep_typed()
        self._place = place
        await self._rebuild()
        self.enter(last_row=last_row)

    async def seek(self, answer: Answer, subject: str) -> None:
        """Bring the question that asks for this answer under the cursor, else one about its subject."""
        place = self._holding(lambda question: question.answer == answer)
        if place is None:
            place = self._holding(lambda question: question.answer[:2] == answer[:2])
        if place is None:
            place = self._holding(lambda question: question.row == subject)
        if place is not None and place != self._place:
            self._keep_typed()
            self._place = place
            await self._rebuild()
        rows = list(self.every_row())
        exact = next((row for row in rows if row.question.answer == answer), None)
        in_raceway = next(
            (row for row in rows if row.question.kind == "raceway" and answer[0] == "raceway"), None
        )
        target = exact or in_raceway or next(iter(rows), None)
        if target is not None:
            target.focus()

    def _holding(self, fits: Callable[[Question], bool]) -> int | None:
        """The first group with a question that fits."""
        return next(
            (
                place
                for place, group in enumerate(self._groups)
                if any(fits(question) for question in group.questions)
            ),
            None,
        )

    def enter(self, *, last_row: bool = False) -> None:
        """Put the cursor on the first question that waits for an answer, else on the first, or on the last."""
        rows = list(self.every_row())
        if not rows:
            return
        waiting = next(
            (row for row in rows if row.question.needed and not row.question.written and not last_row), None
        )
        picked = next(
            (row for row in rows if isinstance(row, OptionRow) and row.option.value in row.question.picked),
            None,
        )
        (rows[-1] if last_row else waiting or picked or rows[0]).focus()

    def every_row(self) -> Iterator[Row]:
        """The rows in view, from the top."""
        return (child for child in self.rows.children if isinstance(child, AnswerRow | OptionRow))

    def row_of(self, key: str) -> AnswerRow | None:
        """The row of one question, if it is in view."""
        return next(
            (row for row in self.every_row() if isinstance(row, AnswerRow) and row.question.key == key), None
        )

    def on_looked(self, event: Looked) -> None:
        """Explain the question under the cursor."""
        event.stop()
        self.about.update(question_content(event.question))

    async def on_moved(self, event: Moved) -> None:
        """Go up or down a row, over the group's edge where need be."""
        if event.to == "open":
            return
        event.stop()
        await self.step_from(event.question.key, -1 if event.to == "up" else 1)

    async def step_from(self, key: str, by: int) -> None:
        """Move the cursor from one question's row to the one above or below."""
        rows = list(self.every_row())
        focused = next((place for place, row in enumerate(rows) if row.has_focus_within), None)
        if focused is None:
            focused = next((place for place, row in enumerate(rows) if row.question.key == key), 0)
        if 0 <= focused + by < len(rows):
            rows[focused + by].focus()
        else:
            await self.turn(by, last_row=by < 0)

    def _keep_typed(self) -> None:
        for row in self.every_row():
            if isinstance(row, AnswerRow) and row.typed is not None:
                self._typed[row.question.key] = row.typed
            else:
                self._typed.pop(row.question.key, None)

    def _same_rows(self, before: Group | None) -> bool:
        now = self.group
        if before is None or now is None or before.id != now.id:
            return False
        return _shape(before) == _shape(now)

    async def _rebuild(self) -> None:
        group = self.group
        with self.app.batch_update():
            await self.rows.remove_children()
            if group is not None:
                await self.rows.mount_all(self._made(group))
        self._update()
        self.rows.scroll_home(animate=False)

    def _made(self, group: Group) -> list[Row]:
        if group.spread:
            question = group.questions[0]
            return [OptionRow(question, place) for place in range(len(question.options))]
        return [AnswerRow(question, self._typed.get(question.key)) for question in group.questions]

    def _update(self) -> None:
        group = self.group
        if group is None:
            self.head.update(Content("Nothing to ask here with these options"))
            self.reason.update(Content(""))
            self.about.update(Content(""))
            return
        count = f"   {self._place + 1} of {len(self._groups)}" if len(self._groups) > 1 else ""
        self.head.update(Content.assemble((group.title, "bold"), count))
        self.reason.update(Content(group.why))
        questions = {question.key: question for question in group.questions}
        for row in self.every_row():
            row.show(questions[row.question.key])


def _shape(group: Group) -> tuple[object, ...]:
    """What the rows depend on: the questions, and, where they are spread, how many options."""
    return tuple((question.key, len(question.options) if group.spread else 0) for question in group.questions)
