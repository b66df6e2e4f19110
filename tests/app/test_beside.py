"""Work in a second process: its result, its errors, and no process left behind."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.samples import sample_path

linux = pytest.mark.skipif(sys.platform != "linux", reason="only there a process is copied")


def alone(code: str) -> str:
    """Run code in a fresh process with one thread, and return what it prints."""
    lines = ["import os", "from app.beside import beside", code]
    done = subprocess.run(
        [sys.executable, "-W", "error", "-c", "\n".join(lines)], capture_output=True, text=True, timeout=60
    )
    assert done.stderr == ""
    return done.stdout


@linux
def test_the_work_is_done_in_another_process_and_its_result_comes_back() -> None:
    code = """
with beside(lambda: (os.getpid(), b"sheet" * 100_000)) as done:
    other, data = done()
print(other != os.getpid(), len(data))
"""
    assert alone(code) == "True 500000\n"


@linux
def test_what_the_work_raises_is_raised_where_it_is_waited_for() -> None:
    code = """
def fail():
    raise ValueError("the scale is not above 0")
try:
    with beside(fail) as done:
        done()
except ValueError as problem:
    print(problem)
"""
    assert alone(code) == "the scale is not above 0\n"


@linux
def test_a_process_that_nobody_waits_for_is_gone_at_the_end() -> None:
    code = """
import time
try:
    with beside(lambda: time.sleep(600)) as done:
        raise ValueError("given up")
except ValueError:
    pass
try:
    os.waitpid(-1, os.WNOHANG)
except ChildProcessError:
    print("none left")
"""
    assert alone(code) == "none left\n"


@linux
def test_a_process_that_ends_by_itself_is_told_of() -> None:
    code = """
try:
    with beside(lambda: os._exit(3)) as done:
        done()
except ChildProcessError as problem:
    print(problem)
"""
    assert alone(code) == "the process beside this one ended before its work was done\n"


@linux
def test_with_other_threads_the_work_is_done_here() -> None:
    code = """
import threading
stop = threading.Event()
threading.Thread(target=stop.wait).start()
with beside(os.getpid) as done:
    print(done() == os.getpid())
stop.set()
"""
    assert alone(code) == "True\n"


def test_the_sheets_are_the_same_in_one_process_and_in_two(tmp_path: Path) -> None:
    for threads in ("1", "2"):
        command = ["pack", str(sample_path("alcove-760")), "-o", str(tmp_path / threads)]
        subprocess.run(
            [sys.executable, "-m", "app", *command, "--only", "section", "dxf"],
            check=True,
            stdout=subprocess.DEVNULL,
            env={**os.environ, "OPENBLAS_NUM_THREADS": threads},
        )
    two, one = (
        {path.name: path.read_bytes() for path in (tmp_path / threads).iterdir()} for threads in ("1", "2")
    )
    assert one.keys() == {"elevation_mm.dxf", "section.pdf"}
    assert one == two
