"""The points that a pipe takes between its ports, and how straight it leaves them."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.model import XY, Pipe, Wall
from geometry.parts.records import Direction
from geometry.pipework.routes import UNIT, Course, PortAt, corners, course, leaves_wall, straight_out

places = st.tuples(st.integers(-2000, 2000), st.integers(-2000, 2000)).map(lambda p: (p[0] / 10, p[1] / 10))
directions = st.sampled_from(tuple(UNIT))


def port(at: XY, direction: Direction | None = None, name: str = "valve.out1") -> PortAt:
    return PortAt(name, at, direction, "mixed", "G1/2")


def pipe(*route: XY, start: str | None = None) -> Pipe:
    return Pipe(id="run", service="mixed", start=start, end="head.in", route=route)


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("valve.hot", "hot inlet of valve"),
        ("valve.out2", "outlet 2 of valve"),
        ("valve.spray", "spray of valve"),  # as a maker may name it
        ("valve.outer", "outer of valve"),
        ("head.in", "head"),
    ],
)
def test_a_port_is_told_as_people_say_it(name: str, words: str) -> None:
    assert port((0, 0), name=name).words == words


def test_feed_below_its_port_leads_straight_up() -> None:
    assert course(pipe((335, 0)), None, port((335, 960), "down")).points == ((335, 0), (335, 960))


def test_feed_beside_its_port_turns_once_below_it() -> None:
    # the port looks down, so the last leg is plumb and the turn lies under the port
    held = course(pipe((600, 0)), None, port((335, 960), "down"))
    assert held.points == ((600, 0), (335, 0), (335, 960))


def test_a_pipe_leaves_a_port_in_the_ports_direction() -> None:
    up = course(pipe(start="valve.out1"), port((380, 1100), "up"), port((570, 1800)))
    assert up.points == ((380, 1100), (380, 1800), (570, 1800))
    aside = course(pipe(start="valve.out2"), port((445, 1030), "right"), port((570, 1800)))
    assert aside.points == ((445, 1030), (570, 1030), (570, 1800))


def test_an_elbow_follows_the_port_at_the_other_end() -> None:
    held = course(pipe(start="head.in"), port((570, 1800)), port((445, 1030), "right"))
    assert held.points == ((570, 1800), (570, 1030), (445, 1030))


def test_between_two_elbows_the_leg_at_the_end_is_plumb() -> None:
    held = course(pipe(start="a.in"), port((0, 0)), port((300, 500)))
    assert held.points == ((0, 0), (300, 0), (300, 500))


def test_points_between_are_kept_and_repeats_left_out() -> None:
    held = course(pipe((0, 0), (0, 0), (0, 300), (200, 300)), None, port((200, 600), "down"))
    assert held.points == ((0, 0), (0, 300), (200, 300), (200, 600))
    assert held.length == 300 + 200 + 300


@given(places, places, directions)
def test_every_leg_between_two_ports_is_level_or_plumb(a: XY, b: XY, direction: Direction) -> None:
    points = course(pipe(start="valve.out1"), port(a, direction), port(b)).points
    assert points[0] == a
    assert points[-1] == b
    assert all(abs(x0 - x1) < 0.05 or abs(y0 - y1) < 0.05 for (x0, y0), (x1, y1) in pairwise(points))


def test_straight_run_out_of_a_port_is_measured_to_the_first_turn() -> None:
    held = course(pipe((600, 0), (600, 500), (335, 500)), None, port((335, 960), "down"))
    assert straight_out(held, held.end, at_end=True) == 460  # 960 - 500


def test_a_point_on_the_way_does_not_end_the_straight_run() -> None:
    held = course(pipe((335, 0), (335, 940)), None, port((335, 960), "down"))
    assert straight_out(held, held.end, at_end=True) == 960


@pytest.mark.parametrize(
    ("to", "expected"),
    [((380.0, 1150.0), 50.0), ((380.0, 1050.0), -50.0), ((430.0, 1100.0), 0.0), ((400.0, 1150.0), 0.0)],
    ids=["ahead", "backwards", "sideways", "aslant"],
)
def test_only_a_leg_in_the_ports_direction_counts(to: XY, expected: float) -> None:
    start = port((380, 1100), "up")
    assert straight_out(Course((start.at, to), start, port(to)), start, at_end=False) == expected


def test_an_elbow_counts_its_first_leg_whole() -> None:
    end = port((570, 1030))
    assert straight_out(Course(((445, 1030), (570, 1030)), None, end), end, at_end=True) == 125


def test_a_pipe_without_length_has_no_straight_run() -> None:
    end = port((570, 1030), "up")
    assert straight_out(Course(((570, 1030),), None, end), end, at_end=True) == 0


def test_points_on_the_way_are_no_corners_but_the_way_back_is() -> None:
    assert corners(((0, 0), (0, 100), (0, 300), (200, 300))) == ((0, 0), (0, 300), (200, 300))
    assert corners(((0, 0), (0, 300), (0, 100))) == ((0, 0), (0, 300), (0, 100))


@pytest.mark.parametrize(
    ("at", "leaves"),
    [((335, 0), True), ((335, 0.1), False), ((0, 900), True), ((760, 900), True), ((335, 2400), True)],
)
def test_a_pipe_leaves_the_wall_at_its_edges(at: XY, leaves: bool) -> None:
    assert leaves_wall(Wall(width=760, height=2400), at) is leaves
