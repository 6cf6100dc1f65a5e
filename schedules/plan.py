"""One job, planned and checked: the library's main function."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.checks.acknowledgements import with_acknowledgements
from schedules.checks.air import check_air
from schedules.checks.amendments import check_amendments
from schedules.checks.behaviour import check_behaviour
from schedules.checks.boring import check_boring
from schedules.checks.boxes import check_boxes
from schedules.checks.branches import check_branches
from schedules.checks.choices import check_choices
from schedules.checks.contacts import check_contacts
from schedules.checks.disconnecting import check_disconnecting
from schedules.checks.duct import check_duct
from schedules.checks.excess import check_excess
from schedules.checks.fire import check_fire
from schedules.checks.framing import check_framing
from schedules.checks.gas import check_gas
from schedules.checks.hood_place import check_hood_place
from schedules.checks.identification import check_identification
from schedules.checks.landings import check_landings
from schedules.checks.limited import check_limited
from schedules.checks.mounting import check_mounting
from schedules.checks.one_cause import told_once
from schedules.checks.outlets import check_outlets
from schedules.checks.passing import check_passing
from schedules.checks.protection import check_protection
from schedules.checks.reaching import check_reaching
from schedules.checks.separation import check_separation
from schedules.checks.site import check_site
from schedules.checks.supply import check_supply
from schedules.checks.tested import check_tested
from schedules.checks.ways import check_ways
from schedules.checks.work import check_work
from schedules.derived import derive
from schedules.findings import in_order

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from schedules.derived import Derived, Premises
    from schedules.findings import Finding
    from schedules.job.records import Job
    from schedules.sheet.sheet import Sheet

CHECKS: tuple[Callable[[Derived], Iterator[Finding]], ...] = (
    check_choices,
    check_landings,
    check_supply,
    check_fire,
    check_behaviour,
    check_separation,
    check_identification,
    check_site,
    check_hood_place,
    check_ways,
    check_reaching,
    check_excess,
    check_passing,
    check_boxes,
    check_framing,
    check_boring,
    check_branches,
    check_protection,
    check_disconnecting,
    check_outlets,
    check_contacts,
    check_limited,
    check_amendments,
    check_mounting,
    check_duct,
    check_air,
    check_gas,
    check_work,
    check_tested,
)


@dataclass(frozen=True, slots=True)
class Plan:
    """All that is derived from one job, and every finding, most serious first."""

    derived: Derived
    findings: tuple[Finding, ...]

    @property
    def sound(self) -> bool:
        """Whether no finding stops the work or must be put right before cover."""
        return not any(finding.severity.blocks for finding in self.findings)


def plan_job(sheet: Sheet, job: Job, premises: Premises | None = None) -> Plan:
    """Derive and check one job: a pure function of sheet, job and the published tables.

    premises: for one of many plans of the same kitchen, see `derive`.
    """
    return judge(derive(sheet, job, premises))


def judge(derived: Derived) -> Plan:
    """Hold every check against what was derived, and put under each finding what the job records of it."""
    findings = told_once(derived, tuple(finding for check in CHECKS for finding in check(derived)))
    return Plan(derived, in_order(with_acknowledgements(findings, derived.job)))
