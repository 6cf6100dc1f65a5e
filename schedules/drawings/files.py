"""Pictures as files: each on as many pages as can be read, in the formats that are wanted."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.engine import WHEEL
from schedules.drawings.ladder.content import Ladder
from schedules.drawings.ladder.drawing import draw_ladder
from schedules.drawings.split import draw_pages

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.drawings.drawing import Rendered
    from schedules.drawings.engine import Engine
    from schedules.drawings.picture import Picture


def drawn_pages(shown: Picture | Ladder, engine: Engine = WHEEL) -> tuple[Rendered, ...]:
    """Draw and prove a picture or a ladder, on as few pages as can be read.

    Raises DrawingError where a drawing is not proved, EngineError.
    """
    if isinstance(shown, Ladder):
        return draw_ladder(shown, engine=engine)
    return draw_pages(shown, engine=engine)


def drawing_files(
    stem: str,
    pictures: Iterable[tuple[str, Picture | Ladder]],
    formats: Iterable[str],
    engine: Engine = WHEEL,
) -> dict[str, str | bytes]:
    """Draw and prove pictures; what stands in each file, by its name: stem, the picture's name, its page.

    Raises DrawingError where a drawing is not proved, EngineError.
    """
    wanted = tuple(formats)
    files: dict[str, str | bytes] = {}
    for name, picture in pictures:
        drawings = drawn_pages(picture, engine)
        for number, drawing in enumerate(drawings, start=1):
            page = f"-{number}" if len(drawings) > 1 else ""
            files |= {f"{stem}-{name}{page}.{ending}": content(drawing, ending) for ending in wanted}
    return files


def content(drawing: Rendered, ending: str) -> str | bytes:
    """One drawing in one of the formats, SVG where it is none of the others."""
    match ending:
        case "png":
            return drawing.png()
        case "dot":
            return drawing.dot
        case _:
            return drawing.svg
