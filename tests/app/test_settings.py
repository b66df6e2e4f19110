"""Settings: bounds, what a broken file costs, and that they are kept whole."""

import json
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app.settings import MOST_RECENT, Preferences, Settings, offered, read_settings, write_settings


def test_settings_start_with_their_defaults_and_write_nothing(tmp_path: Path) -> None:
    file = tmp_path / "deep" / "settings.json"
    assert Preferences(file).settings == Settings()
    assert not file.exists()


def test_a_changed_setting_is_there_at_the_next_start(tmp_path: Path) -> None:
    file = tmp_path / "deep" / "settings.json"
    Preferences(file).change(unit="in", nudge=2.5, sheets=("elevation",))
    again = Preferences(file)
    assert (again.settings.unit, again.settings.nudge, again.settings.sheets) == ("in", 2.5, ("elevation",))
    assert again.problems == ()


def test_only_what_differs_from_the_defaults_is_kept() -> None:
    # so that a better default of a later program reaches people who never chose
    assert json.loads(write_settings(Settings(theme="dark"))) == {"theme": "dark"}


@pytest.mark.parametrize("value", [0.0, -1.0, 501.0, float("nan")])
def test_a_step_out_of_bounds_is_refused_and_changes_nothing(value: float, tmp_path: Path) -> None:
    preferences = Preferences(tmp_path / "settings.json")
    with pytest.raises(ValueError, match="nudge"):
        preferences.change(nudge=value)
    assert preferences.settings == Settings()


def test_one_bad_value_costs_only_itself() -> None:
    settings, problems = read_settings(b'{"unit": "cm", "theme": "purple", "nudge": 9999, "from_later": 1}')
    assert settings == Settings(unit="cm")
    assert len(problems) == 2
    assert "theme" in problems[0]
    assert "nudge" in problems[1]


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("snapping", 1),
        ("unit", "furlong"),
        ("unit", ["mm"]),
        ("nudge", True),
        ("nudge", "1"),
        ("recent", "job.json"),
        ("recent", [1]),
        ("scale", 0),
        ("stretch_x", 1.2),
        ("window_size", [1280]),
        ("window_size", [1280, 1e9]),
        ("last_folder", "x" * 4001),
    ],
)
def test_a_value_of_another_kind_is_refused(name: str, value: object) -> None:
    with pytest.raises(ValueError, match=rf"^\.{name}: must be"):
        Settings(**{name: value})  # type: ignore[arg-type]


def test_what_is_kept_is_read_again() -> None:
    settings = Settings(
        unit="cm", recent=("/a/b.json",), scale=20, stretch_x=1.004, window_size=(1000, 700), panel_width=None
    )
    assert read_settings(write_settings(settings)) == (settings, ())


@pytest.mark.parametrize("data", [b"", b"[]", b"\xff\xfe", b"{", b"[" * 100_000])
def test_a_file_that_holds_no_settings_gives_the_defaults_and_one_sentence(data: bytes) -> None:
    settings, problems = read_settings(data)
    assert settings == Settings()
    assert len(problems) == 1
    assert "\n" not in problems[0]


def test_a_folder_in_place_of_the_file_is_told_and_survived(tmp_path: Path, qtbot: QtBot) -> None:
    (tmp_path / "settings.json").mkdir()
    preferences = Preferences(tmp_path / "settings.json")
    assert len(preferences.problems) == 1
    with qtbot.waitSignal(preferences.failed) as told:
        preferences.change(unit="cm")
    assert "could not be kept" in told.args[0]
    assert preferences.settings.unit == "cm"


def test_recent_files_are_few_newest_first_and_stand_once(tmp_path: Path) -> None:
    settings = Settings()
    for number in (*range(12), 5):
        settings = settings.with_recent(tmp_path / f"{number}.json")
    assert len(settings.recent) == MOST_RECENT
    assert [Path(name).stem for name in settings.recent] == ["5", "11", "10", "9", "8", "7", "6", "4"]
    assert settings.last_folder == str(tmp_path)


def test_every_offered_setting_says_what_it_does() -> None:
    names = [setting.name for setting in offered()]
    assert names == ["unit", "theme", "snapping", "nudge", "nudge_far", "nudge_fine"]
    for setting in offered():
        assert setting.shown.sentence.endswith(".")
        assert setting.bound.kept(setting.default) == setting.default
