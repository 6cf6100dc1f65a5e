"""A tag is taken in upper and lower case, several at once, and a slip is told with what comes nearest."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from wizard.commands.named import match, named
from wizard.diagnostics import RefusedError

if TYPE_CHECKING:
    from collections.abc import Callable
    from subprocess import CompletedProcess

    Run = Callable[..., CompletedProcess[bytes]]

TEMPLATE_JOB = Path(__file__).parents[2] / "schedules" / "templates" / "job.toml"


@pytest.mark.parametrize(
    ("typed", "names", "found"),
    [
        ("W4", ("W4", "W5"), "W4"),
        ("w4", ("W4", "W5"), "W4"),
        (" rb ", ("RB",), "RB"),
        ("a", ("a", "A"), "a"),
        ("A", ("a", "A"), "A"),
        ("W6", ("W4", "W5"), None),
        ("b", ("B", "ʙ"), "B"),
    ],
)
def test_upper_and_lower_case_are_one_where_nothing_is_mixed_up(
    typed: str, names: tuple[str, ...], found: str | None
) -> None:
    assert match(typed, names) == found


def test_of_two_names_that_differ_by_their_case_only_the_exact_one_is_taken() -> None:
    assert match("Ab", ("ab", "aB")) is None


def test_a_slip_is_told_with_what_comes_nearest() -> None:
    with pytest.raises(RefusedError, match=r'^x: found "RX"; allowed: PB, RB, RG; did you mean RG or RB\?$'):
        named("x", "RX", ("PB", "RB", "RG"))
    with pytest.raises(RefusedError, match=r'^x: found "W1"; allowed: nothing yet$'):
        named("x", "W1", (), none="nothing yet")


def test_two_things_are_explained_one_after_the_other(hoodwright: Run) -> None:
    both = hoodwright("explain", TEMPLATE_JOB, "w3", "cut", "length", "of", "W1")
    one, other = (hoodwright("explain", TEMPLATE_JOB, *item) for item in (["W3"], ["cut length of W1"]))
    assert both.returncode == 0
    assert both.stdout.startswith(one.stdout.rstrip())
    assert other.stdout.strip() in both.stdout


def test_of_several_things_the_unknown_ones_are_named(hoodwright: Run) -> None:
    done = hoodwright("explain", TEMPLATE_JOB, "W33", "W3")
    assert done.returncode == 2
    assert b'found "W33"; allowed: ' in done.stderr
    assert b"did you mean" in done.stderr


def test_reach_and_show_take_a_tag_in_lower_case(hoodwright: Run) -> None:
    assert hoodwright("reach", TEMPLATE_JOB, "w3").stdout == hoodwright("reach", TEMPLATE_JOB, "W3").stdout
    shown = [
        hoodwright("show", TEMPLATE_JOB, "terminations", "--enclosure", tag).stdout for tag in ("h", "H")
    ]
    assert shown[0] == shown[1]


def test_draw_takes_a_tag_in_lower_case(hoodwright: Run, tmp_path: Path) -> None:
    done = hoodwright("draw", TEMPLATE_JOB, "--enclosure", "h", "-o", "hood.svg")
    assert done.returncode in (0, 1), done.stderr
    assert (tmp_path / "hood.svg").is_file()
