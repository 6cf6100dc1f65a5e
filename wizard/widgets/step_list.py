"""The list of steps, each with its state in words."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.content import Content
from textual.widgets import OptionList
from textual.widgets.option_list import Option

from wizard import keys
from wizard.steps import STEPS, State, standing

if TYPE_CHECKING:
    from textual.binding import BindingType

    from wizard.question import StepId
    from wizard.session import Snapshot

_STYLES = {
    State.UNTOUCHED: "",
    State.PARTIAL: "$text-warning",
    State.COMPLETE: "$text-success",
    State.TROUBLE: "bold $text-error",
}


class StepList(OptionList):
    """Steps of the job. The highlighted one is in view beside it."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.STEP_LIST)

    def __init__(self) -> None:
        super().__init__(
            *(Option(step.title, id=step.id) for step in STEPS), id="steps", compact=True, markup=False
        )

    def show(self, snapshot: Snapshot, current: StepId) -> None:
        """Take the states as they stand now, and mark the step in view."""
        for step in STEPS:
            stands = standing(step.id, snapshot)
            self.replace_option_prompt(
                step.id,
                Content.assemble(
                    f"{'>' if step.id == current else ' '}{step.title}\n  ",
                    (stands.words, _STYLES[stands.state]),
                ),
            )

    def pick(self, step: StepId) -> None:
        """Highlight a step."""
        self.highlighted = self.get_option_index(step)
