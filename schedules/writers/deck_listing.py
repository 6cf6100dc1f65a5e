"""A deck of demonstrations, as text for a terminal and as JSON for other programs."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING

from schedules.cautions import CAUTION
from schedules.teaching.points import talks
from schedules.teaching.wiring import COUNTED, wiring_of
from schedules.text import for_terminal
from schedules.writers.data import as_json

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.sheet.sheet import Sheet
    from schedules.teaching.deck import Deck

DECK_FORMAT = "hoodwright-deck"
_VERSION = 1
_SETS = {2: "pair", 3: "triple"}


def deck_lines(sheet: Sheet, deck: Deck, width: int) -> Iterator[str]:
    """How large the deck is and why no smaller, then each demonstration with what to say."""
    yield from _wrapped(_size(deck), width)
    yield from _wrapped(_order(deck), width)
    for number, (item, talk) in enumerate(zip(deck.demonstrations, talks(sheet, deck), strict=True), start=1):
        yield ""
        rows = f": {item.rows} rows of wiring differ" if number > 1 else ""
        yield f"Demonstration {number} of {len(deck.demonstrations)}{rows}"
        yield from _wrapped(f"  choices: {' '.join(item.choices)}", width, "    ")
        for title in talk.put_in:
            yield from _wrapped(f"  + {title}", width, "    ")
        for title in talk.taken_out:
            yield from _wrapped(f"  - {title}", width, "    ")
        for point in talk.points:
            yield from _wrapped(f"  {point.what}", width, "    ")
            for says in point.says:
                yield from _wrapped(f"    {says}", width, "      ")


def deck_json(sheet: Sheet, deck: Deck) -> bytes:
    """All of it as one document, `hoodwright-deck` version 1."""
    return as_json(
        {
            "format": DECK_FORMAT,
            "version": _VERSION,
            "cautions": [CAUTION],
            "sheet": sheet.sheet.id,
            "strength": deck.strength,
            "shown": deck.shown,
            "at_least": deck.at_least,
            "proved_smallest": deck.proved_smallest,
            "ordered_exactly": deck.ordered_exactly,
            "rows_changing": deck.total_rows,
            "demonstrations": [
                {
                    "choices": list(item.choices),
                    "rows_changing": item.rows,
                    "put_in": list(talk.put_in),
                    "taken_out": list(talk.taken_out),
                    "points": [{"what": point.what, "says": list(point.says)} for point in talk.points],
                    **dict(zip(COUNTED, wiring_of(item.plan).counts, strict=True)),
                }
                for item, talk in zip(deck.demonstrations, talks(sheet, deck), strict=True)
            ],
        }
    )


def _size(deck: Deck) -> str:
    count, word = len(deck.demonstrations), _SETS[deck.strength]
    how_small = (
        "no deck can be smaller"
        if deck.proved_smallest
        else f"none was found that is smaller, and none can be smaller than {deck.at_least}"
    )
    return (
        f"{count} demonstrations show every {word} of choices that can stand together, with and without each: "
        f"{deck.shown} of them; {how_small}."
    )


def _order(deck: Deck) -> str:
    best = "no other order changes less" if deck.ordered_exactly else "a good order, not proved the best"
    return f"In this order {deck.total_rows} rows of wiring change from first to last; {best}."


def _wrapped(text: str, width: int, indent: str = "") -> list[str]:
    return textwrap.wrap(for_terminal(text), width, subsequent_indent=indent, break_on_hyphens=False)
