"""A small bare wall, places on it, and what is in it already."""

from functools import cache
from typing import get_args

from hypothesis import strategies as st

from geometry.model import XY, Accessory, Cable, Joist, OldPipe, Service, Stud, Wall
from geometry.model.services import AccessoryKind
from geometry.units import on_grid
from tests.strategies.values import perhaps, tenths, whole

SHARES = st.tuples(st.integers(0, 10_000), st.integers(0, 10_000))
"""Where on a wall, in ten thousandths of its width and height."""
ACCESSORIES: st.SearchStrategy[AccessoryKind] = st.sampled_from(get_args(AccessoryKind))


@cache
def walls() -> st.SearchStrategy[Wall]:
    """Draw a small bare wall."""
    sides = st.sampled_from(("corner", "free_end"))
    make_ups = ("aerated_block", "dense_block", "hollow_block", "brick", "timber_stud", "metal_stud")
    return st.builds(
        Wall,
        width=tenths(600, 2600),
        height=tenths(2000, 2700),
        storey_height=tenths(2700, 3000),
        make_up=st.sampled_from(make_ups),
        thickness=tenths(50, 250),
        loadbearing=st.sampled_from(("yes", "no", "not_known")),
        left=sides,
        right=sides,
        shell=perhaps(10, 40),
        machine_cut=st.booleans(),
    )


def point(draw: st.DrawFn, wall: Wall) -> XY:
    """Draw a point on a wall, its edges included."""
    x, y = draw(SHARES)
    return on_grid(wall.width * x / 10_000), on_grid(wall.height * y / 10_000)


def route(draw: st.DrawFn, wall: Wall, least: int) -> tuple[XY, ...]:
    """Draw so many points on a wall, or up to three."""
    return tuple(point(draw, wall) for _ in range(draw(whole(least, 3))))


def region(draw: st.DrawFn, wall: Wall) -> dict[str, float]:
    """Draw the place and the size of a rectangle that begins on a wall."""
    x, y = point(draw, wall)
    return {"x": x, "y": y, "width": draw(tenths(50, 900)), "height": draw(tenths(50, 900))}


def service(draw: st.DrawFn, wall: Wall, name: str) -> Service:
    """Draw one thing that is in a wall already."""
    x, height = point(draw, wall)
    match draw(whole(0, 4)):
        case 0:
            return Accessory(id=name, kind=draw(ACCESSORIES), x=x, height=height)
        case 1:
            return Cable(id=name, route=route(draw, wall, 2), depth=draw(tenths(0, 40)))
        case 2:
            return OldPipe(id=name, route=route(draw, wall, 2), depth=draw(tenths(0, 40)))
        case 3:
            return Stud(id=name, x=x, wide=draw(tenths(30, 60)))
    return Joist(id=name, height=height, left=x, right=x + 400.0)
