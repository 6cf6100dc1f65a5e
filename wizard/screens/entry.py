"""What a new entry of a table can't go without, asked together."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.containers import Vertical
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Footer, Static

from schedules.field import Field
from schedules.fields import fields_of
from schedules.job.draft import ROW_KEYS
from schedules.numerals import UnitError
from schedules.offers import offered
from wizard import keys
from wizard.answering import refusal_words
from wizard.asking import as_text, entry_question, shown_value, values_of
from wizard.question import Question
from wizard.screens.pick import PickScreen
from wizard.widgets.answer_row import AnswerRow
from wizard.wording import question_content

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.derived import Derived
    from wizard.messages import Looked, Moved, Typed

_RULE = Field(
    "amendment",
    "rule",
    "Rule that is amended",
    "line",
    "Our name for it, as the working of a number shows it.",
    "free_conductor",
    longest=60,
    required=True,
)


class EntryScreen(ModalScreen["dict[str, object] | None"]):
    """Gives the entry's values, or None where the person went back."""

    TOPIC = "entry"
    CSS_PATH = "entry.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.ENTRY)
    AUTO_FOCUS = "AnswerRow"

    def __init__(self, table: str, derived: Derived) -> None:
        super().__init__()
        self._table, self._derived = table, derived
        named = [_RULE] if ROW_KEYS[table] == _RULE.key else []
        self._fields = (*named, *(field for field in fields_of(table) if field.required))
        self._values: dict[str, object] = {}

    def compose(self) -> ComposeResult:
        """Lay the questions out."""
        with Vertical(id="entry-box"):
            yield Static(Content.styled(entry_question("add", self._table).field.label, "bold"))
            for field in self._fields:
                yield AnswerRow(self._question(field))
            yield AnswerRow(self._last())
            yield Static(id="about")
        yield Footer(show_command_palette=False)

    def _question(self, field: Field) -> Question:
        value = self._values.get(field.key)
        options = () if field is _RULE else offered(self._derived, self._table, None, field.key)
        return Question(
            field=field,
            row=None,
            written=as_text(value),
            shown=shown_value(field, value, options, None),
            needed=True,
            options=options,
            picked=frozenset(values_of(value)),
            several=field.reads == "options",
        )

    def _last(self) -> Question:
        lacking = [field.label for field in self._fields if field.key not in self._values]
        question = entry_question("add", self._table)
        closed = f"first: {', '.join(lacking).lower()}" if lacking else ""
        return Question(question.field, None, "", question.shown, closed=closed, kind="add")

    def _refresh(self) -> None:
        rows = list(self.query(AnswerRow))
        for row, field in zip(rows, self._fields, strict=False):
            row.show(self._question(field))
        rows[-1].show(self._last())

    async def on_typed(self, event: Typed) -> None:
        """Take a typed value, or say why not."""
        row = next(row for row in self.query(AnswerRow) if row.question.key == event.question.key)
        try:
            if event.text.strip():
                self._values[event.question.field.key] = event.question.field.read(event.text)
            else:
                self._values.pop(event.question.field.key, None)
        except UnitError as error:
            row.refuse(refusal_words(error))
            return
        await row.accept()
        self._refresh()
        self._step(row, 1)

    def on_moved(self, event: Moved) -> None:
        """Go up or down, open the options, or add the entry."""
        row = next(row for row in self.query(AnswerRow) if row.question.key == event.question.key)
        if event.to != "open":
            self._step(row, -1 if event.to == "up" else 1)
        elif event.question.kind == "add":
            self.dismiss(self._values)
        else:
            self._pick(row)

    def _pick(self, row: AnswerRow) -> None:
        question = row.question

        def picked(values: tuple[str | int, ...] | None) -> None:
            if values:
                self._values[question.field.key] = list(values) if question.several else values[0]
                self._refresh()
                self._step(row, 1)

        field = question.field
        self.app.push_screen(
            PickScreen(field.label, field.why, question.options, question.picked, several=question.several),
            picked,
        )

    def _step(self, row: AnswerRow, by: int) -> None:
        rows = list(self.query(AnswerRow))
        rows[max(0, min(len(rows) - 1, rows.index(row) + by))].focus()

    def on_looked(self, event: Looked) -> None:
        """Explain the question under the cursor."""
        self.query_one("#about", Static).update(question_content(event.question))

    def action_back(self) -> None:
        """Go back; nothing is added."""
        self.dismiss(None)
