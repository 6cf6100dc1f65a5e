"""A wall to scale is as the plan says; a drawing that isn't is refused, a stranger's words are only words.

The numbers are read back from the SVG alone: scale and datum from the drawn wall.
"""

from __future__ import annotations

import html
import re
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.drawings.elevation import elevation, elevations
from schedules.drawings.errors import DrawingError
from schedules.drawings.paper import READABLE_PT
from schedules.drawings.picture import Paper
from schedules.drawings.site_proof import prove_elevation
from schedules.drawings.wall_content import movable, wall_content, walls_to_draw
from schedules.plan import plan_job
from schedules.planned import plan_file
from schedules.quantities.lengths import parse_length

if TYPE_CHECKING:
    from schedules.drawings.wall_content import WallContent
    from schedules.plan import Plan

JOBS = Path(__file__).parents[2] / "samples" / "jobs"
KITCHENS = ("corner-electric", "farmhouse-electric", "galley-gas", "loft-gas", "training-room")
HOSTILE = "</text><script>alert(1)</script> & \"quoted\" 'so'"


@cache
def plan(name: str) -> Plan:
    return plan_file(JOBS / f"{name}.toml", remedies=False).plan


def named(job_plan: Plan, name: str) -> Plan:
    """The same plan under another job's name."""
    job = job_plan.derived.job
    renamed = job.model_copy(update={"job": job.job.model_copy(update={"name": name})})
    return replace(job_plan, derived=replace(job_plan.derived, job=renamed))


def with_wall_of(name: str, length: float) -> Plan:
    """The same plan with its range wall as long as that, whatever stands beyond its corner."""
    found = plan(name)
    room = found.derived.room
    assert room is not None
    main = replace(room.main, length_in=length)
    walls = tuple(main if wall is room.main else wall for wall in room.walls)
    devices = tuple(
        replace(device, wall=main) for device in found.derived.devices if device.along_in < length
    )
    derived = replace(found.derived, room=replace(room, main=main, walls=walls), devices=devices)
    return replace(found, derived=derived)


@pytest.mark.parametrize("paper", [Paper.TABLOID, Paper.A4])
@pytest.mark.parametrize("name", KITCHENS)
def test_every_hole_of_a_kitchen_is_drawn_and_named_in_the_table(name: str, paper: Paper) -> None:
    drawings = elevations(plan(name), paper)
    written = {
        words
        for drawing in drawings
        for element in ET.fromstring(drawing.svg).iter()  # noqa: S314 - written by ourselves
        if re.fullmatch(r"[a-z]+-(?:tables-1-)?holes-\d+-0-0", (element.get("id") or "").lower())
        for words in element.itertext()
    }
    assert written == {hole.tag for hole in plan(name).derived.holes}


@cache
def galley() -> tuple[WallContent, str]:
    """What the galley's wall shows, and its proved drawing."""
    kitchen = plan("galley-gas")
    content = wall_content(kitchen, walls_to_draw(kitchen)[0])
    svg = elevation(kitchen, content.wall)[0].svg
    assert prove_elevation(content, svg, "") == ()
    return content, svg


def test_no_name_of_a_way_hides_a_side_of_the_hood() -> None:
    found = {
        element.get("id", ""): [float(element.get(key, "0")) for key in ("x", "y", "width", "height")]
        for element in ET.fromstring(galley()[1]).iter("{http://www.w3.org/2000/svg}rect")  # noqa: S314 - our own
    }
    left, top, width, height = found["hood"]
    right, bottom = left + width, top + height
    names = [room for name, room in found.items() if re.fullmatch(r"way-name-\d+-ground", name)]
    assert len(names) > 5
    for x, y, wide, high in names:
        inside = left < x and x + wide < right and top < y and y + high < bottom
        assert inside or x + wide < left or right < x or y + high < top or bottom < y


@given(step=st.floats(1.0, 40.0), sign=st.sampled_from((-1, 1)), pick=st.integers(0, 10_000))
@settings(max_examples=20, deadline=None)
def test_a_hole_that_is_drawn_elsewhere_is_refused(step: float, sign: int, pick: int) -> None:
    content, svg = galley()
    hole = content.holes[pick % len(content.holes)]
    found = re.search(rf'id="hole-{hole.tag}" cx="([\d.]+)"', svg)
    assert found is not None
    moved = svg.replace(found[0], f'id="hole-{hole.tag}" cx="{float(found[1]) + sign * step}"')
    assert [failure.split()[0] for failure in prove_elevation(content, moved, "")] == [f"hole-{hole.tag}"]


def test_a_wrong_number_beside_a_tick_is_refused() -> None:
    kitchen = plan("galley-gas")
    content = wall_content(kitchen, walls_to_draw(kitchen)[0])
    svg = elevation(kitchen, content.wall)[0].svg
    wrong = svg.replace(">hood 5&#x27; 5&quot;<", ">hood 5&#x27; 6&quot;<")
    assert wrong != svg
    assert prove_elevation(content, wrong, "") == ("the dimension 'hood 5\\' 6\"' stands at 65.00 in",)


def test_the_name_of_a_job_is_only_words() -> None:
    drawing = elevations(named(plan("galley-gas"), HOSTILE))[0]
    root = ET.fromstring(drawing.svg)  # noqa: S314 - written by ourselves
    assert not [element for element in root.iter() if element.tag.endswith("script")]
    assert any(HOSTILE in "".join(element.itertext()) for element in root.iter())


def test_an_unsound_plan_says_so_in_its_title() -> None:
    title = re.search(r'id="A-title"[^>]*>([^<]+)<', elevations(plan("must-fail"))[0].svg)
    assert title is not None
    assert title[1] == "Wall A, seen from inside. NOT SOUND, do not build by it"


def test_a_long_wall_on_small_paper_comes_in_parts_that_match() -> None:
    """By the drawings alone: each part ends a little beyond the line at which the next one begins."""
    *parts, tables = elevations(plan("galley-gas"), Paper.LETTER)
    assert [part.name for part in parts] == ["elevation-a-1", "elevation-a-2"]
    assert tables.name == "elevation-a-tables"
    matches = [re.findall(r">match line ([^<]+)<", part.svg) for part in parts]
    assert len(matches[0]) == 1
    assert matches[0] == matches[1]
    at = parse_length(html.unescape(matches[0][0]))
    holes = plan("galley-gas").derived.holes
    said = [
        set(re.findall(r"\bB\d+\b", " ".join(re.findall(r'-dim-\d+"[^>]*>([^<]+)<', part.svg))))
        for part in parts
    ]
    assert said[0] == {hole.tag for hole in holes if hole.along_in < at}
    assert said[1] == {hole.tag for hole in holes if hole.along_in > at}


@pytest.mark.parametrize("length", [96, 120, 180, 264, 480])
def test_no_ordinary_wall_is_refused_on_letter_paper(length: int) -> None:
    sheets = elevations(with_wall_of("galley-gas", length), Paper.LETTER)
    assert all((sheet.width_pt, sheet.height_pt) in {(612.0, 792.0), (792.0, 612.0)} for sheet in sheets)
    sizes = {float(size) for sheet in sheets for size in re.findall(r'font-size="([\d.]+)"', sheet.svg)}
    assert min(sizes) >= READABLE_PT


def test_a_region_that_is_hatched_otherwise_is_refused() -> None:
    kitchen = plan("galley-gas")
    wall = walls_to_draw(kitchen)[0]
    content = wall_content(kitchen, wall, "W5")
    assert [(shade.cable, shade.mover) for shade in content.shades] == [("W5", "RB")]
    svg = elevation(kitchen, wall, cable="W5")[0].svg
    path = re.search(r'id="reach-W5-region" d="([^"]+)"', svg)
    assert path is not None
    assert prove_elevation(content, svg, "") == ()
    words = ("where W5 reaches, what is hatched differs from what was computed",)
    first, *others = path[1].split(" M")
    for wrong in (" M".join(others).join(("M", "")), f"{path[1]} M0,0 L90,0 L90,90 Z"):
        assert prove_elevation(content, svg.replace(path[1], wrong), "") == words
    assert first


def test_without_a_measured_wall_there_is_nothing_to_draw() -> None:
    with pytest.raises(DrawingError, match="no wall was measured"):
        elevations(plan("must-fail-air"))


def test_which_cables_have_an_end_that_may_move_and_whether_they_reach() -> None:
    kitchen = plan("galley-gas")
    assert movable(kitchen) == {"W5": True, "W7": True}
    job = kitchen.derived.job
    paced = tuple(place.model_copy(update={"tolerance": 60.0}) for place in job.place)
    doubtful = plan_job(kitchen.derived.sheet, job.model_copy(update={"place": paced}))
    assert movable(doubtful) == {"W5": False, "W7": False}
    assert movable(plan("must-fail-air")) == {}
