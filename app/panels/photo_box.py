"""The photograph of the bare wall behind the drawing: chosen, marked, made stronger or fainter, removed."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QLabel, QPushButton, QSlider, QVBoxLayout, QWidget

from app import questions
from app.files import InputError
from app.look import TARGET
from app.panels.panel import Panel
from app.panels.photo_dialog import ask_points, place_photograph
from app.panels.sentence import Sentence
from app.photo import Photo

STEPS = 20
"""Of the slider, from not seen to as bright as it was taken."""


class PhotoBox(QWidget):
    """Shows whether there is a photograph, and changes it."""

    def __init__(self, panel: Panel) -> None:
        super().__init__()
        self._panel, self._document = panel, panel.document
        self.said = Sentence("quiet")
        self.chooser = self._button(self.tr("Choose a photograph…"), self._on_choose)
        self.marker = self._button(self.tr("Mark its points…"), self._on_mark)
        self.remover = self._button(self.tr("Remove it"), self._on_remove)
        self.slider = QSlider(Qt.Orientation.Horizontal)
        self.slider.setRange(0, STEPS)
        self.slider.setMinimumHeight(TARGET)
        self.slider.setAccessibleName(self.tr("Strength of the photograph"))
        self.slider.valueChanged.connect(self._on_strength)
        self.strength = QWidget()
        beside = QHBoxLayout(self.strength)
        beside.setContentsMargins(0, 0, 0, 0)
        beside.addWidget(QLabel(self.tr("Strength")))
        beside.addWidget(self.slider, 1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        for widget in (self.said, self.chooser, self.strength, self.marker, self.remover):
            layout.addWidget(widget)
        self._document.photo_changed.connect(self._show)
        self._show()

    def _show(self) -> None:
        photo = self._document.photo
        self.said.say(
            self.tr("None yet. Choose one, or drop one on the wall.")
            if photo is None
            else self.tr("It lies behind the wall, to scale. It is kept beside the job.")
        )
        self.chooser.setText(self.tr("Choose a photograph…") if photo is None else self.tr("Choose another…"))
        for widget in (self.strength, self.marker, self.remover):
            widget.setVisible(photo is not None)
        if photo is not None:
            self.slider.blockSignals(True)
            self.slider.setValue(round(photo.backdrop.strength * STEPS))
            self.slider.blockSignals(False)

    def _button(self, word: str, slot: object) -> QPushButton:
        button = QPushButton(word)
        button.setMinimumHeight(TARGET)
        button.clicked.connect(slot)
        return button

    def _on_choose(self) -> None:
        path = questions.ask_photograph(self, self._panel.preferences.settings.last_folder)
        if path is not None:
            problem = place_photograph(self._document, path, self._panel.display, self)
            if problem:
                self._panel.refused.emit(problem)

    def _on_mark(self) -> None:
        photo = self._document.photo
        if photo is not None:
            ask_points(self._document, photo.image, photo.backdrop, self._panel.display, self)

    def _on_remove(self) -> None:
        self._keep(None)

    def _on_strength(self, value: int) -> None:
        photo = self._document.photo
        if photo is not None:
            self._keep(photo._replace(backdrop=photo.backdrop.but(strength=value / STEPS)))

    def _keep(self, photo: Photo | None) -> None:
        try:
            self._document.keep_photo(photo)
        except InputError as problem:
            self._panel.refused.emit(str(problem))
            self._show()
