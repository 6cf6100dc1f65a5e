"""What `hoodwright draw --state` draws: what is live in a state, and what one thing put wrong changes of that."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.commands.named import named
from wizard.commands.put_wrong import wrong_asked, wrong_is_asked
from wizard.diagnostics import RefusedError

if TYPE_CHECKING:
    import argparse

    from schedules.drawings.picture import Picture
    from schedules.plan import Plan


def refuse_wrong_alone(arguments: argparse.Namespace) -> None:
    """Something put wrong shows in a state alone. Raises RefusedError where none is named."""
    if wrong_is_asked(arguments) and arguments.state is None:
        raise RefusedError(
            "hoodwright draw: found something put wrong and no state to see it in; "
            "allowed: --state NAME beside --break, --swap or --join"
        )


def scene_picture(arguments: argparse.Namespace, plan: Plan) -> tuple[str, Picture]:
    """The picture asked for, with its name in a file's name. Marked is what the last event changed."""
    from schedules.drawings.in_scene import in_scene  # noqa: PLC0415
    from schedules.drawings.picture import Paper  # noqa: PLC0415
    from schedules.teaching.story import Event, EventKind, Stage  # noqa: PLC0415

    stage = Stage(plan.derived)
    state = named("hoodwright draw: --state", arguments.state, stage.cases)
    events = list(stage.way_to(state))
    if wrong_is_asked(arguments):
        fault = wrong_asked("draw", plan.derived, arguments)
        events.append(Event(EventKind.BREAK, fault.says, fault=fault))
    *_, before, scene = stage.play(events)
    paper = {} if arguments.paper is None else {"paper": Paper(arguments.paper)}
    return f"state-{state}", in_scene(plan, scene, before, **paper)
