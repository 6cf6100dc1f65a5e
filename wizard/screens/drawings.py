"""The drawings in characters: the whole kitchen, each enclosure with all that lands there, then the ladders."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property, partial
from typing import TYPE_CHECKING, ClassVar

from textual.containers import ScrollableContainer
from textual.content import Content
from textual.widgets import Static

from schedules.drawings.characters import in_characters
from schedules.drawings.ladder.characters import ladder_in_characters
from schedules.drawings.ladder.views import circuit_ladder, effects, interlock_ladder, ladder
from schedules.drawings.picture import Picture
from schedules.drawings.views import one_enclosure, overview
from schedules.text import for_terminal
from wizard import keys
from wizard.screens.browse import WIDE
from wizard.screens.pictured import PicturedScreen

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable

    from textual.binding import BindingType
    from textual.widget import Widget

    from schedules.drawings.ladder.content import Ladder
    from schedules.plan import Plan


# Stands before what is drawn as a ladder.
_LADDER = "╫"


@dataclass(frozen=True, slots=True)
class _Shown:
    """One drawing of the list: its tag and name there, what is said over it, and what makes it of a plan."""

    tag: str
    name: str
    says: str
    make: Callable[[Plan], Picture | Ladder]


class DrawingsScreen(PicturedScreen):
    """A list of drawings and the one under the cursor."""

    TOPIC = "drawings"
    HEADING = "Drawings"
    NO_PICTURES = "In the diagram step o opens the drawing in this computer's viewer."
    BINDINGS: ClassVar[list[BindingType]] = list(keys.DRAWINGS)

    def view(self) -> Iterable[Widget]:
        """The drawing's name, then the drawing."""
        yield Static(id="view-head")
        with ScrollableContainer(id="view-box"):
            yield Static(id="drawing")

    @cached_property
    def _shown(self) -> tuple[_Shown, ...]:
        """The whole, each enclosure at which something lands, then the ladders: whole, circuits, interlocks."""
        # Only who looks at drawings needs what the package draws.
        from schedules.package.figures import used_enclosures  # noqa: PLC0415

        names = {item.tag: item.name for item in self.plan.derived.selection.enclosures}
        circuits = {need.circuit.tag: need.circuit.name for need in self.plan.derived.circuits}
        return (
            _Shown("All", "every cable", "Every cable, from box to box", overview),
            *(
                _Shown(
                    tag,
                    names[tag],
                    f"{tag}  {names[tag]}: all that lands here, and where it goes",
                    partial(one_enclosure, tag=tag),
                )
                for tag in used_enclosures(self.plan)
            ),
            _Shown(f"{_LADDER}All", "every circuit", "Every circuit, as energy flows", ladder),
            *(
                _Shown(
                    f"{_LADDER}{tag}",
                    name,
                    f"{tag}  {name}: the circuit and what it feeds, as energy flows",
                    partial(circuit_ladder, tag=tag),
                )
                for tag, name in circuits.items()
            ),
            *(
                _Shown(
                    f"{_LADDER}{effect}",
                    "",
                    f"Interlock of {effect}: {name}. All that stands between energy and it",
                    partial(interlock_ladder, effect=effect),
                )
                for effect, name in effects(self.plan).items()
            ),
        )

    def prompts(self) -> Iterable[Content]:
        """Each drawing by its tag and, where there is room, its name."""
        named = self.size.width >= WIDE
        for shown in self._shown:
            yield Content.assemble((f"{shown.tag:<4} ", "bold"), shown.name if named else "")

    def look_at(self, place: int) -> None:
        """Show one drawing."""
        says, picture = self.picture_of(place)
        lines = in_characters(picture) if isinstance(picture, Picture) else ladder_in_characters(picture)
        self.query_one("#view-head", Static).update(Content.styled(for_terminal(says), "bold"))
        self.query_one("#drawing", Static).update(Content("\n".join(lines)))
        self.query_one("#view-box").scroll_home(animate=False)

    def picture_of(self, place: int) -> tuple[str, Picture | Ladder]:
        """What a drawing of the list shows, in words and as a picture."""
        shown = self._shown[place]
        return shown.says, shown.make(self.plan)
