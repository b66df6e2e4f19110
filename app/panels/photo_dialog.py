"""How a photograph lies: four points are marked on it, and for each is said where on the wall it is."""

from collections.abc import Iterator
from functools import partial
from pathlib import Path

from PySide6.QtCore import QCoreApplication, QSize, Qt
from PySide6.QtGui import QImage
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from app import questions
from app.document import Document
from app.fields import LengthField
from app.files import InputError, read_bytes
from app.panels.choice_fields import ChoiceField
from app.panels.picture_marks import PictureMarks
from app.panels.section import Column
from app.panels.sentence import Heading, Sentence, plainly
from app.photo import MOST_BYTES, Photo, read_photograph
from geometry.model import XY, Job
from geometry.model.record import Points
from geometry.photo import Backdrop
from geometry.units import Display

STRENGTH = 0.6
"""Of a new photograph."""
INSET = 0.15
"""Where marks begin: so much of the picture's sides within its corners."""
SIZE = QSize(1080, 760)
translate = QCoreApplication.translate


def known_points(job: Job) -> Iterator[tuple[XY, str]]:
    """Go through the points of a wall that can be found on a photograph and whose places are known."""
    wall, tray = job.wall, job.enclosure
    yield from _corners(translate("Photo", "Wall"), (0.0, 0.0, wall.width, wall.height))
    if tray.rim > 0:
        yield (tray.left, tray.rim), translate("Photo", "Tray, left end of its rim")
        yield (tray.right, tray.rim), translate("Photo", "Tray, right end of its rim")
    for opening in wall.openings:
        x, y = opening.x, opening.y
        yield from _corners(opening.id, (x, y, x + opening.width, y + opening.height))


def _corners(name: str, box: tuple[float, float, float, float]) -> Iterator[tuple[XY, str]]:
    x0, y0, x1, y1 = box
    yield (x0, y0), translate("Photo", "%1, lower left").replace("%1", name)
    yield (x1, y0), translate("Photo", "%1, lower right").replace("%1", name)
    yield (x1, y1), translate("Photo", "%1, upper right").replace("%1", name)
    yield (x0, y1), translate("Photo", "%1, upper left").replace("%1", name)


class PhotoDialog(QDialog):
    """Marks four points; accepted, it has the `photo` as it lies then."""

    def __init__(
        self, image: QImage, job: Job, display: Display, before: Backdrop | None, parent: QWidget | None
    ) -> None:
        super().__init__(parent)
        self.setWindowTitle(self.tr("Photograph of the bare wall"))
        self._image = image
        self._strength = before.strength if before else STRENGTH
        wall = job.wall
        corners = ((0.0, 0.0), (wall.width, 0.0), (wall.width, wall.height), (0.0, wall.height))
        self._wall: list[XY] = list(before.wall if before else corners)
        self.marks = PictureMarks(image, before.picture if before else _first_marks(image))
        self.marks.moved.connect(self._judge)
        self.known: list[ChoiceField] = []
        self.places: list[tuple[LengthField, LengthField]] = []
        self.problem = Sentence("clash")
        self._buttons = QDialogButtonBox(
            QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel
        )
        self._buttons.accepted.connect(self.accept)
        self._buttons.rejected.connect(self.reject)
        self._build(tuple(known_points(job)), display)
        self.resize(SIZE)
        self._show_places()

    @property
    def photo(self) -> Photo:
        """The photograph as it lies; ValueError if four points cannot lie so."""
        picture: Points = tuple(self.marks.marks)
        return Photo(self._image, Backdrop(picture=picture, wall=tuple(self._wall), strength=self._strength))

    def _build(self, known: tuple[tuple[XY, str], ...], display: Display) -> None:
        column = Column()
        how = self.tr(
            "Drag each mark onto a point that you know, such as a corner of the wall, and say where that is."
            " Go round in one direction."
        )
        column.add(Sentence("words", how))
        for number in range(4):
            column.add(self._row(number, known, display))
        column.setMinimumWidth(330)
        row = QHBoxLayout()
        row.addWidget(self.marks, 1)
        row.addWidget(column)
        page = QVBoxLayout(self)
        page.addLayout(row, 1)
        page.addWidget(self.problem)
        page.addWidget(self._buttons)

    def _row(self, number: int, known: tuple[tuple[XY, str], ...], display: Display) -> QWidget:
        mark = self.tr("Mark %1").replace("%1", str(number + 1))
        choice = ChoiceField(self.tr("It is"), known)
        choice.set_unknown(self.tr("another point"))
        across = LengthField(self.tr("From the wall's left"), display)
        up = LengthField(self.tr("Above the floor"), display)
        holder = QWidget()
        grid = QGridLayout(holder)
        grid.setContentsMargins(0, 0, 0, 8)
        grid.addWidget(Heading(mark), 0, 0, 1, 2)
        grid.addWidget(choice, 1, 0, 1, 2)
        for index, field in enumerate((across, up)):
            field.name_for(mark)
            field.entered.connect(partial(self._on_length, number, index))
            field.stepped.connect(partial(self._on_length, number, index))
            grid.addWidget(field, 2, index)
        choice.name_for(mark)
        choice.entered.connect(partial(self._on_known, number))
        self.known.append(choice)
        self.places.append((across, up))
        return holder

    def _on_known(self, number: int, at: XY) -> None:
        self._wall[number] = at
        self._show_places()
        self.marks.take(number)

    def _on_length(self, number: int, axis: int, value: float) -> None:
        x, y = self._wall[number]
        self._wall[number] = (value, y) if axis == 0 else (x, value)
        self._show_places()
        self.marks.take(number)

    def _show_places(self) -> None:
        for at, choice, fields in zip(self._wall, self.known, self.places, strict=True):
            choice.show_value(at)
            for value, field in zip(at, fields, strict=True):
                field.show_value(value)
        self._judge()

    def _judge(self) -> None:
        """Say why the four points cannot lie so, if they cannot."""
        words = ""
        try:
            _ = self.photo
        except ValueError as problem:
            words = plainly(problem)
        self.problem.say(words)
        self._buttons.button(QDialogButtonBox.StandardButton.Ok).setEnabled(not words)


def _first_marks(image: QImage) -> Points:
    """Return marks within the corners of a picture: lower left, lower right, upper right, upper left."""
    left, right = INSET * image.width(), (1 - INSET) * image.width()
    top, low = INSET * image.height(), (1 - INSET) * image.height()
    return ((left, low), (right, low), (right, top), (left, top))


def place_photograph(document: Document, path: Path, display: Display, parent: QWidget) -> str:
    """Read a photograph and ask how it lies; return why it cannot be read as one sentence, or nothing."""
    try:
        image = read_photograph(read_bytes(path, MOST_BYTES), path.name)
    except (InputError, ValueError) as problem:
        return f"{problem}."
    ask_points(document, image, None, display, parent)
    return ""


def ask_points(
    document: Document, image: QImage, before: Backdrop | None, display: Display, parent: QWidget
) -> None:
    """Ask how a photograph lies, and lay it so."""
    dialog = PhotoDialog(image, document.job, display, before, parent)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)

    def lay() -> None:
        try:
            document.keep_photo(dialog.photo)
        except InputError as problem:
            questions.tell(parent, str(problem))

    dialog.accepted.connect(lay)
    dialog.open()
