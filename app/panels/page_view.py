"""Shows the pages of a sheet, one at a time, as wide as there is room."""

from collections.abc import Sequence

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QColor, QImage, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import (
    QDialog,
    QFrame,
    QHBoxLayout,
    QLabel,
    QPushButton,
    QScrollArea,
    QSizePolicy,
    QVBoxLayout,
    QWidget,
)

from app.look import TARGET
from app.panels.pages import picture
from app.panels.sentence import Sentence, look_now
from export.recorded import RecordedPage


class PageView(QWidget):
    """One page, and buttons that turn it.

    Args:
        scrolled: whether the page scrolls above the buttons; otherwise it has all the height that it needs.
        parent: the widget that it stands in.
    """

    def __init__(self, *, scrolled: bool = False, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._scrolled = scrolled
        self.pages: Sequence[RecordedPage] = ()
        self.number = 0
        """Of the page that is shown, from 0."""
        self.paper = _Paper()
        self.said = Sentence("quiet")
        self.back = self._button("‹", self.tr("Page before"))
        self.on = self._button("›", self.tr("Next page"))
        self.label = QLabel()
        self.label.setAlignment(Qt.AlignmentFlag.AlignCenter)
        self.large = self._button(self.tr("Large"), self.tr("Show the page large, in a window of its own"))
        self.large.clicked.connect(self.show_large)
        self.back.clicked.connect(self._on_back)
        self.on.clicked.connect(self._on_next)
        row = QHBoxLayout()
        row.addWidget(self.back)
        row.addWidget(self.label, 1)
        row.addWidget(self.large)
        row.addWidget(self.on)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(self.said)
        layout.addWidget(_scrolling(self.paper) if scrolled else self.paper)
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
        self.large.setVisible(many > 0 and not self._scrolled)
        for button in (self.back, self.on):
            button.setVisible(many > 1)

    def show_large(self) -> None:
        """Show the page in a window of its own, as wide as the screen lets it be."""
        window = LargePages(self.pages, self.number, self.window())
        window.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        window.open()

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


class LargePages(QDialog):
    """Pages in a window of their own, which is as large as the one behind it."""

    def __init__(self, pages: Sequence[RecordedPage], number: int, behind: QWidget) -> None:
        super().__init__(behind)
        self.setWindowTitle(self.tr("Preview"))
        self.setSizeGripEnabled(True)
        self.view = PageView(scrolled=True)
        self.view.number = number
        self.view.show_pages(pages)
        QVBoxLayout(self).addWidget(self.view)
        self.resize(behind.size())


def _scrolling(paper: QWidget) -> QScrollArea:
    area = QScrollArea()
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
    area.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOn)  # so that the width stays
    area.setWidget(paper)
    return area


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
        if self._image is not None:
            painter.drawImage(0, 0, self._image)  # dot for dot: a stretched one would lose thin lines
        painter.setPen(QColor(look_now().edge))
        painter.drawRect(0, 0, self.width() - 1, self.height() - 1)
        painter.end()

    def _draw(self) -> None:
        self._image = None
        if self._page is not None and self.width() > 10:
            self.setFixedHeight(round(self.width() * self._page.height / self._page.width))
            ratio = self.devicePixelRatioF()
            self._image = picture(self._page, self.width() * ratio / self._page.width)
            self._image.setDevicePixelRatio(ratio)
        self.update()
