"""The wizard in a real browser, through the framework's own server: what is typed there stands in the job's file."""

from __future__ import annotations

import asyncio
import contextlib
import os
import shutil
import socket
import sys
import time
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from schedules.job.draft import read_draft
from tests.stage import sample_job

if TYPE_CHECKING:
    from collections.abc import AsyncIterator, Callable

BROWSER = next(
    (path for name in ("chromium", "chromium-browser", "google-chrome") if (path := shutil.which(name))), ""
)
LONGEST_WAIT_S = 60.0
"""How long a condition may take; nothing passes by waiting."""
TOP = Path(__file__).parents[2]
LISTEN = """
window.shown = '';
window.WebSocket = class extends WebSocket {
    constructor(...words) {
        super(...words);
        this.addEventListener('message', async (event) => {
            window.shown += typeof event.data === 'string' ? event.data : await new Response(event.data).text();
        });
    }
};
"""
"""What the program draws, kept as text: the page itself paints it."""
SERVE = """
import sys
from textual_serve.server import Server
Server(sys.argv[1], port=int(sys.argv[2])).serve()
"""

pytestmark = pytest.mark.skipif(not BROWSER, reason="no browser on this system")
pytest.importorskip("textual_serve", reason="the extra `browser` is not installed")


async def until(holds: Callable[[], bool], words: str) -> None:
    limit = time.monotonic() + LONGEST_WAIT_S
    while not holds():
        assert time.monotonic() < limit, f"never came: {words}"
        await asyncio.sleep(0.05)


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        port: int = probe.getsockname()[1]
        return port


def answers(port: int) -> bool:
    with socket.socket() as probe:
        return probe.connect_ex(("127.0.0.1", port)) == 0


@contextlib.asynccontextmanager
async def process(*words: str, folder: Path) -> AsyncIterator[None]:
    """A process that is ended with the block."""
    started = await asyncio.create_subprocess_exec(
        *words,
        cwd=folder,
        env=os.environ | {"PYTHONPATH": str(TOP)},
        stdin=asyncio.subprocess.DEVNULL,
        stdout=asyncio.subprocess.DEVNULL,
        stderr=asyncio.subprocess.DEVNULL,
    )
    try:
        yield
    finally:
        with contextlib.suppress(ProcessLookupError):
            started.terminate()
        await started.wait()


class Page:
    """One page of the browser, driven over its own debugging line."""

    def __init__(self, line: Any) -> None:
        self._line = line
        self._number = 0

    async def ask(self, method: str, **parameters: object) -> Any:
        self._number += 1
        await self._line.send_json({"id": self._number, "method": method, "params": parameters})
        while True:
            answer = await self._line.receive_json(timeout=LONGEST_WAIT_S)
            if answer.get("id") == self._number:
                return answer.get("result", {})

    async def says(self, script: str) -> Any:
        return (await self.ask("Runtime.evaluate", expression=script))["result"].get("value")

    async def until_says(self, script: str) -> None:
        limit = time.monotonic() + LONGEST_WAIT_S
        while not await self.says(script):
            assert time.monotonic() < limit, f"never true: {script}"
            await asyncio.sleep(0.05)

    async def key(self, key: str, code: int, text: str = "") -> None:
        pressed = {"key": key, "code": key, "windowsVirtualKeyCode": code}
        await self.ask("Input.dispatchKeyEvent", type="keyDown", text=text, **pressed)
        await self.ask("Input.dispatchKeyEvent", type="keyUp", **pressed)


async def test_an_answer_typed_in_a_browser_is_saved(site: Path) -> None:
    import aiohttp  # noqa: PLC0415  comes with the extra

    path = sample_job("galley-gas", site)
    port, debugging = free_port(), free_port()
    command = f"{sys.executable} -m wizard {path}"
    browser = (
        *(BROWSER, "--headless=new", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage"),
        *(f"--remote-debugging-port={debugging}", f"--user-data-dir={site / 'profile'}"),
        *(
            "--host-resolver-rules=MAP * ~NOTFOUND , EXCLUDE localhost",
            "--window-size=1200,800",
            "about:blank",
        ),
    )
    async with (
        process(sys.executable, "-c", SERVE, command, str(port), folder=site),
        process(*browser, folder=site),
        aiohttp.ClientSession() as session,
    ):
        await until(lambda: answers(port) and answers(debugging), "server and browser")
        async with session.put(f"http://127.0.0.1:{debugging}/json/new?about:blank") as found:
            target = (await found.json())["webSocketDebuggerUrl"]
        async with session.ws_connect(target, max_msg_size=0) as line:
            page = Page(line)
            await page.ask("Page.addScriptToEvaluateOnNewDocument", source=LISTEN)
            await page.ask("Page.enable")
            await page.ask("Page.navigate", url=f"http://localhost:{port}/")
            await page.until_says("(window.shown || '').includes('complete')")
            await page.says("document.querySelector('.xterm-helper-textarea').focus()")
            await page.key("Enter", 13, "\r")
            for letter in "In a browser":
                await page.key(letter, ord(letter.upper()), letter)
            await page.key("Enter", 13, "\r")
            await until(
                lambda: "In a browser" in read_draft(path).job.job.name, "the answer in the job's file"
            )
