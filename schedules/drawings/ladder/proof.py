"""The proof of a ladder: its finished pages are read back as a graph, and that graph must be the ladder's.

Knows nothing of how rungs were placed. What is joined is found from where lines end: upright lines are terminals,
level ones are pieces; where they meet without a dot or a terminal's mark, they are not joined.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.drawings.errors import DrawingError
from schedules.drawings.ladder.expected import page_failures
from schedules.drawings.ladder.reading import ReadPage
from schedules.drawings.ladder.references import words_under
from schedules.drawings.proof.readback import read_back

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.ladder.content import Ladder


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
    if shown != list(ladder.sections):
        yield "the pages do not show every section of the ladder once, in its order"


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
