"""Tiled walls on which a sum can be done by hand."""

from collections.abc import Sequence

from geometry.model import (
    Enclosure,
    Finish,
    FinishArea,
    Fitting,
    Job,
    Layer,
    Niche,
    Opening,
    Region,
    Tiling,
    Wall,
)
from geometry.plan import Plan
from tests.geometry.checks.walls import plan_of

TILED = (
    Layer(kind="adhesive", thickness=4.0, tolerance=1.0),
    Layer(kind="tile", thickness=9.0),
)


def tiled(
    tiling: Tiling,
    *fittings: Fitting,
    width: float = 1000.0,
    height: float = 1000.0,
    rim: float = 0.0,
    openings: Sequence[Opening] = (),
    niches: Sequence[Niche] = (),
    region: Region | None = None,
    layers: Sequence[Layer] = TILED,
) -> Job:
    """Return a wall that is tiled all over, or in a region; the enclosure is as wide as the wall."""
    area = FinishArea(id="tiled", layers=tuple(layers), region=region)
    return Job(
        wall=Wall(width=width, height=height, thickness=140.0, openings=tuple(openings)),
        enclosure=Enclosure(left=0.0, width=width, projection=800.0, floor=0.0, rim=rim),
        fittings=fittings,
        finish=Finish(areas=(area,), tiling=tiling, niches=tuple(niches)),
    )


def tiled_plan(tiling: Tiling, *fittings: Fitting, **rest: object) -> Plan:
    return plan_of(tiled(tiling, *fittings, **rest))  # type: ignore[arg-type]
