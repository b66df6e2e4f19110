"""The tolerance of the finish carried through: whatever its layers come to, what was cut fits."""

import random

import pytest

from geometry.build_up import BuildUp, build_up
from geometry.chase.recess import cut_depth
from geometry.model import Finish, FinishArea, Layer, Region
from geometry.model.finish import LayerKind

DEPTH_LEAST, DEPTH_MOST = 60.0, 85.0  # mm from back to finished face, as of a usual valve


def random_finish(seed: int) -> Finish:
    """Two areas of up to five layers each, with any tolerances."""
    dice = random.Random(seed)

    def layers() -> tuple[Layer, ...]:
        kinds: tuple[LayerKind, ...] = ("plaster", "board", "tanking", "adhesive", "tile")
        return tuple(
            Layer(kind=kind, thickness=dice.randint(0, 150) / 10, tolerance=dice.randint(0, 30) / 10)
            for kind in dice.sample(kinds, dice.randint(0, 5))
        )

    part = FinishArea(id="part", layers=layers(), region=Region(x=0, y=0, width=500, height=1000))
    return Finish(areas=(part, FinishArea(id="rest", layers=layers())))


def sampled(built: BuildUp, dice: random.Random) -> list[float]:
    """What the layers may come to: each anywhere within its tolerance, and all at either end."""
    spans = [(max(0.0, one.thickness - one.tolerance), one.thickness + one.tolerance) for one in built.layers]
    found = [sum(dice.uniform(*span) for span in spans) for _ in range(30)]
    return [*found, sum(low for low, _ in spans), sum(high for _, high in spans)]


@pytest.mark.parametrize("seed", range(200))
def test_a_recess_cut_within_its_range_fits_every_thickness_within_the_tolerances(seed: int) -> None:
    dice = random.Random(seed)
    for at in ((100.0, 100.0), (900.0, 100.0)):
        built = build_up(random_finish(seed), at)
        depth = cut_depth(DEPTH_LEAST, DEPTH_MOST, built)
        totals = sampled(built, dice)
        assert min(totals) == pytest.approx(built.least)
        assert max(totals) == pytest.approx(built.most)
        if depth.room < 0:
            # then no depth suits both ends of the tolerances
            assert built.most - built.least > DEPTH_MOST - DEPTH_LEAST or depth.most < 0
            continue
        for cut in (depth.shallowest, depth.most, depth.target):
            for total in totals:
                assert cut + total >= DEPTH_LEAST - 1e-6
                assert cut + total <= DEPTH_MOST + 1e-6


@pytest.mark.parametrize("seed", range(200))
def test_the_likely_range_lies_within_the_worst(seed: int) -> None:
    built = build_up(random_finish(seed), (100.0, 100.0))
    low, high = built.likely
    assert built.least - 1e-9 <= low <= built.planned <= high <= built.most + 1e-9


def test_likely_tolerances_add_by_squares() -> None:
    # 3 and 4 make 5; at worst 7
    layers = (
        Layer(kind="adhesive", thickness=10, tolerance=3),
        Layer(kind="tile", thickness=10, tolerance=4),
    )
    built = build_up(Finish(areas=(FinishArea(id="a", layers=layers),)), (0.0, 0.0))
    assert built.likely == (15, 25)
    assert (built.least, built.most) == (13, 27)
