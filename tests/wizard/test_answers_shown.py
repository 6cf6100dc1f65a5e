"""What stands beside and under an answer is about that answer as it is now, in small terminals too."""

from __future__ import annotations

from typing import TYPE_CHECKING

from tests.stage import sample_job, staged

if TYPE_CHECKING:
    from pathlib import Path

SMALL = (60, 18)


async def test_the_explanation_follows_the_answer_that_is_taken_back(site: Path) -> None:
    async with staged(sample_job("galley-gas", site)) as stage:
        # A field that was open where the choices then come leaves nothing behind, and what is picked is no answer anew.
        await stage.press("enter", "escape", "right", "down")
        before = stage.snapshot
        await stage.press("u")
        await stage.shows("Nothing to take back.")
        assert not any(row.answer.display for row in stage.steps.questions.in_view)
        await stage.press("enter")
        picked = stage.snapshot
        assert picked is not before
        assert "Nothing to take back." not in stage.text
        await stage.press("enter")
        assert stage.snapshot is picked
        await stage.press("right")
        await stage.go("Ceiling height")
        await stage.answer("9 ft")
        await stage.press("up")
        await stage.shows("Now 9' 0\"")
        await stage.press("u")
        assert "Now 9' 0\"" not in stage.text
        assert "Now 8'" in stage.text
        await stage.press("m", "m")
        await stage.shows("Lengths: metric")
        assert "2.4" in stage.text


async def test_short_answers_are_whole_in_a_small_terminal(site: Path) -> None:
    async with staged(sample_job("galley-gas", site), SMALL) as stage:
        await stage.press("right", "right")
        await stage.shows("1/4 in", "attic", "crawlspace")
        await stage.go("Ceiling height")
        await stage.press("9", "enter")
        await stage.shows("Found 9 without a unit.")
