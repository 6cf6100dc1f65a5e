"""Can the gas be shut off by hand and by fire, and does enough of it reach the range?"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.checks.asking import ask
from schedules.findings import Finding, Severity
from schedules.gas.piping import connector
from schedules.mechanical_code import fuel_gas_code
from schedules.working import Confidence, Source

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.answers import Verdict
    from schedules.derived import Derived

_SUBJECT = "gas"


def check_gas(derived: Derived) -> Iterator[Finding]:
    """Report shutoff, connector, fire valve and the pressure that is lost."""
    supply = derived.gas_supply
    if supply is None:
        return
    if supply.missing:
        yield ask("gas-unknown", _SUBJECT, supply.missing, given=supply.given, what="the range's gas")
    yield from _verdict(
        supply.shutoff,
        "gas-shutoff",
        Severity.FIX,
        "an appliance's own shutoff stands near it, in the same room, before the connector",
        _amiss_of_shutoff(derived),
    )
    yield from _verdict(
        supply.connector,
        "gas-connector",
        Severity.FIX,
        "a gas connector is short and nowhere concealed",
        _amiss_of_connector(derived),
    )
    yield from _verdict(
        supply.fire_valve,
        "gas-valve",
        Severity.STOP,
        "the fire valve closes without power, opens by hand only, and stands after the manual shutoff",
        "valve_after_shutoff",
    )
    if supply.refusal:
        yield Finding(
            code="gas-short",
            severity=Severity.FIX,
            subject=_SUBJECT,
            says=supply.refusal,
            rule="pipe and valve leave the range its pressure",
            source=Source("valve equation", Confidence.MEMORY),
            answer=("gas", None, "demand"),
        )
    path = supply.path
    if path is not None and not path.enough:
        yield Finding(
            code="gas-short",
            severity=Severity.FIX,
            subject=_SUBJECT,
            says=f"pipe and fire valve lose {path.lost_in_wc:.2f} in wc, {path.allowed_in_wc:g} in wc may be lost",
            rule="pipe and valve leave the range its pressure; the valve's part is taken off before pipe is sized",
            source=path.working.source,
            numbers=path.working.inputs,
            answer=("gas", None, "pipe"),
        )


def _amiss_of_shutoff(derived: Derived) -> str:
    """The answer that stands in the way: the room before the order of the parts, that before the distance."""
    gas = derived.job.gas
    if gas.same_room is False:
        return "same_room"
    return "upstream" if gas.upstream is False else "shutoff"


def _amiss_of_connector(derived: Derived) -> str:
    """The answer that stands in the way: the length, and where that is short enough, that it is concealed."""
    gas, edition = derived.job.gas, fuel_gas_code(derived.job)
    if edition is None or gas.connector is None:
        return "connector"
    short = connector(gas.connector, concealed=False, edition=edition).holds
    return "concealed" if short and gas.concealed else "connector"


def _verdict(
    verdict: Verdict | None, code: str, severity: Severity, words: str, field: str
) -> Iterator[Finding]:
    if verdict is None or verdict.holds:
        return
    yield Finding(
        code=code,
        severity=severity,
        subject=_SUBJECT,
        says=f"{verdict.working.name}: {'; '.join(verdict.reasons)}",
        rule=words,
        source=verdict.working.source,
        numbers=verdict.working.inputs,
        answer=("gas", None, field),
    )
