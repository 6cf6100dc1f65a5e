"""Is every box large enough for what lands in it?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.answers import reaches
from schedules.boxes.volume import boxes_that_hold
from schedules.findings import Edit, Finding, Remedy, Severity
from schedules.working import Confidence, Input, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.boxes.box_plan import BoxPlan
    from schedules.derived import Derived
    from schedules.tables.edition import Code

_SHEET = Source("equipment sheet", Confidence.SHEET)


def check_boxes(derived: Derived) -> Iterator[Finding]:
    """Check volumes against contents, lengths where thick conductors are pulled, and ask for what isn't given."""
    edition = derived.job.adopted
    for box in derived.boxes:
        yield from _full(box, edition)
        yield from _open(box)
        yield from _pull(box)


def _full(box: BoxPlan, edition: Code) -> Iterator[Finding]:
    if box.check is None or box.holds:
        return
    enclosure, check = box.enclosure, box.check
    yield Finding(
        code="box-full",
        severity=Severity.STOP,
        subject=enclosure.tag,
        says=(
            f"{enclosure.tag} ({enclosure.name}) has {check.volume_cu_in:g} cu in, what lands in it needs "
            f"{check.needed.volume_cu_in:.2f} cu in"
        ),
        rule="a box has the volume for its conductors, devices, clamps and grounding conductors",
        source=check.working.source,
        numbers=check.needed.working.inputs,
        answer=("box", enclosure.tag, "volume") if enclosure.kind == "box" else None,
        remedies=tuple(_larger(box, edition)) if enclosure.kind == "box" else (),
    )


def _larger(box: BoxPlan, edition: Code) -> Iterator[Remedy]:
    """The next larger published box; a device box where only one gang is needed, and a square one."""
    tag = box.enclosure.tag
    offered: set[str] = set()
    for found in boxes_that_hold(box.contents, edition=edition):
        kind = found.kind.replace("_", " ")
        if kind not in ("device", "square") or kind in offered:
            continue
        offered.add(kind)
        words = f"set a {kind} box {found.trade_size} in, {found.volume_cu_in:g} cu in"
        yield Remedy(words, (Edit("box", tag, "volume", f"{found.volume_cu_in:g} cu in"),))


def _open(box: BoxPlan) -> Iterator[Finding]:
    enclosure = box.enclosure
    if box.check is None:
        yield Finding(
            code="box-volume-open",
            severity=Severity.CHECK,
            subject=enclosure.tag,
            says=(
                f"nobody gives the volume of {enclosure.tag} ({enclosure.name}): what lands in it needs at least "
                f"{box.needed.volume_cu_in:.2f} cu in; the electrician reads its marking"
            ),
            rule="a box has the volume for what lands in it",
            source=box.needed.working.source,
            answer=("box", enclosure.tag, "volume"),
        )
    if box.unmounted:
        yield Finding(
            code="box-device-open",
            severity=Severity.CHECK,
            subject=enclosure.tag,
            says=(
                f"the sheet doesn't say whether {', '.join(box.unmounted)} in {enclosure.tag} is on a yoke; "
                "each counts as one of a single gang"
            ),
            rule="a device on its yoke counts by the largest conductor on it and by its gangs",
            source=_SHEET,
        )
    if box.uncounted:
        yield Finding(
            code="box-thin-conductors",
            severity=Severity.NOTE,
            subject=enclosure.tag,
            says=f"{box.uncounted} conductors in {enclosure.tag} are too thin for the table and are not counted",
            rule="the table of volumes begins at a size",
            source=box.needed.working.source,
        )


def _pull(box: BoxPlan) -> Iterator[Finding]:
    if box.pull is None:
        return
    enclosure = box.enclosure
    straight, angle = box.pull.straight.length_in, box.pull.angle.length_in
    inside = enclosure.inside
    if inside is not None and reaches(inside, max(straight, angle)):
        return
    short = inside is not None and not reaches(inside, min(straight, angle))
    has = "nobody gives its inside length" if inside is None else f"it has {inside:g} in"
    yield Finding(
        code="pull-box-short" if short else "pull-box-open",
        severity=Severity.STOP if short else Severity.CHECK,
        subject=enclosure.tag,
        says=(
            f"thick conductors are pulled through {enclosure.tag}: a straight pull needs {straight:g} in, "
            f"an angle pull {angle:g} in from wall to wall; {has}"
        ),
        rule="a box where thick conductors are pulled is long enough for their bends",
        source=box.pull.angle.working.source,
        numbers=(
            Input("straight pull", f"{straight:g} in", "plan"),
            Input("angle pull", f"{angle:g} in", "plan"),
        ),
        remedies=_longer(straight, angle) if short else (),
    )


def _longer(straight_in: float, angle_in: float) -> tuple[Remedy, ...]:
    """What no edit of the job cures: the enclosure is the sheet's."""
    return (
        Remedy(
            f"an enclosure, or a box beside it, of at least {straight_in:g} in inside for a straight pull, "
            f"{angle_in:g} in for an angle pull"
        ),
    )
