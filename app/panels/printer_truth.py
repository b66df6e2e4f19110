"""Whether the printer prints true: what the bars on a page measured, and the stretch that makes it good."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QGridLayout, QPushButton, QVBoxLayout, QWidget

from app.fields import LengthField
from app.look import TARGET
from app.panels.sentence import Sentence
from geometry.units import Display, number

BAR = 100.0
"""Length of the check bars on each full-size page, in mm, once the printer is made good."""
LEAST, MOST = 0.9, 1.1
"""What can be made good by stretching; farther out a setting of the printer is wrong."""
DOUBTFUL = 0.03
"""A stretch farther from 1 than this is a wrong setting rather than a printer's fault."""


class PrinterTruth(QWidget):
    """Takes what the bars measured, and says how much pages are stretched."""

    stretched = Signal(float, float)
    """Pages are to be drawn so many times as long, across and upright."""

    def __init__(self, display: Display, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._stretch = (1.0, 1.0)
        self.across = LengthField(self.tr("Bar across measured"), display, empty=self.tr("100 mm"))
        self.upright = LengthField(self.tr("Bar upright measured"), display, empty=self.tr("100 mm"))
        self.across.entered.connect(self._on_across)
        self.upright.entered.connect(self._on_upright)
        self.words = Sentence("words")
        self.doubt = Sentence("tight")
        self.forget = QPushButton(self.tr("Draw at true size again"))
        self.forget.setMinimumHeight(TARGET)
        self.forget.clicked.connect(self._on_forget)
        ask = self.tr("What did the 100 mm bars measure on the last full-size page that you printed?")
        grid = QGridLayout()
        grid.setHorizontalSpacing(12)
        grid.addWidget(self.across, 0, 0)
        grid.addWidget(self.upright, 0, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(Sentence("quiet", ask))
        layout.addLayout(grid)
        for widget in (self.words, self.doubt, self.forget):
            layout.addWidget(widget)

    def show_stretch(self, across: float, upright: float) -> None:
        """Show by how much pages are stretched."""
        self._stretch = across, upright
        is_true = across == upright == 1.0
        words = self.tr("Pages are drawn %1 times as long across and %2 times upright.")
        words = words.replace("%1", number(across, 4)).replace("%2", number(upright, 4))
        self.words.say(self.tr("Pages are drawn at true size.") if is_true else words)
        doubtful = max(abs(across - 1), abs(upright - 1)) > DOUBTFUL
        doubt = self.tr(
            "That is more than a printer is out by itself: its dialogue was probably not set to actual size."
        )
        self.doubt.say(doubt if doubtful else "")
        self.forget.setVisible(not is_true)

    def _on_across(self, measured: float | None) -> None:
        self._take(self.across, measured, 0)

    def _on_upright(self, measured: float | None) -> None:
        self._take(self.upright, measured, 1)

    def _take(self, field: LengthField, measured: float | None, axis: int) -> None:
        """Stretch by what the bar, printed with the stretch in force, was short of 100 mm."""
        if measured is None:
            return
        stretch = list(self._stretch)
        if measured > 0:
            stretch[axis] = round(stretch[axis] * BAR / measured, 5)
        if measured <= 0 or not LEAST <= stretch[axis] <= MOST:
            words = self.tr("Too far out to be made good: set the printer to actual size (100 %) first.")
            field.refuse(words)
            return
        self.stretched.emit(*stretch)
        field.show_value(None, afresh=True)

    def _on_forget(self) -> None:
        self.stretched.emit(1.0, 1.0)
