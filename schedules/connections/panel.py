"""The panel as the circuits shape it: a breaker's terminals per circuit, bus bars, the service behind them."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.connections.points import Inside, Landing, Point
from schedules.files.condition import Condition
from schedules.sheet.breakers import MAINS, line_terminals, off_signal
from schedules.sheet.hardware import Coil, Contact, Link, Supply

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.connections.options import Selection
    from schedules.sheet.wiring import Circuit

SERVICE = "service"
LEG_VOLTS = 120.0
"""Nominal volts from each leg to neutral of a 120/240 V single-phase dwelling service."""


@dataclass(frozen=True, slots=True)
class Panel:
    """What the circuits put into the panel enclosure."""

    landings: tuple[Landing, ...]
    inside: tuple[Inside, ...]


def build_panel(selection: Selection, downstream: Mapping[str, str]) -> Panel:
    """Build the panel for the selected circuits.

    downstream: circuit -> the circuit from whose load side the job takes it instead of from a breaker of its own.
    """
    enclosure = next((item.tag for item in selection.enclosures if item.kind == "panel"), "")
    landings = [_bar(enclosure, name) for name in ("L1", "L2", "N", "PE")]
    inside = [
        _element(MAINS, _leg("leg-1", ("L1", "N"))),
        _element(MAINS, _leg("leg-2", ("N", "L2"))),
        _element(MAINS, Link(kind="link", id="main-bonding-jumper", between=("N", "PE"))),
    ]
    legs = _legs(selection)
    by_tag = {circuit.tag: circuit for circuit in selection.circuits}
    for circuit in selection.circuits:
        landings.extend(_landings(circuit, enclosure))
        upstream = by_tag.get(downstream.get(circuit.tag, ""))
        inside.extend(_lines(circuit, legs[circuit.tag], upstream))
        inside.extend(_returns(circuit))
    return Panel(tuple(landings), tuple(inside))


def _leg(name: str, between: tuple[str, str]) -> Supply:
    # A record reads text with its unit. What is already in its unit is put into it as it is, here and below.
    return Supply.model_construct(kind="supply", id=name, between=between, volts=LEG_VOLTS, current="ac")


def _legs(selection: Selection) -> dict[str, tuple[str, ...]]:
    """Give single-pole circuits alternate legs in sheet order, so that no choice moves another circuit's leg."""
    legs: dict[str, tuple[str, ...]] = {}
    singles = 0
    for circuit in selection.sheet.circuit:
        if circuit.poles == 2:
            legs[circuit.tag] = ("L1", "L2")
        else:
            legs[circuit.tag] = ("L1",) if singles % 2 == 0 else ("L2",)
            singles += 1
    return legs


def _bar(enclosure: str, name: str) -> Landing:
    carries = {"N": "neutral", "PE": "ground"}.get(name, "line")
    return _landing(Point(MAINS, name), enclosure, SERVICE, f"mains {name}", carries, needed=False)


def _landings(circuit: Circuit, enclosure: str) -> list[Landing]:
    tag, title = circuit.tag, f"breaker {circuit.tag}"
    ends = [
        _landing(Point(tag, name), enclosure, title, f"{tag} {name}", "line", needed=True)
        for name in line_terminals(circuit)
    ]
    if circuit.neutral:
        ends.append(_landing(Point(tag, "N"), enclosure, title, f"{tag} N", "neutral", needed=True))
    ends.append(_landing(Point(tag, "PE"), enclosure, title, "PE", "ground", needed=True))
    if circuit.shunt_trip is not None:
        ends.extend(
            _landing(
                Point(tag, name), enclosure, f"shunt trip of {tag}", f"{tag} {name}", "signal", needed=True
            )
            for name in ("ST1", "ST2")
        )
    return ends


def _landing(
    point: Point, enclosure: str, title: str, potential: str, carries: str, *, needed: bool
) -> Landing:
    return Landing(
        point=point,
        enclosure=enclosure,
        compartment=None,
        device_name=title,
        potential=potential,
        carries=carries,
        circuit_class="power",
        function="",
        needed=needed,
        empty_on_purpose=False,
        wired_by_maker=title == SERVICE,
        clamp=None,
        connector=None,
    )


def _element(device: str, spec: Supply | Link | Contact | Coil) -> Inside:
    a, b = spec.between
    return Inside(f"{device}.{spec.id}", Point(device, a), Point(device, b), spec)


def _lines(circuit: Circuit, legs: tuple[str, ...], upstream: Circuit | None) -> list[Inside]:
    """Join the circuit's line terminals to the bus through its breaker, or to the breaker that it is taken from."""
    opened_by = [off_signal(circuit.tag)]
    if circuit.shunt_trip is not None:
        opened_by.append(circuit.shunt_trip.drives)
    joined = []
    for name, leg in zip(line_terminals(circuit), legs, strict=True):
        if upstream is not None:
            source = Point(upstream.tag, "L" if upstream.poles == 1 else leg)
            joined.append(Inside(f"{circuit.tag}.tap-{name.lower()}", source, Point(circuit.tag, name), None))
            continue
        breaker = Contact.model_construct(
            kind="contact",
            id=f"breaker-{name.lower()}",
            between=(leg, name),
            form="NC",
            operates=Condition(any=tuple(opened_by)),
            rated=circuit.rating,
        )
        joined.append(
            Inside(f"{circuit.tag}.{breaker.id}", Point(MAINS, leg), Point(circuit.tag, name), breaker)
        )
    return joined


def _returns(circuit: Circuit) -> list[Inside]:
    joined = [Inside(f"{circuit.tag}.ground-bar", Point(MAINS, "PE"), Point(circuit.tag, "PE"), None)]
    if circuit.neutral:
        joined.append(Inside(f"{circuit.tag}.neutral-bar", Point(MAINS, "N"), Point(circuit.tag, "N"), None))
    if circuit.shunt_trip is not None:
        trip = circuit.shunt_trip
        coil = Coil.model_construct(
            kind="coil",
            id="shunt-trip",
            between=("ST1", "ST2"),
            rated=trip.rated,
            burden=trip.burden,
            drives=trip.drives,
            latches=True,
        )
        joined.append(_element(circuit.tag, coil))
    return joined
