"""What stands in a current's way: the resistance of conductors, the impedance of loads and coils.

What no sheet states is taken at one nominal value each, named here, so that it is seen and the same everywhere.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import TYPE_CHECKING

from schedules.circuits.feeds import current_of
from schedules.circuits.voltage_drop import conductor_resistance
from schedules.quantities.sizes import WireSize

if TYPE_CHECKING:
    from schedules.sheet.hardware import Load

NOMINAL_LENGTH_IN = 300.0
"""Length of a conductor whose route nobody has measured yet [in]: 25 ft, nominal."""

CONTACT_OHM = 0.001
"""A closed contact or breaker pole, nominal: small beside any conductor."""

SUPPLY_OHM = 0.001
"""Inside a transformer's secondary or another supply, nominal: its output is its rated voltage."""

SHORT_OHM = 0.001
"""Two terminals that touch, nominal."""

METER_OHM = 10e6
"""Input resistance of a common digital multimeter on its volt ranges. Common practice, from memory."""

TABLE_TEMPERATURE_C = 75.0
"""Conductor temperature at which Chapter 9 Table 8 is printed: under load, so the larger voltage drop."""

_THICKEST_SOLID = WireSize(gauge=10)
_THINNEST_PRINTED = WireSize(gauge=18)
_THICKEST_PRINTED = WireSize(kcmil=250)
_KFT_IN = 12_000.0


def load_siemens(load: Load) -> complex:
    """Admittance of a load at its rated voltage [S], from its nameplate; a power factor below 1 is lagging."""
    size = current_of(load) / load.rated
    return complex(size * load.power_factor, -size * math.sqrt(1 - load.power_factor**2))


@lru_cache(maxsize=256)
def conductor_ohm_per_in(size: WireSize, *, factory: bool, temperature_c: float, edition: str) -> float:
    """Resistance of a copper conductor [ohm/in] at a temperature [C], Chapter 9 Table 8.

    Field conductors to 10 AWG are taken as solid, thicker ones and factory cable as stranded. A size beyond the
    table's ends goes by area from its nearest row; from gauge to gauge the diameter grows by 92^(1/39) (ASTM B258, from
    memory). Raises LookupError for an unknown edition.
    """
    printed = min(max(size, _THINNEST_PRINTED), _THICKEST_PRINTED)
    row = conductor_resistance(
        printed,
        material="copper",
        stranding="stranded" if factory or printed > _THICKEST_SOLID else "solid",
        length_in=_KFT_IN,
        temperature_c=temperature_c,
        edition=edition,
    )
    return row.resistance_ohm / _KFT_IN / _area_ratio(size, printed)


def _area_ratio(size: WireSize, printed: WireSize) -> float:
    """Area of a size to that of the printed size that stands in for it."""
    if size == printed:
        return 1.0
    if size.kcmil is not None and printed.kcmil is not None:
        return size.kcmil / printed.kcmil
    return math.pow(92, 2 * ((printed.gauge or 0) - (size.gauge or 0)) / 39)
