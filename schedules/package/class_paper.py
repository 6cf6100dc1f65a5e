"""What every paper for a class shares: its stamp, its warning, its drawings, its two formats."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.cautions import CAUTION, CAUTIONS
from schedules.drawings.drawing import draw
from schedules.drawings.finish import alternative_text
from schedules.drawings.split import by_cables
from schedules.drawings.style import SMALLEST_PT
from schedules.drawings.unlabelled import without_labels, words_for_all
from schedules.package.assembly import colours
from schedules.package.booklet import booklet
from schedules.package.stamp import contents_code, make_stamp
from schedules.package.tables import one_line
from schedules.writers.document import Document, Figure
from schedules.writers.typesetting import typeset
from schedules.writers.web_page import web_page

if TYPE_CHECKING:
    from collections.abc import Iterator

    from schedules.drawings.picture import Paper, Picture
    from schedules.plan import Plan
    from schedules.writers.document import Section

FOR_A_CLASS = "For teaching only: do not build by it."
_ON_EVERY_PAGE = "TEACHING ONLY"


def class_document(plan: Plan, reader: str, code_of: bytes, sections: tuple[Section, ...]) -> Document:
    """A document for a class. reader: for whom; code_of: what its contents code is made from."""
    return Document(
        stamp=make_stamp(plan, contents_code(code_of)),
        reader=reader,
        verdict=FOR_A_CLASS,
        cautions=(*CAUTIONS, *(f"Maker: {one_line(text)}" for text in plan.derived.sheet.sheet.cautions)),
        caution=CAUTION,
        note="",
        problems=(),
        sections=sections,
        legend=(colours(plan), FOR_A_CLASS),
        warning=_ON_EVERY_PAGE,
    )


def both_formats(name: str, document: Document, paper: Paper) -> dict[str, bytes]:
    """The document on paper and as a page. Raises TypesettingError."""
    pages = booklet(document, paper.value, cover=False)
    return {
        f"{name}.pdf": typeset("package.typ", pages, day=document.stamp.date),
        f"{name}.html": web_page(document),
    }


def figures(picture: Picture, name: str, *, labels: bool = True) -> Iterator[Figure]:
    """A picture on as many pages as can be read, each proved; without labels for a class to write them.

    Raises DrawingError where one is not proved.
    """
    for place, page in enumerate(by_cables(picture), start=1):
        prefix = f"{name}-{place}-"
        drawing = draw(page, prefix=prefix)
        yield Figure(
            id=f"{name}-{place}",
            title=drawing.picture.title,
            alt=alternative_text(drawing.picture) if labels else words_for_all(drawing.picture),
            svg=drawing.svg if labels else without_labels(drawing, prefix),
            width_pt=drawing.width_pt,
            height_pt=drawing.height_pt,
            smallest_full_pt=SMALLEST_PT,
        )
