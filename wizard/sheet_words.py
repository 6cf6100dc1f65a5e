"""Words for the screen on which an equipment sheet is written: where it is, what is to mend, what the sheet makes."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING

from textual.content import Content

from schedules.rows.every import SCHEDULES
from schedules.sheet.drafting import within
from schedules.text import printable
from wizard.sheet_asking import mistake_words, place_words
from wizard.wording import finding_content

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.errors import Mistake
    from schedules.files.toml_positions import TomlPath
    from schedules.findings import Finding
    from schedules.plan import Plan
    from schedules.sheet.drafting import SheetDraft
    from wizard.sheet_session import SheetSnapshot

_COUNTED = ("terminations", "cables", "circuits", "openings")
_MOST_SHOWN = 40
"""Mistakes that are listed; more would not be read before these are mended."""


def place_content(now: SheetSnapshot, place: TomlPath) -> Content:
    """The head of the screen: whether it is saved, the file, and the way from the whole sheet to this place."""
    saved = "NOT SAVED" if now.unsaved else "saved"
    way = " / ".join(_way(now.draft, place))
    return Content.assemble(
        ("Equipment sheet", "bold"), f"   {saved}   {printable(Path(now.draft.file).name, 40)}   {way}"
    )


def check_content(now: SheetSnapshot, place: TomlPath) -> Content:
    """What was done last, what is to mend, here first, and what the sheet makes."""
    lines = (
        [Content.styled(f"NOT SAVED: {printable(now.unsaved, 200)}", "bold $text-error")]
        if now.unsaved
        else []
    )
    if now.last:
        lines.append(Content.styled(printable(now.last, 160), "bold"))
    mistakes = now.draft.mistakes
    if not mistakes:
        lines.append(Content.styled("Nothing to mend: jobs can be planned by this sheet.", "$text-success"))
        lines += _making(now.plan)
        return Content("\n").join(lines)
    lines.append(Content.styled(f"{len(mistakes)} to mend", "bold $text-error"))
    here = [mistake for mistake in mistakes if within(mistake, place)]
    ordered = [*here, *(mistake for mistake in mistakes if mistake not in here)]
    lines += [_mistake_line(now.draft, mistake) for mistake in ordered[:_MOST_SHOWN]]
    if now.draft.slips:
        lines.append(Content("What is used but not declared is looked for once each single entry is right."))
    return Content("\n").join(lines)


def making_lines(plan: Plan) -> Iterator[Content]:
    """What the sheet makes: counts, then what its own wiring shows; nothing that a kitchen has to answer."""
    yield from _making(plan)


def place_of(mistake: Mistake) -> TomlPath:
    """Where a mistake lies, as a path. Keys hold no dots and entries are counted from 1 in messages."""
    return tuple(int(part) - 1 if part.isdigit() else part for part in mistake.key.split("."))


def own_findings(plan: Plan) -> tuple[Finding, ...]:
    """What is found of the sheet itself: no answer of a job is wanted for it."""
    return tuple(finding for finding in plan.findings if finding.answer is None)


def _making(plan: Plan | None) -> Iterator[Content]:
    if plan is None:
        yield Content("planning …")
        return
    counts = ", ".join(f"{len(SCHEDULES[name](plan).rows)} {name}" for name in _COUNTED)
    yield Content.assemble(("With all that fits together it makes ", "bold"), counts)
    found = own_findings(plan)
    yield Content("Its own wiring shows nothing amiss." if not found else "Its own wiring shows:")
    yield from (finding_content(finding) for finding in found)


def _mistake_line(draft: SheetDraft, mistake: Mistake) -> Content:
    way = " / ".join(_way(draft, place_of(mistake)))
    words = "missing" if mistake.found == "nothing" else mistake_words(mistake)
    return Content.assemble(("! ", "bold $text-error"), (way, "bold"), f"  {words}")


def _way(draft: SheetDraft, place: TomlPath) -> Iterator[str]:
    """The names of all that lies on the way to a place."""
    for length in range(1, len(place) + 1):
        title, _ = place_words(draft, place[:length])
        yield title or str(place[length - 1])
