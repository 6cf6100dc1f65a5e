"""Draw a ladder: place, lay, write on as many pages as can be read, and prove what came out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import chain, islice
from typing import TYPE_CHECKING

from schedules.drawings.dot import dot_text
from schedules.drawings.drawing import Rendered, fits
from schedules.drawings.engine import WHEEL
from schedules.drawings.errors import DrawingError
from schedules.drawings.finish import dressed
from schedules.drawings.ladder.content import legible
from schedules.drawings.ladder.parting import parts_of
from schedules.drawings.ladder.proof import prove_ladder
from schedules.drawings.ladder.references import words_under
from schedules.drawings.ladder.sheet import lay, placed, rung_numbers
from schedules.drawings.ladder.telling import told
from schedules.drawings.paper import fit

if TYPE_CHECKING:
    from schedules.drawings.engine import Engine
    from schedules.drawings.ladder.content import Ladder
    from schedules.drawings.ladder.sheet import Placed
    from schedules.drawings.layout import Layout
    from schedules.drawings.picture import Paper


@dataclass(frozen=True, slots=True)
class LadderDrawing(Rendered):
    """One proved page of a ladder."""

    ladder: Ladder


def draw_ladder(ladder: Ladder, *, engine: Engine = WHEEL, prefix: str = "") -> tuple[LadderDrawing, ...]:
    """Draw a ladder, on as few pages as can be read on its paper, and prove them together.

    A section too long to be read alone is drawn in parts; one too wide is drawn all the same:
    `LadderDrawing.on(paper).readable` tells.
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


def _page(ladder: Ladder, items: tuple[Placed, ...], under: dict[str, str]) -> tuple[Ladder, Layout]:
    part = replace(ladder, sections=tuple(item.section for item in items))
    return part, lay(part, items, under)


def _in_parts(ladder: Ladder) -> tuple[tuple[Placed, ...], dict[str, str]]:
    """Every section in place, in as few parts as can be read; and the words under each element."""
    counts = [1] * len(ladder.sections)
    while True:
        parts = [parts_of(section, count) for section, count in zip(ladder.sections, counts, strict=True)]
        sections = placed(replace(ladder, sections=tuple(chain.from_iterable(parts))))
        under = words_under(ladder, rung_numbers(sections))
        ready = iter(sections)
        long = [
            n
            for n, mine in enumerate(parts)
            for item in islice(ready, len(mine))
            if item.rungs.count > 1 and _too_long(_page(ladder, (item,), under)[1], ladder.paper)
        ]
        if not long:
            return sections, under
        for n in set(long):
            counts[n] += 1


def _too_long(layout: Layout, paper: Paper) -> bool:
    """Whether it can't be read for its height, while its width leaves it a chance."""
    return not fits(layout, paper) and fit(layout.width, 1.0, paper).readable


def _pages(ladder: Ladder) -> list[tuple[Ladder, Layout]]:
    """Pages of whole sections, or of the parts of a long one, as many on each as can be read there."""
    sections, under = _in_parts(ladder)

    def page(items: tuple[Placed, ...]) -> tuple[Ladder, Layout]:
        return _page(ladder, items, under)

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
