"""Which sheets, on what paper, to which scale: kept in the settings, where the next job finds them."""

from functools import partial

from PySide6.QtWidgets import QGridLayout, QWidget

from app.fields import LengthField
from app.panels.choice_fields import ChoiceField, TickField
from app.panels.printer_truth import PrinterTruth
from app.panels.sentence import plainly
from app.panels.words import translate
from app.settings import Preferences
from app.words import QT_TRANSLATE_NOOP
from export.pack import SHEETS
from export.sheets.options import SheetOptions
from export.sheets.paper import SIZES

SCALES = (5, 10, 20, 25, 50, 100)
"""1:N that are offered for the scaled sheets (usual in building; ISO 5455 from memory, and 1:25)."""
WORDS = {
    "elevation": QT_TRANSLATE_NOOP("Sheets", "Elevation to scale"),
    "section": QT_TRANSLATE_NOOP("Sheets", "Wall sections"),
    "full-size": QT_TRANSLATE_NOOP("Sheets", "Full-size marking pages"),
    "supply": QT_TRANSLATE_NOOP("Sheets", "Water supply"),
    "dxf": QT_TRANSLATE_NOOP("Sheets", "Drawing file (DXF)"),
    "cut-list": QT_TRANSLATE_NOOP("Sheets", "Cut list"),
    "order": QT_TRANSLATE_NOOP("Sheets", "Order list"),
    "order-csv": QT_TRANSLATE_NOOP("Sheets", "Order list (CSV)"),
    "first-fix": QT_TRANSLATE_NOOP("Sheets", "First fix"),
    "as-fitted": QT_TRANSLATE_NOOP("Sheets", "Record as fitted"),
    "tiler": QT_TRANSLATE_NOOP("Sheets", "For the tiler"),
    "tile-templates": QT_TRANSLATE_NOOP("Sheets", "Tile templates"),
    "tile-dxf": QT_TRANSLATE_NOOP("Sheets", "Tiles (DXF)"),
    "panels": QT_TRANSLATE_NOOP("Sheets", "Panel cut-outs"),
    "phone": QT_TRANSLATE_NOOP("Sheets", "Page for the phone"),
}
"""What the sheets are called; a sheet without words of its own goes by its name."""


class SheetChoices(QWidget):
    """Ticks for the sheets, paper and scale; and, for its holder to lay out, the fields about printing."""

    def __init__(self, preferences: Preferences) -> None:
        super().__init__()
        self._preferences = preferences
        display = preferences.settings.unit
        self.ticks = {name: TickField(sheet_word(name)) for name in SHEETS}
        for name, tick in self.ticks.items():
            tick.entered.connect(partial(self._on_sheet, name))
        self.paper = ChoiceField(self.tr("Paper"), [(name, name) for name in reversed(SIZES)])
        self.paper.entered.connect(self._on_paper)
        fitting = (None, self.tr("Largest"))
        self.scale = ChoiceField(self.tr("Scale"), [fitting, *((n, f"1:{n}") for n in SCALES)])
        self.scale.entered.connect(self._on_scale)
        usual = SheetOptions()
        self.margin = LengthField(self.tr("Margin of full-size pages"), display)
        self.margin.show_value(usual.margin)
        self.overlap = LengthField(self.tr("Their overlap"), display)
        self.overlap.show_value(usual.overlap)
        for field in (self.margin, self.overlap):
            field.entered.connect(partial(self._on_length, field))
            field.stepped.connect(partial(self._on_length, field))
        self.truth = PrinterTruth(display)
        self.truth.stretched.connect(self._on_stretched)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(12)
        for number, widget in enumerate(self.ticks.values()):
            grid.addWidget(widget, number // 2, number % 2)
        last = (len(self.ticks) + 1) // 2
        grid.addWidget(self.paper, last, 0)
        grid.addWidget(self.scale, last, 1)
        for column in (0, 1):
            grid.setColumnStretch(column, 1)
        self.show_settings()

    @property
    def names(self) -> tuple[str, ...]:
        """The sheets that are chosen, in their order."""
        chosen = self._preferences.settings.sheets
        return tuple(name for name in SHEETS if not chosen or name in chosen) or tuple(SHEETS)

    def options(self) -> SheetOptions:
        """Return the choices for the sheets."""
        held = self._preferences.settings
        paper = held.paper if held.paper in SIZES else SheetOptions().paper
        return SheetOptions(
            paper, held.scale, held.stretch_x, held.stretch_y, self.margin.value, self.overlap.value
        )

    def show_settings(self) -> None:
        """Show what the settings hold."""
        held, chosen = self._preferences.settings, self.names
        for name, tick in self.ticks.items():
            tick.show_value(name in chosen)
        self.paper.show_value(self.options().paper)
        self.scale.show_value(held.scale)
        self.truth.show_stretch(held.stretch_x, held.stretch_y)

    def _on_sheet(self, name: str, wanted: bool) -> None:
        chosen = {*self.names, name} if wanted else {*self.names} - {name}
        if not chosen:
            self.ticks[name].refuse(self.tr("At least one sheet must be chosen."))
            return
        every = len(chosen) == len(SHEETS)
        self._preferences.change(sheets=() if every else tuple(each for each in SHEETS if each in chosen))

    def _on_paper(self, name: str) -> None:
        self._preferences.change(paper=name)

    def _on_scale(self, scale: int | None) -> None:
        self._preferences.change(scale=scale)

    def _on_stretched(self, across: float, upright: float) -> None:
        self._preferences.change(stretch_x=across, stretch_y=upright)

    def _on_length(self, field: LengthField, value: float) -> None:
        before = field.value
        field.show_value(value)
        try:
            self.options()
        except ValueError as problem:
            field.show_value(before)
            field.refuse(plainly(problem))


def sheet_word(name: str) -> str:
    """Return what a sheet is called."""
    return translate("Sheets", WORDS[name]) if name in WORDS else name.replace("-", " ").capitalize()
