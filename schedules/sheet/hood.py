"""Sheet tables of the hood as a thing that hangs, moves air and shuts gas: body, bracket, fan curve, gas valve."""

from __future__ import annotations

import itertools
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from schedules.files.condition import ALWAYS, Condition
from schedules.files.records import (
    Airflow,
    AirflowOrNone,
    Allowance,
    Coordinate,
    Length,
    Line,
    Mass,
    PressureOrNone,
    Record,
    Slug,
    Tag,
    refuse,
)

_LEAST_POINTS = 3

Loss = Annotated[float, Field(ge=0, le=20)]
"""A loss coefficient: how many velocity pressures it costs."""


class BracketHole(Record):
    """A hole of the bracket: across from the hood's centre line, left negative; up from its underside [in]."""

    across: Coordinate
    up: Allowance


class Bracket(Record):
    """How the hood hangs on the wall.

    thickness: of its plate [in]. steel: sheet (`a653`) or plate (`a36`). bears: where hood or bracket bears on the wall
    below the holes, up from the hood's underside [in].
    """

    thickness: Length
    steel: Literal["a653", "a36"]
    bears: Allowance
    hole: tuple[BracketHole, ...]

    @model_validator(mode="after")
    def _above_the_bearing(self) -> Self:
        if not self.hole or min(hole.up for hole in self.hole) < self.bears or self._highest <= self.bears:
            raise refuse("holes above the place where it bears on the wall, none below")
        return self

    @property
    def _highest(self) -> float:
        return max(hole.up for hole in self.hole)


class Collar(Record):
    """A duct collar: diameter, or width and height [in]."""

    diameter: Length | None = None
    width: Length | None = None
    height: Length | None = None

    @model_validator(mode="after")
    def _round_or_flat(self) -> Self:
        flat = self.width is not None and self.height is not None
        if (self.diameter is not None) == flat or (self.width is None) != (self.height is None):
            raise refuse("either diameter, or width and height")
        return self


class Hood(Record):
    """The hood's body and how it hangs.

    enclosure: the hood's tag among the sheet's enclosures. weight_out: how far its centre of gravity lies from the
    wall [in]. lowest, highest: its underside above the cooking surface [in], where the maker says. chimney_shortest,
    chimney_longest: what the chimney covers above the hood [in]. lowered, drawn_out: how far it comes for service [in].
    service_clear: what must stay above the cooking surface then [in].
    """

    enclosure: Tag | None = None
    width: Length
    height: Length
    depth: Length
    weight: Mass
    weight_out: Length
    lowest: Length | None = None
    highest: Length | None = None
    chimney_shortest: Allowance | None = None
    chimney_longest: Length | None = None
    lowered: Allowance = 0.0
    drawn_out: Allowance = 0.0
    service_clear: Allowance | None = None
    bracket: Bracket
    collar: Collar


class FanPoint(Record):
    """One point of a fan's curve in standard air."""

    airflow: AirflowOrNone
    pressure: PressureOrNone


class Fan(Record):
    """A fan that the maker supplies.

    pressure: whether the curve is fan `static` or `total` pressure. outlet: where it blows into the duct; without it
    the hood's collar. hood_loss: what filters and hood cost, in velocity pressures of the collar, where the curve
    doesn't count them. longest_duct: the maker's own limit, straight and fittings as he counts them [in].
    """

    id: Slug
    name: Line
    place: Literal["hood", "inline"]
    pressure: Literal["static", "total"]
    outlet: Collar | None = None
    hood_loss: Loss | None = None
    longest_duct: Length | None = None
    rated: Airflow
    point: tuple[FanPoint, ...]
    when: Condition = ALWAYS

    @model_validator(mode="after")
    def _rises(self) -> Self:
        flows = [point.airflow for point in self.point]
        if len(flows) < _LEAST_POINTS or any(after <= before for before, after in itertools.pairwise(flows)):
            raise refuse("three or more points, their airflows rising")
        return self


class GasValve(Record):
    """The valve that the fire shutoff closes. cv: its flow coefficient. normally: where it stands without power."""

    id: Slug
    name: Line
    size: Literal["1/2", "3/4", "1"]
    cv: Annotated[float, Field(gt=0)]
    normally: Literal["open", "closed"]
    reset: Literal["manual", "automatic"]
    when: Condition = ALWAYS
