"""What a plan's wiring comes to: how many cables, terminations, circuits and openings, and whether two are the same."""

from __future__ import annotations

from dataclasses import dataclass
from hashlib import blake2b
from typing import TYPE_CHECKING

from schedules.rows.every import SCHEDULES

if TYPE_CHECKING:
    from schedules.plan import Plan

COUNTED = ("cables", "terminations", "circuits", "openings")
"""The schedules that are what is wired."""

Counts = tuple[int, int, int, int]
"""Rows of each of the counted schedules, in their order."""


@dataclass(frozen=True, slots=True)
class Wiring:
    """counts: rows of each counted schedule. mark: the same only for plans in which none of these rows differs."""

    counts: Counts
    mark: bytes


def wiring_of(plan: Plan) -> Wiring:
    """Count a plan's wiring."""
    cables, terminations, circuits, openings = (SCHEDULES[name](plan).rows for name in COUNTED)
    mark = blake2b(repr((cables, terminations, circuits, openings)).encode(), digest_size=16).digest()
    return Wiring((len(cables), len(terminations), len(circuits), len(openings)), mark)


def facts_of(plan: Plan) -> frozenset[tuple[str, ...]]:
    """Every row of the wiring: two plans are as far apart as rows that only one of them has."""
    return frozenset(
        (name, *schedule.cells(row))
        for name in COUNTED
        for schedule in (SCHEDULES[name](plan),)
        for row in schedule.rows
    )
