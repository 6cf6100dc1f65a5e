"""All schedules by name, in the order in which they are shown."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from schedules.rows.as_built import as_built
from schedules.rows.before_cover import before_cover
from schedules.rows.boxes import boxes
from schedules.rows.cables import cables
from schedules.rows.circuits import circuits
from schedules.rows.directory import directory
from schedules.rows.faults import faults
from schedules.rows.framing import framing
from schedules.rows.gas import gas
from schedules.rows.interlocks import causes, interlocks
from schedules.rows.labels import labels
from schedules.rows.mounting import blocks, bracket, mounting
from schedules.rows.openings import openings, raceways
from schedules.rows.owner import owner
from schedules.rows.readings import readings
from schedules.rows.takeoff import cuts, takeoff
from schedules.rows.terminations import conductors, empty_terminals, spares, terminations
from schedules.rows.ventilation import air, duct
from schedules.rows.work import options, receiving, work

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from schedules.plan import Plan
    from schedules.rows.schedule import Schedule

SCHEDULES: Mapping[str, Callable[[Plan], Schedule[Any]]] = {
    "terminations": terminations,
    "conductors": conductors,
    "spares": spares,
    "empty": empty_terminals,
    "cables": cables,
    "circuits": circuits,
    "raceways": raceways,
    "openings": openings,
    "boxes": boxes,
    "framing": framing,
    "takeoff": takeoff,
    "cuts": cuts,
    "interlocks": interlocks,
    "causes": causes,
    "readings": readings,
    "faults": faults,
    "mounting": mounting,
    "bracket": bracket,
    "blocks": blocks,
    "duct": duct,
    "air": air,
    "gas": gas,
    "receiving": receiving,
    "work": work,
    "work-options": options,
    "before-cover": before_cover,
    "directory": directory,
    "labels": labels,
    "owner": owner,
    "as-built": as_built,
}
