"""Everything computed from one job, before it is judged."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from schedules.alterations import as_installed
from schedules.circuit_plan import plan_circuits
from schedules.circuits import find_circuits
from schedules.graph import connect
from schedules.netlist import make_netlist
from schedules.network import Network
from schedules.openings import find_entries
from schedules.options import conflicts, select
from schedules.raceway_plan import plan_raceways
from schedules.reach import cable_length

if TYPE_CHECKING:
    from schedules.circuit_plan import CircuitPlan
    from schedules.circuits import CircuitNeed
    from schedules.graph import Connections
    from schedules.job.records import Job
    from schedules.openings import Entry
    from schedules.options import Conflict, Selection
    from schedules.raceway_plan import RacewayPlan
    from schedules.reach import CableLength
    from schedules.sheet.sheet import Sheet


@dataclass(frozen=True, slots=True)
class Derived:
    """One job's installation: what was bought, how it is joined, how long, through what, from which circuits."""

    sheet: Sheet
    job: Job
    conflicts: tuple[Conflict, ...]
    selection: Selection
    connections: Connections
    lengths: tuple[CableLength, ...]
    raceways: tuple[RacewayPlan, ...]
    entries: tuple[Entry, ...]
    circuits: tuple[CircuitNeed, ...]
    branches: tuple[CircuitPlan, ...]
    network: Network = field(compare=False, repr=False)


def derive(sheet: Sheet, job: Job) -> Derived:
    """Compute a job's installation: a pure function of sheet, job and the published tables."""
    choices = frozenset(job.choices)
    selection = as_installed(select(sheet, choices), job)
    downstream = {item.circuit: item.downstream_of for item in job.circuit if item.downstream_of is not None}
    connections = connect(selection, downstream)
    lengths = tuple(cable_length(job, selection, cable) for cable in selection.cables)
    circuits = find_circuits(selection, connections)
    return Derived(
        sheet=sheet,
        job=job,
        conflicts=conflicts(sheet, choices),
        selection=selection,
        connections=connections,
        lengths=lengths,
        raceways=plan_raceways(job, selection),
        entries=find_entries(job, selection),
        circuits=circuits,
        branches=plan_circuits(job, selection, connections, circuits, lengths),
        network=Network.of(make_netlist(selection, connections, lengths, str(job.job.code))),
    )
