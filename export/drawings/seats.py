"""What an upright section shows of a valve or an elbow that sits in the wall.

Millimetres; z counts from the bare face towards the room, negative behind it, and y is the height on
the wall. Nothing here draws.
"""

from collections.abc import Iterator
from typing import Literal, NamedTuple

from geometry.chase.channel import Chase
from geometry.chase.recess import CutDepth
from geometry.model import Layer, Valve
from geometry.parts.records import ValvePart
from geometry.parts.threads import THREADS
from geometry.plan import Elbowed, Placed, Plan
from geometry.shape.outline import Bounds
from geometry.shape.solid import Solid

PAST = 20.0  # mm of wall that is shown over and under the recess
BEHIND = 40.0  # mm of a thick leaf that is shown behind the deepest cut
OUT = 80.0  # mm; what stands out farther than this from the finished face is broken off
AIR = 6.0  # mm, in front of what stands out less

Way = Literal["up", "down", "across"]


class Joint(NamedTuple):
    """Pipes that join a fitting on the same way and at the same depth: from the side they look as one."""

    way: Way
    y: float
    chase: Chase
    pipes: tuple[str, ...]


class Seat(NamedTuple):
    """One fitting that sits in the wall, and the window (z, y) through which it is seen."""

    name: str
    part: str
    centre: float
    """Height of its centre."""
    hole: float
    """Diameter of its hole in the finish."""
    span: tuple[float, float]
    """Least and most from its back to the finished face."""
    depth: CutDepth
    cut: float
    """How deep its recess is cut."""
    recess: Bounds
    """The recess as seen on the wall."""
    layers: tuple[Layer, ...]
    face: float
    trim: tuple[tuple[Solid, Bounds], ...]
    """What sits in the recess, at the face and in front of it, as seen from the side."""
    tail: tuple[str, Bounds] | None
    """The threaded end of an elbow, which must reach the finished face: its thread, and z and y."""
    joints: tuple[Joint, ...]
    rear: float
    """z of the back of the leaf."""
    window: Bounds

    @property
    def broken(self) -> bool:
        """Whether the leaf goes on behind the window."""
        return self.rear < self.window[0]


def seats(plan: Plan) -> tuple[str, ...]:
    """Return the ids of the fittings that sit in the wall, valves first."""
    return tuple(plan.depths)


def seat(plan: Plan, fitting_id: str) -> Seat:
    """Return what the section through the centre of a fitting shows.

    Raises:
        KeyError: nothing of this id sits in the wall.
    """
    placed = {one.fitting.id: one for one in (*plan.valves, *plan.elbowed)}[fitting_id]
    depth, cut, face = plan.depths[fitting_id], plan.cuts[fitting_id], placed.face
    recess = plan.recesses[fitting_id].bounds
    own = [solid for solid in plan.fitted if solid.owner == fitting_id]
    trim = tuple(
        (solid, from_the_side(solid)) for solid in own if solid.what not in ("recess", "pocket", "screw")
    )
    joints = _joints(plan, fitting_id)
    deepest = max([cut, depth.most, *(joint.chase.depth for joint in joints)])
    rear = -plan.job.wall.thickness
    covers = [recess, *(side for solid, side in trim if solid.what in ("plate", "flange"))]
    window = (
        max(rear, -deepest - BEHIND),
        min(side[1] for side in covers) - PAST,
        face + min(OUT, max(side[2] for _, side in trim) - face) + AIR,
        max(side[3] for side in covers) + PAST,
    )
    return Seat(
        fitting_id, placed.part.name, placed.fitting.height, placed.part.hole,
        (placed.part.depth_least, placed.part.depth_most), depth, cut, recess, placed.finish.layers, face,
        trim, _tail(placed, cut), joints, rear, window,
    )  # fmt: skip


def _tail(placed: Placed[Valve, ValvePart] | Elbowed, cut: float) -> tuple[str, Bounds] | None:
    if isinstance(placed.part, ValvePart):
        return None
    y, radius = placed.fitting.height, THREADS[placed.part.thread].major / 2
    return placed.part.thread, (-cut, y - radius, placed.face, y + radius)


def from_the_side(solid: Solid) -> Bounds:
    """Return the bounds (z, y) of a solid as seen along the wall."""
    _, low, _, high = solid.outline.bounds
    if solid.plane == "elevation":
        return solid.low, low, solid.high, high
    return low, solid.low, high, solid.high


def _joints(plan: Plan, fitting_id: str) -> tuple[Joint, ...]:
    found: list[Joint] = []
    for way, y, chase in _ends(plan, fitting_id):
        like = [i for i, one in enumerate(found) if one.way == way and one.chase[2:] == chase[2:]]
        if like and way != "across":
            found[like[0]] = found[like[0]]._replace(pipes=(*found[like[0]].pipes, chase.pipe))
        else:
            found.append(Joint(way, y, chase, (chase.pipe,)))
    return tuple(found)


def _ends(plan: Plan, fitting_id: str) -> Iterator[tuple[Way, float, Chase]]:
    """Go through the ends of pipes at a fitting: which way each leaves it, and at which height."""
    for pipe, chase in zip(plan.job.pipes, plan.chases, strict=True):
        for name, points in ((pipe.start, chase.points), (pipe.end, chase.points[::-1])):
            if name and name.partition(".")[0] == fitting_id and len(points) > 1:
                (x0, y0), (x1, y1) = points[:2]
                upright: Way = "up" if y1 > y0 else "down"
                yield "across" if abs(x1 - x0) > abs(y1 - y0) else upright, y0, chase
