"""Recess and chase arithmetic against sums made by hand. They need no source beside the arithmetic itself.

The back of a box lies `cut + build-up` behind the finished face. With build-up b and an allowed range
[dmin, dmax] the recess is cut between dmin - b and dmax - b.
"""

import pytest

from geometry.build_up import build_up
from geometry.chase.channel import chase
from geometry.chase.recess import cut_depth
from geometry.model import Finish, FinishArea, Layer, Pipe
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import TubePart
from geometry.pipework.routes import Course, PortAt

PORT = PortAt("valve.hot", (100, 900), "down", "hot", "G3/4")


@pytest.mark.parametrize(
    ("range_", "layers", "least", "most"),
    [
        # tanking 1, adhesive 4, tile 9: b = 14; 60 - 14 = 46, 85 - 14 = 71
        ((60, 85), ((1, 0), (4, 0), (9, 0)), 46, 71),
        # the same, adhesive +- 1: b = 13 .. 15; 60 - 13 = 47, 85 - 15 = 70
        ((60, 85), ((1, 0), (4, 1), (9, 0)), 47, 70),
        # tile backer 12.5, adhesive 6 +- 1.5, stone 12 +- 1: b = 30.5 +- 2.5; 75 - 28 = 47, 110 - 33 = 77
        ((75, 110), ((12.5, 0), (6, 1.5), (12, 1)), 47, 77),
        # a bare wall: nothing is taken off
        ((40, 60), (), 40, 60),
    ],
)
def test_range_to_cut(
    range_: tuple[float, float], layers: tuple[tuple[float, float], ...], least: float, most: float
) -> None:
    made = tuple(Layer(kind="tile", thickness=thick, tolerance=slack) for thick, slack in layers)
    finish = build_up(Finish(areas=(FinishArea(id="wall", layers=made),)), (0, 0))
    depth = cut_depth(*range_, finish)
    assert (depth.least, depth.most) == (least, most)


@pytest.mark.parametrize("finish", [13, 14, 15])
@pytest.mark.parametrize("cut", [47, 58, 70])
def test_box_cut_within_the_worst_case_fits_whatever_the_finish_comes_to(cut: float, finish: float) -> None:
    # 47 + 13 = 60, 70 + 15 = 85: every sum of a cut and a finish lies in the range of the box
    layers = (
        Layer(kind="tanking", thickness=1),
        Layer(kind="adhesive", thickness=4, tolerance=1),
        Layer(kind="tile", thickness=9),
    )
    depth = cut_depth(60, 85, build_up(Finish(areas=(FinishArea(id="wall", layers=layers),)), (0, 0)))
    assert depth.least <= cut <= depth.most
    assert 60 <= cut + finish <= 85


@pytest.mark.parametrize(
    ("tube", "wrap", "width", "depth"),
    [
        ("copper-15", 4, 39, 33),  # 15 + 2 x 4 = 23; 23 + 2 x 8 = 39; 5 + 23 + 5 = 33
        ("copper-22", 4, 46, 40),  # 22 + 2 x 4 = 30; 30 + 2 x 8 = 46; 5 + 30 + 5 = 40
        ("copper-28", 0, 44, 38),  # 28; 28 + 2 x 8 = 44; 5 + 28 + 5 = 38
    ],
)
def test_chase_of_a_pipe(tube: str, wrap: float, width: float, depth: float) -> None:
    part = generic_parts().find(tube, TubePart)
    pipe = Pipe(id="hot", service="hot", end="valve.hot", route=((100, 0),), tube=tube, wrap=wrap)
    held = chase(pipe, part, Course(((100, 0), (100, 900)), None, PORT), cover=5)
    assert (held.width, held.depth) == (width, depth)
