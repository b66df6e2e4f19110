"""How far the drawing of a wall reaches: everything on the wall, in model millimetres, without its notes."""

from collections.abc import Iterable

from geometry.plan import Plan
from geometry.shape.outline import Bounds, bounds_of


def wall_extent(plan: Plan) -> Bounds:
    """Return the bounds of the wall and of all that is drawn with it, even if it lies beside the wall."""
    wall, enclosure = plan.job.wall, plan.job.enclosure
    boxes = [(0.0, 0.0, wall.width, wall.height), (enclosure.left, 0.0, enclosure.right, enclosure.rim)]
    boxes += [solid.in_elevation().outline.bounds for solid in (*plan.fitted, *plan.existing, *plan.panes)]
    boxes += [run.lagged_pipe.bounds for run in plan.chases]
    boxes += map(bounds_of, wall.openings)
    return around(boxes)


def around(boxes: Iterable[Bounds]) -> Bounds:
    """Return the bounds of several bounds, at least one."""
    x0, y0, x1, y1 = zip(*boxes, strict=True)
    return min(x0), min(y0), max(x1), max(y1)
