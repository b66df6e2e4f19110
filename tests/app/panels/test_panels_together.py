"""What holds for all panels: every sample can be shown and chosen through, whatever is typed."""

import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import Qt, QThreadPool
from PySide6.QtWidgets import QAbstractButton, QComboBox, QLineEdit, QWidget

from app.document import Document
from app.fields import Field, LengthField
from app.look import TARGET
from app.panels.build_up import BuildUpPanel
from app.panels.check import CheckPanel
from app.panels.mark import MarkPanel
from app.panels.measure import MeasurePanel
from app.panels.panel import Panel
from app.panels.pipe import PipePanel
from app.panels.section import Section
from app.panels.set_out import SetOutPanel
from app.panels.table import PartsTable
from app.panels.water import WaterPanel
from app.selection import Selection
from app.settings import Preferences
from geometry.edits.refs import things
from geometry.parts.catalogue import generic_parts
from geometry.rules import standard_rules
from geometry.units import Display, length
from tests.app.panels.desk import Desk, type_into
from tests.samples import SAMPLES, sample_job

Show = Callable[[QWidget], None]
PANELS: tuple[type[Panel], ...] = (
    MeasurePanel, BuildUpPanel, WaterPanel, SetOutPanel, PipePanel, CheckPanel, MarkPanel, PartsTable,
)  # fmt: skip
UNITS: tuple[Display, ...] = ("cm", "in", "mm")


@pytest.fixture(autouse=True)
def _nothing_left_running() -> Iterator[None]:
    yield
    QThreadPool.globalInstance().waitForDone()


def stop(panel: Panel) -> None:
    if isinstance(panel, MarkPanel):
        panel.stop()
    if isinstance(panel, CheckPanel):
        panel.cures.stop()


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("kind", PANELS)
def test_every_sample_is_shown_and_nothing_changes_by_looking(
    kind: type[Panel], name: str, shown: Show, tmp_path: Path
) -> None:
    document = Document(sample_job(name), generic_parts(), standard_rules())
    selection, preferences = Selection(document), Preferences(tmp_path / "settings.json", document)
    panel = kind(document, selection, preferences)
    shown(panel)
    for section in panel.findChildren(Section):
        section.open(True)
    for ref in things(document.job):
        selection.choose([ref])
    selection.choose(things(document.job))
    for finding in document.state.findings:
        selection.look_at(finding)
    for unit in UNITS:
        preferences.change(unit=unit)
    assert document.history.count() == 0
    assert [field.problem for field in panel.findChildren(Field) if field.problem] == []
    stop(panel)


@pytest.mark.parametrize("kind", [kind for kind in PANELS if kind is not PartsTable])
def test_whatever_is_pressed_or_typed_into_is_named_and_high_enough(
    kind: type[Panel], desk: Desk, shown: Show
) -> None:
    panel = kind(*desk)
    shown(panel)
    for section in panel.findChildren(Section):
        section.open(True)
    desk.selection.choose([next(iter(things(desk.job)))])
    touched = [
        widget
        for widget in panel.findChildren(QWidget)
        if isinstance(widget, QAbstractButton | QComboBox | QLineEdit)
        and widget.isVisible()
        and widget.focusPolicy() & Qt.FocusPolicy.TabFocus
    ]
    stop(panel)
    assert touched
    for widget in touched:
        words = widget.text() if isinstance(widget, QAbstractButton) else ""
        assert widget.accessibleName() or words, widget
        assert widget.height() >= TARGET, (widget.accessibleName(), words)


@given(text=st.text(alphabet="0123456789.,+-*/() \"cminx'", max_size=12))
def test_a_typed_text_is_a_length_or_is_refused_with_a_sentence(text: str, qapp: object) -> None:
    field = LengthField("Width")
    field.show_value(380.0)
    heard: list[float] = []
    field.entered.connect(heard.append)
    try:
        expected = length(text, "mm") if text.strip() else None
    except ValueError:
        expected = None
    type_into(field, text)
    if expected is None:
        assert heard == []
        assert field.problem.endswith(".")
    elif expected == 380.0:
        assert heard == []
        assert field.problem == ""
    else:
        assert heard == [expected]


def test_panels_bring_in_nothing_that_only_writes_files() -> None:
    modules = ("build_up", "check", "mark", "measure", "pipe", "set_out", "strip", "table", "water")
    script = f"""
import sys
for name in {modules!r}:
    __import__("app.panels." + name)
slow = {{"ezdxf", "reportlab", "scipy", "networkx", "pypdfium2", "PySide6.QtSvg", "PySide6.QtPrintSupport"}}
print(sorted(slow & sys.modules.keys()))
"""
    done = subprocess.run(
        [sys.executable, "-c", script],
        cwd=Path(__file__).parents[3],
        capture_output=True,
        text=True,
        check=False,
    )
    assert (done.stdout, done.returncode) == ("[]\n", 0), done.stderr


def test_a_drag_of_many_steps_leaves_no_trace_in_panels(desk: Desk, shown: Show) -> None:
    panels = [kind(*desk) for kind in (MeasurePanel, WaterPanel, SetOutPanel, PipePanel)]
    for panel in panels:
        shown(panel)
    before = desk.job
    for step in range(20):
        desk.document.preview(before.moved("rail", 500.0 + step, 1120.0))
    desk.document.cancel()
    assert desk.job is before
    assert desk.document.history.count() == 0
