"""Tab goes through the window as it is read, and every group of buttons is one stop on its way."""

import pytest
from PySide6.QtCore import QPoint
from PySide6.QtWidgets import QApplication, QWidget

from app.tab_order import takes_tab
from app.window import Window
from tests.app.driving import keys
from tests.samples import sample_path


def stops(window: Window, step: str, shortcut: str, most: int = 70) -> list[QWidget]:
    """Press a shortcut from the button of a step until the keyboard is back there; return where it was."""
    first: QWidget = window.bench.steps.button(step)
    first.setFocus()
    found: list[QWidget] = []
    for _ in range(most):
        focused = QApplication.focusWidget()
        assert focused is not None
        keys(focused, shortcut)
        focused = QApplication.focusWidget()
        assert focused is not None
        if focused is first:
            return found
        found.append(focused)
    raise AssertionError("the keyboard does not come round")


def areas(window: Window, found: list[QWidget]) -> list[str]:
    """Return the areas that the keyboard came through, each once a visit."""
    bench = window.bench
    named = {
        "panel": bench.panels, "view": bench.view_bar, "wall": bench.canvas, "strip": bench.strip
    }  # fmt: skip
    seen: list[str] = []
    for widget in found:
        name = next(name for name, area in named.items() if area is widget or area.isAncestorOf(widget))
        if seen[-1:] != [name]:
            seen.append(name)
    return seen


@pytest.mark.parametrize("step", ["measure", "set_out", "check"])
def test_tab_goes_from_the_steps_through_panel_view_wall_and_strip(window: Window, step: str) -> None:
    window.open_sample(sample_path("alcove-760"))
    window.bench.go_to(step)
    assert areas(window, stops(window, step, "Tab")) == ["panel", "view", "wall", "strip"]


def test_shift_tab_goes_the_other_way(window: Window) -> None:
    window.open_sample(sample_path("alcove-760"))
    window.bench.go_to("check")
    assert areas(window, stops(window, "check", "Shift+Tab")) == ["strip", "wall", "view", "panel"]


def test_tab_misses_nothing_in_the_panel_and_goes_down_it(window: Window) -> None:
    window.open_sample(sample_path("alcove-760"))
    window.bench.go_to("set_out")
    panel = window.bench.panels.set_out
    found = [widget for widget in stops(window, "set_out", "Tab") if panel.isAncestorOf(widget)]
    wanted = {
        widget for widget in panel.findChildren(QWidget) if takes_tab(widget) and not widget.focusProxy()
    }
    assert set(found) == wanted
    tops = [widget.mapTo(panel, QPoint(0, 0)).y() // 40 for widget in found]  # rows are 40 high or more
    assert tops == sorted(tops)


def test_tab_comes_to_the_tabs_before_what_stands_under_them(window: Window) -> None:
    window.open_sample(sample_path("alcove-760"))
    window.bench.go_to("measure")
    assert stops(window, "measure", "Tab")[0].accessibleName() == "Parts of this step"


def test_tab_stops_at_the_step_and_the_stage_that_are_in_force(window: Window) -> None:
    window.open_sample(sample_path("alcove-760"))
    window.bench.go_to("check")
    window.bench.go_to("set_out")
    assert takes_tab(window.bench.steps.button("set_out"))
    assert not takes_tab(window.bench.steps.button("check"))
    in_view = [
        widget.objectName()
        for widget in stops(window, "set_out", "Tab")
        if window.bench.view_bar.isAncestorOf(widget)
    ]
    assert in_view == ["stage-finished", "smaller", "larger", "fit"]
