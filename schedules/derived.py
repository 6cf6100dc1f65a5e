"""Everything computed from one job, before it is judged."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from schedules.boxes.box_plan import plan_boxes
from schedules.boxes.coils import coil_excess
from schedules.circuits.alterations import as_installed
from schedules.circuits.circuit_plan import plan_circuits
from schedules.circuits.cooking_load import kitchen_demand
from schedules.circuits.disconnecting import plan_disconnects
from schedules.circuits.feeds import find_circuits
from schedules.circuits.installation import Installation
from schedules.circuits.limited_wiring import limited_cables
from schedules.circuits.switched_loads import switched_loads, switched_motors
from schedules.connections.graph import connect
from schedules.connections.options import conflicts, select
from schedules.exhaust.operation import lead_exhaust
from schedules.framing.bored_holes import bored_holes
from schedules.framing.framing_plan import plan_framing
from schedules.gas.gas_supply import bring_gas
from schedules.make_up.house_air import let_air_in
from schedules.mounting.hanging import hang_hood
from schedules.network.netlist import make_netlist
from schedules.network.switching import Network
from schedules.raceways.openings import find_entries
from schedules.raceways.raceway_plan import plan_raceways
from schedules.site.ends import Surroundings
from schedules.site.hood_place import hung_hood
from schedules.site.reach import cable_length
from schedules.site.room import Room
from schedules.site.wall_devices import wall_devices

if TYPE_CHECKING:
    from schedules.boxes.box_plan import BoxPlan
    from schedules.boxes.coils import Coil
    from schedules.circuits.circuit_plan import CircuitPlan
    from schedules.circuits.demand import Demand
    from schedules.circuits.disconnecting import Disconnect
    from schedules.circuits.feeds import CircuitNeed
    from schedules.circuits.limited_wiring import LimitedCable
    from schedules.circuits.switched_loads import SwitchedLoad, SwitchedMotor
    from schedules.connections.graph import Connections
    from schedules.connections.options import Conflict, Selection
    from schedules.exhaust.operation import Exhaust
    from schedules.framing.bored_holes import BoredHole
    from schedules.framing.framing_plan import FramingPlan
    from schedules.gas.gas_supply import GasSupply
    from schedules.job.records import Job
    from schedules.make_up.house_air import HouseAir
    from schedules.mounting.hanging import Hanging
    from schedules.raceways.openings import Entry
    from schedules.raceways.raceway_plan import RacewayPlan
    from schedules.sheet.sheet import Sheet
    from schedules.site.hood_place import HungHood
    from schedules.site.reach import CableLength
    from schedules.site.wall_devices import WallDevice


@dataclass(frozen=True, slots=True)
class Derived:
    """One job's installation: what was bought, how it is joined, how long, through what, from which circuits."""

    sheet: Sheet
    job: Job
    conflicts: tuple[Conflict, ...]
    selection: Selection
    connections: Connections
    room: Room | None
    hung: HungHood | None
    devices: tuple[WallDevice, ...]
    lengths: tuple[CableLength, ...]
    coils: tuple[Coil, ...]
    raceways: tuple[RacewayPlan, ...]
    entries: tuple[Entry, ...]
    circuits: tuple[CircuitNeed, ...]
    branches: tuple[CircuitPlan, ...]
    disconnects: tuple[Disconnect, ...]
    kitchen: Demand | None
    switched: tuple[SwitchedLoad, ...]
    motors: tuple[SwitchedMotor, ...]
    limited: tuple[LimitedCable, ...]
    boxes: tuple[BoxPlan, ...]
    framing: tuple[FramingPlan, ...]
    holes: tuple[BoredHole, ...]
    hanging: Hanging | None
    exhaust: Exhaust | None
    house_air: HouseAir | None
    gas_supply: GasSupply | None
    network: Network = field(compare=False, repr=False)


def derive(sheet: Sheet, job: Job) -> Derived:
    """Compute a job's installation: a pure function of sheet, job and the published tables."""
    choices = frozenset(job.choices)
    selection = as_installed(select(sheet, choices), job)
    downstream = {item.circuit: item.downstream_of for item in job.circuit if item.downstream_of is not None}
    connections = connect(selection, downstream)
    room, hung = Room.of(job), hung_hood(sheet, job)
    devices = () if room is None else wall_devices(job, selection, room)
    around = None if room is None else Surroundings.of(job, room, devices, hung)
    lengths = tuple(cable_length(job, selection, cable, around) for cable in selection.cables)
    raceways = plan_raceways(job, selection)
    network = Network.of(make_netlist(selection, connections, lengths, str(job.job.code)))
    installed = Installation.of(job, selection, connections, lengths)
    circuits = find_circuits(selection, connections, installed.joins)
    switched = switched_loads(circuits, connections, installed.joins)
    branches = plan_circuits(installed, selection, circuits, network.all_closed.shares)
    exhaust = lead_exhaust(selection, job)
    by_others = frozenset(item.tag for item in selection.enclosures if item.kind == "by-others")
    return Derived(
        sheet=sheet,
        job=job,
        conflicts=conflicts(sheet, choices),
        selection=selection,
        connections=connections,
        room=room,
        hung=hung,
        devices=devices,
        lengths=lengths,
        coils=coil_excess(job, selection, room, lengths),
        raceways=raceways,
        entries=find_entries(job, selection),
        circuits=circuits,
        branches=branches,
        disconnects=plan_disconnects(job, selection, connections, branches),
        kitchen=kitchen_demand(circuits, connections, installed.edition),
        switched=switched,
        motors=switched_motors(switched, connections, by_others, installed.edition),
        limited=limited_cables(installed, switched, sheet),
        boxes=plan_boxes(job, selection, connections),
        framing=plan_framing(job, selection, raceways),
        holes=bored_holes(job, selection, room, lengths, raceways),
        hanging=hang_hood(sheet, job, room),
        exhaust=exhaust,
        house_air=let_air_in(selection, job, exhaust),
        gas_supply=bring_gas(selection, job),
        network=network,
    )
