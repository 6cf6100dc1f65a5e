"""Schedules in the app: a table that takes long is worked out away from the keys, once for each plan."""

from __future__ import annotations

import threading
from typing import TYPE_CHECKING

from schedules.rows.every import SCHEDULES
from tests.stage import sample_job, staged

if TYPE_CHECKING:
    from pathlib import Path

    import pytest

    from schedules.plan import Plan
    from schedules.rows.schedule import Schedule


async def test_nobody_waits_for_a_table_that_takes_long(site: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    make, go_on, made = SCHEDULES["conductors"], threading.Event(), []

    def slowly(plan: Plan) -> Schedule[object]:
        made.append(plan)
        assert go_on.wait(timeout=60)
        return make(plan)

    monkeypatch.setitem(SCHEDULES, "conductors", slowly)
    async with staged(sample_job("galley-gas", site)) as stage:
        try:
            await stage.press("s")
            await stage.shows("Terminations by enclosure", "Q1:L")
            await stage.pilot.press("right_square_bracket")
            await stage.shows("Conductors   2 of", "being worked out")
            await stage.pilot.press("right_square_bracket")
            await stage.shows("Spare conductors   3 of")
        finally:
            go_on.set()
        await stage.press("left_square_bracket")
        await stage.shows("Conductors, both ends   2 of", "Q1:L")
        count = len(made)
        await stage.press("slash", "1", "0", "1", "enter", "right_square_bracket", "left_square_bracket")
        assert len(made) == count
