"""The tour: a few stations on an invented kitchen, each showing the real screen and saying what to do there."""

from __future__ import annotations

import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING

from schedules.findings import Edit
from schedules.job.draft import read_draft
from schedules.planned import read_sheet_of
from schedules.templates import job_template, sheet_template
from wizard.session import Session

if TYPE_CHECKING:
    from wizard.question import StepId


@dataclass(frozen=True, slots=True)
class Station:
    """One stop. step: which step of the job is in view. answers: what is answered there, so that its effect shows."""

    title: str
    words: str
    step: StepId
    answers: tuple[Edit, ...] = ()
    did: str = ""


STATIONS = (
    Station(
        "Steps",
        "At the left stand the steps of a job, each with its state in words. Go to any of them, in any order: the "
        "right arrow goes on, tab goes to the list. What you answer is saved at once.",
        "equipment",
    ),
    Station(
        "Options",
        "What was bought decides every cable and terminal. Enter takes a choice; one that is not possible says why.",
        "options",
    ),
    Station(
        "Measurements",
        "Move with the arrows, type the number as you read it off the tape: 8' 3-1/2\", 99.5 in, 2.53 m. An answer "
        "that can't be read stays where it is and says why. M asks for one at a time, large, for the ladder.",
        "room",
    ),
    Station(
        "What an answer does",
        "The ceiling has just become 9 ft: see what that altered, at the right or under the questions. u takes an "
        "answer back, U gives it again, e shows all that it changed.",
        "room",
        (Edit("site", None, "ceiling", "9 ft"),),
        "Ceiling height: 9 ft",
    ),
    Station(
        "Findings",
        "What stops the work comes first. Enter goes to the answer that bears on it, a applies a remedy that was "
        "planned again, i signs what a person decides. A stop can't be signed away.",
        "findings",
    ),
    Station(
        "Schedules",
        "Every table that goes on paper: ] turns, l lists them, / finds a wire, a terminal, a box. t shows one "
        "enclosure to work from, row by row, and marks what is landed.",
        "schedules",
    ),
    Station(
        "Paper",
        "The last row makes the package: for whom, on which paper. Every drawing is read back before it is written; "
        "g in the step before shows them here.",
        "print",
    ),
    Station(
        "That is all",
        "? explains the screen in view and its keys, ctrl+p finds whatever a key does, q leaves. Mains voltage, gas, "
        "fire and a heavy hood can kill: the maker's manual and the local code come first, and a licensed "
        "electrician or gas fitter does the work.",
        "findings",
    ),
)


class Ground:
    """An invented kitchen to walk through, in a folder of its own that is gone afterwards."""

    def __init__(self) -> None:
        self._folder = tempfile.TemporaryDirectory(prefix="hoodwright-tour-", ignore_cleanup_errors=True)
        home = Path(self._folder.name)
        (home / "sheet.toml").write_text(sheet_template(), encoding="utf-8")
        (home / "invented-kitchen.toml").write_text(job_template(), encoding="utf-8")
        draft = read_draft(home / "invented-kitchen.toml")
        self.session = Session(draft, read_sheet_of(draft))

    def leave(self) -> None:
        """Take the folder away."""
        self._folder.cleanup()
