"""Every wizard test works in an empty folder, with nothing of this machine's settings."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from textual.widgets import Input

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture(autouse=True)
def site(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder that the person works in; it is the working directory too."""
    folder = tmp_path / "site"
    folder.mkdir()
    monkeypatch.chdir(folder)
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "state"))
    monkeypatch.delenv("NO_COLOR", raising=False)
    return folder


@pytest.fixture(autouse=True)
def steady_cursor(monkeypatch: pytest.MonkeyPatch) -> None:
    """No cursor blinks, so that a screen at rest always looks alike."""
    monkeypatch.setattr(Input, "cursor_blink", False)
