"""Everything computed from one job, before it is judged."""

from __future__ import annotations

from dataclasses import dataclass, field
from functools import lru_cache
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
from schedules.exhaust.operation import exhaust_with, fan_of
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
    from collections.abc import Callable

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
    from schedules.sheet.hardware import Enclosure
    from schedules.sheet.hood import Fan
    from schedules.sheet.sheet import Sheet
    from schedules.sheet.wiring import Cable
    from schedules.site.hood_place import HungHood
    from schedules.site.reach import CableLength
    from schedules.site.wall_devices import WallDevice

_ROOMS_KEPT = 64
"""Sets of devices in a room, for each of which the cables' ways are kept."""

_WAYS_KEPT = 256
"""Cables of one room; a sheet numbers 99."""

_FANS_KEPT = 16


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


class Premises:
    """A kitchen that several sets of choices are planned in: what none of them changes is computed once for all.

    A cable's way depends on the devices that stand in the room with these choices; an exhaust on the fan. As many of
    them are kept as are met again soon, so that many plans take no more memory than some.
    """

    def __init__(self, sheet: Sheet, job: Job) -> None:
        self._sheet, self._job = sheet, job
        self.room = Room.of(job)
        self.hung = hung_hood(sheet, job)
        self.hanging = hang_hood(sheet, job, self.room)
        self._ways_among = lru_cache(_ROOMS_KEPT)(self._ways)
        self._exhaust_with = lru_cache(_FANS_KEPT)(self._exhaust)

    def devices(self, selection: Selection) -> tuple[WallDevice, ...]:
        """What stands on a wall with these choices."""
        return () if self.room is None else wall_devices(self._job, selection, self.room)

    def lengths(self, selection: Selection, devices: tuple[WallDevice, ...]) -> tuple[CableLength, ...]:
        """Each cable's way and length among these devices."""
        length = self._ways_among(devices)
        enclosures = {item.tag: item for item in selection.enclosures}
        return tuple(
            length(cable, enclosures.get(cable.origin.enclosure), enclosures.get(cable.target.enclosure))
            for cable in selection.cables
        )

    def exhaust(self, selection: Selection) -> Exhaust | None:
        """The exhaust with the fan chosen."""
        return self._exhaust_with(fan_of(selection))

    def _ways(
        self, devices: tuple[WallDevice, ...]
    ) -> Callable[[Cable, Enclosure | None, Enclosure | None], CableLength]:
        """What finds a cable's way among these devices, and keeps what it found."""
        around = None if self.room is None else Surroundings.of(self._job, self.room, devices, self.hung)
        return lru_cache(_WAYS_KEPT)(lambda cable, a, b: cable_length(self._job, cable, (a, b), around))

    def _exhaust(self, fan: Fan | None) -> Exhaust | None:
        hood = self._sheet.hood
        return None if hood is None else exhaust_with(fan, hood, self._job)


def derive(sheet: Sheet, job: Job, premises: Premises | None = None) -> Derived:
    """Compute a job's installation: a pure function of sheet, job and the published tables.

    premises: of this sheet and of a job that differs from this one in its choices alone; else they are made anew.
    """
    choices = frozenset(job.choices)
    here = premises or Premises(sheet, job)
    selection = as_installed(select(sheet, choices), job)
    downstream = {item.circuit: item.downstream_of for item in job.circuit if item.downstream_of is not None}
    connections = connect(selection, downstream)
    room, devices = here.room, here.devices(selection)
    lengths = here.lengths(selection, devices)
    raceways = plan_raceways(job, selection)
    network = Network.of(make_netlist(selection, connections, lengths, str(job.job.code)))
    installed = Installation.of(job, selection, connections, lengths)
    circuits = find_circuits(selection, connections, installed.joins)
    switched = switched_loads(circuits, connections, installed.joins)
    branches = plan_circuits(installed, selection, circuits, network.all_closed.shares)
    exhaust = here.exhaust(selection)
    by_others = frozenset(item.tag for item in selection.enclosures if item.kind == "by-others")
    return Derived(
        sheet=sheet,
        job=job,
        conflicts=conflicts(sheet, choices),
        selection=selection,
        connections=connections,
        room=room,
        hung=here.hung,
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
        hanging=here.hanging,
        exhaust=exhaust,
        house_air=let_air_in(selection, job, exhaust),
        gas_supply=bring_gas(selection, job),
        network=network,
    )
