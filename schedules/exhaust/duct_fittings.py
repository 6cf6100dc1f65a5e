"""The loss coefficient of each elbow, change of size, damper and cap."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from schedules.tables import load
from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from schedules.tables import Table

_BY_DIAMETER = "duct_elbow_by_diameter"
_BY_RADIUS = "duct_elbow_by_radius"
_MITRED = "duct_elbow_mitred"
_MM_PER_IN = 25.4
_FLATWISE_FROM = 3.0
_MAKER = Source("maker's sheet", Confidence.SHEET)


@dataclass(frozen=True, slots=True)
class Coefficient:
    """A loss as a multiple of velocity pressure: C, and the area [sq in] at whose speed it is taken."""

    name: str
    value: float
    area_sq_in: float
    source: Source
    note: str = ""


def elbow_by_diameter(elbow: str, diameter_in: float) -> Coefficient:
    """A round elbow of radius 1.5 D, e.g. `stamped 90`, between the table's diameters along a straight line.

    Above the largest diameter its value stands, since it falls with size; below the smallest none is known. Raises
    LookupError for another elbow or too small a diameter.
    """
    table = load(_BY_DIAMETER)
    found = _between(table, elbow, "diameter_mm", diameter_in * _MM_PER_IN)
    return replace(found, area_sq_in=math.pi / 4 * diameter_in**2)


def elbow_by_radius(elbow: str, radius_ratio: float, area_sq_in: float) -> Coefficient:
    """An elbow by centreline radius over the width that is bent, e.g. `three gores 90`, `smooth 90`.

    Above the largest ratio its value stands; below the smallest none is known. Raises LookupError for another
    elbow or too tight a radius.
    """
    table = load(_BY_RADIUS)
    return replace(_between(table, elbow, "radius_ratio", radius_ratio), area_sq_in=area_sq_in)


def flat_elbow(width_in: float, height_in: float, radius_in: float) -> Coefficient:
    """A smooth rectangular elbow: width_in is bent round, height_in stands along the bend's axis [in].

    Flatwise values hold where height is three times the width or more; otherwise the edgewise ones, which are higher,
    are taken. Raises LookupError for too tight a radius, ValueError for a side that is not above zero.
    """
    if width_in <= 0 or height_in <= 0:
        raise ValueError(f"a duct's sides are above 0, not {width_in:g} and {height_in:g} in")
    flatwise = height_in / width_in >= _FLATWISE_FROM
    name = "flat smooth 90 flatwise" if flatwise else "flat smooth 90 edgewise"
    return elbow_by_radius(name, radius_in / width_in, width_in * height_in)


def mitred_elbow(width_in: float, height_in: float) -> Coefficient:
    """A mitred rectangular elbow without vanes; the nearest flatter row of the table, which is higher, is taken.

    Raises LookupError where height over width is below the table.
    """
    table = load(_MITRED)
    aspect = height_in / width_in
    rows = [row for row in table.rows if row.number("height_over_width") <= aspect]
    if not rows:
        raise LookupError(f"{table.title}: no row for height over width {aspect:.2f}")
    row = rows[-1]
    return Coefficient(
        "mitred elbow",
        row.number("loss_coefficient"),
        width_in * height_in,
        table.source(row, "loss_coefficient"),
    )


def enlargement(area_before_sq_in: float, area_after_sq_in: float) -> Coefficient:
    """A sudden enlargement: (1 − A1/A2)² at the speed before it, Borda–Carnot.

    Raises ValueError where the area after is not larger.
    """
    if not 0 < area_before_sq_in < area_after_sq_in:
        raise ValueError(
            f"the area after is larger, not {area_before_sq_in:g} and {area_after_sq_in:g} sq in"
        )
    return Coefficient(
        "sudden enlargement",
        (1 - area_before_sq_in / area_after_sq_in) ** 2,
        area_before_sq_in,
        Source("Borda–Carnot", Confidence.TWO_TEXTS),
    )


def contraction(area_before_sq_in: float, area_after_sq_in: float) -> Coefficient:
    """A sudden contraction at the speed after it, Rennels' sharp-edged equation.

    Raises ValueError where the area after is not smaller.
    """
    if not 0 < area_after_sq_in < area_before_sq_in:
        raise ValueError(
            f"the area after is smaller, not {area_before_sq_in:g} and {area_after_sq_in:g} sq in"
        )
    beta = math.sqrt(area_after_sq_in / area_before_sq_in)
    jet = 1 + 0.622 * (1 - 0.215 * beta**2 - 0.785 * beta**5)
    value = 0.0696 * (1 - beta**5) * jet**2 + (jet - 1) ** 2
    return Coefficient(
        "sudden reduction",
        value,
        area_after_sq_in,
        Source("Rennels and Hudson, Pipe Flow, sharp-edged contraction", Confidence.MEMORY),
    )


def free_exit(area_sq_in: float) -> Coefficient:
    """The air's own speed, lost where it leaves [sq in]."""
    return Coefficient("exit", 1.0, area_sq_in, Source("definition", Confidence.TWO_TEXTS))


def given_coefficient(name: str, value: float, area_sq_in: float) -> Coefficient:
    """A coefficient from its maker's sheet. Raises ValueError for a negative one."""
    if value < 0:
        raise ValueError(f"a loss coefficient is 0 or more, not {value:g}")
    return Coefficient(name, value, area_sq_in, _MAKER)


def _between(table: Table, name: str, column: str, wanted: float) -> Coefficient:
    """The elbow's coefficient along straight lines between the table's rows, its area still to be set."""
    rows = table.where(elbow=name)
    if not rows:
        known = ", ".join(dict.fromkeys(row.text("elbow") for row in table.rows))
        raise LookupError(f"{table.title}: no elbow {name!r}; there are: {known}")
    places = [row.number(column) for row in rows]
    if wanted < places[0]:
        raise LookupError(f"{table.title}: {name} begins at {places[0]:g}, not {wanted:.3g}")
    after = next((place for place, value in enumerate(places) if value >= wanted), None)
    if after is None:
        row = rows[-1]
        value, note = row.number("loss_coefficient"), "larger than the table; its last value stands"
    elif after == 0:
        row = rows[0]
        value, note = row.number("loss_coefficient"), ""
    else:
        row = rows[after]
        share = (wanted - places[after - 1]) / (places[after] - places[after - 1])
        low, high = rows[after - 1].number("loss_coefficient"), row.number("loss_coefficient")
        value, note = low + share * (high - low), ""
    source = table.source(row, "loss_coefficient")
    return Coefficient(f"elbow, {name}", value, 0.0, source, note)
