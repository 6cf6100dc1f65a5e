"""Does the hood hang at a height both makers allow, does it fit, and does its bracket hold in wood?"""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from schedules.checks.asking import ask
from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.mounting.height import box_room
from schedules.mounting.stud_hits import Hit
from schedules.quantities.lengths import format_length
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.mounting.bracket import Fastening
    from schedules.mounting.hanging import Hanging

_SUBJECT = "hood"
_BRACKET = "bracket"
_SHEET = Source("sheet's body and bracket, site's measurements", Confidence.SHEET)
_STUDS = Source("NDS 2018 edge distance, measured studs", Confidence.MEMORY)


def check_mounting(derived: Derived) -> Iterator[Finding]:
    """Report heights, fits, fasteners, the service position and the lift."""
    yield from _boxes(derived)
    hanging = derived.hanging
    if hanging is None:
        return
    if hanging.missing:
        yield ask(
            "mounting-unknown", _SUBJECT, hanging.missing, given=hanging.given, what="how the hood hangs"
        )
    yield from _height(derived, hanging)
    yield from _fit(derived, hanging)
    if hanging.fastening is not None:
        yield from _fastening(derived, hanging.fastening)
    yield from _service(hanging)
    yield from _lift(derived, hanging)


def _height(derived: Derived, hanging: Hanging) -> Iterator[Finding]:
    clearance = derived.job.mounting.clearance
    if hanging.window is None:
        yield Finding(
            code="hood-height-none",
            severity=Severity.STOP,
            subject=_SUBJECT,
            says=f"no height suits both makers: {hanging.conflict}",
            rule="the hood hangs where the makers of hood and range both allow it",
            source=_SHEET,
            answer=("mounting", None, "range_lowest"),
            remedies=(
                Remedy("no height cures it: another range or hood, or what its maker allows in writing"),
            ),
        )
        return
    window = hanging.window
    if clearance is not None and not window.holds(clearance):
        low, high = window.lowest_in, window.highest_in
        nearest = low if clearance < low else high
        side = f"at least {format_length(low)}" if clearance < low else f"at most {format_length(high)}"
        who = window.lowest_from if clearance < low else window.highest_from
        yield Finding(
            code="hood-height",
            severity=Severity.FIX,
            subject=_SUBJECT,
            says=f"the hood hangs {format_length(clearance)} above the cooking surface, {side} by {who}",
            rule="the hood hangs where the makers of hood and range both allow it",
            source=window.working.source,
            numbers=(
                Input("clearance", format_length(clearance), "job"),
                Input("window", f"{format_length(low)} to {format_length(high)}", who),
            ),
            answer=("mounting", None, "clearance"),
            remedies=(
                Remedy(
                    f"hang it {format_length(nearest)} above the cooking surface",
                    (Edit("mounting", None, "clearance", format_length(nearest)),),
                ),
            ),
        )
    for over in hanging.overhead:
        if over.above_surface_in < over.least.height_in:
            yield Finding(
                code="cabinet-too-low",
                severity=Severity.FIX,
                subject=over.cabinet,
                says=f"cabinet {over.cabinet} is {format_length(over.above_surface_in)} above the cooking surface",
                rule="combustible material keeps its height above the range",
                source=over.least.working.source,
                numbers=(Input("at least", format_length(over.least.height_in), "code"),),
                answer=("cabinet", over.cabinet, "bottom"),
            )


def _fit(derived: Derived, hanging: Hanging) -> Iterator[Finding]:
    for fit in hanging.fits:
        if not fit.fits:
            yield Finding(
                code="hood-no-room",
                severity=Severity.FIX,
                subject=_SUBJECT,
                says=f"{fit.working.name}: {format_length(-fit.spare_in, rounding='up')} too little",
                rule="hood and chimney go in with room to lift them onto the bracket",
                source=_SHEET,
                numbers=fit.working.inputs,
                answer=("mounting", None, "clearance"),
            )
    chimney, ceiling = hanging.hood.chimney_longest, derived.job.site.ceiling
    hung = derived.job.mounting
    if chimney is None or ceiling is None or hung.cooking_surface is None or hung.clearance is None:
        return
    gap = ceiling - hung.cooking_surface - hung.clearance - hanging.hood.height
    if gap > chimney:
        yield Finding(
            code="chimney-short",
            severity=Severity.CHECK,
            subject=_SUBJECT,
            says=f"the chimney covers {format_length(chimney)} of {format_length(gap)} up to the ceiling",
            rule="the chimney reaches the ceiling, or its open end is agreed with the owner",
            source=_SHEET,
            answer=("mounting", None, "clearance"),
        )


def _fastening(derived: Derived, fastening: Fastening) -> Iterator[Finding]:
    missed = [hole for hole in fastening.holes if hole.held is None]
    blocks = derived.job.mounting.blocks
    if fastening.aim is None:
        yield _bracket(
            "fastener-unknown",
            Severity.FIX,
            f"the fastener is not in the tables: {fastening.unusable}",
            ("mounting", None, "fastener"),
        )
        return
    if missed:
        yield _bracket(
            "bracket-misses",
            Severity.FIX,
            f"{len(missed)} of {len(fastening.holes)} bracket holes don't hold in a stud, "
            f"{sum(1 for hole in missed if hole.hit.hit is Hit.NEAR_EDGE)} of them near an edge"
            f"{_blockless(derived, fastening)}",
            ("site", None, "tolerance") if fastening.blockless else ("mounting", None, "blocks"),
            remedies=_blocks_to_add(fastening) if blocks == "none" else (),
        )
    if fastening.blocks and blocks == "planned":
        yield _bracket(
            "blocks-to-see",
            Severity.NOTE,
            "blocks behind the bracket are planned: see and photograph them before the board goes on",
            ("mounting", None, "blocks"),
        )
    short = [hole for hole in fastening.holes if hole.held is not None and not hole.held.grip.enough]
    if short and short[0].held is not None:
        grip = short[0].held.grip
        yield _bracket(
            "fastener-short",
            Severity.FIX,
            f"the fastener reaches {format_length(grip.penetration_in, rounding='down')} into the wood, "
            f"{format_length(grip.least_in, rounding='up')} is the least",
            ("mounting", None, "fastener_length"),
        )
    yield from _load(fastening, _blocks_to_add(fastening) if missed and blocks == "none" else ())


def _blockless(derived: Derived, fastening: Fastening) -> str:
    """Why no block is offered, where none takes the holes."""
    if not fastening.blockless:
        return ""
    off = format_length(derived.job.site.tolerance)
    return f", and no block takes them with each measurement off by {off}: {fastening.blockless}"


def _blocks_to_add(fastening: Fastening) -> tuple[Remedy, ...]:
    """The blocks that take the holes which miss, each as it is cut and nailed."""
    if not fastening.blocks:
        return ()
    words = "; ".join(
        f"a {block.size} block, flat, from {format_length(block.from_in)} to {format_length(block.to_in)} along, "
        f"{format_length(block.bottom_in)} to {format_length(block.top_in)} above the finished floor"
        for block in fastening.blocks
    )
    return (Remedy(f"add {words}", (Edit("mounting", None, "blocks", "planned"),)),)


def _load(fastening: Fastening, remedies: tuple[Remedy, ...]) -> Iterator[Finding]:
    service = fastening.service_use
    if service is None:
        yield _bracket(
            "bracket-unheld",
            Severity.STOP,
            f"the bracket can't be reckoned to hold: {fastening.unusable}",
            ("mounting", None, "blocks"),
            remedies=remedies,
        )
    elif not service.holds:
        share = "beyond all" if math.isinf(service.share) else f"{100 * service.share:.0f} %"
        yield Finding(
            code="bracket-overloaded",
            severity=Severity.STOP,
            subject=_BRACKET,
            says=f"the worst fastener is used to {share} of what it holds while somebody leans on the hood",
            rule="every fastener holds its pull and shear together, with the service load",
            source=service.working.source,
            numbers=service.working.inputs,
            answer=("mounting", None, "fastener_length"),
            remedies=remedies,
        )
    if not fastening.species_known:
        yield _bracket(
            "species-unknown",
            Severity.NOTE,
            "the wood of the studs is not known: the lightest carried is counted",
            ("mounting", None, "species"),
        )


def _bracket(
    code: str,
    severity: Severity,
    says: str,
    answer: tuple[str, str | None, str],
    remedies: tuple[Remedy, ...] = (),
) -> Finding:
    return Finding(
        code=code,
        severity=severity,
        subject=_BRACKET,
        says=says,
        rule="each fastener of the bracket holds in wood, with its edge distance and penetration",
        source=_STUDS,
        answer=answer,
        remedies=remedies,
    )


def _service(hanging: Hanging) -> Iterator[Finding]:
    swept, clear = hanging.swept, hanging.hood.service_clear
    if swept is None or not (hanging.hood.lowered or hanging.hood.drawn_out):
        return
    least = 0.0 if clear is None else clear
    if swept.above_surface_in < least:
        yield Finding(
            code="service-position-low",
            severity=Severity.FIX,
            subject=_SUBJECT,
            says=f"lowered for service, the hood is {format_length(swept.above_surface_in)} above the cooking surface",
            rule="the hood comes down far enough to be worked on without touching the range",
            source=_SHEET,
            numbers=(Input("at least", format_length(least), "sheet"), *swept.working.inputs),
            answer=("mounting", None, "clearance"),
        )


def _lift(derived: Derived, hanging: Hanging) -> Iterator[Finding]:
    lift, people = hanging.lift, derived.job.mounting.people
    if lift is None or lift.within or derived.job.mounting.lift:
        return
    index = "no hand lift reaches so high" if lift.index is None else f"lifting index {lift.index:.1f}"
    yield Finding(
        code="lift-heavy",
        severity=Severity.CHECK,
        subject=_SUBJECT,
        says=f"{hanging.hood.weight:g} lb lifted by {people} to its bracket: {index}, 1 is the limit",
        rule="a hood over the recommended weight limit goes up on a lift or jack",
        source=lift.working.source,
        numbers=lift.working.inputs,
        answer=("mounting", None, "lift"),
        remedies=(Remedy("have a lift or jack there", (Edit("mounting", None, "lift", True),)),),
    )


def _boxes(derived: Derived) -> Iterator[Finding]:
    """Enclosures against the spaces that the job gives them, upright."""
    bodies = {item.tag: item for item in derived.selection.enclosures}
    places = {item.enclosure: item for item in derived.job.place}
    for space in derived.job.space:
        body, place = bodies.get(space.enclosure), places.get(space.enclosure)
        if body is None:
            continue
        sizes = tuple(
            (getattr(place, side) if place is not None else None) or getattr(body, side)
            for side in ("width", "height", "depth")
        )
        answer = ("space", space.enclosure, "width")
        if None in sizes:
            yield ask(
                "box-size-unknown",
                space.enclosure,
                (("place", space.enclosure, "width"),),
                given=False,
                what=f"the size of {space.enclosure}",
            )
            continue
        spare = box_room(sizes, (space.width, space.height, space.depth))
        if min(spare) < 0:
            words = ", ".join(
                f"{format_length(-left, rounding='up')} in {side}"
                for left, side in zip(spare, ("width", "height", "depth"), strict=True)
                if left < 0
            )
            yield Finding(
                code="box-no-room",
                severity=Severity.FIX,
                subject=space.enclosure,
                says=f"{space.enclosure} doesn't fit its space: {words} too little",
                rule="an enclosure stands upright in its space, with its cover free",
                source=_SHEET,
                answer=answer,
            )
