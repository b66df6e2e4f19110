"""Amounts and limits of tiling against published formulae and pages."""

import pytest

from geometry.model import Tiling
from geometry.rules import standard_rules
from geometry.tiling.amounts import grout_weight
from geometry.tiling.pieces import lay
from tests.geometry.tiling.walls import tiled


@pytest.mark.parametrize(
    ("wide", "high", "deep", "joint", "published"),
    [(300, 600, 9, 3, 0.216), (200, 200, 8, 2, 0.256), (600, 600, 10, 3, 0.160), (150, 150, 6.5, 2, 0.277)],
)
def test_grout_by_the_makers_formula(
    wide: float, high: float, deep: float, joint: float, published: float
) -> None:
    """kg/m2 = (L + W) / (L x W) x T x J x 1.6, as printed on makers' pages."""
    assert grout_weight(Tiling(wide=wide, high=high, joint=joint), deep) == pytest.approx(published, abs=5e-4)


def test_grout_by_the_formula_is_close_to_the_joints_that_are_there() -> None:
    """300 x 600, joint 3, 9 deep: the share of joint is 1 - 300 x 600 / (303 x 603), times 9 x 1.6."""
    exact = (1 - 300 * 600 / (303 * 603)) * 9 * 1.6
    assert exact == pytest.approx(0.2135, abs=1e-4)
    assert grout_weight(Tiling(wide=300, high=600, joint=3), 9) == pytest.approx(exact, rel=0.013)


@pytest.mark.parametrize(("wall", "tile", "full"), [(1000, 300, 3), (2500, 200, 12), (1840, 250, 7)])
def test_end_cuts_by_the_half_tile_rule(wall: float, tile: float, full: int) -> None:
    """(wall - n x tile + tile) / 2 with n full tiles in the course: US military construction manual 14044."""
    published = (wall - full * tile + tile) / 2
    job = tiled(Tiling(wide=tile, high=1000, joint=0, border=0, start_x=published), width=wall)
    sizes = [piece.size[0] for piece in lay(job.finish, job.wall, job.enclosure)]
    assert (sizes[0], sizes[-1]) == pytest.approx((published, published))
    assert len(sizes) == full + 1
    assert published >= tile / 2


@pytest.mark.parametrize(
    ("rule", "value", "source"),
    [
        ("half_cut", 50, "ANSI A108.02 4.3.1 (published)"),
        ("weight_plaster", 20, "BS 5385-1:2018 (published)"),
        ("solid_bed", 70, "BS 5385-1:2018 (published)"),
        ("joint_small", 2, "BS 5385-1:2018 (published)"),
        ("joint_large", 3, "BS 5385-1:2018 (published)"),
    ],
)
def test_limits_are_those_that_are_published(rule: str, value: float, source: str) -> None:
    limit = standard_rules()[f"tiling.{rule}"]
    assert (limit.value, str(limit.source)) == (value, source)
