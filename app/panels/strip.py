"""The strip under the wall: how many findings of each status, and the worst of them in words."""

from PySide6.QtCore import QSize, Qt, QTimer, Signal
from PySide6.QtGui import QMouseEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QToolButton

from app.document import State
from app.look import TARGET
from app.panels.panel import Panel
from app.panels.sentence import Sentence, Tone, bold
from app.panels.statuses import LOOKS, counts, status_word, successor
from geometry.finding import STATUSES, Finding, Status

MESSAGE_TIME = 12_000
"""Milliseconds for which a message stands; long enough to be read twice."""


class Strip(Panel):
    """Always in sight. A press on it looks at the worst finding."""

    check_wanted = Signal()
    """The user wants to see the list of findings."""

    def set_up(self) -> None:
        """Make what stands on the panel."""
        self._worst: Finding | None = None
        self._message = ""
        self._counts = {status: _Count(status) for status in STATUSES}
        self._words = _Elided()
        self._show = QToolButton()
        self._show.setText(self.tr("Show"))
        self._show.setAccessibleName(self.tr("Show the worst finding on the wall"))
        self._show.setMinimumHeight(TARGET)
        self._show.clicked.connect(self.look_at_worst)
        self._clock = QTimer(self)
        self._clock.setSingleShot(True)
        self._clock.timeout.connect(self.unsay)
        row = QHBoxLayout(self)
        row.setContentsMargins(12, 2, 12, 2)
        row.setSpacing(16)
        for count in self._counts.values():
            row.addWidget(count)
        row.addWidget(self._words, 1)
        row.addWidget(self._show)
        self.setMinimumHeight(TARGET + 4)
        self.setAccessibleName(self.tr("Findings"))

    @property
    def words(self) -> str:
        """What the strip says in words."""
        return self._words.whole

    def count(self, status: Status) -> int:
        """Return how many findings of a status the strip shows."""
        return self._counts[status].many

    def show_state(self, state: State) -> None:
        """Show the counts and the worst finding."""
        looked_at = self.selection.finding
        if looked_at is not None:
            self.selection.look_at(successor(looked_at, state.findings))
        for status, many in counts(state.findings).items():
            self._counts[status].show_many(many)
        worst = state.findings[0] if state.findings else None  # they come in the order of attention
        self._worst = worst if worst is not None and worst.status != "clear" else None
        self._show.setEnabled(self._worst is not None)
        if self._message and self._clock.isActive() and state.job is self.document.kept_job:
            self.unsay()
        self._say()

    def say(self, sentence: str) -> None:
        """Tell the user something for a while, in place of the worst finding."""
        self._message = sentence
        self._clock.start(MESSAGE_TIME)
        self._say()

    def unsay(self) -> None:
        """Take the message away."""
        self._clock.stop()
        self._message = ""
        self._say()

    def look_at_worst(self) -> None:
        """Look at the worst finding, and open the list."""
        if self._worst is not None:
            self.selection.look_at(self._worst)
            self.check_wanted.emit()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        """Take a press anywhere as one on the words."""
        if self._message:
            self.unsay()
        else:
            self.look_at_worst()

    def _say(self) -> None:
        if self._message:
            self._words.say(self._message, "words")
        elif self._worst is not None:
            self._words.say(self._worst.message, LOOKS[self._worst.status].tone)
        else:
            self._words.say(self.tr("Nothing clashes."), "clear")


class _Count(Sentence):
    """How many findings there are of one status: mark, number and word."""

    def __init__(self, status: Status) -> None:
        super().__init__("quiet")
        self.many = -1
        self._status = status
        self.setWordWrap(False)
        self.setSizePolicy(QSizePolicy.Policy.Fixed, QSizePolicy.Policy.Preferred)

    def show_many(self, many: int) -> None:
        """Show how many there are; quietly if there are none."""
        if many == self.many:
            return
        self.many = many
        look = LOOKS[self._status]
        self.say(f"{look.mark} {many} {status_word(self._status)}", look.tone if many else "quiet")
        font = bold(self.font())
        font.setBold(many > 0 and self._status != "clear")
        self.setFont(font)


class _Elided(Sentence):
    """One line of words; what does not fit is told by a tool tip."""

    def __init__(self) -> None:
        super().__init__("words")
        self.whole = ""
        self.setWordWrap(False)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.setMinimumWidth(120)

    def say(self, text: str, tone: Tone | None = None) -> None:
        """Show other words."""
        self.whole = text
        self.setToolTip(text)
        self.setAccessibleName(text)
        super().say(self._fitted(), tone)

    def sizeHint(self) -> QSize:
        """Ask for the height of a line, and no width."""
        return QSize(0, super().sizeHint().height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Fit the words into the new width."""
        super().resizeEvent(event)
        super().say(self._fitted())

    def _fitted(self) -> str:
        return self.fontMetrics().elidedText(self.whole, Qt.TextElideMode.ElideRight, max(self.width(), 1))
