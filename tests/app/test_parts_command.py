"""`parts`: the list, and own parts beside a job."""

import json
from pathlib import Path

import pytest

from tests.app.commanding import refused, report, run


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
