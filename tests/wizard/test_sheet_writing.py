"""A person writes an equipment sheet from a manual, by keyboard."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from schedules.sheet.drafting import read_sheet_draft
from schedules.sheet.starting import EMPTY, start_sheet
from schedules.templates import sheet_template
from tests.stage import NARROW, WIDE, Stage, staged, staged_sheet
from wizard.screens import sheet as sheet_screens
from wizard.screens.making import MakingScreen
from wizard.screens.sheet import SheetScreen

if TYPE_CHECKING:
    from pathlib import Path

HOSTILE = "[/red][@click=app.quit]x[/]"


@pytest.fixture
def generic(site: Path) -> Path:
    """The generic sheet under a name of its own."""
    file = site / "hood.toml"
    file.write_text(start_sheet(sheet_template(), file, "Wall hood").text, encoding="utf-8")
    return file


def sheet_screen(stage: Stage) -> SheetScreen:
    """The screen on which the sheet is written."""
    assert isinstance(stage.screen, SheetScreen)
    return stage.screen


async def into(stage: Stage, *labels: str) -> None:
    """Go into these lines, one below the other."""
    for label in labels:
        await stage.go(label)
        await stage.press("enter")


async def test_a_sheet_is_begun_from_the_first_screen(site: Path) -> None:
    async with staged(size=NARROW) as stage:
        await stage.press("w")
        await stage.shows("Write an equipment sheet", "A new sheet")
        await stage.press("enter")
        await stage.shows("New equipment sheet", "Begin from")
        await stage.answer("Hood of the attic")
        await stage.press("enter", "enter", "enter")
        await stage.shows("Equipment sheet", "hood-of-the-attic.toml", "Nothing to mend")
        await stage.shows("With all that fits together it makes", "terminations")
        draft = read_sheet_draft(site / "hood-of-the-attic.toml")
        assert draft.sound
        assert draft.at(("sheet", "name")) == "Hood of the attic"


async def test_a_value_is_written_refused_in_words_and_taken_back(generic: Path) -> None:
    async with staged_sheet(generic, NARROW) as stage:
        await into(stage, "Cables", "3  Gas valve cable")
        await stage.go("Length")
        await stage.answer("12")
        await stage.shows('Found "12". Allowed:', "unit")
        assert read_sheet_draft(generic).at(("cable", 2, "length")) == "10 ft"
        await stage.press("backspace", "backspace")
        await stage.type("12 ft")
        await stage.press("enter")
        await stage.shows("Length: 12 ft")
        assert read_sheet_draft(generic).at(("cable", 2, "length")) == "12 ft"
        await stage.press("u")
        await stage.shows("Taken back: Length: 12 ft")
        assert read_sheet_draft(generic).at(("cable", 2, "length")) == "10 ft"
        await stage.press("U")
        assert read_sheet_draft(generic).at(("cable", 2, "length")) == "12 ft"


async def test_an_entry_is_added_and_the_check_leads_to_what_it_lacks(generic: Path) -> None:
    async with staged_sheet(generic, WIDE) as stage:
        await into(stage, "Openings", "Add one: opening")
        await stage.shows("3 to mend", "Tag", "missing")
        await stage.press("escape", "escape")
        assert sheet_screen(stage).place == ()
        await stage.press("f")
        assert sheet_screen(stage).place == ("opening", 4)
        await stage.press("enter")
        await stage.shows("PB  Load center", "H  Hood")
        await stage.press("down", "enter")
        await stage.go("Kind")
        await stage.press("enter", "enter")
        await stage.go("Trade size")
        await stage.answer("3/4")
        await stage.go("Compartment")
        await stage.press("enter")
        await stage.shows("limited")
        await stage.press("enter", "f")
        await stage.answer("HK4")
        await stage.shows("Nothing to mend")
        assert read_sheet_draft(generic).sound


async def test_an_empty_sheet_lists_all_that_is_wanted(site: Path) -> None:
    file = site / "empty.toml"
    file.write_text(start_sheet(EMPTY, file, "Empty").text, encoding="utf-8")
    async with staged_sheet(file, WIDE) as stage:
        await stage.shows("to mend", "Enclosures  missing", "Cables  missing")
        await stage.press("p")
        await stage.shows("It makes nothing yet")
        await into(stage, "Enclosures", "Add one: enclosure")
        await stage.shows("Metal body", "Wire from opening to terminals")


async def test_a_kind_is_chosen_for_what_is_inside_a_device(generic: Path) -> None:
    async with staged_sheet(generic, WIDE) as stage:
        await into(
            stage, "Devices and terminals", "S1  Pull switch", "What is inside", "Add one: what is inside"
        )
        await stage.shows("link", "contact", "resistor")
        await stage.press("down", "down", "enter")
        await stage.shows("Shelf state", "Operates while")
        assert read_sheet_draft(generic).at(("device", 4, "element", 1)) == {"kind": "contact"}


async def test_a_condition_is_chosen_from_what_was_declared(generic: Path) -> None:
    async with staged_sheet(generic, WIDE) as stage:
        await into(stage, "Delivery", "hood  Hood, suppression fitted", "Only with", "With all of")
        await stage.shows("gas-valve", "pull-remote")
        await stage.press("enter", "escape")
        await stage.shows("With all of: gas-valve")
        assert read_sheet_draft(generic).at(("part", 0, "when")) == {"all": ["gas-valve"]}
        await stage.press("escape")
        await stage.go("Only with")
        await stage.press("x")
        assert read_sheet_draft(generic).at(("part", 0, "when")) is None


async def test_what_a_terminal_must_hold_may_hang_on_choices(generic: Path) -> None:
    async with staged_sheet(generic, WIDE) as stage:
        await into(stage, "Devices and terminals", "S1  Pull switch", "Terminals", "1  pull loop +")
        await stage.go("Must be landed")
        await stage.press("enter", "enter")
        await stage.shows("With all of", "With one of", "Without")
        await stage.press("escape")
        await stage.go("Must be landed")
        await stage.press("enter", "down", "down", "enter")
        assert read_sheet_draft(generic).at(("device", 4, "terminal", 0, "land")) == "never"


async def test_a_name_that_nothing_declares_stands_beside_its_field(generic: Path) -> None:
    text = generic.read_text(encoding="utf-8").replace('enclosure = "PS", fixed', 'enclosure = "PX", fixed')
    generic.write_text(text, encoding="utf-8")
    async with staged_sheet(generic, WIDE) as stage:
        await stage.shows("1 to mend")
        await stage.press("f")
        await stage.shows('Found "PX". Allowed: a declared enclosure')
        assert sheet_screen(stage).place == ("cable", 3, "from")


async def test_what_the_sheet_makes_is_shown_whole(generic: Path) -> None:
    async with staged_sheet(generic, NARROW) as stage:
        await stage.shows("it makes")
        await stage.press("p")
        assert isinstance(stage.screen, MakingScreen)
        await stage.shows("With all that fits together it makes", "Its own wiring shows")
        await stage.press("end")
        await stage.press("escape")
        sheet_screen(stage)


async def test_hostile_words_stay_words(generic: Path) -> None:
    async with staged_sheet(generic, WIDE) as stage:
        await into(stage, "Enclosures", "H  Hood")
        await stage.go("Name")
        await stage.press("enter", "ctrl+u")
        await stage.pilot.press(*HOSTILE_KEYS)
        await stage.settled()
        await stage.press("enter")
        await stage.shows(HOSTILE)
        assert read_sheet_draft(generic).at(("enclosure", 1, "name")) == HOSTILE
        await stage.press("p")
        await stage.shows("it makes")


HOSTILE_KEYS = [
    {
        "[": "left_square_bracket",
        "]": "right_square_bracket",
        "/": "slash",
        "@": "at",
        "=": "equals_sign",
        ".": "full_stop",
    }.get(letter, letter)
    for letter in HOSTILE
]


async def test_a_file_that_is_no_toml_is_told(site: Path) -> None:
    file = site / "broken.toml"
    file.write_text("format = = 1\n", encoding="utf-8")
    async with staged_sheet(file.relative_to(site), NARROW) as stage:
        await stage.shows("can't be used", "broken.toml")


async def test_a_sheet_that_can_no_longer_be_written_says_so(generic: Path) -> None:
    async with staged_sheet(generic, WIDE) as stage:
        generic.unlink()
        generic.mkdir()
        await into(stage, "Identity")
        await stage.go("Name")
        await stage.answer("Other")
        await stage.shows("NOT SAVED")


async def test_a_sheet_that_cannot_be_planned_says_so_and_keeps_every_entry(
    generic: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fail(*_arguments: object) -> None:
        raise ArithmeticError("no rest")

    monkeypatch.setattr(sheet_screens, "plan_unmeasured", fail)
    before = generic.read_text(encoding="utf-8")
    async with staged_sheet(generic, WIDE) as stage:
        await stage.shows("could not be planned", "ArithmeticError: no rest", "All is saved")
        assert generic.read_text(encoding="utf-8") == before
