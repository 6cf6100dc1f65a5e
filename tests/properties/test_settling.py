"""Relay circuits from the textbook: seal-in, interlock, latch, delay, buzzer, overload, transformer."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

import pytest

from schedules.connections.points import Point
from schedules.network.settling import settle
from schedules.network.switching import Change
from tests.small_sheets import circuit, coil, contact, device, element, load, small

if TYPE_CHECKING:
    from schedules.derived import Derived
    from schedules.network.settling import Situation

L_AND_N = """
    Q1:L K1:L
    Q1:N K1:N
"""


def names(situation: Situation) -> frozenset[str]:
    return situation.network.netlist.names(situation.signals)


def start_stop() -> Derived:
    """Kuphaldt, Lessons In Electric Circuits vol. IV, chapter 6: start, stop and a contact that seals the start in."""
    return small(
        [
            device(
                "K1",
                "L S M N",
                contact("stop", "L", "S", "NC", operates={"all": ("stop",)}),
                contact("start", "S", "M", "NO", operates={"all": ("start",)}),
                contact("seal", "S", "M", "NO", operates={"all": ("runs",)}),
                coil("motor", "M", "N", "runs"),
                load("lamp", "M", "N", "lamp"),
            )
        ],
        L_AND_N,
        outside="start stop",
        driven="runs",
    )


def test_a_sealed_contactor_stays_until_it_is_stopped_and_does_not_come_back() -> None:
    network = start_stop().network
    idle = settle(network, ())
    started = settle(network, {"start"}, idle)
    running = settle(network, (), started)
    stopped = settle(network, {"stop"}, running)
    after = settle(network, (), stopped)
    assert [("runs" in names(item)) for item in (idle, started, running, stopped, after)] == [
        False,
        True,
        True,
        False,
        False,
    ]
    assert [round(item.share("K1.lamp"), 2) for item in (idle, running, after)] == [0, 1, 0]


def test_a_sealed_contactor_drops_out_with_its_supply_and_stays_out() -> None:
    network = start_stop().network
    running = settle(network, (), settle(network, {"start"}))
    dark = settle(network, {"q1-off"}, running)
    back = settle(network, (), dark)
    assert "runs" in names(running)
    assert "runs" not in names(dark)
    assert "runs" not in names(back)


def test_a_relay_that_cuts_its_own_supply_buzzes() -> None:
    """The classic buzzer: a coil fed through its own normally closed contact."""
    buzzer = small(
        [
            device(
                "K1",
                "L B N",
                contact("own", "L", "B", "NC", operates={"all": ("pulled",)}),
                coil("coil", "B", "N", "pulled"),
            )
        ],
        L_AND_N,
        driven="pulled",
    )
    situation = settle(buzzer.network, ())
    assert not situation.settled
    assert situation.chasing == ("pulled",)
    assert len(situation.chase) == 2
    assert settle(buzzer.network, {"q1-off"}).settled


def test_two_relays_that_exclude_each_other_race_when_called_together() -> None:
    """Kuphaldt vol. IV, chapter 6: interlocked contactors never stand together; called at once neither wins surely."""
    raced = small(
        [
            device(
                "K1",
                "L A B N",
                contact("to-a", "L", "A", "NC", operates={"all": ("b",)}),
                contact("to-b", "L", "B", "NC", operates={"all": ("a",)}),
                coil("a", "A", "N", "a"),
                coil("b", "B", "N", "b"),
            )
        ],
        L_AND_N,
        driven="a b",
    )
    assert set(settle(raced.network, ()).chasing) == {"a", "b"}


def delayed() -> Derived:
    return small(
        [
            device(
                "K1",
                "L D E N",
                contact("call", "L", "D", "NO", operates={"all": ("call",)}),
                contact("late", "D", "E", "NO", operates={"all": ("called",)}, delay="3 s"),
                coil("relay", "D", "N", "called"),
                load("lamp", "E", "N", "lamp"),
            )
        ],
        L_AND_N,
        outside="call",
        driven="called",
    )


def test_a_delayed_contact_moves_when_its_time_is_up_and_goes_back_at_once() -> None:
    network = delayed().network
    called = settle(network, {"call"})
    assert called.after_s == 3
    assert round(called.share("K1.lamp"), 2) == 1
    held = settle(network, {"call"}, called)
    assert held.after_s == 0
    over = settle(network, (), called)
    assert (over.after_s, over.share("K1.lamp")) == (0, 0)


def latch() -> Derived:
    return small(
        [
            device(
                "K1",
                "L T N",
                contact("trip", "L", "T", "NO", operates={"all": ("fire",)}),
                coil("coil", "T", "N", "tripped", latches=True),
                contact("alarm", "L", "A", "NO", operates={"all": ("tripped",)}),
                load("bell", "A", "N", "lamp"),
            )
            | {"terminal": device("K1", "L T N A")["terminal"]}
        ],
        L_AND_N,
        outside="fire",
        driven="tripped",
        latched="tripped",
    )


def test_a_latch_stays_until_a_hand_resets_it_and_not_while_its_cause_is_there() -> None:
    network = latch().network
    burning = settle(network, {"fire"})
    out = settle(network, (), burning)
    dark = settle(network, {"q1-off"}, out)
    back = settle(network, (), dark)
    reset = settle(network, (), back, {"tripped"})
    again = settle(network, {"fire"}, burning, {"tripped"})
    assert [("tripped" in names(item)) for item in (burning, out, dark, back, reset, again)] == [
        True,
        True,
        True,
        True,
        False,
        True,
    ]
    assert back.share("K1.bell") > 0.9
    assert reset.share("K1.bell") == 0
    assert all(item.settled for item in (burning, out, reset, again))


def loaded(power: str, rating: str = "15 A") -> Derived:
    return small(
        [device("K1", "L N", load("heater", "L", "N", "lamp", power=power))],
        L_AND_N,
        circuits=[circuit("Q1", rating=rating)],
    )


def test_the_voltage_at_a_load_is_what_the_conductors_leave_of_it() -> None:
    """25 ft of 14 AWG solid each way, 3.07 ohm/kft (Table 8): 120 V over 12 ohm + 2 x 0.07675 ohm + breaker."""
    derived = loaded("1200 W")
    share = settle(derived.network, ()).share("K1.heater")
    assert math.isclose(share, 12 / (12 + 2 * 3.07 * 0.025 + 0.001), rel_tol=1e-9)


@pytest.mark.parametrize(
    ("power", "rating", "tripped"),
    [
        ("1800 W", "15 A", False),
        ("2400 W", "15 A", False),  # 19.7 A is above the rating, below 1.35 times
        ("2500 W", "15 A", True),  # 20.6 A is above 20.25 A
        ("2500 W", "20 A", False),
    ],
)
def test_a_breaker_trips_on_overload_and_stays_open(power: str, rating: str, tripped: bool) -> None:
    network = loaded(power, rating).network
    situation = settle(network, ())
    assert ("q1-off" in names(situation)) == tripped
    assert (situation.share("K1.heater") == 0) == tripped
    assert ("q1-off" in names(settle(network, (), situation))) == tripped


def test_a_short_circuit_trips_the_breaker() -> None:
    network = loaded("60 W").network.changed(Change(touching=((Point("K1", "L"), Point("K1", "N")),)))
    assert "q1-off" in names(settle(network, ()))


def test_a_breaker_that_can_not_open_ends_the_search_all_the_same() -> None:
    network = loaded("2500 W").network.changed(Change(stuck_shut=("Q1.breaker-l",)))
    situation = settle(network, ())
    assert situation.settled
    assert situation.share("K1.heater") > 0.9


def transformer(volts_at_primary: str = "120 V", current: str = "ac", limit: str = "40 VA") -> Derived:
    return small(
        [
            device(
                "T1",
                "L N S R",
                load("primary", "L", "N", "lamp", rated=volts_at_primary, power="10 W"),
                element(
                    "supply",
                    "secondary",
                    "S",
                    "R",
                    volts="24 V",
                    current=current,
                    limit=limit,
                    fed_by="primary",
                ),
                load("valve", "S", "R", "lamp", rated="24 V", power="12 W"),
            )
        ],
        """
        Q1:L T1:L
        Q1:N T1:N
        """,
    )


def test_a_secondary_follows_its_primary_by_their_ratio() -> None:
    at_rated = settle(transformer().network, ())
    assert math.isclose(at_rated.share("T1.valve"), at_rated.share("T1.primary"), rel_tol=1e-3)
    too_low = settle(transformer("240 V").network, ())
    assert math.isclose(too_low.share("T1.valve"), 0.5, rel_tol=1e-2)
    assert settle(transformer().network, {"q1-off"}).share("T1.valve") == 0


def test_a_direct_current_supply_holds_its_voltage_while_it_is_fed() -> None:
    assert round(settle(transformer("200 V", "dc").network, ()).share("T1.valve"), 2) == 1
    assert settle(transformer("300 V", "dc").network, ()).share("T1.valve") == 0


def test_a_power_limited_supply_gives_up_when_it_is_shorted() -> None:
    network = transformer().network.changed(Change(touching=((Point("T1", "S"), Point("T1", "R")),)))
    situation = settle(network, ())
    assert situation.given_up == {"T1.secondary"}
    assert situation.share("T1.valve") == 0
    assert round(situation.share("T1.primary"), 2) == 1


def test_a_coil_pulls_in_at_85_percent_and_holds_at_half() -> None:
    """Two resistors in front of a coil: one alone leaves it enough to hold, not enough to pull in."""
    derived = small(
        [
            device(
                "K1",
                "L D C N",
                element("resistor", "dropper", "L", "C", ohms="1000 ohm"),
                contact("start", "L", "D", "NO", operates={"all": ("start",)}),
                element("link", "bar", "D", "C"),
                coil("coil", "C", "N", "pulled"),
            )
        ],
        L_AND_N,
        outside="start",
        driven="pulled",
    )
    cold = settle(derived.network, ())
    pulled = settle(derived.network, {"start"})
    held = settle(derived.network, (), pulled)
    assert [("pulled" in names(item)) for item in (cold, pulled, held)] == [False, True, True]


def test_a_delay_runs_anew_after_each_call() -> None:
    network = delayed().network
    called = settle(network, {"call"})
    over = settle(network, (), called)
    again = settle(network, {"call"}, over)
    assert (called.after_s, over.after_s, again.after_s) == (3, 0, 3)


def test_the_shorter_of_two_delays_runs_out_first() -> None:
    """The early relay parts the way to the late contact before that moves: the lamp never lights."""
    derived = small(
        [
            device(
                "K1",
                "L D E F N",
                contact("call", "L", "D", "NO", operates={"all": ("call",)}),
                coil("relay", "D", "N", "called"),
                contact(
                    "late", "D", "F", "NO", operates={"all": ("called",), "none": ("early-on",)}, delay="5 s"
                ),
                contact("early", "D", "E", "NO", operates={"all": ("called",)}, delay="2 s"),
                coil("early-relay", "E", "N", "early-on"),
                load("lamp", "F", "N", "lamp"),
            )
        ],
        L_AND_N,
        outside="call",
        driven="called early-on",
    )
    called = settle(derived.network, {"call"})
    assert called.after_s == 2
    assert "early-on" in names(called)
    assert called.share("K1.lamp") == 0


def test_a_tripped_breaker_stays_open_when_the_overload_is_gone_until_a_hand_works_it() -> None:
    derived = small(
        [
            device(
                "K1",
                "L H N",
                contact("call", "L", "H", "NO", operates={"all": ("call",)}),
                load("heater", "H", "N", "lamp", power="3 kW"),
                load("lamp", "L", "N", "lamp"),
            )
        ],
        L_AND_N,
        outside="call",
    )
    network = derived.network
    over = settle(network, {"call"}, settle(network, ()))
    gone = settle(network, (), over)
    worked = settle(network, (), settle(network, {"q1-off"}, gone))
    assert [round(item.share("K1.lamp"), 2) for item in (over, gone, worked)] == [0, 0, 1]


def test_two_legs_are_240_volts_apart_and_an_open_neutral_shares_them_out() -> None:
    """A multiwire circuit whose neutral is lost: 240 V over 60 W and 120 W in series, two thirds on the smaller."""
    derived = small(
        [
            device(
                "K1",
                "L1 L2 N",
                load("range", "L1", "L2", "lamp", rated="240 V", power="1200 W"),
                load("small", "L1", "N", "lamp", power="60 W"),
                load("large", "N", "L2", "lamp", power="120 W"),
            )
        ],
        """
        Q1:L1 K1:L1
        Q1:L2 K1:L2
        Q1:N K1:N
        """,
        circuits=[circuit("Q1", poles=2)],
    )
    sound = settle(derived.network, ())
    assert [round(sound.share(f"K1.{name}"), 2) for name in ("range", "small", "large")] == [1, 1, 1]
    lost = settle(derived.network.changed(Change(opened=("301",))), ())
    # The wires take a little.
    assert math.isclose(lost.share("K1.small") * 120, 160, rel_tol=0.01)
    assert math.isclose(lost.share("K1.large") * 120, 80, rel_tol=0.01)
