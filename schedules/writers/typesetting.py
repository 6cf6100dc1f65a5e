"""Set pages by a template: the only place that calls typst. Data is data, never markup; a warning is an error."""

from __future__ import annotations

import json
from datetime import UTC, date, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

_TEMPLATES = Path(__file__).parent / "templates"
_NO_DATE = datetime(1980, 1, 1, tzinfo=UTC)


class TypesettingError(Exception):
    """A page could not be set, or not as it should be."""


def typeset(template: str, data: Mapping[str, Any], *, day: str) -> bytes:
    """A tagged PDF, exported as PDF/UA-1, of a template filled with data.

    day: the job's date, which the file carries instead of the clock's. Raises TypesettingError.
    """
    pdf = _set(template, data, format="pdf", pdf_standards=["ua-1"], timestamp=moment(day))
    if not isinstance(pdf, bytes):
        raise TypesettingError(f"{template}: several files")
    return pdf


def images_of(drawings: Iterable[tuple[str, float, float]], *, dpi: int) -> list[bytes]:
    """Drawings, each as SVG with its width and height [pt], as PNGs of so many dots per inch, in our typeface.

    Raises TypesettingError.
    """
    data = [{"svg": svg, "width": width_pt, "height": height_pt} for svg, width_pt, height_pt in drawings]
    if not data:
        return []
    images = _set("drawings.typ", data, format="png", ppi=float(dpi))
    return [images] if isinstance(images, bytes) else images


def _set(template: str, data: object, **form: Any) -> bytes | list[bytes]:
    # Deferred: only what is set pays for the typesetter and its typeface.
    import fontpkg_arimo  # noqa: PLC0415
    import typst  # noqa: PLC0415

    pages: bytes | list[bytes]
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
    if not pages:
        raise TypesettingError(f"{template}: no pages")
    return pages


def moment(day: str) -> datetime:
    """The start of a job's day; one fixed day where its date is written another way than year-month-day."""
    try:
        return datetime.combine(date.fromisoformat(day), datetime.min.time(), UTC)
    except ValueError:
        return _NO_DATE
