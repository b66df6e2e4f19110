"""The command line: exit codes, one line for what cannot be used, and files that are whole or not there."""

import json
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from app.cli import DISPLAYS, main
from app.commands import _lines
from geometry.finding import Finding
from geometry.jobfile import read_job
from tests.samples import FAULTY, SOUND, sample_path


def run(capsys: pytest.CaptureFixture[str], *arguments: object) -> tuple[int, str, str]:
    code = main([str(argument) for argument in arguments])
    out, err = capsys.readouterr()
    return code, out, err


def report(capsys: pytest.CaptureFixture[str], path: Path) -> tuple[int, dict[str, Any]]:
    code, out, _ = run(capsys, "check", path, "--json")
    return code, json.loads(out)


def refused(capsys: pytest.CaptureFixture[str], *arguments: object) -> str:
    code, out, err = run(capsys, *arguments)
    assert code == 2
    assert out == ""
    assert err.count("\n") == 1
    assert err.endswith("\n")
    return err


def test_pressures_are_told_to_a_hundredth_of_a_bar() -> None:
    weak = Finding(
        rule="supply.pressure", status="clash", parts=("head",), message="Too weak.",
        measured=0.35, limit=0.5, unit="bar",
    )  # fmt: skip
    assert "[0.35 bar against 0.5 bar;" in next(_lines((weak,), whole=False))


@pytest.fixture
def started(tmp_path: Path) -> Path:
    path = tmp_path / "my.json"
    assert main(["start", str(path), "--tray", "760x760", "--entry", "left"]) == 0
    return path


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


@pytest.mark.parametrize("name", SOUND)
def test_sound_samples_pass(name: str, capsys: pytest.CaptureFixture[str]) -> None:
    code, found = report(capsys, sample_path(name))
    assert [f for f in found["findings"] if f["status"] in ("clash", "unchecked")] == []
    assert code == 0


def test_each_planted_fault_is_a_clash_with_its_value_and_limit(capsys: pytest.CaptureFixture[str]) -> None:
    code, found = report(capsys, sample_path(FAULTY))
    clashes = {f["rule"]: f for f in found["findings"] if f["status"] == "clash"}
    assert code == 1
    for rule in ("hose.valve", "front.head_rail", "recess.shallow", "chase.crossing"):
        assert rule in clashes
        assert clashes[rule]["measured"] < clashes[rule]["limit"]
        assert clashes[rule]["unit"] == "mm"


def test_planted_faults_moved_out_of_the_way_by_hand_clear(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = json.loads(sample_path(FAULTY).read_text())
    fittings = {fitting["id"]: fitting for fitting in job["fittings"]}
    fittings["outlet"]["x"] = 570  # under the rail, on the same side of the valve
    fittings["valve"]["side"] = "right"
    fittings["valve"]["recess"] = 58  # with 14 mm of build-up: from 60 - 14 + 1 to 85 - 14 - 1
    fittings["head"].update(x=380, reach=None)
    fittings["rail"]["part"] = "rail-700"
    next(pipe for pipe in job["pipes"] if pipe["id"] == "hot")["route"] = [[335, 0]]
    path = tmp_path / "mended.json"
    path.write_text(json.dumps(job))
    code, found = report(capsys, path)
    assert [f for f in found["findings"] if f["status"] == "clash"] == []
    assert code == 0


def test_what_is_clear_is_counted_and_listed_when_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    _, found = report(capsys, sample_path("alcove-760"))
    clear = sum(f["status"] == "clear" for f in found["findings"])
    _, short, _ = run(capsys, "check", sample_path("alcove-760"))
    _, long, _ = run(capsys, "check", sample_path("alcove-760"), "--all")
    assert clear > 0
    assert [text.count("\nCLEAR ") for text in (short, long)] == [0, clear]
    assert short.endswith(f"{clear} clear (--all lists what is clear)\n")
    assert long.endswith(f"{clear} clear\n")


def test_the_json_report_has_the_keys_that_scripts_rely_on(capsys: pytest.CaptureFixture[str]) -> None:
    _, found = report(capsys, sample_path(FAULTY))
    assert set(found) == {"job", "findings"}
    keys = {"rule", "status", "parts", "measured", "limit", "unit", "message", "source"}
    assert all(set(finding) == keys for finding in found["findings"])
    assert {f["status"] for f in found["findings"]} <= {"clash", "tight", "refer", "unchecked", "clear"}


def test_the_listing_puts_clashes_first_and_counts(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "check", sample_path(FAULTY))
    lines = out.splitlines()
    assert code == 1
    assert lines[0].startswith(
        "ASK       answer these first   What is cut into its other face? (wall.other_face)"
    )
    assert lines[1].startswith("CLASH")
    assert "clash" in lines[-1]


def test_the_listing_is_broken_at_the_width_of_a_terminal(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    _, whole, _ = run(capsys, "check", sample_path(FAULTY))
    monkeypatch.setenv("COLUMNS", "72")
    monkeypatch.setattr(sys.stdout, "isatty", lambda: True)
    _, broken, _ = run(capsys, "check", sample_path(FAULTY))
    assert max(map(len, whole.splitlines())) > 200
    assert max(map(len, broken.splitlines())) <= 72
    assert broken.split() == whole.split()
    assert any(line.startswith(" " * 10) for line in broken.splitlines())


BAD_FILES = {
    "empty": b"",
    "truncated": b'{"format": "chasewright job", "version": 2, "wall": {"wid',
    "not a job": b"{}",
    "binary": bytes(range(256)) * 40,
    "not a number": b'{"format": "chasewright job", "version": 2, "wall": {"width": NaN}}',
    "nested": b"[" * 100_000,
}


@pytest.mark.parametrize("name", BAD_FILES)
@pytest.mark.parametrize("command", ["check", "pack"])
def test_a_bad_file_gets_one_line_with_its_name(
    command: str, name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "bad.json"
    path.write_bytes(BAD_FILES[name])
    more = ["-o", tmp_path / "out"] if command == "pack" else []
    assert "bad.json" in refused(capsys, command, path, *more)
    assert not (tmp_path / "out").exists()


@pytest.mark.parametrize(
    ("place", "value", "said"),
    [
        (("fittings", 0, "height"), "high", "$.fittings[0].height"),
        (("fittings", 0, "height"), 1e9, "$.fittings[0].height"),
        (("fittings", 0, "part"), "no-such-part", "$.fittings[0].part"),
        (("wall", "thickness"), -5, "$.wall.thickness"),
        (("wall", "make_up"), "cheese", "$.wall.make_up"),
        (("pipes", 0, "end"), "valve.steam", "$.pipes[0].end"),
        (("hoses", 0, "rail"), "ladder", "$.hoses[0].rail"),
        (("version",), 99, "$.version"),
    ],
)
def test_a_bad_value_is_named_with_its_path(
    place: tuple[str | int, ...], value: object, said: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = json.loads(sample_path("alcove-760").read_text())
    inner: Any = job
    for key in place[:-1]:
        inner = inner[key]
    inner[place[-1]] = value
    path = tmp_path / "job.json"
    path.write_text(json.dumps(job))
    line = refused(capsys, "check", path)
    assert said in line
    assert str(path) in line
    assert str(value).rstrip("0").rstrip(".") in line or f"{value:g}" in line


def test_fifty_megabytes_of_brackets_are_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "deep.json"
    path.write_bytes(b"[" * 50_000_000)
    assert "too large" in refused(capsys, "check", path)


@pytest.mark.parametrize("path", ["no-such-file.json", ".", "nul\0.json", "a" * 5000])
def test_a_file_that_cannot_be_read_gets_one_line(path: str, capsys: pytest.CaptureFixture[str]) -> None:
    refused(capsys, "check", path)


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


def test_a_scale_may_be_written_as_on_the_sheet(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    for scale in ("20", "1:20"):
        only = ["--only", "elevation", "--scale", scale]
        code, _, _ = run(capsys, "pack", sample_path("alcove-760"), "-o", tmp_path, *only)
        assert code == 0


def test_parts_lists_every_kind(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "parts")
    assert code == 0
    for kind in ("valve", "head", "hose outlet", "rail", "hose", "handset", "spout", "enclosure", "tube"):
        assert f" {kind} " in out
    code, out, _ = run(capsys, "parts", "--json")
    assert code == 0
    assert {"id", "name", "type"} <= set(json.loads(out)["parts"][0])


def test_own_parts_beside_the_job_are_read(
    started: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "parts").mkdir()
    own = '[[part]]\ntype = "hose"\nid = "my-hose"\nname = "Mine"\nlength = 700.0\n'
    (tmp_path / "parts" / "mine.toml").write_text(own)
    job = json.loads(started.read_text())
    job["hoses"][0]["part"] = "my-hose"
    started.write_text(json.dumps(job))
    code, found = report(capsys, started)
    # nut at 1120 + 620 - 40 = 1700, nozzle at 1030 - 30 = 1000: 700 mm apart upright, and 50 mm in depth
    assert code == 1
    assert any(f["rule"] == "hose.length" and f["status"] == "clash" for f in found["findings"])


def test_a_bad_own_part_is_named_with_its_file(
    started: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "parts").mkdir()
    (tmp_path / "parts" / "mine.toml").write_text(
        '[[part]]\ntype = "hose"\nid = "x"\nname = "Mine"\nlength = -1.0\n'
    )
    line = refused(capsys, "check", started)
    assert "mine.toml" in line
    assert "length" in line


@pytest.mark.parametrize("line", ["check", "pack x.json", "start x.json", "check a b", "parts --xml"])
def test_a_wrong_command_gets_one_line(line: str, capsys: pytest.CaptureFixture[str]) -> None:
    refused(capsys, *line.split())


@pytest.mark.parametrize("line", ["chek job.json", "chek", "job.json check"])
def test_what_is_neither_command_nor_file_is_told_the_commands(
    line: str, capsys: pytest.CaptureFixture[str]
) -> None:
    said = refused(capsys, *line.split())
    assert said.startswith(f"chasewright: {line.split()[0]}: neither a command nor a file")
    assert "check" in said


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="needs a device that is always full")
@pytest.mark.parametrize("command", [["parts"], ["check", str(sample_path(FAULTY))]])
def test_a_report_that_cannot_be_written_is_no_verdict(command: list[str]) -> None:
    with open("/dev/full", "w") as full:
        ended = subprocess.run(
            [sys.executable, "-m", "app", *command],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert ended.returncode == 2
    assert ended.stderr.startswith("chasewright: cannot write: ")
    assert ended.stderr.count("\n") == 1


def test_without_a_display_the_window_is_refused_in_one_line(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(sys, "platform", "linux")
    for name in DISPLAYS:
        monkeypatch.delenv(name, raising=False)
    assert "needs a display" in refused(capsys)
