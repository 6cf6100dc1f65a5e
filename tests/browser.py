"""A browser without a window, told what to do over a pipe by its own debugging protocol."""

from __future__ import annotations

import json
import os
import select
import shutil
import subprocess
from contextlib import contextmanager
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

PROGRAM = shutil.which("chromium")
_OPTIONS = ("--headless", "--no-sandbox", "--disable-gpu", "--disable-background-networking")
_PATIENCE_S = 120
_READ, _WRITE = 3, 4


class Tab:
    """One open page. told: every event that the browser told since, by name."""

    def __init__(self, to: int, back: int) -> None:
        self._to, self._back = to, back
        self._number = 0
        self._session: str | None = None
        self._rest = b""
        self.told: list[tuple[str, dict[str, Any]]] = []

    def open_page(self, address: str) -> None:
        """Go to an address and wait until it is loaded."""
        target = self.ask("Target.createTarget", url="about:blank")["targetId"]
        self._session = self.ask("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Network", "Log", "Runtime", "Accessibility"):
            self.ask(f"{domain}.enable")
        self.told.clear()
        self.ask("Page.navigate", url=address)
        while not any(name == "Page.loadEventFired" for name, _ in self.told):
            self._listen()

    def ask(self, method: str, **parameters: Any) -> dict[str, Any]:
        """Send a command and wait for its answer."""
        self._number += 1
        message: dict[str, Any] = {"id": self._number, "method": method, "params": parameters}
        if self._session is not None:
            message["sessionId"] = self._session
        os.write(self._to, json.dumps(message).encode() + b"\0")
        while True:
            answer = self._listen()
            if answer.get("id") == self._number:
                assert "error" not in answer, answer
                return dict(answer["result"])

    def value_of(self, expression: str) -> Any:
        """What an expression gives in the page."""
        return self.ask("Runtime.evaluate", expression=expression, returnByValue=True)["result"].get("value")

    def _listen(self) -> dict[str, Any]:
        while b"\0" not in self._rest:
            ready, _, _ = select.select([self._back], [], [], _PATIENCE_S)
            assert ready, "the browser says nothing"
            more = os.read(self._back, 1 << 20)
            assert more, "the browser ended"
            self._rest += more
        text, _, self._rest = self._rest.partition(b"\0")
        message: dict[str, Any] = json.loads(text)
        if "method" in message:
            self.told.append((message["method"], message["params"]))
        return message


@contextmanager
def browser(folder: Path) -> Iterator[Tab]:
    """A browser that keeps what it writes in this folder, and ends afterwards."""
    assert PROGRAM is not None
    its_read, to = os.pipe()
    back, its_write = os.pipe()

    def give_pipes() -> None:
        # Both are copied away first: either may have the other's place.
        ends = os.dup(its_read), os.dup(its_write)
        os.dup2(ends[0], _READ)
        os.dup2(ends[1], _WRITE)

    command = [PROGRAM, *_OPTIONS, "--remote-debugging-pipe", f"--user-data-dir={folder}"]
    process = subprocess.Popen(
        command,
        pass_fds=(_READ, _WRITE, its_read, its_write),
        preexec_fn=give_pipes,  # noqa: PLW1509 - no other thread runs here
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    os.close(its_read)
    os.close(its_write)
    try:
        yield Tab(to, back)
    finally:
        process.terminate()
        process.wait(_PATIENCE_S)
        os.close(to)
        os.close(back)
