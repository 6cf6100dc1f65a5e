"""Draw a ladder: place, lay, write on as many pages as can be read, and prove what came out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.drawings.dot import dot_text
from schedules.drawings.drawing import Rendered, fits
from schedules.drawings.engine import WHEEL
from schedules.drawings.errors import DrawingError
from schedules.drawings.finish import dressed
from schedules.drawings.ladder.content import legible
from schedules.drawings.ladder.proof import prove_ladder
from schedules.drawings.ladder.references import words_under
from schedules.drawings.ladder.sheet import lay, placed, rung_numbers
from schedules.drawings.ladder.telling import told

if TYPE_CHECKING:
    from schedules.drawings.engine import Engine
    from schedules.drawings.ladder.content import Ladder
    from schedules.drawings.ladder.sheet import Placed
    from schedules.drawings.layout import Layout


@dataclass(frozen=True, slots=True)
class LadderDrawing(Rendered):
    """One proved page of a ladder."""

    ladder: Ladder


def draw_ladder(ladder: Ladder, *, engine: Engine = WHEEL, prefix: str = "") -> tuple[LadderDrawing, ...]:
    """Draw a ladder, on as few pages as can be read on its paper, and prove them together.

    A section that can't be read even alone is drawn all the same: `LadderDrawing.on(paper).readable` tells.
    prefix: put before every id in the SVG, so that several drawings fit into one page; a page's number follows it.
    Raises DrawingError naming every piece or word that is not as the ladder says, EngineError.
    """
    shown = legible(ladder)
    pages = _pages(shown)
    drawn = []
    for place, (page, layout) in enumerate(pages, start=1):
        own = prefix if len(pages) == 1 else f"{prefix}{place}-"
        dot = dot_text(layout)
        svg = dressed(engine.render(dot, "as given", "svg").decode(), told(page), own)
        drawing = LadderDrawing(svg, dot, layout.width, layout.height, engine, layout.links, page)
        drawn.append((drawing, own))
    failures = prove_ladder(shown, tuple((item.ladder, item.svg, own) for item, own in drawn))
    if failures:
        raise DrawingError(failures)
    return tuple(item for item, _ in drawn)


def _pages(ladder: Ladder) -> list[tuple[Ladder, Layout]]:
    """Pages of whole sections, as many on each as can be read there."""
    sections = placed(ladder)
    under = words_under(ladder, rung_numbers(sections))

    def page(items: tuple[Placed, ...]) -> tuple[Ladder, Layout]:
        part = replace(ladder, sections=tuple(item.section for item in items))
        return part, lay(part, items, under)

    groups: list[tuple[Placed, ...]] = []
    for item in sections:
        if groups and fits(page((*groups[-1], item))[1], ladder.paper):
            groups[-1] = (*groups[-1], item)
        else:
            groups.append((item,))
    if len(groups) <= 1:
        return [page(tuple(sections))]
    numbered = []
    for place, items in enumerate(groups, start=1):
        part, _ = page(items)
        titled = replace(part, title=f"{ladder.title}, part {place} of {len(groups)}")
        numbered.append((titled, lay(titled, items, under)))
    return numbered
