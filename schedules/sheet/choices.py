"""Sheet tables that say what may be bought: option groups, choices, the rules between them, parts."""

from __future__ import annotations

from typing import Literal

from schedules.files.condition import ALWAYS, Condition
from schedules.files.records import Line, Paragraph, Record, Slug


class Requirement(Record):
    """A choice needs one of these others."""

    any: tuple[Slug, ...]
    reason: Line


class Exclusion(Record):
    """A choice can't stand beside this other one."""

    choice: Slug
    reason: Line


Brings = Literal["gas", "make-up air", "inline fan", "alarm", "pull station"]
"""What a choice brings that some trade must do."""


class Choice(Record):
    """One thing that can be bought. brings: what some trade must do because of it."""

    id: Slug
    title: Line
    note: Paragraph | None = None
    brings: tuple[Brings, ...] = ()
    requires: tuple[Requirement, ...] = ()
    excludes: tuple[Exclusion, ...] = ()


class Group(Record):
    """One question about what was bought.

    pick: `one` for exactly one choice, `some` for one or more, `any` for none to all of them.
    """

    id: Slug
    title: Line
    why: Paragraph
    pick: Literal["one", "some", "any"]
    choice: tuple[Choice, ...]


class Part(Record):
    """One thing that the delivery must contain."""

    id: Slug
    name: Line
    quantity: int = 1
    carton: Line | None = None
    when: Condition = ALWAYS
