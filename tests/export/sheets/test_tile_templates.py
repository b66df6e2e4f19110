"""The drilling templates as a reader that did not write them sees them."""

import io
import math
from itertools import pairwise
from typing import Any, NamedTuple

import pdfplumber
import pytest

from export.sheets.options import SheetOptions
from export.sheets.tile_templates import tile_templates_sheet
from geometry.model import XY, HoseOutlet, Tiling, Valve
from geometry.plan import Plan
from geometry.tiling.drilling import drilled
from tests.export.jobs import sample
from tests.export.measured import as_pdf, laid_out, touching, words
from tests.export.pdf_reader import POINT
from tests.geometry.tiling.walls import tiled_plan
from tests.samples import SAMPLES

CLOSE = 0.05  # mm


class Seen(NamedTuple):
    circles: list[tuple[XY, float, float]]
    """Centre, width, height."""
    edges: list[tuple[XY, XY]]
    """Straight strokes as thick as a tile's edge, 0.35."""
    text: str


def seen(plan: Plan, options: SheetOptions | None = None) -> list[Seen]:
    with pdfplumber.open(io.BytesIO(as_pdf(tile_templates_sheet, plan, (), options))) as pdf:
        return [_seen(page) for page in pdf.pages]


def _seen(page: Any) -> Seen:
    circles, edges = [], []
    for path in (*page.lines, *page.curves, *page.rects):
        points = [(x * POINT, (float(page.height) - y) * POINT) for x, y in path["pts"]]
        xs, ys = zip(*points, strict=True)
        box = (min(xs), min(ys), max(xs), max(ys))
        if path["object_type"] == "curve" and len(points) > 3 and box[2] - box[0] > 4 and box[3] - box[1] > 4:
            circles.append((((box[0] + box[2]) / 2, (box[1] + box[3]) / 2), box[2] - box[0], box[3] - box[1]))
        elif abs(path["linewidth"] * POINT - 0.35) < 0.01:
            edges += [pair for pair in pairwise(points) if math.dist(*pair) > 20]
    return Seen(circles, edges, page.extract_text())


OUTLET = HoseOutlet(id="outlet", part="outlet-round", x=500, height=300)  # its hole is 30 wide
GRID = Tiling(wide=200, high=200, joint=4, border=0)  # the tile from 408 and 204: 92 and 96 from its corner


@pytest.mark.parametrize(("sx", "sy"), [(1.0, 1.0), (1.01, 0.995)])
def test_hole_and_edges_measure_what_they_are_within_a_twentieth(sx: float, sy: float) -> None:
    (page,) = seen(tiled_plan(GRID, OUTLET), SheetOptions(stretch_x=sx, stretch_y=sy))
    ((centre, wide, high),) = page.circles
    assert (wide, high) == pytest.approx((30 * sx, 30 * sy), abs=CLOSE)
    bars = [pair for pair in page.edges if math.dist(*pair) == pytest.approx(100 * sx, abs=CLOSE)]
    assert bars, "the check bar across"
    # outlet at 92 from the left edge and 96 above the lower edge of the tile
    upright = [a[0] for a, b in page.edges if abs(a[0] - b[0]) < 0.01 and abs(centre[0] - a[0]) < 100 * sx]
    level = [a[1] for a, b in page.edges if abs(a[1] - b[1]) < 0.01 and 20 < centre[1] - a[1] < 100 * sy]
    assert min(abs(centre[0] - 92 * sx - x) for x in upright) < CLOSE
    assert min(abs(centre[1] - 96 * sy - y) for y in level) < CLOSE


def test_a_line_at_a_round_distance_stands_for_an_edge_that_is_too_far() -> None:
    # no edge of a tile of 900 is within reach of A4; the paper begins 300 - 15 - 12 = 273 up: a line at 250
    page = seen(tiled_plan(Tiling(wide=900, high=900, joint=4, border=0), OUTLET))[0]
    ((centre, _, _),) = page.circles
    assert "250 from the lower edge" in page.text
    lines = [a[1] for a, b in page.edges if abs(a[1] - b[1]) < 0.01]
    assert min(abs(centre[1] - 50 - y) for y in lines) < CLOSE
    lines = [a[0] for a, b in page.edges if abs(a[0] - b[0]) < 0.01]
    assert min(abs(centre[0] - 50 - x) for x in lines) < CLOSE  # 500 - 27 = 473, so a line at 450


def test_a_hole_across_a_joint_is_on_the_templates_of_both_tiles() -> None:
    pages = seen(tiled_plan(GRID, OUTLET.but(x=406)))
    text = "\n".join(page.text for page in pages)
    assert "Tile R2 C2" in text
    assert "Tile R2 C3" in text
    assert sum(len(page.circles) for page in pages) == 2


def test_several_templates_share_a_sheet() -> None:
    small = Tiling(wide=60, high=60, joint=2, border=0)
    outlets = [OUTLET.but(id=f"o{i}", x=62 * i + 30, height=30) for i in (1, 3, 5)]
    (page,) = seen(tiled_plan(small, *outlets))
    assert len(page.circles) == 3


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("size", ["A4", "A3"])
def test_samples_are_legible_and_show_every_hole(name: str, size: str) -> None:
    plan = sample(name)
    pages = laid_out(tile_templates_sheet, plan, (), SheetOptions(paper=size)).pages
    wide, high = pages[0].width, pages[0].height
    said = set()
    for page in pages:
        found = words(page)
        assert touching(found, slack=1e-4) == []
        for text in found:
            x0, y0, x1, y1 = text.bounds
            assert x0 >= 5
            assert y0 >= 5
            assert x1 <= wide - 5
            assert y1 <= high - 5
        said |= {text.text.split()[0] for text in found if " wide" in text.text}
    assert said == {str(one.number) for one in drilled(plan) if one.tiles}


def test_paper_that_is_too_small_for_a_hole_is_named() -> None:
    valve = Valve(id="valve", part="valve-three-round", x=500, height=500)
    with pytest.raises(ValueError, match="A5 is too small for a template of valve"):
        as_pdf(
            tile_templates_sheet,
            tiled_plan(GRID.but(wide=900, high=900), valve),
            (),
            SheetOptions(paper="A5"),
        )


def test_a_job_without_a_tile_that_is_drilled_says_so() -> None:
    assert "No tile of this job has a hole" in seen(tiled_plan(GRID))[0].text
