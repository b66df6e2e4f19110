import pytest

from geometry.model import FinishArea, Layer, Tiling
from geometry.tiling.amounts import Amounts, amounts, grout_weight, square_weight
from geometry.tiling.pieces import lay
from tests.geometry.tiling.walls import TILED, tiled


def taken(tiling: Tiling, faced: float = 1.0, **rest: object) -> Amounts:
    job = tiled(tiling, **rest)  # type: ignore[arg-type]
    return amounts(lay(job.finish, job.wall, job.enclosure), tiling, job.finish.areas, faced)


def test_the_alcove_takes_two_whole_tiles_and_ten_cut_ones() -> None:
    # worked by hand in test_pieces: 12 pieces; 12 x 1.10 = 13.2, so 14; in boxes of 8 two boxes, 16 tiles
    found = taken(Tiling(wide=300, high=600, joint=3, boxed=8), width=760, height=2400, rim=40)
    assert (found.whole, found.cut, found.boxes, found.bought) == (2, 10, 2, 16)


def test_without_a_box_size_only_the_spare_ones_are_rounded_up() -> None:
    found = taken(Tiling(wide=100, high=100, joint=0, border=0, spare=10))  # 100 + 10, and no rounding error
    assert (found.whole, found.bought, found.boxes) == (100, 110, 0)
    assert taken(Tiling(wide=100, high=100, joint=0, border=0, spare=10.5)).bought == 111


def test_grout_and_adhesive_follow_from_area_joint_and_bed() -> None:
    # 300 x 600, joint 3, 9 deep: 900 / 180000 x 3 x 9 x 1.6 = 0.216 kg/m2; bed 4: 4 x 1.2 and 4 x 1.5 kg/m2
    found = taken(Tiling(wide=300, high=600, joint=3), faced=10.0)
    assert found.grout == pytest.approx(2.16)
    assert (found.adhesive_least, found.adhesive_most) == pytest.approx((48.0, 60.0))


def test_a_square_metre_weighs_tile_bed_and_grout() -> None:
    area = FinishArea(id="a", layers=TILED)
    tiling = Tiling(wide=300, high=600, joint=3)
    assert square_weight(tiling, area) == pytest.approx(9 * 2.3 + 4 * 1.5 + 0.216)
    assert square_weight(tiling.but(weight=18.0), area) == pytest.approx(18 + 6 + 0.216)


def test_no_joint_takes_no_grout() -> None:
    assert grout_weight(Tiling(joint=0), 9) == 0


def test_layers_of_one_kind_count_together() -> None:
    twice = FinishArea(id="a", layers=(*TILED, Layer(kind="adhesive", thickness=2.0)))
    assert square_weight(Tiling(wide=300, high=600, joint=0), twice) == pytest.approx(20.7 + 6 * 1.5)
