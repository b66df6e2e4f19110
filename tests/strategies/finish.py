"""What covers a wall: layers, tiles or panels, niches, movement joints."""

from functools import cache
from typing import Literal

from hypothesis import strategies as st

from geometry.model import Finish, FinishArea, Layer, Niche, Region, Tiling, Wall
from geometry.model.finish import MovementJoint, Panels
from tests.strategies.values import SIDES, perhaps, tenths, texts, whole
from tests.strategies.wall import point, region


@cache
def layers() -> st.SearchStrategy[tuple[Layer, ...]]:
    """Draw the layers of a build-up."""
    kinds = st.sampled_from(("board", "plaster", "tanking", "adhesive", "tile", "panel"))
    layer = st.builds(Layer, kind=kinds, thickness=tenths(0, 20), tolerance=tenths(0, 3), name=texts())
    return st.lists(layer, max_size=3).map(tuple)


@cache
def tilings() -> st.SearchStrategy[Tiling]:
    """Draw tiles with their bond and start."""
    bonds = st.sampled_from(("straight", "half", "third", "vertical", "herringbone"))
    size = tenths(50, 600)
    return st.builds(
        Tiling,
        wide=size,
        high=size,
        joint=tenths(0, 5),
        bond=bonds,
        start_x=tenths(-300, 300),
        start_y=tenths(-300, 300),
        direction=SIDES,
        border=tenths(0, 6),
        weight=perhaps(5, 60),
        spare=whole(0, 20).map(float),
        boxed=whole(0, 30).map(float),
        trim=tenths(0, 12),
    )


@cache
def panels() -> st.SearchStrategy[Panels]:
    """Draw sheets that face a wall."""
    return st.builds(
        Panels,
        wide=tenths(300, 1200),
        high=tenths(600, 2600),
        joint=tenths(0, 4),
        trim=tenths(0, 5),
        start_x=tenths(-300, 300),
        start_y=tenths(-300, 300),
    )


def _movement(draw: st.DrawFn, wall: Wall, name: str) -> MovementJoint:
    x, y = point(draw, wall)
    plumb = draw(st.booleans())
    runs: Literal["plumb", "level"] = "plumb" if plumb else "level"
    return MovementJoint(id=name, runs=runs, at=x if plumb else y, width=draw(tenths(3, 12)))


def finish(draw: st.DrawFn, wall: Wall, niches: tuple[str, ...], joints: tuple[str, ...]) -> Finish:
    """Draw a finish, with a niche and a movement joint for each name."""
    areas = (
        FinishArea(id="part", layers=draw(layers()), region=Region(**region(draw, wall))),
        FinishArea(id="all", layers=draw(layers())),
    )
    return Finish(
        areas=areas[draw(whole(0, 2)) :],
        tiling=draw(tilings()) if draw(st.booleans()) else None,
        panels=draw(panels()) if draw(st.booleans()) else None,
        niches=tuple(Niche(id=name, depth=draw(tenths(40, 120)), **region(draw, wall)) for name in niches),
        movement=tuple(_movement(draw, wall, name) for name in joints),
        board_wider=draw(tenths(0, 10)),
        carries=draw(perhaps(10, 80)),
    )
