"""The proof of a ladder: its finished pages are read back as a graph, and that graph must be the ladder's.

Knows nothing of how rungs were placed. What is joined is found from where lines end: upright lines are terminals,
level ones are pieces; where they meet without a dot or a terminal's mark, they are not joined.
"""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from schedules.drawings.errors import DrawingError
from schedules.drawings.ladder.expected import page_failures
from schedules.drawings.ladder.parting import GOES_ON, part_title
from schedules.drawings.ladder.reading import ReadPage
from schedules.drawings.ladder.references import words_under
from schedules.drawings.proof.readback import read_back

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.ladder.content import Ladder, Section


def prove_ladder(ladder: Ladder, pages: tuple[tuple[Ladder, str, str], ...]) -> tuple[str, ...]:
    """Every way in which the pages differ from the ladder or can't be read with certainty, in words.

    pages: what each page shows, its SVG, and what stands before every id in it.
    """
    try:
        seen = [(page, read_back(svg, prefix)) for page, svg, prefix in pages]
    except DrawingError as error:
        return error.failures
    missing = tuple(failure for page, drawn in seen for failure in page_failures(page, drawn))
    if missing:
        return missing
    read = [ReadPage(page, drawn) for page, drawn in seen]
    return (
        *_sections_once(ladder, pages),
        *(failure for page in read for failure in page.failures()),
        *_numbered_on(read),
        *_references(ladder, read),
    )


def _sections_once(ladder: Ladder, pages: tuple[tuple[Ladder, str, str], ...]) -> Iterator[str]:
    shown = [section for page, _, _ in pages for section in page.sections]
    for section in ladder.sections:
        parts = [shown.pop(0)] if shown else []
        while shown and sum(len(part.pieces) for part in parts) < len(section.pieces):
            parts.append(shown.pop(0))
        if parts != [section] and not _is_in_parts(section, parts):
            yield f"the pages do not show {section.title} once, in the ladder's order"
    yield from (f"{section.title} is shown but not part of the ladder" for section in shown)


def _is_in_parts(section: Section, parts: list[Section]) -> bool:
    """Whether parts show every piece of a section once and nothing else, and say that they are parts."""
    count = len(parts)
    drawn = Counter(piece for part in parts for piece in part.pieces)
    return (
        count > 1
        and drawn == Counter(section.pieces)
        and all({*part.nodes} <= {*section.nodes} and {*part.rails} <= {*section.rails} for part in parts)
        and [part.title for part in parts] == [part_title(section, n, count) for n in range(1, count + 1)]
        and all(part.notes[-1:] == (GOES_ON,) for part in parts)
        and parts[0].notes[:-1] == section.notes
    )


def _numbered_on(read: list[ReadPage]) -> Iterator[str]:
    """Rungs are numbered from the first page to the last, none left out."""
    numbers = [number for page in read for number in page.numbers]
    if numbers != list(range(1, len(numbers) + 1)):
        yield f"the rungs are numbered {numbers}"


def _references(ladder: Ladder, read: list[ReadPage]) -> Iterator[str]:
    """Every reference names the rungs in which the things referred to were found."""
    rungs = {key: rung for page in read for key, rung in page.rungs().items()}
    wanted = words_under(ladder, rungs)
    for page in read:
        for key, said in page.said_under().items():
            if said.replace(" ", "") != wanted[key].replace(" ", ""):
                yield f"under {key!r} stands {said!r} instead of {wanted[key]!r}"
