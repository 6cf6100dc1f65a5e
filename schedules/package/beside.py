"""Work done in a second process while this one goes on: the interpreter does one thing at a time in each."""

from __future__ import annotations

import os
import signal
import sys
import threading
from concurrent.futures import ProcessPoolExecutor, ThreadPoolExecutor
from contextlib import contextmanager
from multiprocessing import get_context
from typing import TYPE_CHECKING, Any, TypeVar

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from concurrent.futures import Executor

Made = TypeVar("Made")


@contextmanager
def beside(work: Callable[[], Made]) -> Iterator[Callable[[], Made]]:
    """Begin a piece of work; gives how to wait for what it makes, which must be able to pass between processes.

    What it makes is the same in a process of its own and in a thread. Waiting raises what the work raises.
    """
    with _executor(work) as pool:
        yield pool.submit(_done).result if isinstance(pool, ProcessPoolExecutor) else pool.submit(work).result


def _executor(work: Callable[[], Any]) -> Executor:
    """A copy of this process that has the work at hand, where one can be made; else a thread."""
    if not _can_be_copied():
        return ThreadPoolExecutor(max_workers=1)
    return ProcessPoolExecutor(1, get_context("fork"), initializer=_keep, initargs=(work,))


def _can_be_copied() -> bool:
    # Only Linux copies a process soundly, only one without other threads, and only a second core makes it worth it.
    return sys.platform == "linux" and threading.active_count() == 1 and len(os.sched_getaffinity(0)) > 1


_kept: list[Callable[[], Any]] = []


def _keep(work: Callable[[], Any]) -> None:
    # Whoever interrupts the program interrupts the process that waits; the copy ends with it.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _kept[:] = [work]


def _done() -> Any:
    return _kept[0]()
