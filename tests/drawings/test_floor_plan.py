"""The kitchen from above is as the plan says; a drawing that isn't is refused, a stranger's words are only words."""

from __future__ import annotations

import html
import re
from typing import TYPE_CHECKING

import pytest

from schedules.drawings.errors import DrawingError
from schedules.drawings.floor_content import floor_content
from schedules.drawings.floor_plan import plan_view
from schedules.drawings.floor_proof import prove_floor
from schedules.drawings.paper import READABLE_PT
from schedules.drawings.picture import Paper
from schedules.quantities.lengths import parse_length
from tests.drawings.test_elevation import HOSTILE, KITCHENS, named, plan

if TYPE_CHECKING:
    from schedules.drawings.site_sheets import SiteDrawing


def texts(drawings: tuple[SiteDrawing, ...]) -> list[str]:
    found = [re.findall(r"<text[^>]*>([^<]+)<", drawing.svg) for drawing in drawings]
    return [html.unescape(text) for page in found for text in page]


@pytest.mark.parametrize("paper", [Paper.TABLOID, Paper.LETTER])
@pytest.mark.parametrize("name", KITCHENS)
def test_walls_and_boxes_are_all_there_by_name_and_number(name: str, paper: Paper) -> None:
    """Read from the words on the sheets alone; lengths to the sixteenth that they are written to."""
    drawings = plan_view(plan(name), paper)
    words = texts(drawings)
    room = plan(name).derived.room
    assert room is not None
    said = {
        match[1]: match[2]
        for text in words
        if (match := re.fullmatch(r"(?:wall|open side) (\S+)  (.+)", text))
    }
    assert said.keys() == {wall.tag for wall in room.walls}
    for wall in room.walls:
        assert parse_length(said[wall.tag]) == pytest.approx(wall.length_in, abs=1 / 32)
    assert {device.enclosure for device in plan(name).derived.devices} <= set(words)
    sizes = {float(size) for drawing in drawings for size in re.findall(r'font-size="([\d.]+)"', drawing.svg)}
    assert min(sizes) >= READABLE_PT


@pytest.mark.parametrize(
    ("id_", "attribute", "failure"),
    [
        ("entry-RB", "cx", "entry-RB is drawn at"),
        ("entry-RB", "cy", "entry-RB is drawn at"),
        ("box-RB", "width", "box-RB is drawn at"),
        ("hood-hood", "height", "hood-hood is drawn at"),
        ("window-N1", "x", "window-N1 is drawn at"),
        ("hung-cabinet-C1", "y", "hung-cabinet-C1 is drawn at"),
    ],
)
def test_what_is_drawn_elsewhere_is_refused(id_: str, attribute: str, failure: str) -> None:
    content = floor_content(plan("galley-gas"))
    svg = plan_view(plan("galley-gas"))[0].svg
    found = re.search(rf'id="plan-{id_}"[^>]* {attribute}="([-\d.]+)"', svg)
    assert found is not None
    start, end = found.span(1)
    moved = f"{svg[:start]}{float(found[1]) + 2}{svg[end:]}"
    assert prove_floor(content, svg, "plan-") == ()
    assert [words[: len(failure)] for words in prove_floor(content, moved, "plan-")] == [failure]


def test_a_way_or_a_wall_that_is_drawn_elsewhere_is_refused() -> None:
    content = floor_content(plan("galley-gas"))
    svg = plan_view(plan("galley-gas"))[0].svg
    for name, words in (("way-0", "a piece of the way of"), ("wall-C", "wall C is drawn elsewhere")):
        moved = re.sub(
            rf'(id="plan-{name}" points=")([-\d.]+)', lambda found: f"{found[1]}{float(found[2]) + 2}", svg
        )
        assert moved != svg
        assert [failure[: len(words)] for failure in prove_floor(content, moved, "plan-")] == [words]


def test_a_wrong_number_beside_a_tick_is_refused() -> None:
    content = floor_content(plan("galley-gas"))
    svg = plan_view(plan("galley-gas"))[0].svg
    wrong = svg.replace(">V 3&quot;<", ">V 4&quot;<")
    assert wrong != svg
    assert prove_floor(content, wrong, "plan-") == ("the dimension 'V 4\"' stands at 3.00 in",)


def test_the_name_of_a_job_is_only_words() -> None:
    drawing = plan_view(named(plan("galley-gas"), HOSTILE))[0]
    assert "<script" not in drawing.svg
    assert any(HOSTILE in text for text in texts((drawing,)))


def test_without_a_measured_wall_there_is_nothing_to_draw() -> None:
    with pytest.raises(DrawingError, match="no wall was measured, so there is no plan view"):
        plan_view(plan("must-fail-air"))
