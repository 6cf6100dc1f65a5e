"""What must hold for every conductor: hotter is never more, longer never less, a larger device never a smaller EGC."""

from __future__ import annotations

import itertools

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.circuits.ampacity import (
    ambient_factor,
    bundling_factor,
    conductor_ampacity,
    current_carrying_conductors,
    table_ampacity,
    termination_column,
)
from schedules.circuits.conductor_sizing import Surroundings, circuit_conductor
from schedules.circuits.grounding import grounding_conductor, table_grounding_conductor
from schedules.circuits.overcurrent import (
    largest_device,
    next_standard_rating,
    small_conductor_limit,
    standard_ratings,
)
from schedules.circuits.voltage_drop import (
    CONDUITS,
    VoltageDrop,
    conductor_resistance,
    drop_by_constant,
    drop_by_impedance,
    drop_by_resistance,
    size_for_drop,
)
from schedules.tables.conductors import circular_mils, sizes, smallest_of_area
from schedules.working import Confidence

EDITIONS = ("2020", "2023", "2026")
COPPER = tuple(str(size) for size in sizes("2023") if size >= smallest_of_area(4110, edition="2023").size)
editions = st.sampled_from(EDITIONS)
coppers = st.sampled_from(COPPER)


def ampacity(
    size: str, ambient_c: float, conductors: int, column_c: int = 75, length_in: float = 120
) -> float:
    return conductor_ampacity(
        size,
        material="copper",
        insulation_c=90,
        column_c=column_c,
        ambient_c=ambient_c,
        current_carrying=conductors,
        bundled_length_in=length_in,
        edition="2023",
    ).ampacity_a


# Worked by hand from Tables 310.16, 310.15(B)(1)(1) and 310.15(C)(1): size, ambient C, conductors, end column, A.
HAND_WORKED = [
    ("14", 30, 2, 60, 15.0),  # 25 x 1 x 1 = 25, terminations 15
    ("14", 45, 6, 60, 15.0),  # 25 x 0.87 x 0.8 = 17.4, terminations 15
    ("14", 50, 9, 60, 14.35),  # 25 x 0.82 x 0.7 = 14.35
    ("12", 35, 6, 75, 23.04),  # 30 x 0.96 x 0.8 = 23.04
    ("12", 60, 3, 60, 20.0),  # 30 x 0.71 = 21.3, terminations 20
    ("10", 40, 9, 75, 25.48),  # 40 x 0.91 x 0.7 = 25.48
    ("8", 40, 3, 75, 50.0),  # 55 x 0.91 = 50.05, terminations 50
    ("8", 41, 3, 75, 47.85),  # 55 x 0.87 = 47.85
    ("6", 50, 4, 60, 49.2),  # 75 x 0.82 x 0.8 = 49.2
    ("4", 30, 21, 75, 42.75),  # 95 x 0.45 = 42.75
    ("1/0", 25, 3, 75, 150.0),  # 170 x 1.04 = 176.8, terminations 150
]


@pytest.mark.parametrize(("size", "ambient_c", "conductors", "column_c", "expected"), HAND_WORKED)
def test_the_ampacity_chain_equals_hand_worked_rows(
    size: str, ambient_c: float, conductors: int, column_c: int, expected: float
) -> None:
    assert ampacity(size, ambient_c, conductors, column_c) == pytest.approx(expected, abs=1e-9)


@given(coppers, st.floats(-20, 85), st.floats(-20, 85), st.integers(1, 60))
def test_hotter_surroundings_never_give_more_ampacity(size: str, a: float, b: float, conductors: int) -> None:
    cooler, hotter = sorted((a, b))
    assert ampacity(size, hotter, conductors) <= ampacity(size, cooler, conductors)


@given(coppers, st.floats(-20, 85), st.integers(1, 60), st.integers(1, 60))
def test_more_conductors_together_never_give_more_ampacity(
    size: str, ambient_c: float, a: int, b: int
) -> None:
    fewer, more = sorted((a, b))
    assert ampacity(size, ambient_c, more) <= ampacity(size, ambient_c, fewer)


@given(st.sampled_from([60, 75, 90]), st.floats(-20, 85), st.integers(1, 60))
def test_a_thicker_conductor_never_has_less_ampacity(
    column_c: int, ambient_c: float, conductors: int
) -> None:
    values = [ampacity(size, ambient_c, conductors, column_c) for size in COPPER]
    assert values == sorted(values)


@pytest.mark.parametrize("insulation_c", [60, 75, 90])
def test_each_printed_factor_is_the_codes_equation_at_the_top_of_its_band(insulation_c: int) -> None:
    # The equation of 310.15(B): square root of (Tc - Ta) / (Tc - 30); an oracle apart from the table.
    for top in range(10, insulation_c - 1, 5):
        expected = ((insulation_c - top) / (insulation_c - 30)) ** 0.5
        assert ambient_factor(insulation_c, top, edition="2023").factor == pytest.approx(expected, abs=0.006)


def test_insulation_is_refused_where_it_would_be_too_hot() -> None:
    with pytest.raises(LookupError, match="60 C insulation has no ampacity at 56 C"):
        ambient_factor(60, 56, edition="2023")
    with pytest.raises(LookupError, match="90 C insulation has no ampacity at 86 C"):
        ambient_factor(90, 86, edition="2023")
    with pytest.raises(LookupError, match="no column for 105 C insulation"):
        ambient_factor(105, 30, edition="2023")


def test_a_temperature_between_two_bands_takes_the_hotter_one() -> None:
    assert ambient_factor(90, 30.5, edition="2023").factor == ambient_factor(90, 31, edition="2023").factor


def test_conductors_together_for_24_in_are_not_adjusted() -> None:
    assert bundling_factor(9, bundled_length_in=24, edition="2023").factor == 1
    assert bundling_factor(9, bundled_length_in=24.1, edition="2023").factor == 0.7
    with pytest.raises(ValueError, match="need a conductor and a length"):
        bundling_factor(0, bundled_length_in=10, edition="2023")


def test_which_conductors_count() -> None:
    # 310.15(E) and (F): a 120/240 V range circuit counts two, two 120 V circuits four.
    counted = current_carrying_conductors(
        ungrounded=2, loaded_neutrals=0, balancing_neutrals=1, edition="2023"
    )
    assert counted.count == 2
    assert (
        current_carrying_conductors(
            ungrounded=2, loaded_neutrals=2, balancing_neutrals=0, edition="2023"
        ).count
        == 4
    )
    with pytest.raises(ValueError, match="can't be negative"):
        current_carrying_conductors(ungrounded=-1, loaded_neutrals=0, balancing_neutrals=0, edition="2023")


@pytest.mark.parametrize(
    ("circuit_a", "marked_c", "wiring", "column_c"),
    [
        # 110.14(C)(1) and 334.80.
        (20, None, "MC", 60),
        (100, None, "MC", 60),
        (100, 75, "MC", 75),
        (100, 75, "NM", 60),
        (101, None, "MC", 75),
        (150, 60, "MC", 60),
        (150, None, "NM", 60),
    ],
)
def test_the_column_for_terminations(
    circuit_a: float, marked_c: int | None, wiring: str, column_c: int
) -> None:
    found = termination_column(circuit_a, marked_c=marked_c, wiring=wiring, edition="2023")
    assert found.column_c == column_c
    assert found.judgements == ()
    assert found.working.source.confidence is Confidence.ONE_TEXT


def test_a_marking_of_90_c_is_left_to_the_inspector() -> None:
    found = termination_column(50, marked_c=90, wiring="MC", edition="2023")
    assert found.column_c == 90
    assert [judgement.who_decides for judgement in found.judgements] == ["inspector, by the listing"]
    with pytest.raises(LookupError, match="no 80 C column"):
        termination_column(50, marked_c=80, wiring="MC", edition="2023")
    with pytest.raises(ValueError, match="above 0 A"):
        termination_column(0, marked_c=None, wiring="MC", edition="2023")


def test_standard_ratings_grow_a_10_in_2023() -> None:
    assert standard_ratings("2020")[0] == 15
    assert standard_ratings("2023")[:2] == (10, 15)
    assert standard_ratings("2026") == standard_ratings("2023")


@given(st.floats(0.1, 225), editions)
def test_the_next_standard_rating_is_the_first_that_reaches(current_a: float, edition: str) -> None:
    rating = next_standard_rating(current_a, edition=edition).rating_a
    ratings = standard_ratings(edition)
    assert rating >= current_a - 1e-6
    smaller = [each for each in ratings if each < rating]
    assert not smaller or smaller[-1] < current_a


@given(coppers, st.floats(1, 220), editions)
def test_the_device_is_never_larger_where_the_next_size_up_is_barred(
    size: str, a: float, edition: str
) -> None:
    up, down = (
        largest_device(size, material="copper", ampacity_a=a, several_receptacles=several, edition=edition)
        for several in (False, True)
    )
    assert up is not None
    assert down is None or down.rating_a <= up.rating_a
    assert down is None or down.rating_a <= a + 1e-6
    small = small_conductor_limit(size, material="copper", edition=edition)
    assert small is None or up.rating_a <= small.rating_a


def test_small_conductor_limits_by_edition() -> None:
    # 240.4(D): copper-clad 14 AWG came in 2023 and moved the numbers by one.
    assert small_conductor_limit("14", material="copper-clad aluminum", edition="2020") is None
    limit = small_conductor_limit("14", material="copper-clad aluminum", edition="2023")
    assert limit is not None
    assert limit.rating_a == 10
    cited = [
        found.working.source.citation
        for edition in EDITIONS
        if (found := small_conductor_limit("12", material="copper", edition=edition))
    ]
    assert cited == ["NEC 2020 240.4(D)(5)", "NEC 2023 240.4(D)(6)", "NEC 2026 240.4(D)(6)"]
    aluminum = small_conductor_limit("12", material="copper-clad aluminum", edition="2020")
    assert aluminum is not None
    assert aluminum.rating_a == 15
    assert small_conductor_limit("8", material="copper", edition="2023") is None


def test_above_the_table_of_ratings_is_refused() -> None:
    with pytest.raises(LookupError, match="none reaches 226 A"):
        next_standard_rating(226, edition="2023")
    with pytest.raises(LookupError, match="none above 230 A"):
        largest_device("4/0", material="copper", ampacity_a=230, several_receptacles=False, edition="2023")


@given(
    continuous_a=st.floats(0, 80),
    other_a=st.floats(0.5, 40),
    ambient_c=st.floats(10, 60),
    conductors=st.integers(1, 20),
    column_c=st.sampled_from([60, 75]),
)
def test_the_chosen_conductor_is_enough_and_the_next_smaller_is_not(
    continuous_a: float, other_a: float, ambient_c: float, conductors: int, column_c: int
) -> None:
    raised = other_a + 1.25 * continuous_a
    device_a = next_standard_rating(raised, edition="2023").rating_a
    choice = circuit_conductor(
        continuous_a=continuous_a,
        other_a=other_a,
        device_a=device_a,
        material="copper",
        surroundings=Surroundings(90, column_c, ambient_c, conductors, 120),
        several_receptacles=False,
        edition="2023",
    )

    def enough(size: str) -> bool:
        """The rule written a second time, from the tables."""
        carries = ampacity(size, ambient_c, conductors, column_c)
        terminal = table_ampacity(size, material="copper", column_c=column_c, edition="2023").ampacity_a
        largest = largest_device(
            size, material="copper", ampacity_a=carries, several_receptacles=False, edition="2023"
        )
        assert largest is not None
        return (
            terminal >= raised - 1e-6
            and carries >= continuous_a + other_a - 1e-6
            and largest.rating_a >= device_a
        )

    chosen = COPPER.index(str(choice.size))
    assert enough(COPPER[chosen])
    assert chosen == 0 or not enough(COPPER[chosen - 1])


def test_no_load_has_no_conductor() -> None:
    with pytest.raises(ValueError, match="load must be above 0 A"):
        circuit_conductor(
            continuous_a=0,
            other_a=0,
            device_a=15,
            material="copper",
            surroundings=Surroundings(90, 75, 30, 3, 120),
            several_receptacles=False,
            edition="2023",
        )


# Grounding


@given(st.floats(0.1, 400), st.floats(0.1, 400), st.sampled_from(["copper", "aluminum"]), editions)
def test_a_larger_device_never_needs_a_smaller_egc(a: float, b: float, material: str, edition: str) -> None:
    smaller, larger = (
        table_grounding_conductor(device_a, material=material, edition=edition).size
        for device_a in sorted((a, b))
    )
    assert smaller <= larger


@given(st.integers(1, 225), st.integers(0, len(COPPER) - 1), st.integers(0, len(COPPER) - 1), st.booleans())
def test_the_egc_grows_with_the_circuit_but_never_past_it(
    device_a: int, a: int, b: int, only_for_heat: bool
) -> None:
    least, installed = sorted((a, b))
    try:
        egc = grounding_conductor(
            device_a,
            material="copper",
            least_circuit_size=COPPER[least],
            circuit_size=COPPER[installed],
            only_for_heat=only_for_heat,
            edition="2023",
        )
    except LookupError:
        # The grown conductor would be larger than the table of areas ends.
        assert not only_for_heat
        return
    table = table_grounding_conductor(device_a, material="copper", edition="2023").size
    own = sizes("2023")[sizes("2023").index(table) :]
    circuit = next(size for size in sizes("2023") if str(size) == COPPER[installed])
    assert egc.size <= circuit
    assert egc.size in own or egc.size == circuit
    if installed == least or only_for_heat:
        assert egc.size == min(table, circuit)


def test_a_circuit_conductor_below_the_least_is_refused() -> None:
    with pytest.raises(
        ValueError, match="circuit conductor 12 AWG is smaller than the least allowed, 10 AWG"
    ):
        grounding_conductor(
            30,
            material="copper",
            least_circuit_size="10",
            circuit_size="12",
            only_for_heat=False,
            edition="2023",
        )
    with pytest.raises(LookupError, match="no row for 401 A"):
        table_grounding_conductor(401, material="copper", edition="2023")
    with pytest.raises(LookupError, match="no grounding conductor of 'steel'"):
        table_grounding_conductor(20, material="steel", edition="2023")


@given(st.floats(1, 250_000), editions)
def test_the_smallest_size_of_an_area_is_the_smallest(needed: float, edition: str) -> None:
    found = smallest_of_area(needed, edition=edition)
    assert circular_mils(found.size, edition=edition).circular_mils >= needed
    if found.smaller is not None:
        area = circular_mils(found.smaller, edition=edition).circular_mils
        assert area < needed
        assert found.shortfall_cmil == pytest.approx(needed - area)


# Voltage drop


def drops(size: str, load_a: float, length_in: float) -> tuple[VoltageDrop, ...]:
    """The drop of one run by each method."""
    by_table_9 = tuple(
        drop_by_impedance(
            size,
            material="copper",
            conduit=conduit,
            power_factor=power_factor,
            load_a=load_a,
            length_in=length_in,
            supply_v=120,
            edition="2023",
        )
        for conduit, power_factor in itertools.product(CONDUITS, (0.5, 0.85, 1.0))
    )
    return (
        drop_by_constant(
            size, material="copper", load_a=load_a, length_in=length_in, supply_v=120, edition="2023"
        ),
        drop_by_resistance(
            size,
            material="copper",
            stranding="stranded",
            load_a=load_a,
            length_in=length_in,
            supply_v=120,
            temperature_c=75,
            edition="2023",
        ),
        *by_table_9,
    )


@given(coppers, st.floats(0, 100), st.floats(0, 10_000), st.floats(0, 10_000))
def test_a_longer_run_never_drops_less(size: str, load_a: float, a: float, b: float) -> None:
    shorter, longer = (drops(size, load_a, length_in) for length_in in sorted((a, b)))
    assert all(short.drop_v <= long.drop_v for short, long in zip(shorter, longer, strict=True))


@given(st.floats(0, 100), st.floats(0, 10_000))
def test_a_thicker_conductor_never_drops_more(load_a: float, length_in: float) -> None:
    by_size = [drops(size, load_a, length_in) for size in COPPER]
    for thinner, thicker in itertools.pairwise(by_size):
        assert all(thin.drop_v >= thick.drop_v for thin, thick in zip(thinner, thicker, strict=True))


@given(coppers, st.floats(1, 100), st.floats(12, 10_000))
def test_the_methods_agree_as_far_as_they_are_rounded(size: str, load_a: float, length_in: float) -> None:
    # At power factor 1 Table 9's R stands for Table 8's with the skin effect in it, both rounded to two or three
    # figures; K is rounded to three. 14 AWG prints 3.1 against 3.14, 1 AWG 0.15 and 0.16 against 0.154.
    constant, resistance, *impedances = drops(size, load_a, length_in)
    assert constant.drop_v == pytest.approx(resistance.drop_v, rel=0.005)
    assert impedances[2].drop_v == pytest.approx(resistance.drop_v, rel=0.05)


@given(st.floats(1, 40), st.floats(12, 2_000), st.floats(2, 20))
def test_the_size_for_a_drop_keeps_it_and_the_next_smaller_does_not(
    load_a: float, length_in: float, allowed_v: float
) -> None:
    found = size_for_drop(
        material="copper", load_a=load_a, length_in=length_in, allowed_v=allowed_v, edition="2023"
    )

    def lost(size: object) -> float:
        return drop_by_constant(
            str(size), material="copper", load_a=load_a, length_in=length_in, supply_v=120, edition="2023"
        ).drop_v

    assert lost(found.size) <= allowed_v + 1e-9
    assert found.smaller is None or lost(found.smaller) > allowed_v


@given(coppers, st.floats(0, 10_000), st.floats(20, 89))
def test_a_warmer_conductor_never_has_less_resistance(
    size: str, length_in: float, temperature_c: float
) -> None:
    cool, warm = (
        conductor_resistance(
            size,
            material="copper",
            stranding="stranded",
            length_in=length_in,
            temperature_c=each,
            edition="2023",
        ).resistance_ohm
        for each in (temperature_c, temperature_c + 1)
    )
    assert cool <= warm


def test_impossible_runs_are_refused() -> None:
    with pytest.raises(ValueError, match="need current, length and voltage"):
        drop_by_constant("12", material="copper", load_a=-1, length_in=12, supply_v=120, edition="2023")
    with pytest.raises(ValueError, match="power factor is above 0 and at most 1"):
        drop_by_impedance(
            "12",
            material="copper",
            conduit="pvc",
            power_factor=0,
            load_a=1,
            length_in=12,
            supply_v=120,
            edition="2023",
        )
    with pytest.raises(LookupError, match="not copper in bamboo"):
        drop_by_impedance(
            "12",
            material="copper",
            conduit="bamboo",
            power_factor=1,
            load_a=1,
            length_in=12,
            supply_v=120,
            edition="2023",
        )
    with pytest.raises(LookupError, match="no resistance for 'steel'"):
        conductor_resistance(
            "12", material="steel", stranding="solid", length_in=1, temperature_c=75, edition="2023"
        )


@pytest.mark.parametrize("edition", EDITIONS)
def test_what_was_not_read_in_an_edition_says_so(edition: str) -> None:
    confidence = table_ampacity(
        "12", material="copper", column_c=60, edition=edition
    ).working.source.confidence
    assert confidence is (Confidence.MEMORY if edition == "2026" else Confidence.TWO_TEXTS)


def test_an_edition_without_tables_is_refused() -> None:
    with pytest.raises(LookupError, match="no edition '2017'"):
        table_ampacity("12", material="copper", column_c=60, edition="2017")
    with pytest.raises(LookupError, match="no edition '2017'"):
        standard_ratings("2017")
