"""Each screen as text, at 80×24 and 160×50, held against the text that was kept and looked at.

After a wanted change: UPDATE_SCREENS=1 pytest tests/wizard/test_screens.py, then read the difference before keeping it.
"""

from __future__ import annotations

from pathlib import Path

import pytest

from schedules.templates import job_template, sheet_template
from tests.screen_text import compare_with_kept
from tests.stage import NARROW, WIDE, Stage, staged
from wizard.app import Wizard
from wizard.steps import STEPS
from wizard.widgets import commissioning_panel
from wizard.widgets.step_panels import PANELS

KEPT = Path(__file__).parent / "screens"
SIZES = {"80x24": NARROW, "160x50": WIDE}


def _to_next(step: str) -> tuple[str, ...]:
    """The key to the step after this one; a panel may have another use for the arrows."""
    return ("n",) if step in PANELS else ("right",)


WALKS: dict[str, tuple[tuple[str, tuple[str, ...]], ...]] = {
    "start": (
        ("start", ()),
        ("start-help", ("question_mark",)),
        ("new-job", ("escape", "n")),
        ("new-job-refused", ("down", "enter", "enter", "down", "down", "down", "enter")),
        ("terminations", ("escape", "t", "down")),
        ("terminations-search", ("slash", "1", "0", "enter")),
        ("terminations-large", ("l",)),
        ("reach", ("escape", "escape", "r", "down", "down")),
        ("compare", ("escape", "c")),
        ("tour", ("escape", "g")),
        ("tour-effect", ("right", "right", "right")),
    ),
    "sheet": (
        ("sheet-list", ("w",)),
        ("sheet", ("enter",)),
        ("sheet-entry", (*["down"] * 8, "enter", "enter")),
        ("sheet-wanting", ("escape", *["down"] * 5, "enter")),
        ("sheet-making", ("u", "p")),
    ),
    "steps": tuple(
        (step.id, _to_next(STEPS[place - 1].id) if place else ()) for place, step in enumerate(STEPS)
    ),
    "answering": (
        ("room-field", ("right", "right", "down", "down", "enter")),
        ("room-refused", ("9", "enter")),
        ("room-unaccepted", ("escape",)),
        ("room-effect", ("enter", "ctrl+u", "9", "space", "f", "t", "enter")),
        ("effect", ("e",)),
        ("room-undone", ("escape", "u")),
        ("route-list", ("right", "right", "enter")),
        ("schedule-list", ("escape", "s", "l")),
        ("measure", ("escape", "M")),
        ("steps-help", ("escape", "question_mark")),
        ("palette", ("escape", "ctrl+p")),
        ("drawings", ("escape", "d", "g")),
        ("signing", ("escape", "f", "i")),
    ),
    "site": (
        ("interlocks-large", ("I", "l", "down")),
        ("what-if-list", ("escape", "b")),
        ("what-if", ("1", "0", "1", "enter")),
        ("test-refused", ("x", "T", "end", "enter")),
        ("test-initials", ("home", "enter")),
        ("test-typing", ("enter", "R", "A", "enter", "enter")),
        ("test-failed", ("0", "enter", "9", "enter")),
        ("test-accepting", ("a",)),
        ("diagnose-stray", ("escape", "D")),
        ("diagnose", ("escape", "u", "D")),
        ("diagnose-other", ("tab",)),
        ("diagnose-refused", ("escape", "o", "f", "f", "enter")),
        ("diagnose-found", ("ctrl+u", "g", "a", "s", "space", "o", "f", "f", "enter")),
    ),
}


@pytest.fixture
def small_job(site: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The example that the program itself gives for a sheet and a job: small, and written to be read."""
    monkeypatch.setattr(commissioning_panel, "today", lambda: "2026-04-12")
    monkeypatch.setattr(Wizard, "NOTIFICATION_TIMEOUT", 3600)
    (site / "sheet.toml").write_text(sheet_template(), encoding="utf-8")
    (site / "job.toml").write_text(job_template(), encoding="utf-8")
    return Path("job.toml")


async def walk(stage: Stage, chapter: str, size: str) -> list[str]:
    """Go through the screens of a chapter; give what differs from what was kept."""
    differences = []
    for name, keys in WALKS[chapter]:
        await stage.press(*keys)
        await stage.still()
        try:
            compare_with_kept(stage.app, KEPT / size / f"{name}.txt")
        except AssertionError as difference:
            differences.append(f"{name}\n{difference}")
        # What one screen said in passing is no part of the next.
        stage.app.clear_notifications()
    return differences


@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("chapter", WALKS)
async def test_screens_are_as_they_were_kept(small_job: Path, chapter: str, size: str) -> None:
    async with staged(None if chapter in ("start", "sheet") else small_job, SIZES[size]) as stage:
        assert await walk(stage, chapter, size) == []


def test_no_text_is_kept_of_a_screen_that_is_gone() -> None:
    names = {name for chapter in WALKS.values() for name, _ in chapter}
    for size in SIZES:
        assert {file.stem for file in (KEPT / size).glob("*.txt")} == names
