"""What differs between two plans: each thing added, removed or altered, and in which respect."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING, Any, TypeVar

from schedules.rows.every import SCHEDULES
from schedules.rows.interlocks import interlocks as interlocks_of

if TYPE_CHECKING:
    from collections.abc import Callable, Hashable, Iterable, Iterator

    from schedules.findings import Finding
    from schedules.plan import Plan
    from schedules.rows.interlocks import InterlockRow
    from schedules.rows.schedule import Schedule

RowT = TypeVar("RowT")


class Kind(StrEnum):
    """How a thing differs."""

    ADDED = "added"
    REMOVED = "removed"
    ALTERED = "altered"


@dataclass(frozen=True, slots=True)
class Difference:
    """One respect in which a thing differs: the column's head, what it showed, what it shows."""

    what: str
    was: str
    now: str

    def __str__(self) -> str:
        return f"{self.what} {self.now} (was {self.was})"


@dataclass(frozen=True, slots=True)
class Change:
    """One thing that differs. says: what it is, where it was added or removed."""

    kind: Kind
    subject: str
    says: str
    differences: tuple[Difference, ...] = ()

    def __str__(self) -> str:
        return f"{self.subject}: {'; '.join(map(str, self.differences)) or self.says}"


@dataclass(frozen=True, slots=True)
class Comparison:
    """Every change from one plan to another, by the schedule in which it shows."""

    terminations: tuple[Change, ...] = ()
    conductors: tuple[Change, ...] = ()
    cables: tuple[Change, ...] = ()
    circuits: tuple[Change, ...] = ()
    raceways: tuple[Change, ...] = ()
    openings: tuple[Change, ...] = ()
    interlocks: tuple[Change, ...] = ()
    findings: tuple[Change, ...] = ()

    def by_subject(self) -> Iterator[tuple[str, tuple[Change, ...]]]:
        """Each schedule's name with its changes, those a person looks for first at the head."""
        yield "findings", self.findings
        yield "cables", self.cables
        yield "circuits", self.circuits
        yield "raceways", self.raceways
        yield "openings", self.openings
        yield "interlocks", self.interlocks
        yield "terminations", self.terminations
        yield "conductors", self.conductors

    @property
    def same(self) -> bool:
        """Whether nothing differs."""
        return not any(changes for _, changes in self.by_subject())


def count(changes: Iterable[Change], kind: Kind) -> int:
    """How many changes are of one kind."""
    return sum(1 for change in changes if change.kind is kind)


@dataclass(frozen=True, slots=True)
class _Identity:
    """What makes two rows of a schedule one thing, what it is called, and what it is."""

    key: Callable[[Any], Hashable]
    subject: Callable[[Any], str]
    says: Callable[[Any], str]


_IDENTITIES = {
    "terminations": _Identity(
        key=lambda row: (row.terminal, row.number),
        subject=lambda row: f"{row.terminal} wire {row.number}",
        says=lambda row: f"{row.colour}, to {row.other_enclosure} {row.other_terminal}",
    ),
    "conductors": _Identity(
        key=lambda row: row.number,
        subject=lambda row: f"wire {row.number}",
        says=lambda row: f"{row.cable}, {row.from_terminal} to {row.to_terminal}",
    ),
    "cables": _Identity(
        key=lambda row: row.cable,
        subject=lambda row: row.cable,
        says=lambda row: row.name,
    ),
    "circuits": _Identity(
        key=lambda row: row.circuit,
        subject=lambda row: row.circuit,
        says=lambda row: f"{row.name}, {row.breaker}",
    ),
    "raceways": _Identity(
        key=lambda row: row.raceway,
        subject=lambda row: row.raceway,
        says=lambda row: f"{row.kind} {row.size} for {row.cables}",
    ),
    "openings": _Identity(
        key=lambda row: (row.opening, row.cable),
        subject=lambda row: f"{row.opening} for {row.cable}",
        says=lambda row: f"{row.size} in {row.enclosure}",
    ),
}


def compare(before: Plan, after: Plan, *, interlocks: bool = False) -> Comparison:
    """Compare two plans, of one job or of two: a pure function of their rows and findings.

    interlocks: compare what each cause does, too, for which every state of both is solved.
    """
    changes = {name: _changes(before, after, name, identity) for name, identity in _IDENTITIES.items()}
    return Comparison(
        findings=tuple(_finding_changes(before.findings, after.findings)),
        interlocks=tuple(_interlock_changes(before, after)) if interlocks else (),
        **changes,
    )


def _changes(before: Plan, after: Plan, name: str, identity: _Identity) -> tuple[Change, ...]:
    old, new = SCHEDULES[name](before), SCHEDULES[name](after)
    was = {identity.key(row): row for row in old.rows}
    now = {identity.key(row): row for row in new.rows}
    changes = [
        Change(Kind.REMOVED, identity.subject(row), identity.says(row))
        for key, row in was.items()
        if key not in now
    ]
    for key, row in now.items():
        if key not in was:
            changes.append(Change(Kind.ADDED, identity.subject(row), identity.says(row)))
        elif differences := tuple(_differences(new, was[key], row)):
            changes.append(Change(Kind.ALTERED, identity.subject(row), identity.says(row), differences))
    return tuple(changes)


def _differences(schedule: Schedule[RowT], was: RowT, now: RowT) -> Iterator[Difference]:
    for column in schedule.columns:
        before, after = column.cell(was), column.cell(now)
        if before != after:
            yield Difference(column.head.lower(), before, after)


def _interlock_changes(before: Plan, after: Plan) -> Iterator[Change]:
    """Effects and causes that only one plan has; of the others what a cause does otherwise, effect by effect."""
    (was_effects, was), (now_effects, now) = _matrix(before), _matrix(after)
    for name in was_effects:
        if name not in now_effects:
            yield Change(Kind.REMOVED, name, "can't happen any more")
    for name in now_effects:
        if name not in was_effects:
            yield Change(Kind.ADDED, name, "can happen now")
    both = [name for name in now_effects if name in was_effects]
    for cause, (name, does) in was.items():
        if cause not in now:
            yield Change(Kind.REMOVED, f"“{name}”", _told(does))
    for cause, (name, does) in now.items():
        if cause not in was:
            yield Change(Kind.ADDED, f"“{name}”", _told(does))
            continue
        pairs = ((effect, was[cause][1][effect], does[effect]) for effect in both)
        differences = tuple(Difference(effect, old, new) for effect, old, new in pairs if old != new)
        if differences:
            yield Change(Kind.ALTERED, f"“{name}”", _told(does), differences)


def _matrix(plan: Plan) -> tuple[tuple[str, ...], dict[str, tuple[str, dict[str, str]]]]:
    """The effects' names; of each cause its name and what it does to each of them."""
    schedule: Schedule[InterlockRow] = interlocks_of(plan)
    heads = {column.key: column.head for column in schedule.columns}
    names = tuple(heads[key] for key in (schedule.rows[0].effects if schedule.rows else ()))
    return names, {row.cause: (row.name, dict(zip(names, row.does, strict=True))) for row in schedule.rows}


def _told(does: dict[str, str]) -> str:
    """What is on with a cause: all else is off, or as a call has it."""
    return f"on: {', '.join(name for name, sign in does.items() if sign == 'on') or 'nothing'}"


def _finding_changes(before: tuple[Finding, ...], after: tuple[Finding, ...]) -> Iterator[Change]:
    was, now = _by_identity(before), _by_identity(after)
    for key, finding in was.items():
        if key not in now:
            yield Change(Kind.REMOVED, finding.subject, f"{finding.severity}, {finding.says}")
    for key, finding in now.items():
        if key not in was:
            yield Change(Kind.ADDED, finding.subject, f"{finding.severity}, {finding.says}")
        elif differences := tuple(_finding_differences(was[key], finding)):
            yield Change(Kind.ALTERED, finding.subject, finding.says, differences)


def _finding_differences(was: Finding, now: Finding) -> Iterator[Difference]:
    if (was.severity, was.says) != (now.severity, now.says):
        yield Difference(str(now.severity), was.says, now.says)
    if was.acknowledgement != now.acknowledgement:
        yield Difference("answer", str(was.acknowledgement or "open"), str(now.acknowledgement or "open"))


def _by_identity(findings: tuple[Finding, ...]) -> dict[tuple[str, str, int], Finding]:
    """Give each finding its name; a check that speaks twice of one thing is told apart by the order."""
    named: dict[tuple[str, str, int], Finding] = {}
    for finding in findings:
        again = sum(1 for code, subject, _ in named if (code, subject) == (finding.code, finding.subject))
        named[finding.code, finding.subject, again] = finding
    return named
