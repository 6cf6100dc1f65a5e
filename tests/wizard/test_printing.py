"""The package from the wizard: the same bytes as the command's, nothing replaced unasked, stopped without a trace."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

import pytest

from schedules.package import making
from schedules.package.parts import EVERY_PART, Part
from schedules.package.record import NAME
from tests.stage import NARROW, WIDE, Stage, sample_job, staged
from wizard.__main__ import main
from wizard.widgets import print_panel
from wizard.widgets.print_panel import PrintPanel

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from schedules.package.packing import Order
    from schedules.plan import Plan

SIZES = pytest.mark.parametrize("size", [NARROW, WIDE], ids=["narrow", "wide"])


async def want(stage: Stage, folder: str) -> None:
    """Open the print step and ask for one small file for the owner, in this folder."""
    await stage.press("P")
    panel = stage.steps.query_one(PrintPanel)
    for key, value in (("reader", "owner"), ("parts", ["json"]), ("folder", folder)):
        panel.answer(key, value)
    await stage.settled()


async def want_by_keys(stage: Stage, folder: str) -> None:
    """The same, by keyboard."""
    await stage.press("P", *["up"] * 4)
    await stage.go("For whom")
    await stage.press("enter", *["down"] * 5, "enter")
    await stage.go("Which files")
    switch_off = [("enter", "down") if part is not Part.JSON else ("down",) for part in EVERY_PART]
    await stage.press("enter", *(key for keys in switch_off for key in keys), "escape")
    await stage.go("Folder")
    await stage.press("enter", "ctrl+u")
    await stage.type(folder)
    await stage.press("enter")
    await stage.shows("Owner", "json", folder)
    await stage.go("Make the package")


def files_in(folder: Path) -> dict[str, bytes]:
    return {file.name: file.read_bytes() for file in folder.rglob("*") if file.is_file()}


@SIZES
async def test_a_package_is_made_and_never_replaced_unasked(
    site: Path, size: tuple[int, int], monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[Path] = []

    def view(file: Path) -> str:
        opened.append(file)
        return ""

    monkeypatch.setattr(print_panel, "open_in_viewer", view)
    path = sample_job("galley-gas", site)
    async with staged(path, size) as stage:
        await stage.press("P", "o")
        await stage.shows("Nothing is written yet")
        await (want_by_keys if size == WIDE else want)(stage, "out")
        await stage.press("enter")
        await stage.shows("Written: 2 files", "plan.json", "Mains voltage")
        await stage.press("o")
        assert opened == [site / "out" / "plan.json"]
        before = files_in(site / "out")
        await stage.press("enter")
        await stage.shows("holds an earlier package", "Nothing is replaced unless you say so.")
        await stage.press("enter")
        assert "Nothing was written" not in stage.text
        await stage.press("enter", "down", "enter")
        await stage.shows("Written: 2 files")
        assert files_in(site / "out") == before
        (site / "out" / "mine.txt").write_text("mine", encoding="utf-8")
        await stage.press("enter")
        await stage.shows("a file that the earlier package didn't have")
    assert (site / "out" / "mine.txt").read_text(encoding="utf-8") == "mine"


async def test_it_is_the_same_package_as_the_commands(site: Path) -> None:
    path = sample_job("galley-gas", site)
    async with staged(path) as stage:
        await want(stage, "by-wizard")
        await stage.press("enter")
        await stage.shows("Written: 2 files")
    words = ["pack", str(path), "-o", "by-command", "--for", "owner", "--parts", "json"]
    assert main(words) == 0
    assert files_in(site / "by-wizard") == files_in(site / "by-command")
    assert NAME in files_in(site / "by-wizard")


async def test_escape_stops_the_work_and_nothing_is_written(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun, go_on = threading.Event(), threading.Event()

    def slow(_plan: Plan, _order: Order, tell: Callable[[str], None]) -> Mapping[str, bytes]:
        tell("the first part")
        begun.set()
        assert go_on.wait(30)
        tell("the second part")
        return {"never": b"written"}

    monkeypatch.setattr(making, "pack", slow)
    async with staged(sample_job("galley-gas", site)) as stage:
        await want(stage, "out")
        await stage.pilot.press("enter")
        await stage.until(begun.is_set, "work under way")
        await stage.shows("Making: the first part", "esc stops")
        await stage.pilot.press("escape")
        go_on.set()
        await stage.settled()
        await stage.shows("Stopped. Nothing was written.")
        assert not (site / "out").exists()
        assert stage.steps.step == "print", "the first escape stops the work, it does not leave the job"


async def test_whatever_fails_is_told_and_nothing_is_written(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_arguments: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(making, "put", lambda *_arguments, **_options: fail())
    async with staged(sample_job("galley-gas", site)) as stage:
        await want(stage, "out")
        await stage.press("enter")
        await stage.shows("Nothing was written.", "No space left on")
        assert not (site / "out").exists()
