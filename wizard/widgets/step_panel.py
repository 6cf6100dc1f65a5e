"""What a step shows instead of questions."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.containers import Vertical

if TYPE_CHECKING:
    from wizard.question import Answer
    from wizard.session import Snapshot


class StepPanel(Vertical):
    """The panel of one step. Abstract in what it raises: the framework's metaclass leaves no room for another way.

    WHOLE_WIDTH: a narrow screen gives it the room of the list of steps too. ALONE: a wide one gives it the room of
    what the last answer did.
    """

    WHOLE_WIDTH: ClassVar[bool] = True
    ALONE: ClassVar[bool] = False

    def __init__(self, *, id: str) -> None:  # noqa: A002  the framework's own word
        super().__init__(id=id)

    def show(self, snapshot: Snapshot) -> None:
        """Take the job as it stands now."""
        raise NotImplementedError

    def seek(self, _answer: Answer) -> None:
        """Bring what the job records there under the cursor, where the panel shows such things."""
        self.enter()

    def enter(self) -> None:
        """Put the cursor into the panel."""
        raise NotImplementedError
