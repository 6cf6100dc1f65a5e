"""An acknowledgement counts for one finding as it stood, never for a stop, and is printed wherever the finding is."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from schedules.checks.acknowledgements import with_acknowledgements
from schedules.comparison import compare
from schedules.findings import Finding, Severity
from schedules.job.acknowledging import acknowledge, take_back
from schedules.job.copying import copy_job
from schedules.job.draft import Draft, draft_from_text, read_draft
from schedules.package.packing import Order, pack
from schedules.package.parts import Part
from schedules.package.readers import reader
from schedules.plan import Plan, plan_job
from schedules.planned import read_sheet_of
from schedules.templates import job_template
from schedules.working import Confidence, Input, Source
from schedules.writers.listing import check_lines

JOBS = Path(__file__).parents[2] / "samples" / "jobs"
MARSH = "J. Marsh, county inspector"
SIGNED = {"initials": "RA", "reason": "Seen on site.", "date": "2026-03-20"}


def finding(severity: Severity, to_spare: str = "1 in") -> Finding:
    return Finding(
        code="cable-tight",
        severity=severity,
        subject="W4",
        says="W4 is tight",
        rule="a cable reaches at its worst",
        source=Source("a test", Confidence.DERIVED),
        numbers=(Input("to spare", to_spare),),
    )


def draft() -> Draft:
    return draft_from_text(job_template(), "job.toml")


def held(now: Finding, then: Finding, decided_by: str | None = None) -> Finding:
    """What becomes of a finding when an earlier one was acknowledged."""
    job = draft().edited(acknowledge(then, decided_by=decided_by, **SIGNED)).job
    return with_acknowledgements((now,), job)[0]


@pytest.mark.parametrize("severity", [Severity.CHECK, Severity.NOTE])
def test_a_check_or_note_is_acknowledged_with_initials_and_reason(severity: Severity) -> None:
    outcome = held(finding(severity), finding(severity))
    assert outcome.acknowledged
    assert str(outcome.acknowledgement) == "acknowledged by RA, 2026-03-20: Seen on site."
    assert outcome.severity is severity


def test_a_fix_wants_the_name_of_who_decided() -> None:
    fix = finding(Severity.FIX)
    with pytest.raises(ValueError, match="who decided is missing"):
        acknowledge(fix, **SIGNED)
    assert f"decided by {MARSH}" in str(held(fix, fix, MARSH).acknowledgement)
    entries = draft().edited(acknowledge(fix, decided_by=MARSH, **SIGNED))
    by_hand = draft_from_text(entries.text.replace(f'decided_by = "{MARSH}"\n', ""), "job.toml").job
    unnamed = with_acknowledgements((fix,), by_hand)[0]
    assert not unnamed.acknowledged
    assert "DOES NOT COUNT, who decided is missing" in str(unnamed.acknowledgement)


def test_a_stop_is_never_acknowledged_whatever_the_file_says() -> None:
    with pytest.raises(ValueError, match="cured, not acknowledged"):
        acknowledge(finding(Severity.STOP), decided_by=MARSH, **SIGNED)
    outcome = held(finding(Severity.STOP), finding(Severity.FIX), MARSH)
    assert not outcome.acknowledged
    assert "cured, not acknowledged" in str(outcome.acknowledgement)


def test_it_lapses_when_the_numbers_change_and_says_what_they_were() -> None:
    outcome = held(finding(Severity.CHECK, "1/2 in"), finding(Severity.CHECK))
    assert not outcome.acknowledged
    assert "when this finding said check: W4 is tight [to spare 1 in]" in str(outcome.acknowledgement)


def test_one_whose_finding_is_gone_is_told_and_can_be_taken_out() -> None:
    check = finding(Severity.CHECK)
    job = draft().edited(acknowledge(check, **SIGNED)).job
    (told,) = with_acknowledgements((), job)
    assert (told.code, told.severity, told.subject) == ("acknowledged-gone", Severity.NOTE, "cable-tight W4")
    emptied = draft().edited(acknowledge(check, **SIGNED)).edited(told.remedies[0].edits)
    assert emptied.job == draft().job
    assert told.remedies[0].edits == take_back("cable-tight W4")


@pytest.fixture(scope="module")
def answered() -> tuple[Plan, Plan, Draft]:
    """A job with findings at fix and check: as it is, and with one of each acknowledged."""
    before = read_draft(JOBS / "must-fail-air.toml")
    sheet = read_sheet_of(before)
    plan = plan_job(sheet, before.job)
    fix = next(item for item in plan.findings if item.severity is Severity.FIX)
    check = next(item for item in plan.findings if item.severity is Severity.CHECK)
    after = before.edited((*acknowledge(fix, decided_by=MARSH, **SIGNED), *acknowledge(check, **SIGNED)))
    return plan, plan_job(sheet, after.job), after


def test_neither_verdict_nor_findings_change_but_the_effect_tells(
    answered: tuple[Plan, Plan, Draft],
) -> None:
    before, after, _ = answered
    assert before.sound == after.sound
    assert [replace(item, acknowledgement=None) for item in after.findings] == list(before.findings)
    changes = compare(before, after).findings
    assert [change.differences[0].what for change in changes] == ["answer", "answer"]
    text = " ".join(" ".join(check_lines(after, 100)).split())
    assert text.count("Answer: acknowledged by RA") == 2
    assert "(1 acknowledged)" in text


def test_the_package_prints_it_under_the_finding(answered: tuple[Plan, Plan, Draft], tmp_path: Path) -> None:
    _, after, _ = answered
    files = pack(after, Order(reader=reader("owner"), parts=(Part.PDF, Part.HTML)))
    (page,) = (data.decode() for name, data in files.items() if name.endswith(".html"))
    assert page.count("acknowledged by RA") == 2
    paper = tmp_path / "paper.pdf"
    paper.write_bytes(next(data for name, data in files.items() if name.endswith("owner.pdf")))
    printed = " ".join(" ".join(page.extract_text() for page in PdfReader(paper).pages[:6]).split())
    assert printed.count("acknowledged by RA") == 2


def test_the_copy_of_a_job_answers_for_nothing(answered: tuple[Plan, Plan, Draft]) -> None:
    _, _, after = answered
    assert after.job.acknowledged
    assert copy_job(after, JOBS / "copy.toml").job.acknowledged == ()
