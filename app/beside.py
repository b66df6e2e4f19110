"""Work done in a second process beside this one, where a process can be copied safely."""

import os
import pickle
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any, NoReturn, TypeVar

T = TypeVar("T")
_THREADS = "/proc/self/task"


@contextmanager
def beside(work: Callable[[], T]) -> Iterator[Callable[[], T]]:
    """Begin some work in a copy of this process, and yield what waits for its result.

    Waiting raises what the work raised. The result is pickled. A process with more than one thread is not
    copied, as the copy may hold a lock for ever: then the work is done here, once its result is waited for.
    """
    if sys.platform != "linux" or len(os.listdir(_THREADS)) > 1:
        yield work
        return
    receiving, sending = os.pipe()
    copy = os.fork()
    if copy == 0:
        os.close(receiving)
        _work_and_end(work, sending)
    os.close(sending)
    try:
        with open(receiving, "rb") as pipe:
            yield lambda: _told(pipe.read())
    finally:
        os.kill(copy, signal.SIGKILL)  # where nobody waits for it any more; one that has ended does not mind
        os.waitpid(copy, 0)


def _work_and_end(work: Callable[[], T], sending: int) -> NoReturn:
    """Do the work in the copy, and leave without what a process does at its end: the first one does that."""
    try:
        try:
            told = pickle.dumps((work(), None))
        except Exception as problem:
            told = pickle.dumps((None, problem))
        with open(sending, "wb") as pipe:
            pipe.write(told)
    finally:
        os._exit(0)


def _told(data: bytes) -> Any:
    if not data:
        raise ChildProcessError("the process beside this one ended before its work was done")
    result, problem = pickle.loads(data)
    if problem is not None:
        raise problem
    return result
