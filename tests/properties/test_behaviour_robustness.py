"""Whatever a sheet says, its behaviour is solved and judged: nothing crashes, and Kirchhoff's laws hold."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.behaviour.diagnose import Finder
from schedules.behaviour.faults import try_faults
from schedules.behaviour.states import cases_of, solve_states
from schedules.checks.behaviour import check_behaviour
from schedules.connections.options import combinations
from schedules.derived import derive
from schedules.network.settling import settle
from schedules.sheet.hardware import Contact
from schedules.sheet.reading import read_sheet
from tests.small_sheets import circuit, coil, contact, device, element, load, small, small_job, small_sheet

if TYPE_CHECKING:
    from schedules.derived import Derived
    from schedules.network.blocks import Solved
    from schedules.sheet.sheet import Sheet

SHEETS = {path.stem: read_sheet(path) for path in sorted(Path("samples/sheets").glob("*.toml"))}
CHOICES = {name: sorted(map(sorted, combinations(sheet))) for name, sheet in SHEETS.items()}
L_AND_N = """
    Q1:L K1:L
    Q1:N K1:N
"""


@st.composite
def mangled(draw: st.DrawFn) -> tuple[Sheet, tuple[str, ...]]:
    """A sample with contacts turned over, elements left out, cores landed on each other's terminals."""
    name = draw(st.sampled_from(sorted(SHEETS)))
    sheet = SHEETS[name]
    choices = tuple(draw(st.sampled_from(CHOICES[name])))
    devices = list(sheet.device)
    for place in draw(st.lists(st.integers(0, len(devices) - 1), max_size=4, unique=True)):
        elements = tuple(
            item.model_copy(update={"form": "NC" if item.form == "NO" else "NO"})
            if isinstance(item, Contact)
            else item
            for item in devices[place].element
            if draw(st.booleans())
        )
        devices[place] = devices[place].model_copy(update={"element": elements})
    cables = list(sheet.cable)
    for place in draw(st.lists(st.integers(0, len(cables) - 1), max_size=3, unique=True)):
        targets = draw(st.permutations([core.target for core in cables[place].core if core.target]))
        cores = tuple(
            core.model_copy(update={"target": targets.pop()}) if core.target else core
            for core in cables[place].core
        )
        cables[place] = cables[place].model_copy(update={"core": cores})
    states = tuple(item for item in sheet.state if draw(st.integers(0, 4)))
    return sheet.model_copy(
        update={"device": tuple(devices), "cable": tuple(cables), "state": states}
    ), choices


def leftover_a(solved: Solved, *, dc: bool) -> float:
    """The largest current that is left over at a net [A], as a share of the largest that flows."""
    volts = (solved.dc if dc else solved.ac).volts
    sums = dict(solved.fed(dc=dc))
    largest = max((abs(amperes) for amperes in sums.values()), default=0.0)
    for branch in solved.block.conducting(solved.closed):
        amperes = (volts[branch.a] - volts[branch.b]) * (branch.dc if dc else branch.ac)
        largest = max(largest, abs(amperes))
        sums[branch.a] = sums.get(branch.a, 0j) - amperes
        sums[branch.b] = sums.get(branch.b, 0j) + amperes
    return max((abs(sums.get(net, 0j)) for net in solved.block.nets), default=0.0) / max(largest, 1.0)


@settings(max_examples=60)
@given(case=mangled())
def test_currents_add_up_at_every_net_of_any_installation(case: tuple[Sheet, tuple[str, ...]]) -> None:
    sheet, choices = case
    for item in solve_states(derive(sheet, small_job(choices=choices))):
        for solved in item.situation.solution.solved:
            if solved.has_ac:
                assert leftover_a(solved, dc=False) < 1e-9
            if solved.has_dc:
                assert leftover_a(solved, dc=True) < 1e-9


@settings(max_examples=60)
@given(case=mangled())
def test_any_installation_is_judged_twice_alike(case: tuple[Sheet, tuple[str, ...]]) -> None:
    sheet, choices = case
    one, two = (list(check_behaviour(derive(sheet, small_job(choices=choices)))) for _ in range(2))
    assert one == two


@settings(max_examples=8)
@given(case=mangled())
def test_any_installation_can_be_tried_for_faults(case: tuple[Sheet, tuple[str, ...]]) -> None:
    sheet, choices = case
    outcomes = try_faults(derive(sheet, small_job(choices=choices)))
    assert all(outcome.notice for outcome in outcomes)


def lamp(**more: Any) -> Derived:
    return small([device("K1", "L N", load("lamp", "L", "N", "lamp"))], L_AND_N, **more)


ODD: dict[str, Derived] = {
    "no states": lamp(),
    "a state that only resets": lamp(state=({"id": "a", "name": "a", "reset": ()},)),
    "a state after one that was not bought": lamp(
        group=(
            {
                "id": "g",
                "title": "g",
                "why": "w",
                "pick": "any",
                "choice": ({"id": "c", "title": "c"},),
            },
        ),
        state=(
            {"id": "a", "name": "a", "when": {"all": ("c",)}},
            {"id": "b", "name": "b", "after": "a", "circuits_off": ("Q1",)},
        ),
    ),
    "every state in a fire": lamp(
        outside="fire", state=({"id": "a", "name": "a", "signals": ("fire",), "circuits_off": ("Q1",)},)
    ),
    "a load that is bridged": small(
        [
            device(
                "K1",
                "L N A",
                load("lamp", "L", "A", "lamp"),
                element("link", "bridge", "L", "A"),
                element("resistor", "r", "L", "A", ohms="10 ohm"),
            )
        ],
        L_AND_N,
    ),
    "a line on the neutral": small([device("K1", "L N", element("link", "short", "L", "N"))], L_AND_N),
    "a terminal called metal": small(
        [device("E", "metal L N", load("lamp", "L", "N", "lamp"))], "Q1:L E:metal"
    ),
    "two coils of one signal that chase each other": small(
        [
            device(
                "K1",
                "L A B N",
                contact("a", "L", "A", "NC", operates={"all": ("one",)}),
                contact("b", "L", "B", "NO", operates={"all": ("one",)}),
                coil("a", "A", "N", "one"),
                coil("b", "B", "N", "other"),
                contact("c", "L", "A", "NC", operates={"all": ("other",)}),
            )
        ],
        L_AND_N,
        driven="one other",
    ),
    "a transformer that feeds itself": small(
        [
            device(
                "T1",
                "L N",
                load("primary", "L", "N", "lamp"),
                element("supply", "out", "L", "N", volts="120 V", current="ac", fed_by="primary"),
            )
        ],
        "Q1:N T1:N",
    ),
    "no circuits": derive(
        small_sheet([device("K1", "L N", load("lamp", "L", "N", "lamp"))], "K1:L K1:N").model_copy(
            update={"circuit": ()}
        ),
        small_job(),
    ),
}


@pytest.mark.parametrize("name", list(ODD))
def test_an_odd_sheet_is_solved_judged_and_tried(name: str) -> None:
    derived = ODD[name]
    assert solve_states(derived)
    list(check_behaviour(derived))
    try_faults(derived)
    finder = Finder(derived)
    finder.propose(())
    assert finder.classes()


def test_a_thousand_states_one_after_the_other_are_solved() -> None:
    """No call inside a call for each of them."""
    states = tuple(
        {"id": f"s{n}", "name": f"s{n}"} | ({"after": f"s{n - 1}"} if n else {}) for n in range(1200)
    )
    derived = lamp(
        state=states, promise=({"states": ("s1199",), "effect": "lamp", "does": "unchanged", "source": "t"},)
    )
    assert len(cases_of(derived)) > 1200
    assert list(check_behaviour(derived)) == []


def test_heat_that_a_hand_sets_again_after_the_reset_is_no_finding() -> None:
    unit = device(
        "K1",
        "L N D P",
        contact("detector", "L", "D", "NO", operates={"all": ("fire",)}),
        coil("release", "D", "N", "fire-released", latches=True),
        contact("set", "L", "P", "NO", operates={"all": ("set",), "none": ("fire-released",)}),
        contact("seal", "L", "P", "NO", operates={"all": ("permit",), "none": ("fire-released",)}),
        coil("permit", "P", "N", "permit"),
        load("burner", "P", "N", "heat"),
    )
    states = (
        {"id": "set", "name": "set", "signals": ("set",)},
        {"id": "idle", "name": "idle", "after": "set"},
        {"id": "burning", "name": "burning", "after": "idle", "signals": ("fire",)},
        {"id": "reset", "name": "reset", "after": "burning", "reset": ("fire-released",)},
        {"id": "again", "name": "again", "after": "reset", "signals": ("set",)},
        {"id": "later", "name": "later", "after": "again"},
    )
    derived = small(
        [unit],
        L_AND_N,
        outside="fire set",
        driven="fire-released permit",
        latched="fire-released",
        effects={"heat": "cooking"},
        state=states,
        circuits=[circuit("Q1")],
    )
    assert list(check_behaviour(derived)) == []
    later = next(item for item in solve_states(derived) if item.case.id == "later")
    assert later.levels["heat"] == "on"
    assert settle(derived.network, ()).share("K1.burner") == 0
