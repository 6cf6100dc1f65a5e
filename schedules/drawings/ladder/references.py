"""What is printed under an element: what it is or does, then in which rungs its other parts stand."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from schedules.drawings.ladder.content import Ladder, Piece


def words_under(ladder: Ladder, rung_of: Mapping[str, int]) -> dict[str, str]:
    """The words under every element, by its key. rung_of: the number of the rung in which each element stands."""
    fed = {piece.fed_by: piece.key for section in ladder.sections for piece in section.pieces if piece.fed_by}
    return {
        piece.key: "; ".join(filter(None, (piece.note, *_references(piece, fed.get(piece.key, ""), rung_of))))
        for section in ladder.sections
        for piece in section.pieces
        if not piece.symbol.conducts
    }


def _references(piece: Piece, feeds: str, rung_of: Mapping[str, int]) -> Iterable[str]:
    if piece.moved_by:
        yield f"coil {_where(piece.moved_by, rung_of)}"
    if piece.moves:
        yield f"contacts {_where(piece.moves, rung_of)}"
    if piece.fed_by:
        yield f"fed {_where((piece.fed_by,), rung_of)}"
    if feeds:
        yield f"feeds {_where((feeds,), rung_of)}"


def _where(keys: tuple[str, ...], rung_of: Mapping[str, int]) -> str:
    """The rungs of these elements, and whether some of them are not on this drawing."""
    rungs = sorted({rung_of[key] for key in keys if key in rung_of})
    shown = f"in rung{'s' if len(rungs) > 1 else ''} {', '.join(map(str, rungs))}" if rungs else ""
    if all(key in rung_of for key in keys):
        return shown
    return f"{shown}, others not shown here" if shown else "not shown here"
