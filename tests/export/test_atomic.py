"""Files are written whole or not at all, whatever goes wrong on the way."""

import os
import stat
from pathlib import Path

import pytest

from export import atomic
from export.atomic import write_atomically, write_together


def test_a_new_file_holds_the_data(tmp_path: Path) -> None:
    write_atomically(tmp_path / "sheet.pdf", b"new")
    assert (tmp_path / "sheet.pdf").read_bytes() == b"new"


def test_an_old_file_is_replaced_whole(tmp_path: Path) -> None:
    path = tmp_path / "sheet.pdf"
    path.write_bytes(b"a longer old file")
    write_atomically(str(path), b"new")
    assert path.read_bytes() == b"new"
    assert os.listdir(tmp_path) == ["sheet.pdf"]


@pytest.mark.skipif(os.name == "nt", reason="file modes are those of POSIX")
def test_an_old_file_keeps_its_permissions(tmp_path: Path) -> None:
    path = tmp_path / "sheet.pdf"
    path.write_bytes(b"old")
    path.chmod(0o640)
    write_atomically(path, b"new")
    assert stat.S_IMODE(path.stat().st_mode) == 0o640


@pytest.mark.skipif(os.name == "nt", reason="file modes are those of POSIX")
def test_a_new_file_has_the_permissions_of_any_other_new_file(tmp_path: Path) -> None:
    (tmp_path / "other").write_bytes(b"")
    write_atomically(tmp_path / "sheet.pdf", b"new")
    assert (tmp_path / "sheet.pdf").stat().st_mode == (tmp_path / "other").stat().st_mode


@pytest.mark.skipif(os.name == "nt", reason="links need a privilege there")
def test_a_link_stays_a_link_and_the_file_behind_it_is_replaced(tmp_path: Path) -> None:
    (tmp_path / "kept").mkdir()
    target, link = tmp_path / "kept" / "job.json", tmp_path / "job.json"
    target.write_bytes(b"old")
    link.symlink_to(target)
    write_atomically(link, b"new")
    assert link.is_symlink()
    assert target.read_bytes() == b"new"
    assert os.listdir(tmp_path / "kept") == ["job.json"]


def test_a_failure_leaves_the_old_file_and_no_rubbish(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "job.json"
    path.write_bytes(b"old")

    def full(descriptor: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(OSError, match=r"^cannot write .*job\.json: No space left on device$"):
        write_atomically(path, b"new")
    assert path.read_bytes() == b"old"
    assert os.listdir(tmp_path) == ["job.json"]


def test_a_missing_folder_is_named(tmp_path: Path) -> None:
    with pytest.raises(OSError, match=r"^cannot write .*gone.sheet\.pdf: No such file or directory$"):
        write_atomically(tmp_path / "gone" / "sheet.pdf", b"new")


def test_a_folder_is_not_replaced_by_a_file(tmp_path: Path) -> None:
    (tmp_path / "sheets").mkdir()
    with pytest.raises(OSError, match=r"sheets: it is not an ordinary file$"):
        write_atomically(tmp_path / "sheets", b"new")
    assert (tmp_path / "sheets").is_dir()


@pytest.mark.skipif(os.name == "nt", reason="there is no such device there")
def test_a_device_is_not_replaced_by_a_file(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(OSError, match=r"pipe: it is not an ordinary file$"):
        write_atomically(tmp_path / "pipe", b"new")
    assert stat.S_ISFIFO((tmp_path / "pipe").stat().st_mode)


def test_a_write_protected_file_is_left_alone(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "job.json"
    path.write_bytes(b"old")
    monkeypatch.setattr(os, "access", lambda *_: False)  # the superuser may write to any file
    with pytest.raises(OSError, match=r"job\.json: it is write-protected$"):
        write_atomically(path, b"new")
    assert path.read_bytes() == b"old"


def test_a_file_that_is_busy_for_a_moment_is_tried_again(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "job.json"
    attempts: list[str] = []
    replace = os.replace

    def busy_twice(source: str, target: str) -> None:
        attempts.append(target)
        if len(attempts) <= 2:
            raise PermissionError(13, "The process cannot access the file")
        replace(source, target)

    monkeypatch.setattr(atomic, "_PAUSES", (0.0, 0.0, 0.0))
    monkeypatch.setattr(os, "replace", busy_twice)
    write_atomically(path, b"new")
    assert path.read_bytes() == b"new"
    assert len(attempts) == 3


def test_of_several_files_none_is_replaced_if_one_cannot_be_written(tmp_path: Path) -> None:
    first, second = tmp_path / "first.pdf", tmp_path / "second.pdf"
    first.write_bytes(b"old")
    second.mkdir()
    with pytest.raises(OSError, match=r"second\.pdf: it is not an ordinary file$"):
        write_together([(first, b"new"), (second, b"new")])
    assert first.read_bytes() == b"old"
    assert sorted(os.listdir(tmp_path)) == ["first.pdf", "second.pdf"]


def test_several_files_are_written_whole(tmp_path: Path) -> None:
    write_together((tmp_path / f"{number}.pdf", b"page" * number) for number in range(1, 4))
    assert [(path.name, path.stat().st_size) for path in sorted(tmp_path.iterdir())] == [
        ("1.pdf", 4), ("2.pdf", 8), ("3.pdf", 12),
    ]  # fmt: skip
