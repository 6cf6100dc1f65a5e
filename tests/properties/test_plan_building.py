"""Boxes and framing of a whole plan, by hand-worked volumes and holes.

Volumes follow NEC 314.16(B), pull boxes 314.28(A), holes and notches IRC R602.6 and R502.8, plates NEC 300.4. The trap
of a 2 in raceway in a 2x4 wall is common practice among electricians' teachers.
"""

from __future__ import annotations

import itertools
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from schedules.findings import Severity
from schedules.rows.every import SCHEDULES
from tests.kitchen_sheet import SHEET, codes, found, planned, remedied, words

if TYPE_CHECKING:
    from schedules.plan import Plan

IRC = {"job.residential_code": 2018}
EMT_2 = ({"tag": "R1", "kind": "EMT", "cables": ("W1",), "trade_size": "2"},)
STUD = {"tag": "F1", "raceway": "R1", "member": "stud", "lumber": "2x4", "bearing": True}


def framed(*framing: dict[str, Any], raceway: Any = EMT_2, **in_job: Any) -> Plan:
    return planned(None, IRC | in_job, raceway=raceway, framing=framing)


def row(plan: Plan, schedule: str, **wanted: str) -> Any:
    rows = SCHEDULES[schedule](plan).rows
    return next(item for item in rows if all(getattr(item, key) == value for key, value in wanted.items()))


def test_a_box_is_filled_item_by_item() -> None:
    box = row(planned(), "boxes", enclosure="RR")
    # Three 6 AWG at 5 cu in, a yoke of two gangs at 2 x 2 x 5, one ground of 10 AWG at 2.5; no clamps inside.
    assert box.needs_cu_in == pytest.approx(15 + 20 + 2.5)
    assert box.spare_cu_in == pytest.approx(60 - 37.5)


def test_clamps_count_unless_the_box_has_none() -> None:
    unstated = planned({"enclosure.RR.internal_clamps": None})
    assert row(unstated, "boxes", enclosure="RR").needs_cu_in == pytest.approx(37.5 + 5)


def test_a_full_box_is_found_and_the_next_larger_one_cures_it() -> None:
    plan = remedied({"enclosure.RR.volume": "21 cu in", "device.X2.gangs": 1})
    (finding,) = found(plan, "box-full")
    assert finding.severity is Severity.STOP
    # 15 + 10 + 2.5 = 27.5 cu in; Table 314.16(A): the next square box is 4-11/16 x 1-1/2 in with 29.5 cu in.
    assert "needs 27.50 cu in" in finding.says
    assert words(plan, "box-full") == ["set a square box 4-11/16 x 1-1/2 in, 29.5 cu in"]


def test_a_box_set_on_site_stands_in_place_of_the_sheets() -> None:
    plan = planned(box=({"enclosure": "RR", "volume": "30.3 cu in", "internal_clamps": True},))
    box = row(plan, "boxes", enclosure="RR")
    assert (box.has_cu_in, box.clamps) == (30.3, "inside")
    assert found(plan, "box-full")


@pytest.mark.parametrize(
    ("changes", "code"),
    [
        ({"enclosure.RR.volume": None}, "box-volume-open"),
        ({"device.X2.mounts": None}, "box-device-open"),
    ],
)
def test_what_nobody_says_of_a_box_is_asked_for(changes: dict[str, Any], code: str) -> None:
    (finding,) = found(planned(changes), code)
    assert finding.severity is Severity.CHECK


@pytest.mark.parametrize(("code", "counted"), [(2020, 0), (2023, 1), (2026, 1)])
def test_terminal_blocks_count_since_2023(code: int, counted: int) -> None:
    plan = planned({"device.X2.mounts": "terminal block", "circuit.Q2.to_sink": "9 ft"}, {"job.code": code})
    assert row(plan, "boxes", enclosure="RR").needs_cu_in == pytest.approx(15 + counted * 5 + 2.5)


def test_more_than_four_grounds_count_by_quarters() -> None:
    cores = tuple(
        {"id": f"g{n}", "colour": "bare", "size": "10 AWG", "from": "Q2:PE", "to": "X2:G"} for n in range(6)
    )
    cables = (
        *SHEET["cable"],
        {
            "number": 9,
            "name": "grounds",
            "make": "field",
            "type": "THHN",
            "from": {"enclosure": "PB"},
            "to": {"enclosure": "RR"},
            "core": cores,
        },
    )
    # Seven of 10 AWG: one allowance of 2.5 cu in and three quarters of another.
    plan = planned({"cable": cables})
    assert row(plan, "boxes", enclosure="RR").needs_cu_in == pytest.approx(15 + 20 + 2.5 + 0.75 * 2.5)


@settings(max_examples=40)
@given(more=st.lists(st.sampled_from(["18", "14", "12", "10", "8", "6"]), max_size=5), spare=st.booleans())
def test_adding_a_cable_never_shrinks_what_a_box_needs(more: list[str], spare: bool) -> None:
    def with_cables(count: int) -> float:
        cables = list(SHEET["cable"])
        for number, size in enumerate(more[:count], start=20):
            ends = {} if spare else {"from": "Q2:L1", "to": "X2:X"}
            cables.append(
                {
                    "number": number,
                    "name": "one more",
                    "make": "field",
                    "type": "THHN",
                    "from": {"enclosure": "PB"},
                    "to": {"enclosure": "RR"},
                    "core": ({"id": "1", "colour": "BK", "size": f"{size} AWG"} | ends,),
                }
            )
        needs: float = row(planned({"cable": tuple(cables)}), "boxes", enclosure="RR").needs_cu_in
        return needs

    needed = [with_cables(count) for count in range(len(more) + 1)]
    assert all(after > before for before, after in itertools.pairwise(needed))


@pytest.mark.parametrize(
    ("inside", "code"),
    [("12 in", None), ("9 in", "pull-box-open"), (None, "pull-box-open"), ("7 in", "pull-box-short")],
)
def test_thick_conductors_ask_for_a_long_box(inside: str | None, code: str | None) -> None:
    def core(name: str, a: str, b: str) -> dict[str, str]:
        return {"id": name, "colour": "BK", "size": "4 AWG", "from": a, "to": b}

    cores = (core("1", "Q2:L1", "X2:X"), core("2", "Q2:L2", "X2:Y"))
    # 314.28(A) at trade size 1-1/4: 8 x 1.25 = 10 in straight, 6 x 1.25 = 7.5 in at an angle.
    plan = planned(
        {
            "cable.2.core": cores,
            "cable.2.to": {"enclosure": "RR", "opening": "RRK1"},
            "enclosure.RR.inside": inside,
        }
    )
    assert row(plan, "boxes", enclosure="RR").pull == "10 in straight, 7.5 in at an angle"
    assert {item for item in codes(plan) if item.startswith("pull-box")} == ({code} if code else set())


def test_a_2_in_raceway_in_a_2x4_wall_is_the_classic_trap() -> None:
    plan = remedied(None, IRC, raceway=[*EMT_2], framing=[STUD])
    (finding,) = found(plan, "framing-cut")
    assert finding.severity is Severity.STOP
    # Hole of 2.197 + 1/16 in, up to the next eighth: 2-3/8 in; 40 % of 3-1/2 in is 1.40 in.
    assert "needs a hole of 2.375 in" in finding.says
    assert "1.40 in" in finding.says
    kinds = (
        "holds everything",
        "run it upright",
        "frame this wall with 2x8",
        "fur out the wall",
        "on the wall's",
    )
    proved = words(plan, "framing-cut")
    assert all(any(kind in remedy for remedy in proved) for kind in kinds)


def test_a_smaller_raceway_is_offered_only_where_the_connector_passes() -> None:
    big = {"number": 6, "name": "plugged", "make": "factory", "type": "TC-ER-JP 14/2", "length": "30 ft"}
    ends = {
        "diameter": "0.4 in",
        "from": {"enclosure": "H", "opening": "HK1", "connector": "big"},
        "to": {"enclosure": "FN", "connector": "big"},
        "core": ({"id": "1", "colour": "BK", "size": "14 AWG"},),
    }
    plan = remedied(
        {"cable": (*SHEET["cable"], big | ends)},
        IRC,
        raceway=[{"tag": "R1", "kind": "EMT", "cables": ["W6"]}],
        framing=[STUD],
    )
    # The plug of 1-3/4 in needs EMT 2 (bore 2.067 in): no thinner raceway passes it, so none is offered.
    (size,) = [item.size for item in SCHEDULES["raceways"](plan).rows]
    assert size == "2"
    assert not any("holds everything" in remedy for remedy in words(plan, "framing-cut"))


def test_two_cables_may_be_split_over_two_raceways() -> None:
    # EMT 1-1/4 (1.510 in outside) needs a hole of 1-5/8 in, more than 1.40 in; two of 1 in or less fit.
    raceway = [{"tag": "R1", "kind": "EMT", "cables": ["W1", "W3", "W4"], "trade_size": "1-1/4"}]
    plan = remedied(None, IRC, raceway=raceway, framing=[STUD])
    offered = [item for item in words(plan, "framing-cut") if "side by side" in item]
    assert offered
    assert "EMT" in offered[0]


@pytest.mark.parametrize(
    ("member", "lumber", "limit_in"),
    [("stud", "2x4", 1.40), ("stud", "2x6", 2.20), ("joist", "2x8", 7.25 / 3), ("joist", "2x12", 11.25 / 3)],
)
def test_holes_by_member_and_actual_size(member: str, lumber: str, limit_in: float) -> None:
    framing = {"tag": "F1", "cable": "W1", "member": member, "lumber": lumber, "bearing": True}
    plan = framed(framing)
    entry = row(plan, "framing", framing="F1")
    # A flat NM-B 14/2 of 0.39 in: 0.39 + 1/16 in, up to 1/2 in.
    assert (entry.cut, entry.cut_in) == ("hole", 0.5)
    assert entry.limit_in == pytest.approx(limit_in)
    assert entry.allowed


@pytest.mark.parametrize(
    ("more", "plate"),
    [
        # In the middle of a 2x4: (3.5 - 0.5) / 2 = 1.5 in of wood, above 1-1/4 in.
        ({}, "not needed"),
        ({"edge": "1 in"}, "NEEDED"),
        ({"edge": "1 in", "steel_plate": True}, "planned"),
        ({"notch": "1/2 in"}, "NEEDED"),
    ],
)
def test_cables_near_the_edge_need_a_steel_plate(more: dict[str, Any], plate: str) -> None:
    framing = {"tag": "F1", "cable": "W1", "member": "stud", "lumber": "2x4", "bearing": True} | more
    assert row(framed(framing), "framing", framing="F1").steel_plate == plate


def test_a_metal_raceway_needs_no_plate() -> None:
    half = ({"tag": "R1", "kind": "EMT", "cables": ("W1",), "trade_size": "1/2"},)
    entry = row(framed(STUD | {"edge": "5/8 in"}, raceway=half), "framing", framing="F1")
    assert (entry.steel_plate, entry.allowed) == ("not needed", True)


def test_the_remedy_for_a_missing_plate_is_proved() -> None:
    framing = {"tag": "F1", "cable": "W1", "member": "stud", "lumber": "2x4", "bearing": True, "edge": "1 in"}
    plan = remedied(None, IRC, framing=[framing])
    assert words(plan, "steel-plate") == ["plan a steel plate at F1"]


def test_a_top_plate_that_is_cut_by_half_gets_a_tie() -> None:
    plate = STUD | {"member": "plate"}
    plan = framed(plate)
    # 2.375 of 3.5 in: 68 % of the plate's width, above 50 %.
    assert found(plan, "plate-tie")
    assert not found(framed(plate | {"tie": True}), "plate-tie")
    assert not found(framed(plate | {"bearing": False}), "plate-tie")


def test_a_notch_too_deep() -> None:
    framing = {
        "tag": "F1",
        "cable": "W1",
        "member": "stud",
        "lumber": "2x4",
        "bearing": True,
        "notch": "1 in",
    }
    plan = framed(framing)
    # 25 % of 3.5 in is 0.875 in.
    (finding,) = found(plan, "framing-cut")
    assert "may have 0.88 in" in finding.says
    assert not found(framed(framing | {"bearing": False, "steel_plate": True}), "framing-cut")


def test_a_hole_that_does_not_pass_what_goes_through() -> None:
    plan = remedied(
        None,
        IRC,
        framing=[{"tag": "F1", "cable": "W1", "member": "joist", "lumber": "2x8", "hole": "3/8 in"}],
    )
    (finding,) = found(plan, "framing-cut")
    assert "doesn't pass the cut" in finding.says
    assert words(plan, "framing-cut")[0] == "bore F1 in the middle, as large as W1 needs"


def test_a_furred_space_keeps_nails_off_a_cable() -> None:
    def furred(depth: str | None) -> Plan:
        more = {} if depth is None else {"furring": depth}
        return framed(
            {"tag": "F1", "cable": "W1", "member": "stud", "lumber": "2x4", "bearing": True, "way": "furred"}
            | more
        )

    # 0.39 in of cable and 1-1/4 in to the face.
    assert found(furred("1-1/2 in"), "framing-cut")
    assert not found(furred("1-3/4 in"), "framing-cut")
    assert found(furred(None), "framing-furring-open")


@pytest.mark.parametrize(
    ("framing", "code"),
    [
        ({"bearing": None}, "framing-bearing-open"),
        ({"engineered": True}, "framing-engineered-open"),
        ({"lumber": "3x9"}, "framing-lumber-open"),
        ({"way": "along"}, "framing-edge-open"),
        ({"cable": "W2", "hole": None}, None),
    ],
)
def test_what_nobody_says_of_framing_is_asked_for(framing: dict[str, Any], code: str | None) -> None:
    base = {"tag": "F1", "cable": "W1", "member": "stud", "lumber": "2x6", "bearing": True}
    given_up = {key: value for key, value in (base | framing).items() if value is not None}
    plan = framed(given_up)
    assert {item for item in codes(plan) if item.endswith("-open") and item.startswith("framing-")} - {
        "framing-open"
    } == ({code} if code else set())


def test_a_raceway_whose_way_nobody_describes_is_asked_for() -> None:
    plan = planned(None, IRC, raceway=EMT_2)
    assert [item.subject for item in found(plan, "framing-open")] == ["R1"]
    assert not found(framed(STUD | {"lumber": "2x8"}), "framing-open")


@pytest.mark.parametrize(("edition", "asked"), [(None, True), (2012, True), (2018, False), (2021, False)])
def test_an_edition_that_is_not_carried_says_so(edition: int | None, asked: bool) -> None:
    plan = planned(None, {"job.residential_code": edition}, raceway=EMT_2, framing=(STUD,))
    assert bool(found(plan, "framing-edition-open")) == asked
    assert found(plan, "framing-cut")


@settings(max_examples=60)
@given(
    edge=st.integers(0, 24),
    hole=st.integers(4, 20),
    smaller=st.integers(1, 3),
    lumber=st.sampled_from(["2x4", "2x6", "2x8"]),
    bearing=st.booleans(),
)
def test_a_smaller_hole_is_never_refused_where_a_larger_one_was_allowed(
    edge: int, hole: int, smaller: int, lumber: str, bearing: bool
) -> None:
    def allowed(eighths: int) -> bool:
        framing = {
            "tag": "F1",
            "cable": "W1",
            "member": "stud",
            "lumber": lumber,
            "bearing": bearing,
            "hole": f"{eighths / 8} in",
            "edge": f"{max(edge, 1) / 8} in",
        }
        result: bool = row(framed(framing), "framing", framing="F1").allowed
        return result

    if allowed(hole) and hole - smaller >= 4:
        assert allowed(hole - smaller)


def test_loose_conductors_in_a_raceway_count_one_by_one() -> None:
    # Table 5: 14 AWG THHN 0.0097 sq in; Table 8: the bare ground 0.004; Table 4: EMT 1/2 0.304.
    # Table 1: 40 % for three.
    half = ({"tag": "R1", "kind": "EMT", "cables": ("W1",)},)
    entry = row(planned({"cable.1.type": "THHN/THWN-2 singles"}, raceway=half), "raceways", raceway="R1")
    assert (entry.size, entry.fill_limit_percent) == ("1/2", 40)
    assert entry.fill_percent == pytest.approx(100 * (2 * 0.0097 + 0.004) / 0.304, rel=0.01)
    # In a jacket they are one: Note 9.
    assert row(planned(raceway=half), "raceways", raceway="R1").fill_limit_percent == 53
