"""Copies of unsaved work: when they are written, when they go, and what is made of broken ones."""

import json
import subprocess
import sys
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app import recovery
from app.recovery import Autosave, leftovers
from geometry.jobfile import read_job
from geometry.model import Job
from geometry.setting_out.arrangement import suggested_job

JOB = suggested_job(760, 760, "left")


def moved(x: float) -> Job:
    return JOB.moved("rail", x, 1120.0)


@pytest.fixture
def autosave(qtbot: QtBot, tmp_path: Path) -> Autosave:
    return Autosave(tmp_path)


@pytest.fixture
def quick(monkeypatch: pytest.MonkeyPatch, qtbot: QtBot, tmp_path: Path) -> Autosave:
    """Return an autosave whose waits are 40 times shorter."""
    monkeypatch.setattr(recovery, "PAUSE", recovery.PAUSE // 40)
    monkeypatch.setattr(recovery, "LONGEST", recovery.LONGEST // 40)
    return Autosave(tmp_path)


def copies(folder: Path) -> list[Job]:
    """Return the jobs in a folder's copies, the newest first."""
    order = {".json": 0, ".1": 1, ".2": 2}
    files = sorted(
        (file for file in folder.iterdir() if file.suffix in order), key=lambda file: order[file.suffix]
    )
    return [read_job(json.loads(file.read_text())["job"].encode()) for file in files]


def leave_behind(folder: Path, path: Path | None = None, x: float = 444.0) -> None:
    """Let another process write a copy and die."""
    script = """
import os, sys
from pathlib import Path
from PySide6.QtCore import QCoreApplication
from app.recovery import Autosave
from geometry.setting_out.arrangement import suggested_job
application = QCoreApplication([])
autosave = Autosave(Path(sys.argv[1]))
job = suggested_job(760, 760, "left").moved("rail", float(sys.argv[3]), 1120.0)
autosave.note(job, Path(sys.argv[2]) if sys.argv[2] else None, saved=False)
autosave.flush()
os.kill(os.getpid(), 9)
"""
    subprocess.run([sys.executable, "-c", script, str(folder), str(path or ""), str(x)], check=False)


def test_the_waits_keep_a_copy_at_most_5_seconds_old() -> None:
    assert recovery.PAUSE == 2000
    assert recovery.PAUSE < recovery.LONGEST < 5000


def test_a_copy_is_written_after_the_pause(quick: Autosave, qtbot: QtBot, tmp_path: Path) -> None:
    quick.note(moved(500.0), None, saved=False)
    assert list(tmp_path.iterdir()) == []
    qtbot.waitUntil(lambda: copies(tmp_path) == [moved(500.0)])


def test_edits_without_a_pause_are_written_all_the_same(
    quick: Autosave, qtbot: QtBot, tmp_path: Path
) -> None:
    # the pause is begun anew by each edit, the longest wait is not
    for x in range(400, 460):
        quick.note(moved(float(x)), None, saved=False)
        qtbot.wait(recovery.PAUSE // 5)
        if copies(tmp_path):
            return
    pytest.fail("60 edits, each a fifth of the pause after the other, and no copy")


def test_two_copies_before_the_newest_are_kept(autosave: Autosave, tmp_path: Path) -> None:
    for x in (401.0, 402.0, 403.0, 404.0):
        autosave.note(moved(x), None, saved=False)
        autosave.flush()
    assert copies(tmp_path) == [moved(404.0), moved(403.0), moved(402.0)]


def test_nothing_is_written_twice(autosave: Autosave, tmp_path: Path) -> None:
    job = moved(401.0)
    autosave.note(job, None, saved=False)
    autosave.flush()
    autosave.note(job, None, saved=False)
    autosave.flush()
    assert copies(tmp_path) == [job]


def test_a_saved_job_has_no_copy(autosave: Autosave, tmp_path: Path) -> None:
    autosave.note(moved(401.0), None, saved=False)
    autosave.flush()
    autosave.note(moved(401.0), tmp_path / "job.json", saved=True)
    assert list(tmp_path.iterdir()) == []
    autosave.flush()
    assert list(tmp_path.iterdir()) == []


def test_what_was_given_up_is_not_written_again(autosave: Autosave, tmp_path: Path) -> None:
    # closing a window takes the focus from it, which writes the copy of what is unsaved
    autosave.note(moved(401.0), None, saved=False)
    autosave.flush()
    autosave.discard()
    autosave.flush()
    assert list(tmp_path.iterdir()) == []


def test_undo_after_saving_is_unsaved_work_again(autosave: Autosave, tmp_path: Path) -> None:
    autosave.note(moved(401.0), None, saved=True)
    autosave.note(JOB, None, saved=False)
    autosave.flush()
    assert copies(tmp_path) == [JOB]


def test_under_a_new_name_there_is_one_copy_only(autosave: Autosave, tmp_path: Path) -> None:
    job = moved(401.0)
    autosave.note(job, None, saved=False)
    autosave.flush()
    autosave.note(job, Path("/somewhere/job.json"), saved=False)
    autosave.flush()
    (file,) = [file for file in tmp_path.iterdir() if file.suffix == ".json"]
    assert json.loads(file.read_text())["path"] == "/somewhere/job.json"
    assert len(copies(tmp_path)) == 1


def test_a_folder_that_cannot_be_is_told_once_and_tried_again(
    quick: Autosave, qtbot: QtBot, tmp_path: Path
) -> None:
    quick.folder = tmp_path / "taken" / "recovery"
    (tmp_path / "taken").write_text("")
    told: list[str] = []
    quick.failed.connect(told.append)
    quick.note(moved(401.0), None, saved=False)
    qtbot.waitUntil(lambda: len(told) == 1)
    quick.flush()
    assert len(told) == 1
    (tmp_path / "taken").unlink()
    qtbot.waitUntil(lambda: quick.folder.is_dir() and copies(quick.folder) == [moved(401.0)])


def test_a_living_window_leaves_nothing_to_be_found(autosave: Autosave, tmp_path: Path) -> None:
    autosave.note(moved(401.0), None, saved=False)
    autosave.flush()
    assert leftovers(tmp_path) == ()
    assert copies(tmp_path) == [moved(401.0)]


def test_what_a_killed_process_left_is_found_with_its_place(qtbot: QtBot, tmp_path: Path) -> None:
    leave_behind(tmp_path, Path("/somewhere/job.json"))
    (left,) = leftovers(tmp_path)
    assert (left.job, left.path) == (moved(444.0), Path("/somewhere/job.json"))
    left.discard()
    assert leftovers(tmp_path) == ()
    assert [file for file in tmp_path.iterdir() if file.suffix != ".lock"] == []


def test_the_newest_is_offered_first(qtbot: QtBot, tmp_path: Path) -> None:
    leave_behind(tmp_path, None, 401.0)
    leave_behind(tmp_path, Path("/b.json"), 402.0)
    leave_behind(tmp_path, None, 403.0)
    assert [left.job for left in leftovers(tmp_path)] == [moved(403.0), moved(402.0), moved(401.0)]


@pytest.mark.parametrize(
    "data", [b"", b"{}", b'{"format": "chasewright recovery", "path": null', b"\x00" * 99]
)
def test_a_broken_copy_gives_way_to_the_one_before(qtbot: QtBot, tmp_path: Path, data: bytes) -> None:
    leave_behind(tmp_path)
    (file,) = [file for file in tmp_path.iterdir() if file.suffix == ".json"]
    file.rename(file.with_suffix(".1"))
    assert [left.job for left in leftovers(tmp_path)] == [moved(444.0)]
    file.write_bytes(data)
    assert [left.job for left in leftovers(tmp_path)] == [moved(444.0)]
    file.with_suffix(".1").write_bytes(data)
    assert leftovers(tmp_path) == ()
    assert file.exists()


def test_without_a_folder_nothing_is_found(tmp_path: Path) -> None:
    assert leftovers(tmp_path / "not there") == ()
