"""Every word on every screen stands out by 7:1 or more, in both themes; without colours words and marks carry all."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from textual.color import Color

from tests.screen_text import segments
from tests.stage import Stage, sample_job, staged
from wizard.steps import STEPS
from wizard.theme import BRIGHT, DARK

if TYPE_CHECKING:
    from pathlib import Path

    from rich.segment import Segment

LEAST_RATIO = 7.0
"""WCAG 2.2, success criterion 1.4.6, contrast of text (enhanced)."""

THEMES = pytest.mark.parametrize("theme", [DARK, BRIGHT])
# Edges and scroll bars are drawn with these; they are no words.
DRAWN = frozenset("│─▌▐█╭╮╰╯▁▂▃▄▅▆▇▀▔▏▕▊▎ ")


def luminance(color: Color) -> float:
    """Relative luminance after WCAG 2.2, from its own formula."""

    def linear(channel: int) -> float:
        share = channel / 255
        return share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4

    return 0.2126 * linear(color.r) + 0.7152 * linear(color.g) + 0.0722 * linear(color.b)


def ratio(one: Color, other: Color) -> float:
    lighter, darker = sorted((luminance(one), luminance(other)), reverse=True)
    return (lighter + 0.05) / (darker + 0.05)


def test_the_formula_gives_the_published_extremes() -> None:
    """WCAG 2.2: black on white is 21:1, a colour on itself 1:1."""
    assert ratio(Color(0, 0, 0), Color(255, 255, 255)) == pytest.approx(21.0)
    assert ratio(Color(9, 99, 199), Color(9, 99, 199)) == pytest.approx(1.0)


def contrast(piece: Segment) -> float:
    style = piece.style
    assert style is not None, piece
    assert style.color is not None, piece
    assert style.bgcolor is not None, piece
    assert not style.dim, piece
    return ratio(Color.from_rich_color(style.color), Color.from_rich_color(style.bgcolor))


def faint(stage: Stage) -> list[str]:
    """The words on the screen that stand out too little."""
    words = (piece for line in segments(stage.app) for piece in line if set(piece.text) - DRAWN)
    return [f"{piece.text!r} {contrast(piece):.1f}" for piece in words if contrast(piece) < LEAST_RATIO]


async def every_screen(stage: Stage) -> None:
    """Walk through the screens of a job, looking at each."""
    for step in STEPS:
        stage.steps.action_step(step.id)
        await stage.settled()
        assert faint(stage) == [], step.title
    await stage.press("tab")
    assert faint(stage) == [], "list of steps"
    stage.steps.action_step("options")
    await stage.settled()
    await stage.press("n")
    assert faint(stage) == [], "barred choices"
    stage.steps.action_step("room")
    await stage.settled()
    await stage.press("enter")
    assert faint(stage) == [], "an open field"
    await stage.type("x")
    await stage.press("enter")
    assert faint(stage) == [], "a refusal"
    await stage.press("escape")
    assert faint(stage) == [], "typed, not accepted"
    await stage.press("down", "down", "down")
    for keys in (("t", "down"), ("r", "down"), ("c", "down"), ("question_mark",), ("e",), ("ctrl+p",)):
        await stage.press(*keys)
        assert faint(stage) == [], keys
        await stage.press("escape")
    await stage.press("I", "b", "enter")
    assert faint(stage) == [], "what if"
    await stage.press("T", "end", "enter")
    assert faint(stage) == [], "a test that is held up"
    await stage.press("d", "g")
    assert faint(stage) == [], "a drawing in characters"
    await stage.press("escape", "f", *["down"] * 5, "i")
    assert faint(stage) == [], "signing a finding"
    await stage.press("escape", "f", *["up"] * 5, "a")
    assert faint(stage) == [], "the effect of a remedy"


@THEMES
async def test_every_word_of_a_job_stands_out(site: Path, theme: str) -> None:
    async with staged(sample_job("must-fail", site)) as stage:
        stage.app.theme = theme
        await stage.settled()
        await every_screen(stage)


@THEMES
async def test_the_first_screens_stand_out(site: Path, theme: str) -> None:
    sample_job("galley-gas", site)
    (site / "broken.toml").write_text('[job]\nsheet = "s"\n', encoding="utf-8")
    async with staged() as stage:
        stage.app.theme = theme
        await stage.settled()
        assert faint(stage) == [], "start"
        await stage.press("g", "right")
        assert faint(stage) == [], "tour"
        await stage.press("escape")
        await stage.press("n")
        assert faint(stage) == [], "new job"
        await stage.press("enter")
        assert faint(stage) == [], "pick"


async def test_a_key_switches_between_dark_and_bright(site: Path) -> None:
    async with staged(sample_job("galley-gas", site)) as stage:
        assert stage.app.theme == DARK
        await stage.press("v")
        assert stage.app.theme == BRIGHT
        await stage.press("v")
        assert stage.app.theme == DARK


async def test_without_colours_nothing_is_coloured_and_states_are_words(
    site: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("NO_COLOR", "1")
    async with staged(sample_job("must-fail", site)) as stage:
        for step in STEPS:
            stage.steps.action_step(step.id)
            await stage.settled()
            for line in segments(stage.app):
                for piece in line:
                    for color in (piece.style.color, piece.style.bgcolor) if piece.style is not None else ():
                        assert color is None or color.is_default, piece
        await stage.press("f")
        await stage.shows(">Findings", "STOP", "wrong")
        marked = [
            piece.text
            for line in segments(stage.app)
            for piece in line
            if piece.style is not None and piece.style.underline
        ]
        assert any("STOP" in words for words in marked), "the cursor shows without colour"
