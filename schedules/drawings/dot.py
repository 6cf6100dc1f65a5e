"""A layout in Graphviz's language: every box, word and line with its given position.

Any Graphviz draws the same picture from it: `dot -Tsvg FILE`. Ids and node names are ours; words are escaped.
"""

from __future__ import annotations

from math import ceil
from typing import TYPE_CHECKING

from schedules.drawings.layout import Box, Layout, Point, Stroke, Words
from schedules.drawings.names import coat as coat_name
from schedules.text import for_dot

if TYPE_CHECKING:
    from collections.abc import Iterator

# A circle's quarter as a Bézier curve.
_ROUND = 0.5523

# Where the engines put a label's baseline under its centre, by type size; measured on two engines, which differ
# by half a point. Styled words are HTML-like labels, plain words plain ones: in an HTML-like label without any
# style the engines differ by more than a point.
_BASELINE = 0.3
_STYLED_LIFT = 1.0

_STYLED = {"bold": "B", "italic": "I"}

_CELL_HEIGHT = 1.5
_ROUND_CELL = 6


def dot_text(layout: Layout) -> str:
    """The whole drawing as DOT text."""
    return "\n".join(
        (
            "digraph drawing {",
            "graph [layout=nop2, outputorder=edgesfirst, splines=true, pad=0];",
            'node [shape=box, fixedsize=true, margin=0, label="", fontname="Arial"];',
            "edge [dir=none];",
            *_nodes(layout),
            *_edges(layout),
            "}\n",
        )
    )


def _nodes(layout: Layout) -> Iterator[str]:
    # A frame round everything holds the page's origin and size, whatever stands at its edges.
    page = Box("page", 0, 0, layout.width, layout.height, outline="", width=0)
    for box in (page, *layout.boxes):
        yield _box(box, layout.height)
    for words in layout.words:
        yield _words(words, layout.height)
    for end in ("start", "end"):
        yield f'"loose_{end}" [pos="9,9", width=0.01, height=0.01, style=invis];'


def _edges(layout: Layout) -> Iterator[str]:
    for stroke in layout.strokes:
        tail, head = stroke.tail or "loose_start", stroke.head or "loose_end"
        pos = _pos(_curve(stroke), layout.height)
        link = f' href="{for_dot(stroke.href)}",' if stroke.href else ""
        for n, coat in enumerate(stroke.coats):
            style = " style=dashed," if coat.dashed else ""
            yield (
                f'"{tail}" -> "{head}" [id="{coat_name(stroke.id, n)}",{link}{style} color="{coat.colour}", '
                f'penwidth={coat.width:g}, pos="{pos}"];'
            )


def _place(x: float, y: float, height: float) -> str:
    return f"{x:.3f},{height - y:.3f}"


def _box(box: Box, height: float) -> str:
    styles = [
        *(["filled"] if box.fill else []),
        *(["dashed"] if box.dashed else []),
    ]
    link = f' href="{for_dot(box.href)}",' if box.href else ""
    return (
        f'"{box.id}" [id="{box.id}",{link} shape={box.shape}, style="{",".join(styles)}", '
        f'color="{box.outline or "#ffffff00"}", fillcolor="{box.fill or "#ffffff00"}", penwidth={box.width:g}, '
        f"width={(box.right - box.left) / 72:.5f}, height={(box.bottom - box.top) / 72:.5f}, "
        f'pos="{_place((box.left + box.right) / 2, (box.top + box.bottom) / 2, height)}"];'
    )


def _words(words: Words, height: float) -> str:
    # Left-aligned in a box of our own measure, so that nothing depends on how an engine measures text.
    room = words.room
    height_of_cell = ceil(words.pt * _CELL_HEIGHT)
    over = words.baseline - _BASELINE * words.pt
    if words.face == "regular":
        label, node = f'"{for_dot(words.text)}\\l"', room
    else:
        over += _STYLED_LIFT
        tag, node = _STYLED[words.face], room + _ROUND_CELL
        label = (
            '<<TABLE BORDER="0" CELLBORDER="0" CELLSPACING="0" CELLPADDING="0"><TR>'
            f'<TD FIXEDSIZE="TRUE" WIDTH="{room}" HEIGHT="{height_of_cell}" ALIGN="LEFT">'
            f"<{tag}>{for_dot(words.text)}</{tag}></TD></TR></TABLE>>"
        )
    return (
        f'"{words.id}" [id="{words.id}", shape=plaintext, width={node / 72:.5f}, '
        f'height={(height_of_cell + _ROUND_CELL) / 72:.5f}, fontsize={words.pt:g}, fontcolor="{words.colour}", '
        f'label={label}, pos="{_place(words.left + room / 2, over, height)}"];'
    )


def _curve(stroke: Stroke) -> list[Point]:
    """The stroke as Bézier control points: straight runs, and corners rounded as far as their runs allow."""
    points = [p for n, p in enumerate(stroke.points) if n == 0 or p != stroke.points[n - 1]]
    path = [points[0]]
    for n in range(1, len(points) - 1):
        before, corner, after = points[n - 1], points[n], points[n + 1]
        radius = min(stroke.corner, _length(before, corner) / 2, _length(corner, after) / 2)
        entry, leave = _towards(corner, before, radius), _towards(corner, after, radius)
        path.extend((path[-1], entry, entry))
        if radius:
            path.extend(
                (_towards(entry, corner, radius * _ROUND), _towards(leave, corner, radius * _ROUND), leave)
            )
    path.extend((path[-1], points[-1], points[-1]))
    return path


def _length(a: Point, b: Point) -> float:
    return abs(a[0] - b[0]) + abs(a[1] - b[1])


def _towards(start: Point, goal: Point, distance: float) -> Point:
    length = ((goal[0] - start[0]) ** 2 + (goal[1] - start[1]) ** 2) ** 0.5
    if not length:
        return start
    return (
        start[0] + (goal[0] - start[0]) * distance / length,
        start[1] + (goal[1] - start[1]) * distance / length,
    )


def _pos(curve: list[Point], height: float) -> str:
    return " ".join(_place(x, y, height) for x, y in curve)
