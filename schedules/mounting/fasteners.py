"""What one lag screw or wood screw holds in a stud or block: pull-out, shear, both at once."""

from __future__ import annotations

import math
from dataclasses import dataclass

from schedules.answers import reaches, resting_on, rule_input
from schedules.mounting.yield_modes import Bearing, Dowel, Lateral, lateral_value, wood_bearing_strength
from schedules.tables import load, rule
from schedules.working import Confidence, Input, Source, Working

_FASTENERS = "nds_fasteners"
_THREADS = "nds_lag_thread_length"
_GRAVITIES = "nds_specific_gravity"
_DURATIONS = "nds_load_duration"
_RULES = "nds_rules"


@dataclass(frozen=True, slots=True)
class Fastener:
    """A lag screw or cut-thread wood screw by its name: diameters, length, thread with tip, tip [in], Fyb [psi]."""

    name: str
    kind: str
    length_in: float
    diameter_in: float
    root_in: float
    thread_in: float
    tip_in: float
    bending_yield_psi: float
    source: Source

    @property
    def dowel(self) -> Dowel:
        """The fastener as the yield modes see it."""
        return Dowel(self.diameter_in, self.root_in, self.bending_yield_psi)


@dataclass(frozen=True, slots=True)
class Wood:
    """The wood that is fastened to: specific gravity, its depth in the fastener's direction [in], grain to load."""

    species: str
    specific_gravity: float
    depth_in: float
    load_across_grain: bool
    source: Source


@dataclass(frozen=True, slots=True)
class Grip:
    """How far a fastener reaches into the wood [in]: embedded with tip, less its tip, threaded less its tip.

    enough: whether that is the least penetration of the code.
    """

    embedded_in: float
    penetration_in: float
    thread_in: float
    least_in: float
    enough: bool
    working: Working


@dataclass(frozen=True, slots=True)
class Withdrawal:
    """Reference withdrawal value per inch of thread [lb/in]."""

    lb_per_in: float
    working: Working


@dataclass(frozen=True, slots=True)
class Held:
    """What one fastener holds with every adjustment [lb]: straight out, and along the wall."""

    pull_lb: float
    shear_lb: float
    grip: Grip
    lateral: Lateral | None
    working: Working


def fastener_names(edition: str) -> tuple[str, ...]:
    """Every fastener carried, e.g. `lag 5/16`. Raises LookupError for an unknown edition."""
    table = load(_FASTENERS)
    table.citation(edition)
    return tuple(row.text("fastener") for row in table.rows)


def fastener(name: str, length_in: float, edition: str) -> Fastener:
    """A fastener by name and length [in].

    Raises LookupError for an unknown name or edition, and for a lag length that the table of threads doesn't list.
    """
    table = load(_FASTENERS)
    row = table.row(name)
    kind = row.text("kind")
    if kind == "lag":
        threads = load(_THREADS)
        found = threads.row(length_in)
        thread, thread_source = found.number("thread_in"), threads.source(found, edition=edition)
    else:
        share = rule("wood_screw_thread", edition, _RULES)
        thread, thread_source = length_in * share.number / 100, share.source
    source = table.source(row, edition=edition)
    return Fastener(
        name=name,
        kind=kind,
        length_in=length_in,
        diameter_in=row.number("diameter_in"),
        root_in=row.number("root_in"),
        thread_in=thread,
        tip_in=row.number("tip_in"),
        bending_yield_psi=row.number("bending_yield_psi"),
        source=resting_on(source.citation, source, thread_source),
    )


def wood(species: str, *, depth_in: float, load_across_grain: bool, edition: str) -> Wood:
    """Framing lumber by species, e.g. `spruce-pine-fir`, and its depth under the fastener [in].

    Raises LookupError for a species or edition not carried.
    """
    table = load(_GRAVITIES)
    row = table.row(species)
    gravity = row.number("specific_gravity")
    return Wood(row.text("name"), gravity, depth_in, load_across_grain, table.source(row, edition=edition))


def weakest_species(edition: str) -> str:
    """The lightest species carried: what an unknown stud is taken as. Raises LookupError for an edition."""
    table = load(_GRAVITIES)
    table.citation(edition)
    return min(table.rows, key=lambda row: row.number("specific_gravity")).text("species")


def withdrawal_value(kind: str, diameter_in: float, specific_gravity: float, edition: str) -> Withdrawal:
    """Reference withdrawal value [lb per in of thread], side grain, NDS 12.2.1 (lag) or 12.2.2 (wood screw).

    Raises ValueError for another kind or a figure that is not above zero, LookupError for an unknown edition.
    """
    if diameter_in <= 0 or specific_gravity <= 0:
        raise ValueError(
            f"diameter and specific gravity above 0, not {diameter_in:g} and {specific_gravity:g}"
        )
    load(_FASTENERS).citation(edition)
    if kind == "lag":
        value = 1800 * specific_gravity**1.5 * diameter_in**0.75
        formula, section = "1800 · G^1.5 · D^0.75", "12.2.1"
    elif kind == "wood screw":
        value = 2850 * specific_gravity**2 * diameter_in
        formula, section = "2850 · G² · D", "12.2.2"
    else:
        raise ValueError(f"a lag or a wood screw, not {kind!r}")
    return Withdrawal(
        value,
        Working(
            name=f"withdrawal value of a {kind}",
            formula=formula,
            inputs=(
                Input("diameter", f"{diameter_in:g} in"),
                Input("specific gravity", f"{specific_gravity:g}"),
            ),
            result=f"{value:.1f} lb per inch of thread",
            source=Source(f"NDS {edition} {section}", Confidence.TWO_TEXTS),
            note="side grain; the tip doesn't count",
        ),
    )


def grip(screw: Fastener, wood_depth_in: float, *, plate_in: float, gap_in: float, edition: str) -> Grip:
    """How far a fastener reaches into wood of this depth [in] behind a plate and a gap such as drywall [in].

    Raises ValueError for negative thicknesses, LookupError for an unknown edition.
    """
    if plate_in < 0 or gap_in < 0 or wood_depth_in <= 0:
        raise ValueError(
            f"plate and gap 0 or more, wood above 0; found {plate_in:g}, {gap_in:g}, {wood_depth_in:g}"
        )
    lag = screw.kind == "lag"
    past_face = max(0.0, screw.length_in - plate_in - gap_in)
    # Where the point comes out at the back, all the wood is held by full thread.
    embedded = min(past_face, wood_depth_in + screw.tip_in)
    penetration = min(max(0.0, past_face - screw.tip_in), wood_depth_in)
    thread = min(max(0.0, screw.thread_in - screw.tip_in), penetration)
    times = rule("lag_penetration" if lag else "wood_screw_penetration", edition, _RULES)
    least = times.number * screw.diameter_in
    counted = penetration if lag else embedded
    enough = reaches(counted, least)
    return Grip(
        embedded,
        penetration,
        thread,
        least,
        enough,
        Working(
            name=f"grip of {screw.name} x {screw.length_in:g} in",
            formula="length less plate and gap, less the tip; thread less the tip, as far as it is in the wood",
            inputs=(
                Input("length", f"{screw.length_in:g} in"),
                Input("plate and gap", f"{plate_in:g} + {gap_in:g} in"),
                Input("tip", f"{screw.tip_in:.3f} in", str(screw.source)),
                Input("thread with tip", f"{screw.thread_in:.2f} in", str(screw.source)),
                Input("wood", f"{wood_depth_in:g} in deep"),
                rule_input(times),
            ),
            result=f"{penetration:.2f} in, of it {thread:.2f} in thread; at least {least:.2f} in asked"
            + ("" if enough else ": too short"),
            source=resting_on(times.source.citation, times.source, screw.source),
        ),
    )


def lead_hole(diameter_in: float, edition: str) -> tuple[float, float]:
    """Least and greatest lead hole for a lag screw's thread in framing lumber [in], NDS 12.1.4.2, from memory.

    Raises ValueError for a diameter that is not above zero, LookupError for an unknown edition.
    """
    if diameter_in <= 0:
        raise ValueError(f"a diameter is above 0, not {diameter_in:g} in")
    least, most = rule("lead_hole", edition, _RULES).numbers
    return least / 100 * diameter_in, most / 100 * diameter_in


def held(
    screw: Fastener,
    timber: Wood,
    *,
    plate_in: float,
    plate_steel: str,
    gap_in: float,
    duration: str,
    edition: str,
) -> Held:
    """What one fastener holds [lb] through a steel plate and a gap, dry wood at room temperature.

    plate_steel: `a653` (sheet) or `a36` (plate). duration: a row of NDS table 2.3.2, such as `permanent`.
    Too short a fastener holds nothing. Raises LookupError for an unknown name or edition, ValueError for negative
    thicknesses.
    """
    reach = grip(screw, timber.depth_in, plate_in=plate_in, gap_in=gap_in, edition=edition)
    durations = load(_DURATIONS)
    row = durations.row(duration)
    factor, factor_source = row.number("factor"), durations.source(row, edition=edition)
    out = withdrawal_value(screw.kind, screw.diameter_in, timber.specific_gravity, edition)
    steel = rule(f"steel_bearing_{plate_steel}", edition, _RULES)
    lateral = None
    if reach.enough:
        fe = wood_bearing_strength(
            screw.diameter_in, timber.specific_gravity, across_grain=timber.load_across_grain
        )
        lateral = lateral_value(
            screw.dowel,
            Bearing(min(reach.embedded_in - screw.tip_in / 2, timber.depth_in), fe),
            Bearing(plate_in, steel.number),
            gap_in=gap_in,
            grain_angle_deg=90.0 if timber.load_across_grain else 0.0,
        )
    pull = out.lb_per_in * reach.thread_in * factor if reach.enough else 0.0
    shear = lateral.value_lb * factor if lateral is not None else 0.0
    steps = (reach.working, out.working) + ((lateral.working,) if lateral is not None else ())
    return Held(
        pull,
        shear,
        reach,
        lateral,
        Working(
            name=f"what one {screw.name} x {screw.length_in:g} in holds in {timber.species.lower()}",
            formula="pull-out = withdrawal value x thread x load duration; shear = lateral value x load duration",
            inputs=(
                Input("specific gravity", f"{timber.specific_gravity:g}", str(timber.source)),
                Input("load duration", f"{factor:g}, {duration}", str(factor_source)),
                Input("steel bearing", f"{steel.number:g} psi", str(steel.source)),
            ),
            result=f"{pull:.0f} lb out of the wood, {shear:.0f} lb along the wall",
            source=resting_on(
                f"NDS {edition} 12.2, 12.3",
                screw.source,
                timber.source,
                factor_source,
                steel.source,
                *(step.source for step in steps),
            ),
            steps=steps,
        ),
    )


def combined_value(pull_lb: float, shear_lb: float, *, pull_load_lb: float, shear_load_lb: float) -> float:
    """What a fastener holds at the angle of its load [lb], NDS 12.4.1, from memory.

    pull_lb, shear_lb: adjusted values straight out and along the wall; the loads give the angle. Raises ValueError
    where nothing loads it or a figure is negative.
    """
    if min(pull_lb, shear_lb, pull_load_lb, shear_load_lb) < 0 or pull_load_lb + shear_load_lb == 0:
        raise ValueError("values and loads 0 or more, and some load")
    if pull_lb == 0 or shear_lb == 0:
        return 0.0
    angle = math.atan2(pull_load_lb, shear_load_lb)
    return pull_lb * shear_lb / (pull_lb * math.cos(angle) ** 2 + shear_lb * math.sin(angle) ** 2)
