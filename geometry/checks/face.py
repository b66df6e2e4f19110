"""What sits on the finished face, and how near everything on or in the wall comes to what is there already.

Plates, controls, flanges and brackets are judged against each other, the edges of the wall and the lines
of the enclosure; they and all that is cut against openings, accessories, cables and old pipes. All in mm.
"""

from collections.abc import Iterator

from geometry.checks.edges import ceiling, rim, sides, to_edge, within
from geometry.checks.front import on_face
from geometry.checks.legs import cut_legs
from geometry.checks.memory import remembered
from geometry.checks.near import Gap, Pairs, compare, report
from geometry.finding import Finding
from geometry.model import Accessory, Cable, OldPipe
from geometry.model.record import FARTHEST
from geometry.pipework.routes import ALIGNED
from geometry.plan import Plan
from geometry.shape.outline import bounds_of, circle, gap, rectangle
from geometry.shape.solid import Solid

RECESSES = ("recess", "pocket")
"""What is cut for boxes and elbows."""


def face(plan: Plan) -> Iterator[Finding]:
    """Judge what sits on the face, and everything on or in the wall against what is there already."""
    yield from _on_face(plan)
    rules, flat = plan.rules, on_face(plan)
    cuts = (*plan.solids(*RECESSES), *cut_legs(plan))
    yield from compare(rules, "face.opening", Pairs((*flat, *cuts), openings_of(plan)))
    yield from compare(rules, "face.service", *_services(plan, flat, cuts))


@remembered
def _on_face(plan: Plan) -> Iterator[Finding]:
    """Judge what sits on the face by itself and by edges; pipes have no part in it."""
    flat = on_face(plan)
    yield from compare(plan.rules, "face.plates", Pairs(flat))
    yield from report(plan.rules, "face.edge", _edges(plan, flat))


def _edges(plan: Plan, flat: tuple[Solid, ...]) -> Iterator[Gap]:
    """Go through what sits on the face, with what is left to the edges of the wall and the enclosure."""
    wall, enclosure = plan.job.wall, plan.job.enclosure
    edges, low = (*sides(wall), ceiling(wall), *within(enclosure, wall)), rim(enclosure)
    for solid in flat:
        yield from (to_edge(solid, edge) for edge in edges)
        x0, _, _, x1, _, _ = solid.box
        if x0 < enclosure.right and x1 > enclosure.left:
            yield to_edge(solid, low)


def openings_of(plan: Plan) -> Iterator[Solid]:
    """Go through the openings as solids: they lead through all of the wall."""
    for opening in plan.job.wall.openings:
        yield Solid(opening.id, "opening", rectangle(*bounds_of(opening)), -FARTHEST, FARTHEST)


def _services(plan: Plan, flat: tuple[Solid, ...], cuts: tuple[Solid, ...]) -> tuple[Pairs, Pairs]:
    """Return what to compare: the face with accessories, cuts and screws with all that lies in the wall."""
    screws = plan.solids("screw")
    known = tuple(zip(plan.job.services, plan.existing, strict=True))
    accessories = [solid for service, solid in known if isinstance(service, Accessory)]
    old = [solid for service, solid in known if isinstance(service, OldPipe)]
    cables = [solid for service, solid in known if isinstance(service, Cable)]
    fed = _fed_from(plan, old)
    in_wall = Pairs(
        (*cuts, *screws),
        (*accessories, *cables, *old),
        lambda cut, service: (cut.owner, service.owner) not in fed,
    )
    return Pairs(flat, accessories), in_wall


def _fed_from(plan: Plan, old: list[Solid]) -> frozenset[tuple[str, str]]:
    """Return the pipes that begin on an old pipe, each with that pipe: they are meant to meet."""
    feeds = [(pipe.id, circle(pipe.route[0], 0.0)) for pipe in plan.job.pipes if pipe.start is None]
    return frozenset(
        (name, pipe.owner) for name, feed in feeds for pipe in old if gap(feed, pipe.outline) <= ALIGNED
    )
