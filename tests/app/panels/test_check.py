"""The step Check: the list, what is looked at, what is shown of each finding, and cures."""

import itertools
from collections.abc import Callable, Iterator

import pytest
from PySide6.QtCore import Qt, QThreadPool
from PySide6.QtGui import QFontMetrics
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot

from app.document import State
from app.panels.check import CheckPanel
from app.panels.statuses import against, counts, successor
from geometry.edits.moves import moved
from geometry.edits.refs import Ref
from geometry.finding import STATUSES, Finding, Source
from geometry.rules import standard_rules
from tests.app.panels.desk import LEFT, Desk, key, press, tick

Show = Callable[[QWidget], None]
ROLE = Qt.ItemDataRole.AccessibleTextRole


@pytest.fixture
def panel(faulty: Desk, shown: Show) -> Iterator[CheckPanel]:
    made = CheckPanel(*faulty)
    shown(made)
    yield made
    made.cures.stop()
    QThreadPool.globalInstance().waitForDone()


def texts(panel: CheckPanel) -> list[str]:
    return [panel.model.row(number).text for number in range(panel.model.rowCount())]


def finding_of(rule: str = "front.head_rail", **changes: object) -> Finding:
    held = Finding(
        rule=rule, status="clash", parts=("head", "rail"), message="Too near.", measured=12.6, limit=50.0,
        source=Source(standing="common practice"),
    )  # fmt: skip
    return held.but(**changes)


def test_findings_stand_under_the_headings_of_their_statuses_with_counts(
    panel: CheckPanel, faulty: Desk
) -> None:
    findings = faulty.document.state.findings
    many = counts(findings)
    shown_texts = texts(panel)
    assert shown_texts[0] == f"Must change ({many['clash']})"
    assert shown_texts[1 : 1 + many["clash"]] == [f.message for f in findings if f.status == "clash"]
    assert len(shown_texts) == sum(many[s] + 1 for s in STATUSES if many[s] and s != "clear")
    assert panel.heading.text().startswith(f"{many['clash']} clash, ")


def test_open_questions_stand_above_the_list_until_they_are_answered(panel: CheckPanel, faulty: Desk) -> None:
    assert panel.questions.isVisible()
    assert "Where are hot and cold shut off?" in panel.questions.text()
    house = faulty.job.house.but(isolation="accessible")
    faulty.document.edit("Change house", faulty.job.but(house=house))
    assert "shut off" not in panel.questions.text()
    assert "What is cut into its other face?" in panel.questions.text()


def test_what_is_clear_is_shown_when_it_is_wanted(panel: CheckPanel, faulty: Desk) -> None:
    many = counts(faulty.document.state.findings)
    assert f"Clear ({many['clear']})" not in texts(panel)
    tick(panel.show_clear)
    assert f"Clear ({many['clear']})" in texts(panel)
    assert len(texts(panel)) >= len(faulty.document.state.findings)
    tick(panel.show_clear)
    assert f"Clear ({many['clear']})" not in texts(panel)


def test_a_row_says_what_was_measured_against_which_limit_and_by_which_source() -> None:
    rules = standard_rules()
    assert rules["front.head_rail"].sense == "at least"
    assert against(finding_of(), rules) == "Measured 12.6 mm, must be at least 50 mm"
    # 12.6 / 25.4 = 0.496, nearest 8/16; 50 / 25.4 = 1.9685, and 0.9685 * 16 = 15.496, nearest 15
    assert against(finding_of(), rules, "cm") == "Measured 1.26 cm, must be at least 5 cm"
    assert against(finding_of(), rules, "in") == 'Measured 1/2", must be at least 1 15/16"'
    assert against(finding_of(rule="of.a.user"), rules) == "Measured 12.6 mm against 50 mm"
    assert against(finding_of(measured=None), rules) == ""
    weak = finding_of(rule="of.a.user", measured=0.35, limit=0.5, unit="bar")
    assert against(weak, rules) == "Measured 0.35 bar against 0.5 bar"


def test_those_who_hear_the_window_hear_status_sentence_and_measure(panel: CheckPanel, faulty: Desk) -> None:
    first = faulty.document.state.findings[0]
    said = panel.model.data(panel.model.index(1), ROLE)
    assert said.startswith(f"clash: {first.message}")
    assert str(first.source) in said


def test_choosing_a_finding_looks_at_it(panel: CheckPanel, faulty: Desk) -> None:
    findings = faulty.document.state.findings
    place = panel.view.visualRect(panel.model.index(2)).center()
    QTest.mouseClick(panel.view.viewport(), LEFT, Qt.KeyboardModifier.NoModifier, place)
    assert faulty.selection.finding == findings[1]
    key(panel.view, Qt.Key.Key_Up)
    assert faulty.selection.finding == findings[0]


def test_a_heading_is_no_finding(panel: CheckPanel, faulty: Desk) -> None:
    place = panel.view.visualRect(panel.model.index(0)).center()
    QTest.mouseClick(panel.view.viewport(), LEFT, Qt.KeyboardModifier.NoModifier, place)
    assert faulty.selection.finding is None


def test_a_finding_looked_at_elsewhere_is_marked_in_the_list(panel: CheckPanel, faulty: Desk) -> None:
    finding = faulty.document.state.findings[3]
    faulty.selection.look_at(finding)
    row = panel.view.currentIndex().row()
    assert panel.model.row(row).finding == finding
    faulty.selection.look_at(None)
    assert not panel.view.currentIndex().isValid()


def test_the_parts_of_a_finding_are_chosen(panel: CheckPanel, faulty: Desk) -> None:
    finding = next(f for f in faulty.document.state.findings if f.rule == "front.head_rail")
    faulty.selection.look_at(finding)
    press(panel.choose_parts)
    assert {ref.id for ref in faulty.selection.refs} == set(finding.parts)


def test_a_cleared_clash_leaves_the_list_and_undo_brings_it_back(panel: CheckPanel, faulty: Desk) -> None:
    message = next(f.message for f in faulty.document.state.findings if f.rule == "hose.valve")
    assert message in texts(panel)
    faulty.document.edit("Remove the hose", faulty.job.but(hoses=()))
    assert message not in texts(panel)
    faulty.document.history.undo()
    assert message in texts(panel)


def test_while_dragging_the_list_waits_a_moment_and_then_shows_where_things_are(
    panel: CheckPanel, faulty: Desk, qtbot: QtBot
) -> None:
    before = texts(panel)
    plan = faulty.document.state.plan
    faulty.document.preview(moved(plan, (Ref("fitting", "rail"),), 60, 0))
    now = [f.message for f in faulty.document.state.findings if f.status == "clash"]
    assert texts(panel) == before
    qtbot.waitUntil(lambda: texts(panel)[1 : 1 + len(now)] == now)
    faulty.document.cancel()
    assert texts(panel) == before


def test_with_nothing_wrong_the_panel_says_how_much_was_checked(desk: Desk, shown: Show) -> None:
    panel = CheckPanel(*desk)
    shown(panel)
    state = desk.document.state
    clear = tuple(finding for finding in state.findings if finding.status == "clear")
    panel.show_state(State(state.job, state.plan, clear))
    assert panel.nothing.text() == f"Nothing wants attention; {len(clear)} checks are clear."
    assert panel.model.rowCount() == 0


def look_at(desk: Desk, rule: str) -> Finding:
    finding = next(f for f in desk.document.state.findings if f.rule == rule and f.status == "clash")
    desk.selection.look_at(finding)
    return finding


def test_a_cure_is_offered_by_its_title_applied_and_undone(
    panel: CheckPanel, faulty: Desk, qtbot: QtBot
) -> None:
    assert panel.cures.buttons == []
    finding = look_at(faulty, "recess.shallow")
    assert panel.cures.said.text() == "Looking for what cures it…"
    qtbot.waitUntil(lambda: panel.cures.buttons != [], timeout=60_000)
    title = panel.cures.buttons[0].text()
    assert panel.cures.buttons[0].accessibleName() == f"Cure: {title}"
    press(panel.cures.buttons[0])
    assert faulty.undo_text == title
    assert finding not in faulty.document.state.findings
    assert all(f.status != "clash" for f in faulty.document.state.findings if f.rule == finding.rule)
    faulty.document.history.undo()
    assert finding in faulty.document.state.findings


def test_a_cure_for_a_job_that_has_changed_is_not_applied(
    panel: CheckPanel, faulty: Desk, qtbot: QtBot
) -> None:
    look_at(faulty, "recess.shallow")
    qtbot.waitUntil(lambda: panel.cures.buttons != [], timeout=60_000)
    stale = panel.cures.buttons[0]
    faulty.document.edit("Remove the hose", faulty.job.but(hoses=()))
    before = faulty.job
    stale.click()
    assert faulty.job is before
    assert stale not in panel.cures.buttons


def test_cures_are_offered_for_clashes_only(panel: CheckPanel, faulty: Desk) -> None:
    faulty.selection.look_at(next(f for f in faulty.document.state.findings if f.status != "clash"))
    assert panel.cures.said.text() == ""
    assert panel.cures.buttons == []
    assert not panel.cures.apply_first()


def test_the_first_cure_is_applied_by_a_shortcut_too(panel: CheckPanel, faulty: Desk, qtbot: QtBot) -> None:
    look_at(faulty, "front.head_rail")
    qtbot.waitUntil(lambda: panel.cures.buttons != [], timeout=60_000)
    title = panel.cures.buttons[0].text()
    assert panel.cures.apply_first()
    assert faulty.undo_text == title


def test_no_row_is_lower_than_its_words(panel: CheckPanel) -> None:
    metrics = QFontMetrics(panel.view.font())
    tops = []
    for number in range(panel.model.rowCount()):
        rect, row = panel.view.visualRect(panel.model.index(number)), panel.model.row(number)
        words = metrics.horizontalAdvance(row.text) + metrics.horizontalAdvance(row.detail)
        assert rect.height() * rect.width() >= words * metrics.height()
        tops.append((rect.top(), rect.bottom()))
    assert all(low < high for (_, low), (high, _) in itertools.pairwise(tops))


def test_the_successor_of_a_finding_is_the_one_of_the_same_rule_on_the_same_parts() -> None:
    old, new, other = finding_of(), finding_of(measured=20.0), finding_of(parts=("head",))
    assert successor(old, (other, new)) is new
    assert successor(old, (other,)) is None
    assert successor(old, (new, old)) is old
