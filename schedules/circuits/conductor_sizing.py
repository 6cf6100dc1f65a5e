"""Which conductor does this circuit need, and which rule decided it?"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import reaches, resting_on, rule_input
from schedules.circuits.ampacity import (
    AMPACITY,
    Ampacity,
    ampacity_column,
    conductor_ampacity,
    table_ampacity,
)
from schedules.circuits.overcurrent import Rating, largest_device
from schedules.quantities.sizes import WireSize
from schedules.tables.conductors import as_wire_size
from schedules.tables.loading import load
from schedules.tables.rules import rule
from schedules.working import Input, Working

if TYPE_CHECKING:
    from schedules.tables.edition import Code


@dataclass(frozen=True, slots=True)
class Surroundings:
    """Where a conductor runs and lands.

    insulation_c, column_c: columns [C] to start from and to end in. ambient_c: surrounding temperature [C].
    current_carrying: conductors that count. bundled_length_in: how far they run together [in].
    """

    insulation_c: int
    column_c: int
    ambient_c: float
    current_carrying: int
    bundled_length_in: float


@dataclass(frozen=True, slots=True)
class ConductorChoice:
    """The smallest conductor for a circuit; governed_by: what the next smaller one fails, in words."""

    size: WireSize
    ampacity_a: float
    governed_by: tuple[str, ...]
    working: Working


def circuit_conductor(
    *,
    continuous_a: float,
    other_a: float,
    device_a: float,
    material: str,
    surroundings: Surroundings,
    several_receptacles: bool,
    edition: Code,
) -> ConductorChoice:
    """The smallest branch-circuit conductor for a load [A] behind a device [A], 210.19 with 240.4 and 310.15.

    continuous_a: load that lasts three hours or more; other_a: the rest. It has to carry the load with the
    continuous share raised before any correction (terminations), the load itself after all corrections, and
    to be protected by the device. Raises ValueError for no load, LookupError where no size is enough.
    """
    if continuous_a < 0 or other_a < 0 or continuous_a + other_a <= 0:
        raise ValueError(f"load must be above 0 A, not {continuous_a:g} A continuous and {other_a:g} A other")
    share, least = rule("conductor_continuous", edition), rule("branch_conductor_min", edition)
    raised = other_a + continuous_a * share.number / 100
    failed: tuple[str, ...] = (f"smaller than {least.number:g} AWG",)
    for wire in _sizes(material, surroundings):
        if wire < as_wire_size(f"{least.number:g}"):
            continue
        checked = _checked(wire, material, surroundings, several_receptacles, edition)
        lacks = checked.lacks(continuous_a + other_a, raised, device_a)
        if not lacks:
            return ConductorChoice(
                wire,
                checked.adjusted.ampacity_a,
                failed,
                Working(
                    name="branch-circuit conductor",
                    formula="smallest size whose terminations carry the raised load, whose ampacity here "
                    "carries the load, and which the device may protect",
                    inputs=(
                        Input("continuous load", f"{continuous_a:g} A"),
                        Input("other load", f"{other_a:g} A"),
                        rule_input(share),
                        Input("raised load", f"{raised:g} A"),
                        Input("device", f"{device_a:g} A"),
                        rule_input(least),
                    ),
                    result=f"{wire} {material}",
                    source=resting_on(
                        share.source.citation,
                        share.source,
                        least.source,
                        *(step.source for step in checked.steps),
                    ),
                    note="the next smaller size: " + "; ".join(failed),
                    steps=checked.steps,
                ),
            )
        failed = lacks
    raise LookupError(f"no {material} size of {load(AMPACITY).title!r} is enough: {'; '.join(failed)}")


@dataclass(frozen=True, slots=True)
class _Checked:
    """One size with what its terminations carry, what it carries corrected, and what may protect it."""

    terminations: Ampacity
    adjusted: Ampacity
    device: Rating | None

    @property
    def steps(self) -> tuple[Working, ...]:
        found = (self.terminations.working, self.adjusted.working)
        return found if self.device is None else (*found, self.device.working)

    def lacks(self, load_a: float, raised_a: float, device_a: float) -> tuple[str, ...]:
        lacks = []
        if not reaches(self.terminations.ampacity_a, raised_a):
            lacks.append(
                f"terminations carry {self.terminations.ampacity_a:g} A of the raised load of {raised_a:g} A"
            )
        if not reaches(self.adjusted.ampacity_a, load_a):
            lacks.append(
                f"corrected ampacity of {self.adjusted.ampacity_a:g} A is below the load of {load_a:g} A"
            )
        if self.device is None or self.device.rating_a < device_a:
            largest = "no standard device" if self.device is None else f"{self.device.rating_a} A at most"
            lacks.append(f"may be protected by {largest}, not by {device_a:g} A")
        return tuple(lacks)


def _checked(
    wire: WireSize, material: str, around: Surroundings, several_receptacles: bool, edition: Code
) -> _Checked:
    column = min(around.column_c, around.insulation_c)
    adjusted = conductor_ampacity(
        wire,
        material=material,
        insulation_c=around.insulation_c,
        column_c=column,
        ambient_c=around.ambient_c,
        current_carrying=around.current_carrying,
        bundled_length_in=around.bundled_length_in,
        edition=edition,
    )
    device = largest_device(
        wire,
        material=material,
        ampacity_a=adjusted.ampacity_a,
        several_receptacles=several_receptacles,
        edition=edition,
    )
    return _Checked(
        table_ampacity(wire, material=material, column_c=column, edition=edition), adjusted, device
    )


def _sizes(material: str, around: Surroundings) -> tuple[WireSize, ...]:
    """Sizes that the ampacity table prints in the column for the terminations, thinnest first."""
    column = ampacity_column(material, min(around.column_c, around.insulation_c))
    rows = load(AMPACITY).rows
    return tuple(sorted(WireSize.from_table(row.text("size")) for row in rows if row.has(column)))
