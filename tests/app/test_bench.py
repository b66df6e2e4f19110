"""The bench: steps and stages, the way of the keyboard, and names and sizes of all that can be pressed."""

from pathlib import Path

import pytest
from PySide6.QtTest import QTest
from PySide6.QtWidgets import (
    QAbstractButton,
    QApplication,
    QComboBox,
    QLineEdit,
    QSplitter,
    QTabBar,
    QTabWidget,
    QToolButton,
    QWidget,
)
from pytestqt.qtbot import QtBot

from app.canvas.stages import STAGES
from app.look import TARGET
from app.panels.build_up import BuildUpPanel
from app.panels.check import CheckPanel
from app.panels.panel import Panel
from app.panels.set_out import SetOutPanel
from app.panels.table import PartsTable
from app.steps import STEPS, Step, StepColumn
from app.window import Window
from geometry.edits.refs import Ref
from tests.app.driving import LEFT, child, cut_words, keys, press
from tests.samples import sample_path

NAMES = [step.id for step in STEPS]
RAIL = Ref("fitting", "rail")


@pytest.fixture
def faulty(window: Window) -> Window:
    """Return a window in which the job with the planted faults is open."""
    window.open_sample(sample_path("planted-faults"))
    return window


def focused() -> QWidget:
    widget = QApplication.focusWidget()
    assert widget is not None
    return widget


def test_the_steps_stand_in_the_order_of_the_job(window: Window) -> None:
    assert NAMES == ["measure", "set_out", "pipe", "check", "mark"]
    buttons = child(window.bench, StepColumn).findChildren(QToolButton)
    assert [button.text() for button in buttons] == ["1 Measure", "2 Set out", "3 Pipe", "4 Check", "5 Mark"]


@pytest.mark.parametrize("step", STEPS, ids=lambda step: step.id)
def test_a_step_shows_its_panel_and_its_stage_and_is_no_history(step: Step, faulty: Window) -> None:
    press(faulty.bench.steps, step.id)
    assert faulty.bench.step == step.id
    assert faulty.bench.canvas.stage == step.stage
    assert child(faulty.bench.view_bar, QToolButton, f"stage-{step.stage}").isChecked()
    assert any(panel.isVisible() for panel in faulty.bench.panels.findChildren(Panel))
    assert not faulty.open_job.document.history.can_undo()


def test_the_stage_that_a_step_begins_with_can_be_changed(faulty: Window) -> None:
    press(faulty.bench.steps, "pipe")
    for stage in STAGES:
        press(faulty.bench.view_bar, f"stage-{stage}")
        assert faulty.bench.canvas.stage == stage
        assert faulty.bench.step == "pipe"


def test_larger_smaller_and_whole_wall(faulty: Window) -> None:
    canvas, bar = faulty.bench.canvas, faulty.bench.view_bar
    whole = canvas.view.scale
    press(bar, "larger")
    assert canvas.view.scale > whole
    press(bar, "smaller")
    press(bar, "smaller")
    assert canvas.view.scale < whole
    press(bar, "fit")
    assert canvas.view.scale == whole


def test_a_tab_is_made_when_it_is_first_shown(faulty: Window) -> None:
    assert faulty.bench.findChild(BuildUpPanel) is None
    child(faulty.bench.panels, QTabWidget).setCurrentIndex(1)
    assert child(faulty.bench, BuildUpPanel).isVisible()


def test_another_job_is_seen_whole_with_nothing_chosen(faulty: Window) -> None:
    faulty.open_job.selection.choose([RAIL])
    keys(faulty.bench.canvas, "F8")
    assert faulty.open_job.selection.finding is not None
    press(faulty.bench.view_bar, "larger")
    faulty.open_sample(sample_path("corner-1200x800"))
    assert faulty.open_job.selection.refs == ()
    assert faulty.open_job.selection.finding is None
    scale = faulty.bench.canvas.view.scale
    faulty.bench.canvas.fit()
    assert faulty.bench.canvas.view.scale == scale
    assert faulty.bench.canvas.hasFocus()


def test_findings_are_gone_through_from_the_worst_and_round_again(faulty: Window) -> None:
    canvas, selection = faulty.bench.canvas, faulty.open_job.selection
    wanting = [each for each in faulty.open_job.document.state.findings if each.status != "clear"]
    seen = []
    for _ in wanting:
        keys(canvas, "F8")
        seen.append(selection.finding)
    assert seen == wanting
    assert faulty.bench.step == "check"
    keys(canvas, "F8")
    assert selection.finding == wanting[0]
    keys(canvas, "Shift+F8")
    assert selection.finding == wanting[-1]
    keys(canvas, "Ctrl+F8")
    assert selection.finding == wanting[0]
    keys(canvas, "Alt+F8")
    assert selection.finding is None


def test_a_cure_is_applied_with_one_shortcut_and_undone(faulty: Window, qtbot: QtBot) -> None:
    document = faulty.open_job.document
    before = document.state
    keys(faulty.bench.canvas, "Ctrl+F8")
    looked_at = faulty.open_job.selection.finding
    assert looked_at is not None
    assert looked_at.status == "clash"
    qtbot.waitUntil(lambda: bool(child(faulty.bench, CheckPanel).cures.buttons), timeout=30_000)
    keys(faulty.bench.canvas, "Ctrl+Return")
    cured = [f for f in document.state.findings if (f.rule, f.parts) == (looked_at.rule, looked_at.parts)]
    assert all(finding.status != "clash" for finding in cured)
    assert document.history.count() == 1
    keys(faulty.bench.canvas, "Ctrl+Z")
    assert document.state.findings == before.findings


def test_a_press_on_the_strip_leads_to_the_list(faulty: Window) -> None:
    QTest.mouseClick(faulty.bench.strip, LEFT)
    assert faulty.bench.step == "check"
    assert faulty.open_job.selection.finding == faulty.open_job.document.state.findings[0]


def test_nudges_from_the_menu_and_from_the_keys_are_one_step(faulty: Window) -> None:
    faulty.open_job.selection.choose([RAIL])
    x, y = faulty.open_job.document.job.fitting("rail").at
    faulty.menus.entries["nudge-left"].trigger()
    keys(faulty.bench.canvas, "Left")
    faulty.menus.entries["nudge-up"].trigger()
    assert faulty.open_job.document.job.fitting("rail").at == (x - 2, y + 1)
    assert faulty.open_job.document.history.count() == 1


def test_the_keyboard_goes_from_area_to_area(faulty: Window) -> None:
    bench = faulty.bench
    keys(bench.canvas, "Ctrl+T")
    bench.canvas.setFocus()
    areas = [child(bench, PartsTable), bench.strip, bench.steps, bench.panels, bench.canvas]
    for area in areas:
        keys(focused(), "F6")
        assert area is focused() or area.isAncestorOf(focused()), area


def test_the_table_is_shown_and_put_away(faulty: Window) -> None:
    keys(faulty.bench.canvas, "Ctrl+T")
    assert child(faulty.bench, PartsTable).isVisible()
    assert faulty.menus.entries["table"].isChecked()
    keys(faulty.bench.canvas, "Ctrl+T")
    assert not child(faulty.bench, PartsTable).isVisible()
    assert not faulty.menus.entries["table"].isChecked()


def test_adding_and_typing_go_to_the_panel_that_does_it(faulty: Window) -> None:
    keys(faulty.bench.canvas, "Ins")
    assert faulty.bench.step == "set_out"
    assert child(faulty.bench, SetOutPanel).isAncestorOf(focused())
    faulty.bench.canvas.setFocus()
    faulty.open_job.selection.choose([RAIL])
    press(faulty.bench.steps, "check")
    keys(faulty.bench.canvas, "F2")
    assert faulty.bench.step == "set_out"
    assert isinstance(focused(), QLineEdit | QComboBox)
    faulty.open_job.selection.choose([Ref("pipe", "hot")])
    keys(faulty.bench.canvas, "F2")
    assert faulty.bench.step == "pipe"


def test_a_dropped_part_is_added_where_it_was_dropped(faulty: Window) -> None:
    before = set(faulty.open_job.document.job.fittings)
    faulty.bench.canvas.part_dropped.emit("outlet-round", (640.0, 700.0))
    (added,) = set(faulty.open_job.document.job.fittings) - before
    assert (added.part, added.at) == ("outlet-round", (640.0, 700.0))
    assert faulty.open_job.selection.refs == (Ref("fitting", added.id),)


def test_settings_reach_the_wall(faulty: Window) -> None:
    faulty.preferences.change(unit="in", snapping=False, nudge=2.5)
    options = faulty.bench.canvas.options
    assert (options.unit, options.snapping, options.nudge) == ("in", False, 2.5)


def test_the_width_of_the_panel_is_remembered(faulty: Window, tmp_path: Path) -> None:
    split = next(s for s in faulty.bench.findChildren(QSplitter) if s.indexOf(faulty.bench.panels) == 0)
    split.setSizes([500, 700])
    width = faulty.bench.panel_width
    faulty.close()
    assert faulty.preferences.settings.panel_width == width
    assert width > 440


@pytest.mark.parametrize("step", NAMES)
def test_everything_that_is_pressed_or_typed_into_has_a_name_and_room(step: str, faulty: Window) -> None:
    faulty.bench.go_to(step)
    QApplication.processEvents()
    for kind in (QAbstractButton, QLineEdit, QComboBox):
        for widget in faulty.bench.findChildren(kind):
            if not widget.isVisible() or isinstance(widget.parent(), QComboBox | QTabBar):
                continue
            says = widget.text() if isinstance(widget, QAbstractButton) else ""
            assert says or widget.accessibleName(), widget
            assert widget.height() >= TARGET - 2, (widget, says)
    assert cut_words(faulty.bench) == []
