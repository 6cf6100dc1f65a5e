"""The drawings of a package, each proved: overview, point to point, one for each enclosure."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.drawings.drawing import draw
from schedules.drawings.finish import alternative_text
from schedules.drawings.picture import Paper
from schedules.drawings.split import by_cables
from schedules.drawings.style import SMALLEST_PT
from schedules.drawings.views import one_enclosure, overview, point_to_point
from schedules.writers.document import Figure

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from schedules.drawings.drawing import Drawing
    from schedules.drawings.picture import Picture
    from schedules.plan import Plan

LARGE = {Paper.LETTER: Paper.TABLOID, Paper.A4: Paper.A3}
"""The sheet twice as large, for the whole installation on the wall."""

# White conductors vanish in much coarser images.
_PNG_DPI = 150


@dataclass(frozen=True, slots=True)
class Drawn:
    """One drawing and how it is shown. name: in a file's name. png: empty where no image is wanted."""

    name: str
    figure: Figure
    drawing: Drawing
    png: bytes


@dataclass(frozen=True, slots=True)
class Drawings:
    """All drawings of a package; those of enclosures by tag. wall: the whole, for the sheet twice as large."""

    overview: tuple[Drawn, ...]
    enclosures: dict[str, tuple[Drawn, ...]]
    wall: tuple[Drawn, ...]

    @property
    def every(self) -> tuple[Drawn, ...]:
        """Each drawing once."""
        return (*self.overview, *self.wall, *(item for drawn in self.enclosures.values() for item in drawn))


@contextmanager
def drawing_all(
    plan: Plan, paper: Paper, *, whole: bool, enclosures: bool, wall: bool, images: bool
) -> Iterator[Callable[[], Drawings]]:
    """Begin to draw what is wanted, each on as many pages as can be read on its paper; gives how to wait for it.

    Waiting raises DrawingError where a drawing is not proved, EngineError.
    """
    tags = used_enclosures(plan) if enclosures else ()
    # The engine is a program of its own: while it draws one, the next one is laid out.
    with ThreadPoolExecutor(max_workers=2) as pool:
        # The largest are begun first.
        all_of_it = (
            pool.submit(_pages, point_to_point(plan, LARGE[paper]), "point-to-point", images=images)
            if wall
            else None
        )
        over = pool.submit(_pages, overview(plan, paper), "overview", images=images) if whole else None
        single = {
            tag: pool.submit(
                _pages, one_enclosure(plan, tag, paper), f"enclosure-{tag.lower()}", images=images
            )
            for tag in tags
        }

        def drawn() -> Drawings:
            return Drawings(
                overview=over.result() if over else (),
                enclosures={tag: future.result() for tag, future in single.items()},
                wall=all_of_it.result() if all_of_it else (),
            )

        try:
            yield drawn
        finally:
            pool.shutdown(cancel_futures=True)


def used_enclosures(plan: Plan) -> tuple[str, ...]:
    """Enclosures at which a conductor ends, in the sheet's order."""
    used = {landing.enclosure for point, landing in plan.derived.connections.landings.items()
            if plan.derived.connections.landed(point)}  # fmt: skip
    return tuple(item.tag for item in plan.derived.selection.enclosures if item.tag in used)


def _pages(picture: Picture, name: str, *, images: bool) -> tuple[Drawn, ...]:
    pictures = by_cables(picture)
    return tuple(
        _drawn(page, name if len(pictures) == 1 else f"{name}-{place}", images=images)
        for place, page in enumerate(pictures, 1)
    )


def _drawn(picture: Picture, name: str, *, images: bool) -> Drawn:
    drawing = draw(picture, prefix=f"{name}-")
    figure = Figure(
        id=name,
        title=drawing.picture.title,
        alt=alternative_text(drawing.picture),
        svg=drawing.svg,
        width_pt=drawing.width_pt,
        height_pt=drawing.height_pt,
        smallest_full_pt=SMALLEST_PT,
    )
    return Drawn(name, figure, drawing, drawing.png(_PNG_DPI) if images else b"")
