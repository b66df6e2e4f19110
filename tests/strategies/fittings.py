"""A fitting somewhere on a wall."""

from hypothesis import strategies as st

from geometry.model import Fitting, Head, HoseOutlet, Rail, Spout, Valve, Wall
from geometry.parts.records import HeadPart, OutletPart, RailPart, SpoutPart, ValvePart
from tests.strategies.values import SIDES, part_ids, perhaps, whole
from tests.strategies.wall import point

KINDS: tuple[type[Fitting], ...] = (Valve, Head, HoseOutlet, Rail, Spout)


def fitting(draw: st.DrawFn, wall: Wall, name: str) -> Fitting:
    """Draw a fitting of any kind anywhere on a wall."""
    kind = KINDS[draw(whole(0, len(KINDS) - 1))]
    x, height = point(draw, wall)
    if kind is Rail:
        part, slider = draw(part_ids(RailPart)), draw(perhaps(0, 900))
        return Rail(id=name, part=part, x=x, height=height, slider=slider)
    recess = draw(perhaps(0, 120))
    if kind is Valve:
        part, side = draw(part_ids(ValvePart)), draw(SIDES)
        return Valve(id=name, part=part, x=x, height=height, recess=recess, side=side)
    if kind is Head:
        part, reach = draw(part_ids(HeadPart)), draw(perhaps(100, 500))
        return Head(id=name, part=part, x=x, height=height, recess=recess, reach=reach)
    if kind is HoseOutlet:
        return HoseOutlet(id=name, part=draw(part_ids(OutletPart)), x=x, height=height, recess=recess)
    return Spout(id=name, part=draw(part_ids(SpoutPart)), x=x, height=height, recess=recess)
