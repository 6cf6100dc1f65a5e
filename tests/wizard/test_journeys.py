"""Whole journeys by keyboard, as the people on site make them."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from schedules.findings import Edit
from schedules.job.draft import read_draft
from schedules.rows.every import SCHEDULES
from tests.stage import NARROW, WIDE, Stage, sample_job, staged
from wizard.screens.compare import CompareScreen
from wizard.screens.enclosures import EnclosuresScreen
from wizard.screens.reach import ReachScreen
from wizard.screens.steps import StepsScreen

if TYPE_CHECKING:
    from pathlib import Path

    from textual.screen import Screen

SIZES = pytest.mark.parametrize("size", [NARROW, WIDE], ids=["narrow", "wide"])


@SIZES
async def test_a_first_time_user_builds_a_job_from_a_sheet(site: Path, size: tuple[int, int]) -> None:
    sample_job("galley-gas", site)
    (site / "galley-gas.toml").unlink()
    async with staged(size=size) as stage:
        await stage.shows("Mains voltage", "No job in this folder yet")
        await stage.press("n")
        await stage.shows("Equipment sheet", "first: equipment sheet")
        await stage.press("enter")
        await stage.shows("Marram wall hood", "sheets/marram.toml", "a sample that came with the program")
        await stage.press("down", "enter")
        await stage.answer("Alder Lane 14")
        await stage.press("enter", "down", "enter")
        await stage.answer("1/4 in")
        await stage.press("enter")
        await stage.until(lambda: isinstance(stage.screen, StepsScreen), "the job's steps")
        assert (site / "alder-lane-14.toml").is_file()
        await stage.shows("Alder Lane 14", "saved", "untouched: 2", "3 missing")

        await stage.press("f")
        await stage.press("enter")
        await stage.shows("Where is the exhaust fan?")
        await stage.press("enter")
        await stage.shows("Chosen: Fan inside the hood")
        assert stage.snapshot.draft.job.choices == ("fan-inside",)

        await stage.press("n")
        await stage.press("enter")
        await stage.shows("Gas valve")
        assert "gas-valve" in stage.snapshot.draft.job.choices
        cables = stage.snapshot.plan.derived.selection.cables if stage.snapshot.plan else ()
        assert "W7" in {cable.tag for cable in cables}
        written = read_draft(site / "alder-lane-14.toml")
        assert written.job.choices == ("fan-inside", "gas-valve")
        assert written.job.site.tolerance == 0.25


@SIZES
async def test_typed_measurements_settle_a_cable(site: Path, size: tuple[int, int]) -> None:
    """An answer that can't be read stays in its field; mended, it is taken and the next question comes."""
    path = sample_job("galley-gas", site)
    async with staged(path, size) as stage:
        await stage.press("right", "right")
        await stage.shows("The room", "Ceiling height")
        await stage.go("Ceiling height")
        await stage.press("enter")
        await stage.type("9")
        await stage.press("enter")
        await stage.shows("Found 9 without a unit")
        assert stage.field.value == "9"
        await stage.type(" ft")
        await stage.press("enter")
        await stage.shows("Ceiling height: 9 ft", "W5", "altered")
        assert stage.snapshot.draft.job.site.ceiling == 108.0
        assert read_draft(path).job.site.ceiling == 108.0


async def test_a_schedule_says_how_many_rows_it_has(site: Path) -> None:
    async with staged(sample_job("galley-gas", site)) as stage:
        plan = stage.snapshot.plan
        assert plan is not None
        await stage.press("tab", *["down"] * 9)
        await stage.shows("Terminations by enclosure", f"{len(SCHEDULES['terminations'](plan).rows)} rows")


async def test_what_was_typed_but_not_accepted_is_kept_and_marked(site: Path) -> None:
    async with staged(sample_job("galley-gas", site)) as stage:
        await stage.press("right", "right")
        await stage.go("Ceiling height")
        await stage.press("enter")
        await stage.type("eight feet")
        await stage.press("escape")
        await stage.shows("eight feet", "not accepted")
        await stage.press("down", "up", "enter")
        assert stage.field.value == "eight feet"


DOORS: list[tuple[str, type[Screen[None]], str]] = [
    ("t", EnclosuresScreen, "Terminal"),
    ("r", ReachScreen, "route"),
    ("c", CompareScreen, "As it is"),
]


@pytest.mark.parametrize(("key", "screen", "words"), DOORS, ids=["terminations", "reach", "compare"])
async def test_each_quick_door_opens_within_three_keys_of_the_start(
    site: Path, key: str, screen: type[Screen[None]], words: str
) -> None:
    sample_job("corner-electric", site)
    async with staged() as stage:
        await stage.press(key)
        await stage.until(lambda: isinstance(stage.screen, screen), screen.__name__)
        await stage.press("down")
        await stage.shows(words)
        await stage.press("escape")
        await stage.shows("Begin")


async def test_an_electrician_opens_one_enclosure_and_finds_a_wire(site: Path) -> None:
    sample_job("corner-electric", site)
    async with staged(size=WIDE) as stage:
        await stage.press("t", "down")
        await stage.shows("H  Hood")
        await stage.press("slash")
        await stage.type("X1:1L")
        await stage.press("enter")
        await stage.shows("101", "Q1:L", "1 found")


async def test_an_electrician_marks_ends_as_landed_and_the_job_keeps_it(site: Path) -> None:
    path = sample_job("corner-electric", site)
    before = read_draft(path).text
    async with staged() as stage:
        await stage.press("t", "down", "tab", "space")
        await stage.shows("Initials")
        await stage.answer("RA")
        await stage.press("enter")
        await stage.shows("1 of 25 ends landed", "done")
        built = read_draft(path).job.as_built[-1]
        assert (built.cable, built.landed, built.initials) == ("W1", ("X1:1L",), "RA")
        await stage.press("l")
        await stage.shows("row 1 of 25", "LANDED", "X1:1L")
        await stage.press("down", "space")
        await stage.shows("row 2 of 25", "2 of 25 landed")
        assert read_draft(path).job.as_built[-1].landed == ("X1:1L", "X1:1N")
        await stage.press("space", "up", "space")
        await stage.shows("not landed yet", "0 of 25")
        await stage.press("escape")
        await stage.shows("0 of 25 ends landed")
    assert read_draft(path).text == before


async def test_somebody_calls_measurements_from_a_ladder(site: Path) -> None:
    path = sample_job("galley-gas", site)
    draft = read_draft(path).edited(
        (Edit("place", "V", "along", None), Edit("place", "V", "out", None), Edit("place", "H", "up", None))
    )
    draft.save()
    async with staged(path) as stage:
        await stage.press("M")
        await stage.shows("Measuring", "1 of 3", "H  HOOD", "ABOVE THE FLOOR")
        await stage.type("5 10")
        await stage.press("enter")
        await stage.shows("Found 5 10")
        await stage.press("ctrl+u")
        await stage.type("5' 10")
        await stage.pilot.press("quotation_mark")
        await stage.press("enter")
        await stage.shows("2 of 3", "V  GAS VALVE")
        await stage.press("down")
        await stage.shows("3 of 3")
        await stage.type("3 in")
        await stage.press("enter")
        await stage.until(lambda: isinstance(stage.screen, StepsScreen), "the job's steps")
        await stage.settled()
        places = {place.enclosure: place for place in read_draft(path).job.place}
        assert (places["H"].up, places["V"].along, places["V"].out) == (70.0, None, 3.0)
        await stage.shows("1 missing")


async def test_an_installer_checks_a_reach(site: Path) -> None:
    sample_job("corner-electric", site)
    async with staged(size=WIDE) as stage:
        await stage.press("r", "down", "down")
        await stage.shows("factory cable", "to spare", "supplied")


async def go_to_finding(stage: Stage, code: str) -> None:
    """Open the findings and move down to the first one of this check."""
    await stage.press("f")
    plan = stage.snapshot.plan
    assert plan is not None
    codes = [finding.code for finding in plan.findings]
    await stage.press(*["down"] * codes.index(code))


async def test_from_a_finding_to_its_remedy_and_back(site: Path) -> None:
    path = sample_job("must-fail", site)
    async with staged(path, WIDE) as stage:
        await go_to_finding(stage, "cable-short")
        await stage.shows("W4 is", "short", "Remedy 1", "planned again: cures it")
        before = stage.snapshot.draft.text
        await stage.press("a")
        await stage.shows("Remedy for W4", "verdict reaches (was short)")
        plan = stage.snapshot.plan
        assert plan is not None
        assert [item for item in plan.findings if item.code == "cable-short"] == []
        assert read_draft(path).text != before
        await stage.press("u")
        await stage.shows("Taken back: Remedy for W4")
        assert stage.snapshot.draft.text == before
        assert read_draft(path).text == before
        await stage.press("U")
        await stage.shows("Given again: Remedy for W4")
        assert read_draft(path).text != before


async def test_a_finding_leads_to_the_field_that_bears_on_it(site: Path) -> None:
    async with staged(sample_job("must-fail", site), WIDE) as stage:
        await go_to_finding(stage, "cable-short")
        await stage.press("enter")
        await stage.shows("W4", "Route")
        assert stage.steps.step == "routes"
        await stage.press("enter")
        await stage.shows("overhead", "through cabinets")


async def test_an_impossible_choice_is_shown_with_its_reason_and_not_taken(site: Path) -> None:
    async with staged(sample_job("must-fail", site), WIDE) as stage:
        await stage.press("right", "n")
        await stage.shows("not possible: not with", "range is shut off by one means")
        before = stage.snapshot.draft.job.choices
        rows = stage.steps.questions.in_view
        barred = next(row for row in rows if row.has_class("-barred"))
        barred.focus()
        await stage.press("enter")
        assert stage.snapshot.draft.job.choices == before


async def test_a_job_is_taken_up_again_where_it_was_left(site: Path) -> None:
    path = sample_job("galley-gas", site)
    async with staged(path) as stage:
        await stage.press("right", "right")
        await stage.go("Ceiling height")
        await stage.answer("9 ft")
        await stage.shows("Ceiling height: 9 ft")
    async with staged() as stage:
        await stage.shows("Galley kitchen")
        await stage.press("enter")
        await stage.until(lambda: isinstance(stage.screen, StepsScreen), "the job's steps")
        assert stage.snapshot.draft.job.site.ceiling == 108.0


async def test_a_broken_job_is_told_with_every_mistake(site: Path) -> None:
    path = sample_job("galley-gas", site)
    text = path.read_text(encoding="utf-8").replace("format = 1", "format = 9")
    path.write_text(text.replace('tolerance = "1/4 in"', "tolerance = 0.25"), encoding="utf-8")
    async with staged(path) as stage:
        await stage.shows("2 mistakes", "site.tolerance", "format")
        await stage.press("escape")
        await stage.shows("Begin")


async def test_a_read_only_folder_is_told_and_nothing_is_lost_on_the_screen(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async with staged(sample_job("galley-gas", site), WIDE) as stage:

        def refuse(*_arguments: object) -> None:
            raise PermissionError(13, "Permission denied")

        monkeypatch.setattr("os.replace", refuse)
        await stage.press("right", "right")
        await stage.go("Ceiling height")
        await stage.answer("9 ft")
        await stage.shows("NOT SAVED", "Permission denied", "9 ft")
        monkeypatch.undo()
        await stage.answer("attic")


async def test_quitting_asks_nothing(site: Path) -> None:
    async with staged(sample_job("galley-gas", site)) as stage:
        await stage.pilot.press("q")
        await stage.until(lambda: not stage.app.is_running, "the program has ended")
