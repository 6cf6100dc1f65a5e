"""Is everything on a ladder's page that belongs there, once, in its words and inks, and nothing else?"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from schedules.drawings import ink, names
from schedules.drawings.ink import Coat
from schedules.drawings.ladder.content import Symbol
from schedules.drawings.ladder.key import conductor_line, legend_of
from schedules.drawings.ladder.symbols import SYMBOLS
from schedules.drawings.ladder.telling import description
from schedules.drawings.marks import MARKS
from schedules.drawings.proof.elements import Look, shape_failures, stroke_failures

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.ladder.content import Ladder, Node, Piece
    from schedules.drawings.marks import Mark
    from schedules.drawings.proof.readback import Seen

_RUNG = re.compile(r"r\d+")
_DOT = re.compile(r"(n\d+_\d+)_dot\d+")
_UPRIGHT = re.compile(r"n\d+_\d+_0")
_RAIL_WIDTH, _UPRIGHT_WIDTH = 2.0, 1.0
_UNDER = re.compile(r"(p\d+_\d+)_under_\d+")


def nodes_of(page: Ladder) -> dict[str, Node]:
    """Every node by its element id."""
    return {f"n{s}_{n}": node for s, part in enumerate(page.sections) for n, node in enumerate(part.nodes)}


def pieces_of(page: Ladder) -> dict[str, Piece]:
    """Every piece by its element id."""
    return {f"p{s}_{n}": piece for s, part in enumerate(page.sections) for n, piece in enumerate(part.pieces)}


def marks_of(page: Ladder) -> dict[str, Mark]:
    """Every mark and symbol that must be drawn, by its owner's id."""
    marks = {name: MARKS[node.kind] for name, node in nodes_of(page).items()}
    marks |= {
        name: SYMBOLS[piece.symbol] for name, piece in pieces_of(page).items() if not piece.symbol.conducts
    }
    entries = enumerate(legend_of(page.sections))
    return marks | {names.legend(n): entry.mark for n, entry in entries if entry.mark is not None}


def page_failures(page: Ladder, seen: Seen) -> Iterator[str]:
    """Whatever is missing, surplus, or there in other words or another ink than declared."""
    yield from (f"not part of the ladder: {stray}" for stray in seen.strays)
    if seen.title != page.title:
        yield f"the title read aloud is {seen.title!r} instead of {page.title!r}"
    if seen.description != description(page):
        yield "the text read aloud instead of the drawing is not the ladder's"
    yield from _word_failures(page, seen)
    shapes = {name: shape for name, shape in seen.shapes.items() if not _DOT.fullmatch(name)}
    dots = {name: Look(fill=ink.INK) for name in seen.shapes.keys() - shapes.keys()}
    yield from shape_failures(_shapes(page) | dots, seen.shapes)
    uprights: dict[str, tuple[Coat, ...]] = {
        name.removesuffix("_0"): (Coat(ink.INK, _upright_width(page, name)),)
        for name in seen.ways
        if _UPRIGHT.fullmatch(name)
    }
    called = {name: piece.name or piece.key for name, piece in pieces_of(page).items()}
    yield from stroke_failures(_strokes(page) | uprights, called, seen.ways)


def _upright_width(page: Ladder, name: str) -> float:
    section, node = (int(number) for number in re.findall(r"\d+", name)[:2])
    part = page.sections[section]
    return _RAIL_WIDTH if part.nodes[node].key in part.rails else _UPRIGHT_WIDTH


def _words(page: Ladder) -> dict[str, str]:
    """Every text that stands on one line, by its element's id."""
    words = {f"{names.legend(n)}_words": entry.words for n, entry in enumerate(legend_of(page.sections))}
    for name, node in nodes_of(page).items():
        words |= {f"{name}_name": node.name, f"{name}_box": node.enclosure}
    for name, piece in pieces_of(page).items():
        if piece.symbol is Symbol.CONDUCTOR:
            colour = f"{piece.colour}→{piece.remarked}" if piece.remarked else piece.colour
            words |= {f"{name}_number": f"{piece.name} {colour}".strip(), f"{name}_cable": piece.note}
    return {name: text for name, text in words.items() if text}


def _running(page: Ladder) -> dict[str, str]:
    """Text that may be broken into lines, by its element's id without the line's number."""
    texts = {"title": page.title, "subtitle": page.subtitle}
    texts |= {f"footer{n}": text for n, text in enumerate(page.footer)}
    for s, section in enumerate(page.sections):
        texts[f"s{s}_title"] = section.title
        texts |= {f"s{s}_note{n}": note for n, note in enumerate(section.notes)}
    texts |= {
        f"{name}_name": piece.name for name, piece in pieces_of(page).items() if not piece.symbol.conducts
    }
    return texts


def _word_failures(page: Ladder, seen: Seen) -> Iterator[str]:
    words, texts = _words(page), _running(page)
    pieces = pieces_of(page)
    lines: dict[str, list[tuple[int, str]]] = {}
    for name, writing in seen.writings.items():
        prefix, _, number = name.rpartition("_")
        under = _UNDER.fullmatch(name)
        if writing.colour not in (ink.INK, ink.SOFT_INK):
            yield f"{writing.text!r} ({name}) is written in {writing.colour}, which may not be seen"
        if name in words:
            if writing.text != words[name]:
                yield f"{name} says {writing.text!r} instead of {words[name]!r}"
        elif prefix in texts and number.isdecimal():
            lines.setdefault(prefix, []).append((int(number), writing.text))
        elif not _RUNG.fullmatch(name) and not (under and under[1] in pieces):
            yield f"{writing.text!r} ({name}) is drawn but not part of the ladder"
    yield from (
        f"{text!r} ({name}) is not drawn" for name, text in words.items() if name not in seen.writings
    )
    for prefix, text in texts.items():
        said = " ".join(part for _, part in sorted(lines.get(prefix, [])))
        if said.replace(" ", "") != text.replace(" ", ""):
            yield f"{prefix} says {said!r} instead of {text!r}"


def _shapes(page: Ladder) -> dict[str, Look]:
    shapes = {"page": Look(stroke="none")}
    shapes |= {names.link(name): Look(stroke="none") for name, node in nodes_of(page).items() if node.href}
    for owner, mark in marks_of(page).items():
        shapes |= {names.mark_ring(owner, n): Look() for n in range(len(mark.rings))}
    return shapes


def _strokes(page: Ladder) -> dict[str, tuple[Coat, ...]]:
    plain = (Coat(ink.PAPER, 4.0), Coat(ink.INK, 1.0))
    strokes: dict[str, tuple[Coat, ...]] = {
        names.mark_line(owner, n): (Coat(ink.INK, width),)
        for owner, mark in marks_of(page).items()
        for n, (_, width) in enumerate(mark.lines)
    }
    for name, piece in pieces_of(page).items():
        if piece.symbol is Symbol.CONDUCTOR:
            strokes[name] = ink.coats(conductor_line(piece))
        elif piece.symbol is Symbol.FITTED:
            strokes[name] = plain
        else:
            strokes |= {f"{name}_left": plain, f"{name}_right": plain}
    samples = {
        names.legend(n): entry.coats for n, entry in enumerate(legend_of(page.sections)) if entry.coats
    }
    return strokes | samples
