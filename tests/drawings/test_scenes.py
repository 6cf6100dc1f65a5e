"""Scenes of a story drawn: live and dead against the meter's own readings, and the proof against a wrong pen."""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import TYPE_CHECKING

from schedules.behaviour.wire_states import LIVE_FROM_V, WireKind
from schedules.connections.points import Point
from schedules.drawings.drawing import draw
from schedules.drawings.in_scene import in_scene
from schedules.drawings.picture import Pen
from schedules.drawings.proof import prove
from schedules.network.meter import Meter
from schedules.planned import plan_file
from schedules.sheet.breakers import MAINS
from schedules.teaching.story import Scene, Stage
from schedules.templates import job_template, sheet_template

if TYPE_CHECKING:
    from schedules.drawings.picture import Line
    from schedules.plan import Plan

GALLEY = Path(__file__).parents[2] / "samples" / "jobs" / "galley-gas.toml"


@cache
def galley() -> Plan:
    return plan_file(GALLEY, remedies=False).plan


def played(plan: Plan, *events: str) -> tuple[Scene, ...]:
    stage = Stage(plan.derived)
    return stage.play([stage.read(event) for event in events])


def lines(plan: Plan, *events: str) -> dict[str, Line]:
    *_, before, scene = played(plan, *events)
    return {line.key: line for line in in_scene(plan, scene, before).lines}


def test_live_is_what_a_meter_to_ground_shows() -> None:
    """Each end of each conductor but the make-up unit's, whose supply of 24 V is isolated from ground."""
    grounding = Point(MAINS, "PE")
    for scene in played(galley(), "state cooking", "break 702", "state fire-pull"):
        meter = Meter(scene.situation)
        for number, wire in scene.wires.items():
            if number.startswith("14"):
                continue
            shown = [meter.open_volts(end, grounding).ac for end in wire.ends]
            assert wire.live_ends == tuple(
                end for end, volts in zip(wire.ends, shown, strict=True) if volts >= LIVE_FROM_V
            )
            live = max(shown) >= LIVE_FROM_V
            assert wire.kind is (WireKind.OPEN if number in scene.change.opened else wire.kind)
            assert wire.kind is WireKind.OPEN or (wire.kind is WireKind.LIVE) == live
    assert scene.wires["1401"].kind is WireKind.LIVE
    assert scene.wires["1403"].kind is not WireKind.LIVE


def test_what_an_event_changes_stands_at_both_ends() -> None:
    broken = lines(galley(), "state cooking", "break 702")
    assert (broken["702"].note, broken["702"].pen) == ("× OPEN, live at Y1:2", Pen.OPEN)
    assert (broken["701"].note, broken["701"].pen) == ("LIVE 120 V", Pen.LIVE)
    fire = lines(galley(), "state cooking", "state fire-pull")
    assert (fire["701"].note, fire["701"].pen) == ("− DEAD NOW", Pen.NOW_DEAD)
    assert (fire["1304"].note, fire["1304"].pen) == ("+ LIVE NOW 120 V", Pen.NOW_LIVE)
    swapped = lines(galley(), "state idle", "swap 201@X1:2L 202@X1:2N")
    assert (swapped["201"].note, str(swapped["201"].b.terminal)) == ("MOVED, LIVE 120 V", "X1:2N")
    touching = lines(galley(), "state idle", "join X1:1L X1:1N")
    assert (touching["!1"].note, touching["101"].note) == ("TOUCHES", "− DEAD NOW")


def test_a_line_that_is_not_drawn_as_it_is_said_to_be_is_not_proved(tmp_path: Path) -> None:
    (tmp_path / "sheet.toml").write_text(sheet_template(), encoding="utf-8")
    (tmp_path / "job.toml").write_text(job_template(), encoding="utf-8")
    plan = plan_file(tmp_path / "job.toml", remedies=False).plan
    (rest,) = played(plan)
    drawing = draw(in_scene(plan, rest, None))
    shown = drawing.picture.lines
    assert [line.pen for line in shown].count(Pen.DEAD) > 1
    dead = next(place for place, line in enumerate(shown) if line.pen is Pen.DEAD)
    said = (*shown[:dead], replace(shown[dead], pen=Pen.LIVE), *shown[dead + 1 :])
    assert f"conductor '{shown[dead].key}' is drawn in #1a1a1a, dashed instead of #1a1a1a, solid" in prove(
        replace(drawing.picture, lines=said), drawing.svg
    )
