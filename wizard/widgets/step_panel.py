"""What a step shows instead of questions."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual.containers import Vertical

if TYPE_CHECKING:
    from wizard.session import Snapshot


class StepPanel(Vertical):
    """The panel of one step. WHOLE_WIDTH: a narrow screen gives it the room of the list of steps too."""

    WHOLE_WIDTH: ClassVar[bool] = True

    def __init__(self, *, id: str) -> None:  # noqa: A002  the framework's own word
        super().__init__(id=id)

    def show(self, snapshot: Snapshot) -> None:
        """Take the job as it stands now."""
        raise NotImplementedError

    def enter(self) -> None:
        """Put the cursor into the panel."""
        raise NotImplementedError
