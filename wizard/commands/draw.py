"""`hoodwright draw JOB -o FILE|DIR`: the proved diagrams."""

from __future__ import annotations

import contextlib
from pathlib import Path
from typing import TYPE_CHECKING

from wizard.commands.command import Command, add_job
from wizard.commands.ladder_files import ladder_files
from wizard.commands.named import named
from wizard.commands.put_wrong import add_wrong
from wizard.commands.scene_picture import refuse_wrong_alone, scene_picture
from wizard.diagnostics import ExitCode, RefusedError, warn
from wizard.output import print_lines

if TYPE_CHECKING:
    import argparse
    from collections.abc import Iterator

    from schedules.drawings.drawing import Drawing
    from schedules.drawings.engine import Engine
    from schedules.drawings.picture import Picture
    from schedules.drawings.site_sheets import SiteDrawing
    from schedules.plan import Plan

VIEWS = ("overview", "point-to-point", "ladder", "plan", "elevation")
TO_SCALE = ("plan", "elevation")
FORMATS = ("svg", "png", "dot")
PNG_DPI = 150
PAPERS = ("Letter", "A4", "Tabloid", "A3")


def _arguments(parser: argparse.ArgumentParser) -> None:
    add_job(parser)
    what = parser.add_mutually_exclusive_group()
    what.add_argument(
        "--view",
        choices=VIEWS,
        help="else all of them into a folder, point-to-point into a file; plan, elevation: to scale, SVG or PNG",
    )
    what.add_argument("--enclosure", metavar="TAG", help="all that lands in one enclosure, e.g. H")
    what.add_argument("--circuit", metavar="TAG", help="the conductors of one circuit, e.g. Q1")
    what.add_argument(
        "--ladder", metavar="NAME", help="one circuit, e.g. Q1, or one effect's interlock as a ladder diagram"
    )
    what.add_argument(
        "--state",
        metavar="NAME",
        help="which conductors are live in a state, e.g. cooking; marked, what it changes",
    )
    add_wrong(parser, required=False)
    parser.add_argument(
        "--reach",
        metavar="CABLE",
        help="hatch where an end of this cable may stand, e.g. W4; else of every cable that is short or tight",
    )
    parser.add_argument("--format", choices=FORMATS, help="else as the file's ending says, else svg")
    parser.add_argument(
        "--paper", choices=PAPERS, help="sheet to fit; else Tabloid, for one enclosure or circuit Letter"
    )
    parser.add_argument(
        "-o",
        "--output",
        metavar="FILE|DIR",
        type=Path,
        required=True,
        help="the file to write, or a folder, made where a name without an ending isn't there yet",
    )
    parser.add_argument(
        "--engine",
        choices=("wheel", "system"),
        default="wheel",
        help="the drawing engine: installed with hoodwright (wheel), or the system's own Graphviz",
    )
    parser.add_argument("--force", action="store_true", help="replace files that are there already")


def _run(arguments: argparse.Namespace) -> int:
    from schedules.drawings.files import content, drawing_files  # noqa: PLC0415
    from schedules.files.whole_file import write_all  # noqa: PLC0415
    from schedules.planned import plan_file  # noqa: PLC0415
    from schedules.writers.listing import verdict  # noqa: PLC0415

    refuse_wrong_alone(arguments)
    folder = _folder(arguments.output)
    ending = _ending(arguments.output, arguments.format, into_folder=folder is not None)
    plan = plan_file(arguments.job, remedies=False).plan
    engine = _engine(arguments.engine)
    contents: dict[Path, str | bytes] = {}
    with _told_by_drawing():
        if ending != "dot" or arguments.view in TO_SCALE:
            contents |= _to_scale(arguments, plan, folder, ending)
        contents |= ladder_files(arguments, plan, folder, ending, engine=engine, stem=_stem(plan))
        pictures = _pictures(arguments, plan, every_view=folder is not None)
        if folder is None:
            for _, picture in pictures:
                contents[arguments.output] = content(_one(picture, engine), ending)
        else:
            drawn = drawing_files(_stem(plan), pictures, (ending,), engine)
            contents |= {folder / name: data for name, data in drawn.items()}
    if folder is not None:
        _make(folder)
    write_all(contents, replace=arguments.force)
    print_lines(f"wrote {path}" for path in contents)
    if plan.sound:
        return ExitCode.SOUND
    warn(f"hoodwright draw: {verdict(plan)} hoodwright check lists them.")
    return ExitCode.FINDINGS


def _folder(output: Path) -> Path | None:
    """The folder that is written into; None where one file is asked for."""
    return output if output.is_dir() or not (output.suffix or output.exists()) else None


def _make(folder: Path) -> None:
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise RefusedError(
            f"hoodwright draw: --output: the folder can't be made: {error.strerror}"
        ) from error


def _ending(output: Path, asked: str | None, *, into_folder: bool) -> str:
    written = "" if into_folder else output.suffix.removeprefix(".").lower()
    if asked is not None and written in FORMATS and written != asked:
        raise RefusedError(
            f'hoodwright draw: --format: found {asked} for "{output}"; allowed: the same as the file\'s ending'
        )
    if asked is None and written and written not in FORMATS:
        allowed = ", ".join(f".{ending}" for ending in FORMATS)
        raise RefusedError(
            f'hoodwright draw: --output: found "{output}"; allowed: a name that ends in {allowed}, or --format'
        )
    return asked or written or FORMATS[0]


def _pictures(
    arguments: argparse.Namespace, plan: Plan, *, every_view: bool
) -> Iterator[tuple[str, Picture]]:
    """The pictures asked for, each with its name in a file's name."""
    from schedules.drawings.picture import Paper  # noqa: PLC0415
    from schedules.drawings.views import (  # noqa: PLC0415
        one_circuit,
        one_enclosure,
        overview,
        point_to_point,
    )

    if arguments.view in (*TO_SCALE, "ladder") or arguments.ladder:
        return
    paper = {} if arguments.paper is None else {"paper": Paper(arguments.paper)}
    selection = plan.derived.selection
    enclosures, circuits = (
        [item.tag for item in kind] for kind in (selection.enclosures, selection.circuits)
    )
    for option, known, draw_one in (
        ("enclosure", enclosures, one_enclosure),
        ("circuit", circuits, one_circuit),
    ):
        typed = getattr(arguments, option)
        if typed is not None:
            tag = named(f"hoodwright draw: --{option}", typed, known)
            yield f"{option}-{tag.lower()}", draw_one(plan, tag, **paper)
            return
    if arguments.state is not None:
        yield scene_picture(arguments, plan)
        return
    if arguments.view == "overview" or (arguments.view is None and every_view):
        yield "overview", overview(plan, **paper)
    if arguments.view != "overview":
        yield "point-to-point", point_to_point(plan, **paper)


def _to_scale(
    arguments: argparse.Namespace, plan: Plan, folder: Path | None, ending: str
) -> dict[Path, str | bytes]:
    """The kitchen from above and its walls, as asked; into a folder both, where the walls are measured."""
    from schedules.drawings.elevation import elevations  # noqa: PLC0415
    from schedules.drawings.floor_plan import plan_view  # noqa: PLC0415
    from schedules.drawings.picture import Paper  # noqa: PLC0415

    everything = folder is not None and not any(
        (arguments.view, arguments.enclosure, arguments.circuit, arguments.ladder, arguments.state)
    )
    views = tuple(
        view for view in TO_SCALE if view == arguments.view or (everything and plan.derived.room is not None)
    )
    cable = _reach(arguments.reach, plan, views)
    if views and ending == "dot":
        raise RefusedError(f"hoodwright draw: --view {views[0]}: found dot; allowed: svg, png")
    if everything and not views:
        warn("hoodwright draw: no wall is measured, so nothing is drawn to scale")
    paper = Paper(arguments.paper or Paper.TABLOID)
    drawings: list[SiteDrawing] = []
    if "plan" in views:
        drawings += plan_view(plan, paper)
    if "elevation" in views:
        drawings += elevations(plan, paper, cable=cable)
    if folder is None and len(drawings) > 1:
        raise RefusedError(
            f"hoodwright draw: --output: found one file for {len(drawings)} sheets; "
            "allowed: a folder, or larger paper for fewer sheets"
        )
    paths = (
        arguments.output if folder is None else folder / f"{_stem(plan)}-{drawing.name}.{ending}"
        for drawing in drawings
    )
    return {path: _sheet(drawing, ending) for path, drawing in zip(paths, drawings, strict=True)}


def _reach(asked: str | None, plan: Plan, views: tuple[str, ...]) -> str | None:
    """The cable whose reach is hatched; one that no drawing could show is refused."""
    from schedules.drawings.wall_content import movable  # noqa: PLC0415

    if asked is None:
        return None
    if "elevation" not in views:
        raise RefusedError(
            "hoodwright draw: --reach: found no elevation to hatch it on; allowed: --view elevation"
        )
    reaches = movable(plan)
    none = "none, since no factory cable has an end on a wall that may move"
    cable = named("hoodwright draw: --reach", asked, reaches, none=none)
    if not reaches[cable]:
        warn(f"hoodwright draw: {cable} reaches nowhere on a measured wall, so nothing is hatched for it")
    return cable


def _sheet(drawing: SiteDrawing, ending: str) -> str | bytes:
    from schedules.writers.typesetting import images_of  # noqa: PLC0415

    if ending == "svg":
        return drawing.svg
    return images_of([(drawing.svg, drawing.width_pt, drawing.height_pt)], dpi=PNG_DPI)[0]


def _engine(name: str) -> Engine:
    from schedules.drawings.engine import WHEEL, system_engine  # noqa: PLC0415

    engine = WHEEL if name == "wheel" else system_engine()
    if engine is None:
        raise RefusedError(
            "hoodwright draw: --engine: found no Graphviz on this system; allowed: wheel, or install Graphviz"
        )
    return engine


@contextlib.contextmanager
def _told_by_drawing() -> Iterator[None]:
    """Whatever can't be drawn or proved is refused in words."""
    from schedules.drawings.errors import DrawingError  # noqa: PLC0415

    try:
        yield
    except DrawingError as error:
        raise RefusedError(
            *(f"hoodwright draw: not proved, nothing written: {failure}" for failure in error.failures)
        ) from error


def _one(picture: Picture, engine: Engine) -> Drawing:
    """One drawing, with a word on standard error where its paper is too small for it."""
    from schedules.drawings.drawing import draw  # noqa: PLC0415

    drawing = draw(picture, engine=engine)
    fit = drawing.on(picture.paper)
    if not fit.readable:
        warn(
            f"hoodwright draw: on {picture.paper} paper the smallest words are {fit.smallest_pt:.1f} pt; "
            "drawn into a folder it comes as several pages that can be read"
        )
    return drawing


def _stem(plan: Plan) -> str:
    from schedules.text import for_filename  # noqa: PLC0415

    return for_filename(plan.derived.job.job.name)


COMMAND = Command(
    name="draw",
    summary="draw the installation: diagrams, ladders, one enclosure or circuit, kitchen and walls to scale",
    description=(
        "Draw a job's installation. Before a drawing is written it is read back: every line must end on the terminals "
        "that the plan names, or nothing is written and the message says which conductor.\n\n"
        "Exit status: 0 written, no finding at stop or fix, 1 written, but the plan has some, 2 nothing written."
    ),
    examples=(
        ("hoodwright draw kitchen.toml -o kitchen.svg", "every conductor, point to point"),
        ("hoodwright draw kitchen.toml --view overview -o overview.png", "enclosures and cables"),
        ("hoodwright draw kitchen.toml --view plan -o plan.svg", "the kitchen from above, to scale"),
        ("hoodwright draw kitchen.toml --view elevation -o walls/", "each wall to scale, to drill by"),
        (
            "hoodwright draw kitchen.toml --view elevation --reach W4 -o walls/",
            "and where W4's end may stand",
        ),
        ("hoodwright draw kitchen.toml --view ladder -o drawings/", "every circuit as a ladder diagram"),
        ("hoodwright draw kitchen.toml --ladder Q1 -o q1.svg", "one circuit as a ladder, and what it feeds"),
        ("hoodwright draw kitchen.toml --enclosure H --paper Letter -o hood.svg", "one enclosure"),
        ("hoodwright draw kitchen.toml --state cooking -o live.svg", "what is live while cooking"),
        (
            "hoodwright draw kitchen.toml --state cooking --break 701 -o live.svg",
            "and what a broken wire changes",
        ),
        (
            "hoodwright draw kitchen.toml -o drawings/ --force",
            "all views into a folder, on as many pages as can be read",
        ),
    ),
    arguments=_arguments,
    run=_run,
)
