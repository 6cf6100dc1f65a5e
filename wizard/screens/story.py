"""A story for a class: events in a small list, and what each of them changes, one scene at a time."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, ClassVar

from textual import getters, on, work
from textual.containers import VerticalScroll
from textual.content import Content
from textual.message import Message
from textual.widgets import Input, Static
from textual.widgets.option_list import Option
from textual.worker import get_current_worker

from schedules.behaviour.states import cast_of, in_use
from schedules.teaching.story import Stage
from schedules.text import for_filename, printable
from wizard import keys
from wizard.screens.pictured import PicturedScreen
from wizard.story_wording import change_lines, head_lines, level_lines, matrix_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from textual import events
    from textual.binding import BindingType
    from textual.widget import Widget

    from schedules.drawings.picture import Picture
    from schedules.plan import Plan
    from schedules.teaching.story import Event, Scene
    from wizard.session import Session


class EventInput(Input):
    """Where the next event is written."""

    BINDINGS: ClassVar[list[BindingType]] = list(keys.EVENT_INPUT)

    def action_leave(self) -> None:
        """Go back to the scenes."""
        self.screen.query_one("#things").focus()


class StoryScreen(PicturedScreen):
    """The scenes of a story; events are written one after another."""

    TOPIC = "story"
    BINDINGS: ClassVar[list[BindingType]] = list(keys.STORY)
    HEADING = "Story"
    NO_PICTURES = "w writes the drawing beside the job's file."

    class Written(Message):
        """The worker has written the drawing of a scene, or says why not."""

        def __init__(self, words: str) -> None:
            super().__init__()
            self.words = words

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
        yield EventInput(placeholder="a adds: state cooking, break 701 or mend", compact=True)

    def prompts(self) -> Iterable[Content]:
        """Each scene by its event."""
        return (
            Content.assemble((f"{place:>2} ", "bold"), scene.says) for place, scene in enumerate(self._scenes)
        )

    def on_mount(self) -> None:
        """Show the first scene; the framework has let the list be filled already."""
        self._hint("")

    def look_at(self, place: int) -> None:
        """Show one scene."""
        scene, before = self._scenes[place], self._before(place)
        box = self.query_one("#view-box", VerticalScroll)
        room = box.scrollable_content_region.width
        lines = [
            *change_lines(scene, before),
            Content(""),
            *matrix_lines(scene, self._stage.states(scene), room),
            Content(""),
            *level_lines(scene),
        ]
        self.query_one("#view-head", Static).update(Content("\n").join(head_lines(scene)))
        self.query_one("#changes", Static).update(Content("\n").join(lines))
        box.scroll_home(animate=False)

    def _before(self, place: int) -> Scene | None:
        return self._scenes[place - 1] if place else None

    def on_resize(self, _event: events.Resize) -> None:
        """Lay the matrix out anew for the room there is; the framework calls the list's own part itself."""
        self.call_after_refresh(self.look_at, self.things.highlighted or 0)

    def action_more(self) -> None:
        """Show the lines that are below, then the first ones again."""
        box = self.query_one("#view-box", VerticalScroll)
        if box.is_vertical_scroll_end:
            box.scroll_home(animate=False)
        else:
            box.scroll_page_down(animate=False)

    def action_add(self) -> None:
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

    # Drawn --------------------------------------------------------------------------------------------------------

    def picture_of(self, place: int) -> tuple[str, Picture]:
        """Which conductors are live in one scene."""
        # Only who looks at the drawing needs what draws.
        from schedules.drawings.in_scene import in_scene  # noqa: PLC0415

        scene = self._scenes[place]
        return scene.says, in_scene(self.plan, scene, self._before(place))

    def action_write(self) -> None:
        """Write the drawing of the scene in view beside the job's file."""
        place = self.things.highlighted or 0
        folder = (
            Path(self.session.now.draft.file).parent
            / f"scene-{place}-{for_filename(self._scenes[place].says)}"
        )
        self.notify("Drawing and proving …   esc stops; nothing is written then.", markup=False)
        self._write(self._scenes[place], self._before(place), folder)

    @work(thread=True, exclusive=True, group="scene")
    def _write(self, scene: Scene, before: Scene | None, folder: Path) -> None:
        # The drawing engine is loaded only when somebody draws.
        from schedules.drawings.in_scene import scene_files  # noqa: PLC0415
        from schedules.package.folder import put  # noqa: PLC0415

        worker = get_current_worker()
        try:
            files = scene_files(self.plan, scene, before)
            if worker.is_cancelled:
                return
            put(folder, files, replace=False)
            words = f"Proved and written to {printable(str(folder), 200)}"
        # The engine is another program: whatever it does, the person is told that nothing was written.
        except Exception as error:
            words = f"Nothing was written: {printable(str(error), 400)}"
        if not worker.is_cancelled:
            self.post_message(self.Written(words))

    @on(Written)
    def _tell_written(self, event: Written) -> None:
        event.stop()
        self.notify(event.words, markup=False)

    def _play(self, place: int) -> None:
        """Play the whole story anew and show one scene."""
        self._scenes = self._stage.play(self._events)
        self.things.clear_options()
        self.things.add_options(Option(prompt) for prompt in self.prompts())
        self.things.highlighted = place

    def _hint(self, words: str) -> None:
        hint = self.query_one("#story-hint", Static)
        hint.update(Content.styled(words, "bold $text-error"))
        hint.display = bool(words)


def _first_story(plan: Plan, stage: Stage) -> Iterator[Event]:
    """Everything in use, then the first cause of a release: a story to begin with."""
    cases, cast = tuple(stage.cases.values()), cast_of(plan.derived)
    use = in_use(cases, cast)
    fires = (case for case in cases if not case.circuits_off and not case.signals.isdisjoint(cast.fire))
    for case in (use, next(fires, None)):
        if case is not None:
            yield stage.read(f"state {case.id.lstrip('+')}")
