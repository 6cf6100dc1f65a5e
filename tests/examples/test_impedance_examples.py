"""Impedances from nameplates and tables, compared with what is printed elsewhere."""

from __future__ import annotations

import pytest

from schedules.network.impedance import conductor_ohm_per_in, load_siemens
from schedules.quantities.sizes import WireSize
from schedules.sheet.hardware import Load

KFT_IN = 12_000


def ohm_per_kft(gauge: int, temperature_c: float = 75) -> float:
    size = WireSize(gauge=gauge)
    per_in = conductor_ohm_per_in(size, factory=False, temperature_c=temperature_c, edition="2023")
    return per_in * KFT_IN


@pytest.mark.parametrize(("gauge", "printed"), [(18, 7.77), (14, 3.07), (10, 1.21), (6, 0.491)])
def test_nec_2023_chapter_9_table_8_is_taken_as_printed(gauge: int, printed: float) -> None:
    assert ohm_per_kft(gauge) == pytest.approx(printed, rel=1e-9)


@pytest.mark.parametrize(("gauge", "printed"), [(18, 6.385), (20, 10.15), (22, 16.14)])
def test_astm_b258_wire_table_at_20_degrees(gauge: int, printed: float) -> None:
    """Ohms per 1000 ft of bare copper at 20 C, from memory; Table 8 has 18 AWG to three digits, so within 0.2 %."""
    assert ohm_per_kft(gauge, 20) == pytest.approx(printed, rel=2e-3)


def test_a_motors_current_lags() -> None:
    """3.2 A at 120 V and power factor 0.8: 37.5 ohm, of which 30 ohm are resistance and 22.5 ohm reactance."""
    motor = Load.model_validate(
        {
            "kind": "load",
            "id": "motor",
            "between": ("L", "N"),
            "rated": "120 V",
            "current": "3.2 A",
            "power_factor": 0.8,
            "effect": "exhaust",
        }
    )
    impedance = 1 / load_siemens(motor)
    assert impedance == pytest.approx(30 + 22.5j)
