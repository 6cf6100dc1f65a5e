"""One kitchen's bracket: which of its holes meet wood, and what its fasteners hold there."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.mounting.bracket_load import Anchor, Use, bracket_use
from schedules.mounting.fasteners import Fastener, Held, fastener, held, lead_hole, weakest_species, wood
from schedules.mounting.stud_hits import Aim, Blocking, Hit, HoleHit, aim_tolerance, blocking, hole_hits
from schedules.practice import practice
from schedules.site.lumber import Lumber, lumber

if TYPE_CHECKING:
    from schedules.job.records import Job
    from schedules.sheet.hood import Hood
    from schedules.site.room import Room

NDS = "2018"
"""The edition of the wood code that is carried."""


@dataclass(frozen=True, slots=True)
class Hole:
    """One hole of the bracket: up from the floor [in], what it meets, and what a fastener holds there, if anything."""

    hit: HoleHit
    up_in: float
    in_block: bool
    held: Held | None


@dataclass(frozen=True, slots=True)
class Fastening:
    """How the bracket is held.

    unusable: why no fastener can be reckoned with, in words. blockless: why no block takes the holes that miss.
    species_known: False where the lightest wood stands in.
    use, service_use: share of what the fasteners hold at the weight, and at the service load. lead_hole: least and
    greatest diameter to drill [in], None where the fastener isn't known.
    """

    aim: Aim | None
    lead_hole_in: tuple[float, float] | None
    holes: tuple[Hole, ...]
    blocks: tuple[Blocking, ...]
    species_known: bool
    use: Use | None
    service_use: Use | None
    unusable: str
    blockless: str = ""


@dataclass(frozen=True, slots=True)
class Studs:
    """The studs behind the hood: their size, and the centre of each along the wall [in], both of a pair."""

    size: Lumber
    centres_in: tuple[float, ...]


def studs_behind(job: Job, room: Room | None) -> Studs | None:
    """The range wall's studs; without a measured wall those that were found one by one. None where none are known.

    Raises LookupError for a lumber size not carried.
    """
    name = (room.main.lumber if room is not None else None) or job.mounting.stud_size
    if name is None:
        return None
    size = lumber(name)
    if room is not None:
        lines = [(stud.centre_in, stud.doubled) for stud in room.main.studs]
    else:
        lines = [(stud.along, stud.doubled) for stud in job.stud if stud.wall is None]
    # A screw in the joint between the two of a pair holds in neither, so each is aimed at by itself.
    half = size.thickness_in / 2
    centres = [
        centre + shift for centre, doubled in lines for shift in ((-half, half) if doubled else (0.0,))
    ]
    return Studs(size, tuple(sorted(centres))) if centres else None


def fasten(hood: Hood, job: Job, studs: Studs, underside_in: float) -> Fastening | None:
    """Work out how the bracket is held, the hood's underside above the finished floor [in]; None while not known."""
    hung = job.mounting
    if (
        hung.centre is None
        or hung.fastener is None
        or hung.fastener_length is None
        or hung.wall_board is None
    ):
        return None
    known = hung.species is not None
    try:
        screw = fastener(hung.fastener, hung.fastener_length, NDS)
    except LookupError as error:
        return Fastening(None, None, (), (), known, None, None, str(error))
    aim = aim_tolerance(stud_thickness_in=studs.size.thickness_in, diameter_in=screw.diameter_in, edition=NDS)
    hits = hole_hits(
        tuple(hung.centre + hole.across for hole in hood.bracket.hole),
        studs.centres_in,
        stud_thickness_in=studs.size.thickness_in,
        aim_in=aim.off_in,
        tolerance_in=job.site.tolerance,
    )
    rows = [underside_in + hole.up for hole in hood.bracket.hole]
    try:
        blocks, blockless = _blocks(job, hits, studs, rows, screw), ""
    except LookupError as error:
        blocks, blockless = (), str(error)
    holes = _holes(hood, job, _Wood(screw, studs.size, hits, blocks), underside_in)
    use, service_use, unusable = _uses(hood, job, holes)
    drill = lead_hole(screw.diameter_in, NDS)
    return Fastening(aim, drill, holes, blocks, known, use, service_use, unusable, blockless)


def _blocks(
    job: Job, hits: tuple[HoleHit, ...], studs: Studs, rows: list[float], screw: Fastener
) -> tuple[Blocking, ...]:
    """One block for all rows where a piece of lumber is wide enough, else one for each row.

    Raises LookupError where no lumber is wide enough for one row, its height being off by the tolerance.
    """

    def behind(rows_up: tuple[float, ...]) -> tuple[Blocking, ...]:
        return blocking(
            hits,
            studs.centres_in,
            rows_up,
            stud_thickness_in=studs.size.thickness_in,
            diameter_in=screw.diameter_in,
            tolerance_in=job.site.tolerance,
            edition=NDS,
        )

    try:
        return behind(tuple(rows))
    except LookupError:
        return tuple(block for row in sorted(set(rows)) for block in behind((row,)))


@dataclass(frozen=True, slots=True)
class _Wood:
    screw: Fastener
    stud: Lumber
    hits: tuple[HoleHit, ...]
    blocks: tuple[Blocking, ...]


def _holes(hood: Hood, job: Job, behind: _Wood, underside_in: float) -> tuple[Hole, ...]:
    fitted = job.mounting.blocks != "none"
    in_blocks = {along for block in behind.blocks for along in block.holes} if fitted else set[float]()
    used = [
        hole
        for hole, hit in zip(hood.bracket.hole, behind.hits, strict=True)
        if hit.hit is Hit.HOLDS or hit.along_in in in_blocks
    ]
    # A weight beside the middle of several rows pulls sideways too: then the lower value across the grain counts.
    rows = {hole.up for hole in used}
    skewed = len(rows) > 1 and abs(sum(hole.across for hole in used) / len(used)) > job.site.tolerance
    holes = []
    for hole, hit in zip(hood.bracket.hole, behind.hits, strict=True):
        in_block = hit.along_in in in_blocks
        found = None
        if in_block or hit.hit is Hit.HOLDS:
            # A block lies flat: only its thickness is behind the screw, its grain along the wall.
            depth = behind.stud.thickness_in if in_block else behind.stud.depth_in
            found = _one(hood, job, behind.screw, depth, across=in_block or skewed)
        holes.append(Hole(hit, underside_in + hole.up, in_block, found))
    return tuple(holes)


def _one(hood: Hood, job: Job, screw: Fastener, depth_in: float, *, across: bool) -> Held:
    return held(
        screw,
        wood(
            job.mounting.species or weakest_species(NDS),
            depth_in=depth_in,
            load_across_grain=across,
            edition=NDS,
        ),
        plate_in=hood.bracket.thickness,
        plate_steel=hood.bracket.steel,
        gap_in=job.mounting.wall_board or 0.0,
        duration="permanent",
        edition=NDS,
    )


def _uses(hood: Hood, job: Job, holes: tuple[Hole, ...]) -> tuple[Use | None, Use | None, str]:
    fastened = tuple(
        (Anchor(hole.across, hole.up - hood.bracket.bears), found.held)
        for hole, found in zip(hood.bracket.hole, holes, strict=True)
        if found.held is not None
    )
    if not fastened:
        return None, None, "no hole of the bracket meets wood"
    factor = job.mounting.service_load or practice("service_load_factor").number
    try:
        once = bracket_use(hood.weight, hood.weight_out, fastened)
        return once, bracket_use(hood.weight, hood.weight_out, fastened, load_factor=factor), ""
    except ValueError as error:
        return None, None, str(error)
