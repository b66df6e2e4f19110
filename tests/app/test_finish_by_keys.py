"""The finish in the whole window by the keyboard alone: the tiles chosen from the menu's keys, and moved."""

from app.window import Window
from geometry.edits.refs import TILES
from geometry.model import XY
from tests.app.driving import keys
from tests.samples import sample_path


def start(window: Window) -> XY:
    tiling = window.open_job.document.job.finish.tiling
    assert tiling is not None
    return tiling.start_x, tiling.start_y


def test_the_tiles_are_chosen_and_moved_from_anywhere_in_the_window(window: Window) -> None:
    window.open_sample(sample_path("corner-1200x800"))
    bench = window.bench
    bench.show_stage("cut")
    bench.steps.button("measure").setFocus()
    keys(bench.steps.button("measure"), "Ctrl+Alt+T")
    assert window.open_job.selection.refs == (TILES,)
    assert bench.canvas.hasFocus()
    assert bench.canvas.stage == "finished"
    keys(bench.canvas, "Right")
    keys(bench.canvas, "Shift+Up")
    assert start(window) == (1.0, 10.0)
    keys(bench.canvas, "Ctrl+Z")
    assert start(window) == (0.0, 0.0)
