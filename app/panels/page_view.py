"""Shows the pages of a sheet, one at a time, as wide as there is room."""

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from app.look import TARGET
from app.panels.pages import Pages
from app.panels.sentence import Sentence, look_now


class PageView(QWidget):
    """One page, and buttons that turn it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.pages: Pages | None = None
        self.number = 0
        """Of the page that is shown, from 0."""
        self.paper = _Paper()
        self.said = Sentence("quiet")
        self.back = self._button("‹", self.tr("Page before"))
        self.on = self._button("›", self.tr("Next page"))
        self.label = QLabel()
        self.label.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.back.clicked.connect(self._on_back)
        self.on.clicked.connect(self._on_next)
        row = QHBoxLayout()
        row.addWidget(self.back)
        row.addWidget(self.label, 1)
        row.addWidget(self.on)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(self.said)
        layout.addWidget(self.paper)
        layout.addLayout(row)
        self.show_pages(None)

    def show_pages(self, pages: Pages | None) -> None:
        """Show other pages; the number of the page stays if there are so many."""
        self.pages = pages
        many = len(pages) if pages else 0
        self.show_page(min(self.number, max(many - 1, 0)))

    def show_page(self, number: int) -> None:
        """Show one page."""
        self.number = number
        many = len(self.pages) if self.pages else 0
        self.paper.show_page(self.pages, number)
        self.paper.setVisible(many > 0)
        text = self.tr("Page %1 of %2").replace("%1", str(number + 1)).replace("%2", str(many))
        self.label.setText(text if many else "")
        self.paper.setAccessibleName(self.label.text())
        self.back.setEnabled(number > 0)
        self.on.setEnabled(number + 1 < many)
        for button in (self.back, self.on):
            button.setVisible(many > 1)

    def _on_back(self) -> None:
        self.show_page(self.number - 1)

    def _on_next(self) -> None:
        self.show_page(self.number + 1)

    def _button(self, word: str, name: str) -> QPushButton:
        button = QPushButton(word)
        button.setAccessibleName(name)
        button.setToolTip(name)
        button.setMinimumSize(TARGET + 8, TARGET)
        return button


class _Paper(QWidget):
    """The page itself, drawn anew for each width so that it is sharp."""

    def __init__(self) -> None:
        super().__init__()
        self._pages: Pages | None = None
        self._number = 0
        self._image: QImage | None = None
        policy = QSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setSizePolicy(policy)

    def show_page(self, pages: Pages | None, number: int) -> None:
        """Show a page, or nothing."""
        self._pages, self._number = pages, number
        self._draw()

    def sizeHint(self) -> QSize:
        """Ask for a page's height at the width there is."""
        return QSize(240, self.height())

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Draw the page for the new width."""
        super().resizeEvent(event)
        if event.oldSize().width() != event.size().width():
            self._draw()

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the page with a thin edge."""
        painter = QPainter(self)
        edge = QRect(0, 0, self.width() - 1, self.height() - 1)
        if self._image is not None:
            painter.drawImage(QRectF(edge), self._image)
        painter.setPen(QColor(look_now().edge))
        painter.drawRect(edge)
        painter.end()

    def _draw(self) -> None:
        self._image = None
        if self._pages is not None and len(self._pages) and self.width() > 10:
            width, height = self._pages.size(self._number)
            self.setFixedHeight(round(self.width() * height / width))
            dpi = self.width() * self.devicePixelRatioF() / (width / 25.4)
            self._image = self._pages.picture(self._number, dpi)
        self.update()
