"""What dressed lumber measures, by its nominal size."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.tables import load

if TYPE_CHECKING:
    from schedules.working import Source

_SIZES = "lumber_actual_size"


@dataclass(frozen=True, slots=True)
class Lumber:
    """A dressed piece of lumber: nominal size, actual thickness and depth [in]."""

    size: str
    thickness_in: float
    depth_in: float
    source: Source


def lumber(size: str) -> Lumber:
    """Actual size of dressed lumber, e.g. `2x4`. Raises LookupError for a size not carried."""
    table = load(_SIZES)
    row = table.row(size)
    return Lumber(size, row.number("thickness_in"), row.number("depth_in"), table.source(row))


def lumber_sizes() -> tuple[str, ...]:
    """Every lumber size carried, shallowest first."""
    return tuple(row.text("size") for row in load(_SIZES).rows)
