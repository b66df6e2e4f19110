"""The row above the wall: which stage of the work is shown, and how large."""

from typing import get_args

from PySide6.QtCore import QCoreApplication, Qt, Signal
from PySide6.QtWidgets import QButtonGroup, QHBoxLayout, QLabel, QToolButton, QWidget

from app.canvas.stages import Stage
from app.tab_order import one_stop
from app.words import QT_TRANSLATE_NOOP

_WORDS: dict[Stage, str] = {
    "cut": QT_TRANSLATE_NOOP("ViewBar", "Cut"),
    "piped": QT_TRANSLATE_NOOP("ViewBar", "Piped"),
    "finished": QT_TRANSLATE_NOOP("ViewBar", "Finished"),
    "all": QT_TRANSLATE_NOOP("ViewBar", "Everything"),
}


class ViewBar(QWidget):
    """Buttons that change what is seen of the wall, never the wall."""

    stage_chosen = Signal(str)
    fit_wanted = Signal()
    larger_wanted = Signal()
    smaller_wanted = Signal()

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._group = QButtonGroup(self)
        self._stages: dict[str, QToolButton] = {}
        row = QHBoxLayout(self)
        row.setContentsMargins(8, 4, 8, 4)
        row.setSpacing(4)
        row.addWidget(QLabel(self.tr("Show the wall")))
        for stage in get_args(Stage):
            button = self._button(QCoreApplication.translate("ViewBar", _WORDS[stage]), f"stage-{stage}")
            button.setCheckable(True)
            self._group.addButton(button)
            self._stages[stage] = button
            row.addWidget(button)
        row.addStretch()
        smaller = self._button("−", "smaller", self.tr("Smaller"))
        larger = self._button("+", "larger", self.tr("Larger"))
        fit = self._button(self.tr("Whole wall"), "fit")
        smaller.clicked.connect(self.smaller_wanted)
        larger.clicked.connect(self.larger_wanted)
        fit.clicked.connect(self.fit_wanted)
        for button in (smaller, larger, fit):
            row.addWidget(button)
        one_stop(self._group)
        self._group.buttonClicked.connect(self._on_stage)

    def show_stage(self, stage: str) -> None:
        """Show which stage is shown."""
        self._stages[stage].setChecked(True)

    def _button(self, text: str, name: str, said: str = "") -> QToolButton:
        button = QToolButton(self)
        button.setText(text)
        button.setObjectName(name)
        button.setAccessibleName(said or text)
        button.setToolTip(said)
        button.setMinimumWidth(44)
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        return button

    def _on_stage(self, button: QToolButton) -> None:
        self.stage_chosen.emit(button.objectName().removeprefix("stage-"))
