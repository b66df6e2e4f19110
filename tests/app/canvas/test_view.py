"""The sums of the view: screen and wall, zoom to the cursor, fitting, limits."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.canvas.view import LEAST, MOST, Margin, View

NONE = Margin(0, 0, 0, 0)
places = st.tuples(st.floats(-4000, 4000), st.floats(-4000, 4000))
views = st.builds(View, st.floats(LEAST, MOST), st.floats(-1e5, 1e5), st.floats(-1e5, 1e5))


def test_y_runs_up_on_the_wall_and_down_on_the_screen() -> None:
    view = View(2.0, 10.0, 500.0)
    # 30 mm right and 40 mm up at 2 px a mm: 10 + 60 across, 500 - 80 down
    assert view.to_screen((30.0, 40.0)) == (70.0, 420.0)
    assert view.to_wall((70.0, 420.0)) == (30.0, 40.0)


@given(views, places)
def test_there_and_back_is_the_same_place(view: View, at: tuple[float, float]) -> None:
    assert view.to_screen(view.to_wall(at)) == pytest.approx(at, abs=1e-6)


@given(views, places, st.lists(st.floats(0.5, 2.0), max_size=30))
def test_zooming_at_the_cursor_does_not_drift(
    view: View, at: tuple[float, float], factors: list[float]
) -> None:
    under = view.to_wall(at)
    for factor in factors:
        view = view.zoomed(at, factor)
    assert view.to_screen(under) == pytest.approx(at, abs=1e-5)


def test_zoom_stops_at_its_limits_and_still_holds_the_cursor() -> None:
    view = View(1.0, 0.0, 0.0)
    near, far = view.zoomed((100.0, 50.0), 1e6), view.zoomed((100.0, 50.0), 1e-6)
    assert (near.scale, far.scale) == (MOST, LEAST)
    for zoomed in (near, far):
        assert zoomed.to_screen((100.0, -50.0)) == pytest.approx((100.0, 50.0))


def test_panning_moves_what_is_seen_with_the_hand() -> None:
    assert View(2.0, 10.0, 20.0).panned((5.0, -7.0)) == View(2.0, 15.0, 13.0)


def test_fitted_shows_the_whole_wall_in_the_middle() -> None:
    view = View.fitted((0.0, 0.0, 900.0, 2400.0), (1000.0, 800.0), NONE)
    # 800 px / 2400 mm = 1/3 px a mm; 900 mm are 300 px, so 350 px are free at each side
    assert view.scale == pytest.approx(1 / 3)
    assert view.to_screen((0.0, 2400.0)) == pytest.approx((350.0, 0.0))
    assert view.to_screen((900.0, 0.0)) == pytest.approx((650.0, 800.0))


def test_fitted_keeps_its_margin_free_on_each_side() -> None:
    view = View.fitted((0.0, 0.0, 1000.0, 500.0), (700.0, 500.0), Margin(150, 10, 50, 40))
    # 700 - 150 - 50 = 500 px for 1000 mm; 500 - 10 - 40 = 450 px are more than 250
    assert view.scale == pytest.approx(0.5)
    assert view.to_screen((0.0, 250.0)) == pytest.approx((150.0, 10 + 450 / 2))
    assert view.to_screen((1000.0, 250.0)) == pytest.approx((650.0, 235.0))


def test_fitted_takes_a_screen_smaller_than_its_margin() -> None:
    assert View.fitted((0.0, 0.0, 900.0, 2400.0), (20.0, 20.0), Margin(90, 90, 90, 90)).scale == LEAST


def test_fitted_takes_a_single_point() -> None:
    view = View.fitted((100.0, 200.0, 100.0, 200.0), (400.0, 300.0), NONE)
    assert view.scale == MOST
    assert view.to_screen((100.0, 200.0)) == pytest.approx((200.0, 150.0))


@given(views, places, places)
def test_resizing_keeps_what_was_in_the_middle(
    view: View, before: tuple[float, float], after: tuple[float, float]
) -> None:
    old, new = (abs(before[0]), abs(before[1])), (abs(after[0]), abs(after[1]))
    middle = view.to_wall((old[0] / 2, old[1] / 2))
    assert view.resized(old, new).to_screen(middle) == pytest.approx((new[0] / 2, new[1] / 2), abs=1e-5)


def test_the_wall_cannot_be_lost_from_the_screen() -> None:
    wall, size = (0.0, 0.0, 900.0, 2400.0), (1000.0, 800.0)
    view = View(1.0, 5000.0, -3000.0).held(wall, size, 60.0)
    # 60 px of its left edge at the right of the screen, 60 px of its floor at the top
    assert view.to_screen((0.0, 0.0)) == pytest.approx((940.0, 60.0))
    other = View(1.0, -5000.0, 9000.0).held(wall, size, 60.0)
    assert other.to_screen((900.0, 2400.0)) == pytest.approx((60.0, 740.0))


def test_a_view_that_shows_the_wall_is_left_alone() -> None:
    view = View(0.3, 350.0, 780.0)
    assert view.held((0.0, 0.0, 900.0, 2400.0), (1000.0, 800.0), 60.0) == view


def test_window_is_the_part_of_the_wall_on_the_screen() -> None:
    # at 0.5 px a mm 1000 x 800 px are 2000 x 1600 mm; the origin stands 100 px in and 700 px down
    assert View(0.5, 100.0, 700.0).window((1000.0, 800.0)) == (-200.0, -200.0, 1800.0, 1400.0)
