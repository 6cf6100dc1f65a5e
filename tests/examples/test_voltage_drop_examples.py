"""Published worked examples: voltage drop of single-phase runs by K, Table 8 and Table 9."""

from __future__ import annotations

from typing import NamedTuple

import pytest

from schedules.circuits.voltage_drop import (
    VoltageDrop,
    drop_by_constant,
    drop_by_impedance,
    drop_by_resistance,
    size_for_drop,
    within_advice,
)

IN_PER_FT = 12


def by_k(size: str, load_a: float, feet: float, supply_v: float) -> VoltageDrop:
    return drop_by_constant(
        size, material="copper", load_a=load_a, length_in=feet * IN_PER_FT, supply_v=supply_v, edition="2023"
    )


def by_table_8(
    size: str, stranding: str, *, load_a: float, feet: float, supply_v: float, temperature_c: float = 75
) -> VoltageDrop:
    return drop_by_resistance(
        size,
        material="copper",
        stranding=stranding,
        load_a=load_a,
        length_in=feet * IN_PER_FT,
        supply_v=supply_v,
        temperature_c=temperature_c,
        edition="2023",
    )


class Printed(NamedTuple):
    """One line of a page: the run, then volts and percent as printed, with their digits after the point."""

    size: str
    load_a: float
    feet: float
    supply_v: float
    volts: float
    percent: float
    digits: int


PRINTED_BY_K = {
    # tradelicenseprep.com, Voltage Drop & Ohm's Law, 2023: first try and enlarged conductor.
    "licence course 12 AWG": Printed("12", 20, 100, 120, 7.9, 6.6, 1),
    "licence course 8 AWG": Printed("8", 20, 100, 120, 3.1, 2.6, 1),
    # journeymaniq.com, Michigan voltage drop practice, 2023.
    "exam guide Michigan": Printed("12", 16, 100, 120, 6.3, 5.3, 1),
    # journeymaniq.com, California voltage drop practice, 2022: both examples.
    "exam guide California 70 ft": Printed("12", 16, 70, 120, 4.43, 3.69, 2),
    "exam guide California 150 ft": Printed("10", 24, 150, 240, 8.95, 3.73, 2),
    # doublevision.company, wire size for 40 A at 180 ft, 2023.
    "wire size article 8 AWG": Printed("8", 40, 180, 240, 11.25, 4.69, 2),
    "wire size article 6 AWG": Printed("6", 40, 180, 240, 7.08, 2.95, 2),
    "wire size article 4 AWG": Printed("4", 40, 180, 240, 4.45, 1.85, 2),
}


@pytest.mark.parametrize("printed", PRINTED_BY_K.values(), ids=PRINTED_BY_K)
def test_pages_2022_2023_by_constant(printed: Printed) -> None:
    drop = by_k(printed.size, printed.load_a, printed.feet, printed.supply_v)
    assert round(drop.drop_v, printed.digits) == printed.volts
    assert round(drop.percent, printed.digits) == printed.percent


def test_wire_size_article_2023_size_for_three_percent() -> None:
    # doublevision.company, the same page: 3 percent of 240 V is 7.2 V, and 6 AWG is the first size within it.
    found = size_for_drop(
        material="copper", load_a=40, length_in=180 * IN_PER_FT, allowed_v=7.2, edition="2023"
    )
    assert str(found.size) == "6 AWG"
    assert not within_advice(4.69, feeder_percent=0, edition="2023").holds
    assert within_advice(2.95, feeder_percent=0, edition="2023").holds


def test_exam_questions_2023_both_ways() -> None:
    # voltexam.com, Voltage Drop, question 3: 12 AWG, 16 A, 100 ft: 6.3 V by K, 6.2 V by 1.93 ohm/kft.
    # (The page then calls 6.4 V the nearest answer on offer.)
    assert round(by_k("12", 16, 100, 120).drop_v, 1) == 6.3
    assert round(by_table_8("12", "solid", load_a=16, feet=100, supply_v=120).drop_v, 1) == 6.2


def test_fire_alarm_lesson_2005_16_awg() -> None:
    # electrician2.com, lesson page 135: 2 x 100 x 4.99/1000 x 4 A = 4.0 V.
    drop = by_table_8("16", "stranded", load_a=4, feet=100, supply_v=24)
    assert round(drop.drop_v, 1) == 4.0
    # Printed 16.7 percent of 24 V, worked from the rounded 4.0 V; unrounded it is 16.6.
    assert round(4.0 / 24 * 100, 1) == 16.7
    assert round(drop.percent, 1) == 16.6


def test_trades_math_guide_2023_12_awg() -> None:
    # fatskills.com, Wire Sizing and Voltage Drop: 20 x 1.98 x 0.1 x 2 = 7.92 V, 3.3 % of 240 V.
    drop = by_table_8("12", "stranded", load_a=20, feet=100, supply_v=240)
    assert round(drop.drop_v, 2) == 7.92
    assert round(drop.percent, 1) == 3.3


def test_wire_calculator_page_2026_12_awg() -> None:
    # calculators9.com, Electrical Wire Calculator: 2 x 100 x 15 x 1.93 / 1000 = 5.79 V, printed 4.83 %.
    drop = by_table_8("12", "solid", load_a=15, feet=100, supply_v=120)
    assert round(drop.drop_v, 2) == 5.79
    # 4.825 exactly; the page rounds half up.
    assert drop.percent == pytest.approx(4.825)


def test_wire_size_page_2023_1_0_awg() -> None:
    # wireresult.com, 40.11 A at 300 ft: 2 x 300 x 40.11 x 0.122 / 1000 = 2.94 V, 2.45 %.
    drop = by_table_8("1/0", "stranded", load_a=40.11, feet=300, supply_v=120)
    assert round(drop.drop_v, 2) == 2.94
    assert round(drop.percent, 2) == 2.45


def test_wire_calculator_page_2025_50_a_at_100_ft() -> None:
    # calcytools.com, Wire Size Calculator: 50 A, 240 V, 100 ft, 8 AWG "drops just 2.6 %".
    # Disagreement: that is the resistance of a solid conductor at 20 C. At the table's 75 C it is 3.2 % for solid and
    # stranded, above the 3 percent that the page says it keeps to.
    assert (
        round(by_table_8("8", "solid", load_a=50, feet=100, supply_v=240, temperature_c=20).percent, 1) == 2.6
    )
    assert round(by_table_8("8", "solid", load_a=50, feet=100, supply_v=240).percent, 1) == 3.2
    assert round(by_table_8("8", "stranded", load_a=50, feet=100, supply_v=240).percent, 1) == 3.2


def test_home_wiring_question_2015_two_stretches() -> None:
    # allafragor.com 72699: 10 AWG 100 ft drops 4 V at 20 A, then 12 AWG 60 ft 3.8 V, 112.2 V at the end.
    # The page's calculator works at room temperature.
    first = by_table_8("10", "solid", load_a=20, feet=100, supply_v=120, temperature_c=20).drop_v
    second = by_table_8("12", "solid", load_a=20, feet=60, supply_v=120, temperature_c=20).drop_v
    assert (round(first), round(second, 1)) == (4, 3.8)
    assert round(120 - first - second, 1) == 112.2
    # Disagreement: with conductors at 75 C the end has 110.5 V.
    warm = (
        by_table_8("10", "solid", load_a=20, feet=100, supply_v=120).drop_v
        + by_table_8("12", "solid", load_a=20, feet=60, supply_v=120).drop_v
    )
    assert round(120 - warm, 1) == 110.5


def by_table_9(size: str, conduit: str, power_factor: float, load_a: float, supply_v: float) -> VoltageDrop:
    return drop_by_impedance(
        size,
        material="copper",
        conduit=conduit,
        power_factor=power_factor,
        load_a=load_a,
        length_in=1000 * IN_PER_FT,
        supply_v=supply_v,
        edition="2023",
    )


def test_table_9_page_2014_effective_impedance_of_250_kcmil() -> None:
    # risingedgeservices.com, Chapter 9 Table 9: 0.054 x 0.85 + 0.052 x 0.527 = 0.073 ohm/kft in steel conduit.
    assert round(by_table_9("250", "steel", 0.85, 1, 480).drop_v / 2, 3) == 0.073


def test_table_9_page_2014_2_0_awg_in_steel() -> None:
    # lornmac.com, Chapter 9 Table 9: R 0.1, X 0.054, 0.1135 ohm/kft at 0.85; 65 A over 1000 ft drops 14.755 V, 3.1 %.
    # Just off 0.85 our value is computed from R and X as the page's is; the page rounds the impedance first.
    computed = by_table_9("2/0", "steel", 0.8501, 65, 480)
    assert computed.drop_v / 2 / 65 == pytest.approx(0.1135, abs=0.0001)
    assert computed.drop_v == pytest.approx(14.755, abs=0.01)
    assert round(computed.percent, 1) == 3.1
    # Disagreement: at 0.85 the table prints 0.11, which we use: 14.3 V, 3.0 %.
    printed = by_table_9("2/0", "steel", 0.85, 65, 480)
    assert (round(printed.drop_v, 1), round(printed.percent, 1)) == (14.3, 3.0)
