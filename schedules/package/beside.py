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
    from collections.abc import Callable, Iterator, Sequence
    from concurrent.futures import Executor

First = TypeVar("First")
Second = TypeVar("Second")


@contextmanager
def beside(
    first: Callable[[], First], second: Callable[[], Second]
) -> Iterator[tuple[Callable[[], First], Callable[[], Second]]]:
    """Begin two pieces of work, one after the other; gives how to wait for what each makes.

    What they make must be able to pass between processes; it is the same in a process of its own and in a thread.
    Waiting raises what the work raises.
    """
    works = (first, second)
    with _executor(works) as pool:
        if isinstance(pool, ProcessPoolExecutor):
            begun = [pool.submit(_done, place) for place in range(len(works))]
        else:
            begun = [pool.submit(work) for work in works]
        try:
            yield begun[0].result, begun[1].result
        finally:
            pool.shutdown(cancel_futures=True)


def _executor(works: Sequence[Callable[[], Any]]) -> Executor:
    """A copy of this process that has the works at hand, where one can be made; else a thread."""
    if not _can_be_copied():
        return ThreadPoolExecutor(max_workers=1)
    return ProcessPoolExecutor(1, get_context("fork"), initializer=_keep, initargs=(works,))


def _can_be_copied() -> bool:
    # Only Linux copies a process soundly, only one without other threads, and only a second core makes it worth it.
    return sys.platform == "linux" and threading.active_count() == 1 and len(os.sched_getaffinity(0)) > 1


_kept: list[Callable[[], Any]] = []


def _keep(works: Sequence[Callable[[], Any]]) -> None:
    # Whoever interrupts the program interrupts the process that waits; the copy ends with it.
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    _kept[:] = works


def _done(place: int) -> Any:
    return _kept[place]()
