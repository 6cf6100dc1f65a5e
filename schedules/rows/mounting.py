"""The hood on its wall: its figures, each hole of its bracket and what it meets, the blocks to add."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.mounting.stud_hits import Hit
from schedules.quantities.lengths import format_length
from schedules.rows.figures import FigureRow, figure_row, figures
from schedules.rows.schedule import DASH, Column, Schedule

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.mounting.bracket import Fastening, Hole
    from schedules.mounting.hanging import Hanging
    from schedules.plan import Plan


@dataclass(frozen=True, slots=True)
class HoleRow:
    """One hole. along, up: from the wall's left corner and the finished floor [in]. off: from the stud's centre [in].

    pull, shear: what a fastener holds there straight out and along the wall [lb], None where it holds nothing.
    """

    hole: int
    along_in: float
    up_in: float
    stud_in: float | None
    off_in: float | None
    meets: str
    pull_lb: float | None
    shear_lb: float | None


@dataclass(frozen=True, slots=True)
class BlockRow:
    """One block between two studs: from, to along the wall; bottom, top above the finished floor [in]."""

    size: str
    from_in: float
    to_in: float
    bottom_in: float
    top_in: float
    holes: int
    state: str


def mounting(plan: Plan) -> Schedule[FigureRow]:
    """Height, fit, fasteners, service position and lift of the hood."""
    hanging = plan.derived.hanging
    rows = (
        ()
        if hanging is None
        else (*_height(plan, hanging), *_fits(hanging), *_use(hanging), *_service(plan, hanging))
    )
    return figures(
        "mounting", "Mounting", rows, "Heights are above the finished floor where nothing else is said."
    )


def bracket(plan: Plan) -> Schedule[HoleRow]:
    """One row per hole, left to right."""
    fastening = _fastening(plan)
    rows = (
        () if fastening is None else tuple(_hole(n, hole) for n, hole in enumerate(fastening.holes, start=1))
    )
    return Schedule(
        id="bracket",
        title="Bracket holes",
        columns=(
            Column("hole", "Hole", lambda row: str(row.hole), right=True),
            Column("along", "Along", lambda row: format_length(row.along_in), right=True),
            Column("up", "Up", lambda row: format_length(row.up_in), right=True),
            Column("meets", "Meets", lambda row: row.meets),
            Column("stud", "Stud at", lambda row: _length(row.stud_in), right=True),
            Column("off", "Off it", lambda row: _length(row.off_in), right=True),
            Column("pull", "Holds out", lambda row: _pounds(row.pull_lb), rank=2, right=True),
            Column("shear", "Holds along", lambda row: _pounds(row.shear_lb), rank=2, right=True),
        ),
        rows=tuple(sorted(rows, key=lambda row: (row.along_in, row.up_in))),
        note=f"{_drill(fastening)}Find each stud's both edges with a nail and photograph them before cover."
        if rows
        else "",
    )


def blocks(plan: Plan) -> Schedule[BlockRow]:
    """Blocks to add before cover, left to right."""
    fastening = _fastening(plan)
    state = plan.derived.job.mounting.blocks
    rows = () if fastening is None else fastening.blocks
    return Schedule(
        id="blocks",
        title="Blocks behind the bracket",
        columns=(
            Column("size", "Lumber, flat", lambda row: row.size),
            Column("from", "From", lambda row: format_length(row.from_in), right=True),
            Column("to", "To", lambda row: format_length(row.to_in), right=True),
            Column("bottom", "Bottom", lambda row: format_length(row.bottom_in), right=True),
            Column("top", "Top", lambda row: format_length(row.top_in), right=True),
            Column("holes", "Holes", lambda row: str(row.holes), right=True),
            Column("state", "State", lambda row: row.state),
        ),
        rows=tuple(
            BlockRow(
                block.size,
                block.from_in,
                block.to_in,
                block.bottom_in,
                block.top_in,
                len(block.holes),
                "to decide" if state == "none" else state,
            )
            for block in rows
        ),
        note="Face flush with the studs; heights above the finished floor." if rows else "",
    )


def _fastening(plan: Plan) -> Fastening | None:
    hanging = plan.derived.hanging
    return None if hanging is None else hanging.fastening


def _drill(fastening: Fastening | None) -> str:
    if fastening is None or fastening.lead_hole_in is None:
        return ""
    least, most = fastening.lead_hole_in
    smallest = format_length(least, resolution_denominator=32, rounding="up")
    return f"Lead hole {smallest} to {format_length(most, resolution_denominator=32, rounding='down')}. "


def _hole(number: int, hole: Hole) -> HoleRow:
    meets = "block" if hole.in_block else "stud" if hole.hit.hit is Hit.HOLDS else str(hole.hit.hit)
    return HoleRow(
        hole=number,
        along_in=hole.hit.along_in,
        up_in=hole.up_in,
        stud_in=hole.hit.stud_in,
        off_in=hole.hit.off_in,
        meets=meets,
        pull_lb=None if hole.held is None else hole.held.pull_lb,
        shear_lb=None if hole.held is None else hole.held.shear_lb,
    )


def _length(value: float | None) -> str:
    return DASH if value is None else format_length(value)


def _pounds(value: float | None) -> str:
    return DASH if value is None else f"{value:.0f} lb"


def _height(plan: Plan, hanging: Hanging) -> Iterator[FigureRow]:
    clearance, window = plan.derived.job.mounting.clearance, hanging.window
    if clearance is not None and window is not None:
        yield figure_row(
            "Height",
            "underside above the cooking surface",
            format_length(clearance),
            window.working,
            limit=window.working.result,
            good=window.holds(clearance),
        )
    for height in hanging.heights:
        yield figure_row(
            "Height",
            "bracket holes above the floor as it is now",
            format_length(height.height_in),
            height.working,
        )


def _fits(hanging: Hanging) -> Iterator[FigureRow]:
    for fit in hanging.fits:
        yield figure_row(
            "Fit",
            fit.working.name,
            format_length(fit.spare_in),
            fit.working,
            limit="0 in or more",
            good=fit.fits,
        )
    for over in hanging.overhead:
        yield figure_row(
            "Fit",
            f"cabinet {over.cabinet} above the cooking surface",
            format_length(over.above_surface_in),
            over.least.working,
            limit=f"{format_length(over.least.height_in)} or more",
            good=over.above_surface_in >= over.least.height_in,
        )


def _use(hanging: Hanging) -> Iterator[FigureRow]:
    fastening = hanging.fastening
    if fastening is not None:
        for use in (fastening.use, fastening.service_use):
            if use is not None:
                yield figure_row(
                    "Fasteners",
                    use.working.name,
                    use.working.result,
                    use.working,
                    limit="100 % or less",
                    good=use.holds,
                )


def _service(plan: Plan, hanging: Hanging) -> Iterator[FigureRow]:
    swept = hanging.swept
    if swept is not None:
        for what, (low, high) in (
            ("keep clear for service, along", swept.along_in),
            ("keep clear for service, out", swept.out_in),
            ("keep clear for service, up", swept.up_in),
        ):
            yield figure_row("Service", what, f"{format_length(low)} to {format_length(high)}", swept.working)
        yield figure_row(
            "Service",
            "lowered, above the cooking surface",
            format_length(swept.above_surface_in),
            swept.working,
        )
    if hanging.lift is not None:
        lift, machine = hanging.lift, plan.derived.job.mounting.lift
        yield figure_row(
            "Lift",
            lift.working.name,
            lift.working.result,
            lift.working,
            limit="over 1, so the lift or jack is used" if machine and not lift.within else "1 or less",
            good=lift.within or machine,
        )
