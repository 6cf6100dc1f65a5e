"""Where every conductor lands, by enclosure and by conductor; spares and empty terminals."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.behaviour.end_readings import end_readings
from schedules.quantities.lengths import format_length
from schedules.quantities.units import Dimension, format_quantity
from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.behaviour.end_readings import EndReading
    from schedules.connections.points import Conductor, Landing, Point, Spare
    from schedules.plan import Plan

PER_MAKER = "see label"
"""Stands where somebody else's equipment (the panel's breaker) states the value on its own label."""


@dataclass(frozen=True, slots=True)
class Termination:
    """One conductor end. Each row stands alone: where, what, how, and where the other end is.

    strip_in: length to bare [in]. torque_lbf_in: torque [lbf·in]. stated_on_label: strip length and torque stand on
    the label of somebody else's equipment. holds, present: conductors that the terminal takes and has. reading: what
    the meter shows here once all is landed: how much, to what, in which state; no_reading: why it says nothing.
    """

    enclosure: str
    enclosure_name: str
    terminal: str
    function: str
    number: str
    cable: str
    core: str
    size: str
    colour: str
    mark: str
    other_enclosure: str
    other_terminal: str
    strip_in: float | None
    prepare: str
    torque_lbf_in: float | None
    stated_on_label: bool
    holds: int
    present: int
    reading: str
    no_reading: str
    label: str

    @property
    def sort_key(self) -> tuple[str, str, str]:
        """Order within a plan: enclosure, terminal, number."""
        return self.enclosure, self.terminal, self.number


@dataclass(frozen=True, slots=True)
class ConductorRow:
    """One conductor with both its ends and the label text for each."""

    number: str
    cable: str
    core: str
    size: str
    colour: str
    mark: str
    circuit_class: str
    from_enclosure: str
    from_terminal: str
    to_enclosure: str
    to_terminal: str
    from_label: str
    to_label: str


@dataclass(frozen=True, slots=True)
class EmptyTerminal:
    """A field terminal on which nothing lands with these choices."""

    enclosure: str
    terminal: str
    function: str
    why: str


@dataclass(frozen=True, slots=True)
class SpareRow:
    """A core that lands nowhere: capped at both ends."""

    number: str
    cable: str
    core: str
    size: str
    colour: str
    from_enclosure: str
    to_enclosure: str
    do: str


def terminations(plan: Plan) -> Schedule[Termination]:
    """One row per conductor end, grouped by enclosure."""
    rows = tuple(_ends(plan))
    return Schedule(
        id="terminations",
        title="Terminations by enclosure",
        columns=(
            Column("terminal", "Terminal", lambda row: row.terminal),
            Column("number", "Wire", lambda row: row.number),
            Column("colour", "Colour", lambda row: re_marked(row.colour, row.mark)),
            Column("size", "Size", lambda row: row.size),
            Column("other", "Other end", lambda row: f"{row.other_enclosure} {row.other_terminal}"),
            Column("strip", "Strip", _strip),
            Column("torque", "Torque", _torque),
            Column("cable", "Cable", lambda row: f"{row.cable} {row.core}", rank=2),
            Column("prepare", "End", lambda row: row.prepare, rank=2),
            Column("reading", "Meter reads", lambda row: row.reading or f"({row.no_reading})", rank=2),
            Column("function", "Function", lambda row: row.function, rank=3),
            Column("holds", "Holds", lambda row: f"{row.present} of {row.holds}", rank=4),
            Column("label", "Label text", lambda row: row.label, rank=5),
        ),
        rows=rows,
        group=lambda row: f"{row.enclosure}  {row.enclosure_name}",
        enclosures=lambda row: (row.enclosure,),
        note=(
            "Torque with a calibrated tool. 'see label': the panel's or the equipment's own label states the value. "
            "Meter reads: with all landed; dead: every breaker off and locked; idle: armed, nothing in use. Live "
            "readings are an electrician's."
        ),
    )


def conductors(plan: Plan) -> Schedule[ConductorRow]:
    """One row per conductor, both ends in it, grouped by cable."""
    names = {cable.tag: cable.name for cable in plan.derived.selection.cables}
    return Schedule(
        id="conductors",
        title="Conductors, both ends",
        columns=(
            Column("number", "Wire", lambda row: row.number),
            Column("from", "From", lambda row: f"{row.from_enclosure} {row.from_terminal}"),
            Column("to", "To", lambda row: f"{row.to_enclosure} {row.to_terminal}"),
            Column("colour", "Colour", lambda row: re_marked(row.colour, row.mark)),
            Column("size", "Size", lambda row: row.size),
            Column("class", "Class", lambda row: row.circuit_class),
            Column("core", "Core", lambda row: row.core, rank=2),
            Column("from_label", "Label at from", lambda row: row.from_label, rank=3),
            Column("to_label", "Label at to", lambda row: row.to_label, rank=3),
        ),
        rows=tuple(_conductor_row(plan, conductor) for conductor in in_number_order(plan)),
        group=lambda row: f"{row.cable}  {names[row.cable]}",
        enclosures=lambda row: (row.from_enclosure, row.to_enclosure),
    )


def spares(plan: Plan) -> Schedule[SpareRow]:
    """Cores that land nowhere with these choices."""
    return Schedule(
        id="spares",
        title="Spare conductors",
        columns=(
            Column("number", "Wire", lambda row: row.number),
            Column("cable", "Cable", lambda row: f"{row.cable} {row.core}"),
            Column("colour", "Colour", lambda row: row.colour),
            Column("size", "Size", lambda row: row.size),
            Column("enclosures", "Between", lambda row: f"{row.from_enclosure} and {row.to_enclosure}"),
            Column("do", "Do", lambda row: row.do),
        ),
        rows=tuple(_spare_row(spare) for spare in plan.derived.connections.spares),
        enclosures=lambda row: (row.from_enclosure, row.to_enclosure),
    )


def empty_terminals(plan: Plan) -> Schedule[EmptyTerminal]:
    """Field terminals on which nothing lands, and why."""
    return Schedule(
        id="empty",
        title="Terminals left empty",
        columns=(
            Column("terminal", "Terminal", lambda row: row.terminal),
            Column("function", "Function", lambda row: row.function),
            Column("why", "Why", lambda row: row.why),
        ),
        rows=tuple(_empty(plan)),
        group=lambda row: row.enclosure,
        enclosures=lambda row: (row.enclosure,),
    )


def in_number_order(plan: Plan) -> list[Conductor]:
    """All conductors, by number."""
    return sorted(plan.derived.connections.conductors.values(), key=lambda item: int(item.number))


def re_marked(colour: str, mark: str) -> str:
    """Show a colour as bought and, where it is re-identified, as marked: `WH → BK`."""
    return f"{colour} → {mark}" if mark else colour


def label_text(plan: Plan, conductor: Conductor, here: Point, there: Point) -> str:
    """What is printed on the label at one end: number, this terminal, the other one with its enclosure."""
    far = plan.derived.connections.landings[there].enclosure
    return f"{conductor.number} {here} to {far} {there}"


def _ends(plan: Plan) -> Iterator[Termination]:
    connections = plan.derived.connections
    names = {item.tag: item.name for item in plan.derived.selection.enclosures}
    order = {item.tag: place for place, item in enumerate(plan.derived.selection.enclosures)}
    readings = end_readings(plan.derived)
    place = {point: rank for rank, point in enumerate(connections.landings)}
    ends = [
        (order.get(connections.landings[here].enclosure, len(order)), place[here], conductor, here, there)
        for conductor in in_number_order(plan)
        for here, there in ((conductor.a, conductor.b), (conductor.b, conductor.a))
    ]
    for _, _, conductor, here, there in sorted(ends, key=lambda end: (end[0], end[1], int(end[2].number))):
        landing = connections.landings[here]
        clamp = landing.clamp
        yield Termination(
            enclosure=landing.enclosure,
            enclosure_name=names.get(landing.enclosure, ""),
            terminal=str(here),
            function=landing.function or landing.potential,
            number=conductor.number,
            cable=conductor.cable,
            core=conductor.core,
            size=str(conductor.size),
            colour=conductor.colour,
            mark=conductor.mark or "",
            other_enclosure=connections.landings[there].enclosure,
            other_terminal=str(there),
            strip_in=clamp.strip if clamp is not None else None,
            prepare=_prepare(landing),
            torque_lbf_in=clamp.torque if clamp is not None else None,
            stated_on_label=clamp is None,
            holds=clamp.holds if clamp is not None else 1,
            present=len(connections.landed(here)),
            reading="" if isinstance(read := readings[here], str) else _reading(read),
            no_reading=read if isinstance(read, str) else "",
            label=label_text(plan, conductor, here, there),
        )


def _reading(reading: EndReading) -> str:
    """How much, to what, in which state: `120 V to J:N, in use`."""
    if reading.below_ohm is not None:
        amount = f"under {reading.below_ohm:g} ohm"
    elif reading.below_v is not None:
        amount = f"under {reading.below_v:g} V"
    elif reading.volts is not None and abs(reading.volts.dc) > reading.volts.ac:
        amount = f"{abs(reading.volts.dc):.0f} V dc"
    else:
        amount = f"{reading.volts.ac if reading.volts is not None else 0.0:.0f} V"
    return f"{amount} to {reading.reference}, {reading.when}"


def _strip(row: Termination) -> str:
    if row.strip_in is None:
        return PER_MAKER if row.stated_on_label else DASH
    return format_length(row.strip_in)


def _prepare(landing: Landing) -> str:
    if landing.connector is not None:
        return "plug in"
    return landing.clamp.prepare if landing.clamp is not None else "bare"


def _torque(row: Termination) -> str:
    if row.torque_lbf_in is None:
        return PER_MAKER if row.stated_on_label else DASH
    return format_quantity(row.torque_lbf_in, Dimension.TORQUE)


def _conductor_row(plan: Plan, conductor: Conductor) -> ConductorRow:
    landings = plan.derived.connections.landings
    return ConductorRow(
        number=conductor.number,
        cable=conductor.cable,
        core=conductor.core,
        size=str(conductor.size),
        colour=conductor.colour,
        mark=conductor.mark or "",
        circuit_class=conductor.circuit_class,
        from_enclosure=landings[conductor.a].enclosure,
        from_terminal=str(conductor.a),
        to_enclosure=landings[conductor.b].enclosure,
        to_terminal=str(conductor.b),
        from_label=label_text(plan, conductor, conductor.a, conductor.b),
        to_label=label_text(plan, conductor, conductor.b, conductor.a),
    )


def _spare_row(spare: Spare) -> SpareRow:
    return SpareRow(
        number=spare.number,
        cable=spare.cable,
        core=spare.core,
        size=str(spare.size),
        colour=spare.colour,
        from_enclosure=spare.enclosures[0],
        to_enclosure=spare.enclosures[1],
        do="cap at both ends, label",
    )


def _empty(plan: Plan) -> Iterator[EmptyTerminal]:
    connections = plan.derived.connections
    for point, landing in connections.landings.items():
        if connections.landed(point) or landing.wired_by_maker:
            continue
        if landing.needed:
            why = "a conductor is missing: see findings"
        elif landing.empty_on_purpose:
            why = "left empty on purpose"
        else:
            why = "not used with these options"
        yield EmptyTerminal(landing.enclosure, str(point), landing.function or landing.potential, why)
