"""Groups of joined points, held against networkx."""

from __future__ import annotations

from pathlib import Path

import networkx as nx
import pytest

from schedules.connections.incidence import conducting, conducting_or_contact, incidence, nets
from schedules.connections.points import Point
from schedules.planned import plan_file

JOBS = sorted((Path(__file__).parents[2] / "samples" / "jobs").glob("*.toml"))


@pytest.mark.parametrize("job", JOBS, ids=lambda path: path.stem)
def test_nets_are_the_connected_parts_of_the_graph(job: Path) -> None:
    connections = plan_file(job, remedies=False).plan.derived.connections
    for keep in (conducting(connections), conducting_or_contact(connections)):
        parts = nx.connected_components(incidence(connections, keep))
        expected = {frozenset(node for node in part if isinstance(node, Point)) for part in parts}
        index = nets(connections, keep)
        groups: dict[int, set[Point]] = {}
        for point, number in index.items():
            groups.setdefault(number, set()).add(point)
        assert {frozenset(group) for group in groups.values()} == expected
        assert set(index) == set(connections.landings)
