"""The one place that says which version this is; the build reads it here."""

from __future__ import annotations

__version__ = "0.1.0"
