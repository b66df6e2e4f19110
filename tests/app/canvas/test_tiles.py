"""The tiles on the wall: chosen and moved by the corner of the first one, with mouse, keys and numbers."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtTest import QTest

from app.canvas.inline_edit import InlineEdit
from geometry.edits.refs import TILES
from geometry.model import XY, Niche, Tiling
from geometry.setting_out.arrangement import suggested_job
from tests.app.canvas.conftest import Hand, Make

TILED = Tiling(wide=200.0, high=300.0, joint=2.0, start_x=100.0, start_y=900.0)


@pytest.fixture
def tiled(make: Make) -> Hand:
    """A hand on a wall whose first tile starts at 100, 900; the centre line is at 380, the floor at 30."""
    job = suggested_job(760, 760, "left")
    niche = Niche(id="niche", x=600.0, y=1500.0, width=100.0, height=200.0)
    return make(job.but(finish=job.finish.but(tiling=TILED, niches=(niche,))))


def start(hand: Hand) -> XY:
    tiling = hand.document.job.finish.tiling
    assert tiling is not None
    return tiling.start_x, tiling.start_y


def test_the_grid_is_dragged_by_its_start_as_one_step(tiled: Hand) -> None:
    tiled.drag((100.0, 900.0), (130.0, 880.0), (137.0, 861.0))
    assert start(tiled) == (137.0, 861.0)
    assert tiled.titles == ["Move tiles"]
    assert tiled.chosen() == (TILES,)
    tiled.document.history.undo()
    assert start(tiled) == (100.0, 900.0)


def test_the_job_is_checked_at_every_step_of_the_drag(tiled: Hand) -> None:
    def narrowest() -> float | None:
        return next(f.measured for f in tiled.document.state.findings if f.rule == "tiling.least_cut")

    tiled.press((100.0, 900.0))
    tiled.move((180.0, 900.0))
    # from 5 to 755 with a pitch of 202: left 180 - 2 - 5 = 173, right 755 - (180 + 404) = 171
    assert narrowest() == 171.0
    tiled.move((140.0, 900.0))  # right 755 - (140 + 606) = 9
    assert narrowest() == 9.0
    assert tiled.canvas.hands.feedback.clearance is not None
    assert tiled.document.kept_job.finish.tiling == TILED
    tiled.key(Qt.Key.Key_Escape)
    assert start(tiled) == (100.0, 900.0)
    assert tiled.titles == []


def test_the_middle_of_the_tile_is_drawn_to_the_centre_line(tiled: Hand) -> None:
    tiled.press((100.0, 900.0))
    tiled.move((283.0, 950.0))  # the middle of the tile, 100 on, comes within 3 of the centre line at 380
    assert start(tiled)[0] == 280.0
    assert any("centre line" in guide.word for guide in tiled.canvas.hands.feedback.guides)
    tiled.release((283.0, 950.0))


def test_the_edge_of_a_tile_is_drawn_to_where_the_tiling_ends(tiled: Hand) -> None:
    # the niche's left edge is at 600; the gap of 5 for sealant before it is the tiles' end: 595 - 200
    tiled.drag((100.0, 900.0), (300.0, 950.0), (393.0, 950.0))
    assert start(tiled)[0] == 395.0


def test_arrows_move_the_tiles_and_a_run_of_them_is_one_step(tiled: Hand) -> None:
    tiled.canvas.choose_tiles()
    assert tiled.chosen() == (TILES,)
    tiled.key(Qt.Key.Key_Right)
    tiled.key(Qt.Key.Key_Up, Qt.KeyboardModifier.ShiftModifier)
    tiled.key(Qt.Key.Key_Left, Qt.KeyboardModifier.AltModifier)
    assert start(tiled) == (100.9, 910.0)
    assert tiled.titles == ["Move tiles"]


def test_what_to_do_with_the_tiles_is_said_until_something_else_is_chosen(tiled: Hand) -> None:
    said: list[str] = []
    tiled.canvas.hint_changed.connect(said.append)
    tiled.canvas.choose_tiles()
    assert said[-1] == "Drag the corner of the first tile, or move it with the arrow keys."
    tiled.choose("fitting", "valve")
    assert said[-1] == ""


def test_tab_goes_on_to_the_tiles_after_the_last_thing_and_says_where_they_start(tiled: Hand) -> None:
    tiled.key(Qt.Key.Key_Backtab)
    assert tiled.chosen() == (TILES,)
    # 100 from the tray's edge at 0, and 900 - 30 above its floor
    words = tiled.canvas.accessibleDescription()
    assert words == "first tile, 100 mm from tray edge, 870 mm above tray floor"


def test_the_start_is_typed_as_a_distance(tiled: Hand) -> None:
    assert all(TILES not in tag.refs for tag in tiled.canvas.laid.tags)
    tiled.canvas.choose_tiles()
    tag = next(tag for tag in tiled.canvas.laid.tags if TILES in tag.refs and tag.axis == "x")
    assert tag.words == "100 first tile"
    tiled.canvas.open_distance(tag)
    field = tiled.canvas.findChild(InlineEdit)
    assert field is not None
    field.selectAll()
    QTest.keyClicks(field, "145,5")
    QTest.keyClick(field, Qt.Key.Key_Return)
    assert start(tiled) == (145.5, 900.0)
    assert tiled.titles == ["Move tiles"]


def test_a_band_round_everything_leaves_the_tiles_out(tiled: Hand) -> None:
    tiled.canvas.fit()
    tiled.drag((-40.0, 2390.0), (500.0, 1000.0), (900.0, 5.0))
    assert len(tiled.chosen()) > 3
    assert TILES not in tiled.chosen()


def test_where_nothing_is_tiled_the_tiles_cannot_be_chosen(hand: Hand) -> None:
    job = hand.document.job
    hand.document.edit("Leave the tiles out", job.but(finish=job.finish.but(tiling=None)))
    said: list[str] = []
    hand.canvas.hint_changed.connect(said.append)
    hand.canvas.choose_tiles()
    assert hand.chosen() == ()
    assert said[-1] == "Nothing is tiled yet: say so under What covers it."


def test_a_stage_without_tiles_gives_way_to_one_that_shows_them(tiled: Hand) -> None:
    tiled.canvas.set_stage("cut")
    tiled.canvas.choose_tiles()
    assert tiled.canvas.stage == "finished"
