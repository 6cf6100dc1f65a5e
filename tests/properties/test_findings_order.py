"""Which finding a person reads first."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from schedules.findings import CAUSES, Finding, Severity, in_order
from schedules.working import Confidence, Source

CHECKS = Path(__file__).parents[2] / "schedules" / "checks"
_FOLLOWING = ("circuit-overloaded", "controls-die", "cable-short", "promise-broken", "breaker-type")


def finding(code: str, severity: Severity = Severity.STOP) -> Finding:
    return Finding(code, severity, "E", "", "", Source("a test", Confidence.JOB))


@given(st.permutations([*CAUSES, *_FOLLOWING]))
def test_causes_come_before_what_follows_from_them(codes: list[str]) -> None:
    told = [item.code for item in in_order(tuple(finding(code) for code in codes))]
    assert told == [*CAUSES, *sorted(_FOLLOWING)]


def test_a_cause_never_comes_before_what_is_more_serious() -> None:
    cause, worse = finding("terminal-full", Severity.FIX), finding("voltage-drop", Severity.STOP)
    assert in_order((cause, worse)) == (worse, cause)


@pytest.mark.parametrize("code", CAUSES)
def test_each_cause_is_a_finding_that_some_check_makes(code: str) -> None:
    assert any(f'"{code}"' in path.read_text(encoding="utf-8") for path in CHECKS.glob("*.py"))
