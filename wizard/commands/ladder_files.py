"""What `hoodwright draw` writes of ladders: the whole, one circuit, one effect's interlock."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wizard.commands.named import named
from wizard.diagnostics import RefusedError, warn

if TYPE_CHECKING:
    import argparse
    from pathlib import Path

    from schedules.drawings.engine import Engine
    from schedules.drawings.ladder.content import Ladder
    from schedules.plan import Plan


def ladder_files(
    arguments: argparse.Namespace, plan: Plan, folder: Path | None, ending: str, *, engine: Engine, stem: str
) -> dict[Path, str | bytes]:
    """The ladder asked for, in its files; into a folder the whole one too, where nothing else is asked for."""
    from schedules.drawings.files import content  # noqa: PLC0415
    from schedules.drawings.ladder.drawing import draw_ladder  # noqa: PLC0415

    everything = folder is not None and not any(
        (arguments.view, arguments.enclosure, arguments.circuit, arguments.state)
    )
    if not (arguments.view == "ladder" or arguments.ladder or everything):
        return {}
    name, picture = _asked(arguments, plan)
    pages = draw_ladder(picture, engine=engine)
    if folder is None and len(pages) > 1:
        raise RefusedError(
            f"hoodwright draw: --output: found one file for {len(pages)} sheets; "
            "allowed: a folder, or larger paper for fewer sheets"
        )
    smallest = min((page.on(picture.paper) for page in pages), key=lambda fit: fit.smallest_pt)
    if not smallest.readable:
        warn(
            f"hoodwright draw: on {picture.paper} paper the smallest words of the ladder are "
            f"{smallest.smallest_pt:.1f} pt"
        )
    numbers = [""] if len(pages) == 1 else [f"-{number}" for number in range(1, len(pages) + 1)]
    paths = (
        arguments.output if folder is None else folder / f"{stem}-{name}{number}.{ending}"
        for number in numbers
    )
    return {path: content(page, ending) for path, page in zip(paths, pages, strict=True)}


def _asked(arguments: argparse.Namespace, plan: Plan) -> tuple[str, Ladder]:
    """The ladder's name in a file's name, and the ladder."""
    from schedules.drawings.ladder.views import (  # noqa: PLC0415
        circuit_ladder,
        effects,
        interlock_ladder,
        ladder,
    )
    from schedules.drawings.picture import Paper  # noqa: PLC0415

    paper = {} if arguments.paper is None else {"paper": Paper(arguments.paper)}
    asked: str | None = arguments.ladder
    if asked is None:
        return "ladder", ladder(plan, **paper)
    circuits = [need.circuit.tag for need in plan.derived.circuits]
    found = named("hoodwright draw: --ladder", asked, [*circuits, *effects(plan)])
    draw_one = circuit_ladder if found in circuits else interlock_ladder
    return f"ladder-{found.lower()}", draw_one(plan, found, **paper)
