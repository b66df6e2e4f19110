"""The list of limits, and a user's own: overridden or added in TOML, each with its source."""

import json
from pathlib import Path
from typing import Any

import pytest

from app.files import OWN_FOLDERS, load_rules
from geometry.rules import standard_rules
from tests.app.commanding import run

SOURCE = 'source = { standing = "published", document = "House rules", edition = "3", clause = "4.2" }'
OVERRIDE = f"[front.head_rail]\nvalue = 80\n{SOURCE}\n"


@pytest.fixture
def own(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder that is named as that of a user's own rules."""
    folder = tmp_path / "own"
    folder.mkdir()
    monkeypatch.setenv(OWN_FOLDERS["rules"], str(folder))
    return folder


def listed(capsys: pytest.CaptureFixture[str], *arguments: object) -> dict[str, dict[str, Any]]:
    code, out, _ = run(capsys, "rules", *arguments, "--json")
    assert code == 0
    return {rule["rule"]: rule for rule in json.loads(out)["rules"]}


def refused(capsys: pytest.CaptureFixture[str], folder: Path, text: str) -> str:
    (folder / "mine.toml").write_text(text, encoding="utf-8")
    code, out, err = run(capsys, "rules")
    assert (code, out) == (2, "")
    assert err.count("\n") == 1
    start = f"chasewright: {folder / 'mine.toml'}: "
    assert err.startswith(start)
    return err[len(start) : -1]


# the list


def test_every_rule_stands_in_the_list_once(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _ = run(capsys, "rules")
    assert code == 0
    assert [line.split()[0] for line in out.splitlines()] == [limit.rule for limit in standard_rules()]


def test_a_job_that_is_not_there_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err = run(capsys, "rules", tmp_path / "jbo.json")
    assert (code, out) == (2, "")
    assert err == f"chasewright: {tmp_path / 'jbo.json'}: No such file or directory\n"


def test_one_of_a_thing_is_listed_in_the_singular(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, "rules")
    assert " at most 1 head " in next(line for line in out.splitlines() if line.startswith("water.notice "))


def test_line_of_a_rule_shows_limit_unit_title_and_source(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _ = run(capsys, "rules")
    line = next(line for line in out.splitlines() if line.startswith("strength.en_chase_gap "))
    assert " ".join(line.split()) == (
        "strength.en_chase_gap at least 225 mm Upright chase to the next chase, recess or opening, level "
        "[EN 1996-1-1:2005+A1:2012 Table 8.1 note 3 (published)]"
    )


def test_json_of_a_rule_has_every_part_of_its_source(capsys: pytest.CaptureFixture[str]) -> None:
    assert listed(capsys)["strength.en_level_depth_from_176"] == {
        "rule": "strength.en_level_depth_from_176",
        "title": "Depth of a level or inclined chase of any length, wall 176 to 225 mm",
        "value": 10,
        "unit": "mm",
        "sense": "at most",
        "tight": 2,
        "source": "EN 1996-1-1:2005+A1:2012 Table 8.2 (from memory: verify)",
        "standing": "from memory: verify",
        "document": "EN 1996-1-1",
        "edition": "2005+A1:2012",
        "clause": "Table 8.2",
        "own": False,
    }


# a user's own


def test_override_needs_only_a_value_and_a_source(capsys: pytest.CaptureFixture[str], own: Path) -> None:
    (own / "mine.toml").write_text(OVERRIDE, encoding="utf-8")
    rule, standard = listed(capsys)["front.head_rail"], standard_rules()["front.head_rail"]
    assert (rule["value"], rule["source"], rule["own"]) == (80, "House rules:3 4.2 (published)", True)
    assert (rule["title"], rule["unit"], rule["tight"]) == (standard.title, standard.unit, standard.tight)


def test_text_list_marks_what_is_the_users_own(capsys: pytest.CaptureFixture[str], own: Path) -> None:
    (own / "mine.toml").write_text(OVERRIDE, encoding="utf-8")
    _, out, _ = run(capsys, "rules")
    marked = [line for line in out.splitlines() if line.endswith(", your own]")]
    assert [line.split()[0] for line in marked] == ["front.head_rail"]


def test_override_reaches_the_findings_with_its_source(
    capsys: pytest.CaptureFixture[str], own: Path, tmp_path: Path
) -> None:
    job = tmp_path / "job.json"
    run(capsys, "start", job, "--tray", "760x760", "--entry", "left")
    (own / "mine.toml").write_text(OVERRIDE, encoding="utf-8")
    _, out, _ = run(capsys, "check", job, "--json")
    (finding,) = (f for f in json.loads(out)["findings"] if f["rule"] == "front.head_rail")
    assert (finding["limit"], finding["source"]) == (80, "House rules:3 4.2 (published)")


def test_new_rule_is_listed_and_a_new_row_of_a_table_is_read(
    capsys: pytest.CaptureFixture[str], own: Path
) -> None:
    added = "".join(
        f'[{rule}]\ntitle = "Mine"\nvalue = 20\nunit = "mm"\nsense = "at most"\n{SOURCE}\n'
        for rule in ("strength.en_upright_depth_from_75", "house.rule")
    )
    (own / "mine.toml").write_text(added, encoding="utf-8")
    rules = listed(capsys)
    assert rules["strength.en_upright_depth_from_75"]["own"]
    assert rules["house.rule"]["value"] == 20


def test_rules_beside_the_job_win_over_those_of_the_folder_and_of_the_user(
    tmp_path: Path, own: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    data, job = tmp_path / "data", tmp_path / "job" / "job.json"
    monkeypatch.setenv("XDG_DATA_HOME", str(data))
    seen = []
    for folder, value in (
        (data / "chasewright" / "rules", 61), (own, 62), (job.parent / "rules", 63),
    ):  # fmt: skip
        folder.mkdir(parents=True, exist_ok=True)
        (folder / "mine.toml").write_text(OVERRIDE.replace("80", str(value)), encoding="utf-8")
        seen.append(load_rules(job)["front.head_rail"].value)
    assert seen == [61, 62, 63]
    assert load_rules()["front.head_rail"].value == 62


def test_list_of_a_job_includes_the_rules_beside_it(
    capsys: pytest.CaptureFixture[str], tmp_path: Path
) -> None:
    (tmp_path / "rules").mkdir()
    (tmp_path / "job.json").touch()
    (tmp_path / "rules" / "mine.toml").write_text(OVERRIDE, encoding="utf-8")
    assert listed(capsys, tmp_path / "job.json")["front.head_rail"]["value"] == 80
    assert listed(capsys)["front.head_rail"]["value"] == 50


# what cannot be used


def over(*lines: str, source: str = SOURCE) -> str:
    return "\n".join(("[front.head_rail]", *lines, source))


ROW = ('title = "a"', "value = 2", 'unit = "cm"', 'sense = "at most"', SOURCE)
HEARD = 'source = { standing = "heard" }'
WRONG = [
    (
        over("value = 80", source=""),
        "front.head_rail.source: must say where the limit comes from, is missing",
    ),
    (over('value = "wide"'), "front.head_rail.value: must be a number, got 'wide'"),
    (over("value = nan"), "front.head_rail.value: must be at least "),
    (over("value = 80", 'unit = "cm"'), "front.head_rail.unit: must stay 'mm', got 'cm'"),
    (over("value = 80", 'sense = "at most"'), "front.head_rail.sense: must stay 'at least', got 'at most'"),
    (over("value = 80", "limit = 3"), "front.head_rail.limit: unknown key"),
    (over("value = 80", source=HEARD), "front.head_rail.source.standing: must be "),
    (
        over("value = 80").replace("head", "haed"),
        "front.haed_rail: no rule is called so; a new one needs title and unit and sense too",
    ),
    (
        "\n".join(("[strength.en_upright_depth_from_75]", *ROW)),
        "strength.en_upright_depth_from_75.unit: must stay 'mm', got 'cm'",
    ),
    ("head_rail = 3", "head_rail: must be a table of rules"),
    ("[front", "not TOML: "),
]


@pytest.mark.parametrize(("text", "said"), WRONG)
def test_wrong_rules_are_one_line_that_names_file_place_and_value(
    capsys: pytest.CaptureFixture[str], own: Path, text: str, said: str
) -> None:
    assert refused(capsys, own, text).startswith(said)


def test_folder_that_is_none_is_named(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CHASEWRIGHT_RULES", str(tmp_path / "nowhere"))
    code, _, err = run(capsys, "rules")
    assert code == 2
    assert err == f"chasewright: {tmp_path / 'nowhere'}: CHASEWRIGHT_RULES names no folder\n"
