"""Is everything drawn that the picture holds, once, in its words and inks, and nothing else?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.drawings import ink, names

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.picture import End, Line, Picture
    from schedules.drawings.proof.readback import Seen, Way, Writing


@dataclass(frozen=True, slots=True)
class Expected:
    """One piece of text that must be there. within: the shape that must hold it, empty: the page."""

    text: str
    within: str
    bold: bool = False


def expected_words(picture: Picture) -> dict[str, Expected]:
    """Every piece of text of the picture by element id, but for block names, which may be broken into lines."""
    words: dict[str, Expected] = {
        "title": Expected(picture.title, "", bold=True),
        "subtitle": Expected(picture.subtitle, ""),
    }
    words.update({f"footer_{n}": Expected(text, "") for n, text in enumerate(picture.footer)})
    landed = {(end.block, end.terminal) for line in picture.lines for end in (line.a, line.b)}
    for b, block in enumerate(picture.blocks):
        frame = names.block(b)
        words[f"{frame}_tag"] = Expected(block.tag, f"{frame}_header", bold=True)
        group = ""
        for t, terminal in enumerate(block.terminals):
            cell = names.terminal(b, t)
            words[f"{cell}_designation"] = Expected(terminal.designation, cell, bold=True)
            if terminal.group != group:
                group = terminal.group
                words[f"{cell}_group"] = Expected(group, frame, bold=True)
            if (block.key, terminal.key) not in landed:
                words[f"{cell}_note"] = Expected(terminal.note, frame)
    blocks = {block.key: b for b, block in enumerate(picture.blocks)}
    marks = {
        (block.key, terminal.key): terminal.designation
        for block in picture.blocks
        for terminal in block.terminals
    }
    for index, line in enumerate(picture.lines):
        for name, near, far in (("a", line.a, line.b), ("b", line.b, line.a)):
            frame = names.block(blocks[near.block])
            if near.terminal is None:
                cell = names.cap(index, name)
                words[f"{cell}_designation"] = Expected("capped", cell, bold=True)
            for what, text in _label(picture, line, near, far, blocks, marks).items():
                words[names.piece(index, name, what)] = Expected(text, frame, bold=what == "number")
    return {name: expected for name, expected in words.items() if expected.text}


def _label(
    picture: Picture,
    line: Line,
    near: End,
    far: End,
    blocks: dict[str, int],
    marks: dict[tuple[str, str], str],
) -> dict[str, str]:
    tag = picture.blocks[blocks[far.block]].tag
    if far.terminal is None:
        goal = f"capped in {tag}"
    else:
        mark = marks[far.block, far.terminal]
        goal = f"to {mark}" if near.block == far.block else f"to {tag}.{mark}" if mark else f"to {tag}"
    colour = f"{line.colour}→{line.remarked}" if line.remarked else line.colour
    return {
        "number": line.key,
        "code": colour if line.colour else line.size,
        "far": goal,
        "cable": line.cable,
        "note": line.note,
    }


def element_failures(picture: Picture, seen: Seen) -> Iterator[str]:
    """Whatever is missing, surplus, or there in other words or another ink than declared."""
    yield from (f"not part of the picture: {stray}" for stray in seen.strays)
    words = expected_words(picture)
    yield from _word_failures(words, seen.writings)
    yield from _name_failures(picture, seen.writings)
    yield from _shape_failures(picture, seen)
    yield from _ink_failures(picture, seen.ways)


def _word_failures(words: dict[str, Expected], writings: dict[str, Writing]) -> Iterator[str]:
    for name, expected in words.items():
        drawn = writings.get(name)
        if drawn is None:
            yield f"{expected.text!r} ({name}) is not drawn"
        elif drawn.text != expected.text:
            yield f"{name} says {drawn.text!r} instead of {expected.text!r}"
        elif drawn.bold != expected.bold:
            yield f"{expected.text!r} ({name}) is {'' if drawn.bold else 'not '}bold"
    for name in writings.keys() - words.keys():
        if "_name_" not in name:
            yield f"{writings[name].text!r} ({name}) is drawn but not part of the picture"


def _name_failures(picture: Picture, writings: dict[str, Writing]) -> Iterator[str]:
    parts: dict[str, list[tuple[int, str]]] = {names.block(b): [] for b in range(len(picture.blocks))}
    for name, writing in writings.items():
        frame, found, number = name.partition("_name_")
        if found and frame in parts and number.isdecimal():
            parts[frame].append((int(number), writing.text))
        elif found:
            yield f"{writing.text!r} ({name}) names no block of the picture"
    for b, block in enumerate(picture.blocks):
        whole = f"{block.name} (in part)" if block.partial else block.name
        drawn = "".join(text for _, text in sorted(parts[names.block(b)]))
        if drawn.replace(" ", "") != whole.replace(" ", ""):
            yield f"block {block.tag!r} is named {drawn!r} instead of {whole!r}"


def _shape_failures(picture: Picture, seen: Seen) -> Iterator[str]:
    wanted = {"page", *names.cells(picture).values()}
    for b, block in enumerate(picture.blocks):
        wanted |= {names.block(b), f"{names.block(b)}_header"}
        wanted |= {names.terminal(b, t) for t in range(len(block.terminals))}
    for index in range(len(picture.lines)):
        wanted |= {f"{names.line(index)}_{end}_dot" for end in names.ENDS}
    yield from (f"{name} is not drawn" for name in sorted(wanted - seen.shapes.keys()))
    yield from (
        f"{name} is drawn but not part of the picture" for name in sorted(seen.shapes.keys() - wanted)
    )


def _ink_failures(picture: Picture, ways: dict[str, Way]) -> Iterator[str]:
    wanted = set()
    for index, line in enumerate(picture.lines):
        coats = ink.coats(line)
        names_ = [f"{names.line(index)}_{n}" for n in range(len(coats))]
        wanted |= set(names_)
        drawn = [ways.get(name) for name in names_]
        if any(way is None for way in drawn):
            yield f"conductor {line.key!r} is not drawn, or not in full"
            continue
        places = [way.place for way in drawn if way is not None]
        if places != list(range(places[0], places[0] + len(places))):
            yield f"conductor {line.key!r}: its coats are not drawn one right after the other"
        for coat, way in zip(coats, drawn, strict=True):
            if way is not None and (way.stroke, way.dashed) != (coat.colour, coat.dashed):
                yield f"conductor {line.key!r} is drawn in {_pen(way.stroke, way.dashed)} instead of " + _pen(
                    coat.colour, coat.dashed
                )
            if way is not None and abs(way.width - coat.width) > 0.01:
                yield f"conductor {line.key!r} is {way.width:g} pt wide instead of {coat.width:g} pt"
    yield from (f"line {name} is drawn but not part of the picture" for name in sorted(ways.keys() - wanted))


def _pen(colour: str, dashed: bool) -> str:
    return f"{colour}, {'dashed' if dashed else 'solid'}"
