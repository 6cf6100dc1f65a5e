"""What the rules on circuits look things up in: the job's cables, conductors, lengths and the graph they make."""

from __future__ import annotations

from dataclasses import dataclass
from types import MappingProxyType
from typing import TYPE_CHECKING

from schedules.circuits.wire_paths import joins_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.circuits.wire_paths import Joins
    from schedules.connections.graph import Connections
    from schedules.connections.options import Selection
    from schedules.connections.points import Conductor
    from schedules.job.records import Job
    from schedules.sheet.wiring import Cable
    from schedules.site.reach import CableLength
    from schedules.tables.edition import Adopted


@dataclass(frozen=True, slots=True)
class Installation:
    """One job's wiring by tag. conductors: those that each cable lands. joins: where current can pass."""

    job: Job
    edition: Adopted
    connections: Connections
    cables: Mapping[str, Cable]
    conductors: Mapping[str, tuple[Conductor, ...]]
    lengths: Mapping[str, CableLength]
    joins: Joins

    @classmethod
    def of(
        cls, job: Job, selection: Selection, connections: Connections, lengths: tuple[CableLength, ...]
    ) -> Installation:
        """Gather what a selection has."""
        landed: dict[str, tuple[Conductor, ...]] = {}
        for conductor in connections.conductors.values():
            landed[conductor.cable] = (*landed.get(conductor.cable, ()), conductor)
        return cls(
            job=job,
            edition=job.adopted,
            connections=connections,
            cables=MappingProxyType({cable.tag: cable for cable in selection.cables}),
            conductors=MappingProxyType(landed),
            lengths=MappingProxyType({length.cable: length for length in lengths}),
            joins=joins_of(connections),
        )

    def carries(self, conductor: Conductor) -> str:
        """What a conductor carries: `line`, `neutral`, `ground` or `signal`."""
        return self.connections.landings[conductor.a].carries
