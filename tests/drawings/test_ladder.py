"""The ladder: the same circuit as the graph, drawn once each, read back; every way of spoiling it is found.

What is joined is compared with the network that behaviour is solved from, which is built by other code.
"""

from __future__ import annotations

import re
import subprocess
from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING
from xml.etree import ElementTree as ET

import pytest

from schedules.drawings.engine import system_engine
from schedules.drawings.errors import PictureError
from schedules.drawings.finish import dressed
from schedules.drawings.ladder.bridges import bridge as bridged
from schedules.drawings.ladder.content import Ladder, Piece, Section, Symbol
from schedules.drawings.ladder.drawing import draw_ladder
from schedules.drawings.ladder.measures import broken
from schedules.drawings.ladder.order import energy_order
from schedules.drawings.ladder.proof import prove_ladder
from schedules.drawings.ladder.rungs import rungs_of
from schedules.drawings.ladder.sections import sections_of
from schedules.drawings.ladder.spots import crossed_by, settled
from schedules.drawings.ladder.telling import told
from schedules.drawings.ladder.views import circuit_ladder, effects, interlock_ladder, ladder
from schedules.drawings.picture import Paper
from schedules.network.netlist import make_netlist
from schedules.planned import plan_file
from tests.ladders import bridge, series_parallel, tangled

if TYPE_CHECKING:
    from collections.abc import Callable

    from schedules.plan import Plan

ROOT = Path(__file__).parents[2]
SVG = "{http://www.w3.org/2000/svg}"
JOBS = ("corner-electric", "loft-gas", "training-room")
SYSTEM = system_engine()


@cache
def planned(name: str) -> Plan:
    return plan_file(ROOT / "samples" / "jobs" / f"{name}.toml", remedies=False).plan


def pieces(sections: tuple[Section, ...]) -> dict[str, Piece]:
    found = [piece for section in sections for piece in section.pieces]
    assert len({piece.key for piece in found}) == len(found)
    return {piece.key: piece for piece in found}


@pytest.mark.parametrize("job", JOBS)
def test_every_conductor_and_element_but_the_grounding_is_on_the_ladder_once(job: str) -> None:
    graph = planned(job).derived.connections
    drawn = pieces(sections_of(planned(job)))
    carried = {point for point, landing in graph.landings.items() if landing.carries != "ground"}
    ends = {key: (item.a, item.b) for key, item in (graph.conductors | graph.inside).items()}  # type: ignore[operator]
    wanted = {
        key
        for key, (a, b) in ends.items()
        if {a, b} <= carried and not (a.device == b.device == "MAINS") and key in ends
    }
    assert {
        key for key in wanted if drawn[key].symbol is Symbol.CONDUCTOR
    } == wanted & graph.conductors.keys()
    assert drawn.keys() == wanted
    assert all({piece.a, piece.b} == set(map(str, ends[key])) for key, piece in drawn.items())


@pytest.mark.parametrize("job", JOBS)
def test_what_wires_join_and_what_contacts_do_is_what_behaviour_is_solved_from(job: str) -> None:
    plan = planned(job)
    net = make_netlist(
        plan.derived.selection, plan.derived.connections, plan.derived.lengths, str(plan.derived.job.job.code)
    )
    points = {str(point): number for point, number in net.nets.items()}
    for key, piece in pieces(sections_of(plan)).items():
        if piece.symbol is Symbol.FITTED:
            assert points[piece.a] == points[piece.b]
            continue
        branch = net.branches[key]
        assert {points[piece.a], points[piece.b]} == {branch.a, branch.b}
        if key in net.switches:
            shut = bool(net.shut & net.switches[key].bit)
            assert (piece.symbol in (Symbol.NC, Symbol.BREAKER)) == shut
        assert (piece.symbol is Symbol.COIL) == (key in net.windings)
        assert (piece.symbol in (Symbol.LOAD, Symbol.LAMP, Symbol.MOTOR)) == (key in net.users)
        assert (piece.symbol is Symbol.SUPPLY) == (key in net.sources)


@pytest.mark.parametrize("job", JOBS)
def test_every_view_of_a_sample_is_proved_and_can_be_read_on_its_paper(job: str) -> None:
    plan = planned(job)
    views = [ladder(plan, Paper.A3)]
    views += [circuit_ladder(plan, need.circuit.tag) for need in plan.derived.circuits[:1]]
    views += [interlock_ladder(plan, effect) for effect in list(effects(plan))[:2]]
    for view in views:
        for page in draw_ladder(view):
            assert page.on(view.paper).readable, view.title


def test_an_interlock_holds_all_that_stands_before_its_effect_and_nothing_beside_it() -> None:
    drawn = pieces(interlock_ladder(planned("corner-electric"), "range-heat").sections)
    assert {"X31.elements", "K4.main-1", "K4.main-2", "X31.knobs", "X30.contactor", "K1.fire"} <= drawn.keys()
    assert {"K1.set-button", "K1.seal", "K1.coil", "A1.release-relay", "A1.detector", "301"} <= drawn.keys()
    assert not {"A1.electronics", "P1.lamp", "X8.fire", "M2.motor", "A1.actuator", "1003"} & drawn.keys()


def test_a_circuit_brings_what_it_feeds() -> None:
    titles = [section.title for section in circuit_ladder(planned("loft-gas"), "Q1").sections]
    assert titles == ["Circuit Q1: Hood control transformer", "T1 secondary: 24 V ac"]
    with pytest.raises(LookupError, match="no circuit Q9 with these options; there are: Q1"):
        circuit_ladder(planned("loft-gas"), "Q9")
    with pytest.raises(LookupError, match="no effect heat with these options; there are: controls"):
        interlock_ladder(planned("loft-gas"), "heat")


def test_energy_comes_from_the_left_and_uses_stand_before_the_way_back() -> None:
    for job in JOBS:
        for section in sections_of(planned(job)):
            rungs = rungs_of(section)
            assert rungs.x[section.rails[0]] == min(rungs.x.values())
            assert rungs.x[section.rails[-1]] == max(rungs.x.values())
            for span in rungs.spans:
                assert rungs.x[span.left] < rungs.x[span.right]


@pytest.mark.parametrize("seed", range(40))
def test_series_and_parallel_never_cross_and_every_node_has_its_place_between_others(seed: int) -> None:
    (section,) = series_parallel(seed).sections
    assert not bridged(section)
    rungs, _ = settled(section)
    assert not any(crossed_by(span, rungs) for span in rungs.spans)
    place = {node: n for n, node in enumerate(energy_order(section))}
    joined = {(piece.a, piece.b) for piece in section.pieces if not piece.symbol.conducts}
    joined |= {(b, a) for a, b in joined}
    wires = {end for piece in section.pieces if piece.symbol.conducts for end in (piece.a, piece.b)}
    for node in place.keys() - wires - set(section.rails):
        sides = {place[b] > place[a] for a, b in joined if a == node}
        assert sides == {False, True}


@pytest.mark.parametrize("seed", range(6))
def test_any_circuit_is_drawn_and_proved(seed: int) -> None:
    for invented in (series_parallel(seed), tangled(seed)):
        (page,) = draw_ladder(invented)
        assert page.svg


def test_a_section_too_long_for_its_paper_goes_on_in_parts_and_each_is_proved() -> None:
    whole = replace(series_parallel(21, depth=7), paper=Paper.LETTER)
    pages = draw_ladder(whole)
    assert [page.ladder.sections[0].title for page in pages] == [
        "Invented, part 1 of 2",
        "Invented, part 2 of 2",
    ]
    assert all(page.on(Paper.LETTER).readable for page in pages)
    assert pieces(tuple(section for page in pages for section in page.ladder.sections)) == pieces(
        whole.sections
    )
    drawn = [(page.ladder, page.svg, f"{n}-") for n, page in enumerate(pages, start=1)]
    assert prove_ladder(whole, tuple(drawn)) == ()
    spoilt = [drawn[:1], drawn[::-1], [*drawn, drawn[0]]]
    for few in spoilt:
        assert any("the ladder" in failure for failure in prove_ladder(whole, tuple(few)))


def test_a_ladder_that_contradicts_itself_is_refused() -> None:
    (section,) = bridge().sections
    lost = Piece("K.f", "X1:1", "X9:9", Symbol.NO, "K f")
    loop = Piece("K.g", "X1:1", "X1:1", Symbol.NO, "K g")
    with pytest.raises(PictureError, match=r"'K\.f' ends on a terminal that is not there"):
        Ladder("", "", (replace(section, pieces=(*section.pieces, lost)),))
    with pytest.raises(PictureError, match="starts and ends on the same terminal 'X1:1'"):
        Ladder("", "", (replace(section, pieces=(*section.pieces, loop)),))
    with pytest.raises(PictureError, match="nothing ends on X1:2"):
        Ladder("", "", (replace(section, pieces=section.pieces[:2]),))
    with pytest.raises(PictureError, match="a rail is not there"):
        Ladder("", "", (replace(section, rails=("MAINS:L2", "MAINS:N")),))


def test_long_names_are_parted_at_their_hyphens() -> None:
    assert broken("X20 cooking-contactor", bold=True) == ("X20 cooking-", "contactor")
    assert broken("") == ()


def test_a_bridge_is_said_and_drawn() -> None:
    (section,) = bridge().sections
    assert bridged(section) == {"K.a", "K.b", "K.c", "K.d", "K.e"}
    assert draw_ladder(bridge())


@pytest.mark.skipif(SYSTEM is None, reason="no Graphviz on this system")
def test_another_graphviz_draws_the_same_from_the_exported_source() -> None:
    assert SYSTEM is not None
    (page,) = draw_ladder(circuit_ladder(planned("corner-electric"), "Q1"))
    again = subprocess.run(
        [SYSTEM.binary, "-Tsvg"], input=page.dot, capture_output=True, text=True, check=True
    ).stdout
    assert not prove_ladder(page.ladder, ((page.ladder, dressed(again, told(page.ladder), ""), ""),))
    assert draw_ladder(circuit_ladder(planned("corner-electric"), "Q1"), engine=SYSTEM)


def test_it_can_be_read_aloud_and_leads_to_its_rows() -> None:
    (page,) = draw_ladder(circuit_ladder(planned("corner-electric"), "Q1"), prefix="q1-")
    assert 'role="img"' in page.svg
    assert "601 BK 14 AWG in W6: H.X11:1 to CB.X30:1." in page.svg
    assert 'xlink:href="#X30-1"' in page.svg
    assert not re.search(r' id="(?!q1-)', page.svg)


# --- The proof is proved: each mutant changes the finished SVG; none of them knows how the proof works. ---


@cache
def drawing() -> tuple[Ladder, str]:
    (page,) = draw_ladder(circuit_ladder(planned("corner-electric"), "Q1"))
    return page.ladder, page.svg


def failures(svg: str) -> tuple[str, ...]:
    page = drawing()[0]
    return prove_ladder(page, ((page, svg, ""),))


def name_of(key: str) -> str:
    return next(f"p0_{n}" for n, piece in enumerate(drawing()[0].sections[0].pieces) if piece.key == key)


def node_of(key: str) -> str:
    return next(f"n0_{n}" for n, node in enumerate(drawing()[0].sections[0].nodes) if node.key == key)


def groups(root: ET.Element, stem: str) -> list[ET.Element]:
    found = [g for g in root.iter(f"{SVG}g") if re.fullmatch(rf"{stem}(_.*)?", g.get("id", ""))]
    assert found, stem
    return found


def remove(root: ET.Element, stem: str) -> None:
    graph = next(g for g in root if g.get("class") == "graph")
    for gone in groups(root, stem):
        if gone in list(graph):
            graph.remove(gone)


def shift(root: ET.Element, stem: str, dx: float, dy: float) -> None:
    def moved(pair: re.Match[str]) -> str:
        return f"{float(pair[1]) + dx:.2f},{float(pair[2]) + dy:.2f}"

    for group in groups(root, stem):
        for element in group.iter():
            for name in ("d", "points"):
                if name in element.attrib:
                    element.set(name, re.sub(r"(-?[\d.]+),(-?[\d.]+)", moved, element.attrib[name]))
            for name, by in (("x", dx), ("cx", dx), ("y", dy), ("cy", dy)):
                if name in element.attrib:
                    element.set(name, f"{float(element.attrib[name]) + by:.2f}")


def first_x(root: ET.Element, stem: str) -> tuple[float, float]:
    """Where the first path of a group begins."""
    path = next(path for group in groups(root, stem) for path in group.iter(f"{SVG}path"))
    found = re.match(r"M(-?[\d.]+),(-?[\d.]+)", path.get("d", ""))
    assert found
    return float(found[1]), float(found[2])


def swap_shapes(root: ET.Element, one: str, other: str) -> None:
    """Two contacts change symbols, each at the other's place."""
    (x, y), (u, v) = first_x(root, f"{one}_mark0"), first_x(root, f"{other}_mark0")
    shift(root, rf"{one}_mark\d", u - x, v - y)
    shift(root, rf"{other}_mark\d", x - u, y - v)


def contact_drawn_closed(root: ET.Element) -> None:
    swap_shapes(root, name_of("K1.fire"), name_of("K1.set-button"))


def blade_laid_flat(root: ET.Element) -> None:
    for path in groups(root, f"{name_of('X8.fire')}_mark1")[0].iter(f"{SVG}path"):
        points = re.findall(r"-?[\d.]+,-?[\d.]+", path.get("d", ""))
        y = points[0].split(",")[1]
        level = [f"{point.split(',')[0]},{y}" for point in points]
        path.set("d", f"M{level[0]}C{' '.join(level[1:])}")


def rung_missing(root: ET.Element) -> None:
    for key in ("K1.seal",):
        remove(root, name_of(key))


def label_dropped(root: ET.Element) -> None:
    remove(root, f"{name_of('601')}_number")


def labels_swapped(root: ET.Element) -> None:
    one, other = (
        next(groups(root, f"{name_of(key)}_number")[0].iter(f"{SVG}text")) for key in ("601", "602")
    )
    one.text, other.text = other.text, one.text


def elements_swapped(root: ET.Element) -> None:
    """Contact and button in series change places, names and all."""
    one, other = name_of("K1.fire"), name_of("K1.set-button")
    (x, y), (u, v) = first_x(root, f"{one}_mark0"), first_x(root, f"{other}_mark0")
    parts = r"_(mark\d|ring\d|name_\d|under_\d)"
    shift(root, one + parts, u - x, v - y)
    shift(root, other + parts, x - u, y - v)


def terminals_swapped(root: ET.Element) -> None:
    one, other = (
        next(groups(root, f"{node_of(key)}_name")[0].iter(f"{SVG}text")) for key in ("K1:F", "K1:P")
    )
    one.text, other.text = other.text, one.text


def element_shorted(root: ET.Element) -> None:
    """The lead before a contact runs on to the far side of it."""
    stem = f"{name_of('X8.fire')}_left"
    for group in groups(root, stem):
        for path in group.iter(f"{SVG}path"):
            path.set("d", re.sub(r"(-?[\d.]+),(-?[\d.]+)$", _farther, path.get("d", "")))


def _farther(pair: re.Match[str]) -> str:
    return f"{float(pair[1]) + 30:.2f},{pair[2]}"


def short_added(root: ET.Element) -> None:
    graph = next(g for g in root if g.get("class") == "graph")
    x, y = first_x(root, f"{name_of('X8.fire')}_left")
    line = f"M{x},{y}C{x},{y} {x + 60},{y} {x + 60},{y}"
    group = ET.SubElement(graph, f"{SVG}g", {"id": "p0_99_0", "class": "edge"})
    ET.SubElement(group, f"{SVG}path", {"d": line, "fill": "none", "stroke": "#1a1a1a"})


def line_moved_to_another_upright(root: ET.Element) -> None:
    """The contactor's rung begins at F instead of P."""
    (x, _), (u, _) = first_x(root, f"{node_of('K1:F')}_0"), first_x(root, f"{node_of('K1:P')}_0")
    stem = name_of("K1:P~X11:1")
    for group in groups(root, stem):
        for path in group.iter(f"{SVG}path"):
            path.set("d", path.get("d", "").replace(f"{u:g},", f"{x:g},"))


def link_at_another_terminal(root: ET.Element) -> None:
    shift(root, f"{node_of('X30:1')}_link", 60, 0)


def joint_dropped(root: ET.Element) -> None:
    remove(root, rf"{node_of('K1:P')}_dot\d+")


def joint_added(root: ET.Element) -> None:
    """A dot where two lines would only meet."""
    dot = groups(root, rf"{node_of('K1:P')}_dot\d+")[0]
    other = ET.fromstring(ET.tostring(dot))  # noqa: S314 - our own engine's drawing
    other.set("id", f"{node_of('K1:L')}_dot7")
    next(g for g in root if g.get("class") == "graph").append(other)


def upright_shortened(root: ET.Element) -> None:
    for path in groups(root, f"{node_of('K1:P')}_0")[0].iter(f"{SVG}path"):
        x, y = first_x(root, f"{node_of('K1:P')}_0")
        path.set("d", f"M{x},{y}C{x},{y} {x},{y + 20} {x},{y + 20}")


def rung_renumbered(root: ET.Element) -> None:
    next(groups(root, "r3")[0].iter(f"{SVG}text")).text = "4"


def reference_wrong(root: ET.Element) -> None:
    for group in groups(root, rf"{name_of('K1.coil')}_under_\d"):
        for text in group.iter(f"{SVG}text"):
            text.text = (text.text or "").replace("5", "4")


def name_moved_to_the_next_symbol(root: ET.Element) -> None:
    swap = [f"{name_of(key)}_name_0" for key in ("K1.fire", "K1.set-button")]
    one, other = (next(groups(root, stem)[0].iter(f"{SVG}text")) for stem in swap)
    one.text, other.text = other.text, one.text


def wire_in_another_colour(root: ET.Element) -> None:
    for path in groups(root, f"{name_of('101')}_1")[0].iter(f"{SVG}path"):
        path.set("stroke", "#d00000")


def word_over_a_line(root: ET.Element) -> None:
    shift(root, f"{name_of('601')}_number", 0, 5)


MUTANTS: dict[Callable[[ET.Element], None], str] = {
    contact_drawn_closed: "K1 fire' does not end at its symbol",
    blade_laid_flat: "the symbol of X8 fire is not the declared one",
    rung_missing: "'?K1 seal'? .*is not drawn|'K1 seal'",
    label_dropped: "'601 BK' .* is not drawn",
    labels_swapped: "says '602 WH' instead of '601 BK'",
    elements_swapped: "does not end at its symbol",
    terminals_swapped: "says 'K1:P' instead of 'K1:F'",
    element_shorted: "does not end at its symbol",
    short_added: "p0_99_0 is drawn but not part of the picture",
    line_moved_to_another_upright: "joins K1:F and X11:1 instead of|joins nothing and X11:1 instead of",
    link_at_another_terminal: "what leads to the row of X30:1 is not at its mark",
    joint_dropped: "joins nothing and",
    joint_added: "a dot",
    upright_shortened: "joins nothing and",
    rung_renumbered: "the rungs are numbered",
    reference_wrong: "under 'K1.coil' stands",
    name_moved_to_the_next_symbol: "says 'K1 set-button' instead of 'K1 fire'",
    wire_in_another_colour: "is drawn in #d00000",
    word_over_a_line: "runs over '601 BK'|does not stand at its conductor",
}


def test_a_good_ladder_is_left_alone() -> None:
    assert failures(drawing()[1]) == ()


@pytest.mark.parametrize("mutate", MUTANTS, ids=lambda mutate: mutate.__name__)
def test_every_mutant_is_caught(mutate: Callable[[ET.Element], None]) -> None:
    root = ET.fromstring(drawing()[1])  # noqa: S314 - our own engine's drawing
    before = ET.tostring(root, encoding="unicode")
    mutate(root)
    svg = ET.tostring(root, encoding="unicode")
    assert svg != before
    assert not failures(before)
    found = failures(svg)
    assert found
    assert any(re.search(MUTANTS[mutate], failure) for failure in found), found
