"""What makes a duct wide, short and smooth enough, as edits of the job that can be planned again."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.exhaust.ducts import duct_loss, surface
from schedules.exhaust.operation import lead_exhaust
from schedules.findings import Edit, Remedy
from schedules.quantities.lengths import format_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived
    from schedules.exhaust.ducts import Section
    from schedules.exhaust.operation import Exhaust
    from schedules.job.mechanical import DuctFitting, FittingKind
    from schedules.job.records import Job

_WIDER_BY_AT_MOST_IN = 6
"""A duct is proposed no more than so much wider: beyond it another fan is the answer."""
_EASY_RADIUS = 1.5
"""Centreline radius over the side that is bent: from here on the tables' elbows gain little."""
_LEAST_LEFT_IN = 12.0
"""Less straight duct than this is none: no kitchen's duct is proposed to end a hand above its hood."""

_GENTLER: dict[FittingKind, FittingKind] = {
    "pleated 90": "stamped 90",
    "gored 90": "stamped 90",
    "three gores 90": "stamped 90",
    "pleated 45": "stamped 45",
    "gored 45": "stamped 45",
}
"""Of one angle, the round elbow with the least loss in the tables."""


@dataclass(frozen=True, slots=True)
class _Change:
    """What is done to the duct so far: in words, as edits, and the job with it."""

    words: tuple[str, ...]
    edits: tuple[Edit, ...]
    job: Job


def airflow_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """A duct that is short enough, and the least other change with which the fan moves what is wanted.

    Where neither is left, what a fan would have to do.
    """
    exhaust = derived.exhaust
    if exhaust is None or exhaust.wanted_cfm is None or exhaust.run is None:
        return
    longest = exhaust.longest
    shorter = longest is not None and longest.length_in >= _LEAST_LEFT_IN
    if longest is not None and shorter:
        at_most = format_length(longest.length_in, rounding="down")
        yield Remedy(f"shorten the straight duct to {at_most}", (Edit("duct", None, "length", at_most),))
    change = next((item for item in _changes(derived) if _moves_enough(derived, item.job)), None)
    if change is not None:
        yield Remedy("; ".join(change.words), change.edits)
    elif not shorter:
        yield _stronger_fan(exhaust, exhaust.wanted_cfm)


def length_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """A duct that is as short as its maker allows."""
    exhaust = derived.exhaust
    if exhaust is not None and exhaust.fan is not None and exhaust.fan.longest_duct is not None:
        at_most = format_length(exhaust.fan.longest_duct, rounding="down")
        yield Remedy(f"lead it so that it takes at most {at_most}", (Edit("duct", None, "length", at_most),))


def code_length_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """A duct that is as short as the code's table has it, or a wider one for which the table allows this length."""
    exhaust, length = derived.exhaust, derived.job.duct.length
    if exhaust is None or exhaust.code_length is None or length is None:
        return
    most = exhaust.code_length.length_in
    if most >= _LEAST_LEFT_IN:
        at_most = format_length(most, rounding="down")
        yield Remedy(f"lead it so that it takes at most {at_most}", (Edit("duct", None, "length", at_most),))
    for change in _wider_ones(derived, _Change((), (), derived.job)):
        code = lead_exhaust(derived.selection, change.job)
        if code is not None and code.code_length is not None and code.code_length.length_in >= length:
            yield Remedy("; ".join(change.words), change.edits)
            return


def width_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """A duct of the collar's own size, or a round one as wide as a flat collar."""
    exhaust, duct, hood = derived.exhaust, derived.job.duct, derived.sheet.hood
    if exhaust is None or hood is None:
        return
    collar = exhaust.collar
    if hood.collar.width is not None and hood.collar.height is not None and duct.diameter is None:
        width, height = format_length(hood.collar.width), format_length(hood.collar.height)
        words = f"use {width} by {height} duct"
        yield Remedy(words, (Edit("duct", None, "width", width), Edit("duct", None, "height", height)))
        return
    wide = format_length(_as_round_in(collar))
    flat = (Edit("duct", None, "width", None), Edit("duct", None, "height", None))
    yield Remedy(
        f"use {wide} round duct",
        (*(flat if duct.diameter is None else ()), Edit("duct", None, "diameter", wide)),
    )


def _changes(derived: Derived) -> Iterator[_Change]:
    """What can be done to a duct of this length, least first. A duct that may serve no hood is replaced in any case."""
    start = _smooth(_Change((), (), derived.job))
    gentle = _gentle(start)
    yield from (item for item in (start, gentle) if item.edits)
    yield from _wider_ones(derived, start)
    if gentle.edits != start.edits:
        yield from _wider_ones(derived, gentle)


def _moves_enough(derived: Derived, job: Job) -> bool:
    """Whether the fan's operating point is known then, and lies high enough: unknown is not enough."""
    exhaust = lead_exhaust(derived.selection, job)
    if exhaust is None or exhaust.point is None or exhaust.wanted_cfm is None:
        return False
    return exhaust.point.airflow_cfm >= exhaust.wanted_cfm


def _smooth(change: _Change) -> _Change:
    kind = change.job.duct.surface
    if kind is None or surface(kind).hood_duct:
        return change
    edit = Edit("duct", None, "surface", "galvanized")
    return _Change(
        (*change.words, "use galvanised steel duct"),
        (*change.edits, edit),
        _with_duct(change.job, surface="galvanized"),
    )


def _gentle(change: _Change) -> _Change:
    """Every elbow that the tables have a gentler one for."""
    words, edits, fittings = list(change.words), list(change.edits), []
    for item in change.job.fitting:
        gentler = _gentler(change.job, item)
        fittings.append(gentler)
        if gentler is not item:
            words.append(f"make {item.tag} {_named(gentler)}")
            edits.append(Edit("fitting", item.tag, "kind", gentler.kind))
            if gentler.radius is not None and gentler.radius != item.radius:
                edits.append(Edit("fitting", item.tag, "radius", format_length(gentler.radius)))
    return _Change(tuple(words), tuple(edits), change.job.model_copy(update={"fitting": tuple(fittings)}))


def _gentler(job: Job, item: DuctFitting) -> DuctFitting:
    if item.kind in _GENTLER:
        return item.model_copy(update={"kind": _GENTLER[item.kind], "radius": None})
    bent = job.duct.width if item.turns == "width" else job.duct.height
    if item.kind == "mitred 90" and bent is not None:
        return item.model_copy(update={"kind": "flat smooth 90", "radius": _EASY_RADIUS * bent})
    return item


def _named(item: DuctFitting) -> str:
    radius = "" if item.radius is None else f" of {format_length(item.radius)} radius"
    return f"{item.kind}{radius}"


def _wider_ones(derived: Derived, change: _Change) -> Iterator[_Change]:
    """Round ducts that are wider by whole inches, and no narrower than the hood's collar."""
    diameter, exhaust = change.job.duct.diameter, derived.exhaust
    if diameter is None or exhaust is None:
        return
    first = max(math.floor(diameter) + 1, math.ceil(_as_round_in(exhaust.collar)))
    for wider in range(first, first + _WIDER_BY_AT_MOST_IN):
        edit = Edit("duct", None, "diameter", f"{wider} in")
        yield _Change(
            (*change.words, f"use {wider} in duct"),
            (*change.edits, edit),
            _with_duct(change.job, diameter=float(wider)),
        )


def _as_round_in(section: Section) -> float:
    """A round collar's own diameter [in], or the round duct in whole inches that has a flat one's area."""
    if section.round_:
        return section.friction_diameter_in
    return float(math.ceil(math.sqrt(4 * section.area_sq_in / math.pi)))


def _with_duct(job: Job, **changed: object) -> Job:
    return job.model_copy(update={"duct": job.duct.model_copy(update=changed)})


def _stronger_fan(exhaust: Exhaust, wanted_cfm: float) -> Remedy:
    """What no edit of the job cures: the pressure that this duct takes at the airflow that is wanted."""
    if exhaust.run is None:
        return Remedy("a stronger fan")
    loss = duct_loss(wanted_cfm, exhaust.run, exhaust.air).pressure_in_wg
    return Remedy(
        f"no shorter, wider or smoother duct within reach is enough: it takes a fan that makes {loss:.2f} in wg of "
        f"total pressure at {wanted_cfm:g} cfm"
    )
