import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.photo import Backdrop, perspective
from tests.geometry.camera import ASKEW, CORNERS, MARKS, Camera


def seen(camera: Camera) -> list[tuple[float, float]]:
    return [camera.sees(at) for at in CORNERS]


def test_what_a_camera_saw_is_put_back_where_it_is() -> None:
    held = perspective(seen(ASKEW), CORNERS)
    assert held.to_wall([ASKEW.sees(at) for at in MARKS]) == pytest.approx(np.array(MARKS), abs=1e-6)
    assert held.to_picture(MARKS) == pytest.approx(np.array([ASKEW.sees(at) for at in MARKS]), abs=1e-6)


def test_what_lies_behind_the_camera_is_nowhere() -> None:
    # at the camera's own height, ahead is dx sin 14 + 3000 cos 14: 0 at dx = -12032; it stands at x 200
    held = perspective(seen(ASKEW), CORNERS)
    assert np.isnan(held.to_picture([(200 - 12_100, 1500.0)])).all()
    assert np.isfinite(held.to_picture([(200 - 11_900, 1500.0)])).all()


@given(turned=st.floats(-30, 30), tipped=st.floats(-20, 20), x=st.floats(0, 2000), away=st.floats(2500, 6000))
def test_any_view_of_the_wall_is_put_back(turned: float, tipped: float, x: float, away: float) -> None:
    camera = Camera(x=x, y=1200.0, away=away, turned=turned, tipped=tipped)
    held = perspective(seen(camera), CORNERS)
    assert held.to_wall([camera.sees(at) for at in MARKS]) == pytest.approx(np.array(MARKS), abs=1e-3)


def test_points_marked_to_half_a_pixel_put_marks_back_within_two_millimetres() -> None:
    rough = [(round(2 * x) / 2, round(2 * y) / 2) for x, y in seen(ASKEW)]
    off = perspective(rough, CORNERS).to_wall([ASKEW.sees(at) for at in MARKS]) - np.array(MARKS)
    assert np.hypot(*off.T).max() < 2


@pytest.mark.parametrize(
    ("picture", "message"),
    [
        ([(0, 9), (9, 9), (9, 0)], "must have 4 points, has 3"),
        ([(0, 9), (5, 9), (9, 9), (0, 0)], "three of the four points lie on one line"),
        ([(0, 0)] * 4, "three of the four points lie on one line"),
        ([(0, 9), (9, 0), (9, 9), (0, 0)], "do not go round in the order"),
        ([(0, 0), (9, 0), (9, 9), (0, 9)], "two are swapped"),
    ],
)
def test_points_that_cannot_be_are_refused(picture: list[tuple[float, float]], message: str) -> None:
    with pytest.raises(ValueError, match=message):
        perspective(picture, [(0, 0), (900, 0), (900, 900), (0, 900)])


def test_a_backdrop_refuses_points_without_a_perspective() -> None:
    square = ((0.0, 0.0), (900.0, 0.0), (900.0, 900.0), (0.0, 900.0))
    assert Backdrop(picture=((0, 9), (9, 9), (9, 0), (0, 0)), wall=square).strength == 0.5
    with pytest.raises(ValueError, match=r"\.wall: must have 4 points, has 3"):
        Backdrop(picture=((0, 9), (9, 9), (9, 0), (0, 0)), wall=square[:3])
    with pytest.raises(ValueError, match=r"\.strength: must be at least 0 and at most 1, got 2"):
        Backdrop(picture=((0, 9), (9, 9), (9, 0), (0, 0)), wall=square, strength=2.0)
