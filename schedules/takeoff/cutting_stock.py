"""Cut pieces from sticks or reels with the least bought: the one-dimensional cutting-stock problem.

Few pieces are divided exactly, by a search over all their subsets. Many are packed stick by stick, each filled as full
as what is left allows (minimum bin slack: Gupta and Ho, "A new heuristic algorithm for the one-dimensional bin-packing
problem", 1999), or nearly so, and by first fit, largest first; then three sticks at a time are divided anew so that one
of them runs empty. A lower bound says whether the outcome is proved to be the least (Martello and Toth, Knapsack
Problems, 1990, 8.3: bound L2).
"""

from __future__ import annotations

import math
import random
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

GRAIN = 16
"""Lengths are compared in sixteenths of an inch."""

_MOST_EXACT = 11
"""Pieces up to which every division is looked at."""

_MOST_LOOKS = 20_000
"""Divisions looked at to fill one stick."""

_TRIES = 4_000
"""How often three sticks are divided anew."""

Bin = tuple[int, tuple[int, ...]]
"""Length of a stick and of the pieces cut from it, in grains."""


@dataclass(frozen=True, slots=True)
class Stick:
    """One stick or reel: its length, the pieces cut from it, and what is left of it [in]."""

    stock_in: float
    pieces_in: tuple[float, ...]

    @property
    def left_in(self) -> float:
        """What is left [in]."""
        return self.stock_in - math.fsum(self.pieces_in)


@dataclass(frozen=True, slots=True)
class Cutting:
    """How pieces are cut. least_in: less than this can't be bought [in]."""

    sticks: tuple[Stick, ...]
    least_in: float

    @property
    def bought_in(self) -> float:
        """All sticks together [in]."""
        return math.fsum(stick.stock_in for stick in self.sticks)

    @property
    def needed_in(self) -> float:
        """All pieces together [in]."""
        return math.fsum(piece for stick in self.sticks for piece in stick.pieces_in)

    @property
    def waste_percent(self) -> float:
        """What is left over of what is bought [%]."""
        return 100 * (1 - self.needed_in / self.bought_in) if self.sticks else 0.0

    @property
    def proved(self) -> bool:
        """Whether nothing less can be bought."""
        return self.bought_in <= self.least_in + 1 / GRAIN


def in_grains(length_in: float) -> int:
    """A length [in] in grains, rounded up but for the noise of binary arithmetic."""
    return math.ceil(length_in * GRAIN - 1e-6)


def cut_from_stock(pieces_in: Sequence[float], stock_in: Sequence[float]) -> Cutting:
    """Cut pieces from stock of these lengths [in], buying the least length, then the fewest sticks.

    Raises ValueError for a piece longer than every stock, or where there is no stock.
    """
    stock = sorted({round(length * GRAIN) for length in stock_in})
    pieces = sorted(map(in_grains, pieces_in), reverse=True)
    if not stock or (pieces and pieces[0] > stock[-1]):
        longest = f"{pieces[0] / GRAIN:g} in" if pieces else "nothing"
        raise ValueError(f"a piece of {longest} can't be cut from the stock given")
    bins = _exact(pieces, stock) if len(pieces) <= _MOST_EXACT else _packed(pieces, stock)
    least = sum(length for length, _ in bins) if len(pieces) <= _MOST_EXACT else _least(pieces, stock)
    sticks = tuple(
        Stick(length / GRAIN, tuple(piece / GRAIN for piece in inside))
        for length, inside in sorted(bins, key=lambda item: (-item[0], [-piece for piece in item[1]]))
    )
    return Cutting(sticks, least / GRAIN)


def _exact(pieces: list[int], stock: list[int]) -> list[Bin]:
    """The best division of few pieces: of every set of pieces, the best stick for the largest one and what joins it."""
    whole = (1 << len(pieces)) - 1
    sums = [0] * (whole + 1)
    for mask in range(1, whole + 1):
        low = mask & -mask
        sums[mask] = sums[mask ^ low] + pieces[low.bit_length() - 1]
    best: list[tuple[int, int]] = [(0, 0)] + [(math.inf, 0)] * whole  # type: ignore[list-item]
    choice = [0] * (whole + 1)
    for mask in range(1, whole + 1):
        first = mask & -mask
        rest = mask ^ first
        part = rest
        while True:
            together = part | first
            length = next((item for item in stock if item >= sums[together]), None)
            if length is not None:
                bought, count = best[mask ^ together]
                if (bought + length, count + 1) < best[mask]:
                    best[mask], choice[mask] = (bought + length, count + 1), together
            if not part:
                break
            part = (part - 1) & rest
    bins = []
    mask = whole
    while mask:
        inside = choice[mask]
        length = next(item for item in stock if item >= sums[inside])
        bins.append((length, tuple(piece for n, piece in enumerate(pieces) if inside >> n & 1)))
        mask ^= inside
    return bins


def _packed(pieces: list[int], stock: list[int]) -> list[Bin]:
    """The best of several ways to pack many pieces into sticks of one length, each then as short as will do."""
    found = (
        [(next(item for item in stock if item >= sum(inside)), tuple(inside)) for inside in packed]
        for longest in stock
        if longest >= pieces[0]
        for packed in _ways(pieces, longest)
    )
    return min(found, key=lambda bins: (sum(length for length, _ in bins), len(bins)))


def _ways(pieces: list[int], length: int) -> Iterator[list[list[int]]]:
    """Ways to pack into sticks of one length."""
    yield _first_fit(pieces, length)
    least = _least(pieces, [length]) // length
    packed = _fullest(pieces, length, 0)
    yield packed
    if len(packed) > least:
        # Where every stick keeps its share of what will be left over, there is more to exchange.
        fair = (least * length - sum(pieces)) // least
        yield _divided_anew(_fullest(pieces, length, fair), length, least)


def _first_fit(pieces: list[int], length: int) -> list[list[int]]:
    """Each piece, largest first, from the first stick that has enough left."""
    bins: list[list[int]] = []
    for piece in pieces:
        for inside in bins:
            if sum(inside) + piece <= length:
                inside.append(piece)
                break
        else:
            bins.append([piece])
    return bins


def _fullest(pieces: list[int], length: int, slack: int) -> list[list[int]]:
    """Stick by stick: the largest piece left, and with it what fills the stick, but for a slack at most."""
    left = list(pieces)
    bins = []
    while left:
        first = left.pop(0)
        inside = [first, *_best_fill(left, length - first, slack)]
        for piece in inside[1:]:
            left.remove(piece)
        bins.append(inside)
    return bins


def _divided_anew(packed: list[list[int]], length: int, least: int) -> list[list[int]]:
    """Divide three sticks at a time so that the fullest get fuller, until one runs empty; often the emptiest is one.

    Which three is drawn, from a fixed seed, so that the same pieces are always cut alike.
    """
    bins = [list(inside) for inside in packed]
    draw = random.Random(1)  # noqa: S311  a search, not a secret
    for _ in range(_TRIES):
        if len(bins) <= max(least, 2):
            break
        emptiest = min(range(len(bins)), key=lambda place: (sum(bins[place]), place))
        drawn = draw.sample(range(len(bins)), 3)
        places = drawn if emptiest in drawn or draw.random() < 0.4 else [emptiest, *drawn[:2]]
        for place, inside in zip(places, _squeezed([bins[place] for place in places], length), strict=True):
            bins[place] = inside
        bins = [inside for inside in bins if inside]
    return bins


def _squeezed(group: list[list[int]], length: int) -> list[list[int]]:
    """The pieces of a few sticks divided so that the squares of what each holds come to the most."""
    pieces = sorted((piece for inside in group for piece in inside), reverse=True)
    best: tuple[int, list[list[int]]] = (-1, group)
    bins: list[list[int]] = [[] for _ in group]
    looks = 0

    def search(place: int) -> None:
        nonlocal best, looks
        looks += 1
        if place == len(pieces):
            fullness = sum(sum(inside) ** 2 for inside in bins)
            if fullness > best[0]:
                best = (fullness, [list(inside) for inside in bins])
            return
        tried = set()
        for inside in bins:
            held = sum(inside)
            if looks <= _MOST_LOOKS and held not in tried and held + pieces[place] <= length:
                tried.add(held)
                inside.append(pieces[place])
                search(place + 1)
                inside.pop()

    search(0)
    return best[1] if best[0] >= sum(sum(inside) ** 2 for inside in group) else group


def _best_fill(pieces: list[int], room: int, slack: int) -> tuple[int, ...]:
    """The first pieces, largest first, that fill a room but for a slack; the fullest found where none do."""
    best: tuple[int, tuple[int, ...]] = (0, ())
    looks = 0
    rests = [*_running(pieces), 0]

    def search(start: int, filled: int, taken: tuple[int, ...]) -> None:
        nonlocal best, looks
        looks += 1
        if filled > best[0]:
            best = (filled, taken)
        last = None
        for place in range(start, len(pieces)):
            if best[0] >= room - slack or looks > _MOST_LOOKS or filled + rests[place] <= best[0]:
                return
            piece = pieces[place]
            # Of pieces of one length, the first that isn't taken stands for all.
            if piece != last and filled + piece <= room:
                search(place + 1, filled + piece, (*taken, piece))
            last = piece

    search(0, 0, ())
    return best[1]


def _running(pieces: list[int]) -> Iterator[int]:
    """What each piece and all after it come to."""
    rest = sum(pieces)
    for piece in pieces:
        yield rest
        rest -= piece


def _least(pieces: list[int], stock: list[int]) -> int:
    """What must be bought at least: as many of the longest sticks as L2 says; with several lengths, all pieces."""
    if len(stock) > 1:
        return sum(pieces)
    length = stock[0]
    return length * max(_l2(pieces, length, small) for small in {0, *(p for p in pieces if 2 * p <= length)})


def _l2(pieces: list[int], length: int, small: int) -> int:
    """Martello and Toth's bound for one threshold: large pieces share no stick, middling ones take those alone."""
    large = [piece for piece in pieces if piece > length - small]
    half = [piece for piece in pieces if length - small >= piece > length / 2]
    rest = [piece for piece in pieces if length / 2 >= piece >= small]
    room = len(half) * length - sum(half)
    return len(large) + len(half) + max(0, math.ceil((sum(rest) - room) / length))
