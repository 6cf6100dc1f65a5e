"""Keys that all arrive at one moment, as when they are pasted: each acts where those before it have led."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from textual.widgets import Input, OptionList

from schedules.templates import job_template, sheet_template
from tests.stage import staged

if TYPE_CHECKING:
    from collections.abc import Callable

    from tests.stage import Stage


@pytest.fixture
def job(site: Path) -> Path:
    """The example that the program itself gives."""
    (site / "sheet.toml").write_text(sheet_template(), encoding="utf-8")
    (site / "job.toml").write_text(job_template(), encoding="utf-8")
    return Path("job.toml")


def stands(words: str) -> Callable[[Stage], bool]:
    """That this stands in the field of the screen in view, the cursor behind its first letter."""

    def holds(stage: Stage) -> bool:
        field = stage.screen.focused
        return isinstance(field, Input) and (field.value, field.cursor_position) == (words, 1)

    return holds


EDITED = ("2", "9", "backspace", "3", "4", "5", "left", "left", "delete", "home", "1", "end", "backspace")
"""What leaves 123, and then only the cursor is moved."""

EDITING = (*EDITED, "5", "left", "left", "left")
BURSTS: dict[str, tuple[tuple[str, ...], Callable[[Stage], bool]]] = {
    "a job's answer": (("right", "right", "down", "down", "enter", "ctrl+u", *EDITING), stands("1235")),
    "measuring": (("M", "ctrl+u", *EDITING), stands("1235")),
    "search in a table": (("s", "slash", *EDITING), stands("1235")),
    "search in an enclosure": (("t", "slash", *EDITING), stands("1235")),
    "one of many": (("I", "b", *EDITING), stands("1235")),
    "a class's number": (("L", *["down"] * 3, "n", "ctrl+u", *EDITING), stands("1235")),
    "practice": (("L", *["down"] * 3, "enter", *EDITING), stands("1235")),
    "a story's event": (("L", *["down"] * 2, "enter", "a", *EDITING), stands("1235")),
}


@pytest.mark.parametrize("where", BURSTS)
async def test_keys_of_one_burst_act_in_their_order(job: Path, where: str) -> None:
    keys, holds = BURSTS[where]
    async with staged(job) as stage:
        stage.send(*keys)
        await stage.settled()
        assert holds(stage), stage.text


async def test_two_numbers_called_in_one_breath_are_two_answers(job: Path) -> None:
    async with staged(job) as stage:
        stage.send("M", "ctrl+u", *"0.3 im", "backspace", "n", "enter", "ctrl+u", *"8.1 ft", "enter")
        await stage.settled()
        assert stage.steps.session.now.draft.text.count("0.3 in") == 1
        assert stage.steps.session.now.draft.text.count("8.1 ft") == 1


async def test_what_is_chosen_is_what_the_words_before_left(job: Path) -> None:
    async with staged(job) as stage:
        stage.send("I", "b", *"103", "backspace", "2", "enter")
        await stage.shows("WHAT IF wire 102 of W1 is open")
        assert stage.steps.query(OptionList)
