"""Which conductors does each power cable of a circuit need, where it runs, and does it have them?"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING

from schedules.circuits.ampacity import CORRECTION, current_carrying_conductors, termination_column
from schedules.circuits.conductor_sizing import ConductorChoice, Surroundings, circuit_conductor
from schedules.circuits.grounding import GroundingConductor, grounding_conductor
from schedules.tables import load, rule
from schedules.tables.conductors import as_wire_size
from schedules.working import Input, Working

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.answers import Judgement
    from schedules.circuits.ampacity import TerminationColumn
    from schedules.circuits.installation import Installation
    from schedules.connections.points import Conductor
    from schedules.quantities.sizes import WireSize
    from schedules.sheet.wiring import Cable, Circuit
    from schedules.tables.edition import Code
    from schedules.tables.table import Row

MATERIAL = "copper"
"""Branch circuits of this kind are wired in copper: a sheet's cores carry no other metal."""

UNKNOWN = "unknown"
_KINDS = "wiring_kinds"
LIMITS = "nec_circuit_limits"


@dataclass(frozen=True, slots=True)
class Together:
    """What a cable lies together with: cables, current-carrying conductors, over which length [in], where."""

    cables: tuple[str, ...]
    current_carrying: int
    length_in: float
    where: str


@dataclass(frozen=True, slots=True)
class CableWires:
    """One power cable of a circuit.

    type, kind: as the sheet and the table of wiring methods name it, `unknown` where that doesn't. column_c: what its
    terminations allow [C]; column: how that came about. ambient_c: its surroundings [C]; stated: the job says so.
    hottest_c: surroundings up to which its conductors do [C], None where they don't even here. live: its thinnest
    ungrounded conductor, neutral: its thinnest neutral, ground: its thinnest equipment grounding conductor; None where
    it has none. needed: the least that the code allows, None where no size is enough, and then `why_none`.
    needed_ground: the least equipment grounding conductor.
    """

    cable: str
    type: str
    kind: str
    column_c: int
    ambient_c: float
    stated: bool
    hottest_c: float | None
    together: Together
    live: WireSize
    neutral: WireSize | None
    ground: WireSize | None
    needed: ConductorChoice | None
    why_none: str
    needed_ground: GroundingConductor | None
    column: Working
    judgements: tuple[Judgement, ...]

    @property
    def working(self) -> Working:
        """How the least conductors of this cable came about."""
        needed, grounding = self.needed, self.needed_ground
        result = "no size is enough" if needed is None else str(needed.size)
        return Working(
            name=f"conductors of {self.cable}",
            formula="least circuit conductor here, and the equipment grounding conductor that goes with it",
            inputs=(
                Input("wiring method", self.type, "sheet"),
                Input(
                    "surroundings",
                    f"{self.ambient_c:g} C",
                    "job" if self.stated else "none stated: as the table is printed",
                ),
                Input("lies with", ", ".join(self.together.cables), self.together.where),
                Input("installed", str(self.live), "sheet or job"),
                Input(
                    "these do in surroundings of up to",
                    "not even here" if self.hottest_c is None else f"{self.hottest_c:g} C",
                ),
            ),
            result=f"{result} and {grounding.size} to ground" if grounding is not None else result,
            source=self.column.source if needed is None else needed.working.source,
            steps=(
                self.column,
                *(part.working for part in (needed, grounding) if part is not None),
            ),
        )

    @property
    def thick_enough(self) -> bool:
        """Whether its ungrounded conductors are at least what the code asks for."""
        return self.needed is not None and self.live >= self.needed.size

    @property
    def ground_thick_enough(self) -> bool:
        """Whether its equipment grounding conductor is; one without any is left to the raceway."""
        return self.ground is None or self.needed_ground is None or self.ground >= self.needed_ground.size


@dataclass(frozen=True, slots=True)
class CircuitLoad:
    """What a circuit's conductors carry: continuous load and the rest [A]."""

    continuous_a: float
    other_a: float


def wires_of(installed: Installation, circuit: Circuit, carries: CircuitLoad) -> tuple[CableWires, ...]:
    """Size every power cable of a circuit that lands a conductor which carries current."""
    power = (
        cable
        for tag, cable in installed.cables.items()
        if cable.circuit == circuit.tag and cable.circuit_class == "power" and tag in installed.conductors
    )
    return tuple(
        _wires(installed, circuit, carries, cable, live)
        for cable in power
        if (live := _thinnest(installed, cable.tag, "line") or _thinnest(installed, cable.tag, "neutral"))
    )


def wiring_kind(cable_type: str) -> Row:
    """What is known of a cable by how its type begins; the least favourable of all where nothing is."""
    table = load(_KINDS)
    return next(
        (
            row
            for row in table.rows
            if row.text("what") != "raceway" and cable_type.startswith(row.text("kind"))
        ),
        table.row(UNKNOWN),
    )


def conduit_of(installed: Installation, cable: Cable) -> str:
    """The conduit that a cable counts as for impedance: its raceway's, else that of its own kind."""
    raceway = next((item for item in installed.job.raceway if cable.tag in item.cables), None)
    row = load(_KINDS).row(raceway.kind) if raceway is not None else wiring_kind(cable.type)
    return row.text("conduit")


def stranding_of(cable: Cable, size: WireSize) -> str:
    """Solid up to the size that its kind is made solid in, else stranded. Factory cables are stranded."""
    solid_to = wiring_kind(cable.type).text("solid_to")
    return "solid" if cable.make == "field" and solid_to and size <= as_wire_size(solid_to) else "stranded"


def _wires(
    installed: Installation, circuit: Circuit, carries: CircuitLoad, cable: Cable, live: WireSize
) -> CableWires:
    edition = installed.edition
    row = wiring_kind(cable.type)
    ambient, stated = _ambient(installed, cable)
    together = _together(installed, cable)
    column = _column(circuit.rating, circuit.marked_terminals, row.text("kind"), edition)
    around = Surroundings(
        row.count("insulation_c"), column.column_c, ambient, together.current_carrying, together.length_in
    )
    asked = _Asked.of(circuit, carries)
    least = _choice(asked, around, edition)
    grounding = None
    if least.size is not None:
        grounding = _grounding(circuit.rating, least.size.size, max(live, least.size.size), edition)
    return CableWires(
        cable=cable.tag,
        type=cable.type,
        kind=row.text("kind"),
        column_c=column.column_c,
        ambient_c=ambient,
        stated=stated,
        hottest_c=_hottest(live, asked, around, edition),
        together=together,
        live=live,
        neutral=_thinnest(installed, cable.tag, "neutral"),
        ground=_thinnest(installed, cable.tag, "ground"),
        needed=least.size,
        why_none=least.why_none,
        needed_ground=grounding,
        column=column.working,
        judgements=(*column.judgements, *(grounding.judgements if grounding is not None else ())),
    )


def _thinnest(installed: Installation, cable: str, role: str) -> WireSize | None:
    """The thinnest conductor of one role; `line` takes in every current-carrying one that is no neutral."""
    return min(
        (item.size for item in installed.conductors[cable] if _role(installed, item) == role), default=None
    )


def _role(installed: Installation, conductor: Conductor) -> str:
    carries = installed.carries(conductor)
    return carries if carries in ("neutral", "ground") else "line"


def _ambient(installed: Installation, cable: Cable) -> tuple[float, bool]:
    """The surroundings of a cable [C], and whether the job states them."""
    job = installed.job
    run = next((item for item in job.run if item.cable == cable.tag), None)
    for said in (run.ambient if run is not None else None, job.site.ambient):
        if said is not None:
            return said, True
    return rule("ampacity_ambient", installed.edition, LIMITS).number, False


def _together(installed: Installation, cable: Cable) -> Together:
    """The company, in a raceway or a bundle, that asks for the greatest adjustment; alone where the job has none."""
    job, length = installed.job, installed.lengths[cable.tag].required_in or math.inf
    own = _company(installed, (cable.tag,), length, "alone")
    companies = [
        _company(installed, raceway.cables, raceway.nipple or length, f"in raceway {raceway.tag}")
        for raceway in job.raceway
        if cable.tag in raceway.cables
    ]
    companies += [
        _company(installed, bundle.cables, bundle.length, f"in bundle {bundle.tag}")
        for bundle in job.bundle
        if cable.tag in bundle.cables
    ]
    short = rule("bundling_length", installed.edition).number
    counted = [company for company in companies if company.length_in > short]
    return max((own, *counted), key=lambda company: company.current_carrying)


def _company(installed: Installation, tags: Iterable[str], length_in: float, where: str) -> Together:
    there = tuple(tag for tag in tags if tag in installed.conductors)
    return Together(there, _counted(installed, there), length_in, where)


def _counted(installed: Installation, tags: Iterable[str]) -> int:
    """Current-carrying conductors: of a cable with two lines of opposite legs its neutral only balances them."""
    lines, loaded, balancing = 0, 0, 0
    for tag in tags:
        power = [item for item in installed.conductors[tag] if item.circuit_class == "power"]
        roles = [_role(installed, item) for item in power]
        lines += roles.count("line")
        if _opposite_legs(installed, power):
            balancing += roles.count("neutral")
        else:
            loaded += roles.count("neutral")
    return _current_carrying(lines, loaded, balancing, installed.edition)


@lru_cache(maxsize=1024)
def _current_carrying(lines: int, loaded: int, balancing: int, edition: Code) -> int:
    return current_carrying_conductors(
        ungrounded=lines, loaded_neutrals=loaded, balancing_neutrals=balancing, edition=edition
    ).count


def _opposite_legs(installed: Installation, conductors: Iterable[Conductor]) -> bool:
    landings = installed.connections.landings
    words = {word for item in conductors for word in landings[item.a].potential.split()}
    return {"L1", "L2"} <= words


@lru_cache(maxsize=1024)
def _column(rating_a: float, marked_c: int | None, kind: str, edition: Code) -> TerminationColumn:
    return termination_column(rating_a, marked_c=marked_c, wiring=kind, edition=edition)


@dataclass(frozen=True, slots=True)
class _Asked:
    """What a circuit asks of its conductors: its load, its breaker [A], several receptacles for portable loads."""

    carries: CircuitLoad
    device_a: float
    several: bool

    @classmethod
    def of(cls, circuit: Circuit, carries: CircuitLoad) -> _Asked:
        """Where no load is known, all that the breaker lets through."""
        known = carries.continuous_a + carries.other_a > 0
        return cls(
            carries if known else CircuitLoad(0.0, circuit.rating),
            circuit.rating,
            circuit.serves == "receptacle" and not circuit.individual,
        )


@lru_cache(maxsize=1024)
def _hottest(live: WireSize, asked: _Asked, around: Surroundings, edition: Code) -> float | None:
    """The highest temperature of the correction table at which this conductor still does [C]."""
    bands = [row.number("ambient_max_c") for row in load(CORRECTION).rows]
    hottest = None
    for ambient in (around.ambient_c, *(band for band in bands if band > around.ambient_c)):
        least = _choice(asked, replace(around, ambient_c=ambient), edition)
        if least.size is None or live < least.size.size:
            break
        hottest = ambient
    return hottest


@dataclass(frozen=True, slots=True)
class _Least:
    """The least conductor, or why no size is enough."""

    size: ConductorChoice | None
    why_none: str = ""


@lru_cache(maxsize=4096)
def _choice(asked: _Asked, around: Surroundings, edition: Code) -> _Least:
    """The least conductor for what is asked."""
    try:
        return _Least(
            circuit_conductor(
                continuous_a=asked.carries.continuous_a,
                other_a=asked.carries.other_a,
                device_a=asked.device_a,
                material=MATERIAL,
                surroundings=around,
                several_receptacles=asked.several,
                edition=edition,
            )
        )
    except LookupError as error:
        return _Least(None, str(error))


@lru_cache(maxsize=1024)
def _grounding(
    device_a: float, least: WireSize, installed: WireSize, edition: Code
) -> GroundingConductor | None:
    """None above the table's end, where the check on standard ratings speaks."""
    try:
        return grounding_conductor(
            device_a,
            material=MATERIAL,
            least_circuit_size=least,
            circuit_size=installed,
            only_for_heat=False,
            edition=edition,
        )
    except LookupError:
        return None
