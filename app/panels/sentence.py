"""Words in the panels, in the colours of the look that the program wears just now."""

from typing import Literal

from PySide6.QtCore import QCoreApplication, QEvent, Qt
from PySide6.QtGui import QColor, QFont, QPalette
from PySide6.QtWidgets import QApplication, QLabel, QSizePolicy, QWidget

from app.look import DARK, LIGHT, Look

Tone = Literal["words", "quiet", "clash", "tight", "refer", "clear", "chosen"]


def look_now() -> Look:
    """Return the look that the program's palette comes from, told by whether its page is dark."""
    return DARK if QApplication.palette().color(QPalette.ColorRole.Window).lightness() < 128 else LIGHT


def colour_of(tone: Tone) -> QColor:
    """Return the colour of a tone in the look worn now."""
    return QColor(getattr(look_now(), tone))


class Sentence(QLabel):
    """Words that wrap, in a tone; gone while there is nothing to say."""

    def __init__(self, tone: Tone = "words", text: str = "", parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._tone = tone
        self._gone = False
        self.setTextFormat(Qt.TextFormat.PlainText)  # what a user typed is never read as markup
        self.setWordWrap(True)
        self.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.say(text)
        self._recolour()

    def say(self, text: str, tone: Tone | None = None) -> None:
        """Show other words, and in another tone if one is given."""
        if tone is not None and tone != self._tone:
            self._tone = tone
            self._recolour()
        if text != self.text():
            self.setText(text)
        if self._gone != (not text):  # never shown by itself before it stands in a window
            self._gone = not text
            self.setHidden(self._gone)

    def changeEvent(self, event: QEvent) -> None:
        """Follow the program from light to dark."""
        super().changeEvent(event)
        if event.type() in (QEvent.Type.ApplicationPaletteChange, QEvent.Type.PaletteChange):
            self._recolour()

    def _recolour(self) -> None:
        colour = colour_of(self._tone)
        palette = self.palette()
        if palette.color(QPalette.ColorRole.WindowText) != colour:
            palette.setColor(QPalette.ColorRole.WindowText, colour)
            self.setPalette(palette)


class Heading(Sentence):
    """A line over what belongs together."""

    def __init__(self, text: str, parent: QWidget | None = None) -> None:
        super().__init__("words", text, parent)
        self.setFont(bold(self.font()))


def bold(font: QFont) -> QFont:
    """Return a font in bold."""
    heavy = QFont(font)
    heavy.setBold(True)
    return heavy


def plainly(problem: object) -> str:
    """Return a complaint of the model as a sentence for people: without the path before it.

    `.width: must be above 0 mm, got -5` becomes `Must be above 0 mm, got -5.`
    """
    text = str(problem).strip()
    head, colon, rest = text.partition(": ")
    if colon and (head.startswith((".", "$", "[")) and " " not in head):
        text = rest
    if head.endswith(".id") and text.startswith("stands twice: "):
        name = text.removeprefix("stands twice: ").partition(", as in")[0]
        return QCoreApplication.translate("Sentence", "The name %1 is taken already.").replace("%1", name)
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "?", "!")) else f"{text}."
