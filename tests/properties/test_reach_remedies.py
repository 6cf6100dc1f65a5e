"""What is proposed where a cable is short or a box can't stand: the nearest place, planned again, and no nearer one."""

from __future__ import annotations

import itertools
import math
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from schedules.findings import Edit
from schedules.job.draft import draft_from_text
from schedules.plan import plan_job
from schedules.quantities.lengths import format_length, parse_length
from schedules.remedies import with_remedies
from schedules.rows.every import SCHEDULES
from schedules.sheet.reading import read_sheet

if TYPE_CHECKING:
    from schedules.findings import Finding, Remedy
    from schedules.job.draft import Draft
    from schedules.sheet.sheet import Sheet

SAMPLES = Path(__file__).parents[2] / "samples"
MARRAM = read_sheet(SAMPLES / "sheets" / "marram.toml")


def sample(name: str, *edits: Edit) -> Draft:
    path = SAMPLES / "jobs" / f"{name}.toml"
    return draft_from_text(path.read_text(encoding="utf-8"), str(path)).edited(edits)


def shortened(tag: str, length_in: float) -> Sheet:
    """The same family with one cable of another length and without its extensions."""
    cables = tuple(
        cable.model_copy(update={"length": length_in, "extension": ()}) if cable.tag == tag else cable
        for cable in MARRAM.cable
    )
    return MARRAM.model_copy(update={"cable": cables})


def finding(sheet: Sheet, draft: Draft, code: str, subject: str) -> Finding:
    plan = with_remedies(sheet, draft, plan_job(sheet, draft.job))
    return next(item for item in plan.findings if (item.code, item.subject) == (code, subject))


def moves(found: Finding, enclosure: str) -> list[Remedy]:
    return [
        remedy
        for remedy in found.remedies
        if any(edit.table == "place" and edit.row == enclosure for edit in remedy.edits)
    ]


def blocks(sheet: Sheet, draft: Draft, *edits: Edit) -> set[tuple[str, str]]:
    plan = plan_job(sheet, draft.edited(edits).job)
    return {(item.code, item.subject) for item in plan.findings if item.severity.blocks}


def test_the_nearest_place_lets_the_cable_reach_and_no_nearer_one_does() -> None:
    """By brute force: no place on a grid of two inches that is nearer than the proposed one is sound."""
    sheet, draft = shortened("W3", 200.0), sample("training-room")
    assert blocks(sheet, draft) == {("cable-short", "W3")}
    (remedy,) = moves(finding(sheet, draft, "cable-short", "W3"), "PS")
    assert blocks(sheet, draft, *remedy.edits) == set()
    place = next(item for item in draft.job.place if item.enclosure == "PS")
    assert place.along is not None
    assert place.up is not None
    there = {edit.field: parse_length(str(edit.value)) for edit in remedy.edits}
    away = math.dist((place.along, place.up), (there["along"], there["up"]))
    assert remedy.words.startswith(f"move PS {format_length(away)}, ")
    nearer = [
        (place.along + dx, place.up + dy)
        for dx, dy in itertools.product(range(-20, 21, 2), repeat=2)
        if math.hypot(dx, dy) < away - 0.5
    ]
    for along, up in nearer:
        edits = (
            Edit("place", "PS", "along", format_length(along)),
            Edit("place", "PS", "up", format_length(up)),
        )
        assert blocks(sheet, draft, *edits) != set(), (along, up)


def test_the_nearest_place_misses_studs_and_other_boxes() -> None:
    sheet, draft = shortened("W3", 190.0), sample("corner-electric")
    (remedy,) = moves(finding(sheet, draft, "cable-short", "W3"), "PS")
    after = plan_job(sheet, draft.edited(remedy.edits).job)
    moved = next(item for item in after.derived.devices if item.enclosure == "PS")
    studs = [(stud.left_in, stud.right_in) for stud in moved.wall.studs]
    assert moved.flush
    assert not any(low < moved.zone.right and moved.zone.left < high for low, high in studs)
    assert [item for item in after.findings if item.severity.blocks] == []


@pytest.mark.parametrize(
    ("along", "up", "code"),
    [
        ("5.23 m", "1.15 m", "place-on-stud"),
        ("2.51 m", "0.95 m", "boxes-overlap"),
        ("1.67 m", "1.75 m", "place-in-hood"),
        ("1.40 m", "1.5 m", "place-in-service-space"),
        ("5.59 m", "1.15 m", "beyond-wall"),
    ],
)
def test_a_box_that_cannot_stand_is_moved_to_the_nearest_place_where_it_can(
    along: str, up: str, code: str
) -> None:
    draft = sample("corner-electric", Edit("place", "PS", "along", along), Edit("place", "PS", "up", up))
    plan = with_remedies(MARRAM, draft, plan_job(MARRAM, draft.job))
    found = next(item for item in plan.findings if item.code == code)
    (remedy, *_) = found.remedies
    assert (code, found.subject) not in blocks(MARRAM, draft, *remedy.edits)


def test_every_other_way_that_reaches_is_offered() -> None:
    sheet = shortened("W3", 225.0)
    draft = sample("corner-electric", Edit("run", "W3", "route", "overhead"))
    found = finding(sheet, draft, "cable-short", "W3")
    routes = [edit.value for remedy in found.remedies for edit in remedy.edits if edit.field == "route"]
    assert routes == ["direct", "cabinets"]


def test_a_barred_way_is_led_elsewhere() -> None:
    # A stone slab from floor to ceiling parts the wall between the hood and the contactor box.
    draft = sample("corner-electric")
    slab: list[tuple[str, Any]] = [
        ("kind", "finish"),
        ("left", "2.2 m"),
        ("width", "0.1 m"),
        ("bottom", "0 m"),
        ("height", "2.74 m"),
    ]
    document = (
        draft.text + '\n[[keep_out]]\ntag = "K9"\n' + "".join(f'{key} = "{value}"\n' for key, value in slab)
    )
    barred = draft_from_text(document, draft.file)
    found = finding(MARRAM, barred, "way-barred", "W6")
    assert found.says.endswith("passes finish K9")
    assert [edit.value for remedy in found.remedies for edit in remedy.edits] == ["cabinets"]


def test_an_opening_that_is_too_small_gives_way_to_one_that_passes() -> None:
    draft = sample("galley-gas", Edit("run", "W5", "from_opening", "HK3"))
    found = finding(MARRAM, draft, "opening-small", "W5")
    assert [edit.value for remedy in found.remedies for edit in remedy.edits] == ["HK2", "HK6", "HK7"]
    for remedy in found.remedies:
        assert ("opening-small", "W5") not in blocks(MARRAM, draft, *remedy.edits)


def test_where_no_opening_passes_the_least_clear_width_is_told() -> None:
    small = tuple(
        item.model_copy(update={"trade_size": None, "clear_diameter": 0.5}) if item.enclosure == "H" else item
        for item in MARRAM.opening
    )
    narrow = MARRAM.model_copy(update={"opening": small})
    (remedy,) = finding(narrow, sample("galley-gas"), "opening-small", "W5").remedies
    assert remedy.edits == ()
    assert "it takes one that leaves 1.50 in clear" in remedy.words


def test_too_many_bends_are_parted_by_the_fewest_pull_boxes() -> None:
    bends = [{"angle": "90 deg", "radius": "14 in"}] * 9
    draft = sample("corner-electric", Edit("raceway", "R1", "bend", bends))
    found = finding(MARRAM, draft, "raceway-bends", "R1")
    (remedy,) = found.remedies
    assert remedy.words == "set a pull box in R1 after bend 4 and bend 8, where it stays reachable"
    assert ("raceway-bends", "R1") not in blocks(MARRAM, draft, *remedy.edits)
    cured = plan_job(MARRAM, draft.edited(remedy.edits).job)
    (row,) = [row for row in SCHEDULES["raceways"](cured).rows if row.raceway == "R1"]
    assert (row.bends_deg, row.pull_boxes) == (360.0, "after bend 4, after bend 8")
