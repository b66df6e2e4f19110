"""Records refuse what cannot be as soon as they are made, and name field and value."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.model import (
    About,
    Accessory,
    Branch,
    Cable,
    Door,
    Enclosure,
    Finish,
    FinishArea,
    Joist,
    Layer,
    Opening,
    Pipe,
    Reading,
    Screen,
    Stud,
    Valve,
    Wall,
)
from geometry.model.record import FARTHEST, MOST_NAME, Record

WALL = Wall(width=760, height=2400)
VALVE = Valve(id="valve", part="valve-two-round", x=380, height=1030)
SIZE = "must be above 0 and at most 20000 mm, got "
EXTENT = "must be at least 0 and at most 20000 mm, got "
PLACE = "must be at least -20000 and at most 20000 mm, got "
NONSENSE = [math.nan, math.inf, -math.inf, 20000.1, 1e308]


def refusal(record: Record, **changes: object) -> str:
    with pytest.raises(ValueError, match=r"^\.") as problem:
        record.but(**changes)
    return str(problem.value)


@pytest.mark.parametrize("value", [*NONSENSE, 0.0, -0.0, -760.0, 5e-324 * -1])
def test_a_size_that_cannot_be_is_refused(value: float) -> None:
    assert refusal(WALL, width=value) == f".width: {SIZE}{value:.12g}"
    with pytest.raises(ValueError, match=r"^\.height: must be above 0 and at most 20000 mm, got "):
        Wall(width=760, height=value)


@pytest.mark.parametrize("value", [*NONSENSE, -0.1])
def test_a_thickness_that_cannot_be_is_refused(value: float) -> None:
    assert refusal(Layer(kind="tile", thickness=9), thickness=value) == f".thickness: {EXTENT}{value:.12g}"


@pytest.mark.parametrize("value", [*NONSENSE, -20000.1])
def test_a_place_that_cannot_be_is_refused(value: float) -> None:
    assert refusal(VALVE, x=value) == f".x: {PLACE}{value:.12g}"
    assert refusal(VALVE, height=value) == f".height: {PLACE}{value:.12g}"


@pytest.mark.parametrize("value", NONSENSE)
def test_a_point_that_cannot_be_is_refused_with_its_place_in_the_list(value: float) -> None:
    cable = Cable(id="c", route=((0, 0), (10, 10)))
    assert refusal(cable, route=((0, 0), (0, 5), (7, value))) == f".route[2][1]: {PLACE}{value:.12g}"
    screen = Screen(id="s", start=(0, 900), end=(500, 900))
    assert refusal(screen, end=(value, 900)) == f".end[0]: {PLACE}{value:.12g}"


def test_what_may_be_zero_is_allowed_to_be() -> None:
    assert Layer(kind="tile", thickness=0).thickness == 0
    assert VALVE.but(x=0, height=0).at == (0, 0)


def test_the_farthest_place_is_allowed_and_nothing_beyond() -> None:
    assert VALVE.but(x=FARTHEST).x == 20_000  # 20 m: nothing on one wall is longer
    assert VALVE.but(x=-FARTHEST).x == -20_000
    assert Wall(width=FARTHEST, height=FARTHEST).width == 20_000
    assert refusal(WALL, width=20_000.000001) == f".width: {SIZE}20000.000001"


# positions are kept to 0.1 mm, once


@given(st.floats(-FARTHEST, FARTHEST))
def test_a_position_is_kept_to_a_tenth_and_then_stays(x: float) -> None:
    kept = VALVE.but(x=x).x
    assert abs(kept - x) <= 0.05 + 1e-9
    assert kept == float(f"{kept:.1f}")
    assert VALVE.but(x=kept).x == kept


@given(st.integers(-200_000, 200_000))
def test_a_position_on_the_grid_is_kept_as_it_is(tenth: int) -> None:
    assert VALVE.but(x=tenth / 10).x == tenth / 10


def test_positions_in_a_route_are_kept_to_a_tenth() -> None:
    cable = Cable(id="c", route=((0.04, 99.96), (-0.04, 250.06)))
    assert cable.route == ((0.0, 100.0), (0.0, 250.1))


@pytest.mark.parametrize("value", [-0.0, -0.04])
def test_no_position_or_thickness_is_minus_nothing(value: float) -> None:
    # -0.0 equals 0.0 but is written as -0.0, so that files would differ
    assert math.copysign(1, VALVE.but(x=value).x) == 1
    assert math.copysign(1, Screen(id="s", start=(value, value), end=(1, 1)).start[1]) == 1
    assert math.copysign(1, Layer(kind="tile", thickness=-0.0).thickness) == 1


def test_a_size_is_kept_as_it_is_read_off_the_sheet() -> None:
    assert Layer(kind="tile", thickness=6.35).thickness == 6.35


# texts and names


BARRED = [".", "/", "\\", "'", '"', "\n", "\t", "\r", "\x00", "\x7f", "\x85", "\u2028", "\ud800"]


@pytest.mark.parametrize("mark", BARRED)
def test_a_name_without_marks_that_paths_and_lines_use(mark: str) -> None:
    assert refusal(VALVE, id=f"a{mark}b") == f".id: must not hold {mark!r}, got {f'a{mark}b'!r}"


@pytest.mark.parametrize("name", ["valve", "półka 2", "راس", "R&D <b>", "%%c", "淋浴", "🚿", "$", "[0]", "`"])
def test_a_name_in_any_script_is_allowed(name: str) -> None:
    assert VALVE.but(id=name).id == name


def test_a_name_has_1_to_60_characters() -> None:
    assert refusal(VALVE, id="") == ".id: must not be empty"
    assert VALVE.but(id="n" * MOST_NAME).id == "n" * 60
    assert refusal(VALVE, id="n" * 61) == ".id: must have at most 60 characters, has 61"


@pytest.mark.parametrize("mark", ["\x00", "\x08", "\x1b", "\x7f", "\ud800"])
def test_a_text_without_what_no_file_can_hold(mark: str) -> None:
    assert refusal(About(), title=mark) == f".title: must not hold {mark!r}, got {mark!r}"


@pytest.mark.parametrize("text", ["", "two\nlines", "a\tb", "</b> & %%c \\P", "\u202eabc", "x" * 300])
def test_a_text_may_hold_what_a_person_types(text: str) -> None:
    assert About(title=text).title == text


# what hangs together


def test_a_pipe_without_a_start_needs_the_place_of_its_feed() -> None:
    message = r"^\.route: must have the place of its supply as its first point, has none$"
    with pytest.raises(ValueError, match=message):
        Pipe(id="hot", service="hot", end="valve.hot")
    assert Pipe(id="riser", service="mixed", start="valve.out1", end="head.in").route == ()


def test_a_cable_has_two_points_or_more() -> None:
    with pytest.raises(ValueError, match=r"^\.route: must have 2 points or more, has 1$"):
        Cable(id="c", route=((0, 0),))


def test_a_rim_below_the_floor_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^\.rim: must not lie below the floor at 30 mm, got 29\.9$"):
        Enclosure(left=0, width=760, projection=760, floor=30, rim=29.9)
    assert Enclosure(left=0, width=760, projection=760, floor=30, rim=30).rim == 30


def test_a_door_swings_180_degrees_at_most() -> None:
    door = Door(id="d", hinge=(0, 0), width=700, angle_from=-90, angle_to=90)
    assert (
        refusal(door, angle_to=90.5) == ".angle_to: must be within 180 degrees of angle_from, is 180.5 away"
    )


@pytest.mark.parametrize("top", [50.0, 49.9])
def test_a_pane_that_ends_where_it_begins_or_below_is_refused(top: float) -> None:
    # a screen upside down would take up nothing, and whatever stands in it would pass
    said = f".top: must lie above bottom at 50 mm, got {top:g}"
    assert refusal(Screen(id="s", start=(0, 900), end=(500, 900)), bottom=50, top=top) == said
    door = Door(id="d", hinge=(0, 0), width=700, angle_from=0, angle_to=90)
    assert refusal(door, bottom=50, top=top) == said


@pytest.mark.parametrize("right", [100.0, 99.9])
def test_a_joist_that_ends_where_it_begins_or_left_of_it_is_refused(right: float) -> None:
    joist = Joist(id="j", height=1030, left=100, right=700)
    assert refusal(joist, right=right) == f".right: must lie right of left at 100 mm, got {right:g}"


def test_areas_of_the_finish_have_different_names() -> None:
    area = FinishArea(id="wall", layers=())
    with pytest.raises(ValueError, match=r"^\.areas\[1\]\.id: stands twice: 'wall'$"):
        Finish(areas=(area, area))


def test_pressures_flows_and_temperatures_have_bounds() -> None:
    branch = Branch(static=3.0, temperature=60)
    assert refusal(branch, static=-0.1) == ".static: must be at least 0 and at most 20 bar, got -0.1"
    assert refusal(branch, temperature=100) == ".temperature: must be at least 0 and at most 99 °C, got 100"
    assert refusal(Reading(pressure=1, flow=9), flow=math.nan).startswith(
        ".flow: must be at least 0 and at most 200"
    )


# changing


def test_a_changed_copy_is_checked_again_and_the_rest_is_shared() -> None:
    wall = Wall(width=760, height=2400, openings=(Opening(id="o", x=1, y=1, width=5, height=5),))
    wider = wall.but(width=900)
    assert (wider.width, wall.width) == (900, 760)
    assert wider.openings[0] is wall.openings[0]
    assert refusal(wall, width=-1) == f".width: {SIZE}-1"


def test_a_record_cannot_be_changed_in_place() -> None:
    with pytest.raises(AttributeError):
        VALVE.x = 5  # type: ignore[misc]


def test_equal_records_are_equal_and_can_be_kept_in_a_set() -> None:
    assert {Stud(id="s", x=100.04), Stud(id="s", x=100)} == {Stud(id="s", x=100)}
    assert len({Accessory(id="s", x=1, height=1), Stud(id="s", x=1)}) == 2
