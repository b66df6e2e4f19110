import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from geometry.model import Job, Niche, Opening, Region, Tiling
from geometry.model.finish import MovementJoint
from geometry.tiling.pieces import Piece, lay
from geometry.tiling.region import faced, trimmed
from tests.geometry.tiling.walls import tiled


def laid(job: Job) -> dict[str, Piece]:
    return {piece.name: piece for piece in lay(job.finish, job.wall, job.enclosure)}


def sizes(job: Job) -> dict[str, tuple[float, float]]:
    return {name: piece.size for name, piece in laid(job).items()}


def test_the_cuts_of_an_alcove_worked_by_hand() -> None:
    """760 x 2400 over a rim of 40, tiles 300 x 600, joint 3, border 5, first tile in the corner.

    Along: faced from 5 to 755; tiles 0-300, 303-603, 606-906, so 295, 300 and 755 - 606 = 149 are left.
    Up: faced from 45 to 2395; tiles 0-600, 603-1203, 1206-1806, 1809-2409: 555, 600, 600, 586.
    """
    job = tiled(Tiling(wide=300, high=600, joint=3), width=760, height=2400, rim=40)
    wide, high = (295, 300, 149), (555, 600, 600, 586)
    expected = {
        f"R{row} C{column}": (w, h) for row, h in enumerate(high, 1) for column, w in enumerate(wide, 1)
    }
    assert sizes(job) == expected
    whole = [name for name, piece in laid(job).items() if piece.kind == "whole"]
    assert whole == ["R2 C2", "R3 C2"]


def test_a_row_of_the_half_bond_begins_with_half_a_tile_every_other_time() -> None:
    # no joint: 1000 / 200 = 5 tiles in the first row; shifted by 100: half, four, half in the second
    job = tiled(Tiling(wide=200, high=500, joint=0, border=0, bond="half"))
    assert [size[0] for name, size in sizes(job).items() if name.startswith("R1")] == [200] * 5
    assert [size[0] for name, size in sizes(job).items() if name.startswith("R2")] == [
        100,
        200,
        200,
        200,
        200,
        100,
    ]


def test_a_movement_joint_parts_the_tiles_that_it_crosses() -> None:
    # 1000 in tiles of 200 without joints; 6 about 500 takes 497 to 503 out of the third column: 97 and 97
    job = tiled(Tiling(wide=200, high=500, joint=0, border=0))
    job = job.but(finish=job.finish.but(movement=(MovementJoint(id="move", at=500.0),)))
    assert {name: size[0] for name, size in sizes(job).items() if name.startswith("R1")} == {
        "R1 C1": 200, "R1 C2": 200, "R1 C3a": 97, "R1 C3b": 97, "R1 C4": 200, "R1 C5": 200,
    }  # fmt: skip
    level = job.but(finish=job.finish.but(movement=(MovementJoint(id="move", runs="level", at=500.0),)))
    # the rows end at 497 and begin at 503
    assert {size[1] for size in sizes(level).values()} == {497}


def test_a_trim_takes_the_place_of_the_gap_at_openings_and_free_ends() -> None:
    # the wall is free at the right: 1000 - 12; the window's left edge at 350 less 12; the corner keeps its 5
    window = Opening(id="w", x=350, y=350, width=300, height=300)
    job = tiled(Tiling(wide=100, high=100, joint=0, border=5, trim=12), openings=[window])
    job = job.but(wall=job.wall.but(left="corner", right="free_end"))
    (face,) = faced(job.finish, job.wall, job.enclosure, "tile")
    xs = sorted(set(shapely.get_coordinates(face.shape)[:, 0].tolist()))
    assert xs == [5, 338, 662, 988]
    # four sides of 300, and the free end of 1000
    assert trimmed(job.finish, job.wall) == 2200


def test_a_window_notches_the_tiles_at_its_corners() -> None:
    """1000 x 1000 in 100 x 100 tiles without joints; a window from 350 to 650 both ways.

    Inside it lie whole 400-600 both ways: 4 tiles are gone. Of the 12 round it the 4 at its corners lose a
    quarter, the 8 between lose half.
    """
    window = Opening(id="w", x=350, y=350, width=300, height=300)
    job = tiled(Tiling(wide=100, high=100, joint=0, border=0), openings=[window])
    pieces = laid(job)
    assert len(pieces) == 96
    notched = [piece for piece in pieces.values() if piece.kind == "notched"]
    assert [shapely.area(piece.shape) for piece in notched] == pytest.approx([7500] * 4)
    assert {piece.name for piece in notched} == {"R4 C4", "R4 C7", "R7 C4", "R7 C7"}
    cut = [piece for piece in pieces.values() if piece.kind == "cut"]
    assert [shapely.area(piece.shape) for piece in cut] == pytest.approx([5000] * 8)


def test_a_tile_that_an_opening_parts_is_two_pieces_with_letters() -> None:
    # a slot from 140 to 160 through the height of the tile from 100 to 200
    slot = Opening(id="slot", x=140, y=0, width=20, height=1000)
    job = tiled(Tiling(wide=100, high=1000, joint=0, border=0), openings=[slot])
    assert sizes(job)["R1 C2a"] == (40, 1000)
    assert sizes(job)["R1 C2b"] == (40, 1000)


def test_a_column_keeps_its_number_beside_a_door() -> None:
    door = Opening(id="door", x=0, y=0, width=300, height=500)
    job = tiled(Tiling(wide=100, high=100, joint=0, border=0), openings=[door])
    assert laid(job)["R1 C4"].bounds == (300, 0, 400, 100)  # the first in its row
    assert laid(job)["R6 C4"].bounds == (300, 500, 400, 600)


def test_a_niche_leaves_a_ring_of_tile_round_it() -> None:
    niche = Niche(id="niche", x=400, y=400, width=200, height=200)
    job = tiled(Tiling(wide=1000, high=1000, joint=0, border=0), niches=[niche])
    (piece,) = laid(job).values()
    outline, inner = piece.rings
    assert piece.kind == "notched"
    assert set(outline) == {(0, 0), (1000, 0), (1000, 1000), (0, 1000)}
    assert set(inner) == {(400, 400), (600, 400), (600, 600), (400, 600)}


def test_tiles_end_where_their_area_ends() -> None:
    job = tiled(
        Tiling(wide=400, high=400, joint=0, border=0), region=Region(x=0, y=0, width=1000, height=600)
    )
    assert sizes(job)["R2 C3"] == (200, 200)
    assert len(laid(job)) == 6


def test_a_step_in_the_build_up_cuts_a_tile_in_two() -> None:
    job = tiled(
        Tiling(wide=400, high=400, joint=0, border=0), region=Region(x=0, y=0, width=500, height=1000)
    )
    (left,) = job.finish.areas
    rest = left.but(id="rest", region=None)
    both = job.but(finish=job.finish.but(areas=(left, rest)))
    assert sizes(both)["R1 C2a"] == (100, 400)
    assert sizes(both)["R1 C2b"] == (300, 400)


def test_a_piece_of_less_than_a_twentieth_of_a_millimetre_is_none() -> None:
    assert len(laid(tiled(Tiling(wide=333.3, high=1000, joint=0, border=0)))) == 4  # 3 x 333.3 leave 0.1
    assert len(laid(tiled(Tiling(wide=999.96, high=1000, joint=0, border=0), width=1000))) == 1


def test_mosaic_beyond_counting_is_refused() -> None:
    with pytest.raises(ValueError, match="more than 20000 on this wall"):
        laid(tiled(Tiling(wide=5, high=5, joint=1)))


bonds = st.sampled_from(("straight", "half", "third", "vertical", "herringbone"))
tilings = st.builds(
    Tiling, wide=st.integers(60, 400), high=st.integers(60, 400), joint=st.integers(0, 6), bond=bonds,
    start_x=st.integers(-300, 300), start_y=st.integers(-300, 300), border=st.integers(0, 8),
)  # fmt: skip
openings = st.builds(
    Opening, id=st.just("o"), x=st.integers(-100, 900), y=st.integers(-100, 900), width=st.integers(20, 600),
    height=st.integers(20, 600),
)  # fmt: skip


@given(tiling=tilings, opening=openings)
@settings(max_examples=30)
def test_pieces_cover_what_an_independent_construction_covers(tiling: Tiling, opening: Opening) -> None:
    """The face less a band for every joint, against the sum of the pieces."""
    if tiling.bond not in ("straight", "half", "third"):
        tiling = tiling.but(bond="straight")
    job = tiled(tiling, openings=[opening])
    border = tiling.border
    face = shapely.box(border, border, 1000 - border, 1000 - border)
    hole = shapely.box(opening.x, opening.y, opening.x + opening.width, opening.y + opening.height)
    share = {"straight": 1, "half": 2, "third": 3}[tiling.bond]
    wide, high = tiling.wide + tiling.joint, tiling.high + tiling.joint
    rows, columns = np.meshgrid(np.arange(-12, 24), np.arange(-12, 24))
    x = tiling.start_x + (columns + (rows % share) / share) * wide
    y = tiling.start_y + rows * high
    lows = [(float(a), float(b)) for a, b in zip(x.ravel(), y.ravel(), strict=True)]
    joint = tiling.joint
    bands = [shapely.box(a - joint, b - joint, a, b + tiling.high) for a, b in lows]
    bands += [shapely.box(-50, b - joint, 1050, b) for b in {b for _, b in lows}]
    joints = shapely.union_all([*bands, hole.buffer(border, join_style="mitre")])
    left = float(shapely.area(shapely.difference(face, joints)))
    assert sum(float(shapely.area(piece.shape)) for piece in laid(job).values()) == pytest.approx(
        left, abs=60
    )


@given(tiling=tilings, opening=openings)
@settings(max_examples=30)
def test_no_two_pieces_overlap_and_none_leaves_the_face(tiling: Tiling, opening: Opening) -> None:
    job = tiled(tiling, openings=[opening])
    shapes = [piece.shape for piece in laid(job).values()]
    faces = shapely.union_all([one.shape for one in faced(job.finish, job.wall, job.enclosure, "tile")])
    union = shapely.union_all(shapes)
    assert float(shapely.area(union)) == pytest.approx(sum(float(shapely.area(s)) for s in shapes), abs=1e-3)
    assert float(shapely.area(union - faces)) == pytest.approx(0, abs=1e-3)
