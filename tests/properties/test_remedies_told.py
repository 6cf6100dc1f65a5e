"""Each finding that stops the work says what cures it: an edit that was planned again, or what to correct by hand."""

from __future__ import annotations

import ast
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from schedules.job.draft import draft_from_text
from schedules.plan import plan_job
from schedules.remedies import _PROPOSALS, with_remedies
from schedules.sheet.reading import read_sheet
from tests.kitchen_sheet import found, planned, remedied, words

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.plan import Plan

TOP = Path(__file__).parents[2]
CHECKS = TOP / "schedules" / "checks"

ANSWERED = {
    "not-measured": "the answer that is missing cures it, and the finding leads there",
}
"""Findings that block without a remedy of their own, and why."""


def blocking() -> Iterator[tuple[str, str, bool]]:
    """File, code and whether a remedy is given, of every finding in the checks that may stop or must be put right."""
    for path in sorted(CHECKS.glob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "Finding":
                given = {keyword.arg: keyword.value for keyword in node.keywords}
                code, severity = given.get("code"), ast.unparse(given.get("severity", ast.Constant("")))
                blocks = "STOP" in severity or "FIX" in severity
                if isinstance(code, ast.Constant) and isinstance(code.value, str) and blocks:
                    yield path.name, code.value, "remedies" in given


def test_every_check_that_blocks_says_what_cures_it() -> None:
    every = tuple(blocking())
    silent = {
        (file, code)
        for file, code, given in every
        if not given and code not in _PROPOSALS and code not in ANSWERED
    }
    assert len(every) > 30
    assert silent == set()


@pytest.mark.parametrize(
    ("changes", "code", "says"),
    [
        (
            {"cable.1.core.1.to": "X1:N", "cable.1.core.2.to": "X1:L"},
            "potentials-joined",
            ("exchange the ends of conductors 101 and 102 in PB or in H, not in both",),
        ),
        (
            {"cable.1.core.1.to": "K1:L", "cable.3.core.1.to": "X1:L"},
            "potentials-joined",
            ("land core 1 of W1 on a free terminal of its potential: X1:L",),
        ),
        (
            {"cable.1.core.1.size": "1/0 AWG"},
            "terminal-size",
            ("give core 1 of W1 a `size` from 22 AWG to 2 AWG",),
        ),
        (
            {"clamp.any.holds": 1, "cable.3.core.1.to": "X1:L"},
            "terminal-full",
            ("land one tail of it", "`holds` of clamp any"),
        ),
        ({"cable.1.class": "class-2"}, "class-mixed-at-terminal", ("on a terminal of class class-2",)),
        ({"cable.1.core.2.colour": "BU"}, "colour-misleads", ("white or grey core", "4 AWG or larger")),
        ({"cable.1.core.1.colour": "GN"}, "colour-misleads", ("take another core",)),
        ({"cable.1.core.1.colour": "WH"}, "colour-misleads", ("mark it at both ends",)),
        ({"enclosure.FN.metal": True}, "enclosure-ungrounded", ("grounding terminal to the metal of FN",)),
        (
            {"device.K1.element.fan.rated": "5 A"},
            "contact-overloaded",
            ("relay or contactor that may switch 6.0 A or more between K1.fan and M1.motor", "5 A or less"),
        ),
        (
            {"device.K1.element.fan.rated": "5 A"},
            "contact-not-for-motor",
            ("marked for motors of 6 A at full load or more between K1.fan and M1.motor",),
        ),
        (
            {"device.S1.element.loop.listed": "fire-alarm"},
            "class-not-listed",
            ("from a source that is listed for class-2 wiring",),
        ),
    ],
)
def test_what_a_sheet_has_wrong_is_told_with_its_cure(
    changes: dict[str, Any], code: str, says: tuple[str, ...]
) -> None:
    told = {
        "; ".join(remedy.words for remedy in finding.remedies) for finding in found(planned(changes), code)
    }
    assert any(all(words in remedy for words in says) for remedy in told), told


def test_a_conductor_bought_too_thick_for_its_terminal_is_bought_thinner() -> None:
    """Clamps of the kitchen end at 2 AWG; the remedy is planned again, so it cures and raises nothing else."""
    plan = remedied(in_job={"run.W2.size": "1/0 AWG"})
    kept = {
        remedy.words
        for finding in found(plan, "terminal-size")
        for remedy in finding.remedies
        if remedy.edits
    }
    assert kept == {
        "buy W2 with the size that the sheet gives it",
        "buy W2 with 2 AWG as its size",
    }


def test_an_amendment_that_fits_no_rule_is_taken_out() -> None:
    plan = remedied(amendment=({"rule": "no_such", "number": 1, "unit": "ft", "source": "city"},))
    assert words(plan, "amendment-refused") == ["take the amendment out: what the code prints holds"]


def chosen(*choices: str) -> Plan:
    """The sample sheet with these choices, each remedy planned again."""
    sheet = read_sheet(TOP / "samples" / "sheets" / "marram.toml")
    names = ", ".join(f'"{name}"' for name in choices)
    draft = draft_from_text(
        f'format = 1\nchoices = [{names}]\n[job]\nname = "n"\nsheet = "s"\nrevision = "0"\n'
        'date = "2026-01-01"\ncode = 2023\n[site]\ntolerance = "1/4 in"\n',
        "job.toml",
    )
    return with_remedies(sheet, draft, plan_job(sheet, draft.job))


def test_choices_that_bar_each_other_are_parted() -> None:
    plan = chosen("fan-inside", "range-contactor", "range-shunt-trip", "trip-supply")
    both = {
        remedy.words
        for finding in found(plan, "choice-conflict")
        for remedy in finding.remedies
        if remedy.edits
    }
    # The trip's own supply needs the shunt-trip breaker, so leaving that one out would raise another conflict.
    assert both == {"leave out “Electric range, contactor box”"}


def test_of_two_fans_one_is_kept() -> None:
    plan = chosen("fan-inside", "fan-inline", "gas-valve")
    assert "keep “Fan inside the hood” alone" in words(plan, "choice-conflict")


def test_wires_that_a_choice_leaves_wanting_are_no_mistake_of_the_sheet() -> None:
    """With a choice that needs another one, nobody is sent to land a core: the choices are mended first."""
    plan = chosen("fan-inside", "range-shunt-trip")
    empty = found(plan, "terminal-empty")
    assert empty
    assert {remedy.words for finding in empty for remedy in finding.remedies} == {
        "let the choices stand together first: with those that don't, wires are missing"
    }
    assert "choose as it was ordered" in chosen("fan-inside").findings[0].remedies[0].words
