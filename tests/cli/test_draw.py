"""`hoodwright draw` as a whole process: what it writes, what it refuses, what it leaves alone."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from tests.command_line import FAILING, JOBS, TEMPLATE_JOB, lines

if TYPE_CHECKING:
    from pathlib import Path

    from tests.command_line import Run


def test_draw_writes_a_proved_drawing(hoodwright: Run, tmp_path: Path) -> None:
    done = hoodwright("draw", TEMPLATE_JOB, "-o", "kitchen.svg")
    assert lines(done) == ["wrote kitchen.svg"]
    assert done.returncode == 0
    assert b"<svg" in (tmp_path / "kitchen.svg").read_bytes()[:1000]


def test_draw_says_that_an_unsound_plan_is_not_to_be_built(hoodwright: Run) -> None:
    done = hoodwright("draw", FAILING, "-o", "hood.svg", "--enclosure", "H")
    assert done.returncode == 1
    told = done.stderr.decode()
    assert told.startswith("hoodwright draw: NOT SOUND: 4 findings stop the work")
    assert told.endswith("hoodwright check lists them.\n")


def test_draw_into_a_folder_writes_every_view(hoodwright: Run, tmp_path: Path) -> None:
    (tmp_path / "out").mkdir()
    done = hoodwright("draw", TEMPLATE_JOB, "-o", "out", "--format", "png")
    assert done.returncode == 0
    written = sorted((tmp_path / "out").iterdir())
    assert [path.name for path in written] == [
        "example-kitchen-ladder.png",
        "example-kitchen-overview.png",
        "example-kitchen-point-to-point.png",
    ]
    assert all(path.read_bytes().startswith(b"\x89PNG") for path in written)


def test_draw_writes_the_ladder_of_a_circuit_and_of_an_interlock(hoodwright: Run, tmp_path: Path) -> None:
    loft = JOBS / "loft-gas.toml"
    assert hoodwright("draw", loft, "--ladder", "GAS", "-o", "gas.svg").returncode == 0
    assert "Interlock of gas: Gas valve is open" in (tmp_path / "gas.svg").read_text(encoding="utf-8")
    done = hoodwright("draw", loft, "--ladder", "gsa", "-o", "other.svg")
    assert done.returncode == 2
    assert b'--ladder: found "gsa"; allowed: Q1, Q2, Q5, Q6, controls' in done.stderr
    assert not (tmp_path / "other.svg").exists()


def test_draw_writes_the_wall_to_scale(hoodwright: Run, tmp_path: Path) -> None:
    galley = JOBS / "galley-gas.toml"
    done = hoodwright("draw", galley, "--view", "elevation", "-o", "wall.svg")
    assert lines(done) == ["wrote wall.svg"]
    assert done.returncode == 0
    assert "printed at full size" in (tmp_path / "wall.svg").read_text()
    assert hoodwright("draw", galley, "--view", "elevation", "-o", "walls").returncode == 0
    assert [path.name for path in (tmp_path / "walls").iterdir()] == [
        "galley-kitchen-gas-cooktop-over-an-electric-oven-elevation-a.svg"
    ]
    assert hoodwright("draw", galley, "--view", "plan", "-o", "plan.png").returncode == 0
    assert (tmp_path / "plan.png").read_bytes().startswith(b"\x89PNG")


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (("--view", "elevation", "-o", "w.dot"), "--view elevation: found dot; allowed: svg, png"),
        (
            ("--view", "elevation", "--paper", "Letter", "-o", "w.svg"),
            "--output: found one file for 3 sheets; allowed: a folder, or larger paper for fewer sheets",
        ),
        (
            ("--view", "elevation", "--reach", "W1", "-o", "w.svg"),
            '--reach: found "W1"; allowed: W5, W7; did you mean W7 or W5?',
        ),
        (
            ("--reach", "W5", "-o", "w.svg"),
            "--reach: found no elevation to hatch it on; allowed: --view elevation",
        ),
    ],
)
def test_what_can_not_be_drawn_to_scale_is_refused(
    arguments: tuple[str, ...], words: str, hoodwright: Run, tmp_path: Path
) -> None:
    refused = hoodwright("draw", JOBS / "galley-gas.toml", *arguments)
    assert refused.returncode == 2
    assert refused.stderr.decode() == f"hoodwright draw: {words}\n"
    assert list(tmp_path.iterdir()) == []


def test_a_crowded_drawing_comes_on_several_pages_in_a_folder(hoodwright: Run, tmp_path: Path) -> None:
    crowded = JOBS / "training-room.toml"
    one = hoodwright("draw", crowded, "-o", "all.svg", "--paper", "Letter")
    assert b"on Letter paper the smallest words are" in one.stderr
    assert (tmp_path / "all.svg").is_file()
    (tmp_path / "pages").mkdir()
    several = hoodwright("draw", crowded, "-o", "pages", "--view", "point-to-point", "--paper", "Letter")
    assert several.stderr == b""
    names = sorted(path.name for path in (tmp_path / "pages").iterdir())
    assert len(names) > 1
    assert names[0].endswith("-point-to-point-1.svg")


def test_draw_leaves_an_existing_file_alone_unless_forced(hoodwright: Run, tmp_path: Path) -> None:
    target = tmp_path / "hood.dot"
    target.write_text("mine")
    refused = hoodwright("draw", TEMPLATE_JOB, "--enclosure", "H", "-o", "hood.dot")
    assert refused.returncode == 2
    assert refused.stderr == b"hood.dot: found a file that is there already; allowed: a new file\n"
    assert target.read_text() == "mine"
    assert hoodwright("draw", TEMPLATE_JOB, "--enclosure", "H", "-o", "hood.dot", "--force").returncode == 0
    assert "graph" in target.read_text()
