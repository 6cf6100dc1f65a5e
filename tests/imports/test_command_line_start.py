"""What a command loads: help loads the standard library only, a check loads nothing of screens or drawings."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from wizard.cli import COMMANDS

TOP = Path(__file__).parents[2]
TEMPLATE_JOB = TOP / "schedules" / "templates" / "job.toml"
TEMPLATE_SHEET = TOP / "schedules" / "templates" / "sheet.toml"

WRITERS = {"typst", "fontpkg_arimo", "jinja2", "xlsxwriter", "segno"}
HEAVY = {"textual", "rich", "pint", "networkx", "numpy", "pydantic", "tomlkit", "graphviz", "shtab"} | WRITERS
SCREENS_AND_DRAWINGS = {"textual", "rich", "pint", "graphviz", "shtab"}


def loaded_by(*words: str | Path) -> set[str]:
    """Packages in memory after one command line ran in a fresh interpreter."""
    code = (
        "import sys\n"
        "from wizard.__main__ import main\n"
        f"main({list(map(str, words))!r})\n"
        "print(*{name.partition('.')[0] for name in sys.modules}, file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=TOP, capture_output=True, text=True, check=True)
    return set(done.stderr.split())


@pytest.mark.parametrize(
    "words",
    [
        ("--help",),
        ("--version",),
        *((command.name, "--help") for command in COMMANDS),
        ("sheet", "template"),
        ("job", "template"),
    ],
    ids=" ".join,
)
def test_help_and_templates_load_nothing_heavy(words: tuple[str, ...]) -> None:
    assert loaded_by(*words) & HEAVY == set()


@pytest.mark.parametrize(
    "words",
    [
        ("check", TEMPLATE_JOB),
        ("show", TEMPLATE_JOB),
        ("show", TEMPLATE_JOB, "--json"),
        ("reach", TEMPLATE_JOB),
        ("explain", TEMPLATE_JOB, "W3"),
        ("compare", TEMPLATE_JOB, TEMPLATE_JOB),
        ("sheet", "check", TEMPLATE_SHEET),
    ],
    ids=lambda words: words[0],
)
def test_a_command_loads_neither_screens_nor_drawings(words: tuple[str | Path, ...]) -> None:
    assert loaded_by(*words) & (SCREENS_AND_DRAWINGS | WRITERS) == set()


def test_a_package_loads_what_its_parts_need_and_no_screens(tmp_path: Path) -> None:
    loaded = loaded_by("pack", TEMPLATE_JOB, "-o", tmp_path / "lists", "--parts", "csv,json")
    assert loaded & {"textual", "rich", "pint", "typst", "fontpkg_arimo", "jinja2", "xlsxwriter"} == set()
    assert loaded_by("pack", TEMPLATE_JOB, "-o", tmp_path / "all") & WRITERS == WRITERS


@pytest.mark.parametrize("words", [("sheet", "check", TEMPLATE_SHEET), ("check", TEMPLATE_JOB)])
def test_a_check_needs_no_graph_library(words: tuple[str | Path, ...]) -> None:
    assert "networkx" not in loaded_by(*words)


def test_a_check_that_tries_no_remedy_loads_nothing_that_changes_a_job() -> None:
    assert "tomlkit" not in loaded_by("check", TOP / "samples" / "jobs" / "training-room.toml")


def test_the_probe_sees_what_is_loaded() -> None:
    assert {"pydantic", "networkx"} <= loaded_by("show", TEMPLATE_JOB, "work")
