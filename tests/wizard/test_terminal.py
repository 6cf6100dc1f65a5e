"""The wizard in a real terminal: keys as a terminal sends them, typed ahead too, resizing, and leaving."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import time
import uuid
from pathlib import Path
from typing import TYPE_CHECKING

import pytest

from schedules.job.draft import read_draft
from tests.stage import sample_job

if TYPE_CHECKING:
    from collections.abc import Iterator

TOP = Path(__file__).parents[2]
LONGEST_WAIT_S = 60.0
"""How long words may take to come; nothing passes by waiting."""

pytestmark = pytest.mark.skipif(shutil.which("tmux") is None, reason="no tmux on this system")


class Terminal:
    """One terminal with the program in it."""

    def __init__(self, folder: Path, words: str) -> None:
        self._server = f"test-{uuid.uuid4().hex}"
        command = f"{sys.executable} -m wizard {words}; echo status $?; read end"
        self._tmux("new-session", "-d", "-x", "80", "-y", "24", "-c", str(folder), command)

    def _tmux(self, *words: str) -> str:
        # A width that a test runner states for its own output would stand for the terminal's.
        foreign = {"TMUX", "COLUMNS", "LINES"}
        settings = {key: value for key, value in os.environ.items() if key not in foreign}
        settings |= {"PYTHONPATH": str(TOP), "LC_ALL": "C.UTF-8", "TERM": "xterm-256color"}
        done = subprocess.run(
            ["tmux", "-L", self._server, "-f", os.devnull, *words],
            env=settings,
            capture_output=True,
            text=True,
            check=True,
        )
        return done.stdout

    @property
    def text(self) -> str:
        """What the terminal shows."""
        return self._tmux("capture-pane", "-p")

    def shows(self, *words: str) -> None:
        """Wait until the terminal shows these words."""
        limit = time.monotonic() + LONGEST_WAIT_S
        for word in words:
            while word not in self.text:
                assert time.monotonic() < limit, f"never came: {word}\n{self.text}"

    def press(self, *keys: str) -> None:
        """Press keys one right after the other, faster than any hand."""
        self._tmux("send-keys", *keys)

    def type(self, words: str) -> None:
        """Type words."""
        self._tmux("send-keys", "-l", words)

    def resize(self, columns: int, rows: int) -> None:
        """Give the terminal another size."""
        self._tmux("resize-window", "-x", str(columns), "-y", str(rows))

    def close(self) -> None:
        """End the terminal, and the program if it is still there."""
        self._tmux("kill-server")


@pytest.fixture
def terminal(site: Path) -> Iterator[Terminal]:
    opened = Terminal(site, str(sample_job("galley-gas", site)))
    yield opened
    opened.close()


def test_a_measurement_typed_ahead_arrives_whole(site: Path, terminal: Terminal) -> None:
    terminal.shows("Name of the job", "complete")
    terminal.press("Right")
    terminal.shows("Where is the exhaust fan?")
    terminal.press("Right")
    terminal.shows("Ceiling height")
    terminal.press("Down", "Down", "Enter")
    terminal.type("9' 2-1/2\"")
    terminal.press("Enter")
    terminal.shows("Ceiling height: 9' 2-1/2\"", "altered")
    assert read_draft(site / "galley-gas.toml").job.site.ceiling == 110.5


def test_a_line_cleared_and_typed_anew_in_one_burst_arrives_whole(site: Path, terminal: Terminal) -> None:
    terminal.shows("Name of the job", "complete")
    terminal.press("Right", "Right")
    terminal.shows("Ceiling height")
    terminal.press("Down", "Down", "Enter", "C-u", "9", "Space", "f", "y", "BSpace", "t", "Enter")
    terminal.shows("Ceiling height: 9 ft", "altered")
    assert read_draft(site / "galley-gas.toml").job.site.ceiling == 108


def test_the_screen_follows_the_terminals_size(terminal: Terminal) -> None:
    terminal.shows("Name of the job", "complete")
    assert "What the last answer did" not in terminal.text
    terminal.resize(160, 50)
    terminal.shows("What the last answer did", "Name of the job")
    terminal.resize(60, 16)
    terminal.shows("Name of the job")
    terminal.resize(80, 24)
    terminal.shows("Mains voltage")


def test_leaving_at_once_ends_with_the_cautions_and_status_0(terminal: Terminal) -> None:
    terminal.shows("Equipment")
    terminal.press("Right", "Right", "Down", "q")
    terminal.shows("Switch off, lock and test dead", "status 0")


def test_a_job_that_is_not_there_is_told_on_the_screen(site: Path) -> None:
    terminal = Terminal(site, "nowhere.toml")
    try:
        terminal.shows("can't be used", "no such file")
        terminal.press("q")
        terminal.shows("status 0")
    finally:
        terminal.close()
