"""What to buy: volumes against points thrown at the drawn solids, everything else against hand sums."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given
from numpy.typing import NDArray

from geometry.checks.legs import cut_legs
from geometry.model import Job, Offcut, Pipe, Pipework
from geometry.pipework.clips import clips
from geometry.plan import Plan
from geometry.quantities.order import Item, order
from geometry.quantities.volumes import prisms, volumes
from geometry.shape.outline import core
from geometry.shape.solid import Solid
from tests.export.jobs import sample, usual
from tests.geometry.pipework.walls import USUAL, hot, planned, with_pipes
from tests.samples import SAMPLES
from tests.strategies import jobs

THROWN = 10_000
"""Points to a litre. A hundred times as many move what is cut by 0.02 % at most, what is to fill by 0.1 %."""
Points = NDArray[np.float64]
Hits = NDArray[np.bool_]


def amount(plan: Plan, what: str) -> float:
    return sum(item.amount for item in order(plan) if item.what.startswith(what))


def line(plan: Plan, what: str) -> Item:
    return next(item for item in order(plan) if item.what.startswith(what))


# volumes against points thrown at the solids


def halton(count: int) -> Points:
    """Return points spread evenly in a unit cube: numbers written backwards, to the bases 2, 3 and 5."""
    places = np.zeros((count, 3))
    for axis, base in enumerate((2, 3, 5)):
        left, part = np.arange(1, count + 1), 1.0
        while left.any():
            part /= base
            places[:, axis] += left % base * part
            left //= base
    return places


def box_of(solid: Solid) -> tuple[Points, Points]:
    """Return the least and the most x, y and z of what a solid takes out of the wall."""
    x0, y0, x1, y1 = solid.outline.bounds
    return np.array((x0, y0, solid.low)), np.array((x1, y1, min(solid.high, 0.0)))


def within(solid: Solid, places: Points) -> Hits:
    least, most = box_of(solid)
    held = np.all((places >= least) & (places <= most), axis=1)
    flat = shapely.points(places[held, :2])
    held[held] = shapely.distance(core(solid.outline), flat) <= solid.outline.radius
    return np.asarray(held)


def in_pipe(plan: Plan, places: Points) -> Hits:
    x, y, z = places.T
    held = np.zeros(len(places), dtype=bool)
    for chase in plan.chases:
        for (ax, ay), (bx, by) in chase.legs:
            length = np.hypot(bx - ax, by - ay)
            ux, uy = (bx - ax) / length, (by - ay) / length
            along = (x - ax) * ux + (y - ay) * uy
            across = (x - ax) * uy - (y - ay) * ux
            off = np.hypot(across, z + chase.axis)
            held |= (along >= 0) & (along <= length) & (off <= chase.lagged / 2)
    return held


def thrown(plan: Plan) -> tuple[float, float]:
    """Return the volume cut and the volume to fill, in litres, of what is drawn.

    Points are thrown into the box about each solid, and count for the first solid that they lie in.
    """
    cuts = [*(s for s in plan.fitted if s.what in ("recess", "pocket")), *cut_legs(plan)]
    boxes = [solid for solid in plan.fitted if solid.what == "box"]
    cut = to_fill = 0.0
    for number, solid in enumerate(cuts):
        least, most = box_of(solid)
        litres = math.prod(most - least) / 1e6
        count = math.ceil(litres * THROWN)
        places = least + halton(count) * (most - least)
        places = places[within(solid, places)]
        for earlier in cuts[:number]:
            places = places[~within(earlier, places)]
        full = in_pipe(plan, places)
        for box in boxes:
            full |= within(box, places)
        cut += litres * len(places) / count
        to_fill += litres * float(np.sum(~full)) / count
    return cut, to_fill


@pytest.mark.parametrize("name", [name for name in SAMPLES if name != "bath-stud-wall"])
def test_volumes_are_those_of_the_drawn_solids_within_one_per_cent(name: str) -> None:
    plan = sample(name)
    cut, to_fill = thrown(plan)
    held = volumes(plan)
    assert held.cut == pytest.approx(cut, rel=0.01)
    assert held.to_fill == pytest.approx(to_fill, rel=0.01)


def test_a_chase_by_hand() -> None:
    # copper 15 with 4 of wrap: 23 across, 39 wide (8 for a clip each side), 5 + 23 + 5 = 33 deep. From the
    # floor to the recess at 935: 39 x 33 x 935 = 1203345 mm3
    plan = with_pipes(hot((335, 0)))
    (chase,) = [prism for prism in prisms(plan) if prism.owner == "hot"]
    recess = next(prism for prism in prisms(plan) if prism.owner == "valve")
    alone = shapely.area(shapely.difference(chase.area, recess.area)) * chase.depth
    assert alone == pytest.approx(1203345)


def test_a_stud_wall_is_neither_cut_nor_filled() -> None:
    assert volumes(sample("bath-stud-wall")) == (0.0, 0.0, 0.0)
    assert not [item for item in order(sample("bath-stud-wall")) if item.unit in ("cans", "bags")]


# amounts by hand, for the trade's own arrangement: hot, cold, riser, branch in copper 15


def test_tube_of_the_usual_arrangement() -> None:
    # 100 + 960 - 22 = 1038 twice, riser 1090 - 22 - 20 = 1048, branch 125 - 42 = 83: 3.207 m in two lengths.
    # The longest rest is that of a length from which one of the two shortest long pieces is cut alone
    item = line(usual(), "Copper 15")
    assert (item.amount, item.unit) == (2, "pieces")
    assert item.note == "3.21 m to cut; longest rest 1961 mm"  # 3000 - 1038 - 1


def test_fittings_of_the_usual_arrangement() -> None:
    made = {item.what: item.amount for item in order(usual()) if item.group == "Fittings"}
    assert made == {
        "adaptor 15 capillary × G3/4": 2,
        "adaptor 15 capillary × G1/2": 2,
        "wall elbow 15 capillary × G1/2": 2,
        "coupling 15 capillary": 2,
        "plug G1/2": 2,
    }


def test_solder_and_tape_of_the_usual_arrangement() -> None:
    # 8 ends of 15 mm = 120 mm of wire, to whole 100; 2 G3/4 and 4 G1/2 threads, 12 turns:
    # 12 pi (2 x 26.441 + 4 x 20.955) = 5154 mm, one roll
    assert amount(usual(), "lead-free solder") == 200
    assert line(usual(), "thread sealing tape").note == "6 threads, 5.2 m"
    assert amount(usual(), "thread sealing tape") == 1


def test_wrap_of_the_usual_arrangement() -> None:
    # 960 + 960 + 1090 + 125 = 3135, and a tenth more: 3448.5, to whole 100 mm
    assert amount(usual(), "wrap 4 thick for 15") == 3.5


def test_rubble_and_foam_of_the_usual_arrangement() -> None:
    held = volumes(usual())
    # dense block 2000 kg/m3: weight = 2 kg to the litre, loose 1.5 times the litres
    item = line(usual(), "rubble bags")
    assert item.amount == max(-(-held.cut * 2.0 // 20), -(-held.cut * 1.5 // 25))
    assert amount(usual(), "fixing foam") == -(-held.to_fill * 1.1 // 15)


def test_plastic_takes_liners_tape_and_closer_clips() -> None:
    plan = with_pipes(hot((335, 0), tube="barrier-15"))
    assert amount(plan, "pipe liner 15") == 2
    # 960 upright at most 500 apart: 2; copper at most 1800 apart: 1
    assert clips(plan, "hot") == 2
    assert clips(with_pipes(hot((335, 0))), "hot") == 1
    assert amount(plan, "metallic tape") == 1.0  # 960 to whole 100 mm


def test_clips_on_each_leg() -> None:
    # up 480 (1), across 1300 at most 1200 apart (2), up 480 (1); a leg under 150 has none
    plan = with_pipes(hot((1635, 0), (1635, 480), (335, 480)))
    assert clips(plan, "hot") == 4
    assert clips(with_pipes(hot((435, 0), (435, 480), (335, 480))), "hot") == 2


def test_off_cuts_at_hand_are_not_bought() -> None:
    held = Pipework(offcuts=(Offcut(tube="copper-15", length=1100), Offcut(tube="copper-22", length=3000)))
    plan = with_pipes(hot((335, 0)), pipework=held)
    assert amount(plan, "Copper 15 x 0.7, lengths") == 0
    assert amount(plan, "Copper 15 x 0.7, off-cuts") == 1


def test_a_piece_longer_than_a_length_is_bought_by_itself() -> None:
    held = Pipework(stock_length=1000.0)
    item = line(with_pipes(hot((335, 0)), pipework=held), "Copper 15 x 0.7, length of")
    assert item.what == "Copper 15 x 0.7, length of 1038 mm or more"


def test_a_noggin_for_each_fitting_that_nothing_carries() -> None:
    # bays of 600 less a stud of 38 = 562; valve, outlet, spout and rail stand between studs
    assert amount(sample("bath-stud-wall"), "noggin or board, 562 mm") == 4
    assert amount(sample("bath-stud-wall"), "screw for noggins") == 16


def test_nothing_to_fit_is_nothing_to_buy() -> None:
    assert order(planned(USUAL.but(fittings=(), hoses=(), pipes=()))) == ()


@given(jobs())
def test_amounts_are_above_nothing_and_fillings_no_more_than_what_is_cut(job: Job) -> None:
    pipes: tuple[Pipe, ...] = tuple(pipe.but(jointing=None) for pipe in job.pipes)
    plan = planned(job.but(pipes=pipes, pipework=job.pipework.but(measured=())))
    assert all(item.amount > 0 for item in order(plan))
    held = volumes(plan)
    assert 0 <= held.to_fill <= held.cut + 1e-9


def test_one_of_a_thing_has_its_unit_in_the_singular() -> None:
    for item in order(sample("alcove-760")):
        assert (item.amount == 1) == (item.unit in ("piece", "tin", "roll", "can", "bag")) or item.unit in (
            "m", "mm"
        ), item  # fmt: skip
