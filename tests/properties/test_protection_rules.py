"""Ground-fault and arc-fault protection, edition by edition, each against the section it comes from."""

from __future__ import annotations

import pytest

from schedules.circuits.gfci_afci import (
    alarm_supply_protection,
    appliance_gfci,
    kitchen_afci,
    kitchen_receptacle_gfci,
)
from schedules.working import Confidence

EDITIONS = ("2020", "2023", "2026")


@pytest.mark.parametrize(
    ("edition", "countertop", "to_sink_in", "required"),
    [
        ("2020", True, None, True),
        ("2020", False, None, False),
        ("2020", False, 72, True),
        ("2020", False, 72.1, False),
        ("2023", False, None, True),
        ("2026", False, None, True),
    ],
)
def test_gfci_for_a_hoods_receptacle(
    edition: str, countertop: bool, to_sink_in: float | None, required: bool
) -> None:
    # 210.8(A)(6) and (7).
    verdict = kitchen_receptacle_gfci(
        supply_v=120, to_ground_v=120, serves_countertop=countertop, to_sink_in=to_sink_in, edition=edition
    )
    assert verdict.holds is required
    assert bool(verdict.judgements) is required


def test_gfci_stops_at_150_v_to_ground_and_250_v() -> None:
    def required(supply_v: float, to_ground_v: float) -> bool:
        return kitchen_receptacle_gfci(
            supply_v=supply_v,
            to_ground_v=to_ground_v,
            serves_countertop=True,
            to_sink_in=None,
            edition="2023",
        ).holds

    assert required(240, 120)
    assert not required(277, 277)


@pytest.mark.parametrize(
    ("appliance", "by_edition"),
    [
        # 210.8(D): none of them in 2020 (422.5(A)); a hood alone in no edition.
        ("electric range", (False, True, True)),
        ("wall oven", (False, True, True)),
        ("cooktop", (False, True, True)),
        ("microwave oven", (False, True, True)),
        ("range hood", (False, False, False)),
    ],
)
def test_gfci_for_hardwired_appliances(appliance: str, by_edition: tuple[bool, ...]) -> None:
    found = [
        appliance_gfci(appliance, circuit_a=40, to_ground_v=120, edition=edition) for edition in EDITIONS
    ]
    assert tuple(verdict.holds for verdict in found) == by_edition
    # The 2026 text was not read, so somebody has to say what it lists.
    assert "authority having jurisdiction" in [judgement.who_decides for judgement in found[2].judgements]
    assert found[2].working.source.confidence is Confidence.MEMORY


def test_gfci_for_appliances_stops_at_60_a() -> None:
    assert appliance_gfci("electric range", circuit_a=60, to_ground_v=120, edition="2023").holds
    assert not appliance_gfci("electric range", circuit_a=70, to_ground_v=120, edition="2023").holds


@pytest.mark.parametrize(
    ("edition", "circuit_a", "supply_v", "required"),
    [
        # 210.12(A) in 2020, 210.12(B) in 2023.
        ("2020", 15, 120, True),
        ("2020", 20, 120, True),
        ("2020", 10, 120, False),
        ("2023", 10, 120, True),
        ("2026", 10, 120, True),
        ("2023", 30, 120, False),
        ("2023", 20, 240, False),
    ],
)
def test_afci_for_the_kitchen(edition: str, circuit_a: float, supply_v: float, required: bool) -> None:
    verdict = kitchen_afci(
        circuit_a=circuit_a, supply_v=supply_v, extension_without_outlets_in=None, edition=edition
    )
    assert verdict.holds is required


def test_a_short_extension_needs_no_afci() -> None:
    # 210.12(D) in 2020, (E) in 2023: up to 6 ft without outlets or devices.
    for length_in, required in ((72, False), (73, True)):
        assert (
            kitchen_afci(
                circuit_a=15, supply_v=120, extension_without_outlets_in=length_in, edition="2020"
            ).holds
            is required
        )


def test_a_fire_alarm_supply_is_on_neither() -> None:
    verdict = alarm_supply_protection("2023")
    assert not verdict.holds
    assert verdict.working.source.confidence is Confidence.MEMORY
    assert verdict.judgements[0].who_decides == "authority having jurisdiction"
