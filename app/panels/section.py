"""A part of a panel under a heading by which it can be folded away, and the column that they stand in."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QScrollArea, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from app.look import TARGET
from app.panels.sentence import bold

_QUIET = "QToolButton:!focus { border-color: transparent; background: transparent; }"
"""A heading is no button among buttons: it has no border unless the keyboard is on it."""


class Section(QWidget):
    """A heading and what stands under it; a press on the heading folds it away."""

    def __init__(self, title: str, *, opened: bool = True) -> None:
        super().__init__()
        self.title = title
        self.heading = QToolButton()
        self.heading.setAutoRaise(True)
        self.heading.setCheckable(False)
        self.heading.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        self.heading.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.heading.setMinimumHeight(TARGET)
        self.heading.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.heading.setFont(bold(self.heading.font()))
        self.heading.setStyleSheet(_QUIET)
        self.heading.clicked.connect(self._on_clicked)
        self.body = QWidget()
        self._inside = QVBoxLayout(self.body)
        self._inside.setContentsMargins(4, 4, 4, 12)
        self._inside.setSpacing(10)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(0)
        layout.addWidget(self.heading)
        layout.addWidget(self.body)
        self.open(opened)
        self.count(None)

    @property
    def is_open(self) -> bool:
        """Whether what stands under the heading is seen."""
        return not self.body.isHidden()

    def add(self, *widgets: QWidget) -> None:
        """Add things under the heading."""
        for widget in widgets:
            self._inside.addWidget(widget)

    def open(self, opened: bool) -> None:
        """Show or fold away what stands under the heading."""
        self.body.setVisible(opened)
        self.heading.setArrowType(Qt.ArrowType.DownArrow if opened else Qt.ArrowType.RightArrow)
        self.heading.setAccessibleDescription(self.tr("opened") if opened else self.tr("folded"))

    def count(self, many: int | None) -> None:
        """Write into the heading how many things stand under it."""
        text = self.title if many is None else f"{self.title} ({many})"
        if self.heading.text() != text:
            self.heading.setText(text)
            self.heading.setAccessibleName(text)

    def _on_clicked(self) -> None:
        self.open(not self.is_open)


class Column(QScrollArea):
    """Sections one below the other; it scrolls up and down, never sideways."""

    def __init__(self) -> None:
        super().__init__()
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        inside = QWidget()
        self._inside = QVBoxLayout(inside)
        self._inside.setContentsMargins(8, 8, 8, 8)
        self._inside.setSpacing(4)
        self._inside.addStretch()
        self.setWidget(inside)

    def add(self, widget: QWidget) -> None:
        """Add something below the rest."""
        self._inside.insertWidget(self._inside.count() - 1, widget)
