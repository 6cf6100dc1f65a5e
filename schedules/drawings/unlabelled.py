"""A drawing for a class to label: proved whole, then the words at its lines' ends are left off, and nothing else."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

from schedules.drawings import names
from schedules.drawings.errors import DrawingError
from schedules.drawings.proof.readback import read_back

if TYPE_CHECKING:
    from schedules.drawings.drawing import Drawing
    from schedules.drawings.picture import Picture

_SVG = "{http://www.w3.org/2000/svg}"


def without_labels(drawing: Drawing, prefix: str = "") -> str:
    """A proved drawing's SVG without the words at its lines' ends, and without what it says on hovering or aloud.

    prefix: what stands before every id in it. Raises DrawingError where anything else would differ from what was
    proved, or a label would stay.
    """
    root = ET.fromstring(drawing.svg)  # noqa: S314 - written by our own engine
    labels = {prefix + name for name in _label_names(drawing.picture)}
    for parent in list(root.iter()):
        for child in list(parent):
            if child.get("id") in labels or child.tag in (f"{_SVG}title", f"{_SVG}desc"):
                parent.remove(child)
    root.attrib.pop("aria-labelledby", None)
    root.set("aria-label", f"{drawing.picture.title}, lines without labels")
    svg = ET.tostring(root, encoding="unicode") + "\n"
    _prove_same_but_labels(drawing, svg, prefix)
    return svg


def words_for_all(picture: Picture) -> str:
    """What an unlabelled drawing shows, in words that give no answer away."""
    blocks = ", ".join(f"{block.tag} {block.name}".strip() for block in picture.blocks)
    return f"{len(picture.lines)} lines without labels between {blocks}."


def _label_names(picture: Picture) -> set[str]:
    return {
        names.piece(index, end, what)
        for index in range(len(picture.lines))
        for end in names.ENDS
        for what in names.PIECES
    }


def _prove_same_but_labels(drawing: Drawing, svg: str, prefix: str) -> None:
    whole, bare = read_back(drawing.svg, prefix), read_back(svg, prefix)
    labels = _label_names(drawing.picture)
    failures = []
    if (whole.ways.keys(), whole.shapes.keys()) != (bare.ways.keys(), bare.shapes.keys()):
        failures.append("a line or box went with the labels")
    failures += [
        f"{name} moved" for name, way in bare.ways.items() if way.segments != whole.ways[name].segments
    ]
    if bare.writings.keys() != whole.writings.keys() - labels:
        failures.append("a label stayed, or other words went with the labels")
    if failures:
        raise DrawingError(tuple(failures))
