"""Fault finding: every planted fault is named, in few readings, and what is proposed tells most for its cost."""

from __future__ import annotations

import math
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.behaviour.commissioning import commissioning
from schedules.behaviour.diagnose import Finder, Found
from schedules.behaviour.failed_tests import failed_tests
from schedules.behaviour.fault_list import FaultKind
from schedules.behaviour.foretelling import RIGHT
from schedules.behaviour.found import outcome_words, read_found, read_value, show_value
from schedules.behaviour.meter_words import OPEN
from schedules.behaviour.planted import score, seek
from schedules.behaviour.probes import ProbeKind
from schedules.job import testing
from schedules.planned import plan_file
from schedules.quantities.numerals import UnitError
from schedules.writers.fault_listing import proposal_lines, suspect_lines

if TYPE_CHECKING:
    from schedules.behaviour.commissioning import Commissioning
    from schedules.derived import Derived

JOBS = sorted(Path("samples/jobs").glob("*.toml"))
GALLEY = Path("samples/jobs/galley-gas.toml")
CORNER = Path("samples/jobs/corner-electric.toml")


@cache
def derived(path: Path = GALLEY) -> Derived:
    return plan_file(path, remedies=False).plan.derived


@cache
def finder(path: Path = GALLEY) -> Finder:
    return Finder(derived(path))


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_every_planted_fault_is_named_in_few_readings(path: Path) -> None:
    """On average within log2 of the number of classes and three more."""
    done = score(finder(path))
    assert done.missed == ()
    assert done.mean_readings <= done.bits + 3


def test_the_classes_part_all_faults() -> None:
    members = [suspect.fault for group in finder().classes() for suspect in group]
    assert len(members) == len(set(members)) == len(finder().hypotheses)


faults = st.integers(1, 10_000)


@settings(max_examples=30)
@given(seed=faults, depth=st.integers(0, 4))
def test_what_is_proposed_tells_most_for_its_cost(seed: int, depth: int) -> None:
    """Recomputed from the suspects' own values, without the finder's groups."""
    here = finder()
    hypotheses = here.hypotheses
    fault = hypotheses[seed % len(hypotheses)].fault
    found = list(seek(here, fault)[:depth]) if fault is not None else []
    proposal = here.propose(found)
    if proposal is None:
        return
    assert sum(share for _, share in proposal.outcomes) == pytest.approx(1)
    gain = -sum(share * math.log2(share) for _, share in proposal.outcomes)
    assert gain == pytest.approx(proposal.gain_bits)
    others = here.propose(found, frozenset({proposal.probe.id}))
    if others is not None:
        assert proposal.gain_bits / proposal.probe.cost >= others.gain_bits / others.probe.cost - 1e-12


@settings(max_examples=30)
@given(seed=faults)
def test_readings_never_drop_the_fault_that_gives_them(seed: int) -> None:
    here = finder()
    fault = here.hypotheses[seed % len(here.hypotheses)].fault
    found: list[Found] = []
    for probe in here.probes[seed % 7 :: 11]:
        found.append(here.found(probe, here.foretell(probe.id, fault)))
        assert fault in {suspect.fault for suspect in here.suspects(found)}


@settings(max_examples=200)
@given(seed=faults, probe=st.integers(0, 10_000))
def test_a_value_is_read_as_it_is_shown(seed: int, probe: int) -> None:
    here = finder()
    chosen = here.probes[probe % len(here.probes)]
    fault = here.hypotheses[seed % len(here.hypotheses)].fault
    value = here.foretell(chosen.id, fault)
    written = read_value(here, chosen, show_value(chosen, value))
    assert fault in {suspect.fault for suspect in here.suspects([here.found(chosen, written)])}


def test_what_a_winding_measures_is_not_held_against_its_nameplate() -> None:
    """A coil of 10 mA at 120 V has an impedance of 12 kohm, and a fraction of that on a meter."""
    here = finder()
    probe = next(item for item in here.probes if item.id == "ohms Q1:L Q1:PE")
    nothing_wrong = here.foretell(probe.id, None)
    assert isinstance(nothing_wrong, float)
    for ohms in (nothing_wrong, nothing_wrong / 20, nothing_wrong * 3):
        assert None in {suspect.fault for suspect in here.suspects([here.found(probe, ohms)])}
    assert None not in {suspect.fault for suspect in here.suspects([here.found(probe, OPEN)])}
    assert None not in {suspect.fault for suspect in here.suspects([here.found(probe, 0.3)])}
    assert outcome_words(probe, nothing_wrong) == "some ohms"
    assert outcome_words(probe, OPEN) == "OL"


def test_into_a_loop_a_short_reads_nothing_and_a_break_reads_open() -> None:
    here = finder(CORNER)
    by_id = {item.fault.id: item.fault for item in here.hypotheses if item.fault is not None}
    shown = {name: here.foretell("loop X3.end-of-line", by_id[name]) for name in by_id if "X3" in name}
    assert here.foretell("loop X3.end-of-line", None) == pytest.approx(4700)
    assert shown["touch X3:31 X3:32"] == 0
    assert {value for name, value in shown.items() if name.startswith("move X3.end-of-line")} == {OPEN}


@cache
def whole() -> Commissioning:
    return commissioning(derived())


@pytest.mark.parametrize(
    ("test", "shown", "found", "by_itself"),
    [
        ("prove-dead X1:1L X1:1N", "118 V", None, "find what feeds it"),
        ("continuity Q1:L X1:1L 101", "OL", ("ring W1", "101 open"), ""),
        ("continuity Q1:L X1:1L 101", "6 ohm", None, "itself at fault"),
        ("continuity Y1:3 MAINS:PE", "OL", ("ohms Y1:3 MAINS:PE", OPEN), ""),
        ("continuity Y1:3 MAINS:PE", "6 ohm", None, "itself at fault"),
        ("continuity Q1:L Q1:N", "0.4 ohm", ("ohms Q1:L Q1:PE", 0.4), ""),
        ("continuity Q1:L Q1:N", "5 kohm", None, "itself at fault"),
        (
            "contacts X2:R X2:G X2.call at rest",
            "0.2 ohm",
            ("contact X2.call", "stays shut"),
            "",
        ),
        ("contacts X2:R X2:G X2.call at rest", "200 ohm", None, "neither shut nor open"),
        ("contacts X2:R X2:G X2.call operated", "OL", ("contact X2.call", "stays open"), ""),
        ("contacts X2:R X2:G X2.call operated", "40 ohm", None, "neither shut nor open"),
        ("polarity X32:X X32:Y", "0 V", ("volts idle X32:X X32:Y", 0.0), ""),
        ("polarity X1:1L X1:1N", "113 V", None, "look at the supply"),
        ("fire-trip", "no", None, "judged by eye"),
    ],
)
def test_each_failed_test_begins_the_search_or_says_what_it_says_by_itself(
    test: str, shown: str, found: tuple[str, object] | None, by_itself: str
) -> None:
    here = finder()
    expected = whole().by_id[test].passes
    taken = testing.Tested(test=test, found=shown, expected=expected, initials="RA", date="2026-04-12")
    job = derived().job.model_copy(update={"tested": (taken,)})
    (failed,) = failed_tests(here, derived(), whole(), job)
    assert (failed.found and (failed.found.probe, failed.found.value)) == found
    assert bool(failed.by_itself) == (found is None)
    assert by_itself in failed.by_itself
    assert failed.stray_supply == test.startswith("prove-dead")


@pytest.mark.parametrize("kind", list(ProbeKind))
def test_a_dead_reading_costs_less_than_a_live_one_of_its_kind(kind: ProbeKind) -> None:
    live = {probe.cost for probe in finder().probes if probe.live}
    dead = {probe.cost for probe in finder().probes if probe.kind is kind and not probe.live}
    if kind is ProbeKind.OHMS:
        assert max(dead) < min(live)
    cautions = finder().propose(())
    assert cautions is not None


def test_every_live_reading_is_proposed_with_cautions_and_every_dead_one_too() -> None:
    here = finder()
    seen: set[ProbeKind] = set()
    for hypothesis in here.hypotheses[1::5]:
        found: list[Found] = []
        while (proposal := here.propose(found)) is not None:
            seen.add(proposal.probe.kind)
            assert bool(proposal.cautions) == (proposal.probe.kind is not ProbeKind.LOOK)
            if proposal.probe.live:
                assert any("licensed electrician" in caution for caution in proposal.cautions)
            value = here.foretell(proposal.probe.id, hypothesis.fault)
            found.append(here.found(proposal.probe, value))
    assert {ProbeKind.STATE, ProbeKind.OHMS, ProbeKind.RING} <= seen


def test_faults_that_nothing_possible_here_tells_apart_are_to_be_inspected() -> None:
    here = finder()
    fault = next(
        item.fault for item in here.hypotheses if item.fault is not None and item.fault.id == "open 1304"
    )
    kept = (ProbeKind.STATE, ProbeKind.LOOK)
    without = frozenset(probe.id for probe in here.probes if probe.kind not in kept)
    found: list[Found] = []
    while (proposal := here.propose(found, without)) is not None:
        found.append(here.found(proposal.probe, here.foretell(proposal.probe.id, fault)))
    suspects = here.suspects(found)
    assert len(suspects) > 1
    assert fault in {suspect.fault for suspect in suspects}
    lines = " ".join(proposal_lines(here, found, None, 80))
    assert "No reading tells these apart. Inspect them:" in lines
    assert "Look in PB, H" in lines


def test_two_faults_are_found_together_where_neither_explains_all() -> None:
    here = finder()
    by_id = {item.fault.id: item.fault for item in here.hypotheses if item.fault is not None}
    motor, gas = by_id["load open M1.motor"], by_id["open 701"]
    found = [
        read_found(here, "state cooking = exhaust off, gas off"),
        read_found(here, "element M1.motor = OL"),
        read_found(here, "ring W7 = 701 open"),
    ]
    assert here.suspects(found) == ()
    assert (gas, motor) in set(here.pairs(found)) | {(two, one) for one, two in here.pairs(found)}
    lines = " ".join(suspect_lines(here, found, 80, pairs=True))
    assert "No single fault explains all that was found." in lines
    assert "Two faults together that explain it:" in lines


def test_a_broken_trip_wire_is_found_by_a_dead_reading_and_not_by_a_fire() -> None:
    here = finder()
    found = [read_found(here, "state fire-detector = range-heat on")]
    kinds = {suspect.fault.kind for suspect in here.suspects(found) if suspect.fault is not None}
    assert FaultKind.OPEN in kinds
    proposal = here.propose(found)
    assert proposal is not None
    assert not proposal.probe.live


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("volts idle X1:1L X1:1N = 118", 118.0),
        ("volts idle X1:1L X1:1N = 118 V", 118.0),
        ("ohms X1:1L X1:1N = OL", OPEN),
        ("ohms X1:1L X1:1N = 1.2 kohm", 1200.0),
        ("see cooking exhaust = part", 0.5),
        ("look Q1 = yes", 1.0),
        ("state cooking = ok", RIGHT),
        ("state  cooking = gas-range-power off,  gas off", "gas off, gas-range-power off"),
    ],
)
def test_what_was_found_is_read(text: str, value: object) -> None:
    assert read_found(finder(), text).value == value


@pytest.mark.parametrize(
    ("text", "allowed"),
    [
        ("cooking", "PROBE = VALUE"),
        ("volt idle X1:1L X1:1N = 3", "did you mean volts idle X1:1L X1:1N"),
        ("volts idle X1:1L X1:1N = many", "a voltage such as 118 V"),
        ("volts idle X1:1L X1:1N = OL", "a voltage such as 118 V"),
        ("look Q1 = perhaps", "no or yes"),
        ("see cooking exhaust = ", "off or part or on"),
    ],
)
def test_what_can_not_have_been_found_is_refused(text: str, allowed: str) -> None:
    with pytest.raises(UnitError) as refused:
        read_found(finder(), text)
    assert allowed in refused.value.allowed
