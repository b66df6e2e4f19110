"""How thick the finish is at a place: as planned, and at its least and most."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.build_up import area_at, build_up
from geometry.model import XY, Finish, FinishArea, Layer, Region

BOARD = Layer(kind="board", thickness=12.5)
ADHESIVE = Layer(kind="adhesive", thickness=4, tolerance=1)
TILE = Layer(kind="tile", thickness=9, tolerance=0.5)
PART = Region(x=100, y=200, width=300, height=400)
TILED = FinishArea(id="tiled", layers=(BOARD, ADHESIVE, TILE), region=PART)
ELSEWHERE = FinishArea(id="elsewhere", layers=(BOARD,))


def test_the_layers_of_the_area_are_added_up() -> None:
    found = build_up(Finish(areas=(TILED,)), (200, 300))
    assert found.planned == 25.5  # 12.5 + 4 + 9
    assert found.least == 24.0  # less 1 and 0.5
    assert found.most == 27.0  # plus 1 and 0.5
    assert found.layers == (BOARD, ADHESIVE, TILE)


def test_a_wall_without_finish_is_bare() -> None:
    assert build_up(Finish(), (200, 300)) == (0, 0, 0, ())
    assert build_up(Finish(areas=(TILED,)), (0, 0)) == (0, 0, 0, ())


def test_a_layer_is_never_thinner_than_nothing() -> None:
    skim = Layer(kind="plaster", thickness=2, tolerance=3)
    found = build_up(Finish(areas=(FinishArea(id="a", layers=(skim, TILE)),)), (0, 0))
    # the skim may be 0 to 5, the tile 8.5 to 9.5
    assert (found.least, found.planned, found.most) == (8.5, 11.0, 14.5)


@pytest.mark.parametrize("at", [(100, 200), (400, 200), (100, 600), (400, 600), (250, 200), (400, 300)])
def test_the_edge_of_an_area_belongs_to_it(at: XY) -> None:
    assert area_at(Finish(areas=(TILED, ELSEWHERE)), at) is TILED


@pytest.mark.parametrize("at", [(99.9, 300), (400.1, 300), (200, 199.9), (200, 600.1)])
def test_a_tenth_outside_an_area_is_outside(at: XY) -> None:
    finish = Finish(areas=(TILED, ELSEWHERE))
    assert area_at(finish, at) is ELSEWHERE
    assert build_up(finish, at).planned == 12.5


def test_an_edge_that_binary_fractions_move_still_belongs() -> None:
    # 0.7 + 0.1 is 0.7999999999999999, yet 0.8 lies on the edge
    strip = FinishArea(id="strip", layers=(TILE,), region=Region(x=0.7, y=0.7, width=0.1, height=0.1))
    assert area_at(Finish(areas=(strip,)), (0.8, 0.8)) is strip


@given(st.integers(0, 5000), st.integers(1, 5000), st.integers(-1, 1), st.booleans())
def test_every_point_of_the_grid_is_inside_or_outside_as_on_paper(
    left: int, width: int, beside: int, right: bool
) -> None:
    area = FinishArea(id="a", layers=(), region=Region(x=left / 10, y=0, width=width / 10, height=100))
    x = (left + width if right else left) + beside  # at an edge, or a tenth to its left or right
    inside = area_at(Finish(areas=(area,)), (x / 10, 50)) is not None
    assert inside == (left <= x <= left + width)


def test_the_first_area_that_covers_a_place_counts() -> None:
    panel = FinishArea(id="panel", layers=(BOARD,), region=PART)
    assert area_at(Finish(areas=(panel, TILED)), (200, 300)) is panel
    assert area_at(Finish(areas=(TILED, panel)), (200, 300)) is TILED


def test_an_area_without_layers_is_bare_and_hides_what_comes_later() -> None:
    bare = FinishArea(id="bare", layers=(), region=PART)
    assert build_up(Finish(areas=(bare, ELSEWHERE)), (200, 300)).planned == 0


@given(st.lists(st.tuples(st.integers(0, 200), st.integers(0, 50)), max_size=6))
def test_the_planned_thickness_lies_between_least_and_most(sizes: list[tuple[int, int]]) -> None:
    layers = tuple(Layer(kind="tile", thickness=t / 10, tolerance=s / 10) for t, s in sizes)
    found = build_up(Finish(areas=(FinishArea(id="a", layers=layers),)), (0, 0))
    assert -1e-9 <= found.least <= found.planned <= found.most
    assert found.planned == pytest.approx(sum(t for t, _ in sizes) / 10)
    assert found.most == pytest.approx(sum(t + s for t, s in sizes) / 10)
    assert found.least == pytest.approx(sum(max(0, t - s) for t, s in sizes) / 10)
