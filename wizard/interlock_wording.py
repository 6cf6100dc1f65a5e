"""Words for the interlock matrix: a cell, what is known of it, what one thing put wrong comes to."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.content import Content

from schedules.behaviour.states import Level

if TYPE_CHECKING:
    from collections.abc import Iterable

    from schedules.behaviour.interlocks import Cause
    from wizard.behaviour import Behaviour, Trial

_DIFFERS = "!"
"""Stands at a cell in which the maker's promise doesn't hold."""


def cell_content(
    behaviour: Behaviour, trial: Trial | None, cause: Cause, place: int, width: int, *, here: bool
) -> Content:
    """One cell. With a trial, one that changed says from what to what. here: the cursor stands on it."""
    at = cause.case.id, behaviour.effects[place].id
    word, style = behaviour.word(cause, place), ""
    if at in behaviour.broken:
        word, style = f"{word}{_DIFFERS}", "bold $text-error"
    if trial is not None and at in trial.now:
        word, style = f"{behaviour.levels(at[0])[at[1]]}→{trial.now[at]}", "bold $text-warning"
    shown = f"[{word}]" if here else f" {word} "
    return Content.styled(f"{shown:<{width}}", f"bold {style}".strip() if here else style)


def cell_details(behaviour: Behaviour, trial: Trial | None, cause: Cause, place: int) -> Content:
    """The cell under the cursor with its note, the maker's promise beside it, and what is on in this state."""
    effect, cell = behaviour.effects[place], cause.cells[place]
    at = cause.case.id, effect.id
    lines = [
        Content.assemble(
            (cause.case.name, "bold"), "  →  ", (f"{effect.name}: {behaviour.word(cause, place)}", "bold")
        )
    ]
    if trial is not None and at in trial.now:
        was = behaviour.levels(at[0])[at[1]]
        lines.append(Content.styled(f"With the fault {trial.now[at]} instead of {was}", "bold $text-warning"))
    if cell.note:
        lines.append(Content(f"Note  {cell.note}"))
    lines += _promise_lines(behaviour, trial, at)
    levels = dict(behaviour.levels(cause.case.id))
    if trial is not None:
        levels |= {name: level for (state, name), level in trial.now.items() if state == cause.case.id}
    for title, level in (("On", Level.ON), ("Part", Level.PART), ("Off", Level.OFF)):
        names = [item.name for item in behaviour.effects if levels[item.id] is level]
        if names:
            lines.append(Content.assemble((f"{title:<5}", "bold"), ", ".join(names)))
    lines += _rest_lines(behaviour, cause)
    return Content("\n").join(lines)


def _promise_lines(behaviour: Behaviour, trial: Trial | None, at: tuple[str, str]) -> Iterable[Content]:
    promise = behaviour.promise(at)
    if promise is None:
        return
    held = f"The maker promises: {promise.does}"
    if at in behaviour.broken:
        instead = behaviour.broken[at]
        yield Content.styled(f"{held}. DIFFERS: {instead}. [{promise.source}]", "bold $text-error")
    elif trial is None or at not in trial.now:
        yield Content(f"{held}, and so it is. [{promise.source}]")
    else:
        yield Content.styled(f"{held}, which the fault breaks. [{promise.source}]", "bold $text-warning")


def _rest_lines(behaviour: Behaviour, cause: Cause) -> Iterable[Content]:
    names = {signal.id: signal.name for signal in behaviour.derived.sheet.signal}
    said = [f"reset by hand: {', '.join(names.get(item, item) for item in cause.held)}"] if cause.held else []
    said += [f"at rest after {cause.after_s:g} s"] if cause.after_s else []
    said += [] if cause.settled else ["never comes to rest"]
    if said:
        yield Content("; ".join(said).capitalize())


def trial_content(behaviour: Behaviour, trial: Trial | None) -> Content:
    """The head: how the installation is taken to be."""
    if trial is None:
        differs = len(behaviour.broken)
        promises = (
            f"{differs} unlike the maker's promise ({_DIFFERS})" if differs else "as the maker promises"
        )
        return Content.assemble(
            ("Interlocks", "bold"),
            f"   {len(behaviour.causes)} causes, {len(behaviour.effects)} effects: {promises}",
        )
    states = len({state for state, _ in trial.now})
    changes = f"{states} states change" if states != 1 else "1 state changes"
    outcome = trial.outcome
    lines = [
        Content.assemble((f"WHAT IF {outcome.fault.says}", "bold $text-warning"), f"   {changes}, x clears")
    ]
    if outcome.dangers:
        lines.append(Content.styled(f"DANGER: {'; '.join(outcome.dangers)}", "bold $text-error"))
    lines.append(Content(f"Noticed: {outcome.notice}"))
    return Content("\n").join(lines)
