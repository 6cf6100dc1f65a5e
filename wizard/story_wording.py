"""Words for a scene of a story: what the event changed, the matrix of states and effects, what is on and off."""

from __future__ import annotations

from string import ascii_uppercase
from typing import TYPE_CHECKING

from textual.content import Content

from schedules.behaviour.states import Level
from schedules.behaviour.wire_states import WireKind

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from schedules.teaching.story import Scene, StateRow

_SIGNS = {Level.ON: "●", Level.PART: "◐", Level.OFF: "·"}
_UNLIKE = "!"
_LEAST_CELL, _WORDED_CELL, _LARGEST_CELL = 2, 6, 8
"""Columns of a cell: with a sign and a mark, from which a word fits, and the most."""

_LONGEST_NAME = 24
_WIRES_NAMED = 6
"""So many wires of one kind are named; the rest are counted."""


def head_lines(scene: Scene) -> Iterator[Content]:
    """What happened, in which state, and what is wrong by now."""
    yield Content.styled(scene.says.upper(), "bold")
    yield Content(f"State: {scene.state}")
    yield from (Content.styled(f"WRONG: {words}", "bold $text-error") for words in scene.wrong)


def change_lines(scene: Scene, before: Scene | None) -> Iterator[Content]:
    """What this event changed: effects, breakers, wires; and what is dangerous now."""
    letters = effect_letters(scene)
    if before is not None:
        yield Content.styled(f"{len(scene.turned)} changed" if scene.turned else "Nothing changed", "bold")
    for turn in scene.turned:
        words = f">> {turn.was:>4} → {turn.now.upper():4} {letters[turn.effect]} {turn.effect}"
        yield Content.styled(words, "bold reverse")
    for words in scene.tripped:
        yield Content.styled(f">> {words} TRIPPED", "bold $text-error")
    for words in scene.hazards:
        yield Content.styled(f">> DANGER: {words}", "bold $text-error")
    if not scene.settled:
        yield Content.styled(">> contacts never come to rest", "bold $text-error")
    if before is not None:
        yield from _wire_lines(scene, before)


def matrix_lines(scene: Scene, rows: Iterable[StateRow], width: int) -> Iterator[Content]:
    """The matrix: now, then each state as it would be with what is wrong; effects in columns, by their letters."""
    rows, letters = tuple(rows), effect_letters(scene)
    name = min(max((len(row.state) for row in rows), default=0) + 3, _LONGEST_NAME)
    cell = max(_LEAST_CELL, min(_LARGEST_CELL, (width - name) // max(len(letters), 1)))
    yield Content.styled(
        f"{'STATE':{name}}" + "".join(f"{letter:{cell}}" for letter in letters.values()), "bold"
    )
    turned = frozenset(turn.effect for turn in scene.turned)
    yield _row("now", scene.levels, turned, name, cell, style="bold")
    for row in rows:
        label = f"{'▸' if row.put_up else ' '} {row.state}"
        yield _row(label, row.levels, row.unlike, name, cell, style="bold" if row.put_up else "")
    signs = (
        "" if cell >= _WORDED_CELL else "  ".join(f"{sign} {level}" for level, sign in _SIGNS.items()) + "  "
    )
    yield Content(f"{signs}{_UNLIKE} now: changed; in a state: unlike a sound installation")


def level_lines(scene: Scene) -> Iterator[Content]:
    """Every effect by its letter, and whether it is on."""
    letters = effect_letters(scene)
    return (Content(f"{letters[name]} {level:4} {name}") for name, level in scene.levels.items())


def effect_letters(scene: Scene) -> dict[str, str]:
    """A letter for each effect, in the sheet's order; from the twenty-seventh on two."""
    names = (*ascii_uppercase, *(a + b for a in ascii_uppercase for b in ascii_uppercase))
    return dict(zip(scene.levels, names, strict=False))


def _row(
    label: str, levels: Mapping[str, Level], marked: frozenset[str], name: int, cell: int, *, style: str
) -> Content:
    """One row of the matrix; marked cells bear a sign of their own, so that they show without colour too."""
    label = label if len(label) < name else f"{label[: name - 2]}…"
    parts: list[tuple[str, str]] = [(f"{label:{name}}", style)]
    for effect, level in levels.items():
        word = str(level) if cell >= _WORDED_CELL else _SIGNS[level]
        if effect in marked:
            shown = f"{word.upper()}{_UNLIKE}"
            parts += [(shown, "bold reverse"), (" " * (cell - len(shown)), "")]
        else:
            parts.append((f"{word:{cell}}", style))
    return Content.assemble(*parts)


def _wire_lines(scene: Scene, before: Scene) -> Iterator[Content]:
    """Which wires this event made live, and which no longer are."""
    was, now = before.wires, scene.wires
    for words, numbers in (
        ("live now", [n for n in now if _live(now[n].kind) > _live(was[n].kind)]),
        ("no longer live", [n for n in now if _live(now[n].kind) < _live(was[n].kind)]),
    ):
        if numbers:
            named = ", ".join(numbers[:_WIRES_NAMED])
            rest = f" and {len(numbers) - _WIRES_NAMED} more" if len(numbers) > _WIRES_NAMED else ""
            count = f"{len(numbers)} wire{'s' if len(numbers) > 1 else ''}"
            yield Content(f"{count} {words}: {named}{rest}")


def _live(kind: WireKind) -> bool:
    return kind is WireKind.LIVE
