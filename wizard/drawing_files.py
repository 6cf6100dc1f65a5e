"""Write a plan's proved drawings beside its job, and open a file in the system's viewer."""

from __future__ import annotations

import subprocess
import sys
from typing import TYPE_CHECKING

from schedules.files.whole_file import write_all
from schedules.text import for_filename

if TYPE_CHECKING:
    from collections.abc import Callable
    from pathlib import Path

    from schedules.drawings.ladder.content import Ladder
    from schedules.drawings.picture import Picture
    from schedules.plan import Plan


def write_drawings(
    plan: Plan, folder: Path, *, ours: frozenset[Path] | None, tell: Callable[[str], None]
) -> tuple[Path, ...]:
    """Write point-to-point, overview and ladder as SVG and PNG, as `hoodwright draw` draws them; the files written.

    ours: files that may be replaced, None: any of these names. tell: is told how far it is; whatever it raises stops
    the work. Raises DrawingError where a drawing is not proved or the engine fails, InputError where the folder takes
    no file or has another one of this name; nothing is written then.
    """
    # The drawing engine is loaded only when somebody draws.
    from schedules.drawings.files import drawing_files  # noqa: PLC0415
    from schedules.drawings.ladder.views import ladder  # noqa: PLC0415
    from schedules.drawings.views import overview, point_to_point  # noqa: PLC0415

    stem = for_filename(plan.derived.job.job.name)
    contents: dict[Path, str | bytes] = {}
    pictures: tuple[tuple[str, Callable[[Plan], Picture | Ladder]], ...] = (
        ("point-to-point", point_to_point),
        ("overview", overview),
        ("ladder", ladder),
    )
    for name, make in pictures:
        tell(f"drawing and proving {name}")
        files = drawing_files(stem, ((name, make(plan)),), ("svg", "png"))
        contents |= {folder / file: data for file, data in files.items()}
    tell("writing")
    write_all(contents, replace=ours is None or all(file in ours for file in contents if file.exists()))
    return tuple(contents)


def open_in_viewer(file: Path) -> str:
    """Hand a file to the system's viewer; why that failed, in words, or nothing."""
    command = {"darwin": ["open"], "win32": ["cmd", "/c", "start", ""]}.get(sys.platform, ["xdg-open"])
    try:
        subprocess.Popen(  # noqa: S603  the program's name is ours, the file is an argument of its own
            [*command, str(file)],
            stdin=subprocess.DEVNULL,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
        )
    except OSError as error:
        return f"no viewer could be started ({error.strerror}); open the file yourself"
    return ""
