"""What the library must not load before it is needed, proved in a fresh interpreter.

By construction: the interpreter's own list of loaded modules is asked.
"""

from __future__ import annotations

import subprocess
import sys

import pytest

HEAVY = ("networkx", "pint", "pydantic", "textual", "rich", "numpy", "graphviz", "typst", "tomlkit")


def loaded_after(code: str) -> set[str]:
    """The heavy packages in memory after the code ran."""
    probe = f"{code}\nimport sys\nprint(*(name for name in {HEAVY!r} if name in sys.modules))"
    done = subprocess.run([sys.executable, "-c", probe], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


@pytest.mark.parametrize(
    "module",
    [
        "schedules",
        "schedules.quantities.units",
        "schedules.quantities.sizes",
        "schedules.text",
        "schedules.files.toml_reading",
    ],
)
def test_importing_loads_nothing_heavy(module: str) -> None:
    assert loaded_after(f"import {module}") == set()


def test_reading_canonical_units_and_lengths_needs_no_pint() -> None:
    code = (
        "from schedules.quantities.units import Dimension, parse_length, parse_quantity\n"
        "parse_length('2.53 m'); parse_quantity('120 V', Dimension.VOLTAGE)"
    )
    assert loaded_after(code) == set()


def test_the_probe_sees_what_is_loaded() -> None:
    code = "from schedules.quantities.units import Dimension, as_pint\nas_pint(1.0, Dimension.VOLTAGE)"
    assert "pint" in loaded_after(code)
