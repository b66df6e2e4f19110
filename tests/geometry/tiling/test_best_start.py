import random

import numpy as np
import pytest
import shapely

from geometry.edits.finish import started
from geometry.model import HoseOutlet, Tiling, Valve
from geometry.tiling.best_start import best_starts, offsets
from geometry.tiling.drilling import drilled
from geometry.tiling.pieces import pieces_of
from geometry.tiling.region import faced
from geometry.tiling.score import points
from geometry.tiling.setting import setting_of
from tests.geometry.checks.walls import plan_of
from tests.geometry.tiling.starts import random_wall, slowly
from tests.geometry.tiling.walls import tiled, tiled_plan
from tests.samples import SAMPLES, sample_job

CLEAR = 25.0
"""Mm from a hole to the edge of its tile: `tiling.hole_edge`."""
BARE = Tiling(wide=300, high=300, joint=0, border=0)


@pytest.mark.parametrize("seed", range(100))
def test_starts_of_a_wall_earn_what_they_earn_tile_by_tile(seed: int) -> None:
    """Every start at 1 mm of the same walls is tried in tests/benchmarks/test_best_start_speed.py."""
    plan, dice = random_wall(seed), random.Random(seed)
    setting = setting_of(plan)
    along = offsets(setting, along=True)
    up = offsets(setting, along=False)
    fast = points(setting, along, up)
    i, j = np.unravel_index(int(np.argmax(fast)), fast.shape)
    tried = [(int(i), int(j)), *((dice.randrange(len(along)), dice.randrange(len(up))) for _ in range(40))]
    slow = [slowly(setting, float(along[i]), float(up[j])) for i, j in tried]
    assert [fast[i, j] for i, j in tried] == pytest.approx(slow)
    best = best_starts(plan)
    assert [start.points for start in best[:1]] == pytest.approx([fast.max()] * len(best[:1]), abs=0.05)
    for start in best:
        laid = plan_of(started(plan, (start.x, start.y)))
        pieces = pieces_of(laid)
        if not plan.job.wall.openings:  # beside which a piece that is notched may have a narrow leg
            assert start.narrowest == pytest.approx(min(min(piece.cut_sides) for piece in pieces), abs=0.11)
        (face,) = faced(laid.job.finish, laid.job.wall, laid.job.enclosure, "tile")
        for one in drilled(laid, pieces):
            (x, y), reach = one.hole.at, one.hole.diameter / 2 + CLEAR
            inside = shapely.contains(face.shape, shapely.box(x - reach, y - reach, x + reach, y + reach))
            if one.hole.kind == "water" and inside:  # else it is near to the end of the tiles at any start
                assert one.rim >= CLEAR - 0.11  # a start is kept to 0.1


def test_most_of_the_random_walls_have_a_best_start_and_fittings_to_mind() -> None:
    plans = [random_wall(seed) for seed in range(100)]
    assert sum(bool(best_starts(plan)) for plan in plans) > 60
    assert sum(len(plan.job.fittings) > 1 for plan in plans) > 30


def test_the_ends_are_equal_and_wider_than_half_a_tile() -> None:
    # 1000 = 200 + 2 x 300 + 200: the half-tile rule, on both axes
    best = best_starts(tiled_plan(BARE))[0]
    assert (best.x, best.y, best.narrowest) == pytest.approx((200, 200, 200))
    assert "alike on both sides of the centre line" in best.reasons


def test_a_valve_comes_to_the_middle_of_a_tile_or_joint() -> None:
    plan = tiled_plan(BARE, Valve(id="valve", part="valve-two-round", x=500, height=500))
    best = best_starts(plan)[0]
    assert "valve on the middle of a tile or joint, across and up" in best.reasons
    assert (best.x, best.y) == (200, 200)  # its tile from 350 would cut 50; a joint at 500 cuts 200


@pytest.mark.parametrize("name", SAMPLES)
def test_no_proposal_brings_a_hole_nearer_to_an_edge_than_the_rule(name: str) -> None:
    plan = plan_of(sample_job(name))
    found = best_starts(plan)
    assert [start.points for start in found] == sorted((start.points for start in found), reverse=True)
    for start in found:
        laid = plan_of(started(plan, (start.x, start.y)))
        for one in drilled(laid):
            if one.hole.kind == "water":
                assert one.rim >= CLEAR - 0.11
        assert len(pieces_of(laid)) > 0


def test_proposals_differ_by_more_than_a_tenth_of_a_tile() -> None:
    found = best_starts(tiled_plan(BARE), many=5)
    for i, one in enumerate(found):
        for other in found[:i]:
            off = [min(abs(a - b), 300 - abs(a - b)) for a, b in ((one.x, other.x), (one.y, other.y))]
            assert max(off) > 30


def test_where_no_start_is_clear_nothing_is_proposed() -> None:
    # a hole of 30 with 25 on either side wants 80 of a tile of 75, so each would have to cut a joint
    near = [HoseOutlet(id=f"o{x}", part="outlet-round", x=x, height=500) for x in (480, 505, 530)]
    assert best_starts(tiled_plan(Tiling(wide=75, high=75, joint=1), *near)) == ()


def test_fittings_may_be_moved_to_gain_points_and_only_within_the_tolerance() -> None:
    plan = tiled_plan(BARE, Valve(id="valve", part="valve-two-round", x=490, height=500))
    held, allowed = best_starts(plan)[0], best_starts(plan, tolerance=10)[0]
    assert held.move == (0, 0)
    assert allowed.move == (10, 0)  # onto the centre line at 500
    assert allowed.points > held.points


def test_a_bare_wall_is_refused() -> None:
    job = tiled(BARE)
    with pytest.raises(ValueError, match="nothing is tiled"):
        best_starts(plan_of(job.but(finish=job.finish.but(tiling=None))))


def test_standing_columns_are_searched_like_rows_on_their_side() -> None:
    wide = tiled_plan(Tiling(wide=300, high=200, joint=0, border=0, bond="half"), width=1000, height=900)
    tall = tiled_plan(Tiling(wide=200, high=300, joint=0, border=0, bond="vertical"), width=900, height=1000)
    assert best_starts(wide)[0].narrowest == best_starts(tall)[0].narrowest
