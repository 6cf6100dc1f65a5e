"""What is asked of whoever wants a package, declared once, and the order that the answers make."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.picture import Paper
from schedules.package.parts import EVERY_PART
from schedules.package.readers import EVERYBODY, READERS, reader
from schedules.questions.field import Field, Option
from schedules.text import for_filename

if TYPE_CHECKING:
    from collections.abc import Mapping

    from schedules.package.packing import Order
    from schedules.plan import Plan

FOR_WHOM = Field(
    "package",
    "reader",
    "For whom",
    "option",
    "Each person gets the schedules that the work needs, in the order in which they are used.",
    EVERYBODY.name,
    options=(
        Option(EVERYBODY.name, EVERYBODY.title),
        *(Option(name, found.title, f"{len(found.schedules)} schedules") for name, found in READERS.items()),
    ),
)
PAPER = Field(
    "package",
    "paper",
    "Paper",
    "option",
    "Paper of the booklet; large sheets are twice as large.",
    Paper.LETTER.value,
    options=(
        Option(Paper.LETTER.value, "Letter", "large sheets on Tabloid"),
        Option(Paper.A4.value, "A4", "large sheets on A3"),
    ),
)
PARTS = Field(
    "package",
    "parts",
    "Which files",
    "options",
    "Enter switches one; escape is done.",
    "pdf",
    options=tuple(Option(part.value, part.value, part.meaning) for part in EVERY_PART),
)
FOLDER = Field(
    "package",
    "folder",
    "Folder",
    "line",
    "A folder that is not there yet, or an empty one; beside the job's file unless a whole path is written.",
    "kitchen-package",
    longest=400,
)
ASKED = (FOR_WHOM, PAPER, PARTS, FOLDER)

Answers = dict[str, object]


def usual_answers(plan: Plan) -> Answers:
    """What stands there before anybody answers: everything for everybody, in a folder named after the job."""
    return {
        "reader": EVERYBODY.name,
        "paper": Paper.LETTER.value,
        "parts": [part.value for part in EVERY_PART],
        "folder": f"{for_filename(plan.derived.job.job.name)}-package",
    }


def order_of(answers: Mapping[str, object]) -> Order:
    """The order that the answers make. Raises LookupError for a person that isn't there."""
    # Whoever only asks needs neither the drawing engine nor the typesetter.
    from schedules.package.packing import Order  # noqa: PLC0415

    wanted, parts = str(answers["reader"]), answers["parts"]
    chosen = parts if isinstance(parts, list) else []
    return Order(
        reader=reader(None if wanted == EVERYBODY.name else wanted),
        paper=Paper(str(answers["paper"])),
        parts=tuple(part for part in EVERY_PART if part.value in chosen),
    )
