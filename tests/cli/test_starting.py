"""A new job: its comments, what it asks for, and that later changes leave the comments where they are."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.errors import InputError
from schedules.findings import Edit
from schedules.job.draft import draft_from_text
from schedules.job.starting import start_job
from schedules.plan import plan_job
from schedules.sheet.reading import read_sheet

if TYPE_CHECKING:
    from schedules.job.draft import Draft

TOP = Path(__file__).parents[2]
SHEETS = sorted((TOP / "samples" / "sheets").glob("*.toml"))


def started(sheet: Path, *, name: str = "Kitchen", date: str = "2026-02-03") -> Draft:
    """A new job for a sheet, in a folder of its own beside the sheet's."""
    job = sheet.parent.parent / "new" / "kitchen.toml"
    return start_job(read_sheet(sheet), file=job, sheet_file=sheet, name=name, date=date, code=2026)


def comments(text: str) -> list[str]:
    """The lines that are nothing but a comment."""
    return [line for line in text.splitlines() if line.startswith("#")]


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda path: path.stem)
def test_a_new_job_names_its_sheet_and_claims_no_measurement(sheet: Path) -> None:
    draft = started(sheet)
    job = draft.job
    assert draft.sheet_path.resolve() == sheet
    assert (job.job.name, job.job.date, job.job.code) == ("Kitchen", "2026-02-03", 2026)
    assert job.choices == ()
    assert (job.site.ceiling, job.site.above, job.site.waste) == (None, None, 0.0)
    assert all(place.along is place.out is place.up is None for place in job.place)
    assert (job.run, job.raceway, job.circuit, job.as_built) == ((), (), (), ())


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda path: path.stem)
def test_a_new_job_offers_every_choice_place_and_cable_of_its_sheet(sheet: Path) -> None:
    read = read_sheet(sheet)
    said = comments(started(sheet).text)
    assert [choice.id for choice in read.choices if not any(f'"{choice.id}"' in line for line in said)] == []
    assert [cable.tag for cable in read.cable if f'# cable = "{cable.tag}"' not in said] == []
    assert [place.enclosure for place in started(sheet).job.place] == [item.tag for item in read.enclosure]


@pytest.mark.parametrize("sheet", SHEETS, ids=lambda path: path.stem)
def test_every_answer_that_a_new_job_lacks_is_a_finding(sheet: Path) -> None:
    read = read_sheet(sheet)
    codes = {finding.code for finding in plan_job(read, started(sheet).job).findings}
    assert {"choice-open", "not-measured"} <= codes
    assert "name-unknown" not in codes


def test_changes_keep_every_comment() -> None:
    draft = started(SHEETS[-1])
    edits = (
        Edit("", None, "choices", ["gas-valve"]),
        Edit("job", None, "note", "Measured twice."),
        Edit("site", None, "ceiling", "8 ft"),
        Edit("place", "H", "along", "6 ft"),
        Edit("run", "W1", "route", "taped"),
        Edit("run", "W1", "taped", "31 ft"),
        Edit("raceway", "R1", "kind", "EMT"),
        Edit("raceway", "R1", "cables", ["W1"]),
    )
    # One row at a time would not be a job yet: kind and cables of a raceway belong together.
    changed = draft.edited(edits)
    assert [line for line in comments(draft.text) if line not in changed.text.splitlines()] == []
    assert changed.job.run[0].taped == 31 * 12
    assert next(place for place in changed.job.place if place.enclosure == "H").along == 72
    back = changed.edited([Edit("job", None, "note", None), Edit("site", None, "ceiling", None)])
    assert back.job.job.note is None
    assert [line for line in comments(draft.text) if line not in back.text.splitlines()] == []


def test_a_comment_beside_a_value_stays_when_the_value_changes() -> None:
    draft = started(SHEETS[0]).edited([Edit("site", None, "tolerance", "1 in")])
    line = next(line for line in draft.text.splitlines() if line.startswith("tolerance"))
    assert line.split("#") == ['tolerance = "1 in"             ', " what each measurement may be off by"]


@pytest.mark.parametrize(
    "layout",
    [
        "place = [{ enclosure = 'H', along = '1 ft' }]\n",
        "place = [\n  { enclosure = 'H', along = '1 ft' }, # the hood\n]\n",
        "[[place]]\nenclosure = 'H'\nalong = '1 ft' # the hood\n",
    ],
    ids=["inline", "inline over lines", "tables"],
)
def test_a_row_is_changed_and_added_however_the_file_lays_it_out(layout: str) -> None:
    head = (
        "format = 1\nchoices = []\n"
        "job = { name = 'K', sheet = 's.toml', revision = '1', date = 'x', code = 2023 }\n"
        "site.tolerance = '1 in'\n"
    )
    draft = draft_from_text(head + layout, "k.toml")
    changed = draft.edited(
        [
            Edit("place", "H", "along", "2 ft"),
            Edit("place", "V", "along", "3 ft"),
            Edit("site", None, "ceiling", "8 ft"),
            Edit("job", None, "name", "L"),
        ]
    )
    assert [(place.enclosure, place.along) for place in changed.job.place] == [("H", 24), ("V", 36)]
    assert (changed.job.site.ceiling, changed.job.job.name) == (96, "L")
    assert comments(changed.text) == comments(draft.text)


def test_a_name_that_can_not_stand_in_a_job_is_refused() -> None:
    with pytest.raises(InputError, match=r"job\.name: found U\+001B ESCAPE"):
        started(SHEETS[0], name="a\x1b[2Jb")
    with pytest.raises(InputError, match=r'job\.date: found ""; allowed: string should have'):
        started(SHEETS[0], date="")
