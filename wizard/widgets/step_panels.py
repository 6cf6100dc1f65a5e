"""The steps that show something instead of asking, and with what; `wizard.steps.STEPS` has all steps in their order."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.widgets.commissioning_panel import CommissioningPanel
from wizard.widgets.diagram_panel import DiagramPanel
from wizard.widgets.finding_panel import FindingPanel
from wizard.widgets.interlock_panel import InterlockPanel
from wizard.widgets.print_panel import PrintPanel
from wizard.widgets.schedule_panel import SchedulePanel

if TYPE_CHECKING:
    from collections.abc import Mapping

    from wizard.question import StepId
    from wizard.widgets.step_panel import StepPanel

PANELS: Mapping[StepId, type[StepPanel]] = {
    "findings": FindingPanel,
    "schedules": SchedulePanel,
    "diagram": DiagramPanel,
    "interlocks": InterlockPanel,
    "commissioning": CommissioningPanel,
    "print": PrintPanel,
}
"""The panel of each such step; its help is the page of the same name."""
