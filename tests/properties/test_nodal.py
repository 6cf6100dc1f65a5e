"""Networks solved net by net, against a dense modified nodal analysis and an independent circuit library."""

from __future__ import annotations

import cmath
import math
import random
from typing import TYPE_CHECKING

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.network.nodal import GROUNDED, potentials
from tests.circuit_oracle import solve_with_lcapy

if TYPE_CHECKING:
    from schedules.network.nodal import Join

RATIO = 1e-3
"""Voltages agree to 0.1 % of the largest one."""


def random_network(seed: int, nets: int) -> tuple[list[Join], dict[int, complex], dict[int, complex]]:
    """A connected network: joins, currents fed in, held voltages (nets -1, -2, -3)."""
    rng = random.Random(seed)
    held = {-1: 0j, -2: 120 + 0j, -3: -120 + 0j}
    starts = [*range(nets), *(rng.randrange(nets) for _ in range(rng.randrange(nets + 1)))]
    joins: list[Join] = [
        (net, rng.choice([*range(net if place < nets else nets), *held]), admittance(rng))
        for place, net in enumerate(starts)
    ]
    fed = {rng.randrange(nets): complex(rng.uniform(-5, 5), rng.uniform(-5, 5)) for _ in range(2)}
    return joins, fed, held


def admittance(rng: random.Random) -> complex:
    return 1 / cmath.rect(10 ** rng.uniform(-3, 4), math.acos(rng.uniform(0.6, 1)))


def dense(
    nets: int, joins: list[Join], fed: dict[int, complex], held: dict[int, complex]
) -> dict[int, complex]:
    """Modified nodal analysis: every held net keeps its row, its source's current is one more unknown."""
    names = [*range(nets), *held]
    row = {net: place for place, net in enumerate(names)}
    size = len(names) + len(held)
    matrix = np.zeros((size, size), dtype=complex)
    right = np.zeros(size, dtype=complex)
    for a, b, y in joins:
        i, j = row[a], row[b]
        matrix[i, i] += y
        matrix[j, j] += y
        matrix[i, j] -= y
        matrix[j, i] -= y
    for net, amperes in fed.items():
        right[row[net]] += amperes
    for extra, (net, volts) in enumerate(held.items(), start=len(names)):
        matrix[row[net], extra] = matrix[extra, row[net]] = 1
        right[extra] = volts
    solved = np.linalg.solve(matrix, right)
    return {net: complex(solved[row[net]]) for net in range(nets)}


@given(seed=st.integers(0, 10**9), nets=st.integers(1, 40))
def test_random_networks_agree_with_a_dense_solution(seed: int, nets: int) -> None:
    joins, fed, held = random_network(seed, nets)
    ours = potentials(range(nets), joins, fed, held).volts
    theirs = dense(nets, joins, fed, held)
    largest = max(120.0, *(abs(volts) for volts in theirs.values()))
    assert all(abs(ours[net] - theirs[net]) <= RATIO * largest for net in range(nets))


@pytest.mark.filterwarnings("ignore")  # the library and what it loads warn of their own affairs
@pytest.mark.parametrize("seed", range(6))
def test_random_networks_agree_with_an_independent_library(seed: int) -> None:
    nets = range(8)
    joins, _, held = random_network(seed, len(nets))
    ours = potentials(nets, joins, {}, held).volts
    theirs = solve_with_lcapy(joins, (), held, nets, ground=-1)
    assert all(abs(ours[net] - theirs[net]) <= RATIO * 120 for net in nets)


@given(seed=st.integers(0, 10**9), nets=st.integers(2, 12))
def test_a_part_that_nothing_holds_floats(seed: int, nets: int) -> None:
    """Current driven round a part without a held net gives it voltages of its own, and an island of its own."""
    rng = random.Random(seed)
    joins: list[Join] = [(net, rng.randrange(net), 1 / rng.uniform(1, 9)) for net in range(1, nets)]
    joins.append((100, -1, 1.0))
    solved = potentials([*range(nets), 100], joins, {0: 1 + 0j, nets - 1: -1 + 0j}, {-1: 0j})
    assert solved.island[100] == GROUNDED
    assert len({solved.island[net] for net in range(nets)}) == 1
    assert solved.island[0] != GROUNDED
    ohms = path_ohms(joins, 0, nets - 1)
    assert abs(solved.volts[0] - solved.volts[nets - 1] - ohms) < 1e-9 * nets


def path_ohms(joins: list[Join], start: int, end: int) -> float:
    """Resistance along the only path of a tree: each net but 0 has one join to a lower one."""
    up = {a: (b, 1 / y.real) for a, b, y in joins if a < 100}
    total = 0.0
    while end != start:
        end, ohm = up[end]
        total += ohm
    return total


def test_parallel_joins_add_up() -> None:
    solved = potentials([1], [(1, 0, 1.0), (1, 0, 1.0), (1, 2, 2.0)], {}, {0: 0j, 2: 10 + 0j})
    assert solved.volts[1] == 5


def test_a_milliohm_and_ten_megohms_stand_in_one_network() -> None:
    """The meter's reading over a dead end behind a milliohm contact keeps all its digits."""
    solved = potentials([1, 2], [(9, 1, 1000.0), (1, 2, 1e-7), (2, 0, 1000.0)], {}, {0: 0j, 9: 120 + 0j})
    exact = 120 / (1e7 + 0.002)
    assert abs(solved.volts[2] * 1000 - exact) < 1e-12 * exact
