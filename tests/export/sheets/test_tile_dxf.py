"""The tiles as DXF as a reader sees them: closed, once, clean, and as large as what is tiled."""

import io
import math
from typing import Any

import ezdxf
import pytest
import shapely
from ezdxf.document import Drawing

from export.sheets.options import SheetOptions
from export.sheets.tile_dxf import tile_dxf
from geometry.model import HoseOutlet, Niche, Opening, Tiling
from geometry.plan import Plan
from geometry.tiling.pieces import pieces_of
from tests.export.jobs import sample
from tests.geometry.tiling.walls import tiled_plan
from tests.samples import SAMPLES


def read(plan: Plan) -> Drawing:
    data = tile_dxf(plan, (), SheetOptions())
    return ezdxf.read(io.StringIO(data.decode()))  # type: ignore[attr-defined]


def outlines(document: Drawing, *layers: str) -> list[Any]:
    found: list[Any] = list(document.modelspace().query("LWPOLYLINE"))
    return [one for one in found if not layers or one.dxf.layer in layers]


def area(document: Drawing, *layers: str) -> float:
    return sum(float(shapely.Polygon(one.get_points("xy")).area) for one in outlines(document, *layers))


def plans() -> list[Plan]:
    niche = Niche(id="niche", x=300, y=300, width=150, height=150)
    window = Opening(id="window", x=600, y=650, width=333, height=250)
    bonds = ("straight", "half", "third", "vertical", "herringbone")
    made = [
        tiled_plan(
            Tiling(wide=200, high=100, joint=joint, bond=bond, start_x=17),  # type: ignore[arg-type]
            HoseOutlet(id="outlet", part="outlet-round", x=517, height=203),
            niches=(niche,),
            openings=(window,),
        )
        for bond in bonds
        for joint in (0, 3)
    ]
    return made + [sample(name) for name in SAMPLES]


@pytest.mark.parametrize("plan", plans())
def test_outlines_are_closed_drawn_once_and_sum_to_what_is_tiled(plan: Plan) -> None:
    document = read(plan)
    assert document.units == 4  # mm
    audit = document.audit()
    assert not audit.errors
    assert not audit.fixes
    seen = set()
    for one in outlines(document):
        points = [(round(x, 4), round(y, 4)) for x, y in one.get_points("xy")]
        assert one.closed
        assert len(set(points)) == len(points) >= 3
        assert shapely.Polygon(points).is_valid
        assert all(math.dist(a, b) > 0.01 for a, b in zip(points, points[1:] + points[:1], strict=True))
        key = frozenset(points)
        assert key not in seen
        seen.add(key)
    tiled = sum(float(shapely.area(piece.shape)) for piece in pieces_of(plan))
    found = area(document, "TILE-WHOLE", "TILE-CUT") - area(document, "TILE-HOLE")
    assert found == pytest.approx(tiled, abs=1)
    assert not document.modelspace().query("LINE ARC")


def test_the_sum_of_the_outlines_by_hand() -> None:
    # 1000 x 1000 without joint or border, less a niche of 200 x 200 within one tile of 500 x 500
    niche = Niche(id="niche", x=100, y=100, width=200, height=200)
    document = read(tiled_plan(Tiling(wide=500, high=500, joint=0, border=0), niches=(niche,)))
    assert area(document, "TILE-WHOLE") == pytest.approx(750_000)
    assert area(document, "TILE-CUT") == pytest.approx(250_000)
    assert area(document, "TILE-HOLE") == pytest.approx(40_000)


def test_a_hole_is_one_true_circle_also_across_a_joint() -> None:
    outlet = HoseOutlet(id="outlet", part="outlet-round", x=500, height=250)
    document = read(tiled_plan(Tiling(wide=500, high=500, joint=0, border=0), outlet))
    (circle,) = document.modelspace().query("CIRCLE")
    assert circle.dxf.layer == "TILE-HOLE"
    assert (circle.dxf.center.x, circle.dxf.center.y, circle.dxf.radius) == (500, 250, 15)


def test_a_wall_without_tiles_gives_a_file_that_says_so() -> None:
    plan = sample(SAMPLES[0])
    bare = Plan(plan.job.but(finish=plan.job.finish.but(tiling=None)), plan.catalogue, plan.rules)
    (text,) = read(bare).modelspace().query("TEXT")
    assert text.dxf.text == "Nothing on this wall is tiled."
