"""What is shown to a class one slide at a time: few words, drawn from what differs between two plans."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.comparison import Kind, count
from schedules.teaching.points import talks

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.comparison import Change, Comparison
    from schedules.sheet.sheet import Sheet
    from schedules.teaching.deck import Deck
    from wizard.behaviour import Behaviour

_SIGNS = {Kind.ADDED: "+", Kind.REMOVED: "−", Kind.ALTERED: "~"}


@dataclass(frozen=True, slots=True)
class Slide:
    """One slide. over: what it belongs to; head: one or two words; figure: shown large; lines: one thing each."""

    over: str
    head: str
    figure: str
    lines: tuple[str, ...]


def comparison_slides(over: str, comparison: Comparison) -> tuple[Slide, ...]:
    """A slide for each schedule that differs, findings last: how many more and fewer, then each with its sign."""
    told = [(subject, changes) for subject, changes in comparison.by_subject() if changes]
    return tuple(
        Slide(over, subject, figure_of(changes), tuple(_signed(changes)))
        for subject, changes in sorted(told, key=lambda item: item[0] == "findings")
        if subject != "conductors"
    )


def deck_slides(sheet: Sheet, deck: Deck) -> tuple[Slide, ...]:
    """For each demonstration a slide of what is put in and taken out, then what differs."""
    slides = []
    for number, (item, talk) in enumerate(zip(deck.demonstrations, talks(sheet, deck), strict=True), start=1):
        over = f"Demonstration {number} of {len(deck.demonstrations)}"
        put = [f"+ {title}" for title in talk.put_in] + [f"− {title}" for title in talk.taken_out]
        slides.append(Slide(over, "choices", f"+{len(talk.put_in)} -{len(talk.taken_out)}", tuple(put)))
        if item.change is None:
            slides += [Slide(over, point.what, "", point.says) for point in talk.points]
        else:
            slides += comparison_slides(over, item.change)
    return tuple(slides)


def interlock_slides(behaviour: Behaviour) -> tuple[Slide, ...]:
    """For each state a slide of every effect, always in the same line; with what it was in the state before."""
    slides: list[Slide] = []
    before: tuple[str, ...] = ()
    for cause in behaviour.causes:
        words = tuple(behaviour.word(cause, place) for place in range(len(behaviour.effects)))
        was = before or words
        lines = tuple(
            f"{word.upper():<9}{effect.name}{f'   (was {last})' if word != last else ''}"
            for effect, word, last in zip(behaviour.effects, words, was, strict=True)
        )
        slides.append(Slide("as solved, each state against the one before", cause.case.name, "", lines))
        before = words
    return tuple(slides)


def figure_of(changes: tuple[Change, ...]) -> str:
    """How many more and fewer; where nothing is either, how many are otherwise."""
    added, removed = count(changes, Kind.ADDED), count(changes, Kind.REMOVED)
    return f"+{added} -{removed}" if added or removed else str(len(changes))


def _signed(changes: tuple[Change, ...]) -> Iterator[str]:
    return (f"{_SIGNS[change.kind]} {change}" for change in changes)
