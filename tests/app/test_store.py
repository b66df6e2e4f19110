"""The file of the open job: whole, held by one window, and never the victim of a failure."""

import json
import os
import stat
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtWidgets import QApplication

from app.cli import main
from app.document import Document
from app.files import InputError
from app.store import BusyError, ChangedOutsideError, Store
from geometry.jobfile import read_job, write_job
from geometry.model import Job, Photograph, Pipework
from geometry.parts.catalogue import generic_parts
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.export.photographs import photograph

JOB = suggested_job(760, 760, "left")
OTHER = suggested_job(1200, 800, "right")
OWN_RULE = """
[front.head_rail]
value = 2000
source = { standing = "common practice", document = "House rules" }
"""
OWN_PART = '[[part]]\ntype = "hose"\nid = "my-hose"\nname = "Mine"\nlength = 1400.0\n'


def a_document() -> Document:
    return Document(JOB, generic_parts(), standard_rules())


@pytest.fixture
def locks(tmp_path: Path) -> Path:
    return tmp_path / "locks"


@pytest.fixture
def store(qapp: QApplication, locks: Path) -> Iterator[Store]:
    store = Store(a_document(), locks)
    yield store
    store.close()


@pytest.fixture
def second(qapp: QApplication, locks: Path) -> Iterator[Store]:
    """Return what another window would have."""
    store = Store(a_document(), locks)
    yield store
    store.close()


@pytest.fixture
def file(tmp_path: Path) -> Path:
    path = tmp_path / "bathroom.json"
    path.write_bytes(write_job(OTHER))
    return path


def moved(job: Job, x: float) -> Job:
    return job.moved("rail", x, job.fitting("rail").height)


def edited(store: Store, x: float = 500.0) -> Job:
    store.document.edit("Move rail", moved(store.document.job, x))
    return store.document.job


def test_an_opened_job_is_that_of_the_file_and_is_saved(store: Store, file: Path) -> None:
    store.open(file)
    assert store.document.job == OTHER
    assert (store.path, store.document.is_saved, store.look_only) == (file, True, False)


def test_save_writes_what_is_on_screen(store: Store, file: Path) -> None:
    store.open(file)
    job = edited(store)
    assert not store.document.is_saved
    store.save()
    assert read_job(file.read_bytes()) == job
    assert store.document.is_saved


def test_save_during_a_gesture_writes_the_job_without_its_preview(store: Store, file: Path) -> None:
    store.open(file)
    store.document.preview(moved(OTHER, 123.0))
    store.save()
    assert read_job(file.read_bytes()) == OTHER


@pytest.mark.skipif(sys.platform == "win32", reason="Windows has no such permissions and links")
def test_save_keeps_permissions_and_links(store: Store, file: Path, tmp_path: Path) -> None:
    file.chmod(0o640)
    link = tmp_path / "today.json"
    link.symlink_to(file)
    store.open(link)
    job = edited(store)
    store.save()
    assert link.is_symlink()
    assert read_job(file.read_bytes()) == job
    assert stat.S_IMODE(file.stat().st_mode) == 0o640


def test_a_new_job_has_no_file_to_save_to(store: Store) -> None:
    store.start(OTHER)
    with pytest.raises(InputError, match="Save as"):
        store.save()
    assert store.document.job == OTHER


def test_save_as_makes_the_other_file_the_jobs_own(store: Store, file: Path, tmp_path: Path) -> None:
    store.open(file)
    job = edited(store)
    assert store.save_as(tmp_path / "copy.json") is None
    assert store.path == tmp_path / "copy.json"
    assert store.document.is_saved
    assert read_job(file.read_bytes()) == OTHER
    assert read_job((tmp_path / "copy.json").read_bytes()) == job


def test_save_as_takes_the_photographs_of_the_record_along(store: Store, tmp_path: Path) -> None:
    home, away = tmp_path / "home", tmp_path / "away"
    for folder in (home, away):
        folder.mkdir()
    (home / "wall.jpg").write_bytes(photograph(64, 48))
    held = Pipework(photographs=(Photograph(file="wall.jpg"),))
    (home / "job.json").write_bytes(write_job(OTHER.but(pipework=held)))
    store.open(home / "job.json")
    assert store.save_as(away / "job.json") is None
    assert (away / "wall.jpg").read_bytes() == photograph(64, 48)
    (home / "wall.jpg").write_bytes(photograph(32, 24))  # another picture by now
    told = store.save_as(home / "second.json")
    assert told is not None
    assert "wall.jpg (another file has its name)" in told


def test_save_as_adds_the_ending_that_job_files_have(store: Store, tmp_path: Path) -> None:
    store.start(JOB)
    store.save_as(tmp_path / "shower")
    assert store.path == tmp_path / "shower.json"


@pytest.mark.skipif(not hasattr(os, "geteuid"), reason="needs the permissions of Unix")
@pytest.mark.parametrize("blocked", ["folder is gone", "a folder in its place"])
def test_a_save_that_fails_leaves_file_and_job(
    store: Store, file: Path, tmp_path: Path, blocked: str
) -> None:
    store.open(file)
    job = edited(store)
    target = tmp_path / "away" / "job.json" if blocked == "folder is gone" else tmp_path / "folder.json"
    if blocked != "folder is gone":
        target.mkdir()
    before = sorted(os.listdir(tmp_path))
    with pytest.raises(InputError) as told:
        store.save_as(target)
    assert "\n" not in str(told.value)
    assert target.name in str(told.value)
    assert (store.document.job, store.path, store.document.is_saved) == (job, file, False)
    assert read_job(file.read_bytes()) == OTHER
    assert sorted(os.listdir(tmp_path)) == before


@pytest.mark.parametrize("data", [b"", b"not a job", b'{"format": "chasewright job", "version": 99}'])
def test_a_file_that_is_no_job_leaves_the_open_one(
    store: Store, file: Path, tmp_path: Path, data: bytes
) -> None:
    store.open(file)
    job = edited(store)
    bad = tmp_path / "bad.json"
    bad.write_bytes(data)
    with pytest.raises(InputError, match=r"bad\.json"):
        store.open(bad)
    assert (store.document.job, store.path, store.document.is_saved) == (job, file, False)
    assert store.document.history.can_undo()
    store.save()


def test_a_job_whose_part_is_unknown_leaves_the_open_one(store: Store, file: Path, tmp_path: Path) -> None:
    store.open(file)
    bad = tmp_path / "bad.json"
    bad.write_bytes(file.read_bytes().replace(b'"hose-1500"', b'"hose-of-nobody"'))
    with pytest.raises(InputError, match="hose-of-nobody"):
        store.open(bad)
    assert (store.document.job, store.path) == (OTHER, file)


def test_a_second_window_is_told_and_may_look_but_not_save(store: Store, second: Store, file: Path) -> None:
    store.open(file)
    with pytest.raises(BusyError, match="another window"):
        second.open(file)
    second.open(file, look_only=True)
    edited(second)
    with pytest.raises(InputError, match="Save as"):
        second.save()
    with pytest.raises(BusyError):
        second.save_as(file)
    assert read_job(file.read_bytes()) == OTHER
    second.save_as(file.with_name("mine.json"))
    assert not second.look_only
    edited(second, 510.0)
    second.save()


def test_a_link_to_a_held_file_is_held_too(store: Store, second: Store, file: Path, tmp_path: Path) -> None:
    (tmp_path / "link.json").symlink_to(file)
    store.open(file)
    with pytest.raises(BusyError):
        second.open(tmp_path / "link.json")


def test_a_file_is_free_again_once_another_is_opened_or_the_window_closes(
    store: Store, second: Store, file: Path, tmp_path: Path
) -> None:
    other = tmp_path / "other.json"
    other.write_bytes(write_job(JOB))
    store.open(file)
    store.open(other)
    second.open(file)
    store.close()
    second.open(other)


def test_a_failed_opening_holds_nothing(store: Store, second: Store, tmp_path: Path) -> None:
    bad = tmp_path / "bad.json"
    bad.write_bytes(b"{")
    with pytest.raises(InputError):
        store.open(bad)
    bad.write_bytes(write_job(JOB))
    second.open(bad)


def test_opening_the_open_file_again_keeps_hold_of_it(store: Store, second: Store, file: Path) -> None:
    store.open(file)
    store.open(file)
    with pytest.raises(BusyError):
        second.open(file)


def test_a_change_from_outside_is_told_before_it_is_overwritten(store: Store, file: Path) -> None:
    store.open(file)
    job = edited(store)
    file.write_bytes(write_job(JOB))
    with pytest.raises(ChangedOutsideError, match=r"bathroom\.json"):
        store.save()
    assert read_job(file.read_bytes()) == JOB
    store.save(over=True)
    assert read_job(file.read_bytes()) == job
    edited(store, 520.0)
    store.save()


def test_a_file_that_was_deleted_meanwhile_is_written_again(store: Store, file: Path) -> None:
    store.open(file)
    job = edited(store)
    file.unlink()
    store.save()
    assert read_job(file.read_bytes()) == job


def test_revert_goes_back_to_the_file_and_can_be_undone(store: Store, file: Path) -> None:
    store.open(file)
    job = edited(store)
    store.revert("Go back to the file")
    assert store.document.job == OTHER
    assert store.document.is_saved
    assert store.document.history.undo_text() == "Go back to the file"
    store.document.history.undo()
    assert store.document.job == job
    assert not store.document.is_saved


def test_a_recovered_job_is_unsaved_work_on_its_file(store: Store, second: Store, file: Path) -> None:
    store.recover(moved(OTHER, 432.0), file)
    assert (store.path, store.document.is_saved) == (file, False)
    with pytest.raises(BusyError):
        second.open(file)
    store.save()
    assert read_job(file.read_bytes()) == moved(OTHER, 432.0)


def test_work_is_recovered_over_its_own_open_file(store: Store, file: Path) -> None:
    store.open(file)
    store.recover(moved(OTHER, 432.0), file)
    store.save()
    assert read_job(file.read_bytes()) == moved(OTHER, 432.0)


def test_work_that_had_no_file_has_none_when_it_is_recovered(store: Store) -> None:
    store.recover(moved(OTHER, 432.0), None)
    assert (store.document.job, store.path, store.document.is_saved) == (moved(OTHER, 432.0), None, False)


def test_a_job_recovered_while_another_window_has_its_file_is_saved_elsewhere(
    store: Store, second: Store, file: Path
) -> None:
    second.open(file)
    store.recover(moved(OTHER, 432.0), file)
    with pytest.raises(InputError, match="Save as"):
        store.save()


def test_own_rules_beside_the_job_count_in_the_window_as_in_the_command(
    store: Store, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    home = tmp_path / "home"
    (home / "rules").mkdir(parents=True)
    (home / "job.json").write_bytes(write_job(OTHER))
    (home / "rules" / "mine.toml").write_text(OWN_RULE)
    store.open(home / "job.json")
    assert store.document.rules["front.head_rail"].value == 2000
    found = [(one.rule, one.status, one.message) for one in store.document.state.findings]
    # head and rail cannot be 2000 apart on a wall of 1200
    assert [status for rule, status, _ in found if rule == "front.head_rail"] == ["clash"]
    assert main(["check", str(home / "job.json"), "--json"]) == 1
    said = json.loads(capsys.readouterr().out)["findings"]
    assert [(one["rule"], one["status"], one["message"]) for one in said] == found
    warning = store.save_as(tmp_path / "other.json")
    assert warning is not None
    assert "other limits count there" in warning
    store.open(tmp_path / "other.json")
    assert store.document.rules["front.head_rail"] == standard_rules()["front.head_rail"]


def test_own_parts_beside_the_job_are_read_and_missed_elsewhere(store: Store, tmp_path: Path) -> None:
    home, away = tmp_path / "home", tmp_path / "away"
    (home / "parts").mkdir(parents=True)
    away.mkdir()
    (home / "parts" / "mine.toml").write_text(OWN_PART)
    job = OTHER.but(hoses=tuple(hose.but(part="my-hose") for hose in OTHER.hoses))
    (home / "job.json").write_bytes(write_job(job))
    store.open(home / "job.json")
    told = store.save_as(away / "job.json")
    assert told is not None
    assert "my-hose" in told


def test_without_a_place_for_locks_files_open_all_the_same(
    qapp: QApplication, file: Path, tmp_path: Path
) -> None:
    (tmp_path / "taken").write_text("")
    store = Store(a_document(), tmp_path / "taken" / "locks")
    store.open(file)
    edited(store)
    store.save()
    store.close()
