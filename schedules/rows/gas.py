"""The range's gas: shutoffs, connector, fire valve, pressure."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.rows.figures import FigureRow, figure_row, figures

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.answers import Verdict
    from schedules.gas.gas_supply import GasSupply
    from schedules.plan import Plan
    from schedules.rows.schedule import Schedule


def gas(plan: Plan) -> Schedule[FigureRow]:
    """Shutoffs, connector, fire valve, pressure."""
    supply = plan.derived.gas_supply
    rows = () if supply is None else tuple(_gas(supply))
    note = "Gas work is a licensed fitter's: test every joint that was touched."
    return figures("gas", "Gas", rows, note)


def _gas(supply: GasSupply) -> Iterator[FigureRow]:
    for what, verdict in (
        ("manual shutoff", supply.shutoff),
        ("connector", supply.connector),
        ("fire valve", supply.fire_valve),
    ):
        if verdict is not None:
            yield _verdict(what, verdict)
    path = supply.path
    if path is not None:
        steps = (path.pipe,) if path.valve is None else (path.pipe, path.valve)
        for step in steps:
            yield figure_row("Pressure", step.working.name, step.working.result, step.working)
        yield figure_row(
            "Pressure",
            "lost up to the range",
            f"{path.lost_in_wc:.2f} in wc",
            path.working,
            limit=f"{path.allowed_in_wc:g} in wc",
            good=path.enough,
        )


def _verdict(what: str, verdict: Verdict) -> FigureRow:
    return FigureRow(
        "Shutoffs",
        what,
        verdict.working.result,
        next((item.value for item in reversed(verdict.working.inputs) if item.value), ""),
        verdict.holds,
        str(verdict.working.source),
    )
