"""What a circuit's breaker is called in references: its terminals, its off signal, the service behind it."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from schedules.sheet.wiring import Circuit

MAINS = "MAINS"
"""The device that stands for the service's bars."""


def off_signal(circuit: str) -> str:
    """Name the signal that stands for this circuit's breaker being switched off by hand."""
    return f"{circuit.lower()}-off"


def line_terminals(circuit: Circuit) -> tuple[str, ...]:
    """Designations of a circuit's ungrounded terminals."""
    return ("L",) if circuit.poles == 1 else ("L1", "L2")
