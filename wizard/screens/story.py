"""A story for a class: events in a small list, and what each of them changes, one scene at a time."""

from __future__ import annotations

from typing import TYPE_CHECKING, ClassVar

from textual import getters
from textual.containers import VerticalScroll
from textual.content import Content
from textual.widgets import Input, Static
from textual.widgets.option_list import Option

from schedules.behaviour.states import cast_of, in_use
from schedules.teaching.story import Stage
from wizard import keys
from wizard.screens.browse import BrowseScreen

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from textual.binding import BindingType
    from textual.widget import Widget

    from schedules.plan import Plan
    from schedules.teaching.story import Event, Scene
    from wizard.session import Session


class EventInput(Input):
    """Where the next event is written."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.EVENT_INPUT)

    def action_leave(self) -> None:
        """Go back to the scenes."""
        self.screen.query_one("#things").focus()


class StoryScreen(BrowseScreen):
    """The scenes of a story; events are written one after another."""

    TOPIC = "story"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.STORY)
    HEADING = "Story"

    field = getters.query_one(EventInput)

    def __init__(self, session: Session) -> None:
        super().__init__(session)
        self._stage = Stage(self.plan.derived)
        self._events: list[Event] = list(_first_story(self.plan, self._stage))
        self._scenes = self._stage.play(self._events)

    def view(self) -> Iterable[Widget]:
        """The scene, and the line on which the next event is written."""
        yield Static(id="view-head")
        with VerticalScroll(id="view-box", can_focus=False):
            yield Static(id="changes")
        yield Static(id="story-hint")
        yield EventInput(placeholder="state cooking   or   break 701   or   mend")

    def prompts(self) -> Iterable[Content]:
        """Each scene by its event."""
        return (
            Content.assemble((f"{place:>2} ", "bold"), scene.says) for place, scene in enumerate(self._scenes)
        )

    def on_mount(self) -> None:
        """Show the first scene."""
        super().on_mount()
        self._hint("")

    def look_at(self, place: int) -> None:
        """Show one scene."""
        scene = self._scenes[place]
        self.query_one("#view-head", Static).update(Content("\n").join(_head(scene)))
        self.query_one("#changes", Static).update(Content("\n").join(_lines(scene, first=place == 0)))

    def action_write(self) -> None:
        """Write the next event."""
        self.field.focus()

    def action_strike(self) -> None:
        """Take the event in view out of the story."""
        place = self.things.highlighted or 0
        if place:
            del self._events[place - 1]
            self._play(place - 1)

    def on_input_submitted(self, event: Input.Submitted) -> None:
        """Put the event behind the scene in view, or say what may stand there."""
        event.stop()
        try:
            added = self._stage.read(event.value)
        except LookupError as error:
            self._hint(str(error.args[0]))
            return
        place = self.things.highlighted or 0
        self._events.insert(place, added)
        self.field.value = ""
        self._hint("")
        self._play(place + 1)

    def _play(self, place: int) -> None:
        """Play the whole story anew and show one scene."""
        self._scenes = self._stage.play(self._events)
        self.things.clear_options()
        self.things.add_options(Option(prompt) for prompt in self.prompts())
        self.things.highlighted = place

    def _hint(self, words: str) -> None:
        states = ", ".join(name for name, case in self._stage.cases.items() if case.of_sheet)
        said = words or f"a adds what happens next. States: {states}."
        style = "bold $text-error" if words else ""
        self.query_one("#story-hint", Static).update(Content.styled(said, style))


def _first_story(plan: Plan, stage: Stage) -> Iterator[Event]:
    """Everything in use, then the first cause of a release: a story to begin with."""
    cases, cast = tuple(stage.cases.values()), cast_of(plan.derived)
    use = in_use(cases, cast)
    fires = (case for case in cases if not case.circuits_off and not case.signals.isdisjoint(cast.fire))
    for case in (use, next(fires, None)):
        if case is not None:
            yield stage.read(f"state {case.id.lstrip('+')}")


def _head(scene: Scene) -> Iterator[Content]:
    yield Content.styled(scene.says.upper(), "bold")
    yield Content(f"State: {scene.state}")
    yield from (Content.styled(f"WRONG: {words}", "bold $text-error") for words in scene.wrong)


def _lines(scene: Scene, *, first: bool) -> Iterator[Content]:
    """What this event changed, then all that is on and off."""
    if not first:
        yield Content.styled(f"{len(scene.turned)} changed" if scene.turned else "Nothing changed", "bold")
    turned = {turn.effect: turn for turn in scene.turned}
    for name, level in scene.levels.items():
        if name in turned:
            yield Content.assemble((f">> {turned[name].was:>4} → {level.upper():4}  {name}", "bold reverse"))
    for words in scene.tripped:
        yield Content.styled(f">> {words} TRIPPED", "bold $text-error")
    for words in scene.hazards:
        yield Content.styled(f">> DANGER: {words}", "bold $text-error")
    if not scene.settled:
        yield Content.styled(">> contacts never come to rest", "bold $text-error")
    yield Content("")
    for name, level in scene.levels.items():
        if name not in turned:
            yield Content(f"          {level:4}  {name}")
