"""What the trade does where no code speaks: always marked as common practice."""

from __future__ import annotations

from schedules.tables.loading import load
from schedules.tables.rules import Rule
from schedules.working import Confidence, Source

_TABLE = "trade_practice"


def practice(name: str) -> Rule:
    """The trade's figure of this name, e.g. `practice("hood_height_low").number` [in].

    Raises LookupError for an unknown name.
    """
    row = load(_TABLE).row(name)
    return Rule(
        name=name,
        words=row.text("words"),
        numbers=row.numbers("number"),
        unit=row.text("unit"),
        source=Source(row.text("topic"), Confidence.COMMON_PRACTICE),
        note=row.text("note"),
    )
