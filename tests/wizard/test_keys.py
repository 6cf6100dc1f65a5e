"""Every key can be found, told and reached: in the footer, the help and the palette."""

from __future__ import annotations

import inspect
import pkgutil
from importlib import import_module
from typing import TYPE_CHECKING

import pytest
from textual.binding import Binding
from textual.screen import Screen
from textual.widgets._footer import FooterKey

import wizard.screens
import wizard.widgets
from tests.stage import Stage, sample_job, staged
from wizard import keys
from wizard.screens.help import help_text
from wizard.steps import STEPS

if TYPE_CHECKING:
    from pathlib import Path

FOOTER_COLUMNS = 68
"""Of 80, the framework's footer shows so many beside its palette key."""

GROUPS = {
    name: [value] if isinstance(value, Binding) else value
    for name, value in vars(keys).items()
    if name.isupper() and (isinstance(value, Binding | list))
}
EVERY = [(name, binding) for name, group in GROUPS.items() for binding in group]


@pytest.mark.parametrize(("name", "binding"), EVERY, ids=lambda value: getattr(value, "id", value))
def test_every_key_has_an_id_a_word_and_a_sentence(name: str, binding: Binding) -> None:
    assert binding.id
    assert binding.description
    assert len(binding.tooltip) > len(binding.description)


def test_ids_are_unique_within_what_a_screen_shows() -> None:
    for group in GROUPS.values():
        ids = [binding.id for binding in group]
        assert len(ids) == len(set(ids))


@pytest.mark.parametrize(("name", "binding"), EVERY, ids=lambda value: getattr(value, "id", value))
def test_no_key_is_one_that_terminals_lose(name: str, binding: Binding) -> None:
    for pressed in binding.key.split(","):
        assert not pressed.startswith(("alt+", "ctrl+shift", "super+"))
        assert not (pressed[0] == "f" and pressed[1:].isdigit())
        assert pressed not in ("ctrl+enter", "ctrl+question_mark", "ctrl+slash")


def classes() -> list[type]:
    """Every class of our screens and widgets."""
    found = []
    for package in (wizard.screens, wizard.widgets):
        for module in pkgutil.iter_modules(package.__path__, f"{package.__name__}."):
            members = vars(import_module(module.name)).values()
            found += [item for item in members if inspect.isclass(item) and item.__module__ == module.name]
    return found


def test_every_binding_of_a_class_stands_in_the_list_of_keys() -> None:
    listed = {id(binding) for _, binding in EVERY}
    for kind in classes():
        for binding in vars(kind).get("BINDINGS", ()):
            assert id(binding) in listed, f"{kind.__name__}: {binding}"


def test_every_screen_has_a_page_of_help() -> None:
    for kind in classes():
        topic = vars(kind).get("TOPIC")
        if issubclass(kind, Screen) and isinstance(topic, str):
            assert help_text(topic)
    for topic in ("steps", "findings", "schedules", "diagram", "new_job", "entry", "acknowledge"):
        assert help_text(topic).startswith("#")


def footer_width(stage: Stage) -> int:
    return sum(key.region.width for key in stage.screen.query(FooterKey))


async def test_the_footer_fits_on_every_screen(site: Path) -> None:
    async with staged(sample_job("must-fail", site)) as stage:

        def fits(where: str) -> None:
            shown = [key.description for key in stage.screen.query(FooterKey)]
            assert 0 < footer_width(stage) <= FOOTER_COLUMNS, f"{where}: {footer_width(stage)} for {shown}"

        for step in STEPS:
            stage.steps.action_step(step.id)
            await stage.settled()
            fits(step.title)
            await stage.press("tab")
            fits(f"{step.title}, list of steps")
            await stage.press("tab")
        stage.steps.action_step("room")
        await stage.settled()
        await stage.press("enter")
        fits("typing")
        await stage.press("escape")
        for opened in ("t", "r", "c", "e", "question_mark"):
            await stage.press(opened)
            fits(opened)
            await stage.press("escape")
        await stage.press("I", "b")
        fits("what if")
        await stage.press("escape", "d", "g")
        fits("drawings")
        await stage.press("escape", "s", "slash")
        fits("search")
        await stage.press("escape", "escape")
        fits("start")
        await stage.press("g")
        fits("tour")
        await stage.press("escape")
        await stage.press("n")
        fits("new job")
        await stage.press("enter")
        fits("pick")


async def test_help_tells_every_key_of_the_screen(site: Path) -> None:
    async with staged(sample_job("galley-gas", site), (100, 120)) as stage:
        offered = {
            active.binding.tooltip for active in stage.screen.active_bindings.values() if active.binding.id
        }
        await stage.press("question_mark")
        await stage.shows("Where you are", "Keys")
        for sentence in offered:
            assert sentence in stage.text


async def test_the_palette_reaches_every_action(site: Path) -> None:
    async with staged(sample_job("galley-gas", site)) as stage:
        await stage.press("ctrl+p")
        await stage.type("bright view")
        await stage.shows("View (v)")
        before = stage.app.theme
        await stage.press("enter")
        await stage.until(lambda: stage.app.theme != before, "another theme")
        await stage.press("ctrl+p")
        await stage.type("what stops the work")
        await stage.shows("Findings (f)")
        await stage.press("enter")
        await stage.until(lambda: stage.steps.step == "findings", "the findings")
