"""How the program ends when it isn't asked for anything more: broken pipe, full disk, Ctrl-C, a fault of its own."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest

from wizard import diagnostics
from wizard.diagnostics import ExitCode, guarded

TOP = Path(__file__).parents[2]
TEMPLATE_JOB = TOP / "schedules" / "templates" / "job.toml"

pytestmark = pytest.mark.skipif(os.name != "posix", reason="pipes and signals of a POSIX system")


def test_a_reader_that_stops_reading_is_no_fault() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run(
        [sys.executable, "-m", "wizard", "show", TEMPLATE_JOB],
        cwd=TOP,
        stdout=writing,
        stderr=subprocess.PIPE,
        check=False,
    )
    os.close(writing)
    assert (done.returncode, done.stderr) == (ExitCode.BROKEN_PIPE, b"")


def test_help_into_a_closed_pipe_is_no_fault() -> None:
    reading, writing = os.pipe()
    os.close(reading)
    done = subprocess.run(
        [sys.executable, "-m", "wizard", "--help"],
        cwd=TOP,
        stdout=writing,
        stderr=subprocess.PIPE,
        check=False,
    )
    os.close(writing)
    assert (done.returncode, done.stderr) == (ExitCode.BROKEN_PIPE, b"")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="this system has no device that is always full")
def test_a_full_disk_is_told() -> None:
    with Path("/dev/full").open("wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "wizard", "check", TEMPLATE_JOB],
            cwd=TOP,
            stdout=full,
            stderr=subprocess.PIPE,
            check=False,
        )
    assert done.returncode == ExitCode.REFUSED
    assert done.stderr == b"hoodwright: output: No space left on device\n"


def test_ctrl_c_ends_quietly() -> None:
    # The process stops itself at a known point, so that the test waits for nothing.
    code = (
        "import os, signal, sys\n"
        "from wizard.diagnostics import guarded\n"
        "signal.signal(signal.SIGINT, signal.default_int_handler)\n"
        "sys.exit(guarded(lambda: os.kill(os.getpid(), signal.SIGINT) or 0))\n"
    )
    done = subprocess.run([sys.executable, "-c", code], cwd=TOP, capture_output=True, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (ExitCode.INTERRUPTED, b"", b"")


def test_a_fault_of_our_own_is_named_without_a_traceback(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def fail() -> int:
        raise LookupError("no \x1b[2J here")

    monkeypatch.delenv(diagnostics.TRACEBACK, raising=False)
    assert guarded(fail) == ExitCode.OWN_FAULT
    said = capsys.readouterr().err
    assert f"a fault of the program itself: LookupError in {__name__}.fail, line " in said
    assert "Traceback" not in said
    assert "\x1b" not in said


def test_a_traceback_is_there_for_who_asks(monkeypatch: pytest.MonkeyPatch) -> None:
    def fail() -> int:
        raise LookupError("here")

    monkeypatch.setenv(diagnostics.TRACEBACK, "1")
    with pytest.raises(LookupError, match="here"):
        guarded(fail)
