"""Read an equipment sheet, or tell everything that is wrong with it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from schedules.errors import InputError
from schedules.files.toml_reading import read_toml
from schedules.files.validation import located, validate
from schedules.sheet.consistency import disagreements
from schedules.sheet.sheet import Sheet

if TYPE_CHECKING:
    from pathlib import Path


def read_sheet(path: Path) -> Sheet:
    """Read and check an equipment sheet.

    Raises InputError with every mistake: first those of single keys, then, where there are none, contradictions.
    """
    data, text = read_toml(path)
    sheet = validate(Sheet, data, str(path), text)
    complaints = disagreements(sheet)
    if complaints:
        raise InputError(located(str(path), text, complaints))
    return sheet
