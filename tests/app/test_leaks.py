"""Half an hour at the wall, compressed: random edits leave no more objects and memory than there were.

The same stretch of edits is made twice from the same job. After the first, all that fills up once is as full
as it gets, so that whatever is more after the second is left behind by the edits.
"""

import ctypes
import functools
import gc
import os
import platform
import random
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QObject
from PySide6.QtGui import QMouseEvent

from app.window import Window
from geometry.edits.refs import Ref, things
from tests.app.driving import LEFT, keys, mouse
from tests.samples import sample_path

EDITS = 80  # of each stretch
WITHIN = (1.05, 1.005, 1.005)
"""Memory, objects, widgets: with 180 MiB, 100 000 and 3 000 of them 115 KiB, 6 and 0.2 to an edit."""


def memory() -> int:
    """Return the bytes of memory that this process holds, less what is free and can be given back."""
    ctypes.CDLL(None).malloc_trim(0)
    pages = int(Path("/proc/self/statm").read_text(encoding="ascii").split()[1])
    return pages * os.sysconf("SC_PAGE_SIZE")


def forget() -> None:
    """Empty the caches: they hold so many results and no more, but take longer than this test to fill."""
    for cache in [each for each in gc.get_objects() if isinstance(each, functools._lru_cache_wrapper)]:
        if cache.cache_parameters()["maxsize"] is not None:
            cache.cache_clear()
    gc.collect()


class Hands:
    """Somebody who drags, nudges, copies, removes, undoes and looks about, always in the same order."""

    def __init__(self, window: Window, seed: int) -> None:
        self.window, self.chance = window, random.Random(seed)

    def do_something(self) -> None:
        window, chance = self.window, self.chance
        canvas, opened = window.bench.canvas, window.open_job
        fittings = [ref for ref in things(opened.document.job) if ref.kind == "fitting"]
        match chance.randrange(8):
            case 0 | 1 | 2:
                self.drag(chance.choice(fittings))
            case 3:
                opened.selection.choose([chance.choice(fittings)])
                keys(canvas, chance.choice(("Left", "Right", "Up", "Down")))
            case 4:
                opened.selection.choose([chance.choice(fittings)])
                keys(canvas, "Ctrl+D")
                keys(canvas, "Ctrl+Z")
            case 5:
                keys(canvas, "Ctrl+Z")
                keys(canvas, "Ctrl+Shift+Z")
            case 6:
                keys(canvas, chance.choice(("Alt+1", "Alt+2", "Alt+3", "Alt+4", "F8", "Ctrl+0")))
            case _:
                keys(canvas, chance.choice(("Ctrl+1", "Ctrl+2", "Ctrl+3", "Ctrl+4")))
        QCoreApplication.processEvents()

    def drag(self, ref: Ref) -> None:
        canvas, job = self.window.bench.canvas, self.window.open_job.document.job
        x, y = canvas.view.to_screen(job.fitting(ref.id).at)
        start = canvas.rect().toRectF().center()
        start.setX(x)
        start.setY(y)
        mouse(canvas, QMouseEvent.Type.MouseButtonPress, start, LEFT)
        end = start
        for _ in range(3):
            end = end + type(start)(self.chance.randint(-9, 9), self.chance.randint(-9, 9))
            mouse(canvas, QMouseEvent.Type.MouseMove, end)
        mouse(canvas, QMouseEvent.Type.MouseButtonRelease, end, LEFT)


def state(window: Window) -> tuple[int, int, int]:
    """Return how much memory and how many objects and widgets there are."""
    # deleted widgets are only gone once their event has come round
    QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    forget()
    widgets = len(window.findChildren(QObject))  # first of all: it makes an object for each that has none
    return memory(), len(gc.get_objects()), widgets


@pytest.mark.skipif(platform.libc_ver()[0] != "glibc", reason="asks the C library of Linux for free memory")
def test_random_edits_leave_no_objects_and_no_memory_behind(window: Window) -> None:
    window.open_sample(sample_path("planted-faults"))
    store, job = window.open_job.store, window.open_job.document.job
    for step in ("Ctrl+1", "Ctrl+2", "Ctrl+3", "Ctrl+4"):
        keys(window.bench.canvas, step)

    def stretch() -> tuple[int, int, int]:
        hands = Hands(window, seed=7)
        for _ in range(EDITS):
            hands.do_something()
        assert window.open_job.document.history.count() > EDITS / 4
        store.start(job)
        return state(window)

    first, second = stretch(), stretch()
    print(f"\nmemory {first[0] >> 20} then {second[0] >> 20} MiB, objects {first[1:]} then {second[1:]}")
    for was, now, within in zip(first, second, WITHIN, strict=True):
        assert now <= within * was
