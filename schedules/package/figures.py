"""A package's drawings, each proved: overview, point to point, ladder, each enclosure, each wall to scale."""

from __future__ import annotations

from concurrent.futures import ThreadPoolExecutor
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from schedules.drawings.drawing import Rendered, draw
from schedules.drawings.elevation import elevations
from schedules.drawings.errors import DrawingError
from schedules.drawings.finish import alternative_text
from schedules.drawings.floor_plan import plan_view
from schedules.drawings.ladder.drawing import draw_ladder
from schedules.drawings.ladder.telling import description
from schedules.drawings.ladder.views import ladder
from schedules.drawings.picture import Paper
from schedules.drawings.split import by_cables
from schedules.drawings.style import SMALLEST_PT
from schedules.drawings.views import one_enclosure, overview, point_to_point
from schedules.writers.document import Figure, Link

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.drawings.picture import Picture
    from schedules.drawings.site_sheets import SiteDrawing
    from schedules.plan import Plan

LARGE = {Paper.LETTER: Paper.TABLOID, Paper.A4: Paper.A3}
"""The sheet twice as large, for the whole installation on the wall."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """One drawing and how it is shown. files: its own files, by their names."""

    figure: Figure
    files: dict[str, bytes]


@dataclass(frozen=True, slots=True)
class Drawings:
    """What a package's pages show; drawings of enclosures by tag.

    ladders: every circuit, for the sheet twice as large. walls: they and the kitchen from above, to scale on that
    sheet; walls_on_paper: on the booklet's own, in as many sheets as that takes. missing: what could not be drawn, in
    words.
    """

    overview: tuple[Drawn, ...] = ()
    enclosures: Mapping[str, tuple[Drawn, ...]] = field(default_factory=dict)
    ladders: tuple[Drawn, ...] = ()
    walls: tuple[Drawn, ...] = ()
    walls_on_paper: tuple[Drawn, ...] = ()
    missing: tuple[str, ...] = ()

    @property
    def every(self) -> tuple[Drawn, ...]:
        """Each drawing once; of the walls, the larger sheets."""
        boxes = (item for drawn in self.enclosures.values() for item in drawn)
        return (*self.overview, *self.ladders, *self.walls, *boxes)


@dataclass(frozen=True, slots=True)
class Wanted:
    """Which drawings are wanted."""

    overview: bool
    enclosures: bool
    walls: bool


def draw_boxes(plan: Plan, paper: Paper, wanted: Wanted) -> Drawings:
    """The overview, and each enclosure with what lands there, on as many pages as can be read on their paper.

    Raises DrawingError where a drawing is not proved, EngineError.
    """
    # The first one settles where every enclosure has its place; the others know it then.
    whole = _pages(overview(plan, paper), "overview") if wanted.overview else ()
    tags = used_enclosures(plan) if wanted.enclosures else ()
    # The engine is a program of its own: while it draws one, the next one is laid out.
    with ThreadPoolExecutor(max_workers=2) as pool:
        single = pool.map(
            lambda tag: _pages(one_enclosure(plan, tag, paper), f"enclosure-{tag.lower()}"), tags
        )
        return Drawings(overview=whole, enclosures=dict(zip(tags, single, strict=True)))


def draw_sheets(plan: Plan, paper: Paper, wanted: Wanted) -> Drawings:
    """Every circuit as a ladder, the kitchen from above and its walls.

    Raises DrawingError where a ladder is not proved, EngineError.
    """
    rungs = _ladders(plan, LARGE[paper]) if wanted.enclosures else ()
    walls, missing = _walls(plan, LARGE[paper]) if wanted.walls else ((), ())
    # What fits on neither is told once, by the larger one.
    smaller = _walls(plan, paper)[0] if wanted.walls else ()
    return Drawings(ladders=rungs, walls=walls, walls_on_paper=smaller, missing=missing)


def draw_whole(plan: Plan, paper: Paper, wanted: Wanted) -> tuple[Drawn, ...]:
    """The whole installation point to point, for the sheet twice as large.

    Raises DrawingError where a drawing is not proved, EngineError.
    """
    return _pages(point_to_point(plan, LARGE[paper]), "point-to-point") if wanted.enclosures else ()


def used_enclosures(plan: Plan) -> tuple[str, ...]:
    """Enclosures at which a conductor ends, in the sheet's order."""
    used = {landing.enclosure for point, landing in plan.derived.connections.landings.items()
            if plan.derived.connections.landed(point)}  # fmt: skip
    return tuple(item.tag for item in plan.derived.selection.enclosures if item.tag in used)


def _pages(picture: Picture, name: str) -> tuple[Drawn, ...]:
    pictures = by_cables(picture)
    return tuple(
        _drawn(page, name if len(pictures) == 1 else f"{name}-{place}")
        for place, page in enumerate(pictures, 1)
    )


def _drawn(picture: Picture, name: str) -> Drawn:
    drawing = draw(picture, prefix=f"{name}-")
    return _shown(drawing, name, drawing.picture.title, alternative_text(drawing.picture))


def _ladders(plan: Plan, paper: Paper) -> tuple[Drawn, ...]:
    drawings = draw_ladder(ladder(plan, paper), prefix="ladder-")
    numbers = [""] if len(drawings) == 1 else [f"-{n}" for n in range(1, len(drawings) + 1)]
    return tuple(
        _shown(page, f"ladder{number}", page.ladder.title, description(page.ladder))
        for number, page in zip(numbers, drawings, strict=True)
    )


def _shown(drawing: Rendered, name: str, title: str, alt: str) -> Drawn:
    figure = Figure(
        id=name,
        title=title,
        alt=alt,
        svg=drawing.svg,
        width_pt=drawing.width_pt,
        height_pt=drawing.height_pt,
        smallest_full_pt=SMALLEST_PT,
        links=tuple(
            Link(box.href.removeprefix("#"), box.left, box.top, box.right - box.left, box.bottom - box.top)
            for box in drawing.links
        ),
    )
    files = {f"{name}.svg": drawing.svg.encode(), f"{name}.dot": drawing.dot.encode()}
    return Drawn(figure, files)


def _walls(plan: Plan, paper: Paper) -> tuple[tuple[Drawn, ...], tuple[str, ...]]:
    """The kitchen from above and its walls, to scale; what can't be drawn is told, since the rest is right without."""
    found: list[Drawn] = []
    missing: list[str] = []
    for draw_all in (plan_view, elevations):
        try:
            found += map(_to_scale, draw_all(plan, paper))
        except DrawingError as error:
            missing += error.failures
    return tuple(found), tuple(missing)


def _to_scale(drawing: SiteDrawing) -> Drawn:
    figure = Figure(
        id=drawing.name,
        title=drawing.title,
        alt=drawing.words,
        svg=drawing.svg,
        width_pt=drawing.width_pt,
        height_pt=drawing.height_pt,
        smallest_full_pt=SMALLEST_PT,
        to_scale=True,
    )
    return Drawn(figure, {f"{drawing.name}.svg": drawing.svg.encode()})
