"""One job from the first press to the sheets: driven without a screen, and once in a window under Xvfb."""

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from PySide6.QtGui import QImage

from app.window import Window
from geometry.jobfile import read_job
from tests.app.driving import Answers
from tests.app.whole_job import Worker

ROOT = Path(__file__).parents[2]


def test_a_job_is_worked_through_by_real_events(window: Window, answers: Answers, tmp_path: Path) -> None:
    Worker(window, answers, tmp_path).work()


@pytest.mark.skipif(shutil.which("Xvfb") is None, reason="Xvfb is not installed; .ci/bootstrap installs it")
def test_a_job_is_worked_through_in_a_real_window(tmp_path: Path) -> None:
    own = {f"XDG_{name}_HOME": str(tmp_path / name.lower()) for name in ("CONFIG", "DATA", "STATE")}
    reading, writing = os.pipe()
    xvfb = subprocess.Popen(
        ["Xvfb", "-displayfd", str(writing), "-screen", "0", "1280x900x24", "-nolisten", "tcp"],
        pass_fds=[writing],
        stderr=subprocess.DEVNULL,
    )
    os.close(writing)
    try:
        with os.fdopen(reading) as told:
            display = f":{told.readline().strip()}"
        done = subprocess.run(
            [sys.executable, "-m", "tests.app.whole_job", str(tmp_path)],
            cwd=ROOT,
            env={**os.environ, **own, "QT_QPA_PLATFORM": "xcb", "DISPLAY": display},
            capture_output=True,
            text=True,
            timeout=100,
            check=False,
        )
    finally:
        xvfb.terminate()
        xvfb.wait()
    assert (done.returncode, done.stdout) == (0, "xcb\n"), done.stderr
    assert read_job((tmp_path / "bathroom.json").read_bytes()).fitting("head").x == 380.0
    screen = QImage(str(tmp_path / "screen.png"))
    colours = {screen.pixel(x, y) for x in range(0, screen.width(), 3) for y in range(0, screen.height(), 3)}
    assert len(colours) > 50  # words are written: their edges have many shades
