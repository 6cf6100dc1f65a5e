"""The same networks in the words of lcapy, an independent circuit library that solves exactly."""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from schedules.network.nodal import Join

OMEGA = 377
"""Angular frequency at which admittances are written as resistors and inductors [rad/s]."""


def solve_with_lcapy(
    joins: Iterable[Join],
    sources: Iterable[tuple[int, int, complex, complex]],
    held: Mapping[int, complex],
    ask: Iterable[int],
    ground: int,
) -> dict[int, complex]:
    """Voltages of the nets asked for.

    sources: (plus, minus, volts, admittance behind it). held: nets of given voltage. ground: the net that is 0 V.
    """
    lcapy: Any = importlib.import_module("lcapy")

    def name(net: int) -> str:
        return "0" if net == ground else f"n{net}" if net >= 0 else f"m{-net}"

    lines = []
    for place, (net, volts) in enumerate(held.items()):
        if net != ground:
            lines.append(f"Vh{place} {name(net)} 0 ac {volts.real:.12g} 0 {OMEGA}")
    for place, (a, b, y) in enumerate(joins):
        lines += impedance(f"{place}", name(a), name(b), y)
    for place, (a, b, volts, y) in enumerate(sources):
        middle = f"s{place}"
        lines.append(f"Vs{place} {middle} {name(b)} ac {volts.real:.12g} 0 {OMEGA}")
        lines += impedance(f"s{place}", name(a), middle, y)
    circuit = lcapy.Circuit("\n".join(lines))
    return {net: phasor(circuit[name(net)].V) for net in ask}


def impedance(tag: str, a: str, b: str, admittance: complex) -> list[str]:
    z = 1 / complex(admittance)
    if not z.imag:
        return [f"R{tag} {a} {b} {z.real:.12g}"]
    return [f"R{tag} {a} t{tag} {z.real:.12g}", f"L{tag} t{tag} {b} {z.imag / OMEGA:.12g}"]


def phasor(voltage: Any) -> complex:
    """One number; a voltage that is nothing at all has no phasor in it."""
    return complex(voltage.phasor().cval) if voltage.decompose() else 0j
