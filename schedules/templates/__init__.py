"""Files to start from: a small, complete, invented equipment sheet, and a job that belongs to it."""

from __future__ import annotations

from pathlib import Path

_FOLDER = Path(__file__).parent


def sheet_template() -> str:
    """The text of a complete equipment sheet with a comment beside every key."""
    return (_FOLDER / "sheet.toml").read_text(encoding="utf-8")


def job_template() -> str:
    """The text of a complete job for that sheet, with a comment beside every key."""
    return (_FOLDER / "job.toml").read_text(encoding="utf-8")
