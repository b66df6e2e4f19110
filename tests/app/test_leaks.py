"""An hour at the wall, compressed: random edits leave no more objects and no more memory than there were."""

import functools
import gc
import os
import random
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, QEvent, QObject
from PySide6.QtGui import QMouseEvent

from app.window import Window
from geometry.edits.refs import Ref, things
from tests.app.driving import LEFT, keys, mouse
from tests.samples import sample_path

WARM_UP, EDITS = 150, 450
WITHIN = 1.10


def memory() -> int:
    """Return the bytes of memory that this process holds."""
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

    def __init__(self, window: Window) -> None:
        self.window, self.chance = window, random.Random(7)

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


@pytest.mark.skipif(not Path("/proc/self/statm").exists(), reason="reads the memory where Linux tells it")
@pytest.mark.timeout(300)
def test_random_edits_leave_no_objects_and_no_memory_behind(window: Window) -> None:
    def state() -> tuple[int, int, int]:
        # deleted widgets are only gone once their event has come round
        QCoreApplication.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
        gc.collect()
        held = memory()
        forget()
        return held, len(gc.get_objects()), len(window.findChildren(QObject))

    hands = Hands(window)
    window.open_sample(sample_path("planted-faults"))
    for step in ("Ctrl+1", "Ctrl+2", "Ctrl+3", "Ctrl+4"):
        keys(window.bench.canvas, step)
    for _ in range(WARM_UP):
        hands.do_something()
    window.open_job.store.start(window.open_job.document.job)
    before = state()
    for _ in range(EDITS):
        hands.do_something()
    assert window.open_job.document.history.count() > EDITS / 4
    window.open_job.store.start(window.open_job.document.job)
    after = state()
    print(f"\nmemory {before[0] >> 20} then {after[0] >> 20} MiB, objects {before[1:]} then {after[1:]}")
    for was, now in zip(before, after, strict=True):
        assert now <= WITHIN * was
