"""What an empty start shows: a new job in one press, the files opened before, and the samples.

Everything has a usual value, so that pressing the large button alone gives a sensible job.
"""

from collections.abc import Callable
from contextlib import suppress
from functools import partial
from pathlib import Path

from PySide6.QtCore import QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFont, QIcon, QPainter, QPen, QPixmap, QPolygonF, QShowEvent
from PySide6.QtWidgets import (
    QButtonGroup,
    QFrame,
    QGridLayout,
    QHBoxLayout,
    QLabel,
    QLineEdit,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QToolButton,
    QVBoxLayout,
    QWidget,
)

from app.look import LIGHT, TARGET, Look
from app.samples import sample_files, sample_name
from app.settings import Settings
from app.tab_order import one_stop
from geometry.units import Display, length, shown

SIZES = ((700.0, 700.0), (760.0, 760.0), (800.0, 800.0), (900.0, 760.0), (1200.0, 800.0), (1700.0, 700.0))
"""Trays that are sold everywhere, width along the wall x projection, mm; common practice, no source."""
USUAL = SIZES[1]
HEIGHT = 2400.0
"""A usual ceiling, mm; common practice, no source."""
ENTRIES = ("left", "front", "right")
_PICTURE = 104


class StartPage(QScrollArea):
    """The page of an empty start."""

    start_requested = Signal(float, float, str, float, float)
    """Tray width and projection, side of entry, wall width and height; mm."""
    file_chosen = Signal(Path)
    sample_chosen = Signal(Path)
    open_requested = Signal()

    def __init__(self, settings: Settings, look: Look = LIGHT, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("start")
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)  # what stands on it has the keyboard
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self._unit: Display = settings.unit
        self._wall_follows = True
        self._entries: dict[str, QToolButton] = {}
        self._sizes = QButtonGroup(self)
        self._units: list[QLabel] = []
        page = QWidget()
        columns = QHBoxLayout(page)
        columns.setContentsMargins(40, 28, 40, 28)
        columns.setSpacing(56)
        columns.addStretch(1)
        columns.addLayout(self._new_job(), 0)
        columns.addLayout(self._files(), 0)
        columns.addStretch(1)
        self.setWidget(page)
        self._show_size(*USUAL)
        self._entries["left"].setChecked(True)
        self.show_settings(settings)
        self.wear(look)

    def showEvent(self, event: QShowEvent) -> None:
        """Have Enter alone start the usual job."""
        super().showEvent(event)
        self.start_button.setFocus()

    def show_settings(self, settings: Settings) -> None:
        """Show lengths in the unit that is set, and the files opened last."""
        if settings.unit != self._unit:
            for edit in self._edits():
                with suppress(ValueError):  # what cannot be read stays as it was typed
                    edit.setText(shown(length(edit.text(), self._unit), settings.unit))
            self._unit = settings.unit
        for unit in self._units:
            unit.setText("" if self._unit == "in" else self._unit)  # inches carry their own mark
        for button, size in zip(self._sizes.buttons(), SIZES, strict=True):
            button.setText(" × ".join(shown(value, self._unit) for value in size))
        self._fill(
            self._recent, [Path(name) for name in settings.recent], lambda file: file.stem, self._on_file
        )
        self._no_recent.setVisible(not settings.recent)

    def wear(self, look: Look) -> None:
        """Draw the pictures in the colours of a look."""
        for entry, button in self._entries.items():
            icon = QIcon()
            icon.addPixmap(_plan(entry, look.words, look.chosen), QIcon.Mode.Normal, QIcon.State.Off)
            icon.addPixmap(_plan(entry, look.on_chosen, look.on_chosen), QIcon.Mode.Normal, QIcon.State.On)
            button.setIcon(icon)

    def complain(self, sentence: str) -> None:
        """Say what is wrong with what was typed."""
        self._problem.setText(sentence)

    def _new_job(self) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setSpacing(8)
        column.addWidget(_heading(self.tr("New shower")))
        column.addWidget(QLabel(self.tr("Where do people step in?")))
        column.addLayout(self._entry_buttons())
        column.addSpacing(6)
        column.addWidget(QLabel(self.tr("Tray: along the wall × into the room")))
        column.addLayout(self._size_buttons())
        column.addLayout(self._typed())
        self._problem = QLabel()
        self._problem.setObjectName("problem")
        self._problem.setWordWrap(True)
        self._problem.setMinimumHeight(22)
        column.addWidget(self._problem)
        self.start_button = QPushButton(self.tr("Set it out"))
        self.start_button.setObjectName("start-job")
        self.start_button.setDefault(True)
        self.start_button.clicked.connect(self._on_start)
        column.addWidget(self.start_button)
        column.addStretch()
        return column

    def _entry_buttons(self) -> QHBoxLayout:
        words = {
            "left": self.tr("From the left"),
            "front": self.tr("From the front"),
            "right": self.tr("From the right"),
        }
        row = QHBoxLayout()
        group = QButtonGroup(self)
        for entry in ENTRIES:
            button = QToolButton()
            button.setObjectName(f"entry-{entry}")
            button.setText(words[entry])
            button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextUnderIcon)
            button.setIconSize(QSize(_PICTURE, _PICTURE))
            button.setCheckable(True)
            button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
            button.setFixedSize(152, 144)
            group.addButton(button)
            row.addWidget(button)
            self._entries[entry] = button
        one_stop(group)
        row.addStretch()
        return row

    def _size_buttons(self) -> QGridLayout:
        grid = QGridLayout()
        for number, size in enumerate(SIZES):
            button = QToolButton()
            button.setObjectName(f"size-{size[0]:.0f}x{size[1]:.0f}")
            button.setCheckable(True)
            button.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
            button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
            button.clicked.connect(partial(self._show_size, *size))
            self._sizes.addButton(button)
            grid.addWidget(button, number // 3, number % 3)
        one_stop(self._sizes)
        return grid

    def _typed(self) -> QGridLayout:
        self.tray_width = self._edit("tray-width", self.tr("Width of the tray along the wall"))
        self.projection = self._edit("projection", self.tr("How far the tray comes into the room"))
        self.wall_width = self._edit("wall-width", self.tr("Width of the wall"))
        self.wall_height = self._edit("wall-height", self.tr("Height of the wall, floor to ceiling"))
        self.tray_width.textEdited.connect(self._on_tray_typed)
        self.projection.textEdited.connect(self._on_tray_typed)
        self.wall_width.textEdited.connect(self._on_wall_typed)
        grid = QGridLayout()
        for row, (label, first, second) in enumerate(
            (
                (self.tr("Tray"), self.tray_width, self.projection),
                (self.tr("Wall: width × height"), self.wall_width, self.wall_height),
            )
        ):
            unit = QLabel()
            self._units.append(unit)
            for column, widget in enumerate((QLabel(label), first, QLabel("×"), second, unit)):
                grid.addWidget(widget, row, column)
        grid.setColumnStretch(5, 1)
        return grid

    def _edit(self, name: str, said: str) -> QLineEdit:
        edit = QLineEdit()
        edit.setObjectName(name)
        edit.setAccessibleName(said)
        edit.setToolTip(said)
        edit.setMaxLength(40)
        edit.setFixedWidth(110)
        edit.returnPressed.connect(self._on_start)
        return edit

    def _edits(self) -> tuple[QLineEdit, ...]:
        return self.tray_width, self.projection, self.wall_width, self.wall_height

    def _files(self) -> QVBoxLayout:
        column = QVBoxLayout()
        column.setSpacing(4)
        column.addWidget(_heading(self.tr("Go on with")))
        self._recent = QVBoxLayout()
        self._recent.setSpacing(2)
        column.addLayout(self._recent)
        self._no_recent = QLabel(self.tr("Jobs that you save are listed here."))
        column.addWidget(self._no_recent)
        other = _row(self.tr("Open another job…"), "open-other")
        other.clicked.connect(self.open_requested)
        column.addWidget(other)
        column.addSpacing(20)
        column.addWidget(_heading(self.tr("Look at a sample")))
        samples = QVBoxLayout()
        samples.setSpacing(2)
        column.addLayout(samples)
        self._fill(samples, list(sample_files()), sample_name, self._on_sample)
        column.addStretch()
        return column

    def _fill(
        self, rows: QVBoxLayout, files: list[Path], named: Callable[[Path], str], do: Callable[[Path], None]
    ) -> None:
        while (item := rows.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.deleteLater()
        for file in files:
            button = _row(named(file), f"file-{file.stem}")
            button.setToolTip(str(file))
            button.clicked.connect(partial(do, file))
            rows.addWidget(button)

    def _show_size(self, width: float, projection: float, _checked: bool = False) -> None:
        self.tray_width.setText(shown(width, self._unit))
        self.projection.setText(shown(projection, self._unit))
        self.wall_height.setText(self.wall_height.text() or shown(HEIGHT, self._unit))
        self._on_tray_typed()

    def _on_tray_typed(self, _text: str = "") -> None:
        if self._wall_follows:
            self.wall_width.setText(self.tray_width.text())
        self.complain("")
        try:
            typed = tuple(length(edit.text(), self._unit) for edit in (self.tray_width, self.projection))
        except ValueError:
            typed = ()
        self._sizes.setExclusive(False)
        for button, size in zip(self._sizes.buttons(), SIZES, strict=True):
            button.setChecked(size == typed)
        self._sizes.setExclusive(True)

    def _on_wall_typed(self, _text: str) -> None:
        self._wall_follows = False
        self.complain("")

    def _on_start(self) -> None:
        values = []
        for edit in self._edits():
            try:
                values.append(length(edit.text(), self._unit))
            except ValueError as problem:
                self.complain(f"{edit.accessibleName()}: {problem}")
                edit.setFocus()
                edit.selectAll()
                return
        entry = next(name for name, button in self._entries.items() if button.isChecked())
        self.start_requested.emit(values[0], values[1], entry, values[2], values[3])

    def _on_file(self, file: Path, _checked: bool = False) -> None:
        self.file_chosen.emit(file)

    def _on_sample(self, file: Path, _checked: bool = False) -> None:
        self.sample_chosen.emit(file)


def _heading(text: str) -> QLabel:
    label = QLabel(text)
    font = QFont(label.font())
    font.setPointSizeF(font.pointSizeF() * 1.5)
    font.setBold(True)
    label.setFont(font)
    return label


def _row(text: str, name: str) -> QPushButton:
    button = QPushButton(text)
    button.setObjectName(name)
    button.setMinimumHeight(TARGET)
    button.setMinimumWidth(300)
    button.setStyleSheet("text-align: left;")
    return button


def _plan(entry: str, colour: str, arrow: str) -> QPixmap:
    """Draw the tray from above, the wall behind it, and an arrow over the edge that people step in over."""
    picture = QPixmap(_PICTURE * 2, _PICTURE * 2)
    picture.setDevicePixelRatio(2)
    picture.fill(Qt.GlobalColor.transparent)
    painter = QPainter(picture)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(colour), 5, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
    painter.drawLine(QPointF(6, 12), QPointF(98, 12))
    painter.setPen(QPen(QColor(colour), 2))
    painter.drawRect(QRectF(24, 16, 56, 56))
    painter.drawEllipse(QPointF(52, 44), 4, 4)
    tip, tail, side = {
        "left": (QPointF(42, 58), QPointF(2, 58), QPointF(0, 8)),
        "right": (QPointF(62, 58), QPointF(102, 58), QPointF(0, 8)),
        "front": (QPointF(52, 60), QPointF(52, 100), QPointF(8, 0)),
    }[entry]
    back = tip + (tail - tip) * 0.3
    painter.setPen(QPen(QColor(arrow), 4, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap))
    painter.drawLine(tail, back)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(arrow))
    painter.drawPolygon(QPolygonF([tip, back + side, back - side]))
    painter.end()
    return picture
