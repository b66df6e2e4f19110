"""The SVG as a reader of XML sees it: true sizes, text as typed, looks of the layers, equal bytes."""

import math
from collections.abc import Callable
from xml.etree import ElementTree as ET

import pytest

from export.layers import DASHES, LAYERS
from export.svg import SvgPen
from export.text import CAPITAL
from export.wrapped_pens import Clipped, FillingPen

NS = "{http://www.w3.org/2000/svg}"

TYPED = [
    "<b>bold</b>",
    "R&D <3mm> & more",
    "</text><script>alert(1)</script>",
    "&amp; stays as typed",
    "Łukasz Żółć, Gęśla",
    "  blanks   kept",
    "Ωμέγα ½ × ≤ ⌀22",
]


def pen(width: float = 200, height: float = 100) -> SvgPen:
    return SvgPen(width, height)


def tree(made: SvgPen) -> ET.Element:
    return ET.fromstring(made.to_bytes())


def one(made: SvgPen, tag: str) -> ET.Element:
    (found,) = tree(made).iter(f"{NS}{tag}")
    return found


def group(made: SvgPen) -> ET.Element:
    return one(made, "g")


def test_the_picture_has_its_size_in_millimetres() -> None:
    root = tree(pen(123.4, 56.7))
    assert (root.get("width"), root.get("height")) == ("123.4mm", "56.7mm")
    assert root.get("viewBox") == "0 0 123.4 56.7"


def test_y_runs_up_on_the_pen_and_down_in_the_file() -> None:
    made = pen(200, 100)
    made.line("wall", (10, 0), (10, 100))
    line = one(made, "line")
    assert (line.get("x1"), line.get("y1"), line.get("y2")) == ("10", "100", "0")


def test_a_circle_is_a_true_circle() -> None:
    made = pen()
    made.circle("plate", (50, 30), 12.5)
    circle = one(made, "circle")
    assert [circle.get(name) for name in ("cx", "cy", "r")] == ["50", "70", "12.5"]


@pytest.mark.parametrize(
    ("start", "end", "large"), [(0, 90, "0"), (0, 270, "1"), (350, 10, "0"), (90, 89, "1")]
)
def test_an_arc_runs_counter_clockwise(start: float, end: float, large: str) -> None:
    made = pen()
    made.arc("screen", (50, 50), 10, start, end)
    words = (one(made, "path").get("d") or "").split()
    # M x y A r r turn large sweep x y; sweep 0 is counter-clockwise as seen, since y runs down
    assert words[7:9] == [large, "0"]
    x, y = float(words[1]), float(words[2])
    assert x == pytest.approx(50 + 10 * math.cos(math.radians(start)), abs=0.001)
    assert y == pytest.approx(100 - (50 + 10 * math.sin(math.radians(start))), abs=0.001)


def test_an_arc_that_ends_where_it_starts_is_a_whole_circle_without_a_fill() -> None:
    made = pen()
    made.arc("recess", (50, 50), 10, 30, 390)
    assert one(made, "circle").get("fill") is None


def test_closed_shapes_take_the_fill_of_their_layer_and_open_ones_do_not() -> None:
    closed, opened = pen(), pen()
    square = [(0, 0), (10, 0), (10, 10)]
    closed.polyline("recess", square, closed=True)
    opened.polyline("recess", square)
    # (0.95, 0.95, 0.95) * 255 = 242.25: f2
    assert one(closed, "polygon").get("fill") == "#f2f2f2"
    assert one(opened, "polyline").get("fill") is None
    assert one(opened, "polyline").get("points") == "0,100 10,100 10,90"


def test_a_fill_without_an_edge_has_no_stroke() -> None:
    made = pen()
    made.fill("recess", [(0, 0), (10, 0), (10, 10)])
    made.fill("wall", [(0, 0), (10, 0), (10, 10)])  # a layer without a fill: nothing
    assert one(made, "polygon").get("stroke") == "none"
    assert isinstance(made, FillingPen)


@pytest.mark.parametrize("layer", LAYERS)
def test_every_layer_has_its_colour_weight_and_dashes(layer: str) -> None:
    made = pen()
    made.line(layer, (0, 0), (1, 1))
    drawn = group(made)
    look = LAYERS[layer]
    assert drawn.get("class") == layer
    assert drawn.get("stroke-width") == f"{look.weight:g}"
    dashes = drawn.get("stroke-dasharray")
    assert [float(each) for each in (dashes or "").split()] == list(DASHES[look.pattern])


def test_hot_is_red_and_dashed() -> None:
    made = pen()
    made.line("pipe-hot", (0, 0), (1, 1))
    # (0.72, 0.20, 0.00) * 255 = 183.6, 51, 0: b8, 33, 00
    assert group(made).get("stroke") == "#b83300"
    assert group(made).get("stroke-dasharray") == "3 1.5"


@pytest.mark.parametrize("typed", TYPED)
def test_text_is_never_read_as_markup(typed: str) -> None:
    made = SvgPen(100, 100, title=typed, description=typed)
    made.text("text", (10, 10), typed, 2.5)
    assert one(made, "text").text == typed
    assert one(made, "title").text == typed
    assert {element.tag for element in tree(made).iter()} == {
        f"{NS}{tag}" for tag in ("svg", "title", "desc", "rect", "g", "text")
    }


@pytest.mark.parametrize("bad", ["a\x00b", "a\x1bb", "a\ud800b", "a\uffffb"])
def test_characters_that_no_xml_holds_do_not_spoil_the_file(bad: str) -> None:
    made = SvgPen(100, 100, title=bad)
    made.text("text", (10, 10), bad, 2.5)
    assert one(made, "text").text in ("a b", "a?b")


def test_the_height_of_a_text_is_that_of_a_capital_letter() -> None:
    made = pen()
    made.text("text", (10, 20), "valve", 2.5)
    text = one(made, "text")
    assert float(text.get("font-size") or 0) * CAPITAL == pytest.approx(2.5, abs=0.001)
    assert (text.get("x"), text.get("y")) == ("10", "80")


def test_an_upright_text_reads_from_the_right_of_the_drawing() -> None:
    made = pen()
    made.text("text", (10, 20), "1100", 2.5, align="centre", angle=90)
    text = one(made, "text")
    assert text.get("transform") == "rotate(-90 10 80)"  # counter-clockwise is minus where y runs down
    assert text.get("text-anchor") == "middle"


def test_cautions_are_bold() -> None:
    made = pen()
    made.text("caution", (10, 20), "Isolate", 2.5)
    assert one(made, "text").get("font-weight") == "bold"


def test_a_dimension_is_drawn_as_lines_and_text() -> None:
    made = pen()
    made.dimension("dimension", (10, 10), (60, 10), (10, 20), "x", "1000", 2.5)
    made.running("dimension", (0, 0), (30, 30), (90, 35), "y", "700", 2.5)
    texts = [element.text for element in tree(made).iter(f"{NS}text")]
    assert texts == ["1000", "700"]
    assert len(list(tree(made).iter(f"{NS}line"))) > 2


def test_strokes_that_follow_one_another_on_a_layer_share_a_group_in_the_order_of_painting() -> None:
    made = pen()
    for layer in ("wall", "wall", "tray", "wall"):
        made.line(layer, (0, 0), (1, 1))
    assert [drawn.get("class") for drawn in tree(made).iter(f"{NS}g")] == ["wall", "tray", "wall"]


@pytest.mark.parametrize("bad", [math.nan, math.inf, -math.inf])
def test_a_coordinate_that_is_no_number_is_refused(bad: float) -> None:
    made = pen()
    draws: list[Callable[[], None]] = [
        lambda: made.line("wall", (bad, 0), (1, 1)),
        lambda: made.polyline("wall", [(0, 0), (1, bad)]),
        lambda: made.circle("wall", (0, 0), bad),
        lambda: made.arc("wall", (0, 0), 1, bad, 90),
        lambda: made.text("text", (bad, 0), "a", 2.5),
    ]
    for draw in draws:
        with pytest.raises(ValueError, match="is not a number"):
            draw()


@pytest.mark.parametrize("size", [(0, 10), (10, -1), (math.nan, 10), (10, math.inf)])
def test_a_picture_without_a_size_is_refused(size: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="a size above 0 mm"):
        SvgPen(*size)


def test_joined_lines_need_two_points() -> None:
    with pytest.raises(ValueError, match="two points or more, got 1"):
        pen().polyline("wall", [(0, 0)])


def test_equal_drawings_give_equal_bytes() -> None:
    made = []
    for _ in range(2):
        held = SvgPen(100, 100, title="Wall")
        held.line("wall", (0, 0), (100, 100))
        held.text("text", (1, 1), "a", 2.5)
        made.append(held.to_bytes())
    assert made[0] == made[1]
    assert b"http://www.w3.org/2000/svg" in made[0]
    assert made[0].count(b"http") == 1  # nothing else is fetched


def test_a_clipped_drawing_keeps_its_fills() -> None:
    made = pen()
    Clipped(made, 0, 0, 5, 5).polyline("recess", [(0, 0), (10, 0), (10, 10), (0, 10)], closed=True)
    assert one(made, "polygon").get("stroke") == "none"
