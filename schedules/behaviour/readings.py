"""What a meter should read at each commissioning step: which terminals, in which state, within which band."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

from schedules.behaviour.leads import in_reach, pairs
from schedules.behaviour.loops import far_ends
from schedules.behaviour.states import ON_FROM, at_rest, cases_of, cast_of, in_use, solve_cases
from schedules.connections.points import Point
from schedules.network.impedance import TABLE_TEMPERATURE_C, conductor_ohm_per_in
from schedules.network.meter import Meter
from schedules.network.settling import settle
from schedules.network.switching import Change
from schedules.sheet.breakers import MAINS, line_terminals
from schedules.sheet.hardware import POWER_LIMITED, Contact, Load, Resistor
from schedules.tables import load

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping

    from schedules.behaviour.states import SolvedCase
    from schedules.connections.points import Conductor, Inside, Landing
    from schedules.derived import Derived
    from schedules.network.meter import Volts
    from schedules.tables import Row
    from schedules.working import Source

DEAD_TEMPERATURE_C = 20.0
"""Temperature of a conductor that carries nothing, nominal."""

MAINS_BAND = 0.05
"""Share by which a mains voltage may differ: 114 to 126 V of 120 V (commissioning table)."""

LIMITED_BAND = 0.10
"""Share by which a power-limited supply's voltage may differ, nominal."""

CLOSED_BELOW_OHM = 1.0
"""A closed contact, or a sound grounding conductor, measures less (commissioning table)."""

SHORT_BELOW_OHM = 2.0
"""Line to neutral through the loads measures more, or something touches; nominal."""

NEUTRAL_RISE_V = 2.0
"""Neutral to ground under load stays below (commissioning table)."""

NOTHING_V = 0.05
"""Below this a meter on a volt range shows nothing."""

RESISTOR_BAND = 0.05
"""Share by which a resistor may differ, its maker's tolerance, nominal."""


class Function(StrEnum):
    """What the meter is set to."""

    VOLTS_AC = "V ac"
    VOLTS_DC = "V dc"
    OHMS = "ohm"


@dataclass(frozen=True, slots=True)
class Reading:
    """One expected reading.

    id: unique within an installation, the same as long as the terminals are. state: in words. start, end: where the
    leads stand. expected, low, high: in the function's unit [V or ohm]; expected None: over the meter's limit, open.
    live: taken on parts that may be live. element: the wire, contact or resistor that is measured by itself.
    """

    id: str
    step: str
    state: str
    function: Function
    start: Point
    end: Point
    expected: float | None
    low: float | None
    high: float | None
    live: bool
    note: str
    source: Source
    element: str = ""


def expected_readings(derived: Derived) -> tuple[Reading, ...]:
    """Every reading of the steps that a meter serves, in the order of the commissioning table."""
    cases, cast = cases_of(derived), cast_of(derived)
    solved = {item.case.id: item for item in solve_cases(derived, derived.network, cases)}
    off = next(item for item in solved.values() if not _circuits(derived) - item.case.circuits_off)
    taking = _Taking(derived, off, solved[at_rest(cases, cast).id], solved[in_use(cases, cast).id])
    return tuple(taking.every())


def _circuits(derived: Derived) -> frozenset[str]:
    return frozenset(circuit.tag for circuit in derived.selection.circuits)


@dataclass(frozen=True, slots=True)
class _Taking:
    derived: Derived
    off: SolvedCase
    idle: SolvedCase
    use: SolvedCase

    def every(self) -> Iterator[Reading]:
        yield from self._prove_dead()
        yield from self._continuity()
        yield from self._contacts()
        yield from self._loops()
        yield from self._polarity()
        yield from self._loaded()

    @property
    def _landings(self) -> Mapping[Point, Landing]:
        return self.derived.connections.landings

    def _prove_dead(self) -> Iterator[Reading]:
        """Every landed terminal against its reference; what has a supply of its own is live all the same.

        Dead is 0 V as the meter shows it: NFPA 70E 120.6 (120.5 before 2024) and 29 CFR 1910.333(b)(2)(iv)(B) ask for
        the absence of voltage and name no number below which a reading may pass; 50 V is where shock protection
        begins, not where a conductor is dead. A meter on low impedance shows nothing of what wires beside it induce
        (common practice); what it still shows is found out, or accepted in the record with a reason.
        """
        row, meter = load("commissioning_tests").row("prove-dead"), Meter(self.off.situation)
        for point, reference in pairs(self.derived):
            function, shown = _shown(meter.volts(point, reference))
            band, note = (0.0, 0.0), ""
            if shown >= NOTHING_V:
                band = _spread(shown, LIMITED_BAND)
                note = f"stays live with every breaker off: {', '.join(self._feeding(point))}"
            yield _reading(
                row,
                self.off.case.name,
                (point, reference),
                function=function,
                expected=shown,
                band=band,
                live=True,
                note=note,
            )

    def _feeding(self, point: Point) -> list[str]:
        """The devices whose supplies stand in the part of the network that this point belongs to."""
        network = self.derived.network
        place = network.block_of_net.get(network.netlist.nets[point])
        sources = () if place is None else network.blocks[place].sources
        inside = self.derived.connections.inside
        return [self._landings[inside[source.key].a].device_name for source in sources]

    def _continuity(self) -> Iterator[Reading]:
        row = load("commissioning_tests").row("continuity")
        for conductor in self.derived.connections.conductors.values():
            ohms = self._conductor_ohm(conductor)
            ground = self._landings[conductor.a].carries == "ground"
            high = CLOSED_BELOW_OHM if ground else max(2 * ohms, CLOSED_BELOW_OHM)
            yield _reading(
                row,
                row.text("state"),
                (conductor.a, conductor.b),
                function=Function.OHMS,
                expected=ohms,
                band=(0.0, high),
                note=f"wire {conductor.number}",
                element=conductor.number,
            )
        yield from self._through_loads(row)
        meter = Meter(self.off.situation)
        for point in self.derived.connections.bonds:
            if self._landings[point].enclosure == self._panel:
                continue
            path = meter.ohms(point, Point(MAINS, "PE"))
            note = f"metal of {self._landings[point].enclosure} to the panel's grounding bar"
            yield _reading(
                row,
                self.off.case.name,
                (point, Point(MAINS, "PE")),
                function=Function.OHMS,
                expected=path,
                band=(0.0, CLOSED_BELOW_OHM),
                note=note,
            )

    def _through_loads(self, row: Row) -> Iterator[Reading]:
        """Each circuit at its breaker: what it feeds has a resistance of its own, which is neither a short nor open."""
        meter = Meter(self.off.situation)
        for circuit in self.derived.selection.circuits:
            points = [Point(circuit.tag, name) for name in line_terminals(circuit)]
            points += [Point(circuit.tag, "N")] if circuit.neutral and circuit.poles == 1 else []
            if len(points) < 2:
                continue
            ohms = meter.ohms(points[0], points[1])
            band: tuple[float | None, float | None] = (None, None)
            note = "contacts at rest: nothing is fed"
            if ohms is not None:
                band = (SHORT_BELOW_OHM, max(1.2 * ohms, 2 * SHORT_BELOW_OHM))
                note = "the loads' own resistance; a motor's or transformer's is less"
            yield _reading(
                row,
                self.off.case.name,
                (points[0], points[1]),
                function=Function.OHMS,
                expected=ohms,
                band=band,
                note=note,
            )

    def _conductor_ohm(self, conductor: Conductor) -> float:
        """Resistance of a conductor that has been dead for a while [ohm]: the network's, moved to its temperature."""
        branch = self.derived.network.netlist.branches.get(conductor.number)
        if branch is None:
            return 0.0
        edition = str(self.derived.job.job.code)
        cold, warm = (
            conductor_ohm_per_in(
                conductor.size, factory=conductor.factory, temperature_c=temperature, edition=edition
            )
            for temperature in (DEAD_TEMPERATURE_C, TABLE_TEMPERATURE_C)
        )
        return float((1 / branch.ac).real * cold / warm)

    def _polarity(self) -> Iterator[Reading]:
        row, meter = load("commissioning_tests").row("polarity"), Meter(self.idle.situation)
        for point, reference in pairs(self.derived):
            function, shown = _shown(meter.volts(point, reference))
            limited = self._landings[point].circuit_class in POWER_LIMITED
            band = _spread(shown, LIMITED_BAND if limited else MAINS_BAND)
            if self._landings[point].carries == "neutral" or shown < NEUTRAL_RISE_V:
                band = (0.0, NEUTRAL_RISE_V)
            yield _reading(
                row,
                self.idle.case.name,
                (point, reference),
                function=function,
                expected=shown,
                band=band,
                live=True,
            )

    def _contacts(self) -> Iterator[Reading]:
        """Contacts between two terminals on which field wires land, with those wires lifted."""
        row = load("commissioning_tests").row("contacts")
        for inside in self.derived.connections.inside.values():
            spec = inside.spec
            if not isinstance(spec, Contact) or inside.a.device == MAINS or not self._is_field(inside):
                continue
            for words, shut in (
                ("at rest, no power", spec.form == "NC"),
                (f"operated: {spec.operates.in_words()}", spec.form == "NO"),
            ):
                ohms = self._contact_ohm(inside, shut=shut)
                band: tuple[float | None, float | None] = (None, None)
                if ohms is not None:
                    band = (0.0, CLOSED_BELOW_OHM) if shut else _spread(ohms, RESISTOR_BAND)
                yield _reading(
                    row,
                    words,
                    (inside.a, inside.b),
                    function=Function.OHMS,
                    expected=ohms,
                    band=band,
                    note=f"{spec.form} contact {inside.key}",
                    element=inside.key,
                    suffix="operated" if words.startswith("operated") else "at rest",
                )

    def _contact_ohm(self, inside: Inside, *, shut: bool) -> float | None:
        """Over one contact with its field wires lifted: what else the maker put across it is measured with it."""
        lifted = (*self.derived.connections.landed(inside.a), *self.derived.connections.landed(inside.b))
        network = self.derived.network.changed(
            Change(
                opened=tuple(conductor.number for conductor in lifted),
                stuck_shut=(inside.key,) if shut else (),
                stuck_open=() if shut else (inside.key,),
            )
        )
        return Meter(settle(network, self.off.case.outside)).ohms(inside.a, inside.b)

    def _is_field(self, inside: Inside) -> bool:
        landed = self.derived.connections.landed
        return bool(landed(inside.a)) and bool(landed(inside.b))

    def _loops(self) -> Iterator[Reading]:
        """From the far end of the wires that lead to an end-of-line resistor, with the equipment there lifted."""
        row = load("commissioning_tests").row("loop")
        for inside in self.derived.connections.inside.values():
            if isinstance(inside.spec, Resistor):
                for a, b in far_ends(self.derived, inside):
                    yield from self._loop(row, inside, a, b)

    def _loop(self, row: Row, inside: Inside, a: Point, b: Point) -> Iterator[Reading]:
        lifted = tuple(
            key
            for key, item in self.derived.connections.inside.items()
            if item.a.device in (a.device, b.device) and not item.conducts
        )
        bare = self.derived.network.changed(Change(opened=lifted))
        ohms = Meter(settle(bare, self.off.case.outside)).ohms(a, b)
        if ohms is None:
            return
        note = f"{inside.key} at the far end; over limit: an open wire; near 0: alarm or a short"
        band = _spread(ohms, RESISTOR_BAND)
        yield _reading(
            row,
            row.text("state"),
            (a, b),
            function=Function.OHMS,
            expected=ohms,
            band=band,
            note=note,
            element=inside.key,
        )

    def _loaded(self) -> Iterator[Reading]:
        row, meter = load("commissioning_tests").row("loaded"), Meter(self.use.situation)
        for inside in self.derived.connections.inside.values():
            spec = inside.spec
            if not isinstance(spec, Load):
                continue
            function, shown = _shown(meter.volts(inside.a, inside.b))
            if shown < ON_FROM * spec.rated or not in_reach(self.derived.connections.landings[inside.a]):
                continue
            limited = self._landings[inside.a].circuit_class in POWER_LIMITED
            lost = spec.rated - shown
            yield _reading(
                row,
                self.use.case.name,
                (inside.a, inside.b),
                function=function,
                expected=shown,
                band=_spread(spec.rated, LIMITED_BAND if limited else MAINS_BAND),
                live=True,
                note=f"{lost:.1f} V, {100 * lost / spec.rated:.1f} % lost on the way",
            )

    @property
    def _panel(self) -> str:
        return self._landings[Point(MAINS, "PE")].enclosure


def _shown(volts: Volts) -> tuple[Function, float]:
    """What the meter is set to, and what it then shows."""
    if abs(volts.dc) > volts.ac:
        return Function.VOLTS_DC, abs(volts.dc)
    return Function.VOLTS_AC, volts.ac


def _spread(value: float, share: float) -> tuple[float, float]:
    return value * (1 - share), value * (1 + share)


def _reading(
    row: Row,
    state: str,
    leads: tuple[Point, Point],
    *,
    function: Function,
    expected: float | None,
    band: tuple[float | None, float | None],
    live: bool = False,
    note: str = "",
    element: str = "",
    suffix: str = "",
) -> Reading:
    source = load("commissioning_tests").source(row)
    step = row.text("step")
    name = " ".join(filter(None, (step, *map(str, leads), element, suffix)))
    return Reading(name, step, state, function, *leads, expected, *band, live, note, source, element)
