"""What is done with a plan on site and in class: what if, the commissioning tests, the search for a fault."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.behaviour.commissioning import commissioning
from schedules.behaviour.fault_list import single_faults
from schedules.behaviour.found import show_value
from schedules.findings import Edit
from schedules.job.draft import read_draft
from schedules.job.testing import record_test
from schedules.planned import plan_file
from schedules.templates import job_template, sheet_template
from tests.stage import WIDE, staged
from wizard.fault_finding import FinderShelf
from wizard.screens.diagnose import DiagnoseScreen
from wizard.screens.seek import SeekScreen
from wizard.screens.steps import StepsScreen
from wizard.widgets.commissioning_panel import CommissioningPanel, FoundInput

if TYPE_CHECKING:
    from schedules.behaviour.commissioning import Commissioning
    from tests.stage import Stage


@pytest.fixture
def job(site: Path) -> Path:
    """The example that the program itself gives, small enough for every fault to be tried at once."""
    (site / "sheet.toml").write_text(sheet_template(), encoding="utf-8")
    (site / "job.toml").write_text(job_template(), encoding="utf-8")
    return Path("job.toml")


def whole_of(job: Path) -> Commissioning:
    return commissioning(plan_file(job, remedies=False).plan.derived)


def everything_dead_is_good(job: Path, *, landed: bool) -> None:
    """Record every dead test, and every end as landed, as if a day's work had been done."""
    whole, draft = whole_of(job), read_draft(job)
    edits: list[Edit] = []
    for test in whole.tests:
        if test.dead:
            reading = test.reading
            found = "yes"
            if reading is not None:
                bounds = None if reading.low is None or reading.high is None else (reading.low, reading.high)
                found = "OL" if bounds is None else f"{sum(bounds) / 2:.3f} {test.unit}"
            edits += record_test(test.id, found=found, expected=test.passes, initials="RA", date="2026-04-12")
    for cable in {cable for cable, _ in whole.ends} if landed else ():
        ends = [terminal for of, terminal in whole.ends if of == cable]
        record = {"landed": ends, "initials": "RA", "date": "2026-04-10"}
        edits += (Edit("as_built", cable, key, value) for key, value in record.items())
    draft.edited(edits).save()


def panel(stage: Stage) -> CommissioningPanel:
    return stage.steps.query_one(CommissioningPanel)


async def test_a_trainer_breaks_a_wire_swaps_two_ends_and_clears_it(job: Path) -> None:
    async with staged(job, WIDE) as stage:
        await stage.press("I")
        await stage.shows("17 causes, 3 effects", "as the maker promises", "[off]")
        before = stage.snapshot.draft.text
        await stage.press("b")
        await stage.until(lambda: isinstance(stage.screen, SeekScreen), "the list of wires")
        await stage.type("101")
        await stage.press("enter")
        await stage.shows("WHAT IF wire 101 of W1 is open", "on→off", "which the fault breaks")
        await stage.press("x")
        await stage.shows("17 causes, 3 effects")
        assert "→off" not in stage.text
        await stage.press("w")
        await stage.type("X1:1L 101")
        await stage.press("enter")
        await stage.type("X1:1N")
        await stage.press("enter")
        await stage.shows("WHAT IF wire 101 is on X1:1N, wire 102 on X1:1L")
        await stage.press("x", "k", "enter")
        await stage.shows("WHAT IF contact")
        assert stage.snapshot.draft.text == before


async def test_arrows_go_through_the_matrix_and_a_cell_tells_its_note(job: Path) -> None:
    async with staged(job) as stage:
        await stage.press("I", "down", "right", "right")
        await stage.shows(
            "[follows]", "Powered, nothing in use  →  Work light: follows", "On   Controls are powered"
        )
        await stage.press("l")
        await stage.shows("POWERED, NOTHING IN USE", "FOLLOWS  Work light   (was off)")
        await stage.press("escape")
        assert isinstance(stage.screen, StepsScreen)
        assert stage.steps.step == "interlocks"
        await stage.press("n")
        assert stage.steps.step == "commissioning"


async def test_an_electrician_records_tests_one_after_the_other(job: Path) -> None:
    async with staged(job) as stage:
        await stage.press("T")
        await stage.shows("0 of 40 tests good", "CAUTION: Treat as live until proved dead", "Probes")
        await stage.press("enter", "enter")
        await stage.type("RA")
        await stage.press("enter", "enter")
        assert isinstance(stage.screen.focused, FoundInput)
        await stage.type("x")
        await stage.press("enter")
        await stage.shows("a voltage such as 118 V")
        await stage.press("ctrl+u")
        await stage.type("0")
        await stage.press("enter")
        await stage.shows("1 of 40 tests good", "Q2:L")
        assert isinstance(stage.screen.focused, FoundInput)
        await stage.type("0.3")
        await stage.press("enter")
        await stage.shows("1 FAILED", "0.3 V: FAIL", "D looks for the fault")
        await stage.press("a", "enter")
        await stage.type("stray")
        await stage.press("enter", "enter")
        await stage.shows("2 of 40 tests good", "accepted", "X1:1L → X1:1N")
        assert isinstance(stage.screen.focused, FoundInput)
        await stage.press("escape", "up")
        await stage.shows("Accepted because: stray")
        records = read_draft(job).job.tested
        assert [(record.found, record.reason) for record in records] == [("0 V", None), ("0.3 V", "stray")]
        await stage.press("u", "u")
        assert len(read_draft(job).job.tested) == 1
        await stage.shows("1 of 40 tests good")
        await stage.press("U", "home", "x")
        assert [record.found for record in read_draft(job).job.tested] == ["0.3 V"]


async def test_no_key_goes_past_what_holds_a_test_up(job: Path) -> None:
    everything_dead_is_good(job, landed=False)
    async with staged(job, WIDE) as stage:
        await stage.press("T")
        await stage.until(lambda: panel(stage).current is not None, "the tests")
        live = panel(stage).current
        assert live is not None
        assert live.step == "polarity"
        await stage.shows("NOT YET: first land these ends and mark them as landed", "CAUTION: Live")
        await stage.press("enter")
        await stage.shows("Not yet: what holds it up is said below.")
        assert not isinstance(stage.screen.focused, FoundInput)
        assert isinstance(stage.screen, StepsScreen)


async def test_a_failed_live_test_leads_to_the_search_with_its_reading_entered(job: Path) -> None:
    everything_dead_is_good(job, landed=True)
    async with staged(job, WIDE) as stage:
        await stage.press("T")
        await stage.shows("Voltage and polarity at rest")
        await stage.press("enter", "enter")
        await stage.type("RA")
        await stage.press("enter", "enter")
        await stage.type("0")
        await stage.press("enter")
        await stage.shows("FAIL")
        await stage.until(lambda: not stage.snapshot.planning, "the plan")
        finding = next(item for item in stage.snapshot.plan.findings if item.code == "test-failed")  # type: ignore[union-attr]
        assert finding.severity.blocks
        await stage.shows("1 not good")
        await stage.press("f", "enter")
        assert stage.steps.step == "commissioning"
        assert panel(stage).current is not None
        await stage.press("D")
        await stage.until(lambda: isinstance(stage.screen, DiagnoseScreen), "the search")
        await stage.shows("explain what was found", "volts Q1:L to Q1:PE  0.0 V", "breaker Q1")


async def test_what_is_live_with_every_breaker_off_stands_before_any_reading(job: Path) -> None:
    async with staged(job) as stage:
        await stage.press("T", "enter", "enter")
        await stage.type("RA")
        await stage.press("enter", "enter")
        await stage.type("118")
        await stage.press("enter")
        await stage.shows("1 FAILED")
        await stage.press("D")
        await stage.until(lambda: isinstance(stage.screen, DiagnoseScreen), "the search")
        await stage.shows("LIVE WITH EVERY BREAKER OFF: Q1:L to Q1:N.", "Stop: find what feeds it")
        assert "NEXT" not in stage.text


async def test_two_faults_together_are_found_where_none_explains_all(job: Path) -> None:
    async with staged(job, WIDE) as stage:
        await stage.press("D")
        for words, shows in (("ring W1", "101 open"), ("ring W2", "201 open")):
            await stage.press("tab")
            await stage.type(f"{words[5:]} lifted at both")
            await stage.press("enter")
            await stage.type(shows)
            await stage.press("enter")
        await stage.shows("No single fault explains all that was found.", "p looks for two faults together")
        await stage.press("p")
        await stage.shows(
            "Two faults together that explain it:", "wire 101 of W1 is open; and wire 201 of W2 is open"
        )


async def test_a_fault_is_found_reading_by_reading(job: Path) -> None:
    """A planted fault answers each question; the search names it, or the class that no reading parts."""
    derived = plan_file(job, remedies=False).plan.derived
    planted = next(fault for fault in single_faults(derived) if fault.id == "open 201")
    async with staged(job) as stage:
        await stage.press("D")
        screen = stage.screen
        assert isinstance(screen, DiagnoseScreen)
        for _ in range(12):
            search = screen.search
            assert search is not None
            proposal = search.proposal
            if proposal is None:
                break
            await stage.shows("NEXT:")
            value = search.finder.foretell(proposal.probe.id, planted)
            await stage.type(show_value(proposal.probe, value))
            await stage.press("enter")
        await stage.shows("Switch off, lock and prove dead")
        assert screen.search is not None
        assert planted in [item.fault for item in screen.search.suspects]
        await stage.press("up")
        await stage.shows("NEXT:")


async def test_what_cannot_be_read_or_taken_is_told_and_left(job: Path) -> None:
    async with staged(job) as stage:
        await stage.press("D")
        screen = stage.screen
        assert isinstance(screen, DiagnoseScreen)
        await stage.type("lamp off")
        await stage.press("enter")
        await stage.shows("all right, or what is wrong, such as")
        first = screen.search.proposal if screen.search else None
        # What is typed while the next probe is worked out stays, and is the answer to none.
        stage.send("down", "x", "enter", "y")
        await stage.settled()
        assert (screen.field.value, screen.search and screen.search.found) == ("xy", ())
        assert screen.search is not None
        assert screen.search.proposal is not None
        assert first is not None
        assert screen.search.proposal.probe.id != first.probe.id
        await stage.press("tab")
        await stage.type("breaker Q2")
        await stage.press("enter")
        await stage.shows("breaker Q2: on?", "yes or no")
        await stage.type("no")
        await stage.press("enter")
        await stage.shows("Q2")
        await stage.press("escape")
        assert isinstance(stage.screen, StepsScreen)


def test_work_that_is_stopped_leaves_no_half_made_finder(job: Path) -> None:
    class StoppedError(Exception):
        pass

    shares: list[float] = []

    def tell(share: float) -> None:
        shares.append(share)
        if share > 0.3:
            raise StoppedError

    shelf, derived = FinderShelf(), plan_file(job, remedies=False).plan.derived
    with pytest.raises(StoppedError, match=r"^$"):
        shelf.search(derived, tell)
    assert shares == sorted(shares)
    assert shelf.search(derived, lambda _share: None).suspects
