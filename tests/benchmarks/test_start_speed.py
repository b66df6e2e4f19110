"""How long the window takes to its first painted picture, as a ratio to an empty window in the same run:
to one that has the same names of Qt imported, and to one that has only those which it needs itself.

Both are whole processes on a platform without a screen, timed from outside and ended right after the first
painting. They take turns, so that whatever else the machine does meets both alike.
"""

import ast
import os
import subprocess
import sys
import time
from pathlib import Path

from tests.samples import sample_path

RUNS = 9

# An empty window in a process that has imported from Qt what the start of ours imports.
EMPTY = """
import os, sys
{imports}
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication, QMainWindow

class Empty(QMainWindow):
    def paintEvent(self, event):
        QTimer.singleShot(0, lambda: os._exit(0))
        super().paintEvent(event)

application = QApplication(sys.argv[:1])
window = Empty()
window.resize(1280, 800)
window.show()
application.exec()
"""
# As `app.cli.run` starts it. What follows the first painting is left out.
START = """
import os
import app.cli
app.cli.tune()
from PySide6.QtCore import QTimer
from app.window import Window, open_window

paint = Window.paintEvent
def paint_and_end(window, event):
    QTimer.singleShot(0, lambda: os._exit(0))
    paint(window, event)
Window.paintEvent = paint_and_end
open_window(None)
"""
WITH_JOB = """
import os
from pathlib import Path
from PySide6.QtCore import QTimer
from app.window import Window, open_window

begin = Window.begin
def begin_and_paint(window, file):
    begin(window, file)
    window.repaint()
    os._exit(0)
Window.begin = begin_and_paint
open_window(Path({file!r}))
"""
OURS = """
import sys
import app.window
print("\\n".join(module.__file__ for name, module in sys.modules.items() if name.split(".")[0] == "app"))
"""


def qt_imports() -> str:
    """Return every line with which the modules of our start import from Qt."""
    printed = subprocess.run([sys.executable, "-c", OURS], check=True, capture_output=True, text=True).stdout
    lines = set()
    for file in printed.split("\n")[:-1]:
        for node in ast.parse(Path(file).read_text(encoding="utf-8")).body:
            if isinstance(node, ast.ImportFrom) and str(node.module).startswith("PySide6"):
                lines.add(ast.unparse(node))
    return "\n".join(sorted(lines))


def seconds(code: str, home: Path) -> float:
    own = {f"XDG_{name}_HOME": str(home / name.lower()) for name in ("CONFIG", "DATA", "STATE")}
    environment = {**os.environ, **own, "QT_QPA_PLATFORM": "offscreen"}
    begun = time.perf_counter()
    subprocess.run([sys.executable, "-c", code], check=True, env=environment, stderr=subprocess.DEVNULL)
    return time.perf_counter() - begun


def in_turns(codes: tuple[str, ...], home: Path) -> list[float]:
    """Return the least seconds of each: what else the machine does only adds to them."""
    for code in codes:
        seconds(code, home)  # once for whatever is compiled or cached
    times = [[seconds(code, home) for code in codes] for _ in range(RUNS)]
    return [min(column) for column in zip(*times, strict=True)]


def test_the_window_is_painted_within_1_6_times_an_empty_one(tmp_path: Path) -> None:
    bare = EMPTY.format(imports="")
    same = EMPTY.format(imports=qt_imports())
    job = WITH_JOB.format(file=str(sample_path("planted-faults")))
    bare_time, empty, start, with_job = in_turns((bare, same, START, job), tmp_path)
    print(
        f"\nempty window {empty * 1000:.0f} ms ({bare_time * 1000:.0f} ms with two names of Qt imported),"
        f" start page {start * 1000:.0f} ms, ratio {start / empty:.2f} ({start / bare_time:.2f});"
        f" with a job {with_job * 1000:.0f} ms, ratio {with_job / empty:.2f}"
    )
    assert start <= 1.6 * empty
    assert start <= 1.6 * bare_time
