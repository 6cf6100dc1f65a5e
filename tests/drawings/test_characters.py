"""Drawings in characters, read back: whoever follows a line from one end arrives at the other."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.drawings.characters import in_characters
from schedules.drawings.views import overview, point_to_point
from schedules.planned import plan_file
from tests.pictures import kitchen

if TYPE_CHECKING:
    from schedules.drawings.picture import Picture
    from schedules.plan import Plan

SAMPLES = Path(__file__).parents[2] / "samples" / "jobs"
CORNERS = "┐┘"


def ends(lines: tuple[str, ...]) -> list[tuple[int, int]]:
    """Every row that a line leaves from, and the row where it arrives when it is followed by eye."""
    found = []
    for row, line in enumerate(lines):
        if "─" in line or any(corner in line for corner in CORNERS):
            column = max(line.rfind(corner) for corner in CORNERS)
            run = line[line.index("─") : column] if "─" in line[:column] else ""
            assert not set(run) - set("─│"), line
            step = 1 if line[column] == "┐" else -1
            there = row + step
            while lines[there][column] not in CORNERS:
                assert lines[there][column] == "│", (line, lines[there])
                there += step
            found.append((row, there))
    return found


def read_back(picture: Picture) -> None:
    lines = in_characters(picture)
    joined = ends(lines)
    assert len(joined) == 2 * len(picture.lines)
    assert all((there, row) in joined for row, there in joined)
    blocks = {block.key: block for block in picture.blocks}
    heads = [line.split("  ")[0] if not line.startswith("  ") else None for line in lines]

    def block_at(row: int) -> str:
        return next(head for head in reversed(heads[: row + 1]) if head is not None)

    keys = [line.key for line in picture.lines]
    for line in picture.lines:
        wanted = {blocks[line.a.block].tag, blocks[line.b.block].tag}
        rows = [row for row, _ in joined if f" {line.key} " in lines[row] and block_at(row) in wanted]
        assert rows, (line.key, keys)
        assert any({block_at(row), block_at(there)} == wanted for row, there in joined if row in rows)


@pytest.fixture(scope="module")
def plan() -> Plan:
    return plan_file(SAMPLES / "galley-gas.toml", remedies=False).plan


def test_every_cable_leads_to_its_other_end(plan: Plan) -> None:
    read_back(overview(plan))


def test_every_conductor_leads_to_its_other_end(plan: Plan) -> None:
    read_back(point_to_point(plan))


def test_an_invented_kitchen_is_read_back() -> None:
    read_back(kitchen())


def test_an_overview_fits_a_terminal_of_80_columns(plan: Plan) -> None:
    # Beside it stand the list of drawings and the scroll bar.
    assert max(map(len, in_characters(overview(plan)))) <= 66
