"""Lengths: what a person may type, what is refused and with which words, and that print reads back.

The inch is 25.4 mm exactly (international inch of 1959), which is the outside source of every metric value.
"""

from __future__ import annotations

import math
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.quantities.units import Style, UnitError, format_length, parse_length

ACCEPTED = [
    ("8' 3-1/2\"", 99.5),
    ("8'3 1/2\"", 99.5),
    ("8'3-1/2\"", 99.5),
    ("8'-3 1/2\"", 99.5),
    ("8'-3\"", 99.0),
    ("8 ft 3-1/2 in", 99.5),
    ("8ft 3in", 99.0),
    ("8 feet 3 inches", 99.0),
    ("1 foot 1 inch", 13.0),
    ("8 FT 3 IN", 99.0),
    ("8 ft. 3 in.", 99.0),
    ("8ft", 96.0),
    ("8'", 96.0),
    ("8.5 ft", 102.0),
    ("8 1/2 ft", 102.0),
    ("1/2 ft", 6.0),
    ("5 ft 3 in", 63.0),
    ("5' 3-1/2\"", 63.5),
    ("99.5 in", 99.5),
    ('99-1/2"', 99.5),
    ('99 1/2"', 99.5),
    ("3 1/2 in", 3.5),
    ("3/4 in", 0.75),
    (".75 in", 0.75),
    ("1/64 in", 1 / 64),
    ("5' 11.9375\"", 71.9375),
    ("0 in", 0.0),
    ("0' 0\"", 0.0),
    ("2.53 m", 2530 / 25.4),
    ("2530 mm", 2530 / 25.4),
    ("253 cm", 2530 / 25.4),
    ("2.53m", 2530 / 25.4),
    ("89MM", 89 / 25.4),
    ("25.4 mm", 1.0),
    ("8\N{PRIME} 3\N{VULGAR FRACTION ONE HALF}\N{DOUBLE PRIME}", 99.5),
    ("8\N{RIGHT SINGLE QUOTATION MARK} 3\N{RIGHT DOUBLE QUOTATION MARK}", 99.0),
    ("8' 3''", 99.0),
    ("3½ in", 3.5),
    ("3 ¼ in", 3.25),
    ("3-¾ in", 3.75),
    ("⅛ in", 0.125),
    ('⅜"', 0.375),
    ('⅝"', 0.625),
    ('⅞"', 0.875),
    ("3 1\N{FRACTION SLASH}2 in", 3.5),
    ('-2-1/4"', -2.25),
    ('-2 1/4"', -2.25),
    ("- 8' 3\"", -99.0),
    ("\N{MINUS SIGN}8' 3\"", -99.0),
    ("-½ in", -0.5),
    ("-2.54 cm", -1.0),
    ("  8' 3\"  ", 99.0),
    ("8'\N{NO-BREAK SPACE}3\"", 99.0),
    ("10000 ft", 120_000.0),
]

WITH_UNIT = "a length with its unit"
TAPE_FRACTION = "a fraction smaller than 1"
REFUSED = [
    ("", WITH_UNIT),
    ("   ", WITH_UNIT),
    ("nan", "a finite number"),
    ("nan m", "a finite number"),
    ("inf m", "a finite number"),
    ("-inf in", "a finite number"),
    ("infinity ft", "a finite number"),
    ("2,53 m", "a decimal point, and no comma"),
    ("1,200 mm", "a decimal point, and no comma"),
    ("5 ft 14 in", "less than 12 in after feet"),
    ("5' 12\"", "less than 12 in after feet"),
    ("5.5 ft 3 in", "whole feet where inches follow"),
    ("5 1/2 ft 3 in", "whole feet where inches follow"),
    ("3 ft 4", WITH_UNIT),
    ("8' 3", WITH_UNIT),
    ("8'3-1/2", WITH_UNIT),
    ("99.5", WITH_UNIT),
    ("0", WITH_UNIT),
    ("3-1/2", WITH_UNIT),
    ("1e999 m", "without an exponent"),
    ("1e3 mm", "without an exponent"),
    ("1 E+3 mm", "without an exponent"),
    ("3**9 m", "no powers or products"),
    ("3**9**9 m", "no powers or products"),
    ("3*9 m", "no powers or products"),
    ("3^2 in", "no powers or products"),
    ("3 m²", "no powers or products"),
    ("1/0 in", TAPE_FRACTION),
    ("0/2 in", TAPE_FRACTION),
    ("5/4 in", TAPE_FRACTION),
    ("3-8/8 in", TAPE_FRACTION),
    ("1/3 in", TAPE_FRACTION),
    ("31\N{FRACTION SLASH}2 in", TAPE_FRACTION),
    ("8' 3 m", WITH_UNIT),
    ("3 in 8 ft", WITH_UNIT),
    ("8' -3\"", WITH_UNIT),
    ("8 ft -3 in", WITH_UNIT),
    ("8 ft - 3 in", WITH_UNIT),
    ("2 m 53 cm", WITH_UNIT),
    ("3/4 m", WITH_UNIT),
    ("½ m", WITH_UNIT),
    ("½½ in", WITH_UNIT),
    ("½3 in", WITH_UNIT),
    ("3.5 1/2 in", WITH_UNIT),
    ("5. in", WITH_UNIT),
    ("1.2.3 in", WITH_UNIT),
    ("+3 in", WITH_UNIT),
    ("--3 in", WITH_UNIT),
    ("ft", WITH_UNIT),
    ("m", WITH_UNIT),
    ("3 miles", WITH_UNIT),
    ("3 lb", WITH_UNIT),
    ("3 in in", WITH_UNIT),
    ("3 in and a bit", WITH_UNIT),
    ("(3 in)", WITH_UNIT),
    ("0x10 in", WITH_UNIT),
    ("1_000 in", WITH_UNIT),
    ("٣ in", WITH_UNIT),
    ("\N{FULLWIDTH DIGIT THREE} in", WITH_UNIT),
    ("³ in", "no powers or products"),
    ("10000 ft 1 in", "at most 10,000 ft"),
    ("3048.001 m", "at most 10,000 ft"),
    ("-10001 ft", "at most 10,000 ft"),
    ("9" * 30 + " m", "at most 12 digits"),
    ("9" * 400 + " m", "at most 40 characters"),
    ("0." + "0" * 30 + "1 m", "at most 12 digits"),
    ("8'\n3\"", "not U\\+000A LINE FEED"),
    ("8'\u202e3\"", "not U\\+202E RIGHT-TO-LEFT OVERRIDE"),
    ("8\x1b[31m in", "not U\\+001B ESCAPE"),
]


@pytest.mark.parametrize(("text", "length_in"), ACCEPTED)
def test_a_length_is_read(text: str, length_in: float) -> None:
    # Metric values are rounded once, from the exact quotient.
    assert parse_length(text) == length_in


@pytest.mark.parametrize(("text", "allowed"), REFUSED)
def test_anything_else_is_refused_in_words(text: str, allowed: str) -> None:
    with pytest.raises(UnitError, match=allowed) as refused:
        parse_length(text)
    assert refused.value.found
    assert refused.value.found.isprintable()


def test_a_missing_unit_is_said_to_be_missing() -> None:
    with pytest.raises(UnitError, match=r"^found 99\.5 without a unit; allowed: a length with its unit"):
        parse_length("99.5")
    with pytest.raises(UnitError, match=r"^found 3 ft 4 without a unit at the end; allowed:"):
        parse_length("3 ft 4")


@pytest.mark.parametrize(
    ("text", "unit", "length_in"),
    [
        ("99.5", "in", 99.5),
        ("3-1/2", "in", 3.5),
        ("-3½", "in", -3.5),
        ("8.5", "ft", 102.0),
        ("2.54", "m", 100.0),
        ("254", "mm", 10.0),
        ("8' 3\"", "mm", 99.0),
    ],
)
def test_a_bare_number_takes_the_default_unit(text: str, unit: str, length_in: float) -> None:
    assert parse_length(text, default_unit=unit) == length_in  # type: ignore[arg-type]


def test_a_default_unit_never_completes_a_half_written_length() -> None:
    with pytest.raises(UnitError, match="without a unit at the end"):
        parse_length("8' 3", default_unit="in")
    with pytest.raises(UnitError, match="a decimal number of mm"):
        parse_length("3-1/2", default_unit="mm")


def test_zero_has_no_sign() -> None:
    assert math.copysign(1, parse_length("-0 in")) == 1
    assert format_length(-0.0) == '0"'
    assert format_length(-0.01) == '0"'


@pytest.mark.parametrize(
    ("length_in", "printed"),
    [
        (99.5, "8' 3-1/2\""),
        (3.5, '3-1/2"'),
        (0.0, '0"'),
        (0.75, '3/4"'),
        (96.0, "8' 0\""),
        (96.5, "8' 0-1/2\""),
        (11.99, "1' 0\""),
        (-2.25, '-2-1/4"'),
        (-99.5, "-8' 3-1/2\""),
        (0.0625, '1/16"'),
        (1 / 32, '1/16"'),
        (-1 / 32, '-1/16"'),
    ],
)
def test_us_lengths_print(length_in: float, printed: str) -> None:
    assert format_length(length_in) == printed


@pytest.mark.parametrize(
    ("length_mm", "printed"),
    [
        (2530, "2.53 m"),
        (2535, "2.535 m"),
        (89, "89 mm"),
        (88.9, "89 mm"),
        (999.6, "1.00 m"),
        (-2530, "-2.53 m"),
        (-89, "-89 mm"),
        (0, "0 mm"),
        (12000, "12.00 m"),
        (1005, "1.005 m"),
    ],
)
def test_metric_lengths_print(length_mm: float, printed: str) -> None:
    assert format_length(length_mm / 25.4, Style.METRIC) == printed


def test_cut_lengths_round_up_and_allowances_down() -> None:
    assert format_length(99.51, rounding="up") == "8' 3-9/16\""
    assert format_length(99.51, rounding="down") == "8' 3-1/2\""
    assert format_length(99.51, rounding="up", resolution_denominator=1) == "8' 4\""
    assert format_length(-2.26, rounding="up") == '-2-1/4"'
    assert format_length(-2.26, rounding="down") == '-2-5/16"'
    assert format_length(2530.2 / 25.4, Style.METRIC, rounding="up") == "2.531 m"


def test_a_crumb_of_binary_arithmetic_adds_no_step() -> None:
    assert format_length(99.5 + 1e-12, rounding="up") == "8' 3-1/2\""
    assert format_length(0.1 + 0.2 - 0.05, resolution_denominator=4, rounding="up") == '1/4"'


@pytest.mark.parametrize("length_in", [math.nan, math.inf, -math.inf])
def test_no_length_that_is_not_finite_prints(length_in: float) -> None:
    with pytest.raises(ValueError, match="must be finite"):
        format_length(length_in)


@pytest.mark.parametrize("denominator", [0, 3, 10, 128, -16])
def test_a_resolution_on_no_tape_is_refused(denominator: int) -> None:
    with pytest.raises(ValueError, match="is on no tape"):
        format_length(1.0, resolution_denominator=denominator)


LENGTHS = st.floats(min_value=-119_999, max_value=119_999)
ROUNDINGS = st.sampled_from(["nearest", "up", "down"])


@given(LENGTHS, st.sampled_from([1, 2, 4, 8, 16, 32, 64]))
def test_us_print_reads_back_to_half_a_step(length_in: float, denominator: int) -> None:
    printed = format_length(length_in, resolution_denominator=denominator)
    assert abs(parse_length(printed) - length_in) <= 0.5 / denominator


@given(LENGTHS)
def test_metric_print_reads_back_to_half_a_millimetre(length_in: float) -> None:
    printed = format_length(length_in, Style.METRIC)
    assert abs(parse_length(printed) - length_in) <= (0.5 + 1e-6) / 25.4


@given(st.integers(min_value=-1_900_000, max_value=1_900_000), ROUNDINGS)
def test_a_whole_sixteenth_prints_and_reads_back_exactly(sixteenths: int, rounding: str) -> None:
    length_in = sixteenths / 16
    assert parse_length(format_length(length_in, rounding=rounding)) == length_in  # type: ignore[arg-type]


@given(LENGTHS)
def test_rounding_up_and_down_enclose_the_length(length_in: float) -> None:
    crumb_in = 1e-6 / 16
    low_in = parse_length(format_length(length_in, rounding="down"))
    high_in = parse_length(format_length(length_in, rounding="up"))
    assert low_in - crumb_in <= length_in <= high_in + crumb_in
    assert high_in - low_in in {0.0, 1 / 16}


@given(
    st.integers(min_value=0, max_value=9_999),
    st.integers(min_value=0, max_value=11),
    st.integers(min_value=1, max_value=63),
    st.sampled_from(
        ["{f}' {i}-{n}\"", "{f}'{i} {n}\"", "{f} ft {i} {n} in", "{f}'-{i}-{n}''", "{f}feet{i}-{n}inches"]
    ),
)
def test_feet_inches_and_fraction_add_up(feet: int, inches: int, part: int, form: str) -> None:
    typed = form.format(f=feet, i=inches, n=Fraction(part, 64))
    assert parse_length(typed) == feet * 12 + inches + part / 64


@given(st.text(alphabet="0123456789 .-/'\"½ftinmc,eE*+", max_size=12))
def test_any_text_is_a_finite_length_or_a_refusal(text: str) -> None:
    try:
        length_in = parse_length(text)
    except UnitError as refused:
        assert refused.allowed  # noqa: PT017
    else:
        assert abs(length_in) <= 120_000
        assert any(character.isalpha() or character in "'\"" for character in text)
