"""Job tables of the kitchen itself: walls in order, cabinets, what is taken of a wall, how ways are chosen."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from schedules.files.records import Allowance, Coordinate, Length, Line, Record, Tag, refuse
from schedules.job.building import Lumber

Barred = Literal["devices", "cables"]
KeepOutKind = Literal["window", "door", "duct", "flue", "gas", "plumbing", "finish", "other"]


LEAST_SPACING_IN = 4.0
"""Studs nearer to one another than this are one built-up post, not a row to count along a wall (own choice)."""


def _spaced(spacing_in: float) -> float:
    if spacing_in < LEAST_SPACING_IN:
        raise refuse(f"{LEAST_SPACING_IN:g} in or more, from one stud's centre to the next one's")
    return spacing_in


class Wall(Record):
    """One wall of the kitchen, or an open side of it. Each stands to the right of the one before it, seen from inside.

    length: from corner to corner, finished [in]. corner: at its right end the next wall turns towards the room
    (`inside`) or away from it (`outside`). open: no wall stands there. lumber: its studs. spacing: of the studs,
    centre to centre [in]. first_stud: centre of the first one, from the left corner [in]. bearing: it is exterior or
    bears.
    """

    tag: Tag
    length: Length
    corner: Literal["inside", "outside"] = "inside"
    open: bool = False
    lumber: Lumber | None = None
    spacing: Annotated[Length, AfterValidator(_spaced)] | None = None
    first_stud: Allowance | None = None
    bearing: bool | None = None


class Cabinet(Record):
    """A cabinet on a wall: left edge from the wall's left corner, bottom from the floor [in].

    wall: without it the range wall. carries: cables may run through it.
    """

    tag: Tag
    wall: Tag | None = None
    left: Coordinate
    width: Length
    bottom: Allowance
    height: Length
    depth: Length
    carries: bool = True


class KeepOut(Record):
    """A part of a wall that is taken: left edge from the wall's left corner, bottom from the floor [in].

    wall: without it the range wall. bars: what may not be there, both where nothing is said.
    """

    tag: Tag
    kind: KeepOutKind
    wall: Tag | None = None
    left: Coordinate
    width: Length
    bottom: Allowance
    height: Length
    bars: Annotated[tuple[Barred, ...], Field(min_length=1)] = ("devices", "cables")


class CookingRange(Record):
    """The range or cooktop under the hood: its centre along the range wall, its width and depth [in].

    None where it is not known yet.
    """

    centre: Coordinate | None = None
    width: Length | None = None
    depth: Length | None = None


class Stock(Record):
    """A length in which something is bought: cable or a conductor by its type, raceway by kind and trade size.

    length: of one coil, reel or stick [in].
    """

    tag: Tag
    item: Line
    length: Length


class Routing(Record):
    """How ways are chosen where several are allowed: the shortest, each of these counted as so much more length.

    wiring: in the wall, through holes in its studs, or on its surface. per_corner, per_stud, per_plate: for each bend
    of the way, each stud and each plate that is bored [in].
    """

    wiring: Literal["in the wall", "on the surface"] = "in the wall"
    per_corner: Allowance = 0.0
    per_stud: Allowance = 0.0
    per_plate: Allowance = 0.0
