"""Combinations and decks of them, as text for a terminal and as JSON for other programs."""

from __future__ import annotations

import textwrap
from typing import TYPE_CHECKING, Any

from schedules.cautions import CAUTION
from schedules.rows.schedule import DASH, Column, Schedule
from schedules.teaching.wiring import COUNTED
from schedules.text import for_terminal
from schedules.writers.data import as_json
from schedules.writers.text import schedule_lines

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator

    from schedules.sheet.sheet import Sheet
    from schedules.teaching.barring import Barred, Barring
    from schedules.teaching.combos import Combination
    from schedules.teaching.tally import Cost, Spread

COMBOS_FORMAT = "hoodwright-combos"
_VERSION = 1
_NUMBER, _FIGURE = 5, 6
_HEADS = ("cables", "ends", "circ.", "open.", "cure")


def barring_lines(barred: Barring, titles: dict[str, str], width: int) -> Iterator[str]:
    """How many combinations can be built, and which rule of the sheet bars how many of the others."""
    several = " A combination may be barred by several rules at once." if barred.rules else ""
    counted = f"{barred.possible} of {barred.thinkable} thinkable combinations can be built.{several}"
    yield from _wrapped(counted, width)
    yield ""
    yield from schedule_lines(
        Schedule(
            id="barred",
            title="What can't be built, and why",
            columns=(
                Column("count", "Bars", lambda row: str(row.count), right=True),
                Column("subject", "What", lambda row: row.subject),
                Column("reason", "Why", lambda row: row.reason),
            ),
            rows=barred.rules,
        ),
        width,
    )
    for group in barred.together:
        yield from _wrapped(f"Only together: {', '.join(titles[name] for name in group)}.", width)
    for name in barred.never:
        yield from _wrapped(f"In no combination at all: {titles[name]}.", width)


def combination_head() -> Iterator[str]:
    """What stands over the combinations. ends: terminations; cure: findings that stop or must be put right."""
    yield "Every combination, planned"
    yield ""
    yield f"{'No.':>{_NUMBER}}{''.join(f'{head:>{_FIGURE + 1}}' for head in _HEADS)}  choices"


def combination_lines(number: int, item: Combination, width: int) -> Iterator[str]:
    """One combination: its figures and its choices."""
    figures = "".join(f"{figure:>{_FIGURE + 1}}" for figure in (*item.wiring.counts, item.blocking))
    start = f"{number:>{_NUMBER}}{figures}  "
    yield from textwrap.wrap(
        for_terminal(" ".join(item.choices)) or DASH,
        max(width, len(start) + 20),
        initial_indent=start,
        subsequent_indent=" " * len(start),
        break_on_hyphens=False,
    )


def cost_lines(costs: tuple[Cost, ...], titles: dict[str, str], width: int) -> Iterator[str]:
    """What each choice adds, and which never matter to the wiring."""
    yield from schedule_lines(
        Schedule(
            id="costs",
            title="What each choice adds",
            columns=(
                Column("choice", "Choice", lambda row: _named(row, titles)),
                *map(_figure_column, COUNTED),
                Column("pairs", "Pairs", lambda row: str(row.pairs), right=True),
            ),
            rows=costs,
            note="Least, median and most over the pairs of combinations that differ in this choice alone.",
        ),
        width,
    )
    yield ""
    idle = [_named(item, titles) for item in costs if item.idle]
    yield from _wrapped(
        f"Never matters to the wiring: {'; '.join(idle)}." if idle else "Every choice matters to the wiring.",
        width,
    )
    alone = [_named(item, titles) for item in costs if not item.pairs]
    if alone:
        yield from _wrapped(f"Never seen by itself among these combinations: {'; '.join(alone)}.", width)


def combos_json(
    sheet: Sheet, barred: Barring, combinations: Iterable[Combination], costs: Callable[[], tuple[Cost, ...]]
) -> Iterator[bytes]:
    """All of it as one document, `hoodwright-combos` version 1, piece by piece as the combinations come.

    costs: asked once all have come.
    """
    yield as_json({"cautions": [CAUTION]}).removesuffix(b"\n}\n") + b',\n  "combinations": ['
    between = b"\n"
    for item in combinations:
        yield between + textwrap.indent(as_json(_combination(item)).decode().rstrip(), "    ").encode()
        between = b",\n"
    rest = {
        "format": COMBOS_FORMAT,
        "version": _VERSION,
        "sheet": sheet.sheet.id,
        "thinkable": barred.thinkable,
        "possible": barred.possible,
        "rules": [_rule(item) for item in barred.rules],
        "together": [list(group) for group in barred.together],
        "never": list(barred.never),
        "costs": [_cost(item) for item in costs()],
    }
    yield (b"],\n" if between == b"\n" else b"\n  ],\n") + as_json(rest).removeprefix(b"{\n")


def _combination(item: Combination) -> dict[str, Any]:
    return {
        "choices": list(item.choices),
        "blocking_findings": item.blocking,
        **dict(zip(COUNTED, item.wiring.counts, strict=True)),
    }


def _rule(item: Barred) -> dict[str, Any]:
    return {"subject": item.subject, "reason": item.reason, "bars": item.count}


def _cost(item: Cost) -> dict[str, Any]:
    return {
        "choices": list(item.bundle),
        "instead_of": item.against or None,
        "pairs": item.pairs,
        "matters_to_wiring": None if not item.pairs else not item.idle,
        "adds": {
            name: {"least": spread.least, "median": spread.median, "most": spread.most}
            for name, spread in item.figures.items()
        },
    }


def _figure_column(name: str) -> Column[Cost]:
    return Column(name, name.capitalize(), lambda row: _spread(row.figures.get(name)))


def _named(cost: Cost, titles: dict[str, str]) -> str:
    words = " with ".join(titles[name] for name in cost.bundle)
    return f"{words}, not {titles[cost.against]}" if cost.against else words


def _spread(spread: Spread | None) -> str:
    if spread is None:
        return DASH
    if spread.least == spread.most:
        return f"{spread.least:+d}" if spread.least else "0"
    return f"{spread.least:+d} {spread.median:+g} {spread.most:+d}"


def _wrapped(text: str, width: int) -> list[str]:
    return textwrap.wrap(for_terminal(text), width)
