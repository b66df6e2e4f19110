"""`pack`: the sheets asked for, whole or not at all, and the same bytes again."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from tests.app.commanding import refused, run
from tests.samples import sample_path


def test_pack_writes_every_sheet_and_prints_its_file(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "new" / "sheets"
    code, out, _ = run(capsys, "pack", sample_path("alcove-760"), "-o", folder)
    assert code == 0
    written = [Path(line) for line in out.splitlines()]
    assert sorted(folder.iterdir()) == sorted(written)
    assert {"elevation.pdf", "section.pdf", "full-size.pdf", "elevation_mm.dxf"} <= {p.name for p in written}


def test_pack_writes_only_what_is_asked_for(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, _, _ = run(capsys, "pack", sample_path("alcove-760"), "-o", tmp_path, "--only", "dxf", "section")
    assert code == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == ["elevation_mm.dxf", "section.pdf"]


def test_packing_again_gives_the_same_bytes_whatever_the_order_of_sets(tmp_path: Path) -> None:
    for seed in ("1", "2"):
        sample, folder = str(sample_path("alcove-760")), str(tmp_path / seed)
        command = [sys.executable, "-m", "app", "pack", sample, "-o", folder]
        environment = {**os.environ, "PYTHONHASHSEED": seed}
        subprocess.run(command, check=True, env=environment, stdout=subprocess.DEVNULL)
    written = sorted(path.name for path in (tmp_path / "1").iterdir())
    assert written
    for name in written:
        assert (tmp_path / "1" / name).read_bytes() == (tmp_path / "2" / name).read_bytes(), name


@pytest.mark.parametrize(
    "choice",
    [
        ("--paper", "A9"),
        ("--only", "poster"),
        ("--scale", "0"),
        ("--scale", "1", "--paper", "A4"),
        ("--stretch-x", "nan"),
        ("--stretch-y", "2"),
        ("--scale", "ten"),
    ],
)
def test_a_choice_that_cannot_be_writes_nothing(
    choice: tuple[str, ...], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "out"
    refused(capsys, "pack", sample_path("alcove-760"), "-o", folder, *choice)
    assert not folder.exists()


def test_a_scale_may_be_written_as_on_the_sheet(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for scale in ("20", "1:20"):
        only = ["--only", "elevation", "--scale", scale]
        code, _, _ = run(capsys, "pack", sample_path("alcove-760"), "-o", tmp_path, *only)
        assert code == 0


def test_a_folder_that_cannot_be_written_gets_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("in the way")
    line = refused(
        capsys, "pack", sample_path("alcove-760"), "-o", tmp_path / "file" / "out", "--only", "dxf"
    )
    assert "out" in line
    assert os.listdir(tmp_path) == ["file"]


def test_a_folder_that_is_a_file_is_told_by_its_name(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "file").write_text("in the way")
    line = refused(capsys, "pack", sample_path("alcove-760"), "-o", tmp_path / "file", "--only", "dxf")
    assert line == f"chasewright: {tmp_path / 'file'}: is a file, not a folder\n"
