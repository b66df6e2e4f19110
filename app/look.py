"""How the window looks, in daylight and in a dim room: colours, font, sizes. The canvas has its own colours.

Words keep to the AA level of WCAG 2.1 (4.5 to 1), the borders of what can be pressed or typed into to its
3 to 1, and everything that is pressed is at least 40 pixels high; tests work all of this out.
"""

from pathlib import Path
from typing import NamedTuple

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication

import export
from app.settings import Theme

TARGET = 40
"""Least height of what is pressed, in pixels; WCAG 2.1 has 44 as its AAA level, 24 as AA of 2.2."""
STYLE = "fusion"
"""The same on every computer; asking Qt for the style in force would cost more than painting does."""
FONT = "DejaVu Sans"
POINTS = 10.5


class Look(NamedTuple):
    """The colours of the window."""

    name: str
    page: str
    """Behind everything."""
    panel: str
    """Behind what is read and typed."""
    words: str
    quiet: str
    """Words of less weight."""
    line: str
    """Between things; carries no meaning."""
    edge: str
    """Round what can be pressed or typed into."""
    chosen: str
    on_chosen: str
    pressed: str
    clash: str
    tight: str
    refer: str
    clear: str


LIGHT = Look(
    name="light",
    page="#eef1f3",
    panel="#fcfcfb",
    words="#23272b",
    quiet="#555c63",
    line="#cfd4d8",
    edge="#737a81",
    chosen="#00666b",
    on_chosen="#ffffff",
    pressed="#dbe5e6",
    clash="#b8001a",
    tight="#855200",
    refer="#1f5a94",
    clear="#1f6b3a",
)
DARK = Look(
    name="dark",
    page="#15181b",
    panel="#1c2024",
    words="#e4e7ea",
    quiet="#a9b0b7",
    line="#363c42",
    edge="#80878e",
    chosen="#4fd1c5",
    on_chosen="#0d1113",
    pressed="#26343a",
    clash="#ff7b83",
    tight="#f0b54a",
    refer="#8cc1f5",
    clear="#7fd19a",
)
LOOKS = {look.name: look for look in (LIGHT, DARK)}


def look_for(theme: Theme) -> Look:
    """Return the look of a theme; `auto` is what the computer has, light where it does not say."""
    if theme == "auto":
        dark = QApplication.styleHints().colorScheme() == Qt.ColorScheme.Dark
        return DARK if dark else LIGHT
    return LOOKS[theme]


def dress(application: QApplication, look: Look) -> None:
    """Give the whole program a look; its style is `STYLE`, chosen when the application is made."""
    application.setPalette(palette(look))
    application.setStyleSheet("")  # one sheet in place of another takes Qt ten times as long as two steps
    application.setStyleSheet(sheet(look))


def use_own_font(application: QApplication) -> None:
    """Write everything in the font that the sheets have too; it is there even where no other font is."""
    for name in ("DejaVuSans.ttf", "DejaVuSans-Bold.ttf"):
        QFontDatabase.addApplicationFont(str(Path(export.__file__).with_name("fonts") / name))
    font = QFont(FONT)
    font.setPointSizeF(POINTS)
    application.setFont(font)


def palette(look: Look) -> QPalette:
    """Return the palette of a look."""
    role, group = QPalette.ColorRole, QPalette.ColorGroup
    made = QPalette()
    colours = {
        role.Window: look.page,
        role.WindowText: look.words,
        role.Base: look.panel,
        role.AlternateBase: look.page,
        role.Text: look.words,
        role.PlaceholderText: look.quiet,
        role.Button: look.panel,
        role.ButtonText: look.words,
        role.BrightText: look.clash,
        role.ToolTipBase: look.panel,
        role.ToolTipText: look.words,
        role.Highlight: look.chosen,
        role.HighlightedText: look.on_chosen,
        role.Link: look.chosen,
        role.LinkVisited: look.chosen,
        role.Light: look.line,
        role.Midlight: look.line,
        role.Mid: look.line,
        role.Dark: look.edge,
        role.Shadow: look.edge,
        role.Accent: look.chosen,
    }
    for each, colour in colours.items():
        made.setColor(each, QColor(colour))
    for each in (role.WindowText, role.Text, role.ButtonText):
        made.setColor(group.Disabled, each, QColor(look.quiet))
    return made


def sheet(look: Look) -> str:
    """Return the style sheet of a look."""
    inside = TARGET - 4  # the borders make up the rest
    return f"""
QPushButton, QToolButton, QComboBox, QLineEdit, QAbstractSpinBox {{
    min-height: {inside}px; padding: 0 10px; border: 1px solid {look.edge}; border-radius: 4px;
    background: {look.panel}; color: {look.words}; margin: 1px;
}}
QPushButton:hover, QToolButton:hover, QComboBox:hover {{ background: {look.pressed}; }}
QPushButton:pressed, QToolButton:pressed {{ background: {look.pressed}; }}
QPushButton:checked, QToolButton:checked {{
    background: {look.chosen}; color: {look.on_chosen}; border-color: {look.chosen};
}}
QPushButton:default {{ background: {look.chosen}; color: {look.on_chosen}; border-color: {look.chosen}; }}
QPushButton:disabled, QToolButton:disabled, QComboBox:disabled, QLineEdit:disabled {{
    color: {look.quiet}; background: {look.page}; border-color: {look.line};
}}
QPushButton:focus, QToolButton:focus, QComboBox:focus, QLineEdit:focus, QAbstractSpinBox:focus {{
    border: 2px solid {look.chosen}; margin: 0;
}}
QPushButton:default:focus, QPushButton:checked:focus, QToolButton:checked:focus {{
    border-color: {look.words};
}}
#steps QToolButton {{ padding: 0; margin: 0; border-width: 2px; border-color: {look.line}; }}
#steps QToolButton:checked {{ border-color: {look.chosen}; }}
#steps QToolButton:focus {{ border-color: {look.chosen}; }}
#steps QToolButton:checked:focus {{ border-color: {look.words}; }}
#entry-left, #entry-front, #entry-right {{ min-height: 132px; padding: 0 10px 8px 10px; }}
#start-job {{ min-height: {TARGET + 12}px; font-weight: bold; }}
QComboBox::drop-down {{ border: none; width: 28px; }}
QComboBox QAbstractItemView {{ border: 1px solid {look.edge}; }}
QComboBox QAbstractItemView::item, QListView::item {{ min-height: {inside}px; padding: 0 6px; }}
QTableView::item {{ padding: 0 6px; }}
QTableView {{ gridline-color: {look.line}; }}
QHeaderView::section {{
    min-height: {inside}px; padding: 0 8px; border: none; border-bottom: 1px solid {look.edge};
    background: {look.page}; color: {look.quiet};
}}
QCheckBox, QRadioButton {{ min-height: {TARGET}px; spacing: 8px; }}
QCheckBox::indicator, QRadioButton::indicator {{ width: 22px; height: 22px; }}
QCheckBox::indicator:unchecked {{
    width: 20px; height: 20px; border: 1px solid {look.edge}; border-radius: 3px; background: {look.panel};
}}
QMenuBar {{ background: {look.page}; border-bottom: 1px solid {look.line}; }}
QMenuBar::item {{ padding: 12px 12px; background: transparent; }}
QMenuBar::item:selected {{ background: {look.pressed}; }}
QMenu {{ background: {look.panel}; border: 1px solid {look.edge}; padding: 4px 0; }}
QMenu::item {{ padding: 12px 28px 12px 20px; color: {look.words}; }}
QMenu::item:selected {{ background: {look.pressed}; color: {look.words}; }}
QMenu::item:disabled {{ color: {look.quiet}; }}
QMenu::separator {{ height: 1px; background: {look.line}; margin: 4px 12px; }}
QMenu::indicator {{ width: 18px; height: 18px; left: 6px; }}
QScrollBar:vertical {{ width: 16px; }}
QScrollBar:horizontal {{ height: 16px; }}
QSplitter::handle {{ background: {look.line}; }}
QSplitter::handle:hover, QSplitter::handle:focus {{ background: {look.chosen}; }}
QTabWidget::pane {{ border: none; border-top: 1px solid {look.line}; }}
QTabBar::tab {{
    min-height: {TARGET - 3}px; padding: 0 14px; color: {look.quiet}; background: transparent;
    border: none; border-bottom: 3px solid transparent;
}}
QTabBar::tab:selected {{ color: {look.words}; border-bottom-color: {look.chosen}; }}
QTabBar::tab:hover, QTabBar::tab:focus {{ color: {look.words}; background: {look.pressed}; }}
QToolTip {{ border: 1px solid {look.edge}; padding: 4px; }}
"""
