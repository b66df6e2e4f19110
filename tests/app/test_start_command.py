"""`start`: a new job by the trade's rule that has no clash, and nothing written over."""

from pathlib import Path

import pytest

from app.cli import main
from geometry.jobfile import read_job
from tests.app.commanding import refused, report, run


def test_start_sets_out_a_760_tray_by_the_trades_rule(started: Path) -> None:
    job = read_job(started.read_bytes())
    edge = job.enclosure.left
    # 760 / 2 = 380; quarter lines midway to each edge: 190 and 570 (common practice, no source)
    assert job.fitting("valve").x - edge == 380
    assert job.fitting("head").x - edge == 380
    assert job.fitting("rail").x - edge == 570


def test_a_started_job_has_no_clash_and_nothing_unchecked(
    started: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    code, found = report(capsys, started)
    assert code == 0
    assert not {"clash", "unchecked"} & {finding["status"] for finding in found["findings"]}


@pytest.mark.parametrize("tray", ["700x700", "760x760", "800x800", "900x760", "1200x800", "1700x700"])
@pytest.mark.parametrize("entry", ["left", "right", "front"])
def test_every_usual_tray_starts_without_a_clash(
    tray: str, entry: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "job.json"
    assert main(["start", str(path), "--tray", tray, "--entry", entry]) == 0
    capsys.readouterr()
    code, found = report(capsys, path)
    assert [f for f in found["findings"] if f["status"] in ("clash", "unchecked")] == []
    assert code == 0


def test_start_takes_units_and_a_wall(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "job.json"
    code, _, _ = run(capsys, "start", path, "--tray", "90cmx760", "--entry", "front", "--wall", "1800x2500")
    job = read_job(path.read_bytes())
    assert code == 0
    assert (job.enclosure.width, job.enclosure.projection) == (900, 760)
    assert (job.wall.width, job.wall.height) == (1800, 2500)


def test_a_unit_behind_the_second_size_is_meant_for_both(tmp_path: Path) -> None:
    path = tmp_path / "job.json"
    assert main(["start", str(path), "--tray", "76 x 90 cm", "--entry", "left"]) == 0
    tray = read_job(path.read_bytes()).enclosure
    assert (tray.width, tray.projection) == (760, 900)


@pytest.mark.parametrize("name", ["no-folder/job.json", "a" * 5000, "nul\0.json"])
def test_start_where_nothing_can_be_written_names_the_file_once(
    name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    line = refused(capsys, "start", tmp_path / name, "--tray", "760x760", "--entry", "left")
    assert line.count(str(tmp_path)) == 1


def test_start_leaves_a_file_that_is_there_alone(started: Path, capsys: pytest.CaptureFixture[str]) -> None:
    before = started.read_bytes()
    assert "is there already" in refused(capsys, "start", started, "--tray", "900x900", "--entry", "left")
    assert started.read_bytes() == before


@pytest.mark.parametrize(
    "tray",
    ["760", "axb", "760x", "-760x760", "0x760", "nanx760", "99999x760", "760x760x1", "76x76", "760x76cm"],
)
def test_start_refuses_a_tray_that_cannot_be(
    tray: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "job.json"
    refused(capsys, "start", path, f"--tray={tray}", "--entry", "left")
    assert not path.exists()
