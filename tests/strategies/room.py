"""What stands before a wall, in plan: x along it, z from it into the room."""

from typing import get_args

from hypothesis import strategies as st

from geometry.model import XY, Door, Enclosure, Sanitary, Screen, Wall, Waste
from geometry.model.house import SanitaryKind
from geometry.units import on_grid
from tests.strategies.values import tenths, whole
from tests.strategies.wall import point

SANITARY: st.SearchStrategy[SanitaryKind] = st.sampled_from(get_args(SanitaryKind))


def in_plan(draw: st.DrawFn) -> XY:
    """Draw a place before a wall: x and z."""
    return draw(tenths(0, 2600)), draw(tenths(0, 1000))


def enclosure(draw: st.DrawFn, wall: Wall, panes: tuple[str, ...]) -> Enclosure:
    """Draw an enclosure; of the names that it gets, the first is a screen and the second a door."""
    left, right = sorted(point(draw, wall)[0] for _ in range(2))
    floor = draw(tenths(0, 150))
    screens = tuple(
        Screen(id=name, start=in_plan(draw), end=in_plan(draw), top=draw(tenths(1800, 2000)))
        for name in panes[:1]
    )
    turn = draw(whole(-180, 270))
    doors = tuple(
        Door(
            id=name,
            hinge=in_plan(draw),
            width=draw(tenths(300, 900)),
            angle_from=turn,
            angle_to=turn + draw(whole(1, 90)),
        )
        for name in panes[1:]
    )
    waste = Waste(x=left + draw(tenths(0, 700)), z=draw(tenths(0, 400)))
    return Enclosure(
        kind=draw(st.sampled_from(("tray", "bath", "wet_floor"))),
        left=left,
        width=max(on_grid(right - left), 0.1),
        projection=draw(tenths(600, 1000)),
        floor=floor,
        rim=floor + draw(tenths(0, 400)),
        entry=draw(st.sampled_from(("left", "right", "front"))),
        screens=screens,
        doors=doors,
        waste=waste if draw(st.booleans()) else None,
    )


def sanitary(draw: st.DrawFn, name: str) -> Sanitary:
    """Draw another sanitary thing in the room."""
    x, z = in_plan(draw)
    kind = draw(SANITARY)
    return Sanitary(id=name, kind=kind, x=x, z=z, wide=draw(tenths(0, 600)), rim=draw(tenths(0, 900)))
