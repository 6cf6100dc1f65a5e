"""Findings acknowledged by keyboard: saved in the job, taken back, lapsed when the numbers change, never a stop."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from schedules.findings import Finding, Severity
from schedules.job.draft import read_draft
from tests.stage import NARROW, WIDE, Stage, sample_job, staged

if TYPE_CHECKING:
    from pathlib import Path

SIZES = pytest.mark.parametrize("size", [NARROW, WIDE], ids=["narrow", "wide"])


def findings(stage: Stage) -> tuple[Finding, ...]:
    plan = stage.snapshot.plan
    assert plan is not None
    return plan.findings


async def go_to_first(stage: Stage, severity: Severity) -> Finding:
    """Open the findings and go down to the first one of this severity."""
    await stage.press("f")
    place = next(place for place, item in enumerate(findings(stage)) if item.severity is severity)
    await stage.press(*["down"] * place)
    return findings(stage)[place]


async def fill_in(stage: Stage, *answers: str) -> None:
    """Give the answers that the form still lacks, then do what it is for."""
    for answer in answers:
        await stage.answer(answer)
    await stage.press("enter")


@SIZES
async def test_a_check_is_acknowledged_reopened_and_undone(site: Path, size: tuple[int, int]) -> None:
    path = sample_job("galley-gas", site)
    before = read_draft(path).text
    async with staged(path, size) as stage:
        await go_to_first(stage, Severity.CHECK)
        waiting = sum(1 for item in findings(stage) if item.severity is Severity.CHECK)
        await stage.press("i")
        await stage.shows("Acknowledge: check", "It cures nothing")
        await fill_in(stage, "RA", "Seen on site.")
        await stage.shows("acknowledged by RA", "Answer", "Seen on site.")
        assert f"{waiting - 1} to check" in stage.text
        (entry,) = read_draft(path).job.acknowledged
        assert (entry.initials, entry.reason, entry.decided_by) == ("RA", "Seen on site.", None)
        await stage.press("x")
        assert not any(item.acknowledged for item in findings(stage))
        assert read_draft(path).job.acknowledged == ()
        await stage.press("u")
        await stage.shows("acknowledged by RA")
        await stage.press("u")
        assert read_draft(path).text == before
        await stage.press("i")
        await stage.shows("Initials", "RA")


async def test_a_stop_is_refused_and_a_fix_asks_who_decided(site: Path) -> None:
    path = sample_job("must-fail-air", site)
    async with staged(path, WIDE) as stage:
        await go_to_first(stage, Severity.STOP)
        await stage.press("i")
        await stage.shows("A stop can't be acknowledged")
        await stage.press("x")
        await stage.shows("Nobody has acknowledged this one.")
        await go_to_first(stage, Severity.FIX)
        await stage.press("i")
        await stage.shows("Who decided", "first: initials, who decided, reason")
        await fill_in(stage, "RA", "J. Marsh", "Measured.")
        await stage.shows("decided by J. Marsh")
        assert not stage.snapshot.planning
        assert stage.snapshot.plan is not None
        assert not stage.snapshot.plan.sound


async def test_it_lapses_when_the_finding_says_something_else(site: Path) -> None:
    path = sample_job("galley-gas", site)
    async with staged(path, WIDE) as stage:
        finding = await go_to_first(stage, Severity.CHECK)
        await stage.press("i")
        await fill_in(stage, "RA", "Seen.")
        await stage.shows("acknowledged by RA")
    text = path.read_text(encoding="utf-8")
    path.write_text(
        text.replace(f'"check: {finding.says}', '"check: it said something else'), encoding="utf-8"
    )
    async with staged(path, WIDE) as stage:
        await go_to_first(stage, Severity.CHECK)
        await stage.shows("RA: does not count", "when this finding said check:")
