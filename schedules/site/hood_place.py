"""Where the hood hangs on the range wall, and what it sweeps when it is lowered or drawn out for service."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.site.zones import Zone

if TYPE_CHECKING:
    from schedules.job.records import Job
    from schedules.sheet.sheet import Sheet


@dataclass(frozen=True, slots=True)
class HungHood:
    """The hood on the range wall [in].

    body: what it covers of the wall; service: the same with its way down. depth_in, reach_in: out from the wall, in
    place and drawn out. holes: of its bracket, along and up. enclosure: its tag, None where the sheet doesn't say.
    """

    enclosure: str | None
    centre_in: float
    cooking_surface_in: float
    body: Zone
    service: Zone
    depth_in: float
    reach_in: float
    holes: tuple[tuple[float, float], ...]

    @property
    def underside_in(self) -> float:
        """Height of its underside above the floor [in]."""
        return self.body.bottom


def hung_hood(sheet: Sheet, job: Job) -> HungHood | None:
    """The hood where the job hangs it; None while body, centre, cooking surface or clearance are not known."""
    hood, hung = sheet.hood, job.mounting
    if hood is None or hung.centre is None or hung.cooking_surface is None or hung.clearance is None:
        return None
    underside = hung.cooking_surface + hung.clearance
    left, right = hung.centre - hood.width / 2, hung.centre + hood.width / 2
    top = underside + hood.height
    return HungHood(
        enclosure=hood.enclosure,
        centre_in=hung.centre,
        cooking_surface_in=hung.cooking_surface,
        body=Zone(left, right, underside, top),
        service=Zone(left, right, underside - hood.lowered, top),
        depth_in=hood.depth,
        reach_in=hood.depth + hood.drawn_out,
        holes=tuple((hung.centre + hole.across, underside + hole.up) for hole in hood.bracket.hole),
    )
