"""Published examples of holes, notches and plates in framing, and the trap of a 2 in raceway in a 2x4 wall."""

from __future__ import annotations

import pytest

from schedules.framing.cuts import (
    joist_hole,
    joist_hole_limit,
    joist_notch_length,
    joist_notch_limit,
    plate_tie_needed,
    stud_hole,
    stud_hole_limit,
)
from schedules.framing.nail_plates import CABLE, plate_along_framing, plate_for_hole, plate_for_notch
from schedules.framing.wall_remedies import wall_remedies
from schedules.framing.walls import Wall, outside_diameter, raceway_in_wall
from schedules.raceways.bends import Bend
from schedules.raceways.occupants import conductor, round_cable
from schedules.raceways.passage import rectangular_plug, round_plug
from schedules.raceways.pulling import Pull
from schedules.raceways.trade_size import size_raceway
from schedules.site.lumber import lumber
from schedules.working import Confidence

SIXTEENTH = 1 / 16


def test_journal_of_light_construction_undated_hole_in_a_2x8_joist() -> None:
    # Journal of Light Construction, Q&A "Notches, holes in joists": the largest hole is 2-3/8 in (7-1/4 / 3 = 2.417).
    assert joist_hole_limit("2x8", edition="2018").limit_in == pytest.approx(2.375, abs=SIXTEENTH)
    assert joist_hole("2x8", 2.375, edition="2018").allowed


def test_joist_page_undated_2x6() -> None:
    # "How big of a hole can I drill in a 2x6 floor joist", undated: notch about 7/8 deep and 1-13/16 wide. It prints
    # 1-13/16 for the hole, a third of the depth; but 2 in of wood at both edges of 5-1/2 in leave 1-1/2 in only.
    assert joist_notch_limit("2x6", at_end=False, edition="2018").limit_in == pytest.approx(
        0.875, abs=SIXTEENTH
    )
    assert joist_notch_length("2x6", edition="2018").limit_in == pytest.approx(1.8125, abs=SIXTEENTH)
    hole = joist_hole_limit("2x6", edition="2018")
    assert hole.limit_in == 1.5
    assert "2 in" in str(hole.working.inputs[3].value)


def test_stud_drilling_page_undated_2x4() -> None:
    # "Stud drilling rules", undated: 1.4 in in a bearing 2x4, 2.1 in in a non-bearing one, 5/8 in to the edge.
    assert stud_hole_limit("2x4", bearing=True, edition="2018").limit_in == pytest.approx(1.4)
    assert stud_hole_limit("2x4", bearing=False, edition="2018").limit_in == pytest.approx(2.1)
    assert stud_hole("2x4", 2.1, bearing=False, edition="2018").least_edge_in == 0.625


def test_a_hole_off_the_middle_comes_too_near_the_edge() -> None:
    assert stud_hole("2x4", 2.0, bearing=False, edition="2018").allowed
    off = stud_hole("2x4", 2.0, bearing=False, off_centre_in=0.25, edition="2018")
    assert off.edge_in == pytest.approx(0.5)
    assert not off.allowed
    assert off.working.result == "too near the edge"


def test_an_edition_without_its_own_text_says_so() -> None:
    assert (
        stud_hole_limit("2x4", bearing=True, edition="2018").working.source.confidence is Confidence.TWO_TEXTS
    )
    assert stud_hole_limit("2x4", bearing=True, edition="2021").working.source.confidence is Confidence.MEMORY


def test_largest_centred_hole_without_a_plate() -> None:
    # By hand: depth less twice 1-1/4 in: 2x4 1.0, 2x6 3.0, 2x8 4.75 in.
    for size, hole in (("2x4", 1.0), ("2x6", 3.0), ("2x8", 4.75)):
        edge = (lumber(size).depth_in - hole) / 2
        assert not plate_for_hole(edge, wiring=CABLE, edition="2023").holds
        assert plate_for_hole(edge - 0.01, wiring=CABLE, edition="2023").holds


def test_raceways_that_need_no_plate() -> None:
    for kind in ("EMT", "RMC", "PVC-40", "PVC-80"):
        assert not plate_for_hole(0.5, wiring=kind, edition="2023").holds
        assert not plate_along_framing(0.5, wiring=kind, edition="2023").holds
        assert not plate_for_notch(wiring=kind, edition="2023").holds
    for kind in ("ENT", "FMC", "LFMC", "LFNC-B", CABLE):
        assert plate_for_hole(0.5, wiring=kind, edition="2023").holds
        assert plate_along_framing(0.5, wiring=kind, edition="2023").holds
        assert plate_for_notch(wiring=kind, edition="2023").holds
    with pytest.raises(LookupError, match="no row for raceway IMC"):
        plate_for_hole(0.5, wiring="IMC", edition="2023")


def test_top_plate_cut_by_more_than_half() -> None:
    # IRC R602.6.1: half of 3-1/2 in is 1-3/4 in.
    assert not plate_tie_needed("2x4", 1.75, bearing=True, edition="2018").holds
    tied = plate_tie_needed("2x4", 1.76, bearing=True, edition="2018")
    assert tied.holds
    assert "0.054 in thick, 1.5 in wide, 6 in past the cut" in tied.reasons[1]
    assert not plate_tie_needed("2x4", 3.0, bearing=False, edition="2018").holds
    with pytest.raises(ValueError, match="can't be made in a plate"):
        plate_tie_needed("2x4", 4.0, bearing=True, edition="2018")


def fit_through_studs(raceway: str, size: str, stud: str, *, bearing: bool) -> bool:
    wall = Wall(stud, bearing=bearing)
    return raceway_in_wall(
        raceway, size, wall, way="through the studs", edition="2023", framing_edition="2018"
    ).fits


def test_a_2_in_raceway_does_not_go_through_the_studs_of_a_2x4_wall() -> None:
    # By hand: 2 EMT is 2.197 in outside, 2 RMC and PVC 2.375; the largest hole in any 2x4 stud is 2.1 in.
    for raceway in ("EMT", "RMC", "PVC-40", "PVC-80"):
        assert outside_diameter(raceway, "2").diameter_in > 2.1
        assert not fit_through_studs(raceway, "2", "2x4", bearing=False)
        assert not fit_through_studs(raceway, "2", "2x4", bearing=True)
    # A 2x6 takes it where it bears nothing (3.3 in), and not where it does (2.2 in).
    assert fit_through_studs("EMT", "2", "2x6", bearing=False)
    assert not fit_through_studs("EMT", "2", "2x6", bearing=True)


def test_what_does_go_through_a_2x4_wall() -> None:
    # By hand: 1 EMT, 1.163 in, bored 1.25 of 1.4 in; 1-1/2 EMT, 1.740 in, bored 1.875 of 2.1 in; 1-1/4, 1.510 of 1.4.
    assert fit_through_studs("EMT", "1", "2x4", bearing=True)
    assert not fit_through_studs("EMT", "1-1/4", "2x4", bearing=True)
    assert fit_through_studs("EMT", "1-1/2", "2x4", bearing=False)


def test_a_doubled_bearing_stud_takes_a_larger_raceway() -> None:
    # By hand: 1-1/4 EMT, 1.510 in, bored 1.625 of 2.1 in.
    doubled = Wall("2x4", bearing=True, doubled=True)
    fit = raceway_in_wall(
        "EMT", "1-1/4", doubled, way="through the studs", edition="2023", framing_edition="2018"
    )
    assert fit.hole_in == 1.625
    assert fit.fits


def test_a_2_in_raceway_goes_up_a_2x4_bay_and_the_plate_is_tied() -> None:
    wall = Wall("2x4", bearing=True)
    up = raceway_in_wall("EMT", "2", wall, way="up the bay", edition="2023", framing_edition="2018")
    assert up.fits
    assert up.tie is not None
    assert up.tie.holds
    assert not up.steel_plate.holds
    flexible = raceway_in_wall(
        "FMC", "2", wall, way="up the bay", outside_in=2.4, edition="2023", framing_edition="2018"
    )
    assert flexible.steel_plate.holds


def test_an_outside_diameter_that_is_not_carried_is_asked_for() -> None:
    with pytest.raises(LookupError, match="no row for raceway FMC"):
        raceway_in_wall(
            "FMC", "2", Wall("2x4", bearing=False), way="up the bay", edition="2023", framing_edition="2018"
        )


def test_remedies_for_the_2_in_raceway_in_a_2x4_wall() -> None:
    wall = Wall("2x4", bearing=False)
    refused = raceway_in_wall(
        "EMT", "2", wall, way="through the studs", edition="2023", framing_edition="2018"
    )
    big = rectangular_plug("control plug", 1.0, 0.9, 2.5)
    pulls = [
        Pull(round_cable("W7", 0.31, edition="2023"), big),
        Pull(round_cable("W8", 0.30, edition="2023"), round_plug("sensor plug", 0.6, 2.0)),
    ]
    bends = [Bend(90)]
    remedies = wall_remedies(refused, pulls, bends=bends, edition="2023", framing_edition="2018")
    kinds = [remedy.kind for remedy in remedies]
    assert kinds == [
        "smaller raceway",
        "smaller raceway",
        "smaller raceway",
        "split",
        "up the bay",
        "wider wall",
        "fur out",
        "surface",
    ]
    for remedy in remedies:
        assert all(fit.fits for fit in remedy.fits)
        for sized in remedy.raceways:
            again = size_raceway(sized.raceway, pulls, bends=bends, edition="2023")
            if remedy.kind == "smaller raceway":
                assert sized.trade_size == again.trade_size
                assert sized.pulls is not None
                assert sized.pulls.passes
    wider = next(remedy for remedy in remedies if remedy.kind == "wider wall")
    assert wider.fits[0].wall.stud == "2x6"
    furred = next(remedy for remedy in remedies if remedy.kind == "fur out")
    assert furred.depth_in == 2.197


def test_a_raceway_prescribed_at_2_in_is_not_made_smaller() -> None:
    wall = Wall("2x4", bearing=False)
    refused = raceway_in_wall(
        "EMT", "2", wall, way="through the studs", edition="2023", framing_edition="2018"
    )
    pulls = [
        Pull(round_cable("W7", 0.31, edition="2023"), prescribed="2"),
        Pull(round_cable("W8", 0.3, edition="2023")),
    ]
    remedies = wall_remedies(refused, pulls, edition="2023", framing_edition="2018")
    assert [remedy.kind for remedy in remedies] == ["up the bay", "wider wall", "fur out", "surface"]


def test_nothing_to_remedy_is_refused() -> None:
    wall = Wall("2x4", bearing=False)
    fits = raceway_in_wall("EMT", "1", wall, way="through the studs", edition="2023", framing_edition="2018")
    with pytest.raises(ValueError, match="EMT 1 fits; there is nothing to remedy"):
        wall_remedies(fits, [], edition="2023", framing_edition="2018")


def test_loose_conductors_of_one_circuit_are_never_split() -> None:
    """Two sets of loose 8 AWG conductors in one EMT 1-1/4: whole sets part, not conductors."""
    pulls = [Pull(conductor("8", edition="2023"), cable=cable) for cable in ("W13", "W15") for _ in range(4)]
    wall = Wall("2x4", bearing=True)
    refused = raceway_in_wall(
        "EMT", "1-1/4", wall, way="through the studs", edition="2023", framing_edition="2018"
    )
    remedies = wall_remedies(refused, pulls, edition="2023", framing_edition="2018")
    (split,) = [remedy for remedy in remedies if remedy.kind == "split"]
    assert split.shared == (("W13",), ("W15",))
    assert split.words == "EMT 3/4 for W13 and EMT 3/4 for W15, side by side"
    alone = wall_remedies(refused, pulls[:4], edition="2023", framing_edition="2018")
    assert not [remedy for remedy in alone if remedy.kind == "split"]
