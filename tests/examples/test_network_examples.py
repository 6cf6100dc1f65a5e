"""Textbook circuits, solved and compared with the printed values.

Sources: T. R. Kuphaldt, Lessons In Electric Circuits, vol. I (DC), chapter 10; vol. II (AC), chapter 3. Both texts are
free to copy. Values retyped from memory of the printed pages and recomputed by hand.
"""

from __future__ import annotations

import cmath
import math

import pytest

from schedules.network.nodal import potentials


def test_kuphaldt_vol_1_branch_current_method() -> None:
    """Batteries of 28 V behind 4 ohm and 7 V behind 1 ohm feed 2 ohm: 5 A, 1 A and 4 A."""
    solved = potentials(
        [1], [(1, 10, 1 / 4), (1, 0, 1 / 2), (1, 11, 1 / 1)], {}, {0: 0j, 10: 28 + 0j, 11: 7 + 0j}
    )
    node = solved.volts[1].real
    assert round(node, 6) == 8
    assert round((28 - node) / 4, 6) == 5
    assert round(node / 2, 6) == 4
    assert round((node - 7) / 1, 6) == 1


def test_kuphaldt_vol_1_unbalanced_bridge() -> None:
    """24 V over the bridge 150, 50, 100, 300, 250 ohm; the printed mesh currents are in milliamperes to 3 decimals."""
    joins = [(9, 1, 1 / 150), (9, 2, 1 / 50), (1, 2, 1 / 100), (1, 0, 1 / 300), (2, 0, 1 / 250)]
    solved = potentials([1, 2], joins, {}, {0: 0j, 9: 24 + 0j})
    left, right = solved.volts[1].real, solved.volts[2].real
    through_150, through_50 = (24 - left) / 150, (24 - right) / 50
    assert round(1000 * (through_150 + through_50), 3) == 136.092
    assert round(1000 * left / 300, 3) == pytest.approx(58.851, abs=0.0011)  # 136.092 - 77.241, both rounded
    assert round(1000 * right / 250, 3) == 77.241
    assert round(1000 * through_50, 3) == 93.793


def test_kuphaldt_vol_2_series_resistor_inductor() -> None:
    """10 V, 60 Hz over 5 ohm and 10 mH: 1.597 A at -37.016 degrees, 7.9847 V and 6.0203 V."""
    reactance = 2 * math.pi * 60 * 0.010
    solved = potentials([1], [(2, 1, 1 / 5), (1, 0, 1 / (1j * reactance))], {}, {0: 0j, 2: 10 + 0j})
    current = (10 - solved.volts[1]) / 5
    assert round(abs(current), 3) == 1.597
    assert round(math.degrees(cmath.phase(current)), 3) == -37.016
    assert round(abs(10 - solved.volts[1]), 4) == 7.9847
    assert round(abs(solved.volts[1]), 4) == 6.0203
