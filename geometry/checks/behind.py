"""What lies behind the face: recesses, pipes and fixing screws, against each other, edges and timbers.

Depths count, in mm behind the bare face. Pipes that cross as seen on the wall are another check's; so is
how much of the wall stands behind a cut or between two chases.
"""

from collections.abc import Iterator

from geometry.checks.edges import Edge, ceiling, sides, to_edge
from geometry.checks.face import RECESSES
from geometry.checks.legs import cut_legs, joined, pipe_legs, pipe_legs_outside
from geometry.checks.memory import remembered
from geometry.checks.near import Pairs, compare, report
from geometry.finding import Finding
from geometry.model import XY
from geometry.pipework.routes import ALIGNED
from geometry.plan import Plan
from geometry.shape.outline import Outline, circle, gap
from geometry.shape.solid import Solid
from geometry.units import EPSILON


def behind(plan: Plan) -> Iterator[Finding]:
    """Judge everything that lies behind the face."""
    yield from _boxes(plan)
    yield from _pipes(plan)
    yield from _edges(plan)
    yield from _timbers(plan)


@remembered
def _boxes(plan: Plan) -> Iterator[Finding]:
    yield from compare(plan.rules, "behind.boxes", Pairs(plan.solids(*RECESSES)))


@remembered
def _timbers(plan: Plan) -> Iterator[Finding]:
    timbers = (solid for solid in plan.existing if solid.what in ("stud", "noggin"))
    yield from compare(plan.rules, "behind.stud", Pairs(plan.solids(*RECESSES), timbers))


@remembered
def _pipes(plan: Plan) -> Iterator[Finding]:
    """Judge recesses and screws by pipes that do not join them, and pipes side by side."""
    joins = {(fitting, pipe.id) for pipe in plan.job.pipes for fitting in joined(pipe)}
    cut = (*plan.solids(*RECESSES), *plan.solids("screw"))
    in_the_way = Pairs(cut, pipe_legs(plan), lambda a, b: (a.owner, b.owner) not in joins)
    side_by_side = Pairs(pipe_legs_outside(plan), wanted=_side_by_side)
    yield from compare(plan.rules, "behind.pipes", in_the_way, side_by_side)


def _side_by_side(a: Solid, b: Solid) -> bool:
    """Return whether two legs of different pipes do not cross, wrap included, as seen on the wall."""
    return gap(a.outline, b.outline) >= -EPSILON


# edges of the wall


@remembered
def _edges(plan: Plan) -> Iterator[Finding]:
    """Judge all that is cut by the sides and the top of the wall."""
    rule, left = plan.rules["behind.edge"], tuple(_to_edges(plan))
    least = min((mm for mm, _, _ in left), default=0.0)
    told = max(least, rule.value + rule.tight + EPSILON)
    near = (to_edge(solid, edge) for mm, solid, edge in left if mm <= told)
    yield from report(plan.rules, rule.rule, near)


def _to_edges(plan: Plan) -> Iterator[tuple[float, Solid, Edge]]:
    """Go through all that is cut, with what is left to the sides and the top of the wall, in mm.

    A pipe that is fed from an edge, or that leaves the wall for a ceiling arm, is meant to meet it there.
    """
    edges, exits = (*sides(plan.job.wall), ceiling(plan.job.wall)), tuple(_exits(plan))
    for solid in (*plan.solids(*RECESSES), *cut_legs(plan)):
        leaves = [at for pipe, at in exits if pipe == solid.owner and _lies_on(at, solid.outline)]
        for edge in edges:
            if not any(map(edge.reached_by, leaves)):
                yield edge.left(solid), solid, edge


def _lies_on(at: XY, outline: Outline) -> bool:
    """Return whether a point lies on an outline; most lie out of its box, which is seen at once."""
    (x, y), (x0, y0, x1, y1) = at, outline.bounds
    return max(x0 - x, x - x1, y0 - y, y - y1) <= ALIGNED and gap(circle(at, 0.0), outline) <= ALIGNED


def _exits(plan: Plan) -> Iterator[tuple[str, XY]]:
    """Go through the places where pipes leave the wall: at their feeds, and at ceiling arms."""
    arms = {placed.fitting.id for placed in plan.heads if placed.part.mount == "ceiling"}
    for pipe in plan.job.pipes:
        points = plan.courses[pipe.id].points
        if pipe.start is None:
            yield pipe.id, points[0]
        if pipe.end.partition(".")[0] in arms:
            yield pipe.id, points[-1]
