"""Find a fault: symptoms and readings entered one at a time, what explains them, what to find out next."""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING, ClassVar

from textual import getters, on, work
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.screen import Screen
from textual.widgets import Footer, Input, Static
from textual.worker import get_current_worker

from schedules.behaviour.found import read_value
from schedules.quantities.numerals import UnitError
from wizard import keys
from wizard.answering import refusal_words
from wizard.diagnose_wording import (
    allowed_words,
    found_content,
    next_content,
    pairs_content,
    suspects_content,
)
from wizard.screens.seek import SeekScreen

if TYPE_CHECKING:
    from textual.app import ComposeResult
    from textual.binding import BindingType

    from schedules.behaviour.fault_list import Fault
    from schedules.behaviour.probes import Probe
    from schedules.derived import Derived
    from wizard.fault_finding import FinderShelf, Search

SUSPECTS = 8
"""Suspects that are named; the rest are counted."""

PAIRS = 6
"""Pairs of faults that are named."""


_THINKING = "Working out what to find out next. What is typed stays."


class _StoppedError(Exception):
    """The person went back before the work was done."""


class ShowsInput(Input):
    """Where what a probe shows is typed."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.SHOWS_INPUT)


class DiagnoseScreen(Screen[None]):
    """One search for a fault of one plan."""

    TOPIC = "diagnose"
    CSS_PATH = "diagnose.tcss"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.DIAGNOSE)
    AUTO_FOCUS = ""

    field = getters.query_one(ShowsInput)

    class Share(Message):
        """So much of the preparation is done."""

        def __init__(self, share: float) -> None:
            super().__init__()
            self.share = share

    class Ready(Message):
        """The search can begin, or goes on."""

        def __init__(self, search: Search) -> None:
            super().__init__()
            self.search = search

    class Paired(Message):
        """The worker has looked for two faults together."""

        def __init__(self, pairs: tuple[tuple[Fault, Fault], ...]) -> None:
            super().__init__()
            self.pairs = pairs

    def __init__(self, shelf: FinderShelf, derived: Derived) -> None:
        super().__init__()
        self._shelf, self._derived = shelf, derived
        self.search: Search | None = None
        self._asked: Probe | None = None
        self._chosen: Probe | None = None

    def compose(self) -> ComposeResult:
        """Lay the screen out."""
        yield Static(
            Content.assemble(("Find a fault", "bold"), f"   {self._derived.job.job.name}"), id="title"
        )
        with VerticalScroll(id="diagnose-box", can_focus=False):
            yield Static(id="next")
            with Vertical(id="answer"):
                yield Static(id="asked")
                yield ShowsInput(compact=True)
                yield Static(id="shows-error")
            yield Static(Content.styled("What may be wrong", "bold"), classes="head")
            yield Static(id="suspects")
            yield Static(Content.styled("What was found", "bold"), classes="head")
            yield Static(id="found")
        yield Footer(show_command_palette=False)

    def on_mount(self) -> None:
        """Work out what every fault would show."""
        self.query_one("#answer").display = False
        self._tell_share(0.0)
        self._prepare()

    @work(thread=True, exclusive=True, group="diagnose")
    def _prepare(self) -> None:
        worker = get_current_worker()

        def tell(share: float) -> None:
            if worker.is_cancelled:
                raise _StoppedError
            # One message per hundredth: a message per fault would only keep the screen busy.
            if int(share * 100) != tell_state[0]:
                tell_state[0] = int(share * 100)
                self.post_message(self.Share(share))

        tell_state = [-1]
        try:
            search = self._shelf.search(self._derived, tell)
            _ = search.proposal
        except _StoppedError:
            return
        self.post_message(self.Ready(search))

    @work(thread=True, exclusive=True, group="diagnose")
    def _think(self, search: Search) -> None:
        worker = get_current_worker()
        _ = search.proposal
        if not worker.is_cancelled:
            self.post_message(self.Ready(search))

    @work(thread=True, exclusive=True, group="pairs")
    def _pair(self, search: Search) -> None:
        worker = get_current_worker()
        pairs = []
        for pair in itertools.islice(search.finder.pairs(search.found), PAIRS):
            if worker.is_cancelled:
                return
            pairs.append(pair)
        if not worker.is_cancelled:
            self.post_message(self.Paired(tuple(pairs)))

    @on(Share)
    def _take_share(self, event: Share) -> None:
        event.stop()
        if self.search is None:
            self._tell_share(event.share)

    def _tell_share(self, share: float) -> None:
        words = f"Working out what each fault would show: {share:.0%}. esc stops."
        self.query_one("#next", Static).update(Content(words))

    @on(Ready)
    def _take_ready(self, event: Ready) -> None:
        event.stop()
        self.search = event.search
        self._ask(event.search)

    @on(Paired)
    def _take_pairs(self, event: Paired) -> None:
        event.stop()
        self.query_one("#suspects", Static).update(pairs_content(event.pairs))

    # What a person does ------------------------------------------------------------------------------------------

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Take what the probe shows, or say why it can't be read."""
        event.stop()
        search, probe = self.search, self._asked
        if search is None:
            return
        if probe is None:
            # What is asked next is not known yet: nothing is an answer to it.
            self.query_one("#shows-error", Static).update(Content(_THINKING))
            return
        try:
            value = read_value(search.finder, probe, event.value.strip())
        except UnitError as error:
            self.query_one("#shows-error", Static).update(Content(refusal_words(error)))
            return
        self._go_on(search.with_found(search.finder.found(probe, value)))

    def action_other(self) -> None:
        """Choose another probe than the one proposed."""
        search = self.search
        if search is None:
            return
        probes = search.finder.probes

        def chosen(place: int | None) -> None:
            if place is not None and self.search is not None:
                self._chosen = probes[place]
                self._go_on(self.search)

        words = tuple(probe.says for probe in probes)
        self.app.push_screen(
            SeekScreen("What was seen or measured?", "Type parts of it: a state, a terminal.", words), chosen
        )

    def action_skip(self) -> None:
        """Leave the proposed probe: it can't be taken here."""
        if self.search is not None and self._asked is not None:
            self._go_on(self.search.skipping(self._asked))

    def action_take_back(self) -> None:
        """Take the last thing entered back."""
        if self.search is not None:
            self._go_on(self.search.without_last())

    def action_pairs(self) -> None:
        """Look for two faults that explain together what none does alone."""
        if self.search is not None and self.search.found:
            self.query_one("#suspects", Static).update(Content("Trying two faults at a time …"))
            self._pair(self.search)

    def action_back(self) -> None:
        """Stop the work, and go back."""
        self.workers.cancel_node(self)
        self.dismiss(None)

    def _go_on(self, search: Search) -> None:
        """Work out what to find out next; what is typed meanwhile stays, and is taken once that is asked."""
        self.search, self._asked = search, None
        self.field.value = ""
        self.workers.cancel_group(self, "pairs")
        self._think(search)

    # What is shown ------------------------------------------------------------------------------------------------

    def _ask(self, search: Search) -> None:
        """Ask for what was chosen, else for what tells most."""
        proposal = search.proposal
        proposed = None if proposal is None else proposal.probe
        probe = self._asked = self._chosen or proposed
        self._chosen = None
        self.query_one("#next", Static).update(next_content(search, proposal))
        self.query_one("#suspects", Static).update(suspects_content(search, SUSPECTS))
        self.query_one("#found", Static).update(found_content(search))
        self.query_one("#shows-error", Static).update(Content(""))
        self.query_one("#answer").display = probe is not None
        if probe is None:
            self.set_focus(None)
            return
        other = "" if probe is proposed else f"{probe.says}\n"
        asked = Content.assemble((other, "bold"), f"Type what it shows: {allowed_words(search, probe)}")
        self.query_one("#asked", Static).update(asked)
        self.field.focus()
