"""The only place that calls Graphviz: the engine that our wheel carries, or one installed on the system."""

from __future__ import annotations

import re
import shutil
import subprocess
import sysconfig
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from threading import Lock
from typing import Literal

from graphviz.backend import dot_command, execute

from schedules.drawings.errors import EngineError
from schedules.text import printable

Format = Literal["svg", "png", "plain", "json"]
Layout = Literal["place", "as given"]

_TIMEOUT_S = 60
_PROBE = "graph { probe [shape=plaintext, label=<<TABLE><TR><TD><B>kept</B></TD></TR></TABLE>>] }"

# The wheel's engine knows the widths of ASCII only and says so once. Our words carry their own place and room, so
# nothing in the drawing depends on it. Everything else that an engine says is an error.
_HARMLESS = re.compile(
    rb"(Warning: )+no value for width of non-ASCII character \d+\. Falling back to [a-z ]+"
)

# The graphviz package reads the engine's path from one module variable, so it is set only while a command line
# is put together, by one thread at a time.
_choosing_binary = Lock()


@dataclass(frozen=True, slots=True)
class Engine:
    """A Graphviz engine, by name and path."""

    name: str
    binary: str

    def render(self, source: str, layout: Layout, format_: Format, *, timeout_s: float = _TIMEOUT_S) -> bytes:
        """Lay out (`place`) or draw at the positions given in the source (`as given`), within timeout_s [s].

        Raises EngineError when the engine is missing, loses labels, fails, takes too long or warns of anything.
        """
        _probe(self)
        return _run(self, source, layout, format_, timeout_s)


def _wheel_binary() -> str:
    """Where our environment keeps its scripts; an installation for one user only may have put it on the path."""
    scripts = sysconfig.get_path("scripts")
    beside = shutil.which("graphviz-pure", path=scripts) or shutil.which("graphviz-pure")
    return beside or str(Path(scripts, "graphviz-pure"))


WHEEL = Engine("wheel", _wheel_binary())


def system_engine() -> Engine | None:
    """The Graphviz that is installed on this system, None where there is none."""
    binary = shutil.which("dot")
    return Engine("system", binary) if binary else None


@cache
def _probe(engine: Engine) -> None:
    # An engine without HTML-like labels draws the node's name instead, and says nothing.
    if b">kept<" not in _run(engine, _PROBE, "place", "svg", _TIMEOUT_S):
        raise EngineError(
            (f"engine {engine.name}: loses the text of labels, so nothing drawn by it is usable",)
        )


def _run(engine: Engine, source: str, layout: Layout, format_: Format, timeout_s: float) -> bytes:
    try:
        done = execute.run_check(
            _command(engine, layout, format_),
            input=source.encode(),
            capture_output=True,
            quiet=True,
            timeout=timeout_s,
        )
    except execute.ExecutableNotFound as error:
        raise EngineError((f"engine {engine.name}: not found at {engine.binary}",)) from error
    except subprocess.TimeoutExpired as error:
        raise EngineError((f"engine {engine.name}: no drawing within {timeout_s:g} s",)) from error
    except subprocess.CalledProcessError as error:
        raise EngineError((f"engine {engine.name}: {_said(error.stderr.splitlines())}",)) from error
    said = [line for line in done.stderr.splitlines() if not _HARMLESS.fullmatch(line)]
    if said:
        raise EngineError((f"engine {engine.name}: {_said(said)}",))
    output: bytes = done.stdout
    return output


def _command(engine: Engine, layout: Layout, format_: Format) -> list[str]:
    with _choosing_binary:
        usual = dot_command.DOT_BINARY
        dot_command.DOT_BINARY = Path(engine.binary)
        try:
            if layout == "place":
                return [str(part) for part in dot_command.command("dot", format_)]
            return [str(part) for part in dot_command.command("neato", format_, neato_no_op=2)]
        finally:
            dot_command.DOT_BINARY = usual


def _said(lines: list[bytes]) -> str:
    more = f" (and {len(lines) - 1} more lines)" if len(lines) > 1 else ""
    return printable(lines[0].decode(errors="replace"), 200) + more if lines else "failed without a word"
