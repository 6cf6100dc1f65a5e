"""The parts that a package can have."""

from __future__ import annotations

from enum import StrEnum


class Part(StrEnum):
    """One kind of file in a package."""

    PDF = "pdf"
    HTML = "html"
    XLSX = "xlsx"
    CSV = "csv"
    ICS = "ics"
    LABELS = "labels"
    JSON = "json"
    DRAWINGS = "drawings"

    @property
    def has_drawings(self) -> bool:
        """Whether drawings are in it."""
        return self in (Part.PDF, Part.HTML, Part.DRAWINGS)

    @property
    def meaning(self) -> str:
        """What it is for."""
        return _MEANINGS[self]


_MEANINGS = {
    Part.PDF: "the booklet to print and hand out",
    Part.HTML: "one page for the screen",
    Part.XLSX: "a workbook",
    Part.CSV: "a file for each schedule",
    Part.ICS: "the order of work for a calendar, where the job has a first day",
    Part.LABELS: "label sheets, and lists for label printers",
    Part.JSON: "the plan for other programs",
    Part.DRAWINGS: "every drawing on its own",
}
EVERY_PART = tuple(Part)
