r"""Does a connector, pulled by its cable, pass this opening, this bore, this bend?

A plug is a rigid body: a cylinder of diameter d and length l. For a rectangular plug d is its diagonal; its
thickness is no safe measure, a plug may satisfy the formula by its thickness and not even enter the bore.
Latch, boot and stiff strain relief count in l.

In a bend with centreline radius R and bore D the plug lies in the ring between the walls R - D/2 and
R + D/2. It is best off with the middle of its inner side touching the inner wall; then, seen from the bend's
centre, its outer side is R - D/2 + d away and its outer corners, half a length further along, are

    sqrt((l/2)^2 + (R - D/2 + d)^2)

away. They must not be beyond the outer wall:

    (l/2)^2 + (R - D/2 + d)^2 <= (R + D/2)^2

The right side less the square on the left is (D - d)(2R + d), so the same condition reads

    D >= d + l^2 / (4 (2R + d))

The right side is the width that the plug sweeps in the bend, `swept_diameter`: it is what a straight bore
would have to offer. It takes the place of d where cables already lie in the bend. There the plug may have to
run nearer to the inner wall than the centreline; that changes the second term by a few percent of itself.

The ring is the plane through the bend; against a whole torus, sampled, a cylinder is held by the same corner.
No published formula was found to compare with. An allowance for couplings, burrs and a plug that isn't held
straight is taken off the bore.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from schedules.answers import reaches
from schedules.working import Confidence, Input, Source, Working

ALLOWANCE_IN = 0.05
"""Taken off every bore and opening for couplings, burrs and a plug that isn't held straight [in]; ours."""

DERIVED_HERE = Source("geometry of a rigid plug in a bore", Confidence.DERIVED)


@dataclass(frozen=True, slots=True)
class Plug:
    """A connector as a rigid body [in]: diameter, or a rectangle's diagonal; length with latch, boot, strain relief."""

    name: str
    across_in: float
    length_in: float

    def __post_init__(self) -> None:
        if not (0 < self.across_in < math.inf and 0 < self.length_in < math.inf):
            raise ValueError(
                f"{self.name}: a plug's sizes must be above 0 in: {self.across_in}, {self.length_in}"
            )


@dataclass(frozen=True, slots=True)
class Passage:
    """One rigid body at one place: width that it needs and width that is clear [in]."""

    where: str
    needed_in: float
    clear_in: float
    working: Working

    @property
    def spare_in(self) -> float:
        """Clear width left over [in]; negative where it doesn't pass."""
        return self.clear_in - self.needed_in

    @property
    def passes(self) -> bool:
        """Whether the body passes here."""
        return reaches(self.clear_in, self.needed_in)


def round_plug(name: str, diameter_in: float, rigid_length_in: float) -> Plug:
    """A round connector [in]. Raises ValueError for a size that is not above zero."""
    return Plug(name, diameter_in, rigid_length_in)


def rectangular_plug(name: str, width_in: float, height_in: float, rigid_length_in: float) -> Plug:
    """A rectangular connector [in], latch included in its height. Raises ValueError for a size not above zero."""
    if width_in <= 0 or height_in <= 0:
        raise ValueError(f"{name}: a plug's sizes must be above 0 in: {width_in}, {height_in}")
    return Plug(name, math.hypot(width_in, height_in), rigid_length_in)


def swept_diameter(plug: Plug, radius_in: float | None) -> float:
    """Width that a plug takes up [in] in a bend of this centreline radius [in], None for a straight bore."""
    if radius_in is None:
        return plug.across_in
    if radius_in <= 0:
        raise ValueError(f"a bend's radius must be above 0 in, not {radius_in:g}")
    return plug.across_in + plug.length_in**2 / (4 * (2 * radius_in + plug.across_in))


def longest_in_bend(bore_in: float, radius_in: float, across_in: float) -> float:
    """Length [in] of the longest plug of this width [in] that goes round a bend, nothing taken off; 0 for none.

    Raises ValueError for a size that is not above zero.
    """
    if min(bore_in, radius_in, across_in) <= 0:
        raise ValueError(f"sizes must be above 0 in: {bore_in:g}, {radius_in:g}, {across_in:g}")
    room = (radius_in + bore_in / 2) ** 2 - (radius_in - bore_in / 2 + across_in) ** 2
    return 2 * math.sqrt(room) if room > 0 else 0.0


def pass_opening(opening_in: float, plug: Plug, *, where: str = "opening") -> Passage:
    """Whether a plug passes a round opening or a straight bore of this diameter [in].

    Raises ValueError for an opening that is not above zero.
    """
    return _passage(where, opening_in, None, plug)


def pass_bend(bore_in: float, radius_in: float, plug: Plug, *, where: str = "bend") -> Passage:
    """Whether a plug passes a bend of this bore and centreline radius [in].

    Raises ValueError for a size that is not above zero.
    """
    return _passage(where, bore_in, radius_in, plug)


def _passage(where: str, bore_in: float, radius_in: float | None, plug: Plug) -> Passage:
    if bore_in <= 0:
        raise ValueError(f"a bore must be above 0 in, not {bore_in:g}")
    needed = swept_diameter(plug, radius_in)
    clear = bore_in - ALLOWANCE_IN
    inputs = [Input(f"{plug.name} across", f"{plug.across_in:.3f} in")]
    formula = "width of the plug, not above the bore less the allowance"
    if radius_in is not None:
        inputs += [
            Input(f"{plug.name} length", f"{plug.length_in:.3f} in"),
            Input("bend radius", f"{radius_in:g} in"),
        ]
        formula = "d + l^2 / (4 (2R + d)), not above the bore less the allowance"
    inputs += [Input("bore", f"{bore_in:.3f} in"), Input("allowance", f"{ALLOWANCE_IN:g} in", "ours")]
    return Passage(
        where,
        needed,
        clear,
        Working(
            name=f"{plug.name} through {where}",
            formula=formula,
            inputs=tuple(inputs),
            result=f"needs {needed:.3f} in of {clear:.3f} in clear",
            source=DERIVED_HERE,
        ),
    )
