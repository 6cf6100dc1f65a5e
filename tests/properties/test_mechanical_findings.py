"""Every mechanical mistake is told by its own finding, what is missing is asked for, and a cure cures."""

from __future__ import annotations

from datetime import date
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

import pytest
from icalendar import Calendar

from schedules.behaviour.make_up_wiring import make_up_wiring
from schedules.checks.amendments import check_amendments
from schedules.findings import Edit, Severity
from schedules.job.draft import read_draft
from schedules.plan import plan_job
from schedules.planned import plan_file, read_sheet_of
from schedules.remedies import with_remedies
from schedules.work.site_work import brought, delivery_of, first_day, option_changes, order_of
from schedules.workings import workings_of
from schedules.writers.calendar_file import work_calendar

if TYPE_CHECKING:
    from schedules.findings import Finding
    from schedules.job.draft import Draft
    from schedules.plan import Plan
    from schedules.sheet.sheet import Sheet

JOBS = Path(__file__).parents[2] / "samples" / "jobs"
GALLEY, CORNER, FARMHOUSE, LOFT = "galley-gas", "corner-electric", "farmhouse-electric", "loft-gas"


@cache
def sample(name: str) -> tuple[Draft, Sheet]:
    draft = read_draft(JOBS / f"{name}.toml")
    return draft, read_sheet_of(draft)


def planned(name: str, *edits: Edit) -> Plan:
    draft, sheet = sample(name)
    return plan_job(sheet, draft.edited(edits).job)


def found(plan: Plan, code: str) -> Finding | None:
    return next((item for item in plan.findings if item.code == code), None)


MISTAKES = [
    # Job, table, key, value, code, severity.
    (GALLEY, "mounting", "clearance", "25 in", "hood-height", Severity.FIX),
    (GALLEY, "mounting", "clearance", "33 in", "hood-height", Severity.FIX),
    (GALLEY, "mounting", "range_lowest", "34 in", "hood-height-none", Severity.STOP),
    (GALLEY, "mounting", "cooking_surface", "41 in", "hood-no-room", Severity.FIX),
    (GALLEY, "mounting", "blocks", "none", "bracket-misses", Severity.FIX),
    (GALLEY, "mounting", "blocks", "none", "bracket-unheld", Severity.STOP),
    (GALLEY, "mounting", "blocks", "planned", "blocks-to-see", Severity.NOTE),
    (GALLEY, "mounting", "fastener_length", "1-1/2 in", "fastener-short", Severity.FIX),
    (GALLEY, "mounting", "fastener_length", "3-1/4 in", "fastener-unknown", Severity.FIX),
    (GALLEY, "mounting", "fastener", "toggle bolt", "fastener-unknown", Severity.FIX),
    (GALLEY, "mounting", "service_load", 4.0, "bracket-overloaded", Severity.STOP),
    (GALLEY, "mounting", "species", None, "species-unknown", Severity.NOTE),
    (GALLEY, "mounting", "lift", False, "lift-heavy", Severity.CHECK),
    (FARMHOUSE, "mounting", "clearance", "22 in", "service-position-low", Severity.FIX),
    (GALLEY, "duct", "surface", "flexible", "duct-flexible", Severity.FIX),
    (GALLEY, "duct", "surface", "aluminium", "duct-material", Severity.FIX),
    (GALLEY, "duct", "diameter", "7 in", "duct-reduced", Severity.FIX),
    (GALLEY, "duct", "straight_first", "4 in", "elbow-at-collar", Severity.CHECK),
    (GALLEY, "duct", "stud_bay", "3-1/2 in", "duct-in-wall", Severity.FIX),
    (GALLEY, "duct", "cap_loss", None, "loss-unknown", Severity.CHECK),
    (GALLEY, "duct", "wanted", "700 cfm", "airflow-short", Severity.FIX),
    (GALLEY, "duct", "length", "80 ft", "duct-long", Severity.FIX),
    (GALLEY, "duct", "diameter", "12 in", "duct-not-solved", Severity.CHECK),
    (GALLEY, "duct", "to_property_line", "2 ft", "outlet-near", Severity.FIX),
    (GALLEY, "duct", "to_opening", "35 in", "outlet-near", Severity.FIX),
    (GALLEY, "duct", "to_intake", "9 ft", "outlet-near", Severity.FIX),
    (CORNER, "duct", "arrow", "hood", "fan-backwards", Severity.STOP),
    (CORNER, "duct", "fan_access", False, "fan-no-access", Severity.FIX),
    (GALLEY, "air", "make_up", "none", "make-up-none", Severity.FIX),
    (GALLEY, "air", "make_up_airflow", "500 cfm", "make-up-short", Severity.FIX),
    (FARMHOUSE, "air", "opening", "200 sq in", "make-up-opening-small", Severity.FIX),
    (GALLEY, "air", "spring", "open", "damper-spring-wrong", Severity.STOP),
    (FARMHOUSE, "air", "spring", "closed", "damper-spring-wrong", Severity.STOP),
    (LOFT, "air", "spring", "open", "damper-spring-wrong", Severity.STOP),
    (GALLEY, "air", "damper_access", False, "damper-no-access", Severity.FIX),
    (CORNER, "air", "natural_draft", True, "flue-at-risk", Severity.CHECK),
    (LOFT, "air", "natural_draft", True, "flue-unknown", Severity.CHECK),
    (GALLEY, "gas", "shutoff", "7 ft", "gas-shutoff", Severity.FIX),
    (GALLEY, "gas", "upstream", False, "gas-shutoff", Severity.FIX),
    (GALLEY, "gas", "connector", "7 ft", "gas-connector", Severity.FIX),
    (GALLEY, "gas", "valve_after_shutoff", False, "gas-valve", Severity.STOP),
    (GALLEY, "gas", "pipe_length", "600 ft", "gas-short", Severity.FIX),
    (GALLEY, "gas", "demand", "400000 Btu/h", "gas-short", Severity.FIX),
]


@pytest.mark.parametrize(("job", "table", "key", "value", "code", "severity"), MISTAKES)
def test_a_mistake_is_told(
    *, job: str, table: str, key: str, value: object, code: str, severity: Severity
) -> None:
    assert found(planned(job), code) is None
    finding = found(planned(job, Edit(table, None, key, value)), code)
    assert finding is not None
    assert finding.severity is severity
    assert finding.answer is not None
    assert finding.rule
    assert str(finding.source)


ASKED = {
    "mounting": ("mounting-unknown", ("cooking_surface", "clearance", "centre", "wall_board", "fastener")),
    "duct": ("duct-unknown", ("surface", "diameter", "length", "straight_first")),
    "air": ("air-unknown", ("book", "fuel_appliances", "make_up_airflow", "spring", "damper_access")),
    "gas": ("gas-unknown", ("gas", "demand", "shutoff", "same_room", "pipe", "pipe_length", "connector")),
}


@pytest.mark.parametrize(
    ("table", "key"), [(table, key) for table, (_, keys) in ASKED.items() for key in keys]
)
def test_a_missing_answer_is_asked_for(table: str, key: str) -> None:
    finding = found(planned(GALLEY, Edit(table, None, key, None)), ASKED[table][0])
    assert finding is not None
    assert finding.severity is Severity.FIX
    assert key.replace("_", " ") in finding.says


@pytest.mark.parametrize("table", ASKED)
def test_a_table_that_is_not_begun_is_left_to_a_person(table: str) -> None:
    draft, sheet = sample(GALLEY)
    keys = type(getattr(draft.job, table)).model_fields
    bare = draft.edited(Edit(table, None, key, None) for key in keys)
    finding = found(plan_job(sheet, bare.job), ASKED[table][0])
    assert finding is not None
    assert finding.severity is Severity.CHECK


def test_without_an_adopted_code_its_edition_is_asked_for() -> None:
    plan = planned(GALLEY, Edit("job", None, "residential_code", None))
    for code in ("air-unknown", "gas-unknown"):
        finding = found(plan, code)
        assert finding is not None
        assert "residential code" in finding.says


CURED = [
    # Job, what spoils it, the finding, and the first edit of the remedy that comes first.
    (GALLEY, (("mounting", "clearance", "25 in"),), "hood-height", None),
    (GALLEY, (("mounting", "cooking_surface", "41 in"),), "hood-no-room", "2' 3-1/2\""),
    (GALLEY, (("mounting", "blocks", "none"),), "bracket-misses", "planned"),
    (GALLEY, (("mounting", "fastener_length", "1-1/2 in"),), "fastener-short", '2-1/2"'),
    (GALLEY, (("mounting", "fastener_length", "1-1/2 in"),), "bracket-overloaded", '2-1/2"'),
    (GALLEY, (("mounting", "lift", False),), "lift-heavy", True),
    (GALLEY, (("duct", "surface", "flexible"),), "duct-flexible", "galvanized"),
    (GALLEY, (("duct", "diameter", "7 in"),), "duct-reduced", '8"'),
    (
        GALLEY,
        (("duct", "diameter", None), ("duct", "width", "10 in"), ("duct", "height", "3-1/4 in")),
        "duct-reduced",
        None,
    ),
    (GALLEY, (("duct", "straight_first", "4 in"),), "elbow-at-collar", "2' 0\""),
    (GALLEY, (("duct", "stud_bay", "3-1/2 in"),), "duct-in-wall", None),
    (GALLEY, (("duct", "wanted", "700 cfm"),), "airflow-short", "9 in"),
    (GALLEY, (("duct", "wanted", "640 cfm"), ("duct", "length", "60 ft")), "airflow-short", "26' 3-1/8\""),
    (GALLEY, (("duct", "length", "80 ft"),), "duct-long", "70' 0\""),
    (CORNER, (("duct", "arrow", "hood"),), "fan-backwards", "outlet"),
    (CORNER, (("duct", "fan_access", False),), "fan-no-access", True),
    (GALLEY, (("air", "damper_access", False),), "damper-no-access", True),
    (GALLEY, (("air", "spring", "open"),), "damper-spring-wrong", "closed"),
    (GALLEY, (("air", "make_up_airflow", "500 cfm"),), "make-up-short", "667 cfm"),
    (GALLEY, (("air", "make_up", "none"),), "make-up-none", "powered"),
    (
        GALLEY,
        (("air", "make_up", "none"), ("air", "spring", None), ("air", "damper_access", None)),
        "make-up-none",
        "powered",
    ),
    (FARMHOUSE, (("air", "opening", "200 sq in"),), "make-up-opening-small", "307 sq in"),
    (FARMHOUSE, (("air", "make_up", "none"),), "flue-at-risk", "powered"),
    (FARMHOUSE, (("air", "opening", "100 sq in"),), "flue-at-risk", "powered"),
    (GALLEY, (("duct", "to_intake", "9 ft"),), "outlet-near", "10 ft"),
    (GALLEY, (("duct", "to_intake", "9 ft"), ("duct", "to_opening", "1 ft")), "outlet-near", None),
    (GALLEY, (("gas", "shutoff", "7 ft"),), "gas-shutoff", "6 ft"),
    (GALLEY, (("gas", "same_room", False),), "gas-shutoff", True),
    (GALLEY, (("gas", "upstream", False), ("gas", "shutoff", "9 ft")), "gas-shutoff", True),
    (GALLEY, (("gas", "connector", "7 ft"),), "gas-connector", "6 ft"),
    (GALLEY, (("gas", "concealed", True),), "gas-connector", False),
    (GALLEY, (("gas", "valve_after_shutoff", False),), "gas-valve", True),
    (GALLEY, (("gas", "pipe_length", "600 ft"),), "gas-short", "1"),
]


def offered(job: str, *edits: Edit) -> tuple[Draft, Plan]:
    draft, sheet = sample(job)
    spoilt = draft.edited(edits)
    return spoilt, with_remedies(sheet, spoilt, plan_job(sheet, spoilt.job))


@pytest.mark.parametrize(("job", "spoilt_by", "code", "value"), CURED)
def test_the_computed_cure_cures(
    *, job: str, spoilt_by: tuple[tuple[str, str, object], ...], code: str, value: object
) -> None:
    spoilt, plan = offered(job, *(Edit(table, None, key, given) for table, key, given in spoilt_by))
    finding = found(plan, code)
    assert finding is not None
    remedies = [remedy for remedy in finding.remedies if remedy.edits]
    assert remedies
    if value is not None:
        assert remedies[0].edits[0].value == value
    after = plan_job(sample(job)[1], spoilt.edited(remedies[0].edits).job)
    assert (code, finding.subject) not in {(item.code, item.subject) for item in after.findings}


HANDS = [
    # What no edit of the job cures, and the number that a cure must have.
    (
        FARMHOUSE,
        "mounting",
        "clearance",
        "22 in",
        "service-position-low",
        "needs at least 1' 11\", hood's maker asks",
    ),
    (
        GALLEY,
        "mounting",
        "service_load",
        4.0,
        "bracket-overloaded",
        "53 lb out of the wall and 88 lb along it",
    ),
    (GALLEY, "duct", "wanted", "1200 cfm", "airflow-short", "in wg of total pressure at 1200 cfm"),
    (
        GALLEY,
        "gas",
        "demand",
        "400000 Btu/h",
        "gas-short",
        "1 in alone loses 0.94 in wc of the 0.5 in wc allowed",
    ),
    (GALLEY, "gas", "demand", "230000 Btu/h", "gas-short", "fire valve of Cv"),
    (GALLEY, "mounting", "range_lowest", "34 in", "hood-height-none", "no height cures it"),
]


@pytest.mark.parametrize(("job", "table", "key", "value", "code", "words"), HANDS)
def test_what_no_edit_cures_is_said_with_its_number(
    *, job: str, table: str, key: str, value: object, code: str, words: str
) -> None:
    _, plan = offered(job, Edit(table, None, key, value))
    finding = found(plan, code)
    assert finding is not None
    assert [remedy.edits for remedy in finding.remedies] == [()]
    assert words in finding.remedies[0].words


def test_a_shutoff_s_finding_leads_to_the_answer_that_is_amiss() -> None:
    for key, value in (("same_room", False), ("upstream", False), ("shutoff", "7 ft")):
        finding = found(planned(GALLEY, Edit("gas", None, key, value)), "gas-shutoff")
        assert finding is not None
        assert finding.answer == ("gas", None, key)


def test_outlets_too_near_to_two_things_are_two_findings() -> None:
    plan = planned(GALLEY, Edit("duct", None, "to_intake", "9 ft"), Edit("duct", None, "to_opening", "1 ft"))
    near = [item.subject for item in plan.findings if item.code == "outlet-near"]
    assert near == ["outlet, intake", "outlet, window"]


def test_a_duct_of_no_length_that_is_short_enough_says_so() -> None:
    finding = found(planned(GALLEY, Edit("duct", None, "wanted", "700 cfm")), "airflow-short")
    assert finding is not None
    assert finding.says.endswith("with these fittings no straight duct is short enough")


def test_an_outlet_high_enough_above_an_intake_may_be_near() -> None:
    near = Edit("duct", None, "to_intake", "5 ft")
    assert found(planned(GALLEY, near), "outlet-near") is not None
    assert found(planned(GALLEY, near, Edit("duct", None, "above_intake", "3 ft")), "outlet-near") is None


@pytest.mark.parametrize(
    ("job", "contact"),
    [
        (GALLEY, "closes with the exhaust"),
        (LOFT, "closes with the exhaust"),
        (FARMHOUSE, "opens with the exhaust"),
    ],
)
def test_the_make_up_contact_is_read_off_the_network(job: str, contact: str) -> None:
    wiring = make_up_wiring(planned(job).derived)
    assert wiring is not None
    assert wiring.contact == contact
    # Both sheets promise that make-up air is off in a fire.
    assert wiring.fire_make_up == "off"


def test_a_kitchen_without_make_up_has_no_such_contact() -> None:
    assert make_up_wiring(planned(CORNER).derived) is None


@pytest.mark.parametrize(
    ("job", "edits", "exhaust", "governs"),
    [
        (GALLEY, (), 667, "667 cfm through this duct, more than the 610 cfm rated by the sheet"),
        (GALLEY, (Edit("duct", None, "length", "80 ft"),), 610, "rated by the sheet; "),
        (
            GALLEY,
            (Edit("duct", None, "length", None),),
            610,
            "what the fan moves through this duct is not known",
        ),
    ],
)
def test_make_up_air_goes_by_the_larger_of_rated_and_moved(
    *, job: str, edits: tuple[Edit, ...], exhaust: float, governs: str
) -> None:
    derived = planned(job, *edits).derived
    assert derived.house_air is not None
    needed = derived.house_air.needed
    assert needed is not None
    assert round(needed.airflow_cfm) == exhaust
    assert governs in needed.required.working.inputs[0].origin
    moved = None if derived.exhaust is None else derived.exhaust.point
    assert moved is None or needed.airflow_cfm >= moved.airflow_cfm


def test_what_the_fan_moves_can_pass_the_threshold_that_its_rating_does_not() -> None:
    """The loft's fan is rated 390 cfm, and moves more than the 400 cfm of the code through a short duct."""
    air = planned(LOFT).derived.house_air
    assert air is not None
    assert air.needed is not None
    assert air.needed.required.holds


def test_an_amended_threshold_is_used_and_told() -> None:
    draft, sheet = sample(GALLEY)
    text = draft.text + (
        '\n[[amendment]]\nrule = "makeup_air_above"\nnumber = 700\nunit = "cfm"\nsource = "town paper"\n'
    )
    job = type(draft)(draft.file, text, draft.job).edited(()).job
    plan = plan_job(sheet, job)
    air = plan.derived.house_air
    assert air is not None
    assert air.needed is not None
    assert not air.needed.required.holds
    told = list(check_amendments(plan.derived))
    assert [(item.code, item.severity.blocks) for item in told] == [("amendment", False)]


def test_a_wire_of_the_wall_s_own_size_counts() -> None:
    """Deeper studs of the same centres hold at least as much."""
    shallow, deep = planned(GALLEY), planned(GALLEY, Edit("mounting", None, "stud_size", "2x6"))
    for plan in (shallow, deep):
        assert plan.derived.hanging is not None
        assert plan.derived.hanging.fastening is not None
    assert found(deep, "bracket-overloaded") is None


def test_a_pair_of_studs_is_aimed_at_one_by_one() -> None:
    """A hole over the joint of a doubled stud holds in neither; one over the middle of either does."""
    draft, sheet = sample(GALLEY)
    over_joint = [Edit("stud", "S2", "along", "6' 11-1/2\""), Edit("stud", "S2", "doubled", True)]
    plan = plan_job(sheet, draft.edited([*over_joint, Edit("mounting", None, "blocks", "none")]).job)
    assert plan.derived.hanging is not None
    fastening = plan.derived.hanging.fastening
    assert fastening is not None
    assert fastening.holes[1].held is None
    beside = [Edit("stud", "S2", "along", "7' 0-1/4\""), Edit("stud", "S2", "doubled", True)]
    plan = plan_job(sheet, draft.edited([*beside, Edit("mounting", None, "blocks", "none")]).job)
    assert plan.derived.hanging is not None
    fastening = plan.derived.hanging.fastening
    assert fastening is not None
    assert fastening.holes[1].held is not None


def test_durations_of_the_site_are_taken_and_unfit_ones_told() -> None:
    plain, own = planned(CORNER), planned(GALLEY)
    assert (
        order_of(own.derived.selection, own.derived.job).likely_days
        > order_of(own.derived.selection, plain.derived.job).likely_days
    )
    draft, sheet = sample(GALLEY)
    unknown = draft.edited([Edit("step", "cabinets", "low", "12 d")])
    assert found(plan_job(sheet, unknown.job), "step-unfit") is not None
    text = draft.text.replace('step = "cabinets"', 'step = "roofing"')
    renamed = type(draft)(draft.file, text, draft.job).edited(())
    finding = found(plan_job(sheet, renamed.job), "step-unfit")
    assert finding is not None
    assert "roofing" in finding.says


def test_what_options_bring_shows_in_the_work() -> None:
    plan = planned(GALLEY)
    assert brought(plan.derived.selection) == {"gas", "make-up air"}
    changes = {item.title: item for item in option_changes(plan.derived.selection)}
    gas = changes["Gas valve and relay box"]
    assert gas.bought
    assert gas.change.added == ("gas-rough", "gas-trim")
    assert not changes["Inline fan in the duct"].bought
    assert changes["Inline fan in the duct"].change.likely_days > 0


def test_the_delivery_follows_options_and_orders() -> None:
    galley, failing = planned(GALLEY), plan_file(JOBS / "must-fail.toml", remedies=False)
    parts = {item.part for item in delivery_of(galley.derived.selection, galley.derived.job).expected}
    assert "gas-valve-kit" in parts
    assert "inline-fan" not in parts
    draft, sheet = failing.draft, failing.sheet
    bare = delivery_of(failing.plan.derived.selection, draft.job)
    assert "fan-extension-10" not in {item.part for item in bare.expected}
    ordered = draft.edited([Edit("run", "W4", "extension", "fan-extension-10")]).job
    more = delivery_of(plan_job(sheet, ordered).derived.selection, ordered)
    assert "fan-extension-10" in {item.part for item in more.expected}
    limits = delivery_of(galley.derived.selection, galley.derived.job).deadlines
    assert limits is not None
    assert limits.notice == date(2026, 4, 9)


def test_a_delivery_is_counted_on_its_day_before_its_notice_runs_out() -> None:
    derived = planned(GALLEY).derived
    counted = {
        slot.step.id: first_day(slot, derived.job) for slot in order_of(derived.selection, derived.job).slots
    }
    limits = delivery_of(derived.selection, derived.job).deadlines
    assert limits is not None
    assert counted["receive"] == derived.job.work.delivered == date(2026, 4, 2)
    assert limits.notice > date(2026, 4, 2)


def test_a_late_delivery_holds_the_hood_back() -> None:
    derived = planned(GALLEY, Edit("work", None, "delivered", "2026-07-01")).derived
    order = order_of(derived.selection, derived.job)
    days = {slot.step.id: first_day(slot, derived.job) for slot in order.slots}
    assert days["receive"] == date(2026, 7, 1)
    assert days["hood"] == date(2026, 7, 1)
    assert "receive" in order.critical_path
    assert "demolition" not in order.critical_path


def test_the_calendar_of_a_plan_begins_on_its_first_day() -> None:
    written = work_calendar(planned(GALLEY))
    assert written is not None
    events = Calendar.from_ical(written).events
    counted = [event.start for event in events if str(event["summary"]).startswith("receiving")]
    assert counted == [date(2026, 4, 2)]
    assert min(event.start for event in events if event.start not in counted) == date(2026, 4, 13)
    assert work_calendar(planned(GALLEY, Edit("work", None, "start", None))) is None


@pytest.mark.parametrize("subject", ["hood", "duct", "air", "gas"])
def test_every_mechanical_number_can_be_explained(subject: str) -> None:
    workings = workings_of(planned(GALLEY), subject)
    assert workings
    assert all(item.working.result and str(item.working.source) for item in workings)
