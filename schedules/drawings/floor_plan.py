"""The kitchen from above to scale: walls, doors, windows, cabinets, range, hood, boxes and the ways of the cables."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.errors import DrawingError
from schedules.drawings.floor_content import floor_content
from schedules.drawings.floor_figures import EDGE_ROOM_PT, draw_floor
from schedules.drawings.floor_numbers import floor_rows, floor_tables
from schedules.drawings.floor_proof import prove_floor
from schedules.drawings.picture import Paper
from schedules.drawings.running_dimensions import Ruler
from schedules.drawings.sheet_layout import View, lay_out
from schedules.drawings.site_sheets import (
    TABLES_ELSEWHERE,
    SiteDrawing,
    begin,
    common_notes,
    sheets_of_tables,
    tables_in_words,
)

if TYPE_CHECKING:
    from schedules.drawings.floor_content import FloorContent
    from schedules.plan import Plan

_CLEAR_PT_PER_IN = 1.5
"""1/4" = 1', at which a building's plans are drawn (common practice)."""

_NAME = "plan-view"
_TITLE = "Kitchen from above"
_NOTES = (
    "Walls are named as in their elevations; heights stand there. A dot is where cables enter a box. Grey line: "
    "cable in or on a wall or in cabinets. Dashes: above the ceiling. Dots: below the floor. Double line: raceway. "
    "Circle: it rises or drops. Dashed: hung cabinets and the hood. Arrow: it stands further off than is drawn.",
    "How thick a wall is, is drawn as its studs and usual drywall make it; it was not measured.",
)


def plan_view(plan: Plan, paper: Paper = Paper.TABLOID, *, prefix: str = "") -> tuple[SiteDrawing, ...]:
    """The kitchen from above on one sheet, its tables on others where they don't fit beside it.

    prefix: put before every id, so that several drawings fit into one page. Raises DrawingError where no wall was
    measured, the kitchen fits the paper at no scale, or the drawing is not as the plan says.
    """
    content = floor_content(plan)
    along, out = floor_rows(content)
    bounds = content.bounds
    notes = (*_NOTES, TABLES_ELSEWHERE, *common_notes(plan))
    view = View(
        bounds.left,
        bounds.right,
        bounds.bottom,
        bounds.top,
        along,
        out,
        notes,
        above_pt=EDGE_ROOM_PT + 12.0,
        below_pt=EDGE_ROOM_PT,
        down=True,
    )
    tables = floor_tables(plan, content)
    laid = lay_out(lambda _: (view,), tables, paper, clear_pt_per_in=_CLEAR_PT_PER_IN, most_parts=1)
    if laid is None:
        raise DrawingError((f"the kitchen fits {paper} paper at no scale of the rule; take larger paper",))
    layout = laid[0]
    sheet = begin(layout, plan, f"{prefix}plan-", _TITLE, _datum(content))
    draw_floor(sheet, layout.mapping, content)
    ruler = Ruler(sheet, layout.mapping, view.first_in, view.last_in, view.low_in, view.high_in)
    for place, row in enumerate(view.along):
        ruler.below(row, place, layout.along_top(place))
    for place, row in enumerate(view.up):
        ruler.beside(row, place, layout.up_left(place))
    words = f"{_TITLE}, {plan.derived.job.job.name}. {tables_in_words(tables)}"
    svg = sheet.svg(_TITLE, words)
    failures = prove_floor(content, svg, sheet.prefix)
    if failures:
        raise DrawingError(failures)
    drawn = SiteDrawing(_NAME, f"{_TITLE}, {layout.scale.words}", svg, layout.width, layout.height, words)
    if layout.tables:
        return (drawn,)
    overleaf = sheets_of_tables(
        plan, tables, paper, name=_NAME, title=_TITLE, datum=_datum(content), prefix=f"{prefix}plan-"
    )
    return (drawn, *overleaf)


def _datum(content: FloorContent) -> str:
    wall = f"wall {content.main.tag}"
    return f"Every measure runs from one datum: {wall}'s left corner, along {wall} and out from it, all finished."
