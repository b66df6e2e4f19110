"""Shows the pages of a sheet, one at a time, as wide as there is room."""

from collections.abc import Sequence

from PySide6.QtCore import QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSizePolicy, QVBoxLayout, QWidget

from app.look import TARGET
from app.panels.pages import picture
from app.panels.sentence import Sentence, look_now
from export.recorded import RecordedPage


class PageView(QWidget):
    """One page, and buttons that turn it."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.pages: Sequence[RecordedPage] = ()
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
        self.show_pages(())

    def show_pages(self, pages: Sequence[RecordedPage]) -> None:
        """Show other pages; the number of the page stays if there are so many."""
        self.pages = pages
        self.show_page(min(self.number, max(len(pages) - 1, 0)))

    def show_page(self, number: int) -> None:
        """Show one page."""
        self.number = number
        many = len(self.pages)
        self.paper.show_page(self.pages[number] if many else None)
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
        self._page: RecordedPage | None = None
        self._image: QImage | None = None
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)

    def show_page(self, page: RecordedPage | None) -> None:
        """Show a page, or nothing."""
        self._page = page
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
        if self._page is not None and self.width() > 10:
            self.setFixedHeight(round(self.width() * self._page.height / self._page.width))
            self._image = picture(self._page, self.width() * self.devicePixelRatioF() / self._page.width)
        self.update()
