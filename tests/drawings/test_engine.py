"""The engine's doorstep: what it must not do to a drawing without being noticed. Plumbing, no outside source."""

from __future__ import annotations

import stat
import sys
from pathlib import Path

import pytest
from graphviz.backend import dot_command

from schedules.drawings.engine import WHEEL, Engine, system_engine
from schedules.drawings.errors import EngineError

SOURCE = 'digraph { a [pos="10,10"]; b [pos="90,10"]; a -> b [pos="20,10 40,10 60,10 80,10", dir=none]; }'


_PREAMBLE = """import sys, threading
if "kept" in sys.stdin.read():
    print(">kept<")
    sys.exit()
"""


def stand_in(folder: Path, code: str) -> Engine:
    """A made-up engine that passes the probe and then does what the code says."""
    binary = folder / "engine"
    binary.write_text(f"#!{sys.executable}\n{_PREAMBLE}{code}\n", encoding="utf-8")
    binary.chmod(binary.stat().st_mode | stat.S_IXUSR)
    return Engine(f"stand-in {code[:20]}", str(binary))


def test_every_format_comes_out() -> None:
    assert WHEEL.render(SOURCE, "as given", "svg").strip().endswith(b"</svg>")
    assert WHEEL.render(SOURCE, "as given", "png").startswith(b"\x89PNG")
    assert WHEEL.render(SOURCE, "place", "plain").startswith(b"graph ")
    assert WHEEL.render(SOURCE, "place", "json").lstrip().startswith(b"{")


def test_the_wheel_needs_no_graphviz_on_the_path(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PATH", "")
    assert system_engine() is None
    assert WHEEL.render(SOURCE, "as given", "svg")


def test_the_packages_own_setting_is_left_as_it_was() -> None:
    before = dot_command.DOT_BINARY
    WHEEL.render(SOURCE, "as given", "svg")
    assert before == dot_command.DOT_BINARY


@pytest.mark.parametrize(
    "source",
    [
        'digraph { a [pos="9,9"]; b [pos="90,9"]; a -> b [pos="nonsense"]; }',
        'digraph { a -> b:nowhere; b [label=<<TABLE><TR><TD PORT="p">x</TD></TR></TABLE>>]; }',
        'digraph { a [fixedsize=true, width=0.1, label="much too long"]; }',
    ],
)
def test_a_warning_is_an_error(source: str) -> None:
    with pytest.raises(EngineError, match=r"engine wheel: .*Warning"):
        WHEEL.render(source, "place" if "pos" not in source else "as given", "svg")


def test_a_mistake_in_the_source_is_an_error() -> None:
    with pytest.raises(EngineError, match=r"engine wheel: .*syntax error"):
        WHEEL.render("digraph {", "place", "svg")


def test_a_missing_engine_is_named() -> None:
    with pytest.raises(EngineError, match="engine absent: not found at /nowhere/dot"):
        Engine("absent", "/nowhere/dot").render(SOURCE, "place", "svg")


def test_an_engine_that_loses_labels_is_refused(tmp_path: Path) -> None:
    engine = stand_in(tmp_path, "")
    binary = Path(engine.binary)
    binary.write_text(binary.read_text(encoding="utf-8").replace(">kept<", ">probe<"), encoding="utf-8")
    with pytest.raises(EngineError, match="loses the text of labels"):
        engine.render(SOURCE, "place", "svg")


def test_an_engine_that_never_ends_is_stopped(tmp_path: Path) -> None:
    engine = stand_in(tmp_path, "threading.Event().wait()")
    with pytest.raises(EngineError, match=r"no drawing within 0\.5 s"):
        engine.render(SOURCE, "place", "svg", timeout_s=0.5)


def test_an_engine_that_fails_without_a_word_is_told(tmp_path: Path) -> None:
    engine = stand_in(tmp_path, "sys.exit(3)")
    with pytest.raises(EngineError, match="failed without a word"):
        engine.render(SOURCE, "place", "svg")


def test_what_an_engine_says_can_not_reach_the_terminal_raw(tmp_path: Path) -> None:
    engine = stand_in(tmp_path, r"sys.stderr.write('\x1b[31mred')")
    with pytest.raises(EngineError, match=r"\\u001b\[31mred"):
        engine.render(SOURCE, "place", "svg")
