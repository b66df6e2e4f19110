"""What the start brings in, and what it puts off."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.samples import sample_path

WRITERS = {"ezdxf", "reportlab", "scipy", "networkx", "fontTools", "bidi", "arabic_reshaper"}
"""Packages that only write files, or are wanted for one thing that not everybody does."""
OWN_WRITERS = {"export.pack", "export.pdf", "export.dxf", "export.atomic", "export.svg", "export.html"}


def brought_in(script: str, folder: Path) -> set[str]:
    """Return the modules that a fresh process has after a script."""
    own = {f"XDG_{name}_HOME": str(folder / name.lower()) for name in ("CONFIG", "DATA", "STATE")}
    environment = {**os.environ, **own, "QT_QPA_PLATFORM": "offscreen"}
    script += "\nimport sys\nprint(*sys.modules)\nsys.stdout.flush()\nimport os\nos._exit(0)\n"
    done = subprocess.run(
        [sys.executable, "-c", script], env=environment, capture_output=True, text=True, check=True
    )
    return set(done.stdout.split())


START_PAGE = """
from PySide6.QtWidgets import QApplication
from app.settings import Preferences
from app.window import Window
application = QApplication([])
window = Window(Preferences())
window.show()
window.grab()
"""
WITH_JOB = (
    START_PAGE
    + "from pathlib import Path\nwindow.begin(Path({file!r}))\nwindow.grab()\nassert window.has_job\n"
)


def test_the_start_page_brings_in_neither_the_engine_nor_what_writes_files(tmp_path: Path) -> None:
    modules = brought_in(START_PAGE, tmp_path)
    assert (
        modules & {"shapely", "numpy", "msgspec", "geometry.plan", "app.bench", *WRITERS, *OWN_WRITERS}
        == set()
    )


@pytest.mark.parametrize("sample", ["planted-faults", "bath-stud-wall"])
def test_an_open_job_brings_in_nothing_that_only_writes_files(sample: str, tmp_path: Path) -> None:
    modules = brought_in(WITH_JOB.format(file=str(sample_path(sample))), tmp_path)
    assert "app.bench" in modules
    assert modules & WRITERS == set()
    assert modules & {"export.pack", "export.pdf", "export.dxf", "export.svg", "export.html"} == set()
