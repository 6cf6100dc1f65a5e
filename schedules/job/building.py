"""Job tables of what the building gives the wiring: boxes set on site, framing that is bored or notched."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import StringConstraints

from schedules.files.records import Length, Record, Tag, Volume

Lumber = Annotated[str, StringConstraints(pattern=r"^[1-9]x[1-9][0-9]?$")]
"""Nominal size of dressed lumber: `2x4`."""


class Box(Record):
    """A box set on site in place of the sheet's: its marked volume with rings and covers [cu in], clamps inside."""

    enclosure: Tag
    volume: Volume
    internal_clamps: bool | None = None


class Framing(Record):
    """One kind of wood member that a raceway or cable passes.

    way: through a hole or notch in it, along it, in a furred space before it, or on the surface. bearing: the wall is
    exterior or bears. doubled: two studs side by side. engineered: not solid lumber. hole: diameter as bored [in].
    notch: depth as cut [in]. edge: wood left between the hole and the nearest edge; along a member: from the wiring to
    that edge [in]. at_end: the notch is at a joist's end. furring: depth of the furred space [in]. steel_plate, tie:
    planned or fitted.
    """

    tag: Tag
    raceway: Tag | None = None
    cable: Tag | None = None
    member: Literal["stud", "plate", "joist"]
    lumber: Lumber
    way: Literal["through", "along", "furred", "surface"] = "through"
    bearing: bool | None = None
    doubled: bool = False
    engineered: bool = False
    hole: Length | None = None
    notch: Length | None = None
    at_end: bool = False
    edge: Length | None = None
    furring: Length | None = None
    steel_plate: bool = False
    tie: bool = False
