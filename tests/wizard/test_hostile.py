"""Text from a sheet, a job or a keyboard shows as it stands: no markup, no link, no end of the program."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest
import tomlkit

from schedules.job.draft import read_draft
from schedules.sheet.reading import read_sheet
from tests.screen_text import segments
from tests.stage import NARROW, WIDE, Stage, sample_job, staged
from wizard.steps import STEPS

if TYPE_CHECKING:
    from pathlib import Path

HOSTILE = "[/x] [@click=app.quit]go[/] [red]{a}"
WORDS = frozenset(
    {
        "name",
        "title",
        "why",
        "note",
        "reason",
        "function",
        "place_hint",
        "carton",
        "source",
        "revision",
        "prepared_by",
        "directory",
        "spaces",
    }
)
"""Keys of sheets and jobs that hold free words."""

SIZES = pytest.mark.parametrize("size", [NARROW, WIDE], ids=["narrow", "wide"])


def spoil(node: Any) -> None:
    """Put hostile text before every free text of a document."""
    if isinstance(node, dict):
        for key, value in node.items():
            if key in WORDS and isinstance(value, str):
                node[key] = f"{HOSTILE} {value}"[:120].strip()
            else:
                spoil(value)
    elif isinstance(node, list):
        for item in node:
            spoil(item)


def spoilt_job(name: str, folder: Path) -> Path:
    path = sample_job(name, folder)
    sheet = read_draft(path).sheet_path
    for file in (path, sheet):
        document = tomlkit.parse(file.read_text(encoding="utf-8"))
        spoil(document)
        file.write_text(tomlkit.dumps(document), encoding="utf-8")
    read_sheet(sheet)
    return path


def without_links(stage: Stage) -> bool:
    """Whether nothing on the screen would run an action when it is clicked."""
    pieces = (piece for line in segments(stage.app) for piece in line)
    return not any("@click" in (piece.style.meta if piece.style is not None else {}) for piece in pieces)


async def holds(stage: Stage) -> None:
    """The program runs, and whatever is on the screen is only words."""
    assert stage.app.is_running
    assert without_links(stage)


@SIZES
async def test_hostile_text_passes_through_every_screen(site: Path, size: tuple[int, int]) -> None:
    path = spoilt_job("must-fail", site)
    async with staged(path, size) as stage:
        await stage.shows("[/x]")
        for step in STEPS:
            stage.steps.action_step(step.id)
            await stage.settled()
            await holds(stage)
            await stage.press("down", "down", "up")
            await holds(stage)
        for asking in STEPS[1:6]:
            stage.steps.action_step(asking.id)
            await stage.settled()
            for _ in range(4):
                await stage.press("n")
                await holds(stage)
        for key in ("t", "r", "c", "e"):
            await stage.press(key, "down")
            await holds(stage)
            await stage.press("escape")
        await stage.press("question_mark")
        await holds(stage)
        await stage.press("escape", "ctrl+p")
        await holds(stage)
        await stage.press("escape")
        await stage.press("f", "a", "e")
        await holds(stage)


@SIZES
async def test_hostile_names_on_the_first_screen(site: Path, size: tuple[int, int]) -> None:
    spoilt_job("galley-gas", site)
    (site / "[b]name[x].toml").write_bytes((site / "galley-gas.toml").read_bytes())
    async with staged(size=size) as stage:
        await stage.shows("[/x] [@click=app.quit]", "[b]name[x].toml")
        await holds(stage)
        await stage.press("n", "enter")
        await stage.shows("[/x] [@click=app.quit]")
        await holds(stage)


async def test_hostile_choices_and_their_reasons(site: Path) -> None:
    async with staged(spoilt_job("must-fail", site), WIDE) as stage:
        stage.steps.action_step("options")
        await stage.settled()
        await stage.press("n")
        await stage.shows("not possible:", "[/x] [@click")
        await stage.press("up", "enter", "enter")
        await holds(stage)


async def test_hostile_typing_is_kept_as_words(site: Path) -> None:
    path = sample_job("galley-gas", site)
    async with staged(path, WIDE) as stage:
        await stage.press("enter")
        stage.field.value = HOSTILE
        await stage.press("enter")
        await stage.shows(f"Name of the job: {HOSTILE}")
        await holds(stage)
        assert read_draft(path).job.job.name == HOSTILE
        await stage.press("up", "enter")
        stage.field.value = "a\u202eb\x1b[31m"
        await stage.press("enter")
        await stage.shows("visible characters only")
        await holds(stage)
        assert read_draft(path).job.job.name == HOSTILE


async def test_a_hostile_file_is_told_without_obeying_it(site: Path) -> None:
    path = site / "bad.toml"
    path.write_text(
        'format = 1\n"[/x]" = "\\u001b[31m[@click=app.quit]go[/]"\n[job]\nsheet = "s"\n', encoding="utf-8"
    )
    async with staged(path) as stage:
        await stage.shows("can't be used")
        await holds(stage)
        assert "\x1b" not in stage.text


async def test_hostile_text_before_a_class(site: Path) -> None:
    async with staged(spoilt_job("must-fail", site)) as stage:
        await stage.press("L", "down", "down", "enter", "down")
        await holds(stage)
        await stage.press("a")
        await stage.type("break [/x]")
        await stage.press("enter")
        await stage.shows("no wire [/x]")
        await holds(stage)
        await stage.press("escape", "escape", "down", "enter")
        await stage.type("[@click=app.quit]")
        await stage.press("enter", "ctrl+e")
        await stage.shows("SCORE")
        await holds(stage)
        await stage.press("escape", "up", "up", "up", "enter", "down")
        await stage.press("l")
        await holds(stage)
