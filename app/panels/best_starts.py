"""The best starts of the tiles: listed with their reasons, shown on the wall while one is pointed at.

They do not depend on where the tiles start now, so the list stays while the tiles are dragged; it follows
whatever else is changed.
"""

from functools import partial
from typing import NamedTuple

from PySide6.QtCore import QEvent, QObject, QTimer
from PySide6.QtGui import QShowEvent

from app.document import State
from app.fields import LengthField
from app.panels.offers_box import OffersBox
from app.panels.panel import Panel
from app.panels.sentence import Sentence, plainly
from app.panels.work import Work
from geometry.edits.finish import started
from geometry.model import Job
from geometry.tiling.best_start import Start, best_starts

SETTLE = 50
"""Milliseconds between a change and the search for what is best after it."""
MOST_MOVED = 50.0
"""By how much all fittings may be moved together, in mm; own choice."""


class Sought(NamedTuple):
    """What starts are sought for: a state, and by how much fittings may be moved, in mm."""

    state: State
    tolerance: float

    @property
    def key(self) -> tuple[Job, float]:
        """What the best starts depend on: the job wherever its tiles start, and the tolerance."""
        job = self.state.job
        tiling = job.finish.tiling
        unset = tiling and tiling.but(start_x=0.0, start_y=0.0)
        return job.but(finish=job.finish.but(tiling=unset)), self.tolerance


class Found(NamedTuple):
    """What was found, and for what."""

    sought: Sought
    starts: tuple[Start, ...]


class BestStartsBox(OffersBox):
    """Offers starts, the best first; one that is pointed at is shown, one that is pressed is taken."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(panel)
        self.tolerance = LengthField(self.tr("All fittings may move by"), panel.display)
        self.tolerance.name_for(self.tr("best start"))
        self.tolerance.show_value(0.0)
        self.tolerance.entered.connect(self._on_tolerance)
        self.tolerance.stepped.connect(self._on_tolerance)
        self._layout.insertWidget(0, self.tolerance)
        self._tolerance = 0.0
        self._sought: Sought | None = None
        self._starts: tuple[Start, ...] = ()
        self._shown_job: Job | None = None
        self._clock = QTimer(self)
        self._clock.setSingleShot(True)
        self._clock.setInterval(SETTLE)
        self._clock.timeout.connect(self._seek)

    def show_state(self, state: State) -> None:
        """Seek what is best for a state, unless that is known; what is not seen is not sought."""
        if not self.isVisible() or state.job is self._shown_job:
            return
        sought = Sought(state, self._tolerance)
        if self._sought is None or sought.key != self._sought.key:
            self.stop()
            self._sought = sought
            self._clock.start()
        else:
            self._name_buttons(state.job)

    def stop(self) -> None:
        """Give up what is being sought."""
        self._clock.stop()
        super().stop()

    def showEvent(self, event: QShowEvent) -> None:
        """Seek when it comes to be seen."""
        super().showEvent(event)
        self.show_state(self._panel.document.state)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Show on the wall the start whose button the pointer or the keyboard rests on."""
        if watched in self.buttons:
            if event.type() in (QEvent.Type.Enter, QEvent.Type.FocusIn):
                self._show_start(self._starts[self.buttons.index(watched)])
            elif event.type() in (QEvent.Type.Leave, QEvent.Type.FocusOut):
                self._show_none()
        return super().eventFilter(watched, event)

    def _seek(self) -> None:
        if self._sought is not None:
            if not self.buttons:
                self._say(self.tr("Looking for the best starts…"))
            self._begin(partial(_found, self._sought), self._on_found)

    def _on_found(self, found: Found) -> None:
        if found.sought is not self._sought:
            return  # of a job that is no longer shown
        self._starts = found.starts
        if not found.starts:
            self._say(
                self.tr(
                    "Wherever the tiles start, a hole comes nearer to the edge of its tile than the rule"
                    " allows. Move a fitting, or let all of them move."
                )
            )
            return
        self._say(self.tr("Where to start, the best first. Point at one to see it on the wall."))
        for number, start in enumerate(found.starts, 1):
            words = f"{number}. {self._words(start)}"
            self._offer(Sentence("words", words))
            button = self._offer_button("", words, partial(self._apply, start))
            button.installEventFilter(self)
        self._name_buttons(found.sought.state.job)

    def _on_failed(self, problem: str) -> None:
        self._say(plainly(problem))

    def _say(self, words: str) -> None:
        self._show_none()
        super()._say(words)

    def _words(self, start: Start) -> str:
        written = self._panel.written
        across, up = start.move
        told = [
            self.tr("First tile %1 from the left, %2 up")
            .replace("%1", written(start.x))
            .replace("%2", written(start.y))
        ]
        if across:
            way = (
                self.tr("all fittings %1 to the right")
                if across > 0
                else self.tr("all fittings %1 to the left")
            )
            told.append(way.replace("%1", written(abs(across))))
        if up:
            way = self.tr("all fittings %1 up") if up > 0 else self.tr("all fittings %1 down")
            told.append(way.replace("%1", written(abs(up))))
        return "; ".join((*told, *start.reasons))

    def _name_buttons(self, job: Job) -> None:
        """Say on each button whether the tiles start there already."""
        tiling = job.finish.tiling
        for start, button in zip(self._starts, self.buttons, strict=False):
            is_now = tiling is not None and (tiling.start_x, tiling.start_y) == (start.x, start.y)
            is_now = is_now and start.move == (0.0, 0.0)
            button.setText(self.tr("They start here now") if is_now else self.tr("Start here"))
            button.setAccessibleName(f"{button.text()}: {self._words(start)}")

    def _on_tolerance(self, value: float) -> None:
        if not 0.0 <= value <= MOST_MOVED:
            most = self._panel.written(MOST_MOVED)
            self.tolerance.refuse(self.tr("Must be at least 0 and at most %1.").replace("%1", most))
            return
        self._tolerance = value
        self.tolerance.show_value(value)
        self.show_state(self._panel.document.state)

    def _show_start(self, start: Start) -> None:
        if self._sought is not None and not self._clock.isActive():
            self._shown_job = started(self._sought.state.plan, (start.x, start.y), start.move)
            self._panel.document.preview(self._shown_job)

    def _show_none(self) -> None:
        job, self._shown_job = self._shown_job, None
        if job is not None and self._panel.document.state.job is job:
            self._panel.document.cancel()

    def _apply(self, start: Start, *_: object) -> None:
        self._show_none()
        if (
            self._sought is None
            or Sought(self._panel.document.state, self._tolerance).key != self._sought.key
        ):
            return  # the job has changed meanwhile; what is best for it is being sought
        written = self._panel.written
        title = self.tr("Start the tiles at %1, %2")
        title = title.replace("%1", written(start.x)).replace("%2", written(start.y))
        self._take(title, started(self._sought.state.plan, (start.x, start.y), start.move))


def _found(sought: Sought, _work: Work) -> Found:
    return Found(sought, best_starts(sought.state.plan, tolerance=sought.tolerance))
