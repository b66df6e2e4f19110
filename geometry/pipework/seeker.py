"""Looking for the routes of one pipe on the grid of what it keeps off. All in mm."""

import math
from collections.abc import Collection, Iterable, Sequence
from itertools import pairwise
from typing import NamedTuple

from geometry.model import XY, Pipe
from geometry.pipework.bends import radius
from geometry.pipework.grid import BARRED, End, Found, Grid, Obstacle, Weights
from geometry.pipework.joints import joints_with
from geometry.pipework.obstacles import Side, obstacles
from geometry.pipework.routes import UNIT, PortAt, corners, leaves_wall
from geometry.plan import Plan
from geometry.units import on_grid

USUAL = Weights(level=1.0, bend=150.0)
"""A mm on the level is worth two upright, a bend a detour of 150 mm (own choice)."""
OTHERS = (Weights(0.0, 1.0), Weights(0.2, 2000.0), Weights(20.0, 150.0))
"""For alternatives: the shortest, that with the fewest bends, that with the least on the level."""
ELSEWHERE = 2.0
"""What a mm costs more along the best route when one that runs elsewhere is sought (own choice)."""
_THROUGH = 1e7
"""What a mm costs in what bars the way, when what bars it is sought."""


class Route(NamedTuple):
    """A proposed route: the points of `Pipe.route`, the whole course, and what it is judged by."""

    points: tuple[XY, ...]
    course: tuple[XY, ...]
    cost: float
    length: float
    level: float
    bends: int
    buried: int
    """Square turns outside the recesses of the fittings that it joins: joints, if elbows make them."""
    through: tuple[str, ...]
    """Zones, studs and narrow webs that it runs through."""
    tight: bool
    """Whether it keeps only the least that the rules ask for."""
    fault: str = ""
    """What keeps its pieces from being made with the pipe's fittings, or nothing."""
    reasons: tuple[str, ...] = ()


class Seeker:
    """Looks for the routes of one pipe with one choice of clearances, or for what blocks it."""

    def __init__(
        self,
        plan: Plan,
        pipe: Pipe,
        side: Side | None,
        at: float | None,
        others: Collection[str],
        tight: bool,
    ) -> None:
        self.plan, self.pipe, self.tight = plan, pipe, tight
        self.start = plan.ports[pipe.start] if pipe.start is not None else None
        self.end = plan.ports[pipe.end]
        limit = plan.rules["pipe.port"]
        self.take = _takes(plan, pipe)
        self.stub = max(limit.value if tight else limit.value + limit.tight, self.take.port)
        open_sides: set[Side] = {side} if side is not None and self.start is None else set()
        if self._is_open(self.end):
            open_sides.add("above")  # an arm from the ceiling
        stubs = (self._stub(port) for port in (self.start, self.end) if port is not None)
        kept_off = tuple(obstacles(plan, pipe, others, open_sides, tight))
        self.stuck = self._stuck(kept_off)
        self.things = (*kept_off, *(stub for stub in stubs if stub is not None))
        self.goal = self._out(self.end)
        self.xs, self.ys = self._lines()
        self.sources = self._sources(side, at)

    def _out(self, port: PortAt) -> End:
        """Return where a pipe may first turn after a port, and how it runs there."""
        if port.direction is None:
            return End(port.at, None, self.take.port if self._is_open(port) else self.take.wall_elbow)
        (ux, uy), (x, y) = UNIT[port.direction], port.at
        at = (on_grid(x + ux * self.stub), on_grid(y + uy * self.stub))
        return End(at, "level" if ux else "upright")

    def _is_open(self, port: PortAt) -> bool:
        """Return whether a port is at the wall's edge and takes a pipe from any side: an arm's."""
        return port.direction is None and leaves_wall(self.plan.job.wall, port.at)

    def _stuck(self, things: tuple[Obstacle, ...]) -> tuple[str, ...]:
        """Return the names of what lies across the straight pieces at the ports, their own boxes left out."""
        names: list[str] = []
        for port in (self.start, self.end):
            if port is not None and port.direction is not None:
                own = f"box of {port.name.partition('.')[0]}"
                others = [thing for thing in things if thing.name != own]
                names += _crossed((port.at, self._out(port).at), others, BARRED)
        return tuple(dict.fromkeys(names))

    def _stub(self, port: PortAt) -> Obstacle | None:
        """Return what keeps a pipe from passing near a port on its way: there it could not turn twice."""
        if port.direction is None:
            return None
        (x0, y0), (x1, y1) = port.at, self._out(port).at
        beside = max(self.take.between, 1.0)
        wide, tall = (0.0, beside) if x0 != x1 else (beside, 0.0)
        low, high = (min(x0, x1) - wide, min(y0, y1) - tall), (max(x0, x1) + wide, max(y0, y1) + tall)
        return Obstacle(port.name, (on_grid(low[0]), on_grid(low[1]), on_grid(high[0]), on_grid(high[1])))

    def _lines(self) -> tuple[list[float], list[float]]:
        wall = self.plan.job.wall
        xs, ys = {0.0, wall.width}, {0.0, wall.height}
        for thing in self.things:
            x0, y0, x1, y1 = thing.bounds
            xs.update(x for x in (x0, x1) if 0 < x < wall.width)
            ys.update(y for y in (y0, y1) if 0 < y < wall.height)
        places = [self.goal.at, self._out(self.start).at if self.start else self.pipe.route[0]]
        for aside in (0.0, self.take.between, -self.take.between):
            xs.update(on_grid(x + aside) for x, _ in places if 0 < x + aside < wall.width)
            ys.update(on_grid(y + aside) for _, y in places if 0 < y + aside < wall.height)
        xs.update(x for x, _ in places)
        ys.update(y for _, y in places)
        return sorted(xs), sorted(ys)

    def _sources(self, side: Side | None, at: float | None) -> tuple[End, ...]:
        if self.start is not None:
            return (self._out(self.start),)
        wall = self.plan.job.wall
        if side is None:
            return (End(self.pipe.route[0], None, self.take.tee),)
        if side in ("below", "above"):
            y = 0.0 if side == "below" else wall.height
            if at is not None:
                self.xs = sorted({*self.xs, on_grid(at)})
            return tuple(
                End((x, y), "upright", self.take.edge) for x in (self.xs if at is None else [on_grid(at)])
            )
        x = 0.0 if side == "left" else wall.width
        if at is not None:
            self.ys = sorted({*self.ys, on_grid(at)})
        return tuple(End((x, y), "level", self.take.edge) for y in (self.ys if at is None else [on_grid(at)]))

    def _find(self, weights: Weights, more: Iterable[Obstacle] = ()) -> Found | None:
        xs, ys = set(self.xs), set(self.ys)
        for thing in more:
            xs.update((thing.bounds[0], thing.bounds[2]))
            ys.update((thing.bounds[1], thing.bounds[3]))
        grid = Grid(xs, ys, (*self.things, *more), weights)
        return grid.find(self.sources, [self.goal], self.take.between)

    def routes(self) -> list[Route]:
        """Return different routes, the cheapest first."""
        best = None if self.stuck else self._find(USUAL)
        if best is None:
            return []
        found = [best, *(self._find(weights) for weights in OTHERS), self._find(USUAL, _beside(best.points))]
        held = {
            route.course: route for one in found if one is not None for route in (self._route(one.points),)
        }
        return sorted(held.values(), key=lambda route: (route.cost, route.bends, route.course))

    def blockers(self) -> tuple[str, ...]:
        """Return the names of what lies in the way that takes least to clear."""
        if self.stuck:
            return self.stuck
        softened = [
            thing._replace(
                level=_THROUGH if thing.level == BARRED else thing.level,
                upright=_THROUGH if thing.upright == BARRED else thing.upright,
            )
            for thing in self.things
        ]
        found = Grid(self.xs, self.ys, softened, USUAL).find(self.sources, [self.goal], self.take.between)
        barred = [thing for thing in self.things if BARRED in (thing.level, thing.upright)]
        crossed = _crossed(found.points, barred, BARRED) if found else ()
        return crossed or ("the room that its fittings take",)

    def _route(self, points: tuple[XY, ...]) -> Route:
        before = (self.start.at,) if self.start is not None else ()
        course = corners(_distinct((*before, *points, self.end.at)))
        legs = list(pairwise(course))
        level = sum(abs(b[0] - a[0]) for a, b in legs)
        length = sum(math.dist(a, b) for a, b in legs)
        bends = len(course) - 2
        soft = [
            thing for thing in self.things if BARRED not in (thing.level, thing.upright) or not thing.level
        ]
        return Route(
            points=course[1:-1] if self.start is not None else course[:-1],
            course=course,
            cost=length + USUAL.level * level + USUAL.bend * bends + _charged(points, self.things),
            length=length,
            level=level,
            bends=bends,
            buried=self._buried(course),
            through=_crossed(points, soft, 0.0),
            tight=self.tight,
        )

    def _buried(self, course: tuple[XY, ...]) -> int:
        if self.pipe.turns == "bends":
            return 0
        joins = {end.name.partition(".")[0] for end in (self.start, self.end) if end is not None}
        boxes = [self.plan.recesses[name].bounds for name in joins if name in self.plan.recesses]
        return sum(
            not any(x0 <= x <= x1 and y0 <= y <= y1 for x0, y0, x1, y1 in boxes) for x, y in course[1:-1]
        )


class _Takes(NamedTuple):
    """How much straight pipe fittings and bends take, to whole mm upwards, so that rounding leaves enough."""

    port: int = 0
    """From a port to the first turn, as `wall_elbow`, `tee` and `edge` from where the pipe begins or ends."""
    between: int = 0
    """From turn to turn."""
    wall_elbow: int = 0
    tee: int = 0
    edge: int = 0


def _takes(plan: Plan, pipe: Pipe) -> _Takes:
    """Return what fittings take of a pipe; nothing if they are not known: the checks say so."""
    tube, held = plan.tubes[pipe.id], plan.job.pipework
    joints = joints_with(held.measured)
    try:
        joint = joints.find(tube, pipe.jointing)
    except ValueError:
        return _Takes()
    turn = radius(tube) if pipe.turns == "bends" else joint.elbow + joint.insertion
    return _Takes(
        port=math.ceil(joint.adaptor + joint.insertion + turn),
        between=math.ceil(2 * turn),
        wall_elbow=math.ceil(joint.wall_elbow + joint.insertion + turn),
        tee=math.ceil(max(joint.tee_branch, joints.tee(tube.outside, joint)[1]) + joint.insertion + turn),
        edge=math.ceil(max(turn - held.tail, 0.0)),
    )


def _distinct(points: Sequence[XY]) -> tuple[XY, ...]:
    return tuple(point for index, point in enumerate(points) if not index or point != points[index - 1])


def _beside(points: tuple[XY, ...]) -> list[Obstacle]:
    """Return what makes a way dear to take again: a strip along each of its legs."""
    found = []
    for (x0, y0), (x1, y1) in pairwise(corners(points)):
        low, high = (min(x0, x1) - 20.0, min(y0, y1) - 20.0), (max(x0, x1) + 20.0, max(y0, y1) + 20.0)
        found.append(Obstacle("taken", (*low, *high), ELSEWHERE, ELSEWHERE))
    return found


def _charged(points: tuple[XY, ...], things: Iterable[Obstacle]) -> float:
    """Return what a way costs more for what it runs through."""
    total = 0.0
    for thing in things:
        for way, inside in _inside(points, thing):
            price = thing.level if way == "level" else thing.upright
            total += price * inside if price != BARRED else 0.0
    return total


def _crossed(points: tuple[XY, ...], things: Iterable[Obstacle], least: float) -> tuple[str, ...]:
    """Return the names of what a way runs through at a price: any above 0, or only what is barred."""
    names = []
    for thing in things:
        for way, inside in _inside(points, thing):
            price = thing.level if way == "level" else thing.upright
            if inside > 0 and (price == BARRED if least == BARRED else 0 < price < BARRED):
                names.append(thing.name)
    return tuple(dict.fromkeys(names))


def _inside(points: tuple[XY, ...], thing: Obstacle) -> list[tuple[str, float]]:
    """Return each leg's way and how much of it lies within an obstacle, its edges left out."""
    x0, y0, x1, y1 = thing.bounds
    found = []
    for (ax, ay), (bx, by) in pairwise(points):
        if ay == by and y0 < ay < y1:
            found.append(("level", max(0.0, min(max(ax, bx), x1) - max(min(ax, bx), x0))))
        elif ax == bx and x0 < ax < x1:
            found.append(("upright", max(0.0, min(max(ay, by), y1) - max(min(ay, by), y0))))
    return found
