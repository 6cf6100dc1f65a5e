"""Who works when, who waits for whom, and what an option changes in it."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import cache
from typing import TYPE_CHECKING, Literal

import networkx as nx

from schedules.tables import load
from schedules.work.working_days import first_working_day, working_day_after
from schedules.working import Confidence, Input, Source, Working

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from datetime import date

Estimate = Literal["low", "likely", "high"]

_TABLE = "order_of_work"
_EPSILON = 1e-9
_PRACTICE = Source("order of work and durations", Confidence.COMMON_PRACTICE)


@dataclass(frozen=True, slots=True)
class Step:
    """One step of the work. needs: the steps that must be done first. Durations are working days."""

    id: str
    trade: str
    work: str
    needs: tuple[str, ...]
    low_days: float
    likely_days: float
    high_days: float
    hold: str = ""
    before_cover: bool = False

    def days(self, estimate: Estimate) -> float:
        """Its duration by this estimate [working days]."""
        return {"low": self.low_days, "likely": self.likely_days, "high": self.high_days}[estimate]

    @property
    def expected_days(self) -> float:
        """Weighted mean of the three estimates [working days]: (low + 4 · likely + high) / 6."""
        return (self.low_days + 4 * self.likely_days + self.high_days) / 6


@dataclass(frozen=True, slots=True)
class Slot:
    """When a step can and must start and finish [working days from the start], and how long it may slip."""

    step: Step
    early_start: float
    early_finish: float
    late_start: float
    late_finish: float

    @property
    def slack_days(self) -> float:
        """How long the step may slip before the whole does [working days]."""
        return self.late_start - self.early_start

    @property
    def critical(self) -> bool:
        """Whether any slip of it delays the whole."""
        return self.slack_days <= _EPSILON


@dataclass(frozen=True, slots=True)
class OrderOfWork:
    """Every step with its slot, in the order in which they can start; the whole's range [working days]."""

    slots: tuple[Slot, ...]
    low_days: float
    likely_days: float
    high_days: float
    working: Working

    @property
    def critical_path(self) -> tuple[str, ...]:
        """The steps that can't slip, in order."""
        return tuple(slot.step.id for slot in self.slots if slot.critical)

    def waits(self) -> tuple[tuple[str, str], ...]:
        """Which trade waits for which other one, each pair once, in order: (waiting, for)."""
        trades = {slot.step.id: slot.step.trade for slot in self.slots}
        pairs = (
            (slot.step.trade, trades[need])
            for slot in self.slots
            for need in slot.step.needs
            if trades[need] != slot.step.trade
        )
        return tuple(dict.fromkeys(pairs))


@dataclass(frozen=True, slots=True)
class Change:
    """What an option changes: steps that come and go, days that the whole grows by, steps newly critical."""

    added: tuple[str, ...]
    removed: tuple[str, ...]
    low_days: float
    likely_days: float
    high_days: float
    newly_critical: tuple[str, ...]


@cache
def usual_steps(brought: frozenset[str]) -> tuple[Step, ...]:
    """The trade's steps for a kitchen whose options bring these things; a step left out passes its needs on."""
    table = load(_TABLE)
    rows = {row.text("step"): row for row in table.rows}
    kept = {
        name for name, row in rows.items() if not row.text("brought_by") or row.text("brought_by") in brought
    }

    def needs(name: str) -> tuple[str, ...]:
        found: dict[str, None] = {}
        for need in rows[name].words("needs"):
            found.update(dict.fromkeys((need,) if need in kept else needs(need)))
        return tuple(found)

    return tuple(
        Step(
            id=name,
            trade=row.text("trade"),
            work=row.text("work"),
            needs=needs(name),
            low_days=row.number("low_days"),
            likely_days=row.number("likely_days"),
            high_days=row.number("high_days"),
            hold=row.text("hold"),
            before_cover=row.text("before_cover") == "yes",
        )
        for name, row in rows.items()
        if name in kept
    )


def with_durations(
    steps: tuple[Step, ...], durations: Mapping[str, tuple[float, float, float]]
) -> tuple[Step, ...]:
    """The steps with this site's own durations (low, likely, high) [working days].

    Raises LookupError for a step that isn't there, ValueError for durations that fall or are negative.
    """
    known = {step.id for step in steps}
    for name, (low, likely, high) in durations.items():
        if name not in known:
            raise LookupError(f"no step {name!r}; there are: {', '.join(sorted(known))}")
        if not 0 <= low <= likely <= high:
            raise ValueError(f"{name}: 0 ≤ low ≤ likely ≤ high, not {low:g}, {likely:g}, {high:g}")
    return tuple(
        replace(
            step,
            low_days=durations[step.id][0],
            likely_days=durations[step.id][1],
            high_days=durations[step.id][2],
        )
        if step.id in durations
        else step
        for step in steps
    )


def precedence(steps: tuple[Step, ...]) -> nx.DiGraph[str]:
    """Which step comes before which, an edge from what is needed to what needs it.

    Raises ValueError for a name used twice, a need that isn't there, or steps that wait for each other in a ring.
    """
    graph: nx.DiGraph[str] = nx.DiGraph()
    for step in steps:
        if step.id in graph:
            raise ValueError(f"two steps are called {step.id}")
        graph.add_node(step.id)
    for step in steps:
        for need in step.needs:
            if need not in graph:
                raise ValueError(f"{step.id} needs {need}, which isn't there")
            graph.add_edge(need, step.id)
    if not nx.is_directed_acyclic_graph(graph):
        ring = [start for start, _ in nx.find_cycle(graph)]
        raise ValueError(f"these steps wait for each other: {', '.join(ring)}")
    return graph


def plan_work(
    steps: Iterable[Step],
    durations: Mapping[str, float] | None = None,
    *,
    not_before: Mapping[str, float] | None = None,
) -> OrderOfWork:
    """Earliest and latest times of every step by its likely duration, and the whole's range [working days].

    durations: other durations to plan by, such as the expected ones, in place of the likely ones. not_before: steps
    that something else than another step holds back, such as a delivery's day. Critical path method: forward pass
    over what is needed, backward pass from the end. Raises as `precedence`.
    """
    steps = tuple(steps)
    held = not_before or {}
    graph = precedence(steps)
    by_id = {step.id: step for step in steps}
    order = list(nx.lexicographical_topological_sort(graph, key=list(by_id).index))
    likely = {name: step.likely_days for name, step in by_id.items()} if durations is None else durations
    starts = _forward(graph, order, likely, held)
    whole = max((starts[name] + likely[name] for name in order), default=0.0)
    ends = _backward(graph, order, likely, whole)
    slots = tuple(
        Slot(by_id[name], starts[name], starts[name] + likely[name], ends[name] - likely[name], ends[name])
        for name in order
    )
    low, high = (
        max(
            (
                start + by_id[name].days(estimate)
                for name, start in _estimate(graph, order, steps, estimate, held)
            ),
            default=0.0,
        )
        for estimate in ("low", "high")
    )
    by_start = tuple(sorted(slots, key=lambda slot: (slot.early_start, order.index(slot.step.id))))
    critical = [slot.step.id for slot in by_start if slot.critical]
    return OrderOfWork(
        by_start,
        low,
        whole,
        high,
        Working(
            name="length of the work",
            formula="longest chain of steps that wait for each other",
            inputs=tuple(
                Input(
                    name,
                    f"{by_id[name].low_days:g} to {by_id[name].high_days:g}, likely {likely[name]:g} days",
                )
                for name in critical
            ),
            result=f"{whole:g} working days, {low:g} to {high:g}",
            source=_PRACTICE,
            note="range: every step at its shortest, every step at its longest",
        ),
    )


def _estimate(
    graph: nx.DiGraph[str],
    order: list[str],
    steps: tuple[Step, ...],
    estimate: Estimate,
    not_before: Mapping[str, float],
) -> Iterable[tuple[str, float]]:
    return _forward(graph, order, {step.id: step.days(estimate) for step in steps}, not_before).items()


def _forward(
    graph: nx.DiGraph[str], order: list[str], days: Mapping[str, float], not_before: Mapping[str, float]
) -> dict[str, float]:
    starts: dict[str, float] = {}
    for name in order:
        ready = max((starts[need] + days[need] for need in graph.predecessors(name)), default=0.0)
        starts[name] = max(ready, not_before.get(name, 0.0))
    return starts


def _backward(
    graph: nx.DiGraph[str], order: list[str], days: Mapping[str, float], whole: float
) -> dict[str, float]:
    ends: dict[str, float] = {}
    for name in reversed(order):
        ends[name] = min((ends[after] - days[after] for after in graph.successors(name)), default=whole)
    return ends


def change(before: OrderOfWork, after: OrderOfWork) -> Change:
    """What is different in the work after an option was added or taken away."""
    old, new = ({slot.step.id for slot in order.slots} for order in (before, after))
    return Change(
        added=tuple(slot.step.id for slot in after.slots if slot.step.id not in old),
        removed=tuple(slot.step.id for slot in before.slots if slot.step.id not in new),
        low_days=after.low_days - before.low_days,
        likely_days=after.likely_days - before.likely_days,
        high_days=after.high_days - before.high_days,
        newly_critical=tuple(name for name in after.critical_path if name not in before.critical_path),
    )


def day_of(start: date, days: float) -> date:
    """The date that lies so many working days after the start [working days]; holidays are not known.

    Raises ValueError for a negative number.
    """
    return working_day_after(first_working_day(start), math.floor(days + _EPSILON))
