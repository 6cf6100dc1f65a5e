"""One kitchen's gas: shutoffs, connector, fire valve, and the pressure that is left at the range."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.gas.piping import (
    Drop,
    GasPath,
    connector,
    fire_valve,
    gas_flow,
    gas_path,
    inside_diameter,
    pipe_drop,
    pipe_length,
    shutoff,
    specific_gravity,
    valve_drop,
)
from schedules.mechanical_code import fuel_gas_code
from schedules.practice import practice

if TYPE_CHECKING:
    from schedules.answers import Verdict
    from schedules.connections.options import Selection
    from schedules.job.mechanical import Gas
    from schedules.job.records import Job
    from schedules.sheet.hood import GasValve
    from schedules.site.routes import Answer
    from schedules.tables import Adopted
    from schedules.working import Working


@dataclass(frozen=True, slots=True)
class GasSupply:
    """Everything about the gas; None where an answer is missing. refusal: why the valve passes too little."""

    valve: GasValve | None
    given: bool
    shutoff: Verdict | None
    connector: Verdict | None
    fire_valve: Verdict | None
    path: GasPath | None
    refusal: str
    missing: tuple[Answer, ...]

    @property
    def workings(self) -> tuple[Working, ...]:
        """How its numbers came about."""
        parts = (self.shutoff, self.connector, self.fire_valve, self.path)
        return tuple(part.working for part in parts if part is not None)


def bring_gas(selection: Selection, job: Job) -> GasSupply | None:
    """Work out the gas; None where neither the options nor the job speak of any."""
    valve = next((item for item in selection.sheet.gas_valve if item.when.holds(selection.choices)), None)
    gas = job.gas
    given = gas != type(gas)()
    if valve is None and not given:
        return None
    edition = fuel_gas_code(job)
    path, refusal = gas_way(valve, gas)
    return GasSupply(
        valve=valve,
        given=given,
        shutoff=_shutoff(gas, edition),
        connector=(
            connector(gas.connector, concealed=gas.concealed, edition=edition)
            if edition is not None and gas.connector is not None
            else None
        ),
        fire_valve=(
            fire_valve(
                normally=valve.normally,
                reset=valve.reset,
                downstream_of_manual=gas.valve_after_shutoff,
                edition=edition,
            )
            if edition is not None and valve is not None and gas.valve_after_shutoff is not None
            else None
        ),
        path=path,
        refusal=refusal,
        missing=_missing(job, valve),
    )


def _shutoff(gas: Gas, edition: Adopted | None) -> Verdict | None:
    if edition is None or gas.shutoff is None or gas.same_room is None or gas.upstream is None:
        return None
    return shutoff(gas.shutoff, same_room=gas.same_room, upstream=gas.upstream, edition=edition)


def gas_way(valve: GasValve | None, gas: Gas) -> tuple[GasPath | None, str]:
    """Pipe and fire valve up to the range, None while an answer is missing; and why the valve passes too little."""
    if gas.gas is None or gas.demand is None or gas.pipe is None or gas.pipe_length is None:
        return None, ""
    flow = gas_flow(gas.demand, gas.gas)
    length = pipe_length(
        gas.pipe, gas.pipe_length, elbows=gas.elbows, tees=gas.tees, full_bore_valves=gas.valves
    )
    pipe = pipe_drop(inside_diameter(gas.pipe), length, flow, gas.gas)
    lost: Drop | None = None
    if valve is not None:
        gravity = specific_gravity(gas.gas)
        try:
            lost = valve_drop(valve.cv, flow, inlet_in_wc=inlet_pressure(gas), specific_gravity=gravity)
        except ValueError as error:
            return None, str(error)
    return gas_path(flow, pipe, lost, allowed_in_wc=gas.allowed_drop), ""


def inlet_pressure(gas: Gas) -> float:
    """Pressure at the meter [in wc]: the job's, else the trade's for this gas. Raises LookupError for another gas."""
    return gas.inlet if gas.inlet is not None else practice(f"gas_pressure_{gas.gas}").number


def _missing(job: Job, valve: GasValve | None) -> tuple[Answer, ...]:
    names = ["gas", "demand", "shutoff", "same_room", "upstream", "connector", "pipe", "pipe_length"]
    if valve is not None:
        names.append("valve_after_shutoff")
    missing: list[Answer] = [("gas", None, name) for name in names if getattr(job.gas, name) is None]
    if job.job.residential_code is None:
        missing.append(("job", None, "residential_code"))
    return tuple(missing)
