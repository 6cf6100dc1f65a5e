"""The answers that a job asks for about the days of the work."""

from __future__ import annotations

from schedules.quantities.units import Dimension
from schedules.questions.field import Field

WORK = (
    Field(
        "work",
        "start",
        "First day of the work",
        "line",
        "The calendar of the trades counts working days from it.",
        "2026-04-06",
        longest=10,
    ),
    Field(
        "work",
        "delivered",
        "Day of the delivery",
        "line",
        "Damage is reported within a few working days of it.",
        "2026-04-02",
        longest=10,
    ),
)

STEP = (
    Field(
        "step",
        "low",
        "Shortest duration",
        "quantity",
        "Working days of 24 h, by whoever does this step.",
        "1 d",
        lowest=0.0,
        highest=31_536_000.0,
        dimension=Dimension.TIME,
        required=True,
    ),
    Field(
        "step",
        "likely",
        "Likely duration",
        "quantity",
        "Working days of 24 h, by whoever does this step.",
        "2 d",
        lowest=0.0,
        highest=31_536_000.0,
        dimension=Dimension.TIME,
        required=True,
    ),
    Field(
        "step",
        "high",
        "Longest duration",
        "quantity",
        "Working days of 24 h, by whoever does this step.",
        "4 d",
        lowest=0.0,
        highest=31_536_000.0,
        dimension=Dimension.TIME,
        required=True,
    ),
)
