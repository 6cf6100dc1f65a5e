"""The delivery: what must be in it, and until when damage is reported."""

from __future__ import annotations

from datetime import date

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.sheet.choices import Part
from schedules.tables import load, rule
from schedules.work.delivery import CARTON_UNKNOWN, Expected, deadlines, months_after, receiving_list

PARTS = (
    Part(id="hood", name="Hood", carton="1 of 2"),
    Part(id="cable", name="Cable"),
    Part(id="bracket", name="Bracket", carton="1 of 2"),
    Part(id="longer", name="Extension", carton="2 of 2"),
    Part(id="filter", name="Filter", quantity=2, carton="2 of 2"),
)


def test_the_list_goes_by_carton_and_leaves_out_extensions_not_ordered() -> None:
    found = receiving_list(PARTS, frozenset(), frozenset({"longer"}))
    assert found == (
        Expected("hood", "Hood", 1, "1 of 2"),
        Expected("bracket", "Bracket", 1, "1 of 2"),
        Expected("cable", "Cable", 1, CARTON_UNKNOWN),
        Expected("filter", "Filter", 2, "2 of 2"),
    )
    ordered = receiving_list(PARTS, frozenset({"longer"}), frozenset({"longer"}))
    assert [item.part for item in ordered] == ["hood", "bracket", "cable", "longer", "filter"]


def test_nmfc_2015_item_300135_five_business_days() -> None:
    """Delivered on Thursday the 5th of March: notice by Thursday the 12th, claim by the 5th of December."""
    found = deadlines(date(2026, 3, 5))
    assert (found.notice, found.claim, found.suit_years) == (date(2026, 3, 12), date(2026, 12, 5), 2)


@given(st.dates(date(2000, 1, 1), date(2090, 1, 1)))
def test_notice_is_a_working_day_at_least_a_week_on(day: date) -> None:
    found = deadlines(day)
    assert found.notice.weekday() < 5
    assert 5 <= (found.notice - day).days <= 7
    assert found.claim > found.notice


@pytest.mark.parametrize(
    ("day", "months", "expected"),
    [
        (date(2026, 5, 31), 9, date(2027, 2, 28)),
        (date(2027, 5, 31), 9, date(2028, 2, 29)),
        (date(2026, 12, 1), 1, date(2027, 1, 1)),
    ],
)
def test_months_end_where_the_month_does(day: date, months: int, expected: date) -> None:
    assert months_after(day, months) == expected


RULES = {
    "concealed_damage_notice": ("NMFC item 300135", (5,), "business days"),
    "claim_filed": ("49 USC 14706", (9,), "months"),
    "suit_after_refusal": ("49 USC 14706", (2,), "years"),
    "goods_kept": ("NMFC item 300135", (), ""),
    "clean_signature": ("NMFC item 300135", (), ""),
}


def test_every_receiving_rule() -> None:
    assert {row.text("rule") for row in load("receiving_rules").rows} == set(RULES)
    for name, (section, numbers, unit) in RULES.items():
        found = rule(name, "2015", "receiving_rules")
        assert (found.numbers, found.unit) == (numbers, unit)
        assert found.source.citation.endswith(section)
