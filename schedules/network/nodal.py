"""Voltages in a network of admittances, by taking out one net after another.

Star-mesh rule (Kron's reduction of the nodal equations): a net that is taken out leaves its neighbours joined pairwise
by y1·y2/Σy, and hands the current fed into it on to them in the ratio y/Σy. Nothing is ever subtracted, so that a
milliohm contact and a ten-megohm meter stand in one network without loss of digits.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

Join = tuple[int, int, complex]
"""Two nets and the admittance between them [S]."""

GROUNDED = -1
"""The island of every net that something joins to a net of given voltage."""

# A net with no more neighbours than this leaves none, or one, new join behind.
_EASY = 2


@dataclass(frozen=True, slots=True)
class Potentials:
    """Each net's voltage [V], and the island that it is in.

    Voltages compare within one island only. An island that nothing joins to a given voltage floats: one of its nets is
    taken as 0 V.
    """

    volts: Mapping[int, complex]
    island: Mapping[int, int]


def potentials(
    nets: Iterable[int],
    joins: Iterable[Join],
    fed: Mapping[int, complex],
    held: Mapping[int, complex],
) -> Potentials:
    """Solve a network: voltages [V] of `nets` from the currents fed into them [A] and the voltages that are held.

    joins: between nets and held nets; parallel ones add up, both ends on one net count for nothing. The currents fed
    into a floating island must add up to zero. Source: nodal analysis, star-mesh transformation, any network textbook.
    """
    stars: dict[int, dict[int, complex]] = {net: {} for net in nets}
    for a, b, admittance in joins:
        if a != b:
            _join(stars, a, b, admittance)
    current = dict.fromkeys(stars, 0j)
    for net, amperes in fed.items():
        if net in current:
            current[net] += amperes
    taken = _take_out(stars, current)
    return _put_back(taken, current, held)


def _join(stars: dict[int, dict[int, complex]], a: int, b: int, admittance: complex) -> None:
    if a in stars:
        stars[a][b] = stars[a].get(b, 0j) + admittance
    if b in stars:
        stars[b][a] = stars[b].get(a, 0j) + admittance


Taken = list[tuple[int, dict[int, complex], complex]]


def _take_out(stars: dict[int, dict[int, complex]], current: dict[int, complex]) -> Taken:
    """Take every net out, those with few neighbours first, and note what each was joined to."""
    taken: Taken = []
    pending, most = list(stars), _EASY
    while pending:
        left = []
        for net in pending:
            if len(stars[net]) > most:
                left.append(net)
                continue
            star = stars.pop(net)
            total = sum(star.values())
            taken.append((net, star, total))
            _hand_on(stars, current, net, star, total)
        most = _EASY if len(left) < len(pending) else min(len(stars[net]) for net in left)
        pending = left
    return taken


def _hand_on(
    stars: dict[int, dict[int, complex]],
    current: dict[int, complex],
    net: int,
    star: dict[int, complex],
    total: complex,
) -> None:
    ends = list(star.items())
    for place, (a, to_a) in enumerate(ends):
        if a in stars:
            del stars[a][net]
            current[a] += current[net] * to_a / total
        for b, to_b in ends[place + 1 :]:
            _join(stars, a, b, to_a * to_b / total)


def _put_back(taken: Taken, current: dict[int, complex], held: Mapping[int, complex]) -> Potentials:
    volts: dict[int, complex] = dict(held)
    island = dict.fromkeys(held, GROUNDED)
    for net, star, total in reversed(taken):
        if star:
            volts[net] = (current[net] + sum(y * volts[end] for end, y in star.items())) / total
            island[net] = island[next(iter(star))]
        else:
            volts[net] = 0j
            island[net] = net
    return Potentials(volts, island)
