"""Work done in a second process while this one goes on: the interpreter does one thing at a time in each."""

from __future__ import annotations

import os
import signal
import sys
import threading
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, nullcontext
from multiprocessing import get_context
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from multiprocessing.connection import Connection

First = TypeVar("First")
Second = TypeVar("Second")


@contextmanager
def beside(
    first: Callable[[], First], second: Callable[[], Second]
) -> Iterator[tuple[Callable[[], First], Callable[[], Second]]]:
    """Begin two pieces of work, one after the other; gives how to wait for what each makes.

    What they make must be able to pass between processes; it is the same in a process of its own and in a thread.
    Waiting raises what the work raises, ChildProcessError where the second process was ended by others.
    """
    works: Sequence[Callable[[], Any]] = (first, second)
    copied = _copied if _can_be_copied() else nullcontext
    with ThreadPoolExecutor(max_workers=1) as pool, copied(works) as ways:
        begun = [pool.submit(way) for way in ways]
        try:
            yield begun[0].result, begun[1].result
        finally:
            pool.shutdown(wait=False, cancel_futures=True)


def _can_be_copied() -> bool:
    # Only Linux copies a process soundly, only one without other threads, and only a second core makes it worth it.
    return sys.platform == "linux" and threading.active_count() == 1 and len(os.sched_getaffinity(0)) > 1


@contextmanager
def _copied(works: Sequence[Callable[[], Any]]) -> Iterator[Sequence[Callable[[], Any]]]:
    """A copy of this process does the works; gives how to receive what each makes, in their order."""
    context = get_context("fork")
    receiving, sending = context.Pipe(duplex=False)
    process = context.Process(target=_do, args=(works, receiving, sending), daemon=True)
    process.start()
    sending.close()

    def received() -> Any:
        try:
            error, made = receiving.recv()
        except EOFError as ended:
            raise ChildProcessError("the process that made the drawings was ended") from ended
        if error is not None:
            raise error
        return made

    try:
        yield [received] * len(works)
    finally:
        process.terminate()
        process.join()


def _do(works: Sequence[Callable[[], Any]], receiving: Connection, sending: Connection) -> None:
    # Whoever interrupts the program interrupts the process that waits, and it ends this one.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    # With nobody left to receive, sending fails, and this process ends.
    receiving.close()
    try:
        for work in works:
            sending.send(_outcome(work))
    except BrokenPipeError:
        return


def _outcome(work: Callable[[], Any]) -> tuple[Exception | None, Any]:
    try:
        return None, work()
    except Exception as error:
        return error, None
