"""Sentences one below the other, as many as there is to say, each in its tone."""

from collections.abc import Sequence

from PySide6.QtWidgets import QVBoxLayout, QWidget

from app.panels.sentence import Sentence, Tone


class Lines(QWidget):
    """Shows sentences; gone while there is nothing to say."""

    def __init__(self, *, spacing: int = 6) -> None:
        super().__init__()
        self._sentences: list[Sentence] = []
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(spacing)

    @property
    def texts(self) -> tuple[str, ...]:
        """What is said."""
        return tuple(sentence.text() for sentence in self._sentences if sentence.text())

    def say(self, lines: Sequence[tuple[str, Tone]]) -> None:
        """Say these sentences from now on."""
        while len(self._sentences) < len(lines):
            self._sentences.append(Sentence())
            self._layout.addWidget(self._sentences[-1])
        for number, sentence in enumerate(self._sentences):
            if number < len(lines):
                sentence.say(*lines[number])
            else:
                sentence.say("")
        self.setVisible(bool(lines))
