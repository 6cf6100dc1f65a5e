"""One kitchen's make-up air: whether it is asked for, whether enough comes, what the house feels without it."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.answers import reaches
from schedules.make_up.house_pressure import HousePressure, depressurisation, through_opening
from schedules.make_up.make_up_air import (
    PA_PER_IN_WG,
    HeatForAir,
    MakeUpAir,
    PassiveOpening,
    heat_for_air,
    make_up_air,
    passive_opening,
)
from schedules.mechanical_code import residential_code
from schedules.practice import practice

if TYPE_CHECKING:
    from schedules.connections.options import Selection
    from schedules.exhaust.fan_curve import OperatingPoint
    from schedules.exhaust.operation import Exhaust
    from schedules.job.records import Job
    from schedules.sheet.hood import Fan
    from schedules.site.routes import Answer
    from schedules.working import Working

_ABOUT_EQUAL = 0.9
"""The code wants about as much air as the exhaust takes: a tenth less still counts here."""


@dataclass(frozen=True, slots=True)
class HouseAir:
    """Everything about make-up air; None where an answer is missing.

    exhaust_cfm: what the hood takes out: its rated airflow, or what its fan moves through this duct where that is
    more. supplied_cfm: what a make-up fan brings. without, with_: the house's
    pressure without make-up air, and with what is planned.
    """

    given: bool
    exhaust_cfm: float
    needed: MakeUpAir | None
    supplied_cfm: float | None
    opening: PassiveOpening | None
    without: HousePressure | None
    with_: HousePressure | None
    heat: HeatForAir | None
    missing: tuple[Answer, ...]

    @property
    def fan_is_enough(self) -> bool:
        """Whether the make-up fan brings about as much as is asked for."""
        if self.needed is None or self.supplied_cfm is None:
            return False
        return reaches(self.supplied_cfm, _ABOUT_EQUAL * self.needed.airflow_cfm)

    @property
    def workings(self) -> tuple[Working, ...]:
        """How its numbers came about."""
        needed = () if self.needed is None else (self.needed.required.working,)
        parts = (self.opening, self.without, self.with_, self.heat)
        return (*needed, *(part.working for part in parts if part is not None))


def let_air_in(selection: Selection, job: Job, exhaust: Exhaust | None) -> HouseAir | None:
    """Work out the make-up air; None where the sheet has no fan for these choices.

    exhaust: whose fan may move more through this duct than the sheet rates it for.
    """
    fan = next((item for item in selection.sheet.fan if item.when.holds(selection.choices)), None)
    if fan is None:
        return None
    air = job.air
    moved, governs = _taken_out(fan, None if exhaust is None else exhaust.point)
    needed = None
    code = residential_code(job)
    if air.book is not None and code is not None and air.fuel_appliances is not None:
        needed = make_up_air(moved, air.fuel_appliances, book=air.book, edition=code, governs=governs)
    supplied = 0.0 if air.make_up == "none" else air.make_up_airflow if air.make_up == "powered" else None
    opening = None
    if air.make_up == "passive":
        opening = passive_opening(moved, allowed_pa(job))
    return HouseAir(
        given=air != type(air)(),
        exhaust_cfm=moved,
        needed=needed,
        supplied_cfm=supplied,
        opening=opening,
        without=_pressure(job, moved),
        with_=_planned_pressure(job, moved, supplied),
        heat=_heat(job, needed, moved),
        missing=_missing(job, needed),
    )


def _taken_out(fan: Fan, point: OperatingPoint | None) -> tuple[float, str]:
    """The larger of what the fan is rated for and what it moves through this duct [cfm], and which it is."""
    if point is None:
        return fan.rated, "rated by the sheet; what the fan moves through this duct is not known"
    moves = f"{point.airflow_cfm:.0f} cfm through this duct"
    if point.airflow_cfm > fan.rated:
        return point.airflow_cfm, f"{moves}, more than the {fan.rated:g} cfm rated by the sheet"
    return fan.rated, f"rated by the sheet; {moves}"


def allowed_pa(job: Job) -> float:
    """Pressure that a passive opening may cost the house [Pa]: the job's, else the trade's."""
    if job.air.pressure is None:
        return practice("passive_pressure").number
    return job.air.pressure * PA_PER_IN_WG


def _pressure(job: Job, net_cfm: float) -> HousePressure | None:
    if job.air.leakage is None:
        return None
    return depressurisation(net_cfm, job.air.leakage, exponent=job.air.exponent)


def _planned_pressure(job: Job, exhaust_cfm: float, supplied_cfm: float | None) -> HousePressure | None:
    """With what is planned: a fan's airflow taken off, or a passive opening beside the leaks."""
    air = job.air
    if supplied_cfm is not None:
        return _pressure(job, max(0.0, exhaust_cfm - supplied_cfm))
    if air.leakage is None or air.make_up != "passive" or air.opening is None:
        return None
    return through_opening(exhaust_cfm, air.leakage, air.opening, exponent=air.exponent)


def _heat(job: Job, needed: MakeUpAir | None, exhaust_cfm: float) -> HeatForAir | None:
    air = job.air
    if air.outdoor is None or air.indoor is None or air.indoor <= air.outdoor:
        return None
    wanted = needed is not None and needed.required.holds
    if not wanted and air.make_up in (None, "none"):
        return None
    return heat_for_air(exhaust_cfm, air.indoor - air.outdoor)


def _missing(job: Job, needed: MakeUpAir | None) -> tuple[Answer, ...]:
    air = job.air
    missing: list[Answer] = [
        ("air", None, name) for name in ("book", "fuel_appliances") if getattr(air, name) is None
    ]
    if job.job.residential_code is None:
        missing.append(("job", None, "residential_code"))
    if needed is not None and needed.required.holds and air.make_up is None:
        missing.append(("air", None, "make_up"))
    if air.make_up == "powered" and air.make_up_airflow is None:
        missing.append(("air", None, "make_up_airflow"))
    if air.make_up == "passive" and air.opening is None:
        missing.append(("air", None, "opening"))
    if air.make_up in ("powered", "passive"):
        missing += [("air", None, name) for name in ("spring", "damper_access") if getattr(air, name) is None]
    return tuple(missing)
