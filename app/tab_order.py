"""Where Tab goes: through areas of the window in the order in which they are read, whenever each was made.

Qt goes in the order in which widgets were made, and panels are made when they are first shown.
"""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QButtonGroup, QWidget

_TAB = Qt.FocusPolicy.TabFocus


def takes_tab(widget: QWidget) -> bool:
    """Return whether the keyboard stops at a widget now."""
    return widget.isVisible() and widget.isEnabled() and bool(widget.focusPolicy() & _TAB)


def next_stop(areas: Sequence[QWidget], focused: QWidget, *, forward: bool) -> QWidget | None:
    """Return where Tab goes on, area by area and down each; None from outside of them."""
    # No walk along Qt's own chain: it would tie the Python objects on its way to one another's lives.
    within = [widget for area in areas for widget in (area, *area.findChildren(QWidget))]
    stops = [
        widget
        for widget in within
        if widget is focused or (takes_tab(widget) and widget.focusProxy() is None)
    ]
    if focused not in stops:
        return None
    return stops[(stops.index(focused) + (1 if forward else -1)) % len(stops)]


def one_stop(group: QButtonGroup) -> None:
    """Have Tab stop at the button of a group that is in force, and at no other; arrow keys change it.

    Qt does so by itself only once one of them has had the keyboard.
    """

    def follow(button: QAbstractButton, checked: bool) -> None:  # as Qt calls it
        if checked:
            for other in group.buttons():
                policy = other.focusPolicy()
                other.setFocusPolicy(policy | _TAB if other is button else policy & ~_TAB)

    group.buttonToggled.connect(follow)
