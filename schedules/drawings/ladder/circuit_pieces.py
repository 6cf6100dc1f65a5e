"""What of a connection graph a ladder diagram draws: every conductor, fitted wire and element but the grounding."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.ladder.content import Node, Piece, Symbol
from schedules.drawings.picture import TerminalKind
from schedules.sheet.breakers import MAINS, off_signal
from schedules.sheet.hardware import Coil, Contact, Load, Resistor, Supply

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.connections.points import Conductor, Inside, Landing, Point
    from schedules.plan import Plan


def drawn_pieces(plan: Plan) -> dict[str, Piece]:
    """Every piece by its key in the graph. The service itself is no piece: its bars are the rails."""
    landings = plan.derived.connections.landings
    pieces = {
        key: _conductor(conductor)
        for key, conductor in plan.derived.connections.conductors.items()
        if not _grounds(landings, conductor.a, conductor.b)
    }
    operated = _Operated(plan)
    lights = {effect.id for effect in plan.derived.sheet.effect if effect.kind == "light"}
    for key, inside in plan.derived.connections.inside.items():
        service = inside.a.device == MAINS == inside.b.device
        if not service and inside.a != inside.b and not _grounds(landings, inside.a, inside.b):
            pieces[key] = _inside(inside, operated, lights)
    return pieces


def drawn_node(landing: Landing) -> Node:
    """A terminal as a node."""
    point = landing.point
    if landing.connector is not None:
        kind = TerminalKind.PIN
    elif landing.clamp is not None and landing.clamp.style == "lead":
        kind = TerminalKind.LEAD
    else:
        kind = TerminalKind.SCREW
    if point.device == MAINS:
        return Node(str(point), point.terminal, "service", kind)
    # What the maker wired has no row to lead to.
    row = "" if landing.wired_by_maker else f"#{point.device}-{point.terminal}"
    return Node(str(point), str(point), landing.enclosure, kind, row)


def _grounds(landings: Mapping[Point, Landing], a: Point, b: Point) -> bool:
    return "ground" in (landings[a].carries, landings[b].carries)


def _conductor(conductor: Conductor) -> Piece:
    return Piece(
        key=conductor.number,
        a=str(conductor.a),
        b=str(conductor.b),
        symbol=Symbol.CONDUCTOR,
        name=conductor.number,
        note=conductor.cable,
        colour=conductor.colour,
        remarked=conductor.mark or "",
        size=str(conductor.size),
    )


class _Operated:
    """Which coils operate which contacts, by keys."""

    def __init__(self, plan: Plan) -> None:
        inside = plan.derived.connections.inside
        self.coils: dict[str, list[str]] = {}
        self.contacts: dict[str, list[str]] = {}
        for key, item in inside.items():
            if isinstance(item.spec, Coil):
                self.coils.setdefault(item.spec.drives, []).append(key)
            elif isinstance(item.spec, Contact):
                for signal in item.spec.operates.names:
                    self.contacts.setdefault(signal, []).append(key)

    def by(self, contact: Contact) -> tuple[str, ...]:
        return tuple(coil for signal in contact.operates.names for coil in self.coils.get(signal, ()))

    def of(self, coil: Coil) -> tuple[str, ...]:
        return tuple(self.contacts.get(coil.drives, ()))


def _inside(inside: Inside, operated: _Operated, lights: set[str]) -> Piece:
    a, b, key = str(inside.a), str(inside.b), inside.key
    name = key.replace(".", " ", 1)
    match inside.spec:
        case Contact() as spec:
            symbol, note = _contact(inside, spec)
            if symbol is Symbol.BREAKER:
                name = f"{inside.b.device} breaker {inside.b.terminal}"
            return Piece(key, a, b, symbol, name, note, moved_by=operated.by(spec))
        case Coil() as spec:
            return Piece(key, a, b, Symbol.COIL, name, f"sets {spec.drives}", moves=operated.of(spec))
        case Load() as spec:
            symbol = Symbol.MOTOR if spec.motor else Symbol.LAMP if spec.effect in lights else Symbol.LOAD
            return Piece(key, a, b, symbol, name, spec.effect)
        case Resistor() as spec:
            return Piece(key, a, b, Symbol.RESISTOR, name, f"{spec.ohms:g} ohm")
        case Supply() as spec:
            fed = f"{inside.a.device}.{spec.fed_by}" if spec.fed_by else ""
            return Piece(key, a, b, Symbol.SUPPLY, name, f"{spec.volts:g} V {spec.current}", fed_by=fed)
    return Piece(key, a, b, Symbol.FITTED)


def _contact(inside: Inside, spec: Contact) -> tuple[Symbol, str]:
    """A contact's symbol, and what moves it in words."""
    if inside.a.device == MAINS:
        trips = spec.operates.any != (off_signal(inside.b.device),)
        return Symbol.BREAKER, f"{spec.rated:g} A" + (" with trip coil" if trips else "")
    after = f", {spec.delay:g} s later" if spec.delay else ""
    if spec.form == "NO":
        return Symbol.NO, f"closes on {spec.operates.in_words()}{after}"
    return Symbol.NC, f"opens on {spec.operates.in_words()}{after}"
