"""How wide each column of a printed table is: those widths with which the rows take the fewest lines."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import combinations
from math import ceil
from typing import TYPE_CHECKING

from schedules.drawings.metrics import width_pt
from schedules.writers.document import Fill

if TYPE_CHECKING:
    from collections.abc import Sequence

    from schedules.writers.document import Head

BODY_PT, SMALLER_PT = 10.0, 9.0
"""Type of tables [pt]: the usual one, and that of a wide table which would have to be parted in it.

At 600 mm, about arm's length, a small letter of 10 pt (x-height 0.52 of that) is seen under 10.5 minutes of arc, twice
what normal sight (5 minutes) just makes out; 9 pt is seen under 9.5. Twice is what fluent reading wants (from memory).
"""
INSET_PT = 3.0
"""Between a cell's words and its rule."""
# A word longer than this is cut.
LONGEST_WORD_PT = 150.0

_COUNT = re.compile(r"(?<=\d) of (?=\d)")

_FILL_PT = {Fill.TICK: 30.0, Fill.WRITE: 46.0}
_OVER = 2 * INSET_PT + 1.0
# Lines end where words do: so much wider than its text is a cell that holds it in whole lines.
_RAGGED = 1.08
# Columns whose usual text is no wider than one of these are not wrapped while the others have room.
_SHORT_PT = (0.0, 45.0, 60.0, 80.0, 110.0, 150.0)
# What a few longest texts want need not decide for all rows.
_USUAL_SHARES = (0.85, 1.0)
# A head that is set on end: the height up to which it stays in one line, and that which it never exceeds [pt].
_ON_END_PT, _HIGHEST_ON_END_PT = 84.0, 160.0
# The typeface's capitals, and one line to the next as the booklet sets them [share of the type size].
_CAPITAL, _LINE = 0.72, 1.17
_MOST_FOR_A_HAND_PT = 100.0
_MOST_LINES = 40.0


@dataclass(frozen=True, slots=True)
class Need:
    """What one column wants [pt]. texts: widths of its cells' text; usual: what holds so many of them unwrapped.

    longest: holds all of them; least: its words; on_end: its words where its head is set on end.
    """

    texts: tuple[float, ...]
    usual: tuple[float, ...]
    longest: float
    least: float
    on_end: float
    by_hand: bool

    def wanted(self, lines: float, least: float, short: float, share: int) -> float:
        """Its width so that its usual text takes so many lines."""
        if self.by_hand:
            return least
        usual = self.usual[share]
        return max(least, usual if usual <= short else (usual - _OVER) / lines + _OVER)


def need(head: Head, cells: Sequence[str], size_pt: float = BODY_PT) -> Need:
    """What a column with this head and these cells wants, in type of this size [pt]."""

    def longest_word(text: str, *, bold: bool = False) -> float:
        return min(_longest_word(text, size_pt, bold=bold), LONGEST_WORD_PT) + _OVER

    head_word = longest_word(head.text, bold=True)
    if head.fill is not Fill.PRINTED:
        written = max(map(longest_word, set(cells)), default=_OVER)
        room = max(_FILL_PT[head.fill], head.room_pt)
        width = max(room, head_word, written)
        on_end = max(room, written)
        return Need((0.0,) * len(cells), (width, width), width, width, on_end, by_hand=True)
    known = {cell: width_pt(cell, size_pt) for cell in set(cells)}
    texts = tuple(known[cell] for cell in cells)
    words = max(map(longest_word, known), default=_OVER)
    rising = sorted(texts) or [0.0]
    usual = (rising[int(share * (len(rising) - 1))] + _OVER for share in _USUAL_SHARES)
    return Need(
        texts=texts,
        usual=tuple(max(width, words, head_word) for width in usual),
        longest=max(max(texts, default=0.0) + _OVER, words, head_word),
        least=max(words, head_word),
        on_end=max(words, size_pt * 1.3 + _OVER),
        by_hand=False,
    )


def shared(needs: Sequence[Need], least: Sequence[float], room: float) -> tuple[list[float], int]:
    """Widths that fill the room [pt] with the rows in the fewest lines, and how many lines those are."""
    tried = [
        _with_short(needs, least, room, short, share)
        for share in range(len(_USUAL_SHARES))
        for short in _SHORT_PT
    ]
    best = min((widths for widths in tried if widths is not None), key=lambda widths: lines(needs, widths))
    count = lines(needs, best)
    _widen(best, [item.longest for item in needs], room)
    by_hand = [place for place, item in enumerate(needs) if item.by_hand and item.least > _FILL_PT[Fill.TICK]]
    spare = max(room - sum(best), 0.0) / (len(by_hand) or 1)
    for place in by_hand:
        best[place] += min(spare, max(_MOST_FOR_A_HAND_PT - best[place], 0.0))
    return best, min(count, lines(needs, best))


def _lines_of(text: float, room: float) -> int:
    """Lines that text of this length takes in this room [pt]; what wraps ends its lines ragged."""
    return ceil(max(text * (_RAGGED if text > room else 1.0), 1.0) / max(room, 1.0))


def lines(needs: Sequence[Need], widths: Sequence[float]) -> int:
    """How many lines all rows take, at these widths [pt]; a row's cells lie side by side."""
    columns = [
        [_lines(text, width - _OVER) for text in item.texts]
        for item, width in zip(needs, widths, strict=True)
    ]
    return sum(map(max, zip(*columns, strict=True)))


def _lines(text: float, room: float) -> int:
    return 1 if text <= room else ceil(text * _RAGGED / room)


def stands_on_end(head: Head, width: float, size_pt: float = BODY_PT) -> bool:
    """Whether a head of this size is set on end over a column so wide [pt]: it would not fit, or take many lines."""
    if _longest_word(head.text, size_pt, bold=True) + 2 * INSET_PT > width + 0.5:
        return True
    return head.fill is Fill.PRINTED and width_pt(head.text, size_pt, bold=True) > 2.6 * width


def on_end_pt(head: Head, column_pt: float, size_pt: float) -> float:
    """How high a head stands that is set on end [pt]: its words in as many lines as lie side by side in its column."""
    words = head.text.split()
    most = 1 + max(int((column_pt - 2 * INSET_PT - _CAPITAL * size_pt) / (_LINE * size_pt)), 0)
    lengths = {
        width_pt(" ".join(words[start:end]), size_pt, bold=True)
        for start, end in combinations(range(len(words) + 1), 2)
    }
    usual = min(max(lengths, default=0.0), _ON_END_PT)
    enough = (length for length in sorted({usual, *lengths}) if length >= usual)
    wanted = next((length for length in enough if _lines_of_words(words, length, size_pt) <= most), usual)
    return min(wanted, _HIGHEST_ON_END_PT) + INSET_PT


def _lines_of_words(words: Sequence[str], length_pt: float, size_pt: float) -> int:
    """Lines that these words take, set in bold type, where a line is so long [pt]."""
    count, line = 1, ""
    for word in words:
        longer = f"{line} {word}" if line else word
        if line and width_pt(longer, size_pt, bold=True) > length_pt:
            count, line = count + 1, word
        else:
            line = longer
    return count


def _with_short(
    needs: Sequence[Need], least: Sequence[float], room: float, short: float, share: int
) -> list[float] | None:
    """Widths with which short columns aren't wrapped and the others in as few lines as there is room for."""

    def at(lines_: float) -> list[float]:
        return [item.wanted(lines_, width, short, share) for item, width in zip(needs, least, strict=True)]

    low, high = 1.0, _MOST_LINES
    if sum(at(high)) > room:
        return list(least) if short == 0.0 else None
    while high - low > 0.02:
        middle = (low + high) / 2
        low, high = (low, middle) if sum(at(middle)) <= room else (middle, high)
    return at(high)


def _widen(widths: list[float], longest: Sequence[float], room: float) -> None:
    """Give what is left to columns whose longest text still wraps, those that want least first."""
    left = room - sum(widths)
    for place in sorted(range(len(widths)), key=lambda place: longest[place] - widths[place]):
        more = min(max(longest[place] - widths[place], 0.0), max(left, 0.0))
        widths[place] += more
        left -= more


def counts_whole(text: str) -> str:
    """The text with each count such as "1 of 2" on one line."""
    return _COUNT.sub("\N{NO-BREAK SPACE}of\N{NO-BREAK SPACE}", text)


def _longest_word(text: str, size_pt: float, *, bold: bool = False) -> float:
    return max((width_pt(word, size_pt, bold=bold) for word in counts_whole(text).split(" ")), default=0.0)
