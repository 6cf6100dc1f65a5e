"""Set pages by a template: the only place that calls typst. Data is data, never markup; a warning is an error."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Mapping

_TEMPLATES = Path(__file__).parent / "templates"
_NO_DATE = datetime(1980, 1, 1, tzinfo=UTC)


class TypesettingError(Exception):
    """A page could not be set, or not as it should be."""


def typeset(template: str, data: Mapping[str, Any], *, day: str) -> bytes:
    """A tagged PDF, exported as PDF/UA-1, of a template filled with data.

    day: the job's date, which the file carries instead of the clock's. Raises TypesettingError.
    """
    return _set(template, data, format="pdf", pdf_standards=["ua-1"], timestamp=moment(day))


def image_of(svg: str, width_pt: float, height_pt: float, *, dpi: int) -> bytes:
    """A drawing of that size [pt] as a PNG of so many dots per inch, in our typeface. Raises TypesettingError."""
    data = {"svg": svg, "width": width_pt, "height": height_pt}
    return _set("drawing.typ", data, format="png", ppi=float(dpi))


def _set(template: str, data: Mapping[str, Any], **form: Any) -> bytes:
    # Deferred: only what is set pays for the typesetter and its typeface.
    import fontpkg_arimo  # noqa: PLC0415
    import typst  # noqa: PLC0415

    try:
        pages, warnings = typst.compile_with_warnings(
            str(_TEMPLATES / template),
            root=str(_TEMPLATES),
            font_paths=[str(Path(fontpkg_arimo.ROOT))],
            ignore_system_fonts=True,
            sys_inputs={"data": json.dumps(data, ensure_ascii=True, allow_nan=False)},
            **form,
        )
    except typst.TypstError as error:
        raise TypesettingError(f"{template}: {error.message}") from error
    if warnings:
        raise TypesettingError("; ".join(f"{template}: {warning.message}" for warning in warnings))
    if not isinstance(pages, bytes):
        raise TypesettingError(f"{template}: no pages")
    return pages


def moment(day: str) -> datetime:
    """The start of a job's day; one fixed day where its date is written another way than year-month-day."""
    try:
        return datetime.combine(date.fromisoformat(day), datetime.min.time(), UTC)
    except ValueError:
        return _NO_DATE
