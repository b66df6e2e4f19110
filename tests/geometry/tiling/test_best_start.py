import numpy as np
import pytest

from geometry.model import HoseOutlet, Tiling, Valve
from geometry.tiling.best_start import best_starts, offsets
from geometry.tiling.drilling import drilled
from geometry.tiling.pieces import pieces_of
from geometry.tiling.setting import points
from tests.geometry.checks.walls import plan_of
from tests.geometry.tiling.starts import random_setting, slowly
from tests.geometry.tiling.walls import tiled, tiled_plan
from tests.samples import SAMPLES, sample_job

BARE = Tiling(wide=300, high=300, joint=0, border=0)


@pytest.mark.parametrize("seed", range(100))
def test_all_starts_at_one_millimetre_earn_what_they_earn_tile_by_tile(seed: int) -> None:
    setting = random_setting(seed)
    along = offsets(setting, along=True, exact=False)
    up = offsets(setting, along=False, exact=False)
    fast = points(setting, along, up)
    slow = np.array([[slowly(setting, float(a), float(b)) for b in up] for a in along])
    assert fast == pytest.approx(slow)


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
        finish = plan.job.finish
        assert finish.tiling is not None
        started = finish.but(tiling=finish.tiling.but(start_x=start.x, start_y=start.y))
        laid = plan_of(plan.job.but(finish=started))
        for one in drilled(laid):
            if one.hole.kind == "water":
                assert one.rim >= plan.rules["tiling.hole_edge"].value - 0.11  # a start is kept to 0.1
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


def test_a_herringbone_and_a_bare_wall_are_refused() -> None:
    with pytest.raises(ValueError, match="neither rows nor columns"):
        best_starts(tiled_plan(BARE.but(bond="herringbone")))
    job = tiled(BARE)
    with pytest.raises(ValueError, match="nothing is tiled"):
        best_starts(plan_of(job.but(finish=job.finish.but(tiling=None))))


def test_standing_columns_are_searched_like_rows_on_their_side() -> None:
    wide = tiled_plan(Tiling(wide=300, high=200, joint=0, border=0, bond="half"), width=1000, height=900)
    tall = tiled_plan(Tiling(wide=200, high=300, joint=0, border=0, bond="vertical"), width=900, height=1000)
    assert best_starts(wide)[0].narrowest == best_starts(tall)[0].narrowest
