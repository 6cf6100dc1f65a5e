"""A trainer's way from the first screen to the printed worksheet, by keyboard; and each screen for a class."""

from __future__ import annotations

from pathlib import Path

from textual.widgets._footer import FooterKey

from schedules.templates import job_template, sheet_template
from tests.stage import NARROW, WIDE, sample_job, staged
from wizard.screens.lesson import LessonScreen
from wizard.screens.practice import PracticeScreen
from wizard.screens.slides import SlidesScreen
from wizard.screens.story import StoryScreen


async def test_a_trainer_goes_from_the_start_to_a_printed_worksheet(site: Path) -> None:
    (site / "sheet.toml").write_text(sheet_template(), encoding="utf-8")
    (site / "job.toml").write_text(job_template(), encoding="utf-8")
    async with staged(size=NARROW) as stage:
        await stage.press("L")
        await stage.until(lambda: isinstance(stage.screen, LessonScreen), "the things for a class")
        await stage.shows("Compare", "Demonstrations", "Story", "Practice", "Worksheet")

        await stage.press("down", "enter")
        await stage.until(lambda: isinstance(stage.screen, SlidesScreen), "the slides of the deck")
        await stage.shows("Demonstration 1 of 2", "CHOICES")
        await stage.press("right")
        await stage.shows("TO BEGIN WITH")
        await stage.press("right", "right")
        await stage.shows("Demonstration 2 of 2", "CABLES")
        await stage.press("left")
        await stage.shows("Demonstration 2 of 2", "CHOICES")
        await stage.press("escape")

        await stage.press("down", "enter")
        await stage.until(lambda: isinstance(stage.screen, StoryScreen), "the story")
        await stage.press("down", "down")
        await stage.shows("WHILE COOKING", "▸ fire", "OFF!")
        assert stage.text.count(" 0 ") == 1
        await stage.press("w")
        await stage.shows("Proved and written")
        (scene,) = site.glob("scene-2-*")
        assert {path.suffix for path in scene.iterdir()} == {".svg", ".png"}
        assert "DEAD NOW" in next(scene.glob("*.svg")).read_text(encoding="utf-8")
        await stage.press("escape")

        await stage.press("down", "enter")
        await stage.until(lambda: isinstance(stage.screen, PracticeScreen), "the practice")
        await stage.press("escape")

        await stage.press("down", "n")
        await stage.press("ctrl+u")
        await stage.type("42")
        await stage.press("enter", "enter")
        await stage.shows("Wrote", "worksheet-42")
        names = {path.name for path in (site / "worksheet-42").iterdir()}
        assert names == {"worksheet-42.pdf", "worksheet-42.html", "answers-42.pdf", "answers-42.html"}
        assert (site / "worksheet-42" / "worksheet-42.pdf").read_bytes().startswith(b"%PDF-")

        await stage.press("enter")
        await stage.shows("worksheet-42 is there already")


async def test_a_story_goes_back_and_forth_and_grows(site: Path) -> None:
    async with staged(sample_job("galley-gas", site), WIDE) as stage:
        await stage.press("L", "down", "down", "enter")
        await stage.until(lambda: isinstance(stage.screen, StoryScreen), "the story")
        await stage.shows("ARMED, NOTHING IN USE", "0 Armed")
        await stage.press("down")
        await stage.shows("COOKING, FAN AND LIGHT ON", ">>", "Exhaust fan runs")
        await stage.press("a")
        await stage.type("break 701")
        await stage.press("enter")
        await stage.shows("WRONG: wire 701 of W7 is open", "1 changed", "C Gas valve is open")
        await stage.shows("1 wire no longer live: 701", "▸ cooking            on      off     OFF!    on")
        await stage.press("ctrl+u")
        await stage.type("burn")
        await stage.press("enter")
        await stage.shows("found “burn”; allowed: state NAME, break WIRE")
        await stage.press("escape", "down")
        await stage.shows("FIRE WHILE COOKING", "Agent is released", "WRONG: wire 701")
        await stage.press("up", "x")
        assert "WRONG" not in stage.text
        await stage.press("down")
        await stage.shows("FIRE WHILE COOKING")
        assert "WRONG" not in stage.text


async def test_practice_grades_each_answer_with_its_reason(site: Path) -> None:
    async with staged(sample_job("galley-gas", site)) as stage:
        await stage.press("L", "down", "down", "down", "enter")
        await stage.until(lambda: isinstance(stage.screen, PracticeScreen), "the practice")
        screen = stage.screen
        assert isinstance(screen, PracticeScreen)
        first, second = screen._asked[:2]
        await stage.type(first.answer)
        await stage.press("enter")
        await stage.shows(f"RIGHT   wire {first.row.number}", "1 of 1 right")
        await stage.type("X77:1")
        await stage.press("enter")
        await stage.shows("WRONG", "there is no terminal X77:1", "1 of 2 right")
        await stage.press("down", "ctrl+e")
        await stage.shows("SCORE", "1 of 2 right, in per cent", f"wire {second.row.number}, answered X77:1")
        await stage.press("escape")
        await stage.until(lambda: isinstance(stage.screen, LessonScreen), "the things for a class")


async def test_two_choices_are_compared_step_by_step_and_drawn(site: Path) -> None:
    async with staged(sample_job("galley-gas", site)) as stage:
        await stage.press("c")
        for _ in range(12):
            if "Remote pull station" in stage.text.split("As it is")[1][:60]:
                break
            await stage.press("down")
        await stage.shows("with: Remote pull station", "W3")
        await stage.press("l")
        await stage.until(lambda: isinstance(stage.screen, SlidesScreen), "the slides")
        await stage.shows("CABLES", "+ W3: Pull station cable")
        await stage.press("right")
        await stage.shows("OPENINGS", "+ PSK1 for W3")
        await stage.press("escape", "w")
        await stage.until((site / "differs-with-pull-remote").is_dir, "the drawing")
        drawing = (site / "differs-with-pull-remote" / "differs-1.svg").read_text(encoding="utf-8")
        assert "+ ADDED" in drawing


async def test_another_revision_of_the_job_is_compared_too(site: Path) -> None:
    (site / "sheet.toml").write_text(sheet_template(), encoding="utf-8")
    written = job_template()
    (site / "job.toml").write_text(written, encoding="utf-8")
    other = written.replace('"gas-valve", "pull-remote"', '"gas-valve"', 1)
    (site / "later.toml").write_text(other, encoding="utf-8")
    async with staged(Path("job.toml"), WIDE) as stage:
        await stage.press("c", "end")
        await stage.shows("job: ", "(later.toml)", "Cables  1 removed")
        await stage.press("l")
        await stage.until(lambda: isinstance(stage.screen, SlidesScreen), "the slides")
        await stage.shows("CABLES", "− W4")


async def test_the_footer_fits_on_every_screen_for_a_class(site: Path) -> None:
    (site / "sheet.toml").write_text(sheet_template(), encoding="utf-8")
    (site / "job.toml").write_text(job_template(), encoding="utf-8")
    async with staged(Path("job.toml"), NARROW) as stage:

        def fits(where: str) -> None:
            width = sum(key.region.width for key in stage.screen.query(FooterKey))
            assert 0 < width <= 68, where

        await stage.press("L")
        fits("class")
        await stage.press("down", "down", "down", "n")
        fits("number")
        await stage.press("escape", "enter")
        fits("practice")
        await stage.press("escape", "up", "enter")
        fits("story")
        await stage.press("a")
        fits("event")
        await stage.press("escape", "escape", "up", "enter")
        await stage.until(lambda: isinstance(stage.screen, SlidesScreen), "the slides")
        fits("slides")
