"""What would cure each finding: proposed, planned again with it, and kept only if the finding is gone."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from schedules.checks.air_remedies import flue_remedies, make_up_remedies, opening_remedies
from schedules.checks.choice_remedies import choice_remedies
from schedules.checks.circuit_remedies import drop_remedies
from schedules.checks.duct_remedies import (
    airflow_remedies,
    code_length_remedies,
    length_remedies,
    width_remedies,
)
from schedules.checks.framing_remedies import framing_remedies
from schedules.checks.gas_remedies import (
    connector_remedies,
    fire_valve_remedies,
    pipe_remedies,
    shutoff_remedies,
)
from schedules.checks.mounting_remedies import (
    fastener_remedies,
    hood_room_remedies,
    overhead_remedies,
    service_height_remedies,
    space_remedies,
)
from schedules.checks.raceway_remedies import bend_remedies, entry_remedies, jam_remedies
from schedules.checks.reach_remedies import place_remedies, reach_remedies, route_remedies
from schedules.checks.site import MISPLACED
from schedules.errors import InputError
from schedules.plan import Plan, plan_job

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from schedules.derived import Derived
    from schedules.findings import Finding, Remedy
    from schedules.job.draft import Draft
    from schedules.sheet.sheet import Sheet

_PROPOSALS: Mapping[str, Callable[[Derived, str], Iterator[Remedy]]] = {
    "choice-conflict": choice_remedies,
    "cable-short": reach_remedies,
    "cable-tight": reach_remedies,
    "way-barred": route_remedies,
    "hole-not-allowed": route_remedies,
    **dict.fromkeys(MISPLACED, place_remedies),
    "framing-cut": framing_remedies,
    "voltage-drop": drop_remedies,
    "raceway-bends": bend_remedies,
    "raceway-jam": jam_remedies,
    "opening-small": entry_remedies,
    "hood-no-room": hood_room_remedies,
    "cabinet-too-low": overhead_remedies,
    "service-position-low": service_height_remedies,
    "fastener-short": fastener_remedies,
    "bracket-overloaded": fastener_remedies,
    "box-no-room": space_remedies,
    "duct-reduced": width_remedies,
    "airflow-short": airflow_remedies,
    "duct-long": length_remedies,
    "duct-long-by-code": code_length_remedies,
    "make-up-none": make_up_remedies,
    "make-up-opening-small": opening_remedies,
    "flue-at-risk": flue_remedies,
    "gas-shutoff": shutoff_remedies,
    "gas-connector": connector_remedies,
    "gas-valve": fire_valve_remedies,
    "gas-short": pipe_remedies,
}
"""What may cure each finding, from what is derived and the finding's subject."""


def with_remedies(sheet: Sheet, draft: Draft, plan: Plan) -> Plan:
    """Give each finding the remedies that were planned again and cure it without raising another one that blocks."""
    trials = _Trials(sheet, draft)
    return replace(
        plan,
        findings=tuple(
            replace(finding, remedies=tuple(_kept(trials, plan, finding))) for finding in plan.findings
        ),
    )


def _kept(trials: _Trials, plan: Plan, finding: Finding) -> Iterator[Remedy]:
    for remedy in (*finding.remedies, *_proposed(plan, finding)):
        if not remedy.edits or trials.cures(plan, finding, remedy):
            yield remedy


class _Trials:
    """A job planned again with what remedies edit: each set of edits once, whichever findings propose it."""

    def __init__(self, sheet: Sheet, draft: Draft) -> None:
        self._sheet = sheet
        self._draft = draft
        self._left: dict[str, Mapping[_Identity, bool] | None] = {}

    def cures(self, plan: Plan, finding: Finding, remedy: Remedy) -> bool:
        """Whether with the remedy's edits the finding is gone and nothing new blocks."""
        left = self._findings(remedy)
        if left is None or _identity(finding) in left:
            return False
        before = {_identity(item) for item in plan.findings}
        return not any(blocks for key, blocks in left.items() if key not in before)

    def _findings(self, remedy: Remedy) -> Mapping[_Identity, bool] | None:
        """What is found with these edits, and whether it blocks; None where they can't be made."""
        # An edit's value may be a list, which has no hash; printed, equal edits are equal.
        key = repr(remedy.edits)
        if key not in self._left:
            self._left[key] = self._planned(remedy)
        return self._left[key]

    def _planned(self, remedy: Remedy) -> Mapping[_Identity, bool] | None:
        try:
            after = plan_job(self._sheet, self._draft.edited(remedy.edits).job)
        except InputError:
            return None
        return {_identity(item): item.severity.blocks for item in after.findings}


_Identity = tuple[str, str]
"""What a finding is told by: its code and its subject."""


def _identity(finding: Finding) -> _Identity:
    return finding.code, finding.subject


def _proposed(plan: Plan, finding: Finding) -> Iterator[Remedy]:
    propose = _PROPOSALS.get(finding.code)
    if propose is not None:
        yield from propose(plan.derived, finding.subject)
