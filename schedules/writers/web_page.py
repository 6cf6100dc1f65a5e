"""A package as one page for the screen: nothing is fetched, nothing runs, drawings lead to their rows."""

from __future__ import annotations

import base64
import hashlib
from itertools import groupby
from operator import attrgetter
from pathlib import Path
from typing import TYPE_CHECKING, Any

from schedules.text import for_html, for_style

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.writers.document import Document, Figure, Section

_TEMPLATES = Path(__file__).parent / "templates"


def web_page(document: Document) -> bytes:
    """A document as one self-contained HTML page.

    Every text is escaped. The page's own policy allows no request, no script, and this one style sheet only.
    """
    # Deferred: only a package pays for the library.
    from jinja2 import Environment, FileSystemLoader, StrictUndefined  # noqa: PLC0415
    from markupsafe import Markup  # noqa: PLC0415

    style = (_TEMPLATES / "package.css").read_text(encoding="utf-8") + _on_each_page(document)
    environment = Environment(
        loader=FileSystemLoader(_TEMPLATES),
        autoescape=True,
        undefined=StrictUndefined,
        finalize=_shown,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )
    environment.filters["groupby_order"] = _in_groups
    page = environment.get_template("package.html").render(
        document=document,
        # Our own engine wrote these, with every word in them escaped.
        drawings={figure.id: Markup(figure.svg.rstrip()) for figure in _figures(document.sections)},  # noqa: S704
        style=Markup(style),  # noqa: S704  ours
        style_digest=base64.b64encode(hashlib.sha256(style.encode()).digest()).decode(),
        zip=zip,
    )
    return page.encode()


def _on_each_page(document: Document) -> str:
    """A style that prints title, revision and caution at the head of each page, since a loose page has to tell them."""
    stamp = document.stamp
    unsound = "NOT SOUND: do not build by it. " if document.verdict.startswith("NOT") else ""
    title = f"{unsound}{stamp.job}, revision {stamp.revision}, {stamp.date}, contents {stamp.code}"
    boxes = (("left", title), ("right", document.caution))
    rules = " ".join(
        f'@top-{side} {{ content: "{for_style(words)}"; font-size: 9px; }}' for side, words in boxes
    )
    return f"@media print {{ @page {{ {rules} }} }}\n"


def _shown(value: Any) -> Any:
    """Text with nothing in it that acts; what is markup already stays."""
    if type(value) is not str:
        return value
    from markupsafe import Markup  # noqa: PLC0415

    return Markup(for_html(value))  # noqa: S704  escaped here


def _in_groups(rows: Iterable[Any], name: str) -> Iterator[tuple[Any, list[Any]]]:
    """Rows that follow each other with the same value, in their own order."""
    for value, group in groupby(rows, key=attrgetter(name)):
        yield value, list(group)


def _figures(sections: Iterable[Section]) -> Iterator[Figure]:
    for section in sections:
        yield from section.figures
        yield from _figures(section.parts)
