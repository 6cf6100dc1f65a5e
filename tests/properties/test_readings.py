"""What the meter should read: each reading put to the network again in another way."""

from __future__ import annotations

import itertools
import math
from pathlib import Path

import pytest

from schedules.behaviour.readings import Function, expected_readings
from schedules.connections.points import Point
from schedules.network.meter import Meter
from schedules.network.nodal import potentials
from schedules.network.settling import settle
from schedules.planned import plan_file
from schedules.tables import load as table
from tests.small_sheets import contact, device, element, load, small

JOBS = sorted(Path("samples/jobs").glob("*.toml"))


def test_the_meters_own_resistance_loads_what_it_measures() -> None:
    """Behind 1 Mohm a 10 Mohm meter shows 10/11 of the voltage; behind a wire all of it."""
    derived = small(
        [device("K1", "L H N", element("resistor", "high", "L", "H", ohms="1 Mohm"))],
        """
        Q1:L K1:L
        Q1:N K1:N
        """,
    )
    meter = Meter(settle(derived.network, ()))
    assert math.isclose(meter.volts(Point("K1", "H"), Point("K1", "N")).ac, 120 * 10 / 11, rel_tol=1e-5)
    assert math.isclose(meter.volts(Point("K1", "L"), Point("K1", "N")).ac, 120, rel_tol=1e-6)


def test_a_meter_between_two_parts_that_nothing_joins_shows_nothing() -> None:
    derived = small(
        [
            device("B1", "P M", element("supply", "battery", "P", "M", volts="24 V", current="dc")),
            device("K1", "L N X"),
        ],
        """
        Q1:L K1:L
        Q1:N K1:N
        """,
    )
    meter = Meter(settle(derived.network, ()))
    battery, mains, empty = Point("B1", "P"), Point("K1", "L"), Point("K1", "X")
    assert meter.volts(battery, Point("B1", "M")).dc == pytest.approx(24, rel=1e-6)
    for other in (mains, empty):
        between = meter.volts(battery, other)
        assert between.ac == pytest.approx(0, abs=1e-5)
        assert between.dc == pytest.approx(0, abs=1e-5)
        assert meter.ohms(battery, other) is None


def test_ohms_tell_a_conductor_from_a_load_and_from_nothing() -> None:
    derived = small(
        [device("K1", "L N", load("heater", "L", "N", "lamp", power="1440 W"))],
        """
        Q1:L K1:L
        Q1:N K1:N
        """,
    )
    meter = Meter(settle(derived.network, {"q1-off"}))
    wire = 3.07 * 0.025  # 25 ft of 14 AWG solid, Table 8
    assert meter.ohms(Point("Q1", "L"), Point("K1", "L")) == pytest.approx(wire, rel=1e-6)
    assert meter.ohms(Point("Q1", "L"), Point("Q1", "N")) == pytest.approx(10 + 2 * wire, rel=1e-6)
    assert not meter.is_live(Point("K1", "L"), Point("K1", "N"))
    assert Meter(settle(derived.network, ())).is_live(Point("K1", "L"), Point("K1", "N"))


def test_a_loop_reads_its_resistor_and_a_contact_what_stands_beside_it() -> None:
    """Two wires of 25 ft, 18 AWG solid, 7.77 ohm/kft (Table 8), and 4.7 kohm at the far end."""
    derived = small(
        [
            device(
                "X3",
                "1 2",
                contact("alarm", "1", "2", "NO", operates={"all": ("fire",)}),
                element("resistor", "end-of-line", "1", "2", ohms="4.7 kohm"),
            ),
            device(
                "Z1",
                "P M B",
                element("supply", "zone", "B", "M", volts="24 V", current="dc"),
                load("input", "B", "P", "lamp", rated="24 V", power="1 W"),
                box="F",
            ),
        ],
        """
        X3:1 Z1:P
        X3:2 Z1:M
        """,
        enclosures=[
            {
                "tag": "F",
                "name": "F",
                "kind": "by-others",
                "metal": False,
                "entry": "6 in",
                "free_conductor": "6 in",
            }
        ],
        outside="fire",
        size="18 AWG",
    )
    readings = {(item.step, item.state): item for item in expected_readings(derived)}
    loop = next(item for key, item in readings.items() if key[0] == "loop")
    assert (str(loop.start), str(loop.end)) == ("Z1:P", "Z1:M")
    assert loop.expected == pytest.approx(4700 + 2 * 7.77 * 0.025, rel=1e-6)
    assert readings["contacts", "at rest, no power"].expected == pytest.approx(4700, rel=1e-6)
    operated = readings["contacts", "operated: fire"].expected
    assert operated is not None
    assert operated < 0.01


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_every_sample_has_readings_that_stand_within_their_own_bands(path: Path) -> None:
    derived = plan_file(path, remedies=False).plan.derived
    readings = expected_readings(derived)
    order = [row.text("step") for row in table("commissioning_tests").rows]
    assert [order.index(item.step) for item in readings] == sorted(
        order.index(item.step) for item in readings
    )
    for item in readings:
        assert item.start != item.end
        if item.expected is None:
            assert item.function is Function.OHMS
            assert item.low is item.high is None
        else:
            assert item.low is not None
            assert item.high is not None
            # What a meter shows is rounded; nothing is below 0.05 V.
            assert item.low - 0.05 <= item.expected <= item.high + 0.05, item
        assert item.live == (item.function is not Function.OHMS)


def test_a_range_is_proved_dead_and_measured_from_line_to_line_too() -> None:
    """With its neutral open, both lines of a range show nothing to neutral while 240 V stand between them."""
    readings = expected_readings(plan_file(Path("samples/jobs/galley-gas.toml"), remedies=False).plan.derived)
    between = {(str(item.start), str(item.end)): item for item in readings if item.step == "polarity"}
    for ends in (("Q5:L1", "Q5:L2"), ("X32:X", "X32:Y")):
        assert between[ends].expected == pytest.approx(240, abs=0.1)
        assert any((str(item.start), str(item.end)) == ends for item in readings if item.step == "prove-dead")
    assert ("X1:1L", "X1:2L") not in between


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_continuity_readings_are_the_tables_resistance_moved_to_20_degrees(path: Path) -> None:
    """R2 = R1 · (1 + 0.00323 · (T2 - 75)), NEC Chapter 9 Table 8 note; from 75 to 20 C that is 0.82235."""
    derived = plan_file(path, remedies=False).plan.derived
    branches = derived.network.netlist.branches
    for item in expected_readings(derived):
        if item.step == "continuity" and item.note.startswith("wire "):
            warm = (1 / branches[item.note.removeprefix("wire ")].ac).real
            assert item.expected == pytest.approx(warm * 0.82235, rel=1e-4)


def test_volts_agree_with_a_meter_put_into_the_network_by_hand() -> None:
    derived = plan_file(Path("samples/jobs/training-room.toml"), remedies=False).plan.derived
    situation = settle(derived.network, ())
    meter, netlist = Meter(situation), derived.network.netlist
    nets = sorted({net for block in derived.network.blocks for net in block.nets})
    joins = [
        (branch.a, branch.b, branch.ac)
        for block in derived.network.blocks
        for branch in block.conducting(situation.closed)
    ]
    fed: dict[int, complex] = {}
    for solved in situation.solution.solved:
        for net, amperes in solved.fed(dc=False).items():
            fed[net] = fed.get(net, 0j) + amperes
    points = [point for point in netlist.nets if netlist.nets[point] in set(nets)][::7]
    for a, b in itertools.pairwise(points):
        start, end = netlist.nets[a], netlist.nets[b]
        whole = potentials(nets, [*joins, (start, end, 1e-7)], fed, netlist.held)
        assert meter.volts(a, b).ac == pytest.approx(abs(whole.volts[start] - whole.volts[end]), abs=1e-6)
