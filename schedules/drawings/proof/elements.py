"""Is everything drawn that the picture holds, once, in its words and inks, and nothing else?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.drawings import ink, names
from schedules.drawings.finish import alternative_text
from schedules.drawings.legend import entries
from schedules.drawings.marks import MARKS
from schedules.drawings.picture import TerminalKind

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.ink import Coat
    from schedules.drawings.marks import Mark
    from schedules.drawings.picture import Block, End, Line, Picture
    from schedules.drawings.proof.readback import Seen, Shape, Way, Writing

_WIDTH_SLACK = 0.01


@dataclass(frozen=True, slots=True)
class Expected:
    """One piece of text that must be there. within: the shape that must hold it, empty: the page."""

    text: str
    within: str = ""
    bold: bool = False
    italic: bool = False


def element_failures(picture: Picture, seen: Seen) -> Iterator[str]:
    """Whatever is missing, surplus, or there in other words or another ink than declared."""
    yield from (f"not part of the picture: {stray}" for stray in seen.strays)
    if seen.title != picture.title:
        yield f"the title read aloud is {seen.title!r} instead of {picture.title!r}"
    if seen.description != alternative_text(picture):
        yield "the text read aloud instead of the drawing is not the picture's"
    yield from _word_failures(picture, seen.writings)
    yield from shape_failures(_expected_shapes(picture), seen.shapes)
    called = {names.line(index): f"conductor {line.key!r}" for index, line in enumerate(picture.lines)}
    yield from stroke_failures(_expected_strokes(picture), called, seen.ways)


def expected_words(picture: Picture) -> dict[str, Expected]:
    """Every piece of text by element id, but for running text, which may be broken into lines."""
    words = {f"{names.legend(n)}_words": Expected(entry.words) for n, entry in enumerate(entries(picture))}
    landed = {(end.block, end.terminal) for line in picture.lines for end in (line.a, line.b)}
    for b, block in enumerate(picture.blocks):
        words[f"{names.block(b)}_tag"] = Expected(block.tag, f"{names.block(b)}_header", bold=True)
        words.update(_terminal_words(b, block, landed))
    words.update(_line_words(picture))
    return {name: expected for name, expected in words.items() if expected.text}


def running_text(picture: Picture) -> dict[str, Expected]:
    """Text that may be broken into lines, by element id without the line's number."""
    texts = {"title": Expected(picture.title, bold=True), "subtitle": Expected(picture.subtitle)}
    texts.update({f"footer{n}": Expected(text) for n, text in enumerate(picture.footer)})
    for b, block in enumerate(picture.blocks):
        name = f"{block.name} (in\u00a0part)" if block.partial else block.name
        texts[f"{names.block(b)}_name"] = Expected(name, f"{names.block(b)}_header")
    return texts


def running_part(name: str, texts: dict[str, Expected]) -> Expected | None:
    """The running text of which an element is one line; None where it is of none."""
    prefix, _, number = name.rpartition("_")
    return texts.get(prefix) if number.isdecimal() else None


def _terminal_words(b: int, block: Block, landed: set[tuple[str, str | None]]) -> dict[str, Expected]:
    words = {}
    group = ""
    for t, terminal in enumerate(block.terminals):
        cell = names.terminal(b, t)
        words[f"{cell}_designation"] = Expected(terminal.designation, cell, bold=True)
        before = block.terminals[t - 1] if t else None
        pins = (
            before is not None
            and (TerminalKind.PIN in (before.kind, terminal.kind))
            and (before.kind != terminal.kind)
        )
        if terminal.group != group or pins:
            words[f"{cell}_group"] = Expected(terminal.group, names.block(b), bold=True)
        group = terminal.group
        if (block.key, terminal.key) not in landed:
            words[f"{cell}_note"] = Expected(terminal.note, names.block(b), italic=True)
    return words


def _line_words(picture: Picture) -> dict[str, Expected]:
    blocks = {block.key: b for b, block in enumerate(picture.blocks)}
    marks = {
        (block.key, terminal.key): ":".join(
            filter(None, (terminal.group.partition(" ")[0], terminal.designation))
        )
        for block in picture.blocks
        for terminal in block.terminals
    }

    def goal(near: End, far: End) -> str:
        tag = picture.blocks[blocks[far.block]].tag
        if far.terminal is None:
            return f"capped in {tag}"
        mark = marks[far.block, far.terminal]
        if mark and near.block == far.block:
            return f"to {mark}"
        return f"to {tag}.{mark}" if mark else f"to {tag}"

    words = {}
    for index, line in enumerate(picture.lines):
        for name, near, far in (("a", line.a, line.b), ("b", line.b, line.a)):
            frame = names.block(blocks[near.block])
            if near.terminal is None:
                cell = names.cap(index, name)
                words[f"{cell}_designation"] = Expected("capped", cell, bold=True)
            pieces = {
                "number": line.key,
                "code": _colour(line),
                "far": goal(near, far),
                "cable": line.cable,
                "note": line.note,
            }
            for what, text in pieces.items():
                words[names.piece(index, name, what)] = Expected(text, frame, bold=what == "number")
    return words


def _colour(line: Line) -> str:
    if not line.colour:
        return line.size
    return f"{line.colour}→{line.remarked}" if line.remarked else line.colour


def _word_failures(picture: Picture, writings: dict[str, Writing]) -> Iterator[str]:
    words, texts = expected_words(picture), running_text(picture)
    for name, expected in words.items():
        drawn = writings.get(name)
        if drawn is None:
            yield f"{expected.text!r} ({name}) is not drawn"
        elif drawn.text != expected.text:
            yield f"{name} says {drawn.text!r} instead of {expected.text!r}"
        else:
            yield from _face_failures(name, drawn, expected)
    lines: dict[str, list[tuple[int, str]]] = {prefix: [] for prefix in texts}
    for name, drawn in writings.items():
        running = running_part(name, texts)
        if running is not None:
            prefix, _, number = name.rpartition("_")
            lines[prefix].append((int(number), drawn.text))
            yield from _face_failures(name, drawn, running)
        elif name not in words:
            yield f"{drawn.text!r} ({name}) is drawn but not part of the picture"
    for prefix, expected in texts.items():
        said = " ".join(text for _, text in sorted(lines[prefix]))
        if said.replace(" ", "") != expected.text.replace(" ", ""):
            yield f"{prefix} says {said!r} instead of {expected.text!r}"


def _face_failures(name: str, drawn: Writing, expected: Expected) -> Iterator[str]:
    if (drawn.bold, drawn.italic) != (expected.bold, expected.italic):
        yield f"{drawn.text!r} ({name}) is not in its typeface"
    if drawn.colour not in (ink.INK, ink.SOFT_INK):
        yield f"{drawn.text!r} ({name}) is written in {drawn.colour}, which may not be seen"


def marked_cells(picture: Picture) -> dict[str, Mark]:
    """The mark that each cell and legend entry bears, by element id."""
    marked = {
        names.terminal(b, t): MARKS[terminal.kind]
        for b, block in enumerate(picture.blocks)
        for t, terminal in enumerate(block.terminals)
    }
    marked.update(
        {
            names.cap(index, name): MARKS[None]
            for index, line in enumerate(picture.lines)
            for name, end in zip(names.ENDS, (line.a, line.b), strict=True)
            if end.terminal is None
        }
    )
    marked.update({names.legend(n): entry.mark for n, entry in enumerate(entries(picture)) if entry.mark})
    return marked


def housings(picture: Picture) -> dict[str, tuple[str, str]]:
    """Each connector's outline by element id, with the cells of its first and its last pin."""
    found = {}
    for b, block in enumerate(picture.blocks):
        first = None
        for t, terminal in enumerate(block.terminals):
            before = block.terminals[t - 1] if t else None
            if terminal.kind is not TerminalKind.PIN:
                first = None
                continue
            if first is None or before is None or before.group != terminal.group:
                first = names.terminal(b, t)
            found[names.housing(first)] = first, names.terminal(b, t)
    return found


@dataclass(frozen=True, slots=True)
class Look:
    """How a shape must look. A fill where none is declared would hide what is drawn before it."""

    stroke: str = ink.INK
    fill: str = "none"
    dashed: bool = False


def _expected_shapes(picture: Picture) -> dict[str, Look]:
    """Every shape that must be there by element id."""
    landed = set(names.cells(picture).values())
    shapes = {"page": Look(stroke="none")}
    for b, block in enumerate(picture.blocks):
        shapes[names.block(b)] = Look()
        shapes[f"{names.block(b)}_header"] = Look(stroke="none", fill=ink.HEADER)
        for t in range(len(block.terminals)):
            shapes[names.terminal(b, t)] = Look(dashed=names.terminal(b, t) not in landed)
    for index, line in enumerate(picture.lines):
        for name, end in zip(names.ENDS, (line.a, line.b), strict=True):
            shapes[names.dot(index, name)] = Look(fill=ink.INK)
            if end.terminal is None:
                shapes[names.cap(index, name)] = Look(dashed=True)
    for owner, mark in marked_cells(picture).items():
        shapes.update({names.mark_ring(owner, n): Look() for n in range(len(mark.rings))})
    return shapes


def shape_failures(wanted: dict[str, Look], shapes: dict[str, Shape]) -> Iterator[str]:
    """Every shape that is missing, surplus or looks otherwise."""
    yield from (f"{name} is not drawn" for name in sorted(wanted.keys() - shapes.keys()))
    for name, shape in sorted(shapes.items()):
        if name not in wanted:
            yield f"{name} is drawn but not part of the picture"
        elif Look(shape.stroke, shape.fill, shape.dashed) != wanted[name]:
            yield f"{name} looks like {shape.stroke}, {shape.fill}, dashed {shape.dashed}; must be {wanted[name]}"


def _expected_strokes(picture: Picture) -> dict[str, tuple[Coat, ...]]:
    """Every stroke's coats by element id without the coat's number."""
    outlines = dict.fromkeys(housings(picture), (ink.OUTLINE,))
    marks = {
        names.mark_line(owner, n): (ink.Coat(ink.INK, width),)
        for owner, mark in marked_cells(picture).items()
        for n, (_, width) in enumerate(mark.lines)
    }
    samples = {names.legend(n): entry.coats for n, entry in enumerate(entries(picture)) if entry.coats}
    lines = {names.line(index): ink.coats(line) for index, line in enumerate(picture.lines)}
    return outlines | marks | samples | lines


def stroke_failures(
    expected: dict[str, tuple[Coat, ...]], called: dict[str, str], ways: dict[str, Way]
) -> Iterator[str]:
    """Every stroke that is missing, surplus, or not in its coats. called: what a stroke is, by its id."""
    wanted = set()
    for name, coats in expected.items():
        what = called.get(name, f"line {name}")
        drawn = [ways.get(names.coat(name, n)) for n in range(len(coats))]
        wanted |= {names.coat(name, n) for n in range(len(coats))}
        there = [way for way in drawn if way is not None]
        if len(there) < len(coats):
            yield f"{what} is not drawn, or not in full"
            continue
        if [way.place for way in there] != list(range(there[0].place, there[0].place + len(there))):
            yield f"{what}: its coats are not drawn one right after the other"
        for coat, way in zip(coats, there, strict=True):
            if (way.stroke, way.dashed) != (coat.colour, coat.dashed):
                yield f"{what} is drawn in {_pen(way.stroke, way.dashed)} instead of " + _pen(
                    coat.colour, coat.dashed
                )
            elif abs(way.width - coat.width) > _WIDTH_SLACK:
                yield f"{what} is {way.width:g} pt wide instead of {coat.width:g} pt"
    yield from (f"line {name} is drawn but not part of the picture" for name in sorted(ways.keys() - wanted))


def _pen(colour: str, dashed: bool) -> str:
    return f"{colour}, {'dashed' if dashed else 'solid'}"
