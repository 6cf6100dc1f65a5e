"""The same input gives the same bytes, whatever the order of Python's hashes.

By construction: two runs are compared with one another.
"""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

if TYPE_CHECKING:
    from collections.abc import Callable
    from subprocess import CompletedProcess

    Run = Callable[..., CompletedProcess[bytes]]

TOP = Path(__file__).parents[2]
JOBS = TOP / "samples" / "jobs"
TRAINING_ROOM = JOBS / "training-room.toml"
FAILING = JOBS / "must-fail.toml"


@pytest.mark.parametrize(
    "words",
    [
        ("check", FAILING),
        ("show", TRAINING_ROOM),
        ("show", TRAINING_ROOM, "--json"),
        ("show", FAILING, "--json"),
        ("explain", TRAINING_ROOM),
        ("compare", TRAINING_ROOM, FAILING),
        ("sheet", "schema"),
        ("job", "schema"),
        ("completion", "bash"),
    ],
    ids=lambda words: " ".join(word.stem if isinstance(word, Path) else word for word in words),
)
def test_two_hash_seeds_give_the_same_bytes(hoodwright: Run, words: tuple[str | Path, ...]) -> None:
    one, other = (hoodwright(*words, PYTHONHASHSEED=seed) for seed in ("1", "4242"))
    assert one.stderr == b""
    assert one.stdout
    assert (one.returncode, one.stdout, one.stderr) == (other.returncode, other.stdout, other.stderr)


@pytest.mark.parametrize("ending", ["svg", "dot"])
def test_two_hash_seeds_give_the_same_drawing(hoodwright: Run, tmp_path: Path, ending: str) -> None:
    for seed in ("1", "4242"):
        done = hoodwright("draw", TRAINING_ROOM, "-o", f"{seed}.{ending}", PYTHONHASHSEED=seed)
        assert done.returncode == 0
    one, other = (tmp_path / f"{seed}.{ending}" for seed in ("1", "4242"))
    assert one.read_bytes() == other.read_bytes()


def test_two_hash_seeds_start_the_same_job(hoodwright: Run, tmp_path: Path) -> None:
    sheet = TOP / "samples" / "sheets" / "fescue.toml"
    for seed in ("1", "4242"):
        words = ("new", f"{seed}.toml", "--sheet", sheet, "--name", "One", "--date", "2026-02-03")
        assert hoodwright(*words, PYTHONHASHSEED=seed).returncode == 0
    one, other = (tmp_path / f"{seed}.toml" for seed in ("1", "4242"))
    assert one.read_bytes() == other.read_bytes()
