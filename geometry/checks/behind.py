"""What lies behind the face: recesses, pipes and fixing screws, against each other, edges and timbers.

Depths count, in mm behind the bare face. Pipes that cross as seen on the wall are another check's; so is
how much of the wall stands behind a cut or between two chases.
"""

from collections.abc import Iterator
from functools import lru_cache

from geometry.checks.edges import Edge, ceiling, sides, to_edge
from geometry.checks.face import RECESSES
from geometry.checks.legs import cut_legs, joined, pipe_legs, pipe_legs_outside
from geometry.checks.memory import remembered
from geometry.checks.near import Gap, Pairs, compare, report
from geometry.finding import Finding
from geometry.model import XY
from geometry.pipework.routes import ALIGNED
from geometry.plan import Plan
from geometry.shape.outline import circle, gap
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
    yield from report(plan.rules, "behind.edge", _to_edges(plan))


def _to_edges(plan: Plan) -> Iterator[Gap]:
    """Go through all that is cut, with what is left to the sides and the top of the wall."""
    edges = (*sides(plan.job.wall), ceiling(plan.job.wall))
    yield from (left for recess in plan.solids(*RECESSES) for left in _left(recess, edges))
    exits: dict[str, tuple[XY, ...]] = {}
    for pipe, at in _exits(plan):
        exits[pipe] = (*exits.get(pipe, ()), at)
    yield from (left for leg in cut_legs(plan) for left in _left(leg, edges, exits.get(leg.owner, ())))


@lru_cache(maxsize=4096)
def _left(solid: Solid, edges: tuple[Edge, ...], exits: tuple[XY, ...] = ()) -> tuple[Gap, ...]:
    """Return what is left to some edges.

    A pipe that is fed from an edge, or that leaves the wall for a ceiling arm, is meant to meet it there.
    """
    here = [at for at in exits if gap(circle(at, 0.0), solid.outline) <= ALIGNED]
    return tuple(to_edge(solid, edge) for edge in edges if not any(map(edge.reached_by, here)))


def _exits(plan: Plan) -> Iterator[tuple[str, XY]]:
    """Go through the places where pipes leave the wall: at their feeds, and at ceiling arms."""
    arms = {placed.fitting.id for placed in plan.heads if placed.part.mount == "ceiling"}
    for pipe in plan.job.pipes:
        points = plan.courses[pipe.id].points
        if pipe.start is None:
            yield pipe.id, points[0]
        if pipe.end.partition(".")[0] in arms:
            yield pipe.id, points[-1]
