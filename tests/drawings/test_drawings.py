"""Whole drawings, end by end: properties over random pictures, checked by the proof and by a second, cruder reader.

Both engines draw from the same source; the second reader shares no code with the layout or the proof.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.drawings.drawing import draw, write_dot, write_png, write_svg
from schedules.drawings.engine import WHEEL, Engine, system_engine
from schedules.drawings.errors import DrawingError
from schedules.drawings.finish import finished
from schedules.drawings.names import cells
from schedules.drawings.picture import Block, End, Line, Picture, Terminal, TerminalKind
from schedules.drawings.proof import prove
from tests.pictures import cabled, kitchen, random_picture

if TYPE_CHECKING:
    from collections.abc import Iterator

SYSTEM = system_engine()
ENGINES = [WHEEL, *([SYSTEM] if SYSTEM else [])]
ROOT = Path(__file__).parents[2]


@pytest.fixture(params=ENGINES, ids=lambda engine: engine.name)
def engine(request: pytest.FixtureRequest) -> Engine:
    found = request.param
    assert isinstance(found, Engine)
    return found


def wrong_ends(picture: Picture, svg: str) -> Iterator[str]:
    """Each line's two ends against every cell, by nothing but regular expressions."""
    boxes = {}
    pattern = r'id="([tc][\d_ab]+)" class="node">.*?points="([^"]+)"'
    for name, points in re.findall(pattern, svg, re.S):
        numbers = [float(n) for n in re.findall(r"-?[\d.]+", points)]
        boxes[name] = min(numbers[::2]), max(numbers[::2]), min(numbers[1::2]), max(numbers[1::2])
    for (index, end), cell in cells(picture).items():
        found = re.search(rf'id="l{index}_1" class="edge">.*?d="M([-\d., C]+)"', svg, re.S)
        assert found, f"no path for line {index}"
        numbers = [float(n) for n in re.findall(r"-?[\d.]+", found[1])]
        x, y = numbers[:2] if end == "a" else numbers[-2:]
        touched = {
            name
            for name, (left, right, top, bottom) in boxes.items()
            if top < y < bottom and min(abs(x - left), abs(x - right)) < 0.6
        }
        if touched != {cell}:
            yield f"end {end} of line {index} touches {touched}, not {cell}"


def test_a_whole_kitchen_is_drawn_and_proved(engine: Engine) -> None:
    drawing = draw(kitchen(), engine=engine)
    assert not list(wrong_ends(drawing.picture, drawing.svg))
    assert drawing.png(100).startswith(b"\x89PNG")


@pytest.mark.parametrize("seed", range(40))
def test_random_pictures_have_no_wrong_end(seed: int) -> None:
    drawing = draw(random_picture(seed))
    assert not list(wrong_ends(drawing.picture, drawing.svg))


@pytest.mark.parametrize("seed", range(100, 108))
def test_crowded_pictures_have_no_wrong_end(seed: int, engine: Engine) -> None:
    picture = cabled(12, 96, 150, seed)
    drawing = draw(picture, engine=engine)
    assert not list(wrong_ends(drawing.picture, drawing.svg))


@pytest.mark.skipif(SYSTEM is None, reason="no Graphviz on this system")
@pytest.mark.parametrize("seed", range(8))
def test_the_exported_source_is_the_same_drawing_in_another_graphviz(seed: int) -> None:
    assert SYSTEM is not None
    drawing = draw(random_picture(seed))
    command = [SYSTEM.binary, "-Tsvg"]
    again = subprocess.run(command, input=drawing.dot, capture_output=True, text=True, check=True).stdout
    assert not prove(drawing.picture, finished(again, drawing.picture, ""))


def test_nothing_but_blocks_and_nothing_at_all() -> None:
    assert draw(Picture("Empty", (), ())).width_pt > 0
    alone = Picture("Alone", (Block("a", "A", "Alone", ()),), ())
    assert ">Alone<" in draw(alone).svg


def test_parallel_conductors_are_drawn_each_for_itself() -> None:
    blocks = tuple(Block(tag, tag, tag, (Terminal("1", "1"),)) for tag in "AB")
    lines = tuple(Line(str(n), End("A", "1"), End("B", "1"), "BK") for n in range(5))
    drawing = draw(Picture("Five in parallel", blocks, lines))
    assert not list(wrong_ends(drawing.picture, drawing.svg))


def test_same_bytes_twice() -> None:
    one, two = draw(kitchen()), draw(kitchen())
    assert one == two
    assert one.png() == two.png()


def test_same_bytes_under_any_hash_seed() -> None:
    code = (
        "import hashlib; from tests.ladders import tangled; from tests.pictures import kitchen, random_picture;"
        "from schedules.drawings.drawing import draw;"
        "from schedules.drawings.ladder.drawing import draw_ladder;"
        "drawn = [draw(kitchen()), draw(random_picture(3)), *draw_ladder(tangled(3))];"
        "print([hashlib.sha256(d.svg.encode() + d.dot.encode()).hexdigest() for d in drawn])"
    )
    said = {
        subprocess.run(
            [sys.executable, "-c", code],
            env=os.environ | {"PYTHONHASHSEED": seed},
            cwd=ROOT,
            capture_output=True,
            text=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    }
    assert len(said) == 1


def test_a_prefix_keeps_the_ids_of_two_drawings_apart() -> None:
    one, two = draw(kitchen(), prefix="d1-"), draw(kitchen(), prefix="d2-")
    ids = [set(re.findall(r' id="([^"]+)"', drawing.svg)) for drawing in (one, two)]
    assert all(ids)
    assert not ids[0] & ids[1]


def test_blocks_terminals_and_lines_lead_to_their_rows(engine: Engine) -> None:
    blocks = tuple(
        Block(tag, tag, tag, (Terminal("1", "1", href=f"#row-{tag}"),), href=f"#box-{tag}") for tag in "AB"
    )
    line = Line("1", End("A", "1"), End("B", "1"), "BK", href="#line-1")
    drawing = draw(Picture("Linked", blocks, (line,)), engine=engine)
    links = set(re.findall(r'xlink:href="([^"]+)"', drawing.svg))
    assert links == {"#row-A", "#row-B", "#box-A", "#box-B", "#line-1"}


def test_an_overview_is_cables_on_openings(engine: Engine) -> None:
    """A cable is a line without colour: its type stands in the colour's place, its length last."""
    blocks = tuple(
        Block(
            tag,
            tag,
            name,
            (Terminal("k", opening, TerminalKind.OPENING), Terminal("n", "", TerminalKind.OPENING)),
        )
        for tag, name, opening in (("H", "Hood", "KO 1/2"), ("P", "Panel", "KO 3/4"))
    )
    lines = (
        Line("W1", End("H", "k"), End("P", "k"), size="14/2 NM-B", note="cut 19 ft 6 in"),
        Line("W2", End("H", "n"), End("P", "n"), size="18/4 CL2", note="not measured"),
    )
    drawing = draw(Picture("Overview", blocks, lines), engine=engine)
    assert not list(wrong_ends(drawing.picture, drawing.svg))
    for text in ("14/2 NM-B", "cut 19 ft 6 in", "to P.KO 3/4", "to H", "opening"):
        assert f">{text}<" in drawing.svg


def test_a_legend_can_be_left_out() -> None:
    plain = replace(kitchen(), legend=False)
    assert "BK black" in draw(kitchen()).svg
    assert "BK black" not in draw(plain).svg


def test_the_drawing_can_be_read_aloud() -> None:
    svg = draw(kitchen()).svg
    assert 'role="img"' in svg
    assert "120 WH→BK 14 AWG in W5: C.K1:14 to V.Y1." in svg
    assert "133 WH 18 AWG in W6: capped in C to capped in R." in svg


def test_files_are_written_whole(tmp_path: Path) -> None:
    drawing = draw(kitchen())
    write_svg(drawing, tmp_path / "a.svg")
    write_dot(drawing, tmp_path / "a.dot")
    write_png(drawing, tmp_path / "a.png", dpi=50)
    assert (tmp_path / "a.svg").read_text(encoding="utf-8") == drawing.svg
    assert (tmp_path / "a.dot").read_text(encoding="utf-8") == drawing.dot
    assert sorted(path.name for path in tmp_path.iterdir()) == ["a.dot", "a.png", "a.svg"]


def test_an_unproved_drawing_never_comes_to_be(monkeypatch: pytest.MonkeyPatch) -> None:
    """An engine that swaps two labels on its way out: there is no drawing to write."""
    render = Engine.render

    def swapping(self: Engine, source: str, layout: str, format_: str) -> bytes:
        drawn = render(self, source, layout, format_)  # type: ignore[arg-type]
        return drawn.replace(b">101<", b">999<") if format_ == "svg" else drawn

    monkeypatch.setattr(Engine, "render", swapping)
    with pytest.raises(DrawingError, match="says '999' instead of '101'"):
        draw(kitchen())


def test_a_view_keeps_the_places_of_the_whole() -> None:
    whole = draw(kitchen())
    shown = {"control", "hood", "valve"}
    view = replace(
        kitchen(),
        blocks=tuple(block for block in kitchen().blocks if block.key in shown),
        lines=tuple(line for line in kitchen().lines if {line.a.block, line.b.block} <= shown),
    )
    kept = draw(view, like=whole.arrangement).arrangement
    for column in kept.columns:
        assert any(
            [key for key in home if key in shown] == list(column) for home in whole.arrangement.columns
        )
