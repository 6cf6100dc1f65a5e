"""The contacts that may switch a load: every way to it, however many loads are asked for at once."""

from __future__ import annotations

from pathlib import Path

import pytest

from schedules.circuits.wire_paths import contacts_before, joins_of
from schedules.planned import plan_file
from tests.small_sheets import contact, device, load, small

JOBS = sorted((Path(__file__).parents[2] / "samples" / "jobs").glob("*.toml"))


def test_parallel_contacts_are_found_one_by_one_and_a_shared_one_on_each_way() -> None:
    derived = small(
        [
            device(
                "A1",
                "L N M D",
                contact("one", "L", "M", "NO", operates={"all": ("call",)}),
                contact("other", "L", "M", "NO", operates={"all": ("call",)}),
                contact("shared", "M", "D", "NO", operates={"all": ("call",)}),
                load("lamp", "D", "N", "lamp"),
                load("pilot", "M", "N", "lamp"),
            )
        ],
        "Q1:L A1:L\nQ1:N A1:N",
        outside="call",
    )
    connections = derived.connections
    found = contacts_before(
        derived.circuits[0].circuit, ("A1.lamp", "A1.pilot"), connections, joins_of(connections)
    )
    assert [(name, set(way)) for name, way in found] == [
        ("A1.lamp", {"A1.shared", "A1.one"}),
        ("A1.lamp", {"A1.shared", "A1.other"}),
        ("A1.pilot", {"A1.one"}),
        ("A1.pilot", {"A1.other"}),
    ]


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_loads_asked_for_together_have_the_ways_that_each_has_alone(path: Path) -> None:
    derived = plan_file(path, remedies=False).plan.derived
    connections = derived.connections
    joins = joins_of(connections)
    for need in derived.circuits:
        together = list(contacts_before(need.circuit, need.feeds, connections, joins))
        alone = [
            way for key in need.feeds for way in contacts_before(need.circuit, (key,), connections, joins)
        ]
        assert together == alone
