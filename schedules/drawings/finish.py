"""The engine's SVG made fit for readers: title, alternative text, names on hovering, our typeface, ids of its own."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

from schedules.drawings import ink, names
from schedules.drawings.picture import End
from schedules.drawings.rows import colour_words, point_words

if TYPE_CHECKING:
    from schedules.drawings.picture import Picture

_SVG = "http://www.w3.org/2000/svg"
_XLINK = "http://www.w3.org/1999/xlink"

# Same widths under several names: whichever a reader has.
FAMILY = "Arimo, Arial, Liberation Sans, Helvetica, sans-serif"

ET.register_namespace("", _SVG)
ET.register_namespace("xlink", _XLINK)


@dataclass(frozen=True, slots=True)
class Told:
    """What a drawing says besides what is seen. hover: what an element says when pointed at, by id."""

    title: str
    description: str
    hover: dict[str, str]


def finished(svg: str, picture: Picture, prefix: str) -> str:
    """The picture's drawing as it is kept. prefix: put before every id, so that several fit into one page."""
    return dressed(svg, Told(picture.title, alternative_text(picture), _hover(picture)), prefix)


def dressed(svg: str, told: Told, prefix: str) -> str:
    """A drawing as it is kept. prefix: put before every id."""
    root = ET.fromstring(svg)  # noqa: S314 - written by our own engine
    for parent in root.iter():
        for child in [child for child in parent if child.tag == f"{{{_SVG}}}title"]:
            parent.remove(child)
    said = told.hover
    for element in root.iter():
        name = element.get("id")
        if name is not None:
            element.set("id", prefix + name)
            if name in said:
                _say(element, said[name])
        if element.tag == f"{{{_SVG}}}text":
            element.set("font-family", FAMILY)
        element.attrib.pop(f"{{{_XLINK}}}title", None)
    root.set("role", "img")
    root.set("aria-labelledby", f"{prefix}title-text {prefix}description-text")
    for place, (kind, text) in enumerate((("title", told.title), ("description", told.description))):
        element = ET.Element(f"{{{_SVG}}}{'title' if kind == 'title' else 'desc'}", id=f"{prefix}{kind}-text")
        element.text = text
        root.insert(place, element)
    return ET.tostring(root, encoding="unicode") + "\n"


def alternative_text(picture: Picture) -> str:
    """The drawing in words: every block, every line with both its ends."""
    points = _points(picture)
    blocks = ", ".join(f"{block.tag} {block.name}".strip() for block in picture.blocks)
    lines = [
        f"{_line_words(picture, index)}: {points[line.a]} to {points[line.b]}."
        for index, line in enumerate(picture.lines)
    ]
    parts = [picture.description, f"Shown: {blocks}." if blocks else "", *lines]
    return " ".join(part for part in parts if part)


def _line_words(picture: Picture, index: int) -> str:
    line = picture.lines[index]
    size = line.size if line.colour else ""
    cable = f"in {line.cable}" if line.cable else ""
    return " ".join(part for part in (line.key, colour_words(line), size, cable, line.note) if part)


def _points(picture: Picture) -> dict[End, str]:
    """Where a line may end, in words."""
    points = {}
    words = point_words(picture)
    for block in picture.blocks:
        points[End(block.key, None)] = f"capped in {block.tag}"
        for terminal in block.terminals:
            parts = [part for part in (block.tag, words[block.key, terminal.key]) if part]
            points[End(block.key, terminal.key)] = ".".join(parts)
    return points


def _hover(picture: Picture) -> dict[str, str]:
    """What an element says when pointed at, by id."""
    said = {}
    points = _points(picture)
    for b, block in enumerate(picture.blocks):
        said[names.block(b)] = f"{block.tag} {block.name}".strip()
        for t, terminal in enumerate(block.terminals):
            said[names.terminal(b, t)] = f"{points[End(block.key, terminal.key)]}, {terminal.kind.value}"
    for index, line in enumerate(picture.lines):
        for n in range(len(ink.coats(line))):
            said[names.coat(names.line(index), n)] = (
                f"{_line_words(picture, index)}: {points[line.a]} to {points[line.b]}"
            )
    return said


def _say(element: ET.Element, text: str) -> None:
    title = ET.Element(f"{{{_SVG}}}title")
    title.text = text
    element.insert(0, title)
