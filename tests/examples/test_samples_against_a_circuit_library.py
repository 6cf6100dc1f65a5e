"""Voltages of the sample sheets' states, part by part, against lcapy, to 0.1 %."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.connections.options import combinations
from schedules.derived import derive
from schedules.network.nodal import GROUNDED
from schedules.network.settling import settle
from schedules.sheet.reading import read_sheet
from tests.circuit_oracle import solve_with_lcapy
from tests.small_sheets import small_job

if TYPE_CHECKING:
    from schedules.network.blocks import Solved
    from schedules.network.settling import Situation
    from schedules.sheet.sheet import Sheet

SHEETS = {path.stem: read_sheet(path) for path in sorted(Path("samples/sheets").glob("*.toml"))}


def situation_in(sheet: Sheet, wanted: str) -> Situation:
    """A state of the sheet with the most that can be bought, after all that comes before it."""
    choices = max(sorted(map(sorted, combinations(sheet))), key=len)
    network = derive(sheet, small_job(choices=tuple(choices))).network
    reached: dict[str, Situation] = {}
    for state in sheet.state:
        if state.when.holds(frozenset(choices)):
            off = {f"{tag.lower()}-off" for tag in state.circuits_off}
            before = reached.get(state.after or "")
            reached[state.id] = settle(network, {*state.signals, *off}, before, state.reset)
    return reached[wanted]


def library(solved: Solved, *, dc: bool) -> dict[int, complex]:
    block = solved.block
    ours = solved.dc if dc else solved.ac
    emfs = dict(zip((source.key for source in block.sources), solved.emfs, strict=True))
    joins, sources = [], []
    for branch in block.conducting(solved.closed):
        given = emfs.get(branch.key, 0j) if dc == (branch.key in _direct(solved)) else 0j
        admittance = branch.dc if dc else branch.ac
        if branch.key in emfs:
            sources.append((branch.a, branch.b, given, admittance))
        else:
            joins.append((branch.a, branch.b, admittance))
    held = {net: 0j if dc else volts for net, volts in block.netlist.held.items()}
    service = next(net for net, volts in block.netlist.held.items() if volts == 0)
    # Only one island at a time has a ground in the library; ours are compared within their islands too.
    answers: dict[int, complex] = {}
    for island in sorted({ours.island[net] for net in block.nets}):
        nets = [net for net in block.nets if ours.island[net] == island]
        grounded = island == GROUNDED
        if nets == [island]:
            continue  # a dead end joined to nothing
        members = {*nets, *(held if grounded else ())}
        answers |= solve_with_lcapy(
            [join for join in joins if join[0] in members and join[1] in members],
            [source for source in sources if source[0] in members and source[1] in members],
            held if grounded else {},
            [net for net in nets if net != island],
            service if grounded else island,
        )
    return answers


def _direct(solved: Solved) -> set[str]:
    return {source.key for source in solved.block.sources if source.dc}


@pytest.mark.filterwarnings("ignore")  # the library and what it loads warn of their own affairs
@pytest.mark.parametrize("state", ["cooking", "fire-pull", "controls-lost"])
@pytest.mark.parametrize("name", sorted(SHEETS))
def test_every_part_of_a_sample_agrees_with_the_library(name: str, state: str) -> None:
    situation = situation_in(SHEETS[name], state)
    compared = 0
    for solved in situation.solution.solved:
        for dc, live in ((False, solved.has_ac), (True, solved.has_dc)):
            if not live:
                continue
            ours = (solved.dc if dc else solved.ac).volts
            theirs = library(solved, dc=dc)
            largest = max(abs(volts) for volts in theirs.values())
            for net, volts in theirs.items():
                assert abs(ours[net] - volts) <= 1e-3 * largest
                compared += 1
    assert compared > 20
