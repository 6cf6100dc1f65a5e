"""What would cure each finding: proposed, planned again with it, and kept only if the finding is gone."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.checks.circuit_remedies import drop_remedies
from schedules.checks.framing_remedies import framing_remedies
from schedules.errors import InputError
from schedules.findings import Edit, Remedy
from schedules.plan import Plan, plan_job
from schedules.quantities.lengths import format_length
from schedules.site.reach import Verdict

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.findings import Finding
    from schedules.job.draft import Draft
    from schedules.sheet.sheet import Sheet
    from schedules.site.reach import CableLength

MOVE_STEP_IN = 1.0
"""A device is proposed to move by whole inches."""


def with_remedies(sheet: Sheet, draft: Draft, plan: Plan) -> Plan:
    """Give each finding the remedies that were planned again and cure it without raising another one that blocks."""
    return replace(
        plan,
        findings=tuple(
            replace(finding, remedies=tuple(_kept(sheet, draft, plan, finding))) for finding in plan.findings
        ),
    )


def _kept(sheet: Sheet, draft: Draft, plan: Plan, finding: Finding) -> Iterator[Remedy]:
    for remedy in (*finding.remedies, *_proposed(plan, finding)):
        if not remedy.edits or cures(sheet, draft, plan, finding, remedy):
            yield remedy


def cures(sheet: Sheet, draft: Draft, plan: Plan, finding: Finding, remedy: Remedy) -> bool:
    """Plan the job again with the remedy's edits: the finding is gone and nothing new blocks."""
    try:
        after = plan_job(sheet, draft.edited(remedy.edits).job)
    except InputError:
        return False
    before = {_identity(item) for item in plan.findings}
    left = {_identity(item): item for item in after.findings}
    return _identity(finding) not in left and not any(
        item.severity.blocks for key, item in left.items() if key not in before
    )


def _identity(finding: Finding) -> tuple[str, str]:
    return finding.code, finding.subject


def _proposed(plan: Plan, finding: Finding) -> Iterator[Remedy]:
    if finding.code in ("cable-short", "cable-tight"):
        length = next(item for item in plan.derived.lengths if item.cable == finding.subject)
        yield from _extensions(plan, length)
        yield from _moves(plan, length)
    if finding.code == "framing-cut":
        yield from framing_remedies(plan.derived, finding.subject)
    if finding.code == "voltage-drop":
        yield from drop_remedies(plan.derived, finding.subject)


def _extensions(plan: Plan, length: CableLength) -> Iterator[Remedy]:
    """The shortest extension that reaches in the worst case."""
    cable = next(item for item in plan.derived.selection.cables if item.tag == length.cable)
    parts = {part.id: part.name for part in plan.derived.sheet.part}
    missing = -(length.worst_in or 0.0)
    for extension in sorted(cable.extension, key=lambda item: item.length):
        if extension.length >= missing:
            words = f"order {parts[extension.part]}, {format_length(extension.length)}"
            yield Remedy(words, (Edit("run", cable.tag, "extension", extension.part),))
            return


def _moves(plan: Plan, length: CableLength) -> Iterator[Remedy]:
    """Move the far end along the wall towards the near one, as little as lets the cable reach."""
    if length.verdict not in (Verdict.SHORT, Verdict.TIGHT):
        return
    cable = next(item for item in plan.derived.selection.cables if item.tag == length.cable)
    places = {place.enclosure: place for place in plan.derived.job.place}
    near, far = places.get(cable.origin.enclosure), places.get(cable.target.enclosure)
    if near is None or far is None:
        return
    shift = math.ceil(-(length.worst_in or 0.0) / MOVE_STEP_IN) * MOVE_STEP_IN
    for axis in ("along", "up"):
        here, there = getattr(near, axis), getattr(far, axis)
        if here is not None and there is not None and abs(here - there) >= shift:
            there += shift if here > there else -shift
            yield Remedy(
                f"move {far.enclosure} {format_length(shift)} towards {near.enclosure}: {axis} {format_length(there)}",
                (Edit("place", far.enclosure, axis, format_length(there)),),
            )
