"""Who works from a package, and which schedules each of them needs on paper."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from schedules.rows.every import SCHEDULES

if TYPE_CHECKING:
    from collections.abc import Mapping


@dataclass(frozen=True, slots=True)
class Reader:
    """One person. schedules: by name, in the order in which they are used.

    overview, enclosures, walls: drawings of the whole, of each enclosure, of each wall to scale are in the package.
    findings_last: what is to be hung up or acted on comes before what experts decide.
    """

    name: str
    title: str
    schedules: tuple[str, ...]
    overview: bool
    enclosures: bool
    walls: bool
    findings_last: bool = False


_ELECTRICIAN = (
    "directory",
    "before-cover",
    "terminations",
    "conductors",
    "spares",
    "empty",
    "cables",
    "circuits",
    "raceways",
    "openings",
    "boxes",
    "framing",
    "takeoff",
    "interlocks",
    "readings",
    "faults",
    "as-built",
)
_INSTALLER = (
    "receiving",
    "work",
    "before-cover",
    "mounting",
    "bracket",
    "blocks",
    "duct",
    "air",
    "gas",
    "cables",
    "raceways",
    "openings",
    "framing",
    "takeoff",
    "as-built",
)
_INSPECTOR = (
    "before-cover",
    "circuits",
    "cables",
    "raceways",
    "openings",
    "boxes",
    "framing",
    "interlocks",
    "readings",
    "faults",
    "mounting",
    "duct",
    "air",
    "gas",
    "as-built",
)
_OWNER = ("owner", "directory", "as-built")
ON_SCREEN_ONLY = frozenset({"causes", "labels"})
"""Schedules that say again what another one says on paper; the page, the workbook and the files have them."""

_FIRST = tuple(name for name in ("owner", *_ELECTRICIAN, *_INSTALLER, *_INSPECTOR) if name != "as-built")


def reader(name: str | None) -> Reader:
    """The person of this name; everything for everybody where None is asked.

    Raises LookupError for a name that isn't there.
    """
    if name is None:
        return EVERYBODY
    if name not in READERS:
        raise LookupError(name)
    return READERS[name]


def _every() -> tuple[str, ...]:
    """All schedules that go on paper, each once, as-built at the end."""
    named = dict.fromkeys((*_FIRST, *SCHEDULES, "as-built"))
    return tuple(name for name in named if name not in ON_SCREEN_ONLY)


EVERYBODY = Reader("everybody", "Everybody on site", _every(), overview=True, enclosures=True, walls=True)
READERS: Mapping[str, Reader] = {
    "electrician": Reader(
        "electrician", "Electrician", _ELECTRICIAN, overview=True, enclosures=True, walls=True
    ),
    "installer": Reader("installer", "Installer", _INSTALLER, overview=True, enclosures=False, walls=True),
    "inspector": Reader("inspector", "Inspector", _INSPECTOR, overview=True, enclosures=False, walls=True),
    "trainer": Reader("trainer", "Trainer", _every(), overview=True, enclosures=True, walls=True),
    "owner": Reader(
        "owner", "Owner", _OWNER, overview=False, enclosures=False, walls=False, findings_last=True
    ),
}
