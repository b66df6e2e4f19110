"""The best start of a herringbone: what is said of each start is what its pieces come to, one by one."""

import random

import numpy as np
import pytest
import shapely

from geometry.edits.finish import started
from geometry.model import Tiling, Valve
from geometry.plan import Plan
from geometry.tiling.best_start import best_starts
from geometry.tiling.drilling import drilled
from geometry.tiling.herringbone import apart, band
from geometry.tiling.pieces import pieces_of
from geometry.tiling.region import faced
from geometry.tiling.setting import targets_of
from tests.geometry.checks.walls import plan_of
from tests.geometry.tiling.starts import random_wall
from tests.geometry.tiling.walls import tiled_plan

CLEAR = 25.0
"""Mm from a hole to the edge of its tile: `tiling.hole_edge`."""


def in_herringbone(seed: int) -> Plan:
    """Return one of the random walls without its opening, in herringbone."""
    job = random_wall(seed).job
    tiling = job.finish.tiling
    assert tiling is not None
    finish = job.finish.but(tiling=tiling.but(bond="herringbone"))
    return plan_of(job.but(finish=finish, wall=job.wall.but(openings=())))


@pytest.mark.parametrize("seed", range(20))
def test_every_start_comes_to_what_its_pieces_come_to(seed: int) -> None:
    plan, dice = in_herringbone(seed), random.Random(seed)
    held = band(plan)
    (face,) = faced(plan.job.finish, plan.job.wall, plan.job.enclosure, "tile")
    best = divmod(int(np.argmax(held.points)), len(held.y))
    tried = [(dice.randrange(len(held.x)), dice.randrange(len(held.y))) for _ in range(4)]
    for i, j in (best, *tried):
        laid = plan_of(started(plan, (float(held.x[i]), float(held.y[j]))))
        pieces = pieces_of(laid)
        assert held.narrowest[i, j] == pytest.approx(min(min(piece.cut_sides) for piece in pieces))
        by_place = {one.hole.at: one for one in drilled(laid, pieces)}
        rims, all_amid = [], True
        for target, split in zip(targets_of(plan), held.split, strict=True):
            reach = target.radius + CLEAR
            box = shapely.box(
                target.along - reach, target.up - reach, target.along + reach, target.up + reach
            )
            if not shapely.contains(face.shape, box):  # the ends of the tiles are near at any start
                all_amid = False
                continue
            one = by_place[target.along, target.up]
            rims.append(one.rim)
            assert split[i, j] == one.across_joint
        is_near = any(rim < CLEAR - 1e-6 for rim in rims)
        assert not is_near or held.points[i, j] == -np.inf
        if all_amid:
            assert (held.points[i, j] == -np.inf) == is_near


def test_starts_that_differ_by_the_pattern_are_one() -> None:
    tiling = Tiling(wide=297, high=97, joint=3)
    # with joints 300 and 100: it repeats by (100, 100) and by (300, -300)
    for x, y in ((100, 100), (300, -300), (500, -100)):
        assert apart(tiling, np.array([x + 7.0]), np.array([y - 4.0])) == pytest.approx([7.0])


def test_a_valve_comes_to_the_middle_of_a_tile_and_the_cuts_are_wide() -> None:
    # a face of 1000 x 1000 in tiles of 400 x 200 without joints; the hole of the valve is 120 across, and
    # with 25 beside it goes into a tile of 200
    valve = Valve(id="valve", part="valve-two-round", x=500.0, height=500.0)
    tiling = Tiling(wide=400, high=200, joint=0, border=0, bond="herringbone")
    plan = tiled_plan(tiling, valve)
    best = best_starts(plan)[0]
    assert "every hole clear of the joints" in best.reasons
    pieces = pieces_of(plan_of(started(plan, (best.x, best.y))))
    assert best.narrowest == pytest.approx(min(min(piece.cut_sides) for piece in pieces))
    # the grid of 200 goes into 1000 five times, so there are starts that cut nothing narrower than 100
    assert best.narrowest >= 100


def test_the_fittings_of_a_herringbone_may_be_moved_too() -> None:
    valve = Valve(id="valve", part="valve-two-round", x=490.0, height=500.0)
    plan = tiled_plan(Tiling(wide=100, high=200, joint=0, border=0, bond="herringbone"), valve)
    held, allowed = best_starts(plan)[0], best_starts(plan, tolerance=10)[0]
    assert held.move == (0, 0)
    assert allowed.points >= held.points
    assert max(abs(allowed.move[0]), abs(allowed.move[1])) <= 10
