"""Draw a picture: place, lay, write, and prove what came out."""

from __future__ import annotations

import os
from dataclasses import dataclass
from pathlib import Path
from tempfile import NamedTemporaryFile

from schedules.drawings.compose import compose
from schedules.drawings.dot import dot_text
from schedules.drawings.engine import WHEEL, Engine
from schedules.drawings.picture import Picture, legible
from schedules.drawings.placement import Arrangement, arrange
from schedules.drawings.proof import prove_or_raise


@dataclass(frozen=True, slots=True)
class Drawing:
    """One proved drawing. width_pt, height_pt: its full size [pt]."""

    picture: Picture
    arrangement: Arrangement
    svg: str
    dot: str
    width_pt: float
    height_pt: float
    engine: Engine

    def png(self, dpi: int = 150) -> bytes:
        """The drawing as a PNG image of so many dots per inch."""
        return self.engine.render(self.dot.replace("graph [", f"graph [dpi={dpi}, ", 1), "as given", "png")


def draw(picture: Picture, *, engine: Engine = WHEEL, like: Arrangement | None = None) -> Drawing:
    """Draw a picture and prove the drawing.

    like: the arrangement of a bigger or an earlier picture, so that blocks keep their places.
    Raises DrawingError naming every line or word that is not as the picture says, EngineError.
    """
    picture = legible(picture)
    arrangement = arrange(picture, engine, like)
    layout = compose(picture, arrangement)
    dot = dot_text(layout)
    svg = engine.render(dot, "as given", "svg").decode()
    prove_or_raise(picture, svg)
    return Drawing(picture, arrangement, svg, dot, layout.width, layout.height, engine)


def write_svg(drawing: Drawing, path: Path) -> None:
    """Write the drawing as SVG, whole or not at all."""
    _write(path, drawing.svg.encode())


def write_dot(drawing: Drawing, path: Path) -> None:
    """Write the drawing's source, which any Graphviz draws again with `neato -n2`, whole or not at all."""
    _write(path, drawing.dot.encode())


def write_png(drawing: Drawing, path: Path, dpi: int = 150) -> None:
    """Write the drawing as PNG at so many dots per inch, whole or not at all."""
    _write(path, drawing.png(dpi))


def _write(path: Path, content: bytes) -> None:
    """A neighbour first, then one rename: a reader never finds half a file."""
    with NamedTemporaryFile(dir=path.parent, prefix=f".{path.name}.", delete=False) as file:
        try:
            file.write(content)
            file.flush()
            os.fsync(file.fileno())
        except BaseException:
            Path(file.name).unlink()
            raise
    Path(file.name).replace(path)
