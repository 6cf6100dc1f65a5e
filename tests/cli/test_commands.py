"""Every command as a whole process teaches itself; new jobs, templates, schemas and completion."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING

import pytest

from schedules.rows.catalogue import CATALOGUE
from schedules.rows.every import SCHEDULES
from schedules.version import __version__
from tests.command_line import SHEETS, lines, says

if TYPE_CHECKING:
    from pathlib import Path

    from tests.command_line import Run

COMMANDS = (
    "open",
    "new",
    "check",
    "show",
    "draw",
    "pack",
    "reach",
    "explain",
    "compare",
    "combos",
    "deck",
    "faults",
    "what-if",
    "diagnose",
    "worksheet",
    "sheet",
    "job",
    "plan",
    "completion",
)


def test_help_names_every_command_and_exit_status(hoodwright: Run) -> None:
    done = hoodwright("--help")
    printed = lines(done)
    assert done.returncode == 0
    assert {
        name for name in COMMANDS if re.search(rf"^    {name}\b", "\n".join(printed), re.MULTILINE)
    } == set(COMMANDS)
    assert "  0  done" in "\n".join(printed)
    assert max(map(len, printed)) <= 90


@pytest.mark.parametrize(
    "words",
    [
        *((name,) for name in COMMANDS),
        ("sheet", "check"),
        ("sheet", "template"),
        ("sheet", "schema"),
        ("job", "template"),
        ("job", "schema"),
        ("plan", "schema"),
    ],
    ids=" ".join,
)
def test_every_command_teaches_with_an_example(hoodwright: Run, words: tuple[str, ...]) -> None:
    done = hoodwright(*words, "--help")
    printed = "\n".join(lines(done))
    assert done.returncode == 0
    assert "examples:\n" in printed
    assert "hoodwright" in printed.partition("examples:\n")[2]


def test_the_help_of_show_names_every_schedule(hoodwright: Run) -> None:
    printed = "\n".join(lines(hoodwright("show", "--help")))
    assert re.findall(r"^  ([a-z-]+)  ", printed, re.MULTILINE)[: len(CATALOGUE)] == list(CATALOGUE)
    assert list(CATALOGUE) == list(SCHEDULES)


def test_version(hoodwright: Run) -> None:
    assert lines(hoodwright("--version")) == [f"hoodwright {__version__}"]


def test_new_starts_a_job_that_can_be_checked(hoodwright: Run, tmp_path: Path) -> None:
    (tmp_path / "jobs").mkdir()
    done = hoodwright("new", "jobs/hill.toml", "--sheet", SHEETS / "marram.toml", "--name", "Hill Road 7")
    printed = lines(done)
    assert done.returncode == 0
    assert printed[0] == "wrote jobs/hill.toml"
    assert "NEC 2023 was assumed" in printed[1]
    checked = hoodwright("check", "jobs/hill.toml")
    assert checked.returncode == 1
    assert "Job: Hill Road 7" in checked.stdout.decode()
    assert "not decided" in checked.stdout.decode()


def test_new_refuses_to_overwrite(hoodwright: Run, tmp_path: Path) -> None:
    target = tmp_path / "kitchen.toml"
    target.write_text("mine")
    done = hoodwright("new", "kitchen.toml", "--sheet", SHEETS / "marram.toml")
    assert done.returncode == 2
    assert done.stderr == b"kitchen.toml: found a file that is there already; allowed: a new file\n"
    assert target.read_text() == "mine"


@pytest.mark.parametrize("sheet", sorted(SHEETS.glob("*.toml")), ids=lambda path: path.stem)
def test_sheet_check_of_the_samples(hoodwright: Run, sheet: Path) -> None:
    done = hoodwright("sheet", "check", sheet)
    assert done.returncode == 0
    assert "no mistake found" in says(lines(done))


def test_the_templates_can_be_used_as_they_are_printed(hoodwright: Run, tmp_path: Path) -> None:
    assert hoodwright("sheet", "template", "-o", "sheet.toml").returncode == 0
    (tmp_path / "job.toml").write_bytes(hoodwright("job", "template").stdout)
    assert hoodwright("sheet", "check", "sheet.toml").returncode == 0
    assert hoodwright("check", "job.toml").returncode == 0


@pytest.mark.parametrize("words", [("sheet", "schema"), ("job", "schema"), ("plan", "schema")], ids=" ".join)
def test_schemas_are_json(hoodwright: Run, words: tuple[str, str]) -> None:
    done = hoodwright(*words)
    assert done.returncode == 0
    assert json.loads(done.stdout)["$schema"].startswith("https://json-schema.org/")


@pytest.mark.parametrize("shell", ["bash", "zsh", "tcsh"])
def test_completion_knows_the_commands(hoodwright: Run, shell: str) -> None:
    done = hoodwright("completion", shell)
    assert done.returncode == 0
    assert all(name.encode() in done.stdout for name in COMMANDS)
