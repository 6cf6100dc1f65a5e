"""The proof is proved: each way of spoiling a finished drawing is found, and a good one is left alone.

Each mutant changes the SVG as a faulty layout or engine could; none of them knows how the proof works.
"""

from __future__ import annotations

import re
from itertools import combinations
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest

from schedules.drawings.drawing import draw
from schedules.drawings.engine import WHEEL, system_engine
from schedules.drawings.errors import DrawingError
from schedules.drawings.proof import prove, prove_or_raise
from tests.pictures import cabled, kitchen, random_picture

if TYPE_CHECKING:
    from collections.abc import Callable

SVG = "{http://www.w3.org/2000/svg}"
DRAWING = draw(kitchen())
ROW = 13.0
ROUNDING = 3.0


def number_of(key: str) -> int:
    return next(n for n, line in enumerate(DRAWING.picture.lines) if line.key == key)


def cell_of(block: str, terminal: str) -> str:
    b = next(n for n, found in enumerate(DRAWING.picture.blocks) if found.key == block)
    t = next(n for n, found in enumerate(DRAWING.picture.blocks[b].terminals) if found.key == terminal)
    return f"t{b}_{t}"


def parsed(svg: str) -> ET.Element:
    return ET.fromstring(svg)  # noqa: S314 - our own engine's drawing


def copied(original: ET.Element) -> ET.Element:
    return parsed(ET.tostring(original, encoding="unicode"))


def element(root: ET.Element, name: str) -> ET.Element:
    return next(found for found in root.iter() if found.get("id") == name)


def drawn(root: ET.Element, name: str, kind: str) -> ET.Element:
    return next(element(root, name).iter(f"{SVG}{kind}"))


def paths(root: ET.Element, key: str) -> list[ET.Element]:
    pattern = re.compile(rf"l{number_of(key)}_\d")
    return [
        path
        for group in root.iter(f"{SVG}g")
        if pattern.fullmatch(group.get("id", ""))
        for path in group.iter(f"{SVG}path")
    ]


def shifted(points: str, dx: float, dy: float) -> str:
    def moved(pair: re.Match[str]) -> str:
        return f"{float(pair[1]) + dx:.2f},{float(pair[2]) + dy:.2f}"

    return re.sub(r"(-?[\d.]+),(-?[\d.]+)", moved, points)


def corners(path: ET.Element) -> list[tuple[float, float]]:
    """Where a path turns, its rounded corners taken as square ones, and its ends."""
    points = [(float(x), float(y)) for x, y in re.findall(r"(-?[\d.]+),(-?[\d.]+)", path.get("d", ""))]
    found = [points[0]]
    for n in range(0, len(points) - 1, 3):
        (x0, y0), (x1, _), _, (x3, y3) = points[n : n + 4]
        if x0 != x3 and y0 != y3:
            found.append((x3, y0) if x1 != x0 else (x0, y3))
    return [*found, points[-1]]


def remove(root: ET.Element, pattern: str) -> None:
    graph = next(g for g in root if g.get("class") == "graph")
    gone = [child for child in graph if re.fullmatch(pattern, child.get("id", ""))]
    assert gone, f"nothing is called {pattern}"
    for child in gone:
        graph.remove(child)


def swap_text(root: ET.Element, one: str, other: str) -> None:
    a, b = drawn(root, one, "text"), drawn(root, other, "text")
    assert a.text != b.text
    a.text, b.text = b.text, a.text


def swap_lines(root: ET.Element) -> None:
    """Conductors 101 and 102 change places, each in its own colour."""
    one, other = (paths(root, key)[0].get("d", "") for key in ("101", "102"))
    for key, way in (("101", other), ("102", one)):
        for path in paths(root, key):
            path.set("d", way)


def swap_ends_at_one_block(root: ET.Element) -> None:
    """Conductors 111 and 112 cross at one connector only."""
    ways = {key: re.findall(r"[-\d.]+,[-\d.]+", paths(root, key)[0].get("d", "")) for key in ("111", "112")}
    last = {key: points[-1] for key, points in ways.items()}
    for key, other in (("111", "112"), ("112", "111")):
        height = last[other].split(",")[1]
        points = [
            f"{point.split(',')[0]},{height}" if point.split(",")[1] == last[key].split(",")[1] else point
            for point in ways[key]
        ]
        for path in paths(root, key):
            path.set("d", "M" + points[0] + "C" + " ".join(points[1:]))


def move_line_by_one_terminal(root: ET.Element) -> None:
    for path in paths(root, "142"):
        path.set("d", shifted(path.get("d", ""), 0, ROW))


def lengthen_into_its_cell(root: ET.Element) -> None:
    (x, _), (lane, _) = corners(paths(root, "150")[0])[:2]
    for path in paths(root, "150"):
        path.set("d", shifted(path.get("d", ""), 20 if x > lane else -20, 0))


def merge_two_lines(root: ET.Element) -> None:
    way = paths(root, "104")[0].get("d", "")
    for path in paths(root, "105"):
        path.set("d", way)


def lay_one_lane_on_another(root: ET.Element) -> None:
    """Two conductors keep their ends and share an upright stretch."""
    lanes = {}
    for line in DRAWING.picture.lines:
        found = corners(paths(root, line.key)[0])
        if len(found) == 4:
            lanes[line.key] = found[1][0], *sorted((found[1][1], found[2][1]))
    key, x, dx = next(
        (one, lanes[one][0], lanes[other][0] - lanes[one][0])
        for one, other in combinations(lanes, 2)
        if 0 < abs(lanes[one][0] - lanes[other][0]) < 30
        and max(lanes[one][1], lanes[other][1]) + 2 * ROW < min(lanes[one][2], lanes[other][2])
    )
    for path in paths(root, key):
        points = re.findall(r"(-?[\d.]+),(-?[\d.]+)", path.get("d", ""))
        moved = [
            (f"{float(px) + dx:.2f}", py) if abs(float(px) - x) <= ROUNDING else (px, py) for px, py in points
        ]
        path.set("d", "M" + ",".join(moved[0]) + "C" + " ".join(map(",".join, moved[1:])))


def drop_a_label(root: ET.Element) -> None:
    remove(root, f"l{number_of('120')}_a_far")


def drop_a_conductor(root: ET.Element) -> None:
    remove(root, rf"l{number_of('120')}_\d")


def drop_one_coat(root: ET.Element) -> None:
    remove(root, f"l{number_of('120')}_3")


def drop_a_terminal(root: ET.Element) -> None:
    remove(root, cell_of("control", "12"))


def swap_two_numbers(root: ET.Element) -> None:
    swap_text(root, f"l{number_of('101')}_a_number", f"l{number_of('102')}_a_number")


def swap_far_ends(root: ET.Element) -> None:
    swap_text(root, f"l{number_of('101')}_a_far", f"l{number_of('102')}_a_far")


def swap_designations(root: ET.Element) -> None:
    swap_text(root, f"{cell_of('panel', 'CB4')}_designation", f"{cell_of('panel', 'CB6')}_designation")


def swap_block_names(root: ET.Element) -> None:
    swap_text(root, "b0_name_0", "b3_name_0")


def swap_cells(root: ET.Element) -> None:
    """The terminals' boxes change places, their words stay."""
    one, other = (drawn(root, cell_of("panel", name), "polygon") for name in ("N4", "G4"))
    a, b = one.get("points", ""), other.get("points", "")
    one.set("points", b)
    other.set("points", a)


def move_a_label_to_the_next_line(root: ET.Element) -> None:
    text = drawn(root, f"l{number_of('106')}_a_code", "text")
    text.set("y", str(float(text.get("y", "")) + ROW))


def put_a_label_on_a_line(root: ET.Element) -> None:
    text = drawn(root, f"l{number_of('106')}_a_code", "text")
    text.set("y", str(float(text.get("y", "")) + 4))


def lay_a_label_on_another(root: ET.Element) -> None:
    text = drawn(root, f"l{number_of('106')}_a_code", "text")
    text.set("x", drawn(root, f"l{number_of('106')}_a_number", "text").get("x", ""))


def push_a_name_out_of_its_box(root: ET.Element) -> None:
    text = drawn(root, f"{cell_of('panel', 'CB4')}_designation", "text")
    text.set("x", str(float(text.get("x", "")) - 30))


def recolour(root: ET.Element) -> None:
    paths(root, "101")[-1].set("stroke", "#d00000")


def undash(root: ET.Element) -> None:
    paths(root, "122")[-1].attrib.pop("stroke-dasharray")


def thicken(root: ET.Element) -> None:
    paths(root, "111")[-1].set("stroke-width", "3")


def slant(root: ET.Element) -> None:
    for path in paths(root, "106"):
        *points, one, other = path.get("d", "").split(" ")
        path.set("d", " ".join((*points, shifted(one, 0, 5), shifted(other, 0, 5))))


def part_halo_from_line(root: ET.Element) -> None:
    halo = paths(root, "106")[0]
    halo.set("d", shifted(halo.get("d", ""), 0, 6))


def hide(root: ET.Element) -> None:
    paths(root, "101")[-1].set("opacity", "0")


def clip(root: ET.Element) -> None:
    element(root, f"l{number_of('101')}_1").set("style", "display:none")


def cover(root: ET.Element) -> None:
    drawn(root, "b2", "polygon").set("fill", "#ffffff")


def add_a_line(root: ET.Element) -> None:
    graph = next(g for g in root if g.get("class") == "graph")
    extra = ET.SubElement(graph, f"{SVG}g", {"id": "l99_0", "class": "edge"})
    extra.append(copied(paths(root, "101")[0]))


def draw_a_line_twice(root: ET.Element) -> None:
    group = element(root, f"l{number_of('101')}_1")
    group.append(copied(paths(root, "101")[0]))


def add_a_word(root: ET.Element) -> None:
    graph = next(g for g in root if g.get("class") == "graph")
    extra = ET.SubElement(graph, f"{SVG}g", {"id": "safe", "class": "node"})
    extra.append(copied(drawn(root, "title_0", "text")))


def stray_style(root: ET.Element) -> None:
    ET.SubElement(root, f"{SVG}style").text = "path { display: none }"


def open_contact_drawn_closed(root: ET.Element) -> None:
    """The blade of the normally open contact reaches up to its other side."""
    blade = drawn(root, f"{cell_of('control', '14')}_mark1_0", "path")
    blade.set("d", shifted(blade.get("d", ""), 0, 2))


def move_a_mark(root: ET.Element) -> None:
    for name in (f"{cell_of('panel', 'N4')}_mark0_0",):
        path = drawn(root, name, "path")
        path.set("d", shifted(path.get("d", ""), 40, 0))


def shrink_a_connector(root: ET.Element) -> None:
    outline = drawn(root, f"{cell_of('hood', '1')}_housing_0", "path")
    outline.set("d", shifted(outline.get("d", ""), 0, -ROW))


def change_the_legend(root: ET.Element) -> None:
    drawn(root, "g0_words", "text").text = "BK brown"


def change_a_sample(root: ET.Element) -> None:
    drawn(root, "g0_1", "path").set("stroke", "#8a4b08")


def change_what_is_read_aloud(root: ET.Element) -> None:
    root.findall(f"{SVG}desc")[0].text = "Nothing to see."


def move_a_dot(root: ET.Element) -> None:
    dot = drawn(root, f"l{number_of('101')}_a_dot", "ellipse")
    dot.set("cy", str(float(dot.get("cy", "")) + ROW))


MUTANTS: dict[Callable[[ET.Element], None], str] = {
    swap_lines: "conductor '101' does not end on panel.CB4",
    swap_ends_at_one_block: "conductor '111' does not end on hood.1",
    move_line_by_one_terminal: "conductor '142' does not end on",
    lengthen_into_its_cell: "conductor '150' runs over a terminal",
    merge_two_lines: "conductors '104' and '105' share a stretch",
    lay_one_lane_on_another: "conductors .* share a stretch",
    drop_a_label: "'to V.Y1' .* is not drawn",
    drop_a_conductor: "conductor '120' is not drawn",
    drop_one_coat: "conductor '120' is not drawn, or not in full",
    drop_a_terminal: "is not drawn",
    swap_two_numbers: "says '102' instead of '101'",
    swap_far_ends: "says 'to C.X1:N1' instead of 'to C.X1:L1'",
    swap_designations: "says 'CB6' instead of 'CB4'",
    swap_block_names: "says 'Gas shutoff valve' instead of 'Panel'",
    swap_cells: "'G4' .* is not all inside its box",
    move_a_label_to_the_next_line: "at end a of conductor '106' does not stand on its line",
    put_a_label_on_a_line: "conductor '106' runs over 'GN'",
    lay_a_label_on_another: "'106' .* and 'GN' .* overlap|'GN' .* and '106' .* overlap",
    push_a_name_out_of_its_box: "'CB4' .* is not all inside its box",
    recolour: "conductor '101' is drawn in #d00000, solid instead of #000000, solid",
    undash: "conductor '122' is drawn in #008a3e, solid instead of #008a3e, dashed",
    thicken: "conductor '111' is 3 pt wide instead of 0.9 pt",
    slant: "conductor '106' runs aslant",
    part_halo_from_line: "conductor '106': its coats do not lie on each other",
    hide: "not part of the picture: .*opacity",
    clip: "not part of the picture: .*style",
    cover: "b2 looks like .*#ffffff",
    add_a_line: "line l99_0 is drawn but not part of the picture",
    draw_a_line_twice: "is drawn twice",
    add_a_word: "'Point to point' .safe. is drawn but not part of the picture",
    stray_style: "not part of the picture: <style>",
    open_contact_drawn_closed: "the mark of .* is not that of a contact, normally open",
    move_a_mark: "the mark of .* is not that of a screw terminal",
    shrink_a_connector: "the outline of the connector at .* does not go round its pins",
    change_the_legend: "says 'BK brown' instead of 'BK black'",
    change_a_sample: "line g0 is drawn in #8a4b08",
    change_what_is_read_aloud: "the text read aloud",
    move_a_dot: "conductor '101': its dot is not at its end",
}


@pytest.mark.parametrize("mutant", MUTANTS, ids=lambda mutant: mutant.__name__)
def test_every_mutant_is_caught(mutant: Callable[[ET.Element], None]) -> None:
    root = parsed(DRAWING.svg)
    mutant(root)
    with pytest.raises(DrawingError, match=MUTANTS[mutant]):
        prove_or_raise(DRAWING.picture, ET.tostring(root, encoding="unicode"))


def test_rewriting_the_file_alone_is_no_mutant() -> None:
    root = parsed(DRAWING.svg)
    assert prove(DRAWING.picture, ET.tostring(root, encoding="unicode")) == ()


@pytest.mark.parametrize("text", ["", "<svg", "<svg xmlns='http://www.w3.org/2000/svg'/>", "{}"])
def test_what_is_no_drawing_is_refused(text: str) -> None:
    with pytest.raises(DrawingError, match=r"not well-formed|no graph at a known scale"):
        prove_or_raise(DRAWING.picture, text)


@pytest.mark.parametrize("seed", range(200, 212))
def test_any_two_conductors_that_change_places_are_noticed(seed: int) -> None:
    """Property over random pictures: swap the ways of two neighbours in the list."""
    drawing = draw(random_picture(seed, lines=60))
    ways = dict(re.findall(r'id="(l\d+)_0" class="edge">.*?d="([^"]+)"', drawing.svg, re.S))
    names = sorted(ways, key=lambda name: int(name[1:]))
    for one, other in zip(names[::2], names[1::2], strict=False):
        swapped = drawing.svg.replace(ways[one], "@").replace(ways[other], ways[one])
        assert prove(drawing.picture, swapped.replace("@", ways[other])), f"{one} and {other}"


def test_the_engines_drawings_are_judged_alike() -> None:
    system = system_engine()
    for engine in (WHEEL, *([system] if system else [])):
        drawing = draw(cabled(9, 60, 70), engine=engine)
        spoilt = re.sub(r'(id="l3_a_number".*?>)103<', r"\g<1>104<", drawing.svg, flags=re.S)
        assert prove(drawing.picture, drawing.svg) == ()
        assert prove(drawing.picture, spoilt) == ("l3_a_number says '104' instead of '103'",)
