"""How choices that can't stand together may stand: one left out or one more bought, as edits that are planned again.

What was bought is a fact that only the order tells, so each remedy says what it would take for granted.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit, Remedy

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.sheet.choices import Choice, Group
    from schedules.sheet.sheet import Sheet


def choice_remedies(derived: Derived, subject: str) -> Iterator[Remedy]:
    """What makes a choice's company possible, or leaves one choice of a group that takes one; then what a hand can do.

    subject: the choice or the group.
    """
    sheet, chosen = derived.sheet, derived.job.choices
    group = next((item for item in sheet.group if item.id == subject), None)
    choice = next((item for item in sheet.choices if item.id == subject), None)
    if group is not None:
        yield from _one_of(group, chosen)
    if choice is not None:
        yield from _beside(sheet, choice, chosen)
    yield Remedy(
        "hold the choices against the order, and choose again at the options: each says what it needs and bars"
    )


def decide(group: Group) -> Remedy:
    """A question that nobody has answered: only the order does."""
    titles = " or ".join(f"“{choice.title}” ({choice.id})" for choice in group.choice)
    return Remedy(f"choose as it was ordered: {titles}")


def _one_of(group: Group, chosen: tuple[str, ...]) -> Iterator[Remedy]:
    picked = [choice for choice in group.choice if choice.id in chosen]
    for choice in picked:
        others = {item.id for item in picked} - {choice.id}
        yield _choosing(f"keep “{choice.title}” alone", [name for name in chosen if name not in others])


def _beside(sheet: Sheet, choice: Choice, chosen: tuple[str, ...]) -> Iterator[Remedy]:
    """Buy what it needs, leave out what bars it or what it bars, or leave it out itself."""
    titles = {item.id: item.title for item in sheet.choices}
    missing = [need for need in choice.requires if not set(chosen).intersection(need.any)]
    for name in dict.fromkeys(name for need in missing for name in need.any):
        yield _choosing(f"add “{titles[name]}”, if it was ordered", [*chosen, name])
    barred = [ban.choice for ban in choice.excludes]
    barred += [other.id for other in sheet.choices for ban in other.excludes if ban.choice == choice.id]
    for other in dict.fromkeys((*barred, choice.id)):
        if other in chosen:
            yield _choosing(f"leave out “{titles[other]}”", [name for name in chosen if name != other])


def _choosing(words: str, choices: list[str]) -> Remedy:
    return Remedy(words, (Edit("", None, "choices", choices),))
