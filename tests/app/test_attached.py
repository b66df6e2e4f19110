"""The photographs of a record: read from beside the job and nowhere else, and none of them stops the pack."""

import io
import os
from pathlib import Path

import pypdf
import pytest

from app.attached import MOST_BYTES, bring_along, with_photographs
from app.cli import main
from export.picture import Picture
from export.sheets.options import Pictures, SheetOptions
from geometry.jobfile import write_job
from geometry.model import Job, Photograph, Pipework
from tests.export.jobs import usual
from tests.export.photographs import photograph


def job_with(*files: str) -> Job:
    held = Pipework(photographs=tuple(Photograph(file=file) for file in files))
    return usual().job.but(pipework=held)


def read(folder: Path | None, *files: str) -> Pictures:
    return with_photographs(SheetOptions(), job_with(*files), folder, ["as-fitted"]).pictures


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """The folder of a job, with a photograph in it, one deeper, and one outside."""
    inner = tmp_path / "job"
    (inner / "deeper").mkdir(parents=True)
    for place in (inner / "wall.jpg", inner / "deeper" / "riser.jpg", tmp_path / "outside.jpg"):
        place.write_bytes(photograph(64, 48))
    return inner


def test_pictures_are_read_from_the_folder_of_the_job(folder: Path) -> None:
    held = read(folder, "wall.jpg", "deeper/riser.jpg", "deeper/../wall.jpg")
    assert [isinstance(one, Picture) for one in held.values()] == [True] * 3


def test_nothing_is_read_from_elsewhere(folder: Path) -> None:
    os.symlink(folder.parent / "outside.jpg", folder / "link.jpg")
    files = ("../outside.jpg", str(folder.parent / "outside.jpg"), "deeper/../../outside.jpg", "link.jpg")
    assert set(read(folder, *files).values()) == {"outside the folder of the job"}


def test_what_cannot_be_shown_has_its_reason(folder: Path) -> None:
    (folder / "cut.jpg").write_bytes(photograph(600, 400)[:1000])
    (folder / "page.txt").write_text("no picture")
    with (folder / "huge.jpg").open("wb") as file:
        file.truncate(MOST_BYTES + 1)
    assert read(folder, "lost.jpg", "deeper", "cut.jpg", "page.txt", "huge.jpg", "n" * 200) == {
        "lost.jpg": "not found",
        "deeper": "not found",
        "cut.jpg": "broken or cut short",
        "page.txt": "neither JPEG nor PNG",
        "huge.jpg": "too large: at most 40 MB",
        "n" * 200: "not found",
    }
    assert read(None, "wall.jpg") == {"wall.jpg": "not found: the job is not saved"}


def test_they_are_read_for_the_record_alone(folder: Path) -> None:
    assert with_photographs(SheetOptions(), job_with("wall.jpg"), folder, ["section"]).pictures == {}
    assert list(with_photographs(SheetOptions(), job_with("wall.jpg"), folder, []).pictures) == ["wall.jpg"]


def test_a_pack_shows_them_and_says_in_one_line_what_it_lacks(
    folder: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    file = folder / "job.json"
    command = ["pack", str(file), "-o", str(folder / "out"), "--only", "as-fitted"]
    file.write_bytes(write_job(job_with("wall.jpg", "lost.jpg", "../outside.jpg")))
    assert main(command) == 0
    out, err = capsys.readouterr()
    assert out == f"{folder / 'out' / 'as-fitted.pdf'}\n"
    assert err == (
        f"{file}: photographs not shown in the record:"
        " lost.jpg (not found), ../outside.jpg (outside the folder of the job)\n"
    )
    pages = pypdf.PdfReader(io.BytesIO((folder / "out" / "as-fitted.pdf").read_bytes())).pages
    assert [len(page.images) for page in pages][-1] == 1
    file.write_bytes(write_job(job_with("wall.jpg")))
    assert main(command) == 0
    assert capsys.readouterr().err == ""


def test_photographs_come_along_to_another_folder(folder: Path, tmp_path: Path) -> None:
    files, other = ("wall.jpg", "deeper/riser.jpg"), tmp_path / "other"
    other.mkdir()
    assert bring_along(job_with(*files), folder, other) == ""
    assert [isinstance(one, Picture) for one in read(other, *files).values()] == [True] * 2
    assert bring_along(job_with(*files), folder, other) == ""  # they are there: nothing to do


def test_what_lies_in_the_other_folder_is_not_replaced(folder: Path, tmp_path: Path) -> None:
    other, mine = tmp_path / "other", photograph(32, 24)
    other.mkdir()
    (other / "wall.jpg").write_bytes(mine)
    told = bring_along(job_with("wall.jpg", "lost.jpg", "deeper/riser.jpg"), folder, other)
    assert told == (
        f"Photographs of the record that stayed in {folder}: wall.jpg (another file has its name)."
    )
    assert (other / "wall.jpg").read_bytes() == mine
    assert (other / "deeper" / "riser.jpg").is_file()
