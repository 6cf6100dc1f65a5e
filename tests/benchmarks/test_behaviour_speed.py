"""How long solving takes: states, single faults, fault finding, and how it grows with the installation.

Run with: pytest tests/benchmarks/test_behaviour_speed.py --benchmark-only
"""

from __future__ import annotations

from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from schedules.behaviour.diagnose import Finder
from schedules.behaviour.faults import try_faults
from schedules.behaviour.planted import score
from schedules.behaviour.states import solve_states
from schedules.checks.behaviour import check_behaviour
from schedules.derived import derive
from schedules.network.settling import settle
from schedules.network.switching import Network
from schedules.plan import plan_job
from schedules.planned import plan_file
from tests.small_sheets import circuit, coil, contact, device, load, small_job, small_sheet

if TYPE_CHECKING:
    from collections.abc import Callable

    from pytest_benchmark.fixture import BenchmarkFixture

    from schedules.derived import Derived
    from schedules.sheet.sheet import Sheet

LARGEST = Path("samples/jobs/training-room.toml")


def fresh(path: Path = LARGEST) -> Derived:
    """Derived anew, so that nothing is solved yet."""
    planned = plan_file(path, remedies=False)
    return derive(planned.sheet, planned.draft.job)


def measure(
    benchmark: BenchmarkFixture, work: Callable[[Any], object], make: Callable[[], object], *, rounds: int
) -> None:
    """Time `work` on something made anew for each round."""
    benchmark.pedantic(work, setup=lambda: ((make(),), {}), rounds=rounds)  # type: ignore[no-untyped-call]


def test_every_state_of_the_largest_sample(benchmark: BenchmarkFixture) -> None:
    measure(benchmark, solve_states, fresh, rounds=10)


def test_the_behaviour_checks_of_the_largest_sample(benchmark: BenchmarkFixture) -> None:
    measure(benchmark, lambda derived: list(check_behaviour(derived)), fresh, rounds=10)


def test_all_single_faults_of_the_largest_sample(benchmark: BenchmarkFixture) -> None:
    """Budget: 1 s."""
    measure(benchmark, try_faults, fresh, rounds=3)


def test_fault_finding_made_ready(benchmark: BenchmarkFixture) -> None:
    measure(benchmark, Finder, fresh, rounds=3)


def test_every_fault_planted_and_sought(benchmark: BenchmarkFixture) -> None:
    measure(benchmark, score, lambda: Finder(fresh()), rounds=1)


@cache
def chain(devices: int) -> Sheet:
    """One circuit, six terminals a device: each relay switches its lamp and hands the line on."""
    parts, wires = [], ["Q1:L K1:L", "Q1:N K1:N"]
    for place in range(1, devices + 1):
        tag = f"K{place}"
        parts.append(
            device(
                tag,
                "L F M N D P",
                contact("call", "L", "F", "NO", operates={"all": ("call",)}),
                coil("coil", "F", "N", f"pulled-{place}"),
                contact("own", "L", "M", "NO", operates={"all": (f"pulled-{place}",)}),
                load("lamp", "M", "N", "lamp", power="1 W"),
            )
        )
        if place > 1:
            wires += [f"K{place - 1}:L {tag}:L", f"K{place - 1}:N {tag}:N"]
    driven = " ".join(f"pulled-{place}" for place in range(1, devices + 1))
    # 99 cables are the most that a sheet numbers: the rest of the chain is wired by its maker.
    field, factory = wires[:60], [line.split() for line in wires[60:]]
    return small_sheet(
        parts,
        "\n".join(field),
        outside="call",
        driven=driven,
        circuits=[circuit("Q1", rating="200 A")],
        size="6 AWG",
        factory_wire=tuple({"from": a, "to": b} for a, b in factory),
    )


@pytest.mark.parametrize("terminals", [126, 252, 504, 1008])
def test_growth_with_the_number_of_terminals(benchmark: BenchmarkFixture, terminals: int) -> None:
    """Blocks made, solved at rest and called: near to linear."""
    netlist = derive(chain(terminals // 6), small_job()).network.netlist

    def called() -> bool:
        network = Network.of(netlist)
        return settle(network, {"call"}, settle(network, ())).settled

    assert benchmark(called)


@pytest.mark.parametrize("terminals", [126, 252, 504, 1008])
def test_growth_of_all_that_is_derived_and_checked(benchmark: BenchmarkFixture, terminals: int) -> None:
    """Graph, ways, circuits, network and findings: near to linear, but for what lists each lamp's whole way."""
    sheet, job = chain(terminals // 6), small_job()
    assert benchmark(plan_job, sheet, job).derived.switched
