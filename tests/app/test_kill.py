"""The process is killed in the middle of work and started again: at most the last 5 seconds are missing."""

import os
import signal
import subprocess
import sys
import time
from pathlib import Path

import pytest

from app.recovery import leftovers
from geometry.jobfile import read_job, write_job
from geometry.setting_out.arrangement import suggested_job

JOB = suggested_job(760, 760, "left")
AT_MOST = 5.0
"""Seconds of work that may be lost."""

# The real program on a real file; the rail is moved every 100 ms, so that there is never a pause of 2 s, and
# each move is told with its time as soon as it is in the history.
WORKING = """
import sys, time
from pathlib import Path
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from app.window import Window, open_window

def work():
    windows = [w for w in QApplication.topLevelWidgets() if isinstance(w, Window) and w.has_job]
    if windows:
        document = windows[0].open_job.document
        rail = document.job.fitting("rail")
        document.edit("Move rail", document.job.moved("rail", rail.x - 0.1, rail.height))
        print(time.time(), document.job.fitting("rail").x, flush=True)

application = QApplication([])
timer = QTimer()
timer.timeout.connect(work)
timer.start(100)
sys.exit(open_window(Path(sys.argv[1])))
"""

# The program started again, without a file: what it offers is opened, and the job on screen saved elsewhere.
AGAIN = """
import sys
from pathlib import Path
from PySide6.QtCore import QTimer
from PySide6.QtWidgets import QApplication
from app.recovery_dialog import RecoveryDialog
from app.window import Window, open_window

def look():
    for window in QApplication.topLevelWidgets():
        if isinstance(window, RecoveryDialog) and window.isVisible():
            window.open_button.click()
        elif isinstance(window, Window) and window.has_job:
            window.open_job.store.save_as(Path(sys.argv[1]))
            window.close()

application = QApplication([])
timer = QTimer()
timer.timeout.connect(look)
timer.start(50)
sys.exit(open_window(None))
"""


@pytest.fixture
def homes(tmp_path: Path) -> dict[str, str]:
    """Return an environment whose settings and data are of this test alone."""
    own = {f"XDG_{name}_HOME": str(tmp_path / name.lower()) for name in ("CONFIG", "DATA", "STATE")}
    return {**os.environ, **own, "QT_QPA_PLATFORM": "offscreen"}


@pytest.mark.skipif(not hasattr(signal, "SIGKILL"), reason="needs a signal that no process can hold off")
def test_a_killed_program_loses_at_most_5_seconds(tmp_path: Path, homes: dict[str, str]) -> None:
    file = tmp_path / "bathroom.json"
    file.write_bytes(write_job(JOB))
    worker = subprocess.Popen(
        [sys.executable, "-c", WORKING, str(file)], env=homes, stdout=subprocess.PIPE, text=True
    )
    assert worker.stdout is not None
    moves: list[tuple[float, float]] = []
    while not moves or moves[-1][0] - moves[0][0] < AT_MOST + 2:
        at, x = worker.stdout.readline().split()
        moves.append((float(at), float(x)))
    worker.send_signal(signal.SIGKILL)
    killed = time.time()
    moves += [(float(line.split()[0]), float(line.split()[1])) for line in worker.stdout.read().splitlines()]
    worker.wait()
    worker.stdout.close()

    assert read_job(file.read_bytes()) == JOB  # the user's file is never written by itself
    (left,) = leftovers(tmp_path / "data" / "chasewright" / "recovery")
    kept = left.job.fitting("rail").x
    missing = [at for at, x in moves if x < kept]  # each move goes further to the left
    assert left.path == file
    assert kept < JOB.fitting("rail").x
    assert not missing or killed - missing[0] <= AT_MOST

    rescued = tmp_path / "rescued.json"
    done = subprocess.run([sys.executable, "-c", AGAIN, str(rescued)], env=homes, timeout=60, check=False)
    assert done.returncode == 0
    assert read_job(rescued.read_bytes()) == left.job
    assert leftovers(tmp_path / "data" / "chasewright" / "recovery") == ()


def test_an_unclean_end_leaves_the_file_free_for_the_next_window(
    tmp_path: Path, homes: dict[str, str]
) -> None:
    file = tmp_path / "bathroom.json"
    file.write_bytes(write_job(JOB))
    script = """
import os, sys
from pathlib import Path
from PySide6.QtWidgets import QApplication
from app.document import Document
from app.store import Store
from geometry.parts.catalogue import generic_parts
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
application = QApplication([])
store = Store(Document(suggested_job(760, 760, "left"), generic_parts(), standard_rules()))
store.open(Path(sys.argv[1]))
print("held", flush=True)
os._exit(1)
"""
    for _ in range(2):
        done = subprocess.run(
            [sys.executable, "-c", script, str(file)], env=homes, capture_output=True, text=True, check=False
        )
        assert done.stdout == "held\n", done.stderr
