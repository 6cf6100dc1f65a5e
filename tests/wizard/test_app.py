"""How the program begins and ends: what it says, and what it hands on."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from schedules.cautions import CAUTIONS
from schedules.job.draft import read_draft
from tests.stage import sample_job, staged
from wizard.app import Wizard, run
from wizard.recent import found_jobs, found_sheets, sample_jobs
from wizard.screens.start import StartScreen
from wizard.screens.steps import StepsScreen

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture
def without_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """The program runs, and draws nowhere."""
    framework_run = Wizard.run
    monkeypatch.setattr(Wizard, "run", lambda app: framework_run(app, headless=True))


@pytest.mark.usefixtures("without_terminal")
def test_a_fault_of_the_program_is_handed_on_and_prints_nothing(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fail(_screen: StartScreen) -> None:
        raise ZeroDivisionError("planted")

    monkeypatch.setattr(StartScreen, "on_screen_resume", fail)
    with pytest.raises(ZeroDivisionError, match="planted"):
        run(None)
    printed = capsys.readouterr()
    assert "Traceback" not in printed.out + printed.err


@pytest.mark.usefixtures("without_terminal")
def test_the_last_words_are_the_cautions(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(StartScreen, "on_screen_resume", lambda screen: screen.app.exit())
    assert run(None) == 0
    assert capsys.readouterr().out.splitlines()[-len(CAUTIONS) :] == list(CAUTIONS)


def test_jobs_are_found_here_below_and_among_those_opened_lately(site: Path, tmp_path: Path) -> None:
    sample_job("galley-gas", site)
    below = site / "jobs"
    below.mkdir()
    (below / "other.toml").write_text('[job]\nname = "Other"\nsheet = "s"\n', encoding="utf-8")
    (site / "no-job.toml").write_text("answer = 42\n", encoding="utf-8")
    (site / "broken.toml").write_text("[job\n", encoding="utf-8")
    assert {found.name for found in found_jobs(site)} == {
        "Galley kitchen, gas cooktop over an electric oven",
        "Other",
    }
    assert {found.path.name for found in found_sheets(site)} >= {"marram.toml", "fescue.toml"}
    assert "Training room" in {found.name for found in sample_jobs()}


async def test_a_job_opened_lately_is_offered_in_another_folder(
    site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with staged(sample_job("galley-gas", site)) as stage:
        await stage.shows("Galley kitchen")
    elsewhere = tmp_path / "elsewhere"
    elsewhere.mkdir()
    monkeypatch.chdir(elsewhere)
    async with staged() as stage:
        await stage.shows("Galley kitchen", "…/site/galley-gas.toml")


async def test_a_list_of_lately_opened_jobs_that_cannot_be_kept_is_no_trouble(
    site: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    blocked = tmp_path / "file"
    blocked.write_text("", encoding="utf-8")
    monkeypatch.setenv("XDG_STATE_HOME", str(blocked))
    async with staged(sample_job("galley-gas", site)) as stage:
        await stage.shows("Galley kitchen")


async def test_a_copy_begins_another_job_and_leaves_the_first_alone(site: Path) -> None:
    path = sample_job("galley-gas", site)
    before = path.read_text(encoding="utf-8")
    async with staged() as stage:
        await stage.press("y")
        await stage.until(lambda: isinstance(stage.screen, StepsScreen), "the copy's steps")
        await stage.answer("Copied kitchen")
        await stage.shows("Copied kitchen")
    assert read_draft(site / "galley-gas-2.toml").job.job.name == "Copied kitchen"
    assert path.read_text(encoding="utf-8") == before


async def test_a_sample_is_copied_before_it_is_opened_and_once_however_often_the_key_is_pressed(
    site: Path,
) -> None:
    async with staged() as stage:
        stage.send("s", "s", "s")
        await stage.until(lambda: isinstance(stage.screen, StepsScreen), "the copy's steps")
        assert sum(isinstance(screen, StepsScreen) for screen in stage.app.screen_stack) == 1
        assert [file.name for file in site.glob("*.toml")] == ["corner-electric.toml"]
        await stage.press("ctrl+c")
        await stage.shows("q leaves. Everything is saved.")
