"""An outline is drawn where it is: circles round, corners as arcs, every stroke on the rim."""

import math
from itertools import pairwise

import pytest
import shapely

from export.drawings.outlines import draw_outline
from export.pen import XY
from export.recorder import Recorder
from geometry.shape.fittings import sector
from geometry.shape.outline import Outline, circle, core, rectangle, run


def drawn(outline: Outline) -> Recorder:
    pen = Recorder()
    draw_outline(pen, "plate", outline)
    return pen


def samples(pen: Recorder) -> list[XY]:
    """Points on every stroke: ends and middles of lines, five angles of each arc."""
    points: list[XY] = []
    for stroke in pen.strokes:
        values = stroke.values
        if stroke.verb == "line":
            (x0, y0), (x1, y1) = values["start"], values["end"]
            points += [(x0, y0), (x1, y1), ((x0 + x1) / 2, (y0 + y1) / 2)]
        elif stroke.verb == "arc":
            (x, y), r = values["centre"], values["radius"]
            sweep = (values["end"] - values["start"]) % 360
            for share in (0, 0.25, 0.5, 0.75, 1):
                angle = math.radians(values["start"] + share * sweep)
                points.append((x + r * math.cos(angle), y + r * math.sin(angle)))
    return points


def perimeter(pen: Recorder) -> float:
    lines = [math.dist(s.values["start"], s.values["end"]) for s in pen.strokes if s.verb == "line"]
    arcs = [s.values for s in pen.strokes if s.verb == "arc"]
    bends = [math.radians((arc["end"] - arc["start"]) % 360) * arc["radius"] for arc in arcs]
    return math.fsum((*lines, *bends))


def test_a_circle_is_one_true_circle() -> None:
    (stroke,) = drawn(circle((380, 1030), 170)).strokes
    assert stroke.verb == "circle"
    assert (stroke.values["centre"], stroke.values["radius"]) == ((380, 1030), 85)


def test_sharp_corners_are_one_closed_line_so_that_it_can_be_filled() -> None:
    (stroke,) = drawn(rectangle(0, 0, 120, 90)).strokes
    assert stroke.verb == "polyline"
    assert stroke.values["closed"]


def test_a_rounded_rectangle_is_four_lines_and_four_quarter_arcs() -> None:
    pen = drawn(rectangle(0, 0, 150, 170, 8))
    assert sorted(stroke.verb for stroke in pen.strokes) == ["arc"] * 4 + ["line"] * 4
    # 2 * (150 + 170) - 8 * 8 + 2 * pi * 8
    assert perimeter(pen) == pytest.approx(640 - 64 + 16 * math.pi)


def test_a_run_has_round_ends() -> None:
    pen = drawn(run(((0, 0), (100, 0)), 22))
    # two sides of 100 and a whole circle of radius 11
    assert perimeter(pen) == pytest.approx(200 + 22 * math.pi)


def test_a_run_that_bends_keeps_its_width_on_the_inner_side() -> None:
    pen = drawn(run(((0, 0), (100, 0), (100, 100)), 20))
    # outer side 2 * 100 and a quarter arc, inner side 2 * 90, two half circles at the ends
    assert perimeter(pen) == pytest.approx(200 + 180 + 10 * math.pi / 2 + 20 * math.pi)


def test_repeated_points_change_nothing() -> None:
    plain, repeated = run(((0, 0), (100, 0)), 22), run(((0, 0), (0, 0), (100, 0)), 22)
    assert len(drawn(repeated).strokes) == len(drawn(plain).strokes) == 4
    assert perimeter(drawn(repeated)) == pytest.approx(perimeter(drawn(plain)))


@pytest.mark.parametrize(
    "outline",
    [
        rectangle(0, 0, 150, 170, 8),
        run(((0, 0), (300, 40)), 15),
        run(((0, 0), (300, 0), (300, -200), (500, -200)), 15),
        run(((0, 0), (0, 400)), 10),
        sector((0, 0), 600, 0, 90).grown(4),
        sector((0, 0), 600, 90, -45).grown(4),
    ],
)
def test_every_stroke_lies_on_the_rim(outline: Outline) -> None:
    for point in samples(drawn(outline)):
        assert shapely.Point(point).distance(core(outline)) == pytest.approx(outline.radius, abs=1e-6)


def test_the_strokes_of_a_rounded_rectangle_join() -> None:
    pen = drawn(rectangle(0, 0, 150, 170, 8))
    ends = [(s.values["start"], s.values["end"]) for s in pen.strokes if s.verb == "line"]
    for (_, before), (after, _) in pairwise([*ends, ends[0]]):
        assert math.dist(before, after) == pytest.approx(8 * math.sqrt(2))  # across a quarter of a circle
