"""Single faults: the trade's table of what a wire off does, and that the short way of solving them is the long one."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from schedules.behaviour.exposure import fault_findings
from schedules.behaviour.fault_list import FaultKind, single_faults
from schedules.behaviour.faults import Judge, Notice, try_faults
from schedules.behaviour.trial import Bench
from schedules.findings import Severity
from schedules.network.switching import Network
from schedules.planned import plan_file
from tests.small_sheets import circuit, coil, contact, device, element, enclosure, load, small

if TYPE_CHECKING:
    from schedules.behaviour.faults import Outcome
    from schedules.derived import Derived

JOBS = sorted(Path("samples/jobs").glob("*.toml"))
EFFECTS = {"controls": "controls", "heat": "cooking", "alarm": "alarm"}
STATES: tuple[dict[str, Any], ...] = (
    {"id": "idle", "name": "armed"},
    {"id": "cooking", "name": "cooking", "after": "idle", "signals": ("knob",)},
    {"id": "burning", "name": "fire", "after": "cooking", "signals": ("fire", "knob")},
)


def unit(*more: dict[str, Any], terminals: str = "") -> dict[str, Any]:
    return device(
        "A1",
        f"L N PE D {terminals}",
        load("electronics", "L", "N", "controls"),
        contact("detector", "L", "D", "NO", operates={"all": ("fire",)}),
        coil("release", "D", "N", "fire-released", latches=True),
        {"kind": "bond", "id": "box", "terminal": "PE"},
        *more,
    )


def heater() -> dict[str, Any]:
    return device(
        "R1",
        "L N K PE",
        contact("knob", "L", "K", "NO", operates={"all": ("knob",)}),
        load("burner", "K", "N", "heat", power="1200 W"),
        {"kind": "bond", "id": "body", "terminal": "PE"},
        box="R",
    )


def hood(devices: list[dict[str, Any]], wires: str, **more: Any) -> Derived:
    settings: dict[str, Any] = {
        "outside": "fire knob",
        "driven": "fire-released pulled fire-tripped",
        "latched": "fire-released fire-tripped",
        "effects": EFFECTS,
        "state": STATES,
        "enclosures": [enclosure("R"), enclosure("F", "by-others", metal=False), enclosure("C")],
    }
    return small(devices, wires, **(settings | more))


HOLDING = """
    Q1:L A1:L
    Q1:N A1:N
    Q1:PE A1:PE
    A1:F C1:A1
    Q1:N C1:A2
    Q2:L C1:1
    C1:2 R1:L
    Q2:N R1:N
    Q2:PE R1:PE
"""
"""A loop that holds a contactor, which feeds the heater."""


def held_in() -> Derived:
    """A normally closed loop holds a contactor that feeds the range."""
    contactor = device(
        "C1",
        "A1 A2 1 2",
        coil("coil", "A1", "A2", "pulled"),
        contact("main", "1", "2", "NO", operates={"all": ("pulled",)}),
        box="C",
    )
    release = unit(contact("loop", "L", "F", "NC", operates={"all": ("fire-released",)}), terminals="F")
    return hood(
        [release, contactor, heater()], HOLDING, circuits=(circuit("Q1"), circuit("Q2", rating="20 A"))
    )


def energised_to_trip() -> Derived:
    """A normally open contact feeds the trip coil of the range's breaker."""
    release = unit(contact("trip", "L", "T", "NO", operates={"all": ("fire-released",)}), terminals="T")
    wires = """
        Q1:L A1:L
        Q1:N A1:N
        Q1:PE A1:PE
        A1:T Q2:ST1
        Q2:ST2 Q1:N
        Q2:L R1:L
        Q2:N R1:N
        Q2:PE R1:PE
    """
    trip = {"rated": "120 V", "burden": "120 VA", "drives": "fire-tripped"}
    return hood(
        [release, heater()], wires, circuits=(circuit("Q1"), circuit("Q2", rating="20 A", shunt_trip=trip))
    )


def by_id(derived: Derived) -> dict[str, Outcome]:
    return {outcome.fault.id: outcome for outcome in try_faults(derived)}


def heat_stays(outcome: Outcome) -> bool:
    return "heat in a fire" in outcome.dangers


def test_common_practice_a_broken_holding_loop_is_noticed_and_safe() -> None:
    """Normally closed loop holding a contactor: wire open, off and noticed; pair shorted or welded, unnoticed."""
    outcomes = by_id(held_in())
    opened = outcomes["open 401"]
    assert not heat_stays(opened)
    assert opened.notice is Notice.IN_USE
    welded = outcomes["weld A1.loop"]
    assert heat_stays(welded)
    assert welded.notice is Notice.IN_FIRE
    shorted = outcomes["touch C1:1 C1:2"]
    assert heat_stays(shorted)
    assert shorted.hidden
    assert not heat_stays(outcomes["off Q1"])


def test_heat_that_runs_without_its_controls_is_a_danger_and_dead_controls_alone_are_none() -> None:
    """With Q1 off the held-in range goes dead with its controls; the one that is energised to trip heats on."""
    off = "off Q1"
    assert not any("heat runs without" in danger for danger in by_id(held_in())[off].dangers)
    assert "heat runs without this: controls" in by_id(energised_to_trip())[off].dangers


def test_heat_at_part_voltage_in_a_fire_is_heat_in_a_fire() -> None:
    """A welded bypass over a resistor of the burner's own size leaves it half its voltage."""
    contactor = device(
        "C1",
        "A1 A2 1 2 W",
        coil("coil", "A1", "A2", "pulled"),
        contact("main", "1", "2", "NO", operates={"all": ("pulled",)}),
        contact("bypass", "1", "W", "NO", operates={"all": ("pulled",)}),
        load("dropper", "W", "2", "glow", power="1200 W"),
        box="C",
    )
    release = unit(contact("loop", "L", "F", "NC", operates={"all": ("fire-released",)}), terminals="F")
    derived = hood(
        [release, contactor, heater()],
        HOLDING,
        circuits=(circuit("Q1"), circuit("Q2", rating="20 A")),
        effects=EFFECTS | {"glow": "light"},
    )
    welded = by_id(derived)["weld C1.bypass"]
    assert any(deviation.says == "heat: part instead of off" for deviation in welded.deviations)
    assert heat_stays(welded)


def test_common_practice_a_broken_trip_wire_stays_on_and_nobody_notices() -> None:
    """Normally open contact energising a shunt trip: wire open, stays on in a fire, unnoticed."""
    outcomes = by_id(energised_to_trip())
    for name in ("open 401", "open 501", "coil open Q2.shunt-trip", "weld Q2.breaker-l", "stick A1.trip"):
        assert heat_stays(outcomes[name]), name
        assert outcomes[name].notice is Notice.IN_FIRE, name
    assert outcomes["weld A1.trip"].notice is not Notice.IN_FIRE  # trips as soon as it is fed
    assert not heat_stays(outcomes["weld A1.trip"])


def alarm_loop(at_contact: bool) -> Derived:
    """A conventional alarm loop; its resistor beyond the contact, or in the panel."""
    beyond = device("X3", "1 2", contact("alarm", "1", "2", "NO", operates={"all": ("fire-released",)}))
    panel = device(
        "Z1",
        "P M B",
        element("supply", "zone", "B", "M", volts="24 V", current="dc", limit="20 VA"),
        load("input", "B", "P", "alarm", rated="24 V", current="0.02 A"),
        box="F",
        limited=True,
    )
    resistor = element(
        "resistor", "end-of-line", *(("1", "2") if at_contact else ("P", "M")), ohms="4.7 kohm"
    )
    chosen = beyond if at_contact else panel
    chosen["element"] = (*chosen["element"], resistor)
    wires = """
        Q1:L A1:L
        Q1:N A1:N
        Q1:PE A1:PE
        X3:1 Z1:P
        X3:2 Z1:M
    """
    return hood([unit(), beyond, panel], wires)


def test_common_practice_a_resistor_beyond_the_contact_shows_a_broken_wire() -> None:
    outcomes = by_id(alarm_loop(at_contact=True))
    assert outcomes["open 401"].notice is Notice.AT_ONCE
    moved = outcomes["move X3.end-of-line to Z1:P Z1:M"]
    assert moved.notice is Notice.NOBODY
    assert {"a break of wire 401 is no longer noticed", "a break of wire 501 is no longer noticed"} <= {
        *moved.dangers
    }


def test_common_practice_a_resistor_in_the_panel_hides_a_broken_wire_and_moving_it_is_the_cure() -> None:
    derived = alarm_loop(at_contact=False)
    judge = Judge(derived)
    outcomes = tuple(judge.outcome(fault) for fault in single_faults(derived))
    broken = next(item for item in outcomes if item.fault.id == "open 401")
    assert broken.notice is Notice.IN_FIRE
    assert broken.dangers == ("not in a fire: alarm",)
    findings = fault_findings(derived, judge, outcomes)
    finding = next(item for item in findings if any("401" in number.value for number in item.numbers))
    assert finding.severity is Severity.CHECK
    words = [remedy.words for remedy in finding.remedies]
    assert "put Z1.end-of-line at X3:1 and X3:2: then the fault shows at once" in words


def test_a_lost_ground_and_a_crossed_ground_are_dangerous_and_seen_by_nobody() -> None:
    outcomes = by_id(held_in())
    lost = outcomes["open 901"]
    assert lost.dangers == ("metal of R has no grounding path: a line that touches it stays live",)
    assert lost.notice is Notice.NOBODY
    bootleg = outcomes["swap 801 901 at R"]
    assert any(danger.startswith("grounding conductor carries current") for danger in bootleg.dangers)
    assert bootleg.notice is Notice.NOBODY
    live = outcomes["swap 701 901 at R"]
    assert any(danger.startswith("metal live: R") for danger in live.dangers)


def test_a_short_across_a_supply_trips_and_is_noticed_at_once() -> None:
    outcome = by_id(held_in())["touch A1:L A1:N"]
    assert outcome.notice is Notice.AT_ONCE
    assert any(deviation.says == "Q1 trips" for deviation in outcome.deviations)


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_trying_only_what_is_touched_gives_what_solving_all_anew_gives(path: Path) -> None:
    """Every seventh fault again on a network that shares nothing with the sound one."""
    derived = plan_file(path, remedies=False).plan.derived
    bench = Bench(derived)
    for fault in single_faults(derived)[::7]:
        quick = bench.try_out(fault)
        fresh = Network.of(derived.network.netlist).changed(fault.change)
        slow = bench.solve_all(fresh, fault.signals)
        for one, two in zip(quick, slow, strict=True):
            assert one.levels == two.levels, fault.id
            assert one.tripped == two.tripped, fault.id
            assert {(item.danger, item.subject) for item in one.hazards} == {
                (item.danger, item.subject) for item in two.hazards
            }, fault.id


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_every_sample_has_faults_of_every_kind_that_it_can_have(path: Path) -> None:
    derived = plan_file(path, remedies=False).plan.derived
    faults = single_faults(derived)
    assert len({fault.id for fault in faults}) == len(faults)
    kinds = {fault.kind for fault in faults}
    assert {FaultKind.OPEN, FaultKind.SWAPPED, FaultKind.TOUCHING, FaultKind.COIL_OPEN} <= kinds
    assert sum(fault.kind is FaultKind.OPEN for fault in faults) == len(derived.connections.conductors)
    assert sum(fault.kind is FaultKind.BREAKER_OFF for fault in faults) == len(derived.selection.circuits)
    nets = derived.network.netlist.nets
    for fault in faults:
        if fault.kind is FaultKind.SWAPPED:
            (_, _, one), (_, _, two) = fault.change.moved
            assert nets[one] != nets[two], "a swap on one net is no fault"


def test_every_hidden_danger_is_a_finding_that_says_what_shows_it() -> None:
    derived = plan_file(Path("samples/jobs/training-room.toml"), remedies=False).plan.derived
    judge = Judge(derived)
    outcomes = tuple(judge.outcome(fault) for fault in single_faults(derived))
    findings = fault_findings(derived, judge, outcomes)
    told = {number.value for finding in findings for number in finding.numbers}
    assert told == {outcome.fault.says for outcome in outcomes if outcome.hidden and not outcome.safe}
    assert all(finding.remedies for finding in findings)
