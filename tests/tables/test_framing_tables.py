"""Lumber and the rules for holes in it: every row carried, against values retyped by hand."""

from __future__ import annotations

import pytest

from schedules.framing.cuts import joist_hole_limit, joist_notch_limit, stud_hole_limit, stud_notch_limit
from schedules.site.lumber import lumber_sizes
from schedules.tables import load

# Thickness and depth [in].
LUMBER = {
    "2x4": (1.5, 3.5, "two_texts"),
    "2x6": (1.5, 5.5, "two_texts"),
    "2x8": (1.5, 7.25, "two_texts"),
    "2x10": (1.5, 9.25, "two_texts"),
    "2x12": (1.5, 11.25, "memory"),
}

# Number, unit, section.
RULES = {
    "stud_notch_bearing": (25, "%", "R602.6"),
    "stud_notch_nonbearing": (40, "%", "R602.6"),
    "stud_hole_bearing": (40, "%", "R602.6"),
    "stud_hole_nonbearing": (60, "%", "R602.6"),
    "stud_hole_doubled": (60, "%", "R602.6"),
    "stud_hole_doubled_in_a_row": (2, "studs", "R602.6"),
    "stud_hole_edge": (0.625, "in", "R602.6"),
    "plate_cut_tied_above": (50, "%", "R602.6.1"),
    "plate_tie_thickness": (0.054, "in", "R602.6.1"),
    "plate_tie_width": (1.5, "in", "R602.6.1"),
    "plate_tie_past_opening": (6, "in", "R602.6.1"),
    "joist_hole_divisor": (3, "of depth", "R502.8.1"),
    "joist_hole_edge": (2, "in", "R502.8.1"),
    "joist_notch_depth_divisor": (6, "of depth", "R502.8.1"),
    "joist_notch_length_divisor": (3, "of depth", "R502.8.1"),
    "joist_end_notch_divisor": (4, "of depth", "R502.8.1"),
    "joist_notch_free_span_divisor": (3, "of span", "R502.8.1"),
    "joist_thick_member": (4, "in", "R502.8.1"),
    "engineered_members": (None, "", "R502.8.2"),
}

# By hand from the depths above: size; stud notch bearing, non-bearing; stud hole bearing, non-bearing or doubled;
# joist hole by its third of the depth, joist notch, joist end notch, joist hole by the wood left at its edges [in].
CUTS = """
2x4   0.875  1.4  1.4  2.1   1.167  0.583  0.875  -
2x6   1.375  2.2  2.2  3.3   1.833  0.917  1.375  1.5
2x8   1.812  2.9  2.9  4.35  2.417  1.208  1.812  3.25
2x10  2.312  3.7  3.7  5.55  3.083  1.542  2.312  5.25
2x12  2.812  4.5  4.5  6.75  3.750  1.875  2.812  7.25
"""
# The reference prints three places and cuts the fourth off.
PLACES = 0.001


def test_lumber() -> None:
    rows = load("lumber_actual_size").rows
    assert {
        row.text("size"): (row.number("thickness_in"), row.number("depth_in"), row.text("confidence"))
        for row in rows
    } == LUMBER


def test_framing_rules() -> None:
    rows = load("irc_framing_rules").rows
    assert {
        row.text("rule"): (
            row.number("number") if row.has("number") else None,
            row.text("unit"),
            row.text("section"),
        )
        for row in rows
    } == RULES


@pytest.mark.parametrize("line", CUTS.strip().splitlines())
def test_cuts_by_lumber_size(line: str) -> None:
    size, notch, notch_free, hole, hole_free, third, joist_notch, end_notch, by_edge = line.split()
    assert stud_notch_limit(size, bearing=True, edition="2018").limit_in == pytest.approx(
        float(notch), abs=PLACES
    )
    assert stud_notch_limit(size, bearing=False, edition="2018").limit_in == pytest.approx(float(notch_free))
    assert stud_hole_limit(size, bearing=True, edition="2018").limit_in == pytest.approx(float(hole))
    assert stud_hole_limit(size, bearing=False, edition="2018").limit_in == pytest.approx(float(hole_free))
    doubled = stud_hole_limit(size, bearing=True, doubled=True, edition="2018")
    assert doubled.limit_in == pytest.approx(float(hole_free))
    joist = joist_hole_limit(size, edition="2018").limit_in
    smaller = min(float(third), 0.0 if by_edge == "-" else float(by_edge))
    assert joist == pytest.approx(smaller, abs=PLACES)
    shallow = joist_notch_limit(size, at_end=False, edition="2018").limit_in
    assert shallow == pytest.approx(float(joist_notch), abs=PLACES)
    assert joist_notch_limit(size, at_end=True, edition="2018").limit_in == pytest.approx(
        float(end_notch), abs=PLACES
    )


# Reference, by hand: depth less twice 5/8 in of wood at the edges [in].
BY_STUD_EDGES = {"2x4": 2.25, "2x6": 4.25, "2x8": 6.0, "2x10": 8.0, "2x12": 10.0}


@pytest.mark.parametrize("size", BY_STUD_EDGES)
def test_wood_left_at_both_edges_of_a_stud(size: str) -> None:
    by_edge = stud_hole_limit(size, bearing=False, edition="2018").working.inputs[-1]
    assert by_edge.value == f"{BY_STUD_EDGES[size]:.3f} in"


def test_cuts_cover_every_size() -> None:
    assert lumber_sizes() == tuple(line.split()[0] for line in CUTS.strip().splitlines())
