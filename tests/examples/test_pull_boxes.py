"""Published worked examples of pull boxes and free conductor, recomputed; source and year beside each."""

from __future__ import annotations

import pytest

from schedules.boxes.pull_boxes import (
    angle_pull_distance,
    entry_spacing,
    free_conductor,
    pull_box_rules_apply,
    straight_pull_length,
)


def test_ec_and_m_1990s_quiz_1_straight_pull() -> None:
    # EC&M, Code quizzes on pull boxes (then Art. 370): 2 in conduit straight through: 16 in.
    assert straight_pull_length(["2"], edition="2023").length_in == 16


def test_ec_and_m_1990s_quiz_2_parallel_straight_pulls() -> None:
    # The same quiz: 2-1/2, 2 and 1-1/2 in: only the largest counts, 20 in.
    assert straight_pull_length(["2-1/2", "2", "1-1/2"], edition="2023").length_in == 20


def test_ec_and_m_1990s_quiz_3_angle_pull() -> None:
    # The same quiz: 2 in conduit at an angle: 12 x 12 in.
    assert angle_pull_distance([["2"]], edition="2023").length_in == 12


def test_ec_and_m_1990s_quiz_4_angle_pull_of_three() -> None:
    # The same quiz: 4, 3 and 2 in at an angle: 29 x 29 in.
    assert angle_pull_distance([["4", "3", "2"]], edition="2023").length_in == 29


def test_ec_and_m_1990s_quiz_5_u_pull() -> None:
    # The same quiz: a U-pull of 2 in conduit, both entries on one wall: 6 x 2 + 2 = 14 in.
    assert angle_pull_distance([["2", "2"]], edition="2023").length_in == 14


def test_how_to_page_undated_straight_and_angle_pulls() -> None:
    # "How to size pull boxes", undated: 3 in straight 24 in; 3 and 2 in at an angle 20 in; entries 18 in apart.
    assert straight_pull_length(["3"], edition="2023").length_in == 24
    assert angle_pull_distance([["3", "2"]], edition="2023").length_in == 20
    assert entry_spacing("3", edition="2023").length_in == 18


def test_pull_box_table_undated_four_cases() -> None:
    # An example table, undated: straight 4 in 32; angle 4 and 2 in 26; 3 in pair 18 apart; splice 3, 2, 2 in 22.
    assert straight_pull_length(["4"], edition="2023").length_in == 32
    assert angle_pull_distance([["4", "2"]], edition="2023").length_in == 26
    assert entry_spacing("3", edition="2023").length_in == 18
    assert angle_pull_distance([["3", "2", "2"]], edition="2023").length_in == 22


def test_box_question_page_undated_straight_and_angle_in_one_box() -> None:
    # A page of box questions, undated: 4 in straight through asks for 32 in, the 3 in on top at an angle for 18.
    assert straight_pull_length(["4"], edition="2023").length_in == 32
    assert angle_pull_distance([["3"]], edition="2023").length_in == 18


def test_site_newsletter_2025_straight_pull_of_emt() -> None:
    # A code newsletter: 2 in EMT straight through: 16 in; 3 in: 24 in.
    assert straight_pull_length(["2"], edition="2023").length_in == 16
    assert straight_pull_length(["3"], edition="2023").length_in == 24


def test_straight_pull_does_not_add_the_other_raceways() -> None:
    # A maths page for electricians, undated, adds the other raceways on the wall to eight times the largest. The rule
    # for straight pulls doesn't (314.28(A)(1), and the EC&M quiz above): only angle pulls add them.
    assert straight_pull_length(["4", "2"], edition="2023").length_in == 32


def test_only_the_row_that_asks_for_most_decides() -> None:
    assert angle_pull_distance([["2", "2", "1-1/4"], ["3"]], edition="2023").length_in == 18


def test_the_rules_begin_at_4_awg() -> None:
    assert pull_box_rules_apply(["6", "4"], edition="2023").holds
    assert pull_box_rules_apply(["1/0"], edition="2023").holds
    assert not pull_box_rules_apply(["6", "8"], edition="2023").holds


def test_nec_300_14_free_conductor() -> None:
    # 300.14: 6 in from where the conductor comes in; through an opening under 8 in also 3 in outside it.
    assert free_conductor(opening_in=2, depth_in=2.5, edition="2023").length_in == 6
    assert free_conductor(opening_in=4, depth_in=4.5, edition="2023").length_in == 7.5
    assert free_conductor(opening_in=8, depth_in=4.5, edition="2023").length_in == 6
    assert free_conductor(opening_in=None, depth_in=12, edition="2023").length_in == 6


def test_input_that_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match="asks for no length"):
        straight_pull_length([], edition="2023")
    with pytest.raises(ValueError, match="at least one row"):
        angle_pull_distance([], edition="2023")
    with pytest.raises(ValueError, match="opening and depth can't be"):
        free_conductor(opening_in=0, depth_in=1, edition="2023")
