"""What the boxes share that work something out off the window's thread and offer it by buttons."""

from collections.abc import Callable
from typing import Any

from PySide6.QtWidgets import QPushButton, QVBoxLayout, QWidget

from app.look import TARGET
from app.panels.panel import Panel
from app.panels.sentence import Sentence
from app.panels.work import Work
from geometry.model import Job


class OffersBox(QWidget):
    """A sentence, and under it what is offered; saying something else takes back what was offered."""

    def __init__(self, panel: Panel) -> None:
        super().__init__()
        self._panel = panel
        self._work: Work | None = None
        self._offered: list[QWidget] = []
        self.said = Sentence("quiet")
        self.buttons: list[QPushButton] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(8)
        self._layout.addWidget(self.said)

    def stop(self) -> None:
        """Give up what is being worked out."""
        if self._work is not None:
            self._work.give_up()
            self._work = None

    def _begin(self, job: Callable[[Work], Any], on_done: Callable[[Any], None]) -> None:
        """Begin to work something out, in place of what was before; `_on_failed` hears why it is not."""
        OffersBox.stop(self)
        self._work = Work(job)
        self._work.answers.done.connect(on_done)
        self._work.answers.failed.connect(self._on_failed)
        self._work.begin()

    def _on_failed(self, problem: str) -> None:
        raise NotImplementedError

    def _say(self, words: str) -> None:
        """Say something in place of what was offered before."""
        self.said.say(words)
        before, self._offered, self.buttons = self._offered, [], []
        for widget in before:
            self._layout.removeWidget(widget)
            widget.hide()
            widget.deleteLater()

    def _offer(self, widget: QWidget) -> None:
        """Show something below the rest."""
        self._layout.addWidget(widget)
        self._offered.append(widget)

    def _offer_button(self, words: str, name: str, on_press: Callable[..., None]) -> QPushButton:
        """Offer a press; `name` says it to those who do not see where the button stands."""
        button = QPushButton(words)
        button.setMinimumHeight(TARGET)
        button.setAccessibleName(name)
        button.clicked.connect(on_press)
        self._offer(button)
        self.buttons.append(button)
        return button

    def _take(self, title: str, job: Job) -> bool:
        """Make a job the current one; one that is refused is told."""
        problem = self._panel.edit(title, job)
        if problem:
            self._panel.refused.emit(problem)
        return not problem
