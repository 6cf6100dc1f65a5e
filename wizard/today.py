"""The day on which something is recorded."""

from __future__ import annotations

import datetime


def today() -> str:
    """This machine's day, as a job writes it: 2026-04-12."""
    return datetime.date.today().isoformat()
