"""A new job for an equipment sheet: every question with a comment beside it, nothing filled in that nobody measured."""

from __future__ import annotations

import os
import re
from pathlib import Path
from typing import TYPE_CHECKING

import tomlkit

from schedules.job.draft import draft_from_text
from schedules.templates import job_template

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.files.condition import Condition
    from schedules.job.draft import Draft
    from schedules.sheet.sheet import Sheet

# Of the room, only the tolerance must be there; the rest is written by whoever measures it.
_TEMPLATE_MEASURES = re.compile(r"^(?=(?:ceiling|above|below|rise_above|waste) = )", re.MULTILINE)
_PLACES = "# Where each enclosure is:"
_RUNS = "# How each cable goes:"
_RACEWAYS = "# Conduit and tubing."
_CHOICES = "# What was bought:"
_PICKS = {"one": "Exactly one", "some": "One or more", "any": "None to all"}


def start_job(sheet: Sheet, *, file: Path, sheet_file: Path, name: str, date: str, code: int) -> Draft:
    """Write a job for a sheet from the commented template; nothing is written to disk.

    file, sheet_file: where the job will be and where the sheet is. code: edition of the adopted NEC. Raises
    InputError where name, date or the sheet's path can't stand in a job.
    """
    template = job_template()
    room, _, rest = template.partition(_PLACES)
    places, _, rest = rest.partition(_RUNS)
    runs, _, rest = rest.partition(_RACEWAYS)
    text = "".join(
        (
            _room(sheet, room),
            _PLACES,
            _comment_above(places),
            "\n".join(_places(sheet)),
            "\n",
            _RUNS,
            _comment_above(runs),
            '# Take the "#" away from three lines and say the route, or let the wizard write it.\n',
            "\n".join(_runs(sheet)),
            "\n",
            _RACEWAYS,
            _all_commented(rest),
        )
    )
    document = tomlkit.parse(text)
    document["choices"] = []
    title = document["job"]
    for key, value in (
        ("name", name),
        ("sheet", path_from_job(sheet_file, file)),
        ("revision", "1"),
        ("date", date),
        ("code", code),
    ):
        title[key] = value
    return draft_from_text(tomlkit.dumps(document), str(file))


def path_from_job(sheet_file: Path, file: Path) -> str:
    """The sheet's path as the job names it: relative, with forward slashes."""
    try:
        return Path(os.path.relpath(sheet_file, file.parent)).as_posix()
    except ValueError:
        # Another drive of the same machine can't be reached by a relative path.
        return sheet_file.absolute().as_posix()


def _room(sheet: Sheet, template: str) -> str:
    before, _, after = template.partition(_CHOICES)
    first_line, _, rest = after.partition("\n")
    offered = "\n".join(_offered(sheet))
    return f"{before}{_CHOICES}{first_line}\n{offered}\n{_TEMPLATE_MEASURES.sub('# ', rest)}"


def _offered(sheet: Sheet) -> Iterator[str]:
    widest = max((len(choice.id) for choice in sheet.choices), default=0)
    for group in sheet.group:
        yield f"# {group.title} {_PICKS[group.pick]}:"
        for choice in group.choice:
            yield f'#   "{choice.id}"{" " * (widest - len(choice.id))}  {choice.title}'


def _places(sheet: Sheet) -> Iterator[str]:
    for enclosure in sheet.enclosure:
        hint = f": {enclosure.place_hint}" if enclosure.place_hint else ""
        yield f"\n# {enclosure.name}{hint}.{_only_with(enclosure.when)}"
        yield "[[place]]"
        yield f'enclosure = "{enclosure.tag}"'
        yield from ('# along = ""', '# out = ""', '# up = ""')
    yield ""


def _runs(sheet: Sheet) -> Iterator[str]:
    for cable in sheet.cable:
        ends = f"{cable.origin.enclosure} to {cable.target.enclosure}"
        yield f"\n# {cable.name}, {ends}.{_only_with(cable.when)}"
        yield from ("# [[run]]", f'# cable = "{cable.tag}"', '# route = ""')
    yield ""


def _only_with(condition: Condition) -> str:
    return f" Only with: {condition.in_words()}." if condition.names else ""


def _comment_above(section: str) -> str:
    """What a section of the template says before its first entry."""
    return section[: section.index("[[")]


def _all_commented(section: str) -> str:
    """A section of the template as an example that counts for nothing."""
    lines = section.splitlines()
    return (
        "\n".join(
            line if not line or line.startswith("#") or place == 0 else f"# {line}"
            for place, line in enumerate(lines)
        )
        + "\n"
    )
