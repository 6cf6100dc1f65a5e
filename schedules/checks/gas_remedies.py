"""What cures a gas shutoff, connector, fire valve or pipe, as edits of the job that can be planned again."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.findings import Edit, Remedy
from schedules.gas.gas_supply import gas_way, inlet_pressure
from schedules.gas.piping import least_cv, specific_gravity
from schedules.mechanical_code import fuel_gas_code
from schedules.tables import load, rule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.derived import Derived

_RULES = "ifgc_rules"
_IN_PER_FT = 12


def shutoff_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """A manual shutoff that is near enough, in the range's room and before the connector: only what is amiss."""
    gas, edition = derived.job.gas, fuel_gas_code(derived.job)
    if edition is None or gas.shutoff is None:
        return
    within = rule("shutoff_within", edition, _RULES).number
    edits, words = [], []
    if not gas.same_room:
        edits.append(Edit("gas", None, "same_room", value=True))
        words.append("in the range's own room")
    if not gas.upstream:
        edits.append(Edit("gas", None, "upstream", value=True))
        words.append("before the connector")
    if gas.shutoff > within * _IN_PER_FT:
        edits.append(Edit("gas", None, "shutoff", f"{within:g} ft"))
        words.append(f"at most {within:g} ft from the range")
    yield Remedy(f"set a manual shutoff {', '.join(words)}", tuple(edits))


def connector_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """A connector that is short enough and in the open; where it would no longer reach, the shutoff comes nearer."""
    gas, edition = derived.job.gas, fuel_gas_code(derived.job)
    if edition is None or gas.connector is None:
        return
    most = rule("connector_length", edition, _RULES).number
    edits, words = [], []
    if gas.connector > most * _IN_PER_FT:
        edits.append(Edit("gas", None, "connector", f"{most:g} ft"))
        words.append(f"use one connector of at most {most:g} ft")
        if gas.shutoff is not None and gas.shutoff > most * _IN_PER_FT:
            edits.append(Edit("gas", None, "shutoff", f"{most:g} ft"))
            words.append("bring the shutoff as near as that")
    if gas.concealed:
        edits.append(Edit("gas", None, "concealed", value=False))
        words.append("run hard pipe through wall, floor or housing, and the connector in the open only")
    yield Remedy("; ".join(words), tuple(edits))


def fire_valve_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """The valve's place is the job's; how it closes and is set again is the valve's own."""
    supply = derived.gas_supply
    if derived.job.gas.valve_after_shutoff is False:
        words = "set the fire valve after the manual shutoff"
        yield Remedy(words, (Edit("gas", None, "valve_after_shutoff", value=True),))
    if supply is not None and supply.valve is not None:
        valve = supply.valve
        if valve.normally != "closed" or valve.reset != "manual":
            yield Remedy(
                "no edit of the job cures the valve itself: it takes one that closes without power and is opened by "
                f"hand; the sheet's is normally {valve.normally} with {valve.reset} reset"
            )


def pipe_remedies(derived: Derived, _subject: str) -> Iterator[Remedy]:
    """Every wider pipe that leaves the range its pressure; where none does, what the valve would have to pass."""
    gas, supply = derived.job.gas, derived.gas_supply
    if gas.pipe is None or supply is None:
        return
    nominals = [row.text("nominal") for row in load("gas_pipe").rows]
    cured = False
    for wider in nominals[nominals.index(gas.pipe) + 1 :]:
        path, _ = gas_way(supply.valve, gas.model_copy(update={"pipe": wider}))
        if path is not None and path.enough:
            cured = True
            yield Remedy(f"run {wider} in pipe all the way", (Edit("gas", None, "pipe", wider),))
    if not cured:
        yield _beyond_the_job(derived, nominals[-1])


def _beyond_the_job(derived: Derived, widest: str) -> Remedy:
    """What no edit cures: the widest pipe carried, the drop that is left for the valve, the coefficient it takes."""
    gas, supply = derived.job.gas, derived.gas_supply
    path, _ = gas_way(None, gas.model_copy(update={"pipe": widest}))
    if path is None or supply is None or gas.gas is None:
        return Remedy("no pipe carried here is enough: the gas fitter sizes it")
    left = path.allowed_in_wc - path.pipe.drop_in_wc
    if supply.valve is None or left <= 0:
        return Remedy(
            f"no pipe carried here is enough: {widest} in alone loses {path.pipe.drop_in_wc:.2f} in wc of the "
            f"{path.allowed_in_wc:g} in wc allowed; the gas fitter sizes a wider one or a higher supply pressure"
        )
    gravity = specific_gravity(gas.gas)
    cv = least_cv(path.flow_cfh, left, inlet_in_wc=inlet_pressure(gas), specific_gravity=gravity)
    return Remedy(
        f"no pipe carried here is enough beside the sheet's fire valve of Cv {supply.valve.cv:g}: with {widest} in "
        f"pipe it takes a fire valve of Cv {cv:.1f} or more, which loses no more than {left:.2f} in wc"
    )
