"""The interlock matrix, solved: causes in rows, effects in columns, and what changes when one thing is put wrong."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, ClassVar

from textual import getters, on, work
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option
from textual.worker import get_current_worker

from wizard import keys
from wizard.behaviour import (
    behaviour_of,
    breakable,
    ends_in_order,
    same_installation,
    stickable,
    swap,
    swappable_with,
)
from wizard.interlock_wording import cell_content, cell_details, trial_content
from wizard.screens.seek import SeekScreen
from wizard.screens.slides import SlidesScreen
from wizard.slides import interlock_slides
from wizard.widgets.step_panel import StepPanel

if TYPE_CHECKING:
    from collections.abc import Callable

    from textual import events
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.behaviour.fault_list import Fault
    from schedules.behaviour.interlocks import Cause
    from schedules.derived import Derived
    from wizard.behaviour import Behaviour, End, Trial
    from wizard.session import Snapshot

CELL = 11
"""Least columns of a cell: the longest word and the marks beside it."""

LARGEST_CELL = 15
LEAST_NAME = 32
"""Columns that a cause's name has at least."""

NAME_SHARE = 0.33
"""Of the width, for a cause's name; more where the cells leave it."""

HEAD_LINES = 4
EDGE = 2
"""Columns that the list's own edge takes."""


class InterlockPanel(StepPanel):
    """The matrix of one plan, one cell under the cursor."""

    ALONE = True
    BINDINGS: ClassVar[list[BindingType]] = list(keys.INTERLOCKS)

    lines = getters.query_one(OptionList)

    class Solved(Message):
        """The worker has solved every state."""

        def __init__(self, behaviour: Behaviour) -> None:
            super().__init__()
            self.behaviour = behaviour

    class Tried(Message):
        """The worker has put one thing wrong."""

        def __init__(self, trial: Trial) -> None:
            super().__init__()
            self.trial = trial

    def __init__(self, *, id: str) -> None:  # noqa: A002  the framework's own word
        super().__init__(id=id)
        self._derived: Derived | None = None
        self._behaviour: Behaviour | None = None
        self._trial: Trial | None = None
        self._column = 0

    def compose(self) -> ComposeResult:
        """Lay the panel out."""
        yield Static(id="trial")
        yield Static(id="matrix-head")
        yield OptionList(compact=True, markup=False)
        yield Static(id="cell")

    def show(self, snapshot: Snapshot) -> None:
        """Solve the plan's states, unless they are solved already."""
        plan = snapshot.plan
        if plan is not None and not same_installation(plan.derived, self._derived):
            self._derived = plan.derived
            self.query_one("#trial", Static).update(Content("Solving every state …"))
            self._solve(plan.derived)

    def enter(self) -> None:
        """Put the cursor into the matrix."""
        self.lines.focus()

    @work(thread=True, exclusive=True, group="behaviour")
    def _solve(self, derived: Derived) -> None:
        worker = get_current_worker()
        behaviour = behaviour_of(derived)
        if not worker.is_cancelled:
            self.post_message(self.Solved(behaviour))

    @work(thread=True, exclusive=True, group="behaviour")
    def _try(self, behaviour: Behaviour, fault: Fault) -> None:
        worker = get_current_worker()
        trial = behaviour.try_out(fault)
        if not worker.is_cancelled:
            self.post_message(self.Tried(trial))

    @on(Solved)
    def _take_solved(self, event: Solved) -> None:
        event.stop()
        self._behaviour, self._trial = event.behaviour, None
        self._column = min(self._column, max(len(event.behaviour.effects) - 1, 0))
        self._fill()

    @on(Tried)
    def _take_trial(self, event: Tried) -> None:
        event.stop()
        self._trial = event.trial
        self._fill()
        changed = {state for state, _ in event.trial.now}
        first = next((n for n, item in enumerate(self._causes) if item.case.id in changed), None)
        if first is not None:
            self.lines.highlighted = first

    @property
    def _causes(self) -> tuple[Cause, ...]:
        return () if self._behaviour is None else self._behaviour.causes

    # What a person does ------------------------------------------------------------------------------------------

    def action_next_effect(self) -> None:
        """Go to the effect at the right."""
        self._turn(1)

    def action_previous_effect(self) -> None:
        """Go to the effect at the left."""
        self._turn(-1)

    def _turn(self, by: int) -> None:
        if self._behaviour is not None and self._behaviour.effects:
            self._column = max(0, min(len(self._behaviour.effects) - 1, self._column + by))
            self._fill()

    def action_large(self) -> None:
        """Show one state at a time, large, beginning with the one under the cursor."""
        if self._behaviour is not None and self._behaviour.causes:
            slides = interlock_slides(self._behaviour)
            self.app.push_screen(SlidesScreen("Interlocks", slides, self.lines.highlighted or 0))

    def action_break_wire(self) -> None:
        """Choose a wire to break."""
        if self._derived is not None:
            self._choose("Break a wire", breakable(self._derived))

    def action_stick(self) -> None:
        """Choose a contact to weld or stick."""
        if self._derived is not None:
            self._choose("Weld or stick a contact", stickable(self._derived))

    def action_swap(self) -> None:
        """Choose two ends to swap."""
        derived = self._derived
        if derived is None:
            return

        def second(one: End) -> None:
            others = swappable_with(derived, one)
            self._seek(
                "Swap it with",
                f"Wire {one[0]} at {one[1]} and another end in the same enclosure.",
                tuple(map(_end_words, others)),
                lambda place: self._begin(swap(derived, one, others[place])),
            )

        ends = ends_in_order(derived)
        landings = derived.connections.landings
        self._seek(
            "Swap two ends",
            "The first of the two.",
            tuple(f"{landings[end[1]].enclosure}  {_end_words(end)}" for end in ends),
            lambda place: second(ends[place]),
        )

    def action_clear(self) -> None:
        """Put everything right again."""
        self._trial = None
        self._fill()

    def _choose(self, title: str, faults: tuple[Fault, ...]) -> None:
        why = "On this screen alone: nothing of the job changes."
        words = tuple(fault.says for fault in faults)
        self._seek(title, why, words, lambda place: self._begin(faults[place]))

    def _seek(self, title: str, why: str, things: tuple[str, ...], then: Callable[[int], None]) -> None:
        def chosen(place: int | None) -> None:
            if place is not None:
                then(place)

        self.app.push_screen(SeekScreen(title, why, things), chosen)

    def _begin(self, fault: Fault) -> None:
        if self._behaviour is not None:
            self._try(self._behaviour, fault)

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self._detail()

    def on_resize(self, _event: events.Resize) -> None:
        """Lay the columns out anew for the room there is."""
        self._fill()

    # What is shown ------------------------------------------------------------------------------------------------

    def _fill(self) -> None:
        behaviour, width = self._behaviour, self.size.width
        if behaviour is None or not width:
            return
        name, cell = _widths(behaviour, width - EDGE)
        shown = self._window((width - EDGE - name) // cell, len(behaviour.effects))
        self.query_one("#trial", Static).update(trial_content(behaviour, self._trial))
        heads = [
            textwrap.wrap(behaviour.effects[place].name, cell - 2, max_lines=HEAD_LINES, placeholder="…")
            for place in shown
        ]
        high = max(map(len, heads), default=0)
        rows = zip(*([""] * (high - len(head)) + head for head in heads), strict=True)
        hidden = len(behaviour.effects) - len(shown)
        more = f"{hidden} more by → ←" if hidden else ""
        head = [
            f"{more if n == high - 1 else '':<{name}}" + "".join(f" {part:<{cell - 1}}" for part in row)
            for n, row in enumerate(rows)
        ]
        self.query_one("#matrix-head", Static).update(Content.styled("\n".join(head), "bold"))
        at = self.lines.highlighted or 0
        prompts = [self._prompt(behaviour, cause, shown, name, cell) for cause in behaviour.causes]
        if self.lines.option_count == len(prompts):
            for place, prompt in enumerate(prompts):
                self.lines.replace_option_prompt_at_index(place, prompt)
        else:
            self.lines.clear_options()
            self.lines.add_options(Option(prompt) for prompt in prompts)
            self.lines.highlighted = min(at, len(prompts) - 1) if prompts else None
        self._detail()

    def _window(self, fits: int, effects: int) -> range:
        """The effects in view: as many as fit, the one under the cursor among them."""
        fits = max(1, min(fits, effects))
        first = max(0, min(self._column - fits // 2, effects - fits))
        return range(first, first + fits) if effects else range(0)

    def _prompt(self, behaviour: Behaviour, cause: Cause, shown: range, name: int, cell: int) -> Content:
        title = _title(cause)
        title = title if len(title) < name else f"{title[: name - 2]}…"
        cells = (
            cell_content(behaviour, self._trial, cause, place, cell, here=place == self._column)
            for place in shown
        )
        return Content.assemble(f"{title:<{name}}", *cells)

    def _detail(self) -> None:
        behaviour, place = self._behaviour, self.lines.highlighted
        if behaviour is not None and place is not None and behaviour.effects:
            details = cell_details(behaviour, self._trial, behaviour.causes[place], self._column)
            self.query_one("#cell", Static).update(details)


def _title(cause: Cause) -> str:
    return cause.case.name if cause.case.of_sheet else f"({cause.case.name})"


def _widths(behaviour: Behaviour, width: int) -> tuple[int, int]:
    """Columns for a cause's name, and for each cell."""
    longest = max((len(_title(cause)) for cause in behaviour.causes), default=0) + 2
    effects = max(len(behaviour.effects), 1)
    name = min(longest, max(LEAST_NAME, int(width * NAME_SHARE), width - CELL * effects))
    return name, max(CELL, min(LARGEST_CELL, (width - name) // effects))


def _end_words(end: End) -> str:
    return f"{end[1]}  wire {end[0]}"
