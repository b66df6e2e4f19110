"""The look of the window: contrast of words and borders, and sizes for wet hands."""

import itertools

import pytest
from PySide6.QtWidgets import (
    QApplication,
    QComboBox,
    QLineEdit,
    QMenu,
    QPushButton,
    QToolButton,
    QVBoxLayout,
    QWidget,
)
from pytestqt.qtbot import QtBot

from app.look import DARK, LIGHT, TARGET, Look, dress, look_for, use_own_font


def luminance(colour: str) -> float:
    """Return the relative luminance as WCAG 2.1 defines it."""
    channels = [int(colour[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one: str, other: str) -> float:
    low, high = sorted((luminance(one), luminance(other)))
    return (high + 0.05) / (low + 0.05)


def test_the_contrast_of_black_and_white_is_21() -> None:
    # WCAG 2.1: (1.0 + 0.05) / (0.0 + 0.05)
    assert contrast("#000000", "#ffffff") == pytest.approx(21)


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=lambda look: look.name)
def test_words_are_readable_on_every_ground(look: Look) -> None:
    words = {
        name: getattr(look, name) for name in ("words", "quiet", "clash", "tight", "refer", "clear", "chosen")
    }
    for (name, word), ground in itertools.product(words.items(), (look.page, look.panel)):
        assert contrast(word, ground) >= 4.5, (name, ground)
    assert contrast(look.words, look.pressed) >= 4.5
    assert contrast(look.on_chosen, look.chosen) >= 4.5


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=lambda look: look.name)
def test_borders_of_what_is_pressed_can_be_seen(look: Look) -> None:
    for ground in (look.page, look.panel):
        assert contrast(look.edge, ground) >= 3


@pytest.mark.parametrize("look", [LIGHT, DARK], ids=lambda look: look.name)
def test_everything_that_is_pressed_is_high_enough_for_wet_hands(
    look: Look, qtbot: QtBot, undressed: QApplication
) -> None:
    use_own_font(undressed)
    dress(undressed, look)
    page = QWidget()
    qtbot.addWidget(page)
    layout = QVBoxLayout(page)
    pressed: list[QWidget] = [QPushButton(), QToolButton(), QComboBox(), QLineEdit()]
    for widget in pressed:
        layout.addWidget(widget)
    page.show()
    for widget in pressed:
        assert widget.height() >= TARGET, widget
    menu = QMenu(page)
    entry = menu.addAction("Save")
    assert menu.actionGeometry(entry).height() >= TARGET


def test_a_theme_that_is_chosen_is_used_whatever_the_computer_has() -> None:
    assert look_for("dark") is DARK
    assert look_for("light") is LIGHT
