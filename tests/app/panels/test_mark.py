"""The step Mark: sheets are chosen, made, shown, printed at true size and copied, as a person does it."""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numpy as np
import pypdfium2
import pytest
from PySide6.QtCore import Qt, QThreadPool, QUrl
from PySide6.QtGui import QDesktopServices, QGuiApplication, QImage
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QFileDialog, QMessageBox, QWidget
from pytestqt.qtbot import QtBot

from app.panels import preview
from app.panels.mark import MarkPanel
from app.panels.page_view import LargePages
from app.panels.pictures import as_pixels, elevation_svg
from app.panels.printing import has_bars, warning
from app.panels.section import Section
from app.panels.sheet_choices import WORDS
from app.panels.work import Work
from export.pack import PAGES, SHEETS, pack
from export.sheets.options import SheetOptions
from tests.app.panels.desk import Desk, choose, press, tick, type_into
from tests.export.jobs import usual
from tests.export.measured import laid_out

Show = Callable[[QWidget], None]
Array = np.ndarray[Any, np.dtype[np.float64]]


@pytest.fixture
def panel(desk: Desk, shown: Show, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[MarkPanel]:
    monkeypatch.setattr(preview, "SETTLE", 10)
    desk.preferences.change(sheet_folder=str(tmp_path / "another job sheets"))
    made = MarkPanel(*desk)
    shown(made)
    for section in made.findChildren(Section):
        section.open(True)
    yield made
    made.stop()
    QThreadPool.globalInstance().waitForDone()


def finished(qtbot: QtBot, panel: MarkPanel) -> str:
    """Wait until nothing is being made, and return what was said then."""
    qtbot.waitUntil(lambda: not panel.is_busy, timeout=60_000)
    return panel.result.text()


def test_every_sheet_has_words_of_its_own() -> None:
    assert set(SHEETS) <= set(WORDS)


def test_all_sheets_are_chosen_until_one_is_left_out(panel: MarkPanel, desk: Desk) -> None:
    assert panel.choices.names == tuple(SHEETS)
    assert all(box.value for box in panel.choices.ticks.values())
    tick(panel.choices.ticks["dxf"])
    assert "dxf" not in desk.preferences.settings.sheets
    assert "elevation" in desk.preferences.settings.sheets
    tick(panel.choices.ticks["dxf"])
    assert desk.preferences.settings.sheets == ()


def test_one_sheet_at_least_must_be_chosen(panel: MarkPanel, desk: Desk) -> None:
    first, *others = SHEETS
    desk.preferences.change(sheets=(first,))
    tick(panel.choices.ticks[first])
    assert panel.choices.names == (first,)
    assert panel.choices.ticks[first].problem == "At least one sheet must be chosen."
    assert others


def test_the_sheets_are_written_as_the_pack_makes_them(panel: MarkPanel, desk: Desk, qtbot: QtBot) -> None:
    desk.preferences.change(sheets=("elevation", "section"))
    choose(panel.choices.paper, "A3")
    folder = panel.target
    assert not folder.exists()
    press(panel.make)
    assert panel.is_busy
    assert not panel.make.isEnabled()
    assert panel.cancel.isVisible()
    said = finished(qtbot, panel)
    assert said == f"2 files are in the folder {folder}."
    state = desk.document.state
    made = pack(state.plan, state.findings, SheetOptions(paper="A3"), ("elevation", "section"))
    assert {file.name: file.read_bytes() for file in folder.iterdir()} == {m.filename: m.data for m in made}
    assert panel.make.isEnabled()
    assert panel.cancel.isHidden()
    press(panel.make)
    assert finished(qtbot, panel).endswith("2 of them replaced older ones.")


def test_a_choice_that_cannot_be_drawn_is_said_and_nothing_is_written(
    panel: MarkPanel, desk: Desk, qtbot: QtBot
) -> None:
    desk.preferences.change(sheets=("elevation",))
    choose(panel.choices.paper, "A5")
    choose(panel.choices.scale, 5)
    press(panel.make)
    assert "does not fit A5 at 1:5" in finished(qtbot, panel)
    assert not panel.target.exists()


def test_making_is_given_up_and_nothing_is_written(panel: MarkPanel, desk: Desk, qtbot: QtBot) -> None:
    desk.preferences.change(sheets=("elevation", "section", "full-size"))
    press(panel.make)
    press(panel.cancel)
    assert finished(qtbot, panel) == "Given up; nothing was written."
    assert not panel.target.exists()


def test_a_folder_that_cannot_be_made_is_one_sentence(
    panel: MarkPanel, desk: Desk, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "file").write_bytes(b"")
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(tmp_path / "file" / "folder"))
    press(panel.choose_folder)
    desk.preferences.change(sheets=("section",))
    press(panel.make)
    said = finished(qtbot, panel)
    assert "file" in said
    assert "Traceback" not in said


def test_the_folder_is_one_of_the_jobs_own(
    panel: MarkPanel, desk: Desk, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    assert panel.target == tmp_path / "Concealed shower sheets"  # not that of another job
    desk.document.saved_as(tmp_path / "flat 4.json")
    assert panel.target == tmp_path / "flat 4 sheets"
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_: str(tmp_path / "van"))
    press(panel.choose_folder)
    assert panel.target == tmp_path / "van"
    assert panel.folder.text() == f"Into {tmp_path / 'van'}"


def test_the_folder_is_opened_once_there_is_one(
    panel: MarkPanel, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    opened: list[QUrl] = []
    monkeypatch.setattr(QDesktopServices, "openUrl", opened.append)
    press(panel.open)
    assert opened == []
    assert panel.result.text() == "The folder is made with the first sheets."
    panel.target.mkdir()
    press(panel.open)
    assert [url.toLocalFile() for url in opened] == [str(panel.target)]


# is the printer true?


def test_a_short_bar_stretches_the_pages_by_what_it_lacks(panel: MarkPanel, desk: Desk) -> None:
    assert panel.choices.truth.words.text() == "Pages are drawn at true size."
    type_into(panel.choices.truth.across, "99.5")
    held = desk.preferences.settings
    assert held.stretch_x == pytest.approx(100 / 99.5, abs=1e-5)
    assert held.stretch_y == 1.0
    # printed again with that stretch the bar measures 100.5: too much by 0.5 %
    type_into(panel.choices.truth.across, "100.5")
    assert desk.preferences.settings.stretch_x == pytest.approx(100 / 99.5 * 100 / 100.5, abs=1e-5)
    type_into(panel.choices.truth.upright, "9,9 cm")
    assert desk.preferences.settings.stretch_y == pytest.approx(100 / 99, abs=1e-5)
    assert panel.choices.options().stretch_y == desk.preferences.settings.stretch_y
    press(panel.choices.truth.forget)
    assert (desk.preferences.settings.stretch_x, desk.preferences.settings.stretch_y) == (1.0, 1.0)


@pytest.mark.parametrize("measured", ["80", "0", "-5", "1000"])
def test_a_bar_too_far_out_is_a_setting_and_not_made_good(
    measured: str, panel: MarkPanel, desk: Desk
) -> None:
    type_into(panel.choices.truth.across, measured)
    assert panel.choices.truth.across.problem.startswith("Too far out")
    assert desk.preferences.settings.stretch_x == 1.0


def test_a_bar_four_per_cent_out_is_doubted(panel: MarkPanel) -> None:
    type_into(panel.choices.truth.across, "96")
    assert "probably not set to actual size" in panel.choices.truth.doubt.text()


def test_an_overlap_that_no_page_can_have_is_refused(panel: MarkPanel) -> None:
    type_into(panel.choices.overlap, "60")
    assert panel.choices.overlap.problem == "Overlap must be from 0 to 50 mm, got 60."
    type_into(panel.choices.overlap, "15")
    assert panel.choices.options().overlap == 15


# preview


def test_the_preview_shows_the_pages_and_turns_them(panel: MarkPanel, qtbot: QtBot) -> None:
    panel.preview.sheet.entered.emit("full-size")
    qtbot.waitUntil(lambda: len(panel.preview.view.pages) > 1, timeout=60_000)
    many = len(panel.preview.view.pages)
    assert panel.preview.view.label.text() == f"Page 1 of {many}"
    assert not panel.preview.view.back.isEnabled()
    first = panel.preview.view.paper.grab().toImage()
    press(panel.preview.view.on)
    assert panel.preview.view.label.text() == f"Page 2 of {many}"
    assert panel.preview.view.paper.grab().toImage() != first
    press(panel.preview.view.back)
    assert panel.preview.view.paper.grab().toImage() == first


def test_a_page_is_shown_large_in_a_window_of_its_own(panel: MarkPanel, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: len(panel.preview.view.pages) > 1, timeout=60_000)
    press(panel.preview.view.on)
    panel.window().resize(900, 700)
    press(panel.preview.view.large)
    (large,) = panel.window().findChildren(LargePages)
    qtbot.waitExposed(large)
    assert large.view.label.text() == panel.preview.view.label.text()
    # all its width but margins and scroll bar; sharp, so it was drawn anew
    assert large.view.paper.width() > 800
    assert large.view.paper.height() / large.view.paper.width() == pytest.approx(297 / 210, abs=0.01)
    press(large.view.back)
    assert large.view.label.text().startswith("Page 1 of")
    assert panel.preview.view.label.text().startswith("Page 2 of")
    QTest.keyClick(large, Qt.Key.Key_Escape)
    assert not large.isVisible()


def test_the_preview_follows_an_edit(panel: MarkPanel, desk: Desk, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: len(panel.preview.view.pages) > 0, timeout=60_000)
    first, drawn = panel.preview.view.pages, panel.preview.view.paper.grab().toImage()
    desk.document.edit("Move rail", desk.job.moved("rail", 620, 1120))
    qtbot.waitUntil(lambda: panel.preview.view.pages is not first, timeout=60_000)
    assert panel.preview.view.paper.grab().toImage() != drawn


def test_what_cannot_be_drawn_is_said_where_the_page_would_be(panel: MarkPanel, qtbot: QtBot) -> None:
    choose(panel.choices.paper, "A5")
    choose(panel.choices.scale, 5)
    qtbot.waitUntil(lambda: "does not fit" in panel.preview.view.said.text(), timeout=60_000)
    assert not panel.preview.view.pages
    choose(panel.choices.paper, "A3")
    choose(panel.choices.scale, None)
    qtbot.waitUntil(lambda: len(panel.preview.view.pages) > 0, timeout=60_000)
    assert panel.preview.view.said.text() == ""


# printing, clipboard


def grey(image: QImage) -> Array:
    small = image.convertToFormat(QImage.Format.Format_Grayscale8)
    rows = np.frombuffer(bytes(small.constBits()), np.uint8).reshape(small.height(), small.bytesPerLine())
    return rows[:, : small.width()].astype(float)


def test_printing_warns_first_and_prints_what_was_chosen(
    panel: MarkPanel, desk: Desk, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    warned: list[str] = []

    def read(box: QMessageBox) -> QMessageBox.StandardButton:
        warned.append(box.text())
        return QMessageBox.StandardButton.Ok

    def accept(dialog: QPrintDialog) -> QPrintDialog.DialogCode:
        dialog.printer().setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        dialog.printer().setOutputFileName(str(tmp_path / "printed.pdf"))
        dialog.printer().setResolution(100)
        return QPrintDialog.DialogCode.Accepted

    monkeypatch.setattr(QMessageBox, "exec", read)
    monkeypatch.setattr(QPrintDialog, "exec", accept)
    desk.preferences.change(sheets=("section", "dxf"))
    press(panel.print)
    said = finished(qtbot, panel)
    assert said.startswith("The pages went to the printer.")
    assert warned == [warning("A4", bars=False)]
    assert "the scale to 100\u00a0%" in warned[0]
    assert "bars" not in warned[0]
    # valve, outlet and head have a section each; A4 has room for one at 1:2
    assert len(pypdfium2.PdfDocument(tmp_path / "printed.pdf")) == 3


def test_the_warning_asks_for_the_bars_where_pages_have_them() -> None:
    plan = usual()
    assert has_bars(laid_out(PAGES["full-size"], plan).pages)
    assert not has_bars(laid_out(PAGES["section"], plan).pages)
    assert "measure both 100\u00a0mm bars" in warning("A3", bars=True)


def test_printing_stops_where_the_warning_is_not_heeded(
    panel: MarkPanel, desk: Desk, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch
) -> None:
    desk.preferences.change(sheets=("section",))
    monkeypatch.setattr(QMessageBox, "exec", lambda _: QMessageBox.StandardButton.Cancel)
    press(panel.print)
    assert finished(qtbot, panel) == ""


def test_a_drawing_file_alone_is_not_printed(panel: MarkPanel, desk: Desk) -> None:
    desk.preferences.change(sheets=("dxf",))
    press(panel.print)
    assert panel.result.text() == "None of the chosen sheets has pages to print."


def test_the_elevation_is_copied_as_pixels_and_as_svg(panel: MarkPanel, desk: Desk) -> None:
    press(panel.as_picture)
    image = QGuiApplication.clipboard().image()
    assert image.width() > 500
    press(panel.as_drawing)
    data = QGuiApplication.clipboard().mimeData()
    state = desk.document.state
    assert bytes(data.data("image/svg+xml").data()) == elevation_svg(state.plan, state.findings)


def test_the_picture_is_the_drawing_at_its_size_on_white(desk: Desk) -> None:
    state = desk.document.state
    svg = elevation_svg(state.plan, state.findings, 20)
    picture = as_pixels(svg, dpi=254)  # ten pixels to the mm
    wide = float(svg.split(b'width="')[1].split(b'mm"')[0])
    assert picture.width() == pytest.approx(wide * 10, abs=1)
    assert picture.pixelColor(2, 2).name() == "#ffffff"
    pixels = grey(picture)
    # the wall's edges, 0.7 mm wide and 1200 apart: two dark columns 60 mm = 600 pixels from each other
    height = pixels.shape[0]
    dark = np.flatnonzero((pixels[height // 4 : height // 2] < 80).mean(axis=0) > 0.95)
    assert dark.max() - dark.min() == pytest.approx(600 + 7, abs=2)


def test_a_fault_in_another_thread_is_said(qtbot: QtBot, capfd: pytest.CaptureFixture[str]) -> None:
    def broken(_: Work) -> None:
        raise RuntimeError("no such thing")

    work = Work(broken)
    said: list[str] = []
    work.answers.failed.connect(said.append)
    with qtbot.waitSignal(work.answers.ended):
        work.begin()
    assert said == ["RuntimeError: no such thing"]
    assert "no such thing" in capfd.readouterr().err
