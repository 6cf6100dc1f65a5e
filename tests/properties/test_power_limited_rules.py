"""Power-limited wiring: its distance from mains and its class, each against the section it comes from."""

from __future__ import annotations

import pytest

from schedules.circuits.power_limited import PLACES, class_1_limit, separation, wiring_class


def gap(place: str, **changed: object) -> float | None:
    given_: dict[str, object] = {"alarm": False, "barrier": False, "to_ground_v": 120.0, "own_jacket": False}
    return separation(place, **(given_ | changed), edition="2023").distance_in  # type: ignore[arg-type]


def test_separation_of_power_limited_wiring() -> None:
    # 725.136(A), (B), (D), (I); 760.136.
    assert [gap(place) for place in PLACES] == [None, None, None, 0.25, 2.0]
    assert [gap(place, barrier=True) for place in PLACES] == [None, 0, 0, 0, 2.0]
    assert gap("connecting space", own_jacket=True) == 0
    assert gap("connecting space", own_jacket=True, to_ground_v=277.0) == 0.25
    assert gap("open run", alarm=True) == 2.0
    with pytest.raises(ValueError, match="place is one of cable, raceway"):
        gap("attic")


def test_separation_of_alarm_wiring_asks_where_the_section_was_not_read() -> None:
    found = separation(
        "enclosure", alarm=True, barrier=False, to_ground_v=120, own_jacket=False, edition="2023"
    )
    assert [judgement.who_decides for judgement in found.judgements] == ["authority having jurisdiction"]


@pytest.mark.parametrize(
    ("source", "name"),
    [
        ("fire alarm panel", "power-limited fire alarm"),
        ("listed class 2 or 3 supply", "class 2 or 3"),
        ("power circuit", "power or class 1"),
    ],
)
def test_wiring_takes_the_class_of_its_source(source: str, name: str) -> None:
    for safety_control, judgements in ((False, 1), (True, 2)):
        found = wiring_class(source, safety_control=safety_control, edition="2023")
        assert found.name == name
        assert len(found.judgements) == judgements
    with pytest.raises(ValueError, match="source is one of fire alarm panel"):
        wiring_class("battery", safety_control=False, edition="2023")


def test_class_1_conductors_have_limits_of_their_own() -> None:
    # 724.43 (725.43 in 2020): 7 A and 10 A.
    assert class_1_limit("18", edition="2023").rating_a == 7
    assert class_1_limit("16 AWG", edition="2023").rating_a == 10
    with pytest.raises(ValueError, match="only 18 AWG and 16 AWG"):
        class_1_limit("14", edition="2023")
