"""What leads from a drawing to a row: only where the row is printed in the same document."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from schedules.writers.document import Figure, Section


def with_rows_to_lead_to(sections: tuple[Section, ...]) -> tuple[Section, ...]:
    """The same sections without the links to rows that none of them has."""
    anchors = frozenset(_anchors(sections))

    def figure(item: Figure) -> Figure:
        return replace(item, links=tuple(link for link in item.links if link.anchor in anchors))

    def section(item: Section) -> Section:
        return replace(item, figures=tuple(map(figure, item.figures)), parts=tuple(map(section, item.parts)))

    return tuple(map(section, sections))


def _anchors(sections: Iterable[Section]) -> Iterator[str]:
    for section in sections:
        yield from (row.anchor for table in section.tables for row in table.rows if row.anchor)
        yield from _anchors(section.parts)
