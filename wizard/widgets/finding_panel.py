"""All findings, most serious first, with what would cure the one under the cursor."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters, on
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import OptionList, Static
from textual.widgets.option_list import Option

from schedules.job.acknowledging import OPEN_TO_DECISION, name_of, take_back
from wizard import keys
from wizard.messages import Applied, Signing, Sought
from wizard.widgets.step_panel import StepPanel
from wizard.wording import finding_content, finding_details

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.findings import Finding
    from wizard.session import Snapshot


class FindingLines(OptionList):
    """The findings as lines."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.FINDING)


class FindingPanel(StepPanel):
    """The findings of one plan."""

    WHOLE_WIDTH = False
    BINDINGS: ClassVar[list[BindingType]] = list(keys.FINDINGS)

    head = getters.query_one(".finding-title", Static)
    lines = getters.query_one(FindingLines)
    details = getters.query_one("#finding-details", Static)

    def __init__(self, *, id: str) -> None:  # noqa: A002  the framework's own word
        super().__init__(id=id)
        self._findings: tuple[Finding, ...] = ()

    def compose(self) -> ComposeResult:
        """Lay the panel out."""
        yield Static(classes="finding-title")
        yield FindingLines(compact=True, markup=False)
        with VerticalScroll(id="finding-box", can_focus=False):
            yield Static(id="finding-details")

    def show(self, snapshot: Snapshot) -> None:
        """Take the findings as they stand now; the cursor stays on the same one if it is still there."""
        if snapshot.plan is None:
            return
        before = self.current
        self._findings = snapshot.plan.findings
        self.lines.clear_options()
        self.lines.add_options(Option(finding_content(finding)) for finding in self._findings)
        self.head.update(Content.assemble(("Findings", "bold"), f"   {_count(self._findings)}"))
        if self._findings:
            same = (
                place
                for place, finding in enumerate(self._findings)
                if before is not None and (finding.code, finding.subject) == (before.code, before.subject)
            )
            self.lines.highlighted = next(same, 0)
        self._detail()

    @property
    def current(self) -> Finding | None:
        """The finding under the cursor."""
        place = self.lines.highlighted
        return self._findings[place] if place is not None and place < len(self._findings) else None

    def enter(self) -> None:
        """Put the cursor into the list."""
        self.lines.focus()

    @on(OptionList.OptionHighlighted)
    def _highlighted(self, event: OptionList.OptionHighlighted) -> None:
        event.stop()
        self._detail()

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        self.action_go()

    def action_go(self) -> None:
        """Go to the answer that bears on the finding."""
        if self.current is None:
            return
        if self.current.answer is None:
            self.app.notify("No answer of the job bears on this one.", markup=False)
        else:
            self.post_message(Sought(self.current.answer, self.current.subject))

    def action_apply(self) -> None:
        """Apply the first remedy that edits the job."""
        finding = self.current
        if finding is None:
            return
        remedy = next((item for item in finding.remedies if item.edits), None)
        if remedy is None:
            self.app.notify("No remedy was computed for this one; go to the field and decide.", markup=False)
        else:
            self.post_message(Applied(remedy.edits, f"Remedy for {finding.subject}: {remedy.words}"))

    def action_acknowledge(self) -> None:
        """Ask who answers for the finding, and why; not for one that stops the work."""
        finding = self.current
        if finding is None:
            return
        if finding.severity in OPEN_TO_DECISION:
            self.post_message(Signing(finding))
        else:
            words = "A stop can't be acknowledged: no signature makes the work safe. ⏎ goes to the answer, a cures."
            self.app.notify(words, markup=False)

    def action_reopen(self) -> None:
        """Take the acknowledgement back."""
        finding = self.current
        if finding is None:
            return
        if finding.acknowledgement is None:
            self.app.notify("Nobody has acknowledged this one.", markup=False)
        else:
            self.post_message(Applied(take_back(name_of(finding)), f"Open again: {finding.subject}"))

    def action_more(self) -> None:
        """Read on in the details."""
        self.query_one("#finding-box", VerticalScroll).scroll_page_down(animate=False)

    def action_less(self) -> None:
        """Read back in the details."""
        self.query_one("#finding-box", VerticalScroll).scroll_page_up(animate=False)

    def _detail(self) -> None:
        self.details.update(Content("") if self.current is None else finding_details(self.current))
        self.query_one("#finding-box", VerticalScroll).scroll_home(animate=False)


def _count(findings: tuple[Finding, ...]) -> str:
    if not findings:
        return "none: every check holds"
    counts: dict[str, int] = {}
    for finding in findings:
        counts[finding.severity] = counts.get(finding.severity, 0) + 1
    return ", ".join(f"{number} {severity}" for severity, number in counts.items())
