"""How much voltage does each circuit lose on its real ways, by both tables of the code side by side?"""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from schedules.circuits.circuit_wires import MATERIAL, conduit_of, stranding_of
from schedules.circuits.feeds import current_of
from schedules.circuits.path_drop import Leg, path_drop_by_impedance, path_drop_by_resistance
from schedules.circuits.voltage_drop import printed_temperature, within_advice
from schedules.sheet.hardware import Coil, Load
from schedules.working import Input, Working

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from schedules.answers import Verdict
    from schedules.circuits.installation import Installation
    from schedules.circuits.voltage_drop import VoltageDrop
    from schedules.circuits.wire_paths import WirePath
    from schedules.connections.graph import Connections
    from schedules.job.records import Job
    from schedules.site.reach import CableLength
    from schedules.tables.edition import Code


@dataclass(frozen=True, slots=True)
class CircuitDrop:
    """The load of one circuit that loses most.

    by_resistance: Table 8, by_impedance: Table 9. solved_percent: from the solved network, everything switched on; None
    where the network doesn't know the load. advice: against the code's advice, with the feeder's drop where the job
    states it.
    """

    load: str
    legs: tuple[Leg, ...]
    by_resistance: VoltageDrop
    by_impedance: VoltageDrop
    solved_percent: float | None
    advice: Verdict
    working: Working

    @property
    def percent(self) -> float:
        """The larger of the two [percent]."""
        return max(self.by_resistance.percent, self.by_impedance.percent)


def circuit_drop(
    installed: Installation, paths: Sequence[WirePath], shares: Mapping[str, float]
) -> CircuitDrop | None:
    """The load that loses most; None where nothing is fed over a cable, or a way isn't measured or printed.

    shares: each load's voltage as a share of its rated one, from the solved network with every contact closed.
    """
    currents = _currents(paths, installed.connections)
    worst: CircuitDrop | None = None
    for path in paths:
        legs = _legs(installed, path, currents)
        if legs is None:
            return None
        if legs:
            try:
                drop = drop_on(installed.job, installed.connections, path.load, legs, shares.get(path.load))
            except LookupError:
                # A size that the tables don't print, thinner or thicker than branch circuits have.
                return None
            worst = drop if worst is None or drop.percent > worst.percent else worst
    return worst


def length_in_circuit(length: CableLength) -> float | None:
    """How much of a cable the current passes [in]: all of a factory cable, coiled or not; else the way itself."""
    return length.supplied_in if length.supplied_in is not None else length.required_in


def _currents(paths: Sequence[WirePath], connections: Connections) -> dict[str, float]:
    """The current in each conductor [A]: of every load whose way passes it."""
    currents: dict[str, float] = {}
    for path in paths:
        spec = connections.inside[path.load].spec
        amperes = current_of(spec) if isinstance(spec, Load | Coil) else 0.0
        for number in path.conductors:
            currents[number] = currents.get(number, 0.0) + amperes
    return currents


def _legs(installed: Installation, path: WirePath, currents: Mapping[str, float]) -> tuple[Leg, ...] | None:
    """The way's conductors, those of one cable, size and current as one leg; None where a length is missing."""
    counts = Counter(
        (conductor.cable, conductor.size, currents[number])
        for number in path.conductors
        for conductor in (installed.connections.conductors[number],)
    )
    legs = []
    for (tag, size, amperes), count in counts.items():
        length = length_in_circuit(installed.lengths[tag])
        if length is None:
            return None
        cable = installed.cables[tag]
        conduit = conduit_of(installed, cable)
        legs.append(Leg(tag, size, stranding_of(cable, size), conduit, count, length, amperes))
    return tuple(legs)


@lru_cache(maxsize=1024)
def _by_tables(
    legs: tuple[Leg, ...], factor: float, supply_v: float, edition: Code
) -> tuple[VoltageDrop, VoltageDrop]:
    """The drop by Table 8 and by Table 9. factor: the load's power factor."""
    table_8 = path_drop_by_resistance(
        legs,
        material=MATERIAL,
        supply_v=supply_v,
        temperature_c=printed_temperature(edition),
        edition=edition,
    )
    table_9 = path_drop_by_impedance(
        legs, material=MATERIAL, power_factor=factor, supply_v=supply_v, edition=edition
    )
    return table_8, table_9


def drop_on(
    job: Job, connections: Connections, load: str, legs: tuple[Leg, ...], share: float | None = None
) -> CircuitDrop:
    """What a load loses on these legs. share: as in `circuit_drop`, None where it isn't solved.

    Raises LookupError for a size that the tables don't print.
    """
    spec = connections.inside[load].spec
    if not isinstance(spec, Load | Coil):
        raise TypeError(f"{load} is neither load nor coil")
    edition = job.adopted
    factor = spec.power_factor if isinstance(spec, Load) else 1.0
    table_8, table_9 = _by_tables(legs, factor, spec.rated, edition)
    solved = None if share is None else 100 * (1 - share)
    feeder = job.site.feeder_drop
    advice = within_advice(
        max(table_8.percent, table_9.percent), feeder_percent=feeder or 0.0, edition=edition
    )
    return CircuitDrop(
        load,
        legs,
        table_8,
        table_9,
        solved,
        advice,
        Working(
            name=f"voltage drop to {load}",
            formula="both tables and the solved network side by side, over every conductor there and back; the larger "
            "of the tables' is held to the advice",
            inputs=(
                Input("by Table 8", table_8.working.result, str(table_8.working.source)),
                Input("by Table 9", table_9.working.result, str(table_9.working.source)),
                Input(
                    "from the solved network, every contact closed",
                    "not solved" if solved is None else f"{solved:.2f} percent",
                    "nodal analysis of the plan's own graph, contacts and breakers included",
                ),
                Input(
                    "lost before the panel",
                    "not stated" if feeder is None else f"{feeder:g} percent",
                    "job",
                ),
            ),
            result=f"{max(table_8.percent, table_9.percent):.2f} percent",
            source=advice.working.source,
            note=advice.working.result,
            steps=(table_8.working, table_9.working, advice.working),
        ),
    )
