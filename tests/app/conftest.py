"""What the tests of the window share."""

from collections.abc import Iterator

import pytest
from PySide6.QtWidgets import QApplication

from app.look import LIGHT, dress, use_own_font


@pytest.fixture
def undressed(qapp: QApplication) -> Iterator[QApplication]:
    """Return the application, which looks afterwards as it did before."""
    palette, font = qapp.palette(), qapp.font()
    yield qapp
    qapp.setStyleSheet("")
    qapp.setPalette(palette)
    qapp.setFont(font)


@pytest.fixture
def dressed(undressed: QApplication) -> QApplication:
    """Return the application in its light look and its own font."""
    use_own_font(undressed)
    dress(undressed, LIGHT)
    return undressed
