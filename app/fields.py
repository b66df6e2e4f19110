"""Fields of one line: lengths, numbers, words. Lengths are mm, read by `geometry/units.py` only.

A field shows one value and says by a signal what was entered; it never changes anything itself. Whoever
listens shows the value that holds from then on, or has the field say in one sentence why not. What is
being typed is never overwritten.
"""

import re
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QKeyEvent,
    QResizeEvent,
)
from PySide6.QtWidgets import QCheckBox, QLabel, QLineEdit, QVBoxLayout, QWidget

from app.look import TARGET
from app.panels.sentence import Sentence, plainly
from app.quantities import STEPS, amount
from geometry.units import Display, length, number, shown

STEP, FAR_STEP = 1.0, 10.0
"""How far an arrow key steps a value, and how far with Shift held; of a length in mm."""
_INSET = 8  # pixels, from the right edge of a line to its unit
_PLAIN = re.compile(r"\s*[-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)\s*")


class Field(QWidget):
    """A label, what is typed into or pressed, and under it a sentence when an entry was refused."""

    entered = Signal(object)
    """A value was entered that is not the one shown."""
    stepped = Signal(object)
    """A value was reached by one of several small steps; those of one `visit` belong together."""

    def __init__(self, label: str, editor: QWidget, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.label, self.editor = label, editor
        self.visit = 0
        """How often the keyboard has come to this field."""
        self._value: Any = None
        editor.setMinimumHeight(TARGET)
        editor.setAccessibleName(label)
        self.setFocusProxy(editor)
        self._note = Sentence("clash")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        if not isinstance(editor, QCheckBox):  # which carries its label itself
            self._words = QLabel(label)
            self._words.setTextFormat(Qt.TextFormat.PlainText)
            self._words.setBuddy(editor)
            self._words.setWordWrap(True)
            layout.addWidget(self._words)
        layout.addWidget(editor)
        layout.addWidget(self._note)
        layout.addStretch()

    def rename(self, label: str) -> None:
        """Show another label, of a field that is no tick."""
        if label != self.label:
            self.label = label
            self._words.setText(label)
            self.editor.setAccessibleName(label)

    @property
    def value(self) -> Any:
        """The value that is shown, whatever is being typed."""
        return self._value

    @property
    def problem(self) -> str:
        """The sentence under the field; empty if nothing was refused."""
        return self._note.text()

    def show_value(self, value: Any, *, afresh: bool = False) -> None:
        """Show a value; what is being typed stays, unless it is shown `afresh`, as for another thing."""
        self._value = value
        if afresh or not self._is_typing():
            self._show()
            self.refuse("")

    def refuse(self, sentence: str) -> None:
        """Say why an entry was refused; with no sentence, say nothing."""
        if sentence != self._note.text():
            self._note.say(sentence)
            self.editor.setAccessibleDescription(sentence)

    def set_display(self, display: Display) -> None:
        """Show and read lengths in another unit; nothing where there are none."""

    def name_for(self, thing: str) -> None:
        """Tell those who hear the window which thing the field belongs to."""
        self.editor.setAccessibleName(f"{self.label}, {thing}")

    def _is_typing(self) -> bool:
        return False

    def _show(self) -> None:
        raise NotImplementedError


class _Line(QLineEdit):
    """A line with its unit, or what was understood, at its right."""

    step_wanted = Signal(float)
    given_up = Signal()
    visited = Signal()

    def __init__(self) -> None:
        super().__init__()
        self.steps = False
        self._aside = QLabel(self)
        self._aside.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)

    def say_aside(self, text: str) -> None:
        """Write a unit, or what was understood, at the right of the line."""
        if text != self._aside.text():
            self._aside.setText(text)
            self._place_aside()

    @property
    def aside(self) -> str:
        """What stands at the right of the line."""
        return self._aside.text()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        """Step by the arrow keys, give up by Escape."""
        key = event.key()
        if self.steps and key in (Qt.Key.Key_Up, Qt.Key.Key_Down):
            far = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
            step = FAR_STEP if far else STEP
            self.step_wanted.emit(step if key == Qt.Key.Key_Up else -step)
        elif key == Qt.Key.Key_Escape and self.isModified():
            self.given_up.emit()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        """Count the visit."""
        super().focusInEvent(event)
        self.visited.emit()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep the unit at the right."""
        super().resizeEvent(event)
        self._place_aside()

    def _place_aside(self) -> None:
        self._aside.adjustSize()
        wide = self._aside.width() if self._aside.text() else 0
        self._aside.move(self.width() - wide - _INSET, (self.height() - self._aside.height()) // 2)
        self.setTextMargins(0, 0, wide, 0)


class _LineField(Field):
    """A field of one line: it is entered by Enter or by leaving it, and given up by Escape."""

    def __init__(self, label: str, parent: QWidget | None = None) -> None:
        self._line = _Line()
        super().__init__(label, self._line, parent)
        self._line.editingFinished.connect(self._on_finished)
        self._line.textEdited.connect(self._on_edited)
        self._line.given_up.connect(self._on_given_up)
        self._line.visited.connect(self._on_visited)
        self._line.step_wanted.connect(self._on_step)

    @property
    def line(self) -> QLineEdit:
        """The line that is typed into."""
        return self._line

    @property
    def aside(self) -> str:
        """The unit, or what was understood, at the right of the line."""
        return self._line.aside

    def _read(self, text: str) -> Any:
        raise NotImplementedError

    def _written(self, value: Any) -> str:
        raise NotImplementedError

    def _is_typing(self) -> bool:
        return self._line.isModified()

    def _show(self) -> None:
        text = self._written(self._value)
        if self._line.text() != text:
            self._line.setText(text)
            self._line.setCursorPosition(0)  # the beginning is what matters of what is too long
        self._line.setModified(False)
        self._line.say_aside(self._aside_of(text))

    def _aside_of(self, text: str) -> str:
        return ""

    def _enter(self, value: Any, *, step: bool = False) -> None:
        """Hand a value on; afterwards the line shows what holds, or keeps what was refused."""
        self.refuse("")
        self._line.setModified(False)
        if value != self._value:
            (self.stepped if step else self.entered).emit(value)
        if self.problem:
            self._line.setModified(True)
        else:
            self._show()

    def _on_finished(self) -> None:
        if not self._line.isModified():
            return
        try:
            value = self._read(self._line.text())
        except ValueError as problem:
            self.refuse(plainly(problem))
        else:
            self._enter(value)

    def _on_edited(self, text: str) -> None:
        self.refuse("")
        self._line.say_aside(self._aside_of(text))

    def _on_given_up(self) -> None:
        self.show_value(self._value, afresh=True)
        self._line.selectAll()

    def _on_visited(self) -> None:
        self.visit += 1

    def _on_step(self, step: float) -> None:
        """Step from what is typed, or from the value if that makes no sense."""
        value = self._value
        if self._line.isModified():
            try:
                value = self._read(self._line.text())
            except ValueError:
                return
        if value is not None:
            self._enter(round(value + step, 6), step=True)


class LengthField(_LineField):
    """A length in mm, shown and read in the unit that the user chose; Up and Down step it."""

    def __init__(
        self, label: str, display: Display = "mm", *, empty: str | None = None, parent: QWidget | None = None
    ) -> None:
        super().__init__(label, parent)
        self._display = display
        self._empty = empty
        self._line.steps = True
        self.set_empty(empty)
        self._line.say_aside(self._aside_of(""))

    def set_display(self, display: Display) -> None:
        """Show and read in another unit from now on."""
        if display != self._display:
            self._display = display
            if not self._is_typing():
                self._show()

    def set_empty(self, words: str | None) -> None:
        """Say in the empty line what holds then; None if it must not be empty."""
        self._empty = words
        self._line.setPlaceholderText(words or "")

    def _read(self, text: str) -> float | None:
        if not text.strip():
            if self._empty is None:
                raise ValueError(self.tr("type a length, such as 380, 38 cm or 760/2"))
            return None
        if text == self._written(self._value):
            return float(self._value)  # inches show the nearest sixteenth: what was not changed stays exact
        return length(text, self._display)

    def _written(self, value: float | None) -> str:
        return "" if value is None else shown(value, self._display)

    def _aside_of(self, text: str) -> str:
        unit = "" if self._display == "in" else self._display
        if not text.strip() or not self._line.isModified():
            return "" if self._empty and not text.strip() else unit
        try:
            value = length(text, self._display)
        except ValueError:
            return "?"
        if _PLAIN.fullmatch(text):
            return unit
        words = shown(value, self._display)
        return f"= {words} {unit}".rstrip()


class NumberField(_LineField):
    """A number with its unit, such as bar or degrees; it takes what is typed in others, and Up and Down."""

    def __init__(
        self, label: str, unit: str = "", *, empty: str | None = None, parent: QWidget | None = None
    ) -> None:
        super().__init__(label, parent)
        self._unit, self._empty = unit, empty
        self._line.steps = True
        self._line.setPlaceholderText(empty or "")

    def _read(self, text: str) -> float | None:
        if not text.strip() and self._empty is not None:
            return None
        return amount(text, self._unit)

    def _written(self, value: float | None) -> str:
        return "" if value is None else number(value, 4)

    def _aside_of(self, text: str) -> str:
        if not text.strip():
            return "" if self._empty else self._unit
        if _PLAIN.fullmatch(text) or not self._line.isModified():
            return self._unit
        try:
            return f"= {self._written(amount(text, self._unit))} {self._unit}".rstrip()
        except ValueError:
            return "?"

    def _on_step(self, step: float) -> None:
        super()._on_step(step * STEPS.get(self._unit, 1.0))


class TextField(_LineField):
    """Words on one line."""

    def __init__(self, label: str, *, most: int = 300, parent: QWidget | None = None) -> None:
        super().__init__(label, parent)
        self._line.setMaxLength(most)

    def _read(self, text: str) -> str:
        return text.strip()

    def _written(self, value: str | None) -> str:
        return value or ""
