"""Every key can be found, told and reached: in the help and the palette; `test_themes.py` looks at the footers."""

from __future__ import annotations

import inspect
import pkgutil
from importlib import import_module
from typing import TYPE_CHECKING

import pytest
from textual.binding import Binding
from textual.screen import Screen

import wizard.screens
import wizard.widgets
from tests.stage import sample_job, staged
from wizard import keys
from wizard.screens.help import help_text

if TYPE_CHECKING:
    from pathlib import Path

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
