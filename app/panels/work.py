"""Work off the window's thread: it is given what it needs, never touches the job, and answers by signals."""

import threading
import traceback
from collections.abc import Callable
from typing import Any

from PySide6.QtCore import QObject, QRunnable, QThreadPool, Signal, SignalInstance
from shiboken6 import isValid


class Answers(QObject):
    """What a piece of work says while it lasts; heard in the thread of whoever listens."""

    progressed = Signal(int, int)
    """So many steps are done, of so many."""
    done = Signal(object)
    """The result."""
    failed = Signal(str)
    """Why there is none: one sentence."""
    ended = Signal()
    """It is over, whether done, failed or given up."""


class Work(QRunnable):
    """Runs a function once in another thread.

    Args:
        job: is given this object, by which it says how far it is and hears whether to give up.
    """

    def __init__(self, job: Callable[["Work"], Any]) -> None:
        super().__init__()
        self.answers = Answers()
        self._job = job
        self._given_up = threading.Event()

    @property
    def is_given_up(self) -> bool:
        """Whether nobody wants the result any more."""
        return self._given_up.is_set()

    def begin(self) -> None:
        """Begin in the pool that the program waits for before it ends."""
        QThreadPool.globalInstance().start(self)

    def give_up(self) -> None:
        """Ask to stop at the next step; there will be no result."""
        self._given_up.set()

    def progress(self, done: int, of: int) -> None:
        """Say how far it is."""
        self._say(self.answers.progressed, done, of)

    def run(self) -> None:
        """Run the function and say what came of it."""
        try:
            result = None if self.is_given_up else self._job(self)
        except (ValueError, OSError, ImportError) as problem:
            self._say(self.answers.failed, str(problem))
        except Exception as fault:  # in another thread nobody else would hear of it
            traceback.print_exc()
            self._say(self.answers.failed, f"{type(fault).__name__}: {fault}")
        else:
            if not self.is_given_up:
                self._say(self.answers.done, result)
        self._say(self.answers.ended)

    def _say(self, signal: SignalInstance, *words: Any) -> None:
        """Emit a signal, unless the program has ended meanwhile and nobody is left to hear it."""
        if isValid(self.answers):
            signal.emit(*words)
