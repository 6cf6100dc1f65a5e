"""One picture as several that can each be read on its paper: by enclosure, or by cables that belong together."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.drawings.drawing import draw, fits, lay_out
from schedules.drawings.engine import WHEEL
from schedules.drawings.picture import End, legible
from schedules.drawings.rows import point_words

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

    from schedules.drawings.drawing import Drawing
    from schedules.drawings.engine import Engine
    from schedules.drawings.picture import Block, Line, Picture
    from schedules.drawings.placement import Arrangement

Group = tuple["Line", ...]


def draw_pages(
    picture: Picture, *, engine: Engine = WHEEL, like: Arrangement | None = None
) -> tuple[Drawing, ...]:
    """Draw a picture on one page if it can be read there, else on one page for each group of cables.

    like: as for `draw`; a page that could not be read so is arranged anew. A page that can't be read even with a
    single cable on it is drawn all the same: `Drawing.on(paper).readable` tells.
    Raises DrawingError, EngineError.
    """
    return tuple(
        draw(page, engine=engine, like=_kept(page, engine, like)) for page in by_cables(picture, engine, like)
    )


def by_cables(
    picture: Picture, engine: Engine = WHEEL, like: Arrangement | None = None
) -> tuple[Picture, ...]:
    """Pages of cables, in the order in which the picture names them; each line stands on exactly one page.

    The picture itself where it can be read on one; or where only so it can, with the terminals on which nothing lands
    told in words. Else each of these stands where the last line of its block does.
    """
    for whole in (picture, _empties_told(picture)):
        if _readable(whole, engine, like) or _readable(whole, engine, None):
            return (whole,)
    return _numbered(picture, _filled(_cable_groups(picture.lines), _with_empties(picture), engine, like))


def by_blocks(
    picture: Picture, engine: Engine = WHEEL, like: Arrangement | None = None
) -> tuple[Picture, ...]:
    """One page for each block with all that lands there, on several where one could not be read.

    Each line stands on the pages of both its blocks, and each terminal of a block on one of the block's pages.
    """
    pages: list[Picture] = []
    for block in picture.blocks:
        groups = _cable_groups([line for line in picture.lines if block.key in (line.a.block, line.b.block)])
        if groups:
            titled = replace(picture, title=f"{picture.title}: {block.tag} {block.name}")
            around = _filled(groups, _around(titled, block, groups), engine, like)
            pages.extend(_numbered(titled, around))
    return tuple(pages)


def part(picture: Picture, lines: Sequence[Line], also: Iterable[End] = ()) -> Picture:
    """The picture with only some of its lines, and of each block only the terminals that they need.

    also: terminals that are shown though none of these lines needs them.
    """
    wanted: dict[str, set[str | None]] = {}
    for end in (*also, *(end for line in lines for end in (line.a, line.b))):
        wanted.setdefault(end.block, set()).add(end.terminal)
    there = {line.key for line in lines}
    missing = {end.block for line in picture.lines if line.key not in there for end in (line.a, line.b)}
    blocks = tuple(
        _shown(block, wanted[block.key], whole=block.key not in missing)
        for block in picture.blocks
        if block.key in wanted
    )
    return replace(picture, blocks=blocks, lines=tuple(lines))


def _shown(block: Block, wanted: set[str | None], *, whole: bool) -> Block:
    """The block with the terminals wanted; said to be in part unless all its terminals and lines are there."""
    terminals = tuple(terminal for terminal in block.terminals if terminal.key in wanted)
    partial = block.partial or not whole or len(terminals) < len(block.terminals)
    return replace(block, terminals=terminals, partial=partial)


def _empties(picture: Picture) -> list[End]:
    """The terminals on which no line ends."""
    landed = {(end.block, end.terminal) for line in picture.lines for end in (line.a, line.b)}
    return [
        End(block.key, terminal.key)
        for block in picture.blocks
        for terminal in block.terminals
        if (block.key, terminal.key) not in landed
    ]


def _empties_told(picture: Picture) -> Picture:
    """The picture without the terminals on which nothing lands; the small print names them."""
    tags, words = {block.key: block.tag for block in picture.blocks}, point_words(picture)
    told = ", ".join(f"{tags[end.block]}.{words[end.block, end.terminal or '']}" for end in _empties(picture))
    if not told:
        return picture
    # In a line that is there already: one more would make the page smaller.
    *lines, last = picture.footer or ("",)
    footer = (*lines, f"{last} Not drawn, as nothing lands there: {told}.".strip())
    return replace(part(picture, picture.lines), footer=footer)


def _with_empties(picture: Picture) -> Callable[[Sequence[Line]], Picture]:
    """Pages of lines on which each terminal without one stands once: with the last line of its block, or of all."""
    last = {end.block: line.key for line in picture.lines for end in (line.a, line.b)}
    beside: dict[str, list[End]] = {}
    for end in _empties(picture):
        beside.setdefault(last.get(end.block, picture.lines[-1].key), []).append(end)

    def page(lines: Sequence[Line]) -> Picture:
        return part(picture, lines, also=[end for line in lines for end in beside.get(line.key, ())])

    return page


def _around(picture: Picture, block: Block, groups: list[Group]) -> Callable[[Sequence[Line]], Picture]:
    """Pages round one block: with each of its terminals somewhere, those without a line on the last page."""
    empty = [end for end in _empties(picture) if end.block == block.key]
    last = groups[-1][-1]

    def page(lines: Sequence[Line]) -> Picture:
        return part(picture, lines, also=empty if last in lines else ())

    return page


def _cable_groups(lines: Iterable[Line]) -> list[Group]:
    """Lines of one cable together; lines without one by the blocks that they join."""
    groups: dict[tuple[str, ...], list[Line]] = {}
    for line in lines:
        key = ("cable", line.cable) if line.cable else ("blocks", *sorted((line.a.block, line.b.block)))
        groups.setdefault(key, []).append(line)
    return [tuple(together) for together in groups.values()]


def _filled(
    groups: list[Group],
    page: Callable[[Sequence[Line]], Picture],
    engine: Engine,
    like: Arrangement | None,
) -> list[Picture]:
    """As few pages as halving gives: groups that fit together stay together, one that does not fit is parted."""
    lines = [line for group in groups for line in group]
    whole = page(lines)
    if len(lines) <= 1 or _readable(whole, engine, like) or _readable(whole, engine, None):
        return [whole]
    if len(groups) == 1:
        groups = [(line,) for line in groups[0]]
    half = len(groups) // 2
    return [
        *_filled(groups[:half], page, engine, like),
        *_filled(groups[half:], page, engine, like),
    ]


def _readable(picture: Picture, engine: Engine, like: Arrangement | None) -> bool:
    _, layout = lay_out(legible(picture), engine, like)
    return fits(layout, picture.paper)


def _kept(picture: Picture, engine: Engine, like: Arrangement | None) -> Arrangement | None:
    """The arrangement to keep to, unless the page could not be read so."""
    return like if like is not None and _readable(picture, engine, like) else None


def _numbered(picture: Picture, pages: list[Picture]) -> tuple[Picture, ...]:
    if len(pages) == 1:
        return tuple(pages)
    return tuple(
        replace(page, title=f"{picture.title}, part {n} of {len(pages)}") for n, page in enumerate(pages, 1)
    )
