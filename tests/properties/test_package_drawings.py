"""Drawings proved again after their conversion to PDF: every line and every cell at its place, to a similarity."""

from __future__ import annotations

from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest

from schedules.drawings.elevation import elevations
from schedules.drawings.floor_plan import plan_view
from schedules.drawings.paper import READABLE_PT
from schedules.drawings.picture import Paper
from schedules.drawings.proof.readback import read_back
from tests.packages import package_of, pages_of, plan_of, the_one

if TYPE_CHECKING:
    from collections.abc import Sequence

    from schedules.drawings.proof.readback import Area, Seen
    from tests.packages import PrintedPage

CASES = [("training-room", Paper.LETTER), ("galley-gas", Paper.A4)]
NEAR_PT = 0.12

Similarity = tuple[float, float, float]


class Found:
    """Lines and outlines of one page, findable by their places."""

    def __init__(self, page: PrintedPage) -> None:
        self.ends = page.ends
        self.boxes = page.boxes

    def similarity(self, seen: Seen) -> Similarity | None:
        """Scale and shift under which the longest line, and then every line, is there."""
        ways = [way.ends for way in seen.ways.values()]
        longest = max(ways, key=lambda ends: abs(ends[0][0] - ends[1][0]))
        span = longest[1][0] - longest[0][0]
        for ends in self.ends:
            scale = (ends[1][0] - ends[0][0]) / span
            if not 0.3 < scale <= 1.001:
                continue
            to = (scale, ends[0][0] - scale * longest[0][0], ends[0][1] - scale * longest[0][1])
            if all(self._has_line(way, to) for way in ways):
                return to
        return None

    def _has_line(self, ends: tuple[tuple[float, float], tuple[float, float]], to: Similarity) -> bool:
        wanted = [_moved(point, to) for point in ends]
        return any(_near(wanted, list(other)) for other in self.ends)

    def has_box(self, area: Area, to: Similarity) -> bool:
        wanted = [_moved((area.left, area.top), to), _moved((area.right, area.bottom), to)]
        return any(_near(wanted, [(x0, top), (x1, bottom)]) for x0, top, x1, bottom in self.boxes)


def _moved(point: tuple[float, float], to: Similarity) -> tuple[float, float]:
    scale, dx, dy = to
    return scale * point[0] + dx, scale * point[1] + dy


def _near(wanted: list[tuple[float, float]], found: list[tuple[float, float]]) -> bool:
    return all(
        abs(one[0] - other[0]) < NEAR_PT and abs(one[1] - other[1]) < NEAR_PT
        for one, other in zip(wanted, found, strict=True)
    )


@pytest.mark.parametrize(("job", "paper"), CASES)
def test_every_line_and_every_cell_of_every_drawing_is_in_the_booklet(job: str, paper: Paper) -> None:
    contents = package_of(job, paper)
    pages = [
        Found(page) for page in (*pages_of(the_one(contents, ".pdf")), *large_pages(contents)) if page.curved
    ]
    drawings = {
        name: read_back(data.decode(), f"{name.removeprefix('drawings/').removesuffix('.svg')}-")
        for name, data in contents.items()
        if name.endswith(".svg") and not is_to_scale(name)
    }
    assert len(drawings) > 8
    for name, seen in drawings.items():
        places = [(page, to) for page in pages if (to := page.similarity(seen)) is not None]
        assert places, name
        page, to = places[0]
        # What is drawn without line or filling only leads elsewhere when followed.
        visible = {
            key: shape.area for key, shape in seen.shapes.items() if {shape.stroke, shape.fill} != {"none"}
        }
        lost = [key for key, area in visible.items() if not page.has_box(area, to)]
        assert lost == [], name
        smallest = min(writing.pt for writing in seen.writings.values())
        assert smallest * to[0] >= READABLE_PT - 0.01, name


def large_pages(contents: dict[str, bytes]) -> tuple[PrintedPage, ...]:
    """The sheets twice as large as the booklet's."""
    large = next(data for name, data in contents.items() if "-large-" in name and name.endswith(".pdf"))
    return pages_of(large, ruled=False)


def is_to_scale(name: str) -> bool:
    """Whether a file is the kitchen from above or one of its walls."""
    return "elevation" in name or "plan-view" in name


def _starts(page: PrintedPage) -> set[tuple[str, int, int]]:
    """Where characters begin on a page, to a fifth of a point."""
    return {(char.text, round(char.x0 * 5), round(char.matrix[5] * 5)) for char in page.chars}


def _near_to(character: str, x: float, y: float) -> set[tuple[str, int, int]]:
    return {(character, round(x * 5) + dx, round(y * 5) + dy) for dx in range(-3, 7) for dy in (-1, 0, 1)}


@pytest.mark.parametrize(("job", "paper"), CASES)
def test_a_wall_to_scale_is_printed_at_its_full_size(job: str, paper: Paper) -> None:
    """Every word of the proved drawing stands on the printed sheet where the drawing has it, to a fifth of a point: in
    the booklet on its own paper, and on the sheets twice as large."""
    contents = package_of(job, paper)
    walls = [data.decode() for name, data in contents.items() if name.endswith(".svg") and is_to_scale(name)]
    _at_full_size(walls, large_pages(contents))
    plan = plan_of(job)
    small = [item.svg for item in (*plan_view(plan, paper), *elevations(plan, paper))]
    _at_full_size(small, pages_of(the_one(contents, ".pdf"))[:14])


def _at_full_size(walls: Sequence[str], pages: Sequence[PrintedPage]) -> None:
    assert len(walls) > 1
    for wall in walls:
        root = ET.fromstring(wall)  # noqa: S314 - written by us
        words = [
            (element.text, float(element.attrib["x"]), float(element.attrib["y"]))
            for element in root.iter("{http://www.w3.org/2000/svg}text")
            if element.text
            and "transform" not in element.attrib
            and element.get("text-anchor", "start") == "start"
        ]
        assert len(words) > 5
        view = [float(number) for number in root.attrib["viewBox"].split()]
        sheets = [page for page in pages if (page.width, page.height) == pytest.approx(view[2:], abs=0.01)]
        lost = [
            [text for text, x, y in words if not _near_to(text[0], x, page.height - y) & starts]
            for page, starts in ((page, _starts(page)) for page in sheets)
        ]
        assert [] in lost


def test_a_spoilt_drawing_is_noticed() -> None:
    """One line that ends a terminal lower is not in the booklet."""
    contents = package_of("galley-gas", Paper.A4)
    pages = [Found(page) for page in pages_of(the_one(contents, ".pdf")) if page.curved]
    svg = contents["drawings/enclosure-v.svg"].decode()
    seen = read_back(svg, "enclosure-v-")
    assert any(page.similarity(seen) for page in pages)
    way = next(way for way in seen.ways.values())
    x, y = way.ends[1]
    end = f"{x:g},{y - read_shift(svg):g}"
    assert end in svg
    spoilt = read_back(svg.replace(f'{end}"', f'{x:g},{y - read_shift(svg) + 13:g}"'), "enclosure-v-")
    assert spoilt != seen
    assert not any(page.similarity(spoilt) for page in pages)


def read_shift(svg: str) -> float:
    """How far down the drawing's own zero lies."""
    return float(svg.partition("translate(")[2].partition(")")[0].split()[1])
