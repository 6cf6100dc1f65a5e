"""The air: duct, fan and length; make-up air and the house's pressure."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.rows.figures import FigureRow, figure_row, figures

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.exhaust.operation import Exhaust
    from schedules.make_up.house_air import HouseAir
    from schedules.plan import Plan
    from schedules.rows.schedule import Schedule

_IN_PER_FT = 12


def duct(plan: Plan) -> Schedule[FigureRow]:
    """Duct, airflow and length."""
    exhaust = plan.derived.exhaust
    rows = () if exhaust is None else tuple(_exhaust(plan, exhaust))
    note = "Measure the airflow when all is up: caps and dampers have no published losses."
    return figures("duct", "Exhaust duct", rows, note)


def air(plan: Plan) -> Schedule[FigureRow]:
    """Make-up air and the house's pressure."""
    found = plan.derived.house_air
    rows = () if found is None else tuple(_air(plan, found))
    return figures("air", "Make-up air", rows, "Local amendments go both ways: ask the authority.")


def _exhaust(plan: Plan, exhaust: Exhaust) -> Iterator[FigureRow]:
    part = "Duct"
    length = plan.derived.job.duct.length
    yield figure_row(part, "hood's collar", exhaust.collar.name, exhaust.air.working)
    if exhaust.section is not None and exhaust.surface is not None:
        lining = exhaust.surface
        yield FigureRow(
            part,
            "duct",
            f"{exhaust.section.name}, {lining.name}",
            "hood duct",
            lining.hood_duct,
            str(lining.source),
        )
    if exhaust.advised is not None:
        yield figure_row(part, "quiet round duct", exhaust.advised.working.result, exhaust.advised.working)
    yield figure_row(part, "air", exhaust.air.working.result, exhaust.air.working)
    point = exhaust.point
    if point is not None:
        part = "Airflow"
        wanted = exhaust.wanted_cfm
        yield figure_row(
            part,
            "airflow through this duct",
            f"{point.airflow_cfm:.0f} cfm",
            point.working,
            limit="" if wanted is None else f"{wanted:g} cfm by {exhaust.wanted_by}",
            good=None if wanted is None else point.airflow_cfm >= wanted,
        )
        yield figure_row(part, "loss of the duct", f"{point.loss_in_wg:.2f} in wg", point.working)
        yield figure_row(part, "manometer across the fan", f"{point.static_in_wg:.2f} in wg", point.working)
        yield figure_row(
            part, "speed in the duct", f"{point.velocity_fpm:.0f} fpm, {exhaust.speed}", point.working
        )
    if exhaust.longest is not None and length is not None:
        longest = exhaust.longest
        yield figure_row(
            "Length",
            longest.working.name,
            longest.working.result,
            longest.working,
            limit=f"planned {length / _IN_PER_FT:g} ft",
            good=longest.length_in >= length,
        )
    if exhaust.code_length is not None and length is not None:
        code = exhaust.code_length
        yield figure_row(
            "Length",
            code.working.name,
            code.working.result,
            code.working,
            limit=f"planned {length / _IN_PER_FT:g} ft",
            good=code.length_in >= length,
        )


def _air(plan: Plan, found: HouseAir) -> Iterator[FigureRow]:
    needed = found.needed
    if needed is not None:
        working = needed.required.working
        yield figure_row(
            "Make-up air", "asked for", working.result, working, limit="; ".join(needed.required.reasons)
        )
        if found.supplied_cfm is not None and needed.required.holds:
            yield figure_row(
                "Make-up air",
                "fan brings",
                f"{found.supplied_cfm:g} cfm",
                working,
                limit=f"about {needed.airflow_cfm:.0f} cfm",
                good=found.fan_is_enough,
            )
    if found.opening is not None:
        planned = plan.derived.job.air.opening
        yield figure_row(
            "Make-up air",
            found.opening.working.name,
            found.opening.working.result,
            found.opening.working,
            limit="" if planned is None else f"planned {planned:g} sq in",
            good=None if planned is None else planned >= found.opening.area_sq_in,
        )
    if found.heat is not None:
        yield figure_row("Make-up air", "heat for it", found.heat.working.result, found.heat.working)
    for name, pressure in (("without make-up air", found.without), ("with what is planned", found.with_)):
        if pressure is not None:
            yield figure_row("House", f"below outdoors, {name}", pressure.working.result, pressure.working)
