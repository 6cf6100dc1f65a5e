"""Drawings from the wizard: shown in characters, written proved, opened, stopped, never over another's file."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

import pytest

from schedules.drawings import files
from schedules.drawings.files import drawing_files
from tests.stage import NARROW, WIDE, sample_job, staged
from wizard.screens.drawings import DrawingsScreen
from wizard.screens.steps import StepsScreen
from wizard.widgets import diagram_panel

if TYPE_CHECKING:
    from pathlib import Path

SIZES = pytest.mark.parametrize("size", [NARROW, WIDE], ids=["narrow", "wide"])


@SIZES
async def test_each_enclosure_is_drawn_in_characters(site: Path, size: tuple[int, int]) -> None:
    async with staged(sample_job("galley-gas", site), size) as stage:
        await stage.press("d", "g")
        await stage.until(lambda: isinstance(stage.screen, DrawingsScreen), "the drawings")
        await stage.shows("Every cable, from box to box", "PB  Load center", "─┐")
        await stage.press("right_square_bracket", "right_square_bracket")
        await stage.shows("all that lands here", "101  BK to PB.")
        await stage.press("end")
        await stage.shows("Interlock of", "service L2 ──┤×├ Q6", "breaker pole")
        await stage.press("escape")
        await stage.until(lambda: isinstance(stage.screen, StepsScreen), "the steps")


async def test_drawings_are_written_beside_the_job_and_opened_and_never_over_others(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[Path] = []

    def view(file: Path) -> str:
        opened.append(file)
        return "no viewer could be started"

    monkeypatch.setattr(diagram_panel, "open_in_viewer", view)
    async with staged(sample_job("must-fail-bracket", site)) as stage:
        await stage.press("d", "w")
        await stage.shows("Proved and written")
        written = sorted(site.glob("*point-to-point*")) + sorted(site.glob("*overview*"))
        assert {file.suffix for file in written} == {".svg", ".png"}
        await stage.press("o")
        await stage.shows("viewer could")
        assert opened[0].suffix == ".svg"
    written[0].write_text("mine", encoding="utf-8")
    async with staged(site / "must-fail-bracket.toml") as stage:
        await stage.press("d", "w")
        await stage.shows("These drawings are there already", "Nothing is replaced unasked.")
        await stage.press("enter")
        assert written[0].read_text(encoding="utf-8") == "mine"
        await stage.press("w", "down", "enter")
        await stage.shows("Proved and written")
        assert written[0].read_bytes() != b"mine"


async def test_escape_stops_drawing_and_nothing_is_written(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun, go_on = threading.Event(), threading.Event()

    def slow(*arguments: object) -> dict[str, str | bytes]:
        begun.set()
        assert go_on.wait(30)
        return {}

    assert files.drawing_files is drawing_files
    monkeypatch.setattr(files, "drawing_files", slow)
    async with staged(sample_job("galley-gas", site)) as stage:
        await stage.press("d")
        await stage.pilot.press("w")
        await stage.until(begun.is_set, "work under way")
        await stage.shows("Drawing and proving point-to-point", "esc stops")
        await stage.pilot.press("escape")
        go_on.set()
        await stage.settled()
        await stage.shows("Stopped. Nothing was written.")
        assert not list(site.glob("*.svg"))
