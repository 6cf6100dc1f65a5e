"""Published worked examples: ampacity, conductor and device sizing.

Examples older than the 2011 edition are kept only where the table cells they use are still the same.
"""

from __future__ import annotations

import pytest

from schedules.circuits.ampacity import ambient_factor, conductor_ampacity, table_ampacity, termination_column
from schedules.circuits.branch_circuits import required_rating
from schedules.circuits.conductor_sizing import Surroundings, circuit_conductor
from schedules.circuits.fan_contact import fan_conductor_ampacity
from schedules.circuits.overcurrent import largest_device

IN_PER_FT = 12
RUN_IN = 50 * IN_PER_FT  # any length together beyond 24 in


def celsius(fahrenheit: float) -> float:
    return (fahrenheit - 32) * 5 / 9


def copper(
    size: str,
    *,
    insulation_c: int,
    column_c: int,
    ambient_c: float = 30,
    conductors: int = 3,
    edition: str = "2023",
) -> float:
    return conductor_ampacity(
        size,
        material="copper",
        insulation_c=insulation_c,
        column_c=column_c,
        ambient_c=ambient_c,
        current_carrying=conductors,
        bundled_length_in=RUN_IN,
        edition=edition,
    ).ampacity_a


def device(size: str, ampacity_a: float, *, several_receptacles: bool = False) -> int:
    rating = largest_device(
        size,
        material="copper",
        ampacity_a=ampacity_a,
        several_receptacles=several_receptacles,
        edition="2023",
    )
    assert rating is not None
    return rating.rating_a


def test_trade_press_2008_nine_conductors_of_12_awg() -> None:
    # ecmweb.com, Code Q&A 84: nine current-carrying 12 AWG THHN in a raceway, 30 A x 0.70 = 21 A; fit for 20 A.
    ampacity = copper("12", insulation_c=90, column_c=75, conductors=9)
    assert round(ampacity, 1) == 21.0
    assert device("12", ampacity) == 20


def test_trade_press_2008_thirty_conductors_of_12_awg() -> None:
    # ecmweb.com, Code Quiz 6: 30 current-carrying 12 AWG THHN, terminals disregarded, 30 A x 0.45 = 13.5 A.
    assert round(copper("12", insulation_c=90, column_c=90, conductors=30), 1) == 13.5


def test_trade_press_2008_twelve_conductors_in_strut_channel() -> None:
    # ecmweb.com, Code Quiz 42: 12 current-carrying 12 AWG THHN, 30 A x 0.50 = 15 A, protected at 15 A.
    # The page reads 25 A in the 60 C column; since 2011 the cell is 20 A. Neither governs here.
    ampacity = copper("12", insulation_c=90, column_c=75, conductors=12)
    assert round(ampacity, 1) == 15.0
    assert device("12", ampacity) == 15


def test_trade_school_2020_ten_awg_at_120_f() -> None:
    # stallcupeducation.learnworlds.com, Applying Correction Factors: 4 - 10 AWG THHN at 120 F, 40 A x 82 % = 32.8 A.
    assert ambient_factor(90, celsius(120), edition="2020").factor == pytest.approx(0.82, abs=0.005)
    assert (
        round(copper("10", insulation_c=90, column_c=90, ambient_c=celsius(120), edition="2020"), 1) == 32.8
    )
    # Disagreement: the page stops there although four conductors together would also be adjusted to 80 percent
    # if all four carry current; it never says that one of them doesn't.
    four = copper("10", insulation_c=90, column_c=90, ambient_c=celsius(120), conductors=4, edition="2020")
    assert round(four, 2) == 26.24


def test_electrician_math_2008_two_awg_at_100_f() -> None:
    # electricianmath.com, Temperature Correction: 2 AWG THWN copper through 100 F, 115 A x 0.88 = 101.2 A.
    assert round(copper("2", insulation_c=75, column_c=75, ambient_c=celsius(100)), 1) == 101.2


def test_exam_paper_1999_six_conductors_of_14_awg() -> None:
    # scribd.com document 181111755, Journeyman Exam 1, question 4: 14 AWG THW, six in conduit, 30 C: 16 A.
    assert round(copper("14", insulation_c=75, column_c=75, conductors=6), 1) == 16.0


def test_exam_paper_1999_motor_conductor() -> None:
    # scribd.com document 181111755, Journeyman Exam 1, question 1: 13.8 A x 1.25 = 17.25 A.
    assert round(fan_conductor_ampacity(13.8, edition="2020").ampacity_a, 2) == 17.25


def test_code_forum_2017_14_awg_cable_in_a_hot_attic() -> None:
    # Code forum thread "Wire size", page 2: 14 AWG NM still has 19 A at 130 F, reduced from the 90 C column.
    reduced = copper("14", insulation_c=90, column_c=90, ambient_c=celsius(130))
    assert round(reduced) == 19
    # What may be used is the 60 C column (334.80): 15 A.
    assert copper("14", insulation_c=90, column_c=60, ambient_c=celsius(130)) == 15


@pytest.mark.parametrize(("conductors", "reduced", "breaker"), [(8, 21, 20), (10, 15, 15)])
def test_home_wiring_forum_2005_bundled_cables(conductors: int, reduced: float, breaker: int) -> None:
    # diychatroom.com, Temperature rating for Romex: four 12/2 together 0.7 x 30 = 21, a 20 A breaker;
    # five of them 50 percent, 15 A, a 15 A breaker.
    assert round(copper("12", insulation_c=90, column_c=90, conductors=conductors)) == reduced
    column = termination_column(20, marked_c=75, wiring="NM", edition="2020").column_c
    assert device("12", copper("12", insulation_c=90, column_c=column, conductors=conductors)) == breaker


def test_code_forum_2008_cool_room_and_twenty_conductors() -> None:
    # Code forum thread "Percentage of Values question": 12 AWG THHN at 70-77 F, 30 x 1.04 = 31.2 A; 50 % is 15.6 A.
    assert round(copper("12", insulation_c=90, column_c=90, ambient_c=25, conductors=20), 1) == 15.6
    assert ambient_factor(90, celsius(77), edition="2023").factor == pytest.approx(1.04)


def test_inspectors_course_2017_three_sizes_for_95_a() -> None:
    # academy.jensenhughes.com, Minimum Size to Avoid Overheating Terminals: 95 A continuous load.
    # 125 percent is 119 A (118.75): a 125 A device and 1 AWG from the 75 C column.
    assert required_rating(continuous_a=95, other_a=0, edition="2020").rating_a == 125
    choice = circuit_conductor(
        continuous_a=95,
        other_a=0,
        device_a=125,
        material="copper",
        surroundings=Surroundings(75, 75, 30, 3, RUN_IN),
        several_receptacles=False,
        edition="2020",
    )
    assert str(choice.size) == "1 AWG"
    # The load itself needs 3 AWG at 75 C, and 2 AWG where a 60 C termination is met.
    assert [
        table_ampacity(size, material="copper", column_c=75, edition="2020").ampacity_a for size in "34"
    ] == [
        100,
        85,
    ]
    assert [
        table_ampacity(size, material="copper", column_c=60, edition="2020").ampacity_a for size in "23"
    ] == [
        95,
        85,
    ]


def test_wire_gauge_guide_2026_heater_of_70_a() -> None:
    # wiregaugecalculator.com, Terminal Temperature Wire Sizing Guide: 70 A continuous is 87.5 A; 4 AWG has 85 A at
    # 75 C, so 3 AWG.
    choice = circuit_conductor(
        continuous_a=70,
        other_a=0,
        device_a=90,
        material="copper",
        surroundings=Surroundings(90, 75, 30, 3, RUN_IN),
        several_receptacles=False,
        edition="2023",
    )
    assert str(choice.size) == "3 AWG"
    assert choice.governed_by == ("terminations carry 85 A of the raised load of 87.5 A",)


def test_exam_guide_2023_continuous_24_a() -> None:
    # journeymaniq.com, NEC 210.19: 24 A continuous needs 30 A of ampacity, 10 AWG copper (35 A at 75 C), 30 A device.
    assert required_rating(continuous_a=24, other_a=0, edition="2023").rating_a == 30
    choice = circuit_conductor(
        continuous_a=24,
        other_a=0,
        device_a=30,
        material="copper",
        surroundings=Surroundings(75, 75, 30, 3, RUN_IN),
        several_receptacles=False,
        edition="2023",
    )
    assert str(choice.size) == "10 AWG"
    assert choice.ampacity_a == 35
    assert choice.governed_by[0] == "terminations carry 25 A of the raised load of 30 A"


def test_exam_quiz_2023_mixed_load() -> None:
    # jeopardylabs.com, LLE 4-2: 60 A non-continuous and 40 A continuous need 110 A.
    assert required_rating(continuous_a=40, other_a=60, edition="2023").rating_a == 110


def test_electricians_journal_2023_continuous_16_a() -> None:
    # joshthesparky.com, Continuous load explained: 16 A x 1.25 = 20 A.
    assert required_rating(continuous_a=16, other_a=0, edition="2023").rating_a == 20


@pytest.mark.parametrize(("material", "size"), [("copper", "8 AWG"), ("aluminum", "6 AWG")])
def test_wire_size_article_2023_continuous_40_a(material: str, size: str) -> None:
    # doublevision.company, Wire size for 40 A at 180 ft: 40 x 1.25 = 50 A; 8 AWG copper or 6 AWG aluminum at 75 C
    # meet it exactly.
    choice = circuit_conductor(
        continuous_a=40,
        other_a=0,
        device_a=50,
        material=material,
        surroundings=Surroundings(75, 75, 30, 3, RUN_IN),
        several_receptacles=False,
        edition="2023",
    )
    assert str(choice.size) == size
    assert choice.ampacity_a == 50


@pytest.mark.parametrize(("size", "ampacity", "largest"), [("12", 25, 20), ("10", 35, 30)])
def test_voltage_lab_quiz_2023_small_conductors(size: str, ampacity: int, largest: int) -> None:
    # voltagelab.com, NEC Table 310.16 Ampacity Quiz, questions 7 and 8: 12 AWG at 20 A, 10 AWG THWN (35 A) at 30 A.
    assert table_ampacity(size, material="copper", column_c=75, edition="2023").ampacity_a == ampacity
    assert device(size, ampacity) == largest


def test_exam_questions_2023_ten_awg_in_the_90_column() -> None:
    # voltexam.com, Conductors & Ampacity, question 1: 10 AWG THHN copper at 30 C has 40 A.
    assert copper("10", insulation_c=90, column_c=90) == 40


def test_code_forum_2008_next_size_up_for_6_awg_cable() -> None:
    # Code forum thread "6/3 NM cable", and diychatroom.com "This doesnt seem right": 55 A at 60 C, 60 A allowed.
    column = termination_column(60, marked_c=75, wiring="NM", edition="2023").column_c
    ampacity = copper("6", insulation_c=90, column_c=column)
    assert ampacity == 55
    assert device("6", ampacity) == 60
    # 240.4(B)(1) in the same thread: not for several receptacles for portable loads.
    assert device("6", ampacity, several_receptacles=True) == 50


def test_home_wiring_page_2023_eight_awg_on_a_40_or_50_a_breaker() -> None:
    # isolution.pro, Can I use a 60 A circuit for cooktop and oven: 8 AWG copper 40 A at 60 C (NM), 50 A at 75 C.
    for wiring, ampacity in (("NM", 40), ("MC", 50)):
        column = termination_column(50, marked_c=75, wiring=wiring, edition="2023").column_c
        assert device("8", copper("8", insulation_c=90, column_c=column)) == ampacity
