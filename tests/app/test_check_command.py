"""`check`: the verdict on the samples, the listing, and the report for scripts."""

import json
import sys
from pathlib import Path

import pytest

from app.commands import _lines
from geometry.finding import Finding
from tests.app.commanding import report, run
from tests.samples import FAULTY, SOUND, sample_path

# the verdict


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


# the report


def test_the_json_report_has_the_keys_that_scripts_rely_on(capsys: pytest.CaptureFixture[str]) -> None:
    _, found = report(capsys, sample_path(FAULTY))
    assert set(found) == {"job", "findings"}
    keys = {"rule", "status", "parts", "measured", "limit", "unit", "message", "source"}
    assert all(set(finding) == keys for finding in found["findings"])
    assert {f["status"] for f in found["findings"]} <= {"clash", "tight", "refer", "unchecked", "clear"}


# the listing


def test_the_listing_puts_clashes_first_and_counts(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "check", sample_path(FAULTY))
    lines = out.splitlines()
    assert code == 1
    assert lines[0].startswith(
        "ASK       answer these first   What is cut into its other face? (wall.other_face)"
    )
    assert lines[1].startswith("CLASH")
    assert "clash" in lines[-1]


def test_what_is_clear_is_counted_and_listed_when_asked_for(capsys: pytest.CaptureFixture[str]) -> None:
    _, found = report(capsys, sample_path("alcove-760"))
    clear = sum(f["status"] == "clear" for f in found["findings"])
    _, short, _ = run(capsys, "check", sample_path("alcove-760"))
    _, long, _ = run(capsys, "check", sample_path("alcove-760"), "--all")
    assert clear > 0
    assert [text.count("\nCLEAR ") for text in (short, long)] == [0, clear]
    assert short.endswith(f"{clear} clear (--all lists what is clear)\n")
    assert long.endswith(f"{clear} clear\n")


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


def test_pressures_are_told_to_a_hundredth_of_a_bar() -> None:
    weak = Finding(
        rule="supply.pressure", status="clash", parts=("head",), message="Too weak.",
        measured=0.35, limit=0.5, unit="bar",
    )  # fmt: skip
    assert "[0.35 bar against 0.5 bar;" in next(_lines((weak,), whole=False))
