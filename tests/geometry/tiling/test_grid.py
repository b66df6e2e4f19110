import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from geometry.model import Tiling
from geometry.model.finish import Bond
from geometry.tiling.grid import Tile, shift, tiles_over

BOX = (10.0, 20.0, 410.0, 300.0)
BONDS: tuple[Bond, ...] = ("straight", "half", "third", "vertical", "herringbone")


def tiles(**tiling: object) -> list[Tile]:
    return list(tiles_over(Tiling(**tiling), BOX))  # type: ignore[arg-type]


def test_a_straight_grid_begins_at_its_start_and_repeats_by_tile_and_joint() -> None:
    # columns begin at -55, 48, 151, 254, 357 (pitch 103), rows at 0, 53 and so on (pitch 53)
    found = tiles(wide=100, high=50, joint=3, start_x=48, start_y=0)
    assert sorted({tile.x for tile in found}) == [-55, 48, 151, 254, 357]
    assert sorted({tile.y for tile in found}) == [0, 53, 106, 159, 212, 265]


@pytest.mark.parametrize(
    ("bond", "direction", "shifts"),
    [
        ("straight", "right", [0, 0, 0, 0]),
        ("half", "right", [0, 60, 0, 60]),
        ("third", "right", [0, 40, 80, 0]),
        ("third", "left", [0, -40, -80, 0]),
        ("vertical", "left", [0, 30, 0, 30]),
    ],
)
def test_courses_are_shifted_by_a_share_of_the_tile_with_its_joint(
    bond: Bond, direction: str, shifts: list[float]
) -> None:
    # 118 + 2 = 120 along a row, 58 + 2 = 60 up a column
    tiling = Tiling(wide=118, high=58, joint=2, bond=bond, direction=direction)  # type: ignore[arg-type]
    assert [shift(tiling, course) for course in range(4)] == shifts


@given(
    bond=st.sampled_from(BONDS),
    direction=st.sampled_from(("right", "left")),
    wide=st.integers(20, 120),
    high=st.integers(20, 120),
    start=st.integers(-200, 200),
)
def test_without_joints_every_bond_covers_the_box_once(
    bond: Bond, direction: str, wide: int, high: int, start: int
) -> None:
    found = tiles(wide=wide, high=high, joint=0, bond=bond, direction=direction, start_x=start, start_y=-7)
    boxes = [shapely.box(*tile.bounds) for tile in found]
    box = shapely.box(*BOX)
    inside = shapely.intersection(boxes, box)
    assert sum(shapely.area(inside)) == pytest.approx(box.area)
    assert shapely.area(shapely.union_all(inside)) == pytest.approx(box.area)


@given(joint=st.integers(0, 10), bond=st.sampled_from(BONDS))
def test_tiles_lie_at_least_a_joint_apart(joint: int, bond: Bond) -> None:
    found = tiles(wide=60, high=25, joint=joint, bond=bond, start_x=3)
    boxes = [shapely.box(*tile.bounds) for tile in found]
    tree = shapely.STRtree(boxes)
    for index, box in enumerate(boxes):
        others = [
            boxes[other] for other in tree.query(box, predicate="dwithin", distance=20) if other != index
        ]
        assert all(box.distance(other) >= joint - 1e-9 for other in others)


def test_the_first_tile_of_a_herringbone_lies_at_its_start_and_the_next_stands_beside_it() -> None:
    # joints included a tile is 60 x 30: the next one stands at (60, 30 - 60) from the first
    tiling = Tiling(wide=58, high=28, joint=2, bond="herringbone", start_x=100, start_y=100)
    found = {tile[2:] for tile in tiles_over(tiling, (100, 100, 200, 120))}
    assert (100, 100, 58, 28) in found
    assert (160, 70, 28, 58) in found


def test_a_herringbone_to_the_left_is_the_mirror_image_about_the_first_tile() -> None:
    box = (0.0, 0.0, 258.0, 200.0)  # its middle is that of the first tile: 100 + 58 / 2
    tiling = Tiling(wide=58, high=28, joint=2, bond="herringbone", start_x=100)
    right = {tile[2:] for tile in tiles_over(tiling, box)}
    left = {tile[2:] for tile in tiles_over(tiling.but(direction="left"), box)}
    assert {(258 - x - wide, y, wide, high) for x, y, wide, high in right} == left
