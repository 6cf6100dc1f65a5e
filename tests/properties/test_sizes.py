"""Conductor and trade sizes: read, refused, ordered."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.quantities.sizes import TradeSize, WireSize, parse_trade_size, parse_wire_size
from schedules.quantities.units import UnitError

# Thinnest first; ASTM B258 for the gauges, NEC 310.16 for the kcmil sizes.
_GAUGES = (40, 24, 22, 20, 18, 17, 16, 14, 12, 10, 8, 6, 4, 3, 2, 1, "1/0", "2/0", "3/0", "4/0")
_KCMIL = (250, 300, 350, 400, 500, 600, 700, 750, 800, 900, 1000, 1250, 1500, 1750, 2000)
LADDER = [*(f"{gauge} AWG" for gauge in _GAUGES), *(f"{size} kcmil" for size in _KCMIL)]


@pytest.mark.parametrize("name", LADDER)
def test_a_wire_size_reads_prints_and_stands_in_tables(name: str) -> None:
    size = parse_wire_size(name)
    assert str(size) == name
    assert WireSize.from_table(name.removesuffix(" AWG").removesuffix(" kcmil")) == size
    assert hash(size) == hash(parse_wire_size(name.lower()))


def test_the_thicker_wire_is_the_greater() -> None:
    sizes = [parse_wire_size(name) for name in LADDER]
    for thinner, thicker in itertools.combinations(sizes, 2):
        assert thinner < thicker
        assert thicker > thinner
        assert thinner <= thicker
        assert thinner != thicker
    assert max(sizes) == parse_wire_size("2000 kcmil")


@given(st.integers(min_value=-3, max_value=40), st.integers(min_value=-3, max_value=40))
def test_order_of_gauges_is_order_of_diameter(one: int, other: int) -> None:
    # ASTM B258: diameter 0.005 in * 92^((36 - n)/39).
    diameters = [92 ** ((36 - n) / 39) for n in (one, other)]
    assert (WireSize(gauge=one) < WireSize(gauge=other)) == (diameters[0] < diameters[1])


@pytest.mark.parametrize(
    ("text", "name"),
    [
        ("AWG 14", "14 AWG"),
        ("14awg", "14 AWG"),
        (" 1/0  AWG ", "1/0 AWG"),
        ("250 MCM", "250 kcmil"),
        ("250kcmil", "250 kcmil"),
    ],
)
def test_other_spellings_of_wire_sizes(text: str, name: str) -> None:
    assert str(parse_wire_size(text)) == name


@pytest.mark.parametrize(
    "text",
    [
        "",
        "14",
        "1/0",
        "250",
        "14 mm2",
        "2.5 mm²",
        "0 AWG",
        "5/0 AWG",
        "1/2 AWG",
        "-2 AWG",
        "14 AWG AWG",
        "14,5 AWG",
    ],
)
def test_other_text_is_no_wire_size(text: str) -> None:
    with pytest.raises(UnitError, match=r"allowed: "):
        parse_wire_size(text)


@pytest.mark.parametrize(
    ("text", "allowed"),
    [("41 AWG", "40 AWG to 4/0 AWG"), ("99 AWG", "40 AWG to 4/0 AWG"), ("260 kcmil", "250 kcmil, 300")],
)
def test_a_wire_size_that_is_not_made_is_refused(text: str, allowed: str) -> None:
    with pytest.raises(UnitError, match=allowed):
        parse_wire_size(text)


@pytest.mark.parametrize("cell", ["", "14 AWG", " 14", "0", "5/0", "abc", "12.5", "014", "-1"])
def test_other_table_cells_are_refused(cell: str) -> None:
    with pytest.raises(UnitError, match="allowed: "):
        WireSize.from_table(cell)


def test_a_wire_size_is_either_gauge_or_kcmil() -> None:
    with pytest.raises(UnitError, match="one of the two"):
        WireSize()
    with pytest.raises(UnitError, match="one of the two"):
        WireSize(gauge=14, kcmil=250)


TRADE_SIZES = ["3/8", "1/2", "3/4", "1", "1-1/4", "1-1/2", "2", "2-1/2", "3", "3-1/2", "4", "5", "6"]


def test_trade_sizes_read_print_and_are_in_order() -> None:
    sizes = [parse_trade_size(name) for name in TRADE_SIZES]
    assert [str(size) for size in sizes] == TRADE_SIZES
    assert tuple(sizes) == TradeSize.every()
    assert sizes == sorted(sizes)


@pytest.mark.parametrize("text", ["1 1/4", "1-1/4", "1¼", "1-1/4 in", '1 1/4"', "1.25"])
def test_other_spellings_of_trade_sizes(text: str) -> None:
    assert str(parse_trade_size(text)) == "1-1/4"


@pytest.mark.parametrize(
    ("text", "allowed"),
    [
        ("", "a raceway trade size"),
        ("1-1/3", "in halves"),
        ("7", "3/8, 1/2, 3/4, 1, 1-1/4"),
        ("0", "3/8, 1/2"),
        ("1-1/8", "3/8, 1/2"),
        ("21 mm", "a raceway trade size"),
        ("-1", "a raceway trade size"),
        ("1,5", "a decimal point"),
    ],
)
def test_other_text_is_no_trade_size(text: str, allowed: str) -> None:
    with pytest.raises(UnitError, match=allowed):
        parse_trade_size(text)
