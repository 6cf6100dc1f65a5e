"""What the solved states give away: one small hood that is sound, and what each mistake in it is found by."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from schedules.behaviour.interlocks import Does, interlock_matrix
from schedules.behaviour.states import solve_states
from schedules.checks.behaviour import check_behaviour
from schedules.findings import Severity
from tests.small_sheets import circuit, coil, contact, device, element, enclosure, load, small

if TYPE_CHECKING:
    from schedules.derived import Derived
    from schedules.findings import Finding

EFFECTS = {
    "controls": "controls",
    "heat": "cooking",
    "fan": "exhaust",
    "air": "make-up air",
    "bell": "alarm",
    "lamp": "light",
}
WIRES = """
    Q1:L A1:L
    Q1:N A1:N
    Q1:PE A1:PE
    Q2:L R1:L
    Q2:N R1:N
    A1:F R1:C
    Q1:N R1:D
"""
CIRCUITS = (circuit("Q1"), circuit("Q2", rating="20 A"))


def control_unit(*more: dict[str, Any], fire_form: str = "NC") -> dict[str, Any]:
    """A release that latches; its contact feeds the line that holds the heat's contactor in."""
    return device(
        "A1",
        "L N PE F D V M",
        load("electronics", "L", "N", "controls"),
        contact("detector", "L", "D", "NO", operates={"all": ("fire",)}),
        coil("release", "D", "N", "fire-released", latches=True),
        contact("shutoff", "L", "F", fire_form, operates={"all": ("fire-released",)}),
        contact("fan", "L", "V", "NO", operates={"any": ("fan-key", "fire-released")}),
        load("fan-motor", "V", "N", "fan"),
        {"kind": "bond", "id": "box", "terminal": "PE"},
        *more,
    )


def contactor(hand: bool = True) -> dict[str, Any]:
    """Held in by the permit line; `hand`: it must be set by a button and seals itself in."""
    start = (
        contact("set", "C", "P", "NO", operates={"all": ("set",)}),
        contact("seal", "C", "P", "NO", operates={"all": ("permit",)}),
    )
    return device(
        "R1",
        "L N C D P H K",
        *(start if hand else (element("link", "straight", "C", "P"),)),
        coil("contactor", "P", "D", "permit"),
        contact("main", "L", "H", "NO", operates={"all": ("permit",)}),
        contact("knob", "H", "K", "NO", operates={"all": ("knob",)}),
        load("burner", "K", "N", "heat", power="1500 W"),
    )


STATES: tuple[dict[str, Any], ...] = (
    {"id": "set", "name": "set by hand", "signals": ("set",)},
    {"id": "idle", "name": "armed", "after": "set"},
    {"id": "cooking", "name": "cooking", "after": "idle", "signals": ("knob", "fan-key")},
    {"id": "burning", "name": "fire", "after": "cooking", "signals": ("fire", "knob")},
)


def hood(*devices: dict[str, Any], wires: str = WIRES, **more: Any) -> Derived:
    settings: dict[str, Any] = {
        "outside": "fire set knob fan-key",
        "driven": "fire-released permit air-called",
        "latched": "fire-released",
        "effects": EFFECTS,
        "circuits": CIRCUITS,
        "state": STATES,
    }
    return small(devices, wires, **(settings | more))


def promise(effect: str, does: str, *states: str) -> dict[str, Any]:
    return {"effect": effect, "does": does, "states": states, "source": "made for a test"}


def found(derived: Derived) -> dict[str, Finding]:
    return {finding.code: finding for finding in check_behaviour(derived)}


def test_a_sound_hood_has_no_finding() -> None:
    derived = hood(
        control_unit(),
        contactor(),
        promise=(
            promise("heat", "off", "set", "idle", "burning"),
            promise("heat", "follows", "cooking"),
            promise("fan", "on", "cooking", "burning"),
            promise("controls", "on", "idle", "burning"),
            promise("controls", "unchanged", "burning"),
        ),
    )
    assert found(derived) == {}


def test_states_are_added_that_the_sheet_does_not_name() -> None:
    names = {item.case.id for item in solve_states(hood(control_unit(), contactor()))}
    assert {
        "idle",
        "burning",
        "+panel-off",
        "+lost-q1",
        "+lost-q2-fire",
        "+burning-back",
        "+burning-reset",
    } <= names
    after = {item.case.id: item.case.after for item in solve_states(hood(control_unit(), contactor()))}
    assert after["+burning-dark"] == "burning"
    assert after["+burning-back"] == "+burning-dark"
    assert after["+burning-reset"] == "+burning-back"
    unnamed = {item.case.id for item in solve_states(hood(control_unit(), contactor(), state=()))}
    assert {"+act-set", "+idle", "+in-use", "+fire", "+fire-dark"} <= unnamed


def test_heat_that_a_fire_leaves_on_is_found() -> None:
    derived = hood(control_unit(fire_form="NO"), contactor(hand=False))
    finding = found(derived)["heat-in-fire"]
    assert (finding.severity, finding.subject) == (Severity.STOP, "heat")
    assert "fire" in finding.says


def test_heat_that_comes_back_with_the_power_is_found() -> None:
    """The release forgets the fire when its supply goes: nothing latches."""
    unlatched = control_unit()
    unlatched["element"] = tuple(
        {key: value for key, value in item.items() if key != "latches"} for item in unlatched["element"]
    )
    finding = found(hood(unlatched, contactor(hand=False), latched=""))["heat-returns"]
    assert (finding.severity, finding.subject) == (Severity.STOP, "heat")


def test_heat_that_comes_back_on_reset_is_for_a_person_to_judge() -> None:
    finding = found(hood(control_unit(), contactor(hand=False)))["heat-on-reset"]
    assert finding.severity is Severity.CHECK


def test_controls_behind_their_own_fire_contact_are_found() -> None:
    second = device("A2", "L N", load("electronics", "L", "N", "controls"))
    wires = f"{WIRES}    A1:F A2:L\n    Q1:N A2:N\n"
    derived = hood(control_unit(), contactor(), second, wires=wires, effects=EFFECTS | {"more": "controls"})
    assert "controls-die" not in found(derived)  # the first unit's electronics still show the effect
    second["element"] = (load("electronics", "L", "N", "more"),)
    derived = hood(control_unit(), contactor(), second, wires=wires, effects=EFFECTS | {"more": "controls"})
    assert found(derived)["controls-die"].subject == "more"


def test_a_line_on_metal_is_found() -> None:
    """Ground and line change places at the unit: its box stands at 120 V."""
    crossed = WIRES.replace("Q1:L A1:L", "Q1:L A1:PE").replace("Q1:PE A1:PE", "Q1:PE A1:L")
    findings = found(hood(control_unit(), contactor(), wires=crossed))
    assert findings["metal-live"].subject == "E"
    assert "120 V" in findings["metal-live"].says


def test_a_neutral_on_the_grounding_conductor_is_found() -> None:
    crossed = WIRES.replace("Q1:N A1:N", "Q1:N A1:PE").replace("Q1:PE A1:PE", "Q1:PE A1:N")
    panel_bonded = found(hood(control_unit(), contactor(), wires=crossed))
    assert "metal-live" not in panel_bonded  # the neutral holds the box near 0 V, and nothing tells
    line_and_neutral = WIRES.replace("Q1:L A1:L", "Q1:L A1:N").replace("Q1:N A1:N", "Q1:N A1:L")
    assert found(hood(control_unit(), contactor(), wires=line_and_neutral))["neutral-live"].subject == "A1:N"


def test_mains_on_power_limited_wiring_is_found() -> None:
    low = device("Z1", "1 2", load("lamp", "1", "2", "lamp", rated="24 V"), limited=True)
    wires = f"{WIRES}    Q1:L Z1:1\n"
    findings = check_behaviour(hood(control_unit(), contactor(), low, wires=wires))
    assert {item.subject for item in findings if item.code == "limited-sees-mains"} == {"Z1:1", "Z1:2"}


def test_contacts_that_chase_each_other_are_found() -> None:
    buzzer = device(
        "K9",
        "L B N",
        contact("own", "L", "B", "NC", operates={"all": ("air-called",)}),
        coil("coil", "B", "N", "air-called"),
    )
    wires = f"{WIRES}    Q1:L K9:L\n    Q1:N K9:N\n"
    finding = found(hood(control_unit(), contactor(), buzzer, wires=wires))["contacts-chase"]
    assert finding.subject == "air-called"


def test_an_overloaded_breaker_is_found() -> None:
    big = contactor()
    big["element"] = tuple(
        item | {"power": "5 kW"} if item["id"] == "burner" else item for item in big["element"]
    )
    assert found(hood(control_unit(), big))["supply-overloaded"].subject == "Q2"


@pytest.mark.parametrize(("does", "state"), [("off", "burning"), ("on", "idle"), ("follows", "burning")])
def test_a_promise_that_is_not_kept_is_found(does: str, state: str) -> None:
    finding = found(hood(control_unit(), contactor(), promise=(promise("fan", does, state),)))[
        "promise-broken"
    ]
    assert finding.subject == "fan"
    assert finding.severity is (Severity.STOP if state == "burning" else Severity.FIX)


def test_one_contact_for_exhaust_and_make_up_air_can_not_keep_two_promises() -> None:
    """Make-up air hangs on the exhaust's contact; in a fire exhaust shall run and make-up air shall not."""
    joined = control_unit(load("damper", "V", "N", "air"))
    promises = (promise("fan", "on", "burning"), promise("air", "off", "burning"))
    finding = found(hood(joined, contactor(), promise=promises))["contact-shared"]
    assert finding.subject == "A1.fan"
    parted = control_unit(
        contact("air", "L", "M", "NO", operates={"all": ("fan-key",), "none": ("fire-released",)}),
        load("damper", "M", "N", "air"),
    )
    assert found(hood(parted, contactor(), promise=promises)) == {}


def test_energise_to_trip_without_its_supply_is_told_by_who_notices() -> None:
    """The fire contact feeds a trip coil from Q3; with Q3 off the range stays on in a fire."""
    range_behind_trip = device(
        "R2",
        "L N",
        contact("knob", "L", "K", "NO", operates={"all": ("knob",)}),
        load("burner", "K", "N", "heat"),
    )
    range_behind_trip["terminal"] = device("R2", "L N K")["terminal"]
    unit = control_unit()
    unit["terminal"] = device("A1", "L N PE F D V M T S")["terminal"]
    unit["element"] = (
        *unit["element"],
        contact("trip", "T", "S", "NO", operates={"all": ("fire-released",)}),
    )
    circuits = (
        circuit("Q1"),
        circuit("Q2", shunt_trip={"rated": "120 V", "burden": "100 VA", "drives": "tripped"}),
        circuit("Q3"),
    )
    wires = """
        Q1:L A1:L
        Q1:N A1:N
        Q1:PE A1:PE
        Q2:L R2:L
        Q2:N R2:N
        Q3:L A1:T
        A1:S Q2:ST1
        Q2:ST2 Q3:N
    """
    settings: dict[str, Any] = {
        "circuits": circuits,
        "driven": "fire-released tripped",
        "latched": "fire-released tripped",
        "state": (
            {"id": "cooking", "name": "cooking", "signals": ("knob",)},
            {"id": "burning", "name": "fire", "after": "cooking", "signals": ("fire", "knob")},
        ),
        "outside": "fire knob fan-key",
    }
    findings = found(hood(unit, range_behind_trip, wires=wires, **settings))
    assert set(findings) == {"heat-without-supply"}
    assert findings["heat-without-supply"].severity is Severity.FIX
    watched = device("P1", "L N", load("lamp", "L", "N", "lamp"))
    more = f"{wires}    Q3:L P1:L\n        Q3:N P1:N\n"
    findings = found(hood(unit, range_behind_trip, watched, wires=more, **settings))
    assert findings["heat-without-supply"].severity is Severity.CHECK


def test_the_matrix_states_every_cell() -> None:
    matrix = interlock_matrix(hood(control_unit(), contactor()))
    column = [effect.id for effect in matrix.effects].index("fan")
    cells = {cause.case.id: cause.cells[column].does for cause in matrix.causes}
    assert cells["cooking"] is Does.ON
    assert cells["burning"] is Does.ON
    assert cells["+lost-q1"] is Does.OFF
    assert cells["+lost-q2"] is Does.FOLLOWS
    assert all(len(cause.cells) == len(matrix.effects) for cause in matrix.causes)
    burning = next(cause for cause in matrix.causes if cause.case.id == "burning")
    assert burning.held == ("fire-released",)


def test_enclosures_of_plastic_have_no_metal_to_be_live() -> None:
    derived = hood(control_unit(), contactor(), enclosures=(enclosure("P", metal=False),))
    assert set(derived.network.netlist.metal) == {"PB", "E"}
