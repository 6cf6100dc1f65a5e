"""Every word on every screen stands out by 7:1 or more, in both themes, and the keys in its footer fit.

Without colours words and marks carry all.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from textual.color import Color
from textual.widgets._footer import FooterKey

from tests.screen_text import segments
from tests.stage import Stage, sample_job, staged
from wizard.steps import STEPS
from wizard.theme import BRIGHT, DARK

if TYPE_CHECKING:
    from pathlib import Path

    from rich.segment import Segment

LEAST_RATIO = 7.0
"""WCAG 2.2, success criterion 1.4.6, contrast of text (enhanced)."""

FOOTER_COLUMNS = 68
"""Of 80, the framework's footer shows so many beside its palette key."""
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


def footer(stage: Stage) -> tuple[int, list[str]]:
    """How wide the footer's keys are, and their words."""
    keys = list(stage.screen.query(FooterKey))
    return sum(key.region.width for key in keys), [key.description for key in keys]


async def stands_out(stage: Stage, where: str) -> None:
    """Every word stands out in the one theme and in the other; with that the walk goes on."""
    assert faint(stage) == [], f"{where}, {stage.app.theme}"
    stage.app.theme = BRIGHT if stage.app.theme == DARK else DARK
    await stage.settled()
    assert faint(stage) == [], f"{where}, {stage.app.theme}"


async def look(stage: Stage, where: str) -> None:
    """The words stand out, and the keys in the footer fit."""
    width, words = footer(stage)
    assert 0 < width <= FOOTER_COLUMNS, f"{where}: {width} for {words}"
    await stands_out(stage, where)


async def test_every_word_of_a_job_stands_out_and_every_footer_fits(site: Path) -> None:
    async with staged(sample_job("must-fail", site)) as stage:
        for step in STEPS:
            stage.steps.action_step(step.id)
            await stage.settled()
            await look(stage, step.title)
            await stage.press("tab")
            await look(stage, f"{step.title}, list of steps")
            await stage.press("tab")
        stage.steps.action_step("options")
        await stage.settled()
        await stage.press("n")
        await look(stage, "barred choices")
        stage.steps.action_step("room")
        await stage.settled()
        await stage.press("enter")
        await look(stage, "an open field")
        await stage.type("x")
        await stage.press("enter")
        await look(stage, "a refusal")
        await stage.press("escape")
        await look(stage, "typed, not accepted")
        await stage.press("down", "down", "down")
        for keys in (("t", "down"), ("r", "down"), ("c", "down"), ("question_mark",), ("e",)):
            await stage.press(*keys)
            await look(stage, " ".join(keys))
            await stage.press("escape")
        await stage.press("ctrl+p")
        await stands_out(stage, "the palette")
        await stage.press("escape")
        await stage.press("I", "b")
        await look(stage, "what wire if")
        await stage.press("enter")
        await look(stage, "what if")
        await stage.press("T", "end", "enter")
        await look(stage, "a test that is held up")
        await stage.press("d", "g")
        await look(stage, "a drawing in characters")
        await stage.press("escape", "f", *["down"] * 5, "i")
        await look(stage, "signing a finding")
        await stage.press("escape", "f", *["up"] * 5, "a")
        await look(stage, "the effect of a remedy")
        await stage.press("s", "slash")
        await look(stage, "search")


async def test_every_word_of_the_first_screens_stands_out_and_every_footer_fits(site: Path) -> None:
    sample_job("galley-gas", site)
    (site / "broken.toml").write_text('[job]\nsheet = "s"\n', encoding="utf-8")
    async with staged() as stage:
        await look(stage, "start")
        await stage.press("g")
        await look(stage, "tour")
        await stage.press("right")
        await look(stage, "the tour's second place")
        await stage.press("escape")
        await stage.press("n")
        await look(stage, "new job")
        await stage.press("enter")
        await look(stage, "pick")


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
