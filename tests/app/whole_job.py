"""One job from the first press to the sheets, by real events: in a test without a screen, or in a window.

`python -m tests.app.whole_job FOLDER` does it in a window of its own, on whatever screen Qt finds.
"""

import sys
from functools import partial
from pathlib import Path
from time import sleep

import pytest
from PySide6.QtCore import QDeadlineTimer, QPointF
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QSignalSpy, QTest
from PySide6.QtWidgets import QApplication

from app.canvas.canvas import Canvas
from app.canvas.inline_edit import InlineEdit
from app.panels.mark import MarkPanel
from app.settings import Preferences
from app.window import Window
from export.pack import SHEETS
from geometry.edits.refs import Ref
from geometry.finding import Status
from geometry.jobfile import read_job
from geometry.model import XY
from tests.app.driving import LEFT, Answers, child, click, keys, mouse, press, write
from tests.samples import FAULTY, sample_job

HEAD, RAIL, HOT = Ref("fitting", "head"), Ref("fitting", "rail"), Ref("pipe", "hot")


class Worker:
    """Somebody who works through a job in a window."""

    def __init__(self, window: Window, answers: Answers, folder: Path) -> None:
        self.window, self.answers, self.folder = window, answers, folder

    @property
    def canvas(self) -> Canvas:
        return self.window.bench.canvas

    def hose_over_valve(self) -> Status:
        """What is said of the hose and the valve."""
        findings = self.window.open_job.document.state.findings
        (status,) = {finding.status for finding in findings if finding.rule == "hose.valve"}
        return status

    def on_screen(self, at: XY) -> QPointF:
        return QPointF(*self.canvas.view.to_screen(at))

    def work(self) -> None:
        self.begin()
        self.drag_the_rail_clear()
        self.undo_and_redo()
        self.type_a_dimension()
        self.draw_a_pipe()
        self.save_and_reopen()
        self.make_the_sheets()

    def begin(self) -> None:
        """Start a job of one's own, then take the sample with the planted faults."""
        press(self.window.start, "start-job")
        assert self.window.has_job
        assert self.window.bench.strip.count("clash") == 0
        samples = self.window.menus.submenus["samples"].actions()
        next(entry for entry in samples if entry.text() == "Planted faults").trigger()
        assert self.window.open_job.document.job == sample_job(FAULTY)

    def drag_the_rail_clear(self) -> None:
        """Drag the rail over to the side of the outlet, where the hose hangs clear of the valve."""
        document = self.window.open_job.document
        rail = document.job.fitting("rail")
        start, end = (self.on_screen((x, rail.height + 200)) for x in (rail.x, 190.0))
        assert self.hose_over_valve() == "clash"
        clashes = self.window.bench.strip.count("clash")
        seen: list[Status] = []
        mouse(self.canvas, QMouseEvent.Type.MouseButtonPress, start, LEFT)
        for step in range(1, 21):
            mouse(self.canvas, QMouseEvent.Type.MouseMove, start + (end - start) * (step / 20))
            seen.append(self.hose_over_valve())
        assert document.kept_job.fitting("rail") == rail  # until the button is let go nothing is kept
        mouse(self.canvas, QMouseEvent.Type.MouseButtonRelease, end, LEFT)
        assert seen[0] == "clash"
        assert seen[-1] == "clear"
        assert self.hose_over_valve() == "clear"
        assert self.window.bench.strip.count("clash") < clashes
        assert document.job.fitting("rail").at == (190.0, rail.height)
        assert document.history.count() == 1
        assert document.history.undo_text() == "Move rail"

    def undo_and_redo(self) -> None:
        document = self.window.open_job.document
        moved = document.job
        keys(self.canvas, "Ctrl+Z")
        assert document.job == sample_job(FAULTY)
        assert self.hose_over_valve() == "clash"
        keys(self.canvas, "Ctrl+Shift+Z")
        assert document.job == moved
        assert self.hose_over_valve() == "clear"

    def type_a_dimension(self) -> None:
        """Click the distance of the head, which is 60 mm off the centre line, and put it right."""
        tag = next(tag for tag in self.canvas.laid.tags if tag.refs == (HEAD,) and tag.axis == "x")
        left, top, right, low = tag.box
        click(self.canvas, (left + right) / 2, (top + low) / 2)
        field = child(self.canvas, InlineEdit, "distance")
        assert field.isVisible()
        write(field, "76cm/2")
        keys(field, "Return")
        assert self.window.open_job.document.job.fitting("head").x == 380.0
        assert not field.isVisible()

    def draw_a_pipe(self) -> None:
        """Take out the hot pipe that crosses the cold one, and draw it straight up."""
        document = self.window.open_job.document
        self.window.open_job.selection.choose([HOT])
        keys(self.canvas, "Del")
        assert all(pipe.id != "hot" for pipe in document.job.pipes)
        self.window.menus.entries["draw-hot"].trigger()
        port = document.state.plan.ports["valve.hot"].at
        for at in ((port[0], 60.0), port):
            place = self.on_screen(at)
            click(self.canvas, place.x(), place.y())
        drawn = next(pipe for pipe in document.job.pipes if pipe.service == "hot")
        assert drawn.end == "valve.hot"
        assert drawn.route[0][0] == port[0]
        assert document.history.undo_text().startswith("Draw ")

    def save_and_reopen(self) -> None:
        document, file = self.window.open_job.document, self.folder / "bathroom.json"
        job = document.job
        self.answers.file = file
        assert self.window.isWindowModified()
        keys(self.canvas, "Ctrl+S")
        assert not self.window.isWindowModified()
        assert read_job(file.read_bytes()) == job
        keys(self.canvas, "Ctrl+N")
        press(self.window.start, "start-job")
        assert document.job != job
        self.window.menus.submenus["recent"].actions()[0].trigger()
        assert (document.job, document.path) == (job, file)

    def make_the_sheets(self) -> None:
        """Make all sheets beside the job's file; those that are read back show the job on the screen."""
        keys(self.canvas, "Ctrl+E")
        panel = child(self.window, MarkPanel)
        assert panel.isVisible()
        deadline = QDeadlineTimer(60_000)
        while panel.is_busy and not deadline.hasExpired():
            sleep(0.02)  # `qWait` would keep the other thread from its work
            QApplication.processEvents()
        assert {path.name for path in panel.target.iterdir()} == {name for name, _ in SHEETS.values()}
        assert (panel.target / "elevation.pdf").read_bytes().startswith(b"%PDF-")
        dxf = (panel.target / "elevation_mm.dxf").read_text(encoding="utf-8")
        assert self.window.open_job.document.job.about.title in dxf


def main(folder: Path) -> None:
    """Work through the job in a real window, and leave a picture of the screen behind."""
    from app.look import use_own_font

    application = QApplication([])
    use_own_font(application)
    with pytest.MonkeyPatch.context() as patch:
        answers = Answers(patch)
        window = Window(Preferences(folder / "settings.json"), folder / "recovery", folder / "locks")
        window.painted.connect(partial(window.begin, None))
        painted = QSignalSpy(window.painted)
        window.show()
        window.activateWindow()
        assert painted.count() or painted.wait(20_000)
        Worker(window, answers, folder).work()
        QTest.qWait(200)  # for the screen to show what was painted last
        assert application.primaryScreen().grabWindow(0).save(str(folder / "screen.png"))
        assert window.close()
    print(application.platformName())


if __name__ == "__main__":
    main(Path(sys.argv[1]))
