"""The tables of a job, declared once: what each is about, and what one entry of a repeated one is called."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True)
class JobTable:
    """One table of a job's file.

    name: as the file has it. title, why: what it is about. one: what one entry is called, where there are several.
    letter: begins the tags of entries that a person adds and nothing else names, empty where something else does.
    """

    name: str
    title: str
    why: str
    one: str = ""
    letter: str = ""


_TABLES = (
    JobTable(
        "job", "Equipment and job", "What identifies the job on every page, and whose data it is planned by."
    ),
    JobTable("", "Options bought", "What was bought decides every cable, terminal and circuit."),
    JobTable(
        "amendment",
        "Local amendments",
        "Another number than the code's, as the authority published it.",
        "local amendment",
    ),
    JobTable(
        "site", "The room", "Measure along the wall from its left corner, out from it, up from the floor."
    ),
    JobTable("wall", "Walls", "Cables that turn a corner follow the walls.", "wall", "A"),
    JobTable("cabinet", "Cabinets", "What cables may run through, and what may hide a box.", "cabinet", "C"),
    JobTable(
        "keep_out", "Windows and doors", "Where no cable or box may be.", "part of a wall to keep free", "K"
    ),
    JobTable("cooking_range", "The range", "Where the heat is: nothing of ours may be in it."),
    JobTable(
        "routing", "How cables run", "What a way costs beside its length, when the shortest is looked for."
    ),
    JobTable("place", "Places", "The point at which each enclosure's cables enter.", "place"),
    JobTable("box", "Boxes", "Where a box is set that differs from the equipment sheet's.", "box"),
    JobTable("run", "Routes", "The way of each cable.", "route"),
    JobTable("raceway", "Raceways", "What is pulled through a raceway decides its size.", "raceway", "R"),
    JobTable("stock", "Stock lengths", "What is bought by length, in which lengths.", "stock length", "L"),
    JobTable("bundle", "Cables together", "Without air between them each carries less.", "bundle", "B"),
    JobTable(
        "framing", "Framing", "What passes the wood, and what is left of it.", "member of the framing", "F"
    ),
    JobTable("as_built", "As built", "What was found or done on site.", "record of a cable"),
    JobTable(
        "acknowledged",
        "Acknowledged findings",
        "Who answers for a finding, and why.",
        "acknowledgement",
    ),
    JobTable("tested", "Commissioning", "What each test showed, and who took it.", "commissioning test"),
    JobTable("circuit", "Circuits", "What this panel does differently.", "circuit"),
    JobTable(
        "nameplate",
        "Nameplates",
        "Only where a nameplate says otherwise than the equipment sheet.",
        "nameplate",
    ),
    JobTable("mounting", "Mounting", "Height, fasteners and hands for the hood."),
    JobTable("stud", "Studs", "Where the bracket finds wood.", "stud", "S"),
    JobTable("space", "Spaces", "Room for a thing that has to go into a cupboard or an attic.", "space"),
    JobTable("duct", "Duct", "Friction and losses decide what the fan moves."),
    JobTable("fitting", "Elbows and fittings", "Each turn costs pressure.", "fitting", "D"),
    JobTable("air", "Make-up air", "What is exhausted has to come in again."),
    JobTable("gas", "Gas", "Shutoff, connector and pipe of a gas range."),
    JobTable("work", "Days of the work", "From the first day each trade's turn is reckoned."),
    JobTable("step", "Durations", "Where a step takes longer or shorter than usual.", "duration of a step"),
)

TABLES: Mapping[str, JobTable] = {table.name: table for table in _TABLES}
