"""Draw a picture: place, lay, write, and prove what came out."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import lru_cache
from itertools import chain
from typing import TYPE_CHECKING

from schedules.drawings.around import around, hub
from schedules.drawings.compose import compose
from schedules.drawings.dot import dot_text
from schedules.drawings.engine import WHEEL, Engine
from schedules.drawings.finish import finished
from schedules.drawings.paper import Fit, fit, may_fit
from schedules.drawings.picture import Paper, Picture, legible
from schedules.drawings.placement import Arrangement, arrange, eased, improved
from schedules.drawings.proof import prove_or_raise
from schedules.drawings.settling import settle
from schedules.files.whole_file import write_whole

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from schedules.drawings.layout import Box, Layout

# Whether a picture can be read on its paper is asked before it is drawn; the answer's layout is then at hand.
_LAYOUTS_KEPT = 32


@dataclass(frozen=True, slots=True)
class Rendered:
    """A finished drawing. width_pt, height_pt: its full size [pt]. dot: its source, for any Graphviz.

    links: its boxes that lead somewhere.
    """

    svg: str
    dot: str
    width_pt: int
    height_pt: int
    engine: Engine
    links: tuple[Box, ...]

    def png(self, dpi: int = 150) -> bytes:
        """The drawing as a PNG image of so many dots per inch."""
        return self.engine.render(self.dot.replace("graph [", f"graph [dpi={dpi}, ", 1), "as given", "png")

    def on(self, paper: Paper) -> Fit:
        """How it goes on a sheet of paper."""
        return fit(self.width_pt, self.height_pt, paper)


@dataclass(frozen=True, slots=True)
class Drawing(Rendered):
    """One proved drawing of a picture."""

    picture: Picture
    arrangement: Arrangement


def draw(
    picture: Picture, *, engine: Engine = WHEEL, like: Arrangement | None = None, prefix: str = ""
) -> Drawing:
    """Draw a picture and prove the drawing.

    like: the arrangement of a bigger or an earlier picture, so that blocks keep their places. prefix: put before
    every id in the SVG, so that several drawings fit into one page.
    Raises DrawingError naming every line or word that is not as the picture says, EngineError.
    """
    shown = legible(picture)
    arrangement, layout = lay_out(shown, engine, like)
    dot = dot_text(layout)
    svg = finished(engine.render(dot, "as given", "svg").decode(), shown, prefix)
    prove_or_raise(shown, svg, prefix)
    return Drawing(svg, dot, layout.width, layout.height, engine, layout.links, shown, arrangement)


@lru_cache(maxsize=_LAYOUTS_KEPT)
def lay_out(picture: Picture, engine: Engine, like: Arrangement | None) -> tuple[Arrangement, Layout]:
    """Place and lay a legible picture; in fewer columns if it can then, and only then, be read on its paper.

    Without an arrangement to be like, in the places of its home, unless it can only be read in others.
    """
    if like is None and picture.home:
        return _at_home(picture, engine, settle(picture.home, engine))
    arrangement = arrange(picture, engine, like)
    layout = _composed(picture, arrangement)
    shaped = fits(layout, picture.paper) or not may_fit(layout.width, layout.height, picture.paper)
    if like is None and not shaped:
        for most in range(len(arrangement.columns) - 1, 1, -1):
            narrower = arrange(picture, engine, most_columns=most)
            other = _composed(picture, narrower)
            if fits(other, picture.paper):
                return narrower, other
    return arrangement, layout


def _composed(picture: Picture, arrangement: Arrangement) -> Layout:
    """An arrangement laid out, lower than it would be followed best if it can then, and only then, be read."""
    layout = compose(picture, arrangement)
    if not fits(layout, picture.paper) and may_fit(layout.width, layout.height, picture.paper):
        lower = compose(picture, arrangement, gathered=True)
        if fits(lower, picture.paper):
            return lower
    return layout


def _at_home(picture: Picture, engine: Engine, home: Arrangement) -> tuple[Arrangement, Layout]:
    """In the home's places, or round one block; else as near to them as can be read; else anew, if that can be."""
    homeless = replace(picture, home=())
    middle = hub(picture)
    kept = lay_out(homeless, engine, home if middle is None else around(picture, middle, home))
    if fits(kept[1], picture.paper):
        return kept
    if middle is None and may_fit(kept[1].width, kept[1].height, picture.paper):
        for one in eased(picture, kept[0]):
            layout = _composed(picture, one)
            if fits(layout, picture.paper):
                return one, layout
        near = [kept, *(lay_out(homeless, engine, narrower) for narrower in _folded(home))]
        better = (improved(picture, arrangement) for arrangement, _ in near)
        for arrangement, layout in chain(near, ((one, _composed(picture, one)) for one in better)):
            if fits(layout, picture.paper):
                return arrangement, layout
    anew = lay_out(homeless, engine, None)
    return anew if fits(anew[1], picture.paper) else kept


def _folded(arrangement: Arrangement) -> Iterator[Arrangement]:
    """The same order in fewer and fewer columns: each time the two neighbours that hold the fewest blocks as one."""
    columns = arrangement.columns
    while len(columns) > 1:
        at = min(range(len(columns) - 1), key=lambda c: len(columns[c]) + len(columns[c + 1]))
        columns = (*columns[:at], columns[at] + columns[at + 1], *columns[at + 2 :])
        yield Arrangement(columns)


def fits(layout: Layout, paper: Paper) -> bool:
    """Whether a layout can be read on a paper."""
    return fit(layout.width, layout.height, paper).readable


def write_svg(drawing: Rendered, path: Path) -> None:
    """Write the drawing as SVG, whole or not at all."""
    write_whole(path, drawing.svg)


def write_dot(drawing: Rendered, path: Path) -> None:
    """Write the drawing's source, which any Graphviz draws again with `dot -Tsvg`, whole or not at all."""
    write_whole(path, drawing.dot)


def write_png(drawing: Rendered, path: Path, dpi: int = 150) -> None:
    """Write the drawing as PNG at so many dots per inch, whole or not at all."""
    write_whole(path, drawing.png(dpi))
