"""The cut list: every straight or bent piece of tube between two fittings, and what it is cut to. In mm.

Length to cut = length along the axis, corners square, less the gain of its bends, less each fitting's
take-off (from its centre to its mouth), plus how deep the tube goes into each. Pieces are counted along the
pipe, from its feed or from the valve: `H-1`, `C-2`, and `1-1` for the first piece of outlet 1.
"""

import math
from collections.abc import Iterator
from functools import lru_cache
from itertools import pairwise
from typing import NamedTuple

from geometry.model import XY, OldPipe, Pipe
from geometry.parts.records import Thread, TubePart
from geometry.pipework.bends import MOST, Bend, arc, is_square, radius, set_back, turn
from geometry.pipework.joints import CALLED, Joint, Joints, joints_with
from geometry.pipework.routes import PortAt, corners, leaves_wall
from geometry.plan import Plan
from geometry.units import at_least, number

STEP = 0.5
"""Tube is cut to half a millimetre."""
_LETTERS = {"hot": "H", "cold": "C"}
_REACH = 1.0
"""A feed within this many mm of an old pipe's axis is taken from that pipe."""


class Fitting(NamedTuple):
    """What joins tubes, or a tube and a port: what it is called in an order, where it sits, whose it is."""

    what: str
    at: XY
    pipe: str
    joint: Joint
    ends: int
    """How many ends of tube are joined in it."""
    thread: Thread | None = None
    """The thread that is sealed, if there is one."""
    port: str = ""
    """The port that it joins, if there is one."""
    between: str = ""
    """The pieces that it joins, or the piece and what it is joined to."""


class End(NamedTuple):
    """One end of a piece: at what, and what that takes off, from its centre or face to the stop and mouth."""

    at: XY
    where: str
    stop: float
    insertion: float

    @property
    def take_off(self) -> float:
        """From the fitting's centre, or the port's face, to its mouth."""
        return self.stop + self.insertion


class Straight(NamedTuple):
    """A straight part of a piece: its leg of the axis, between what, and the tube seen between these."""

    leg: tuple[XY, XY]
    first: str
    last: str
    room: float
    """Below 0 if they take more than there is."""


class Piece(NamedTuple):
    """One piece of tube: the name to write on it, its axis with square corners, its ends and bends."""

    name: str
    pipe: str
    tube: str
    axis: tuple[XY, ...]
    start: End
    end: End
    bends: tuple[Bend, ...] = ()

    @property
    def centres(self) -> float:
        """From centre to centre along the axis, corners square."""
        return sum(math.dist(a, b) for a, b in pairwise(self.axis))

    @property
    def gained(self) -> float:
        """What its bends save."""
        return sum(2 * set_back(b.radius, b.angle) - arc(b.radius, b.angle) for b in self.bends)

    @property
    def exact(self) -> float:
        """The length that fits, not rounded."""
        less = self.start.take_off + self.end.take_off
        return self.centres - self.gained - less + self.start.insertion + self.end.insertion

    @property
    def cut(self) -> float:
        """The length to cut, to 0.5 mm."""
        return round(self.exact / STEP) * STEP

    @property
    def straights(self) -> tuple["Straight", ...]:
        """Its straight parts, each between two fittings or bends."""
        names = [
            self.start.where,
            *(f"bend {index}" for index in range(1, len(self.bends) + 1)),
            self.end.where,
        ]
        takes = [self.start.take_off, *(set_back(b.radius, b.angle) for b in self.bends), self.end.take_off]
        between = zip(pairwise(self.axis), pairwise(names), pairwise(takes), strict=True)
        return tuple(
            Straight(leg, first, last, math.dist(*leg) - sum(taken)) for leg, (first, last), taken in between
        )

    @property
    def fault(self) -> str:
        """What keeps it from being made, or nothing."""
        for bend in self.bends:
            if bend.angle > MOST:
                where = f"{number(bend.at[0])}, {number(bend.at[1])}"
                return f"{self.name} turns right back on itself at {where}: lead it another way"
        _, first, last, room = min(self.straights, key=lambda straight: straight.room)
        if at_least(room, 0.0):
            return ""
        if self.bends:
            return (
                f"{self.name} has {number(-room)} mm too little between {first} and {last}: bend it elsewhere"
            )
        wanted = self.start.insertion + self.end.insertion
        return (
            f"{self.name} would be {number(self.exact)} mm long, but its fittings hold "
            f"{number(wanted)} mm of it: set the corners farther apart, or use other fittings"
        )


class Run(NamedTuple):
    """One pipe made up: how it is joined, its pieces and its fittings, both from its start to its end."""

    pipe: Pipe
    tube: TubePart
    joint: Joint
    mark: str
    pieces: tuple[Piece, ...]
    fittings: tuple[Fitting, ...]


def runs(plan: Plan) -> tuple[Run, ...]:
    """Return the pipes of a plan made up, in the order of the job; without those that are `unjoined`."""
    joints, marks = joints_with(plan.job.pipework.measured), piece_marks(plan)
    faulty = unjoined(plan)
    return tuple(_run(plan, pipe, joints, marks[pipe.id]) for pipe in plan.job.pipes if pipe.id not in faulty)


def unjoined(plan: Plan) -> dict[str, str]:
    """Return the pipes whose tube is not joined in the way chosen, by id: why not."""
    joints, found = joints_with(plan.job.pipework.measured), {}
    for pipe in plan.job.pipes:
        try:
            joints.find(plan.tubes[pipe.id], pipe.jointing)
        except ValueError as problem:
            found[pipe.id] = str(problem)
    return found


def pieces(plan: Plan) -> tuple[Piece, ...]:
    """Return every piece of tube to cut."""
    return tuple(piece for run in runs(plan) for piece in run.pieces)


def piece_marks(plan: Plan) -> dict[str, str]:
    """Return what the names of a pipe's pieces begin with, by its id: H, C, the outlet's number, or the id.

    The id is taken where several pipes would have the same mark.
    """
    short = {pipe.id: _mark(pipe) for pipe in plan.job.pipes}
    held = list(short.values())
    return {name: mark if held.count(mark) == 1 else name for name, mark in short.items()}


def _mark(pipe: Pipe) -> str:
    if pipe.service in _LETTERS:
        return _LETTERS[pipe.service]
    port = (pipe.start or pipe.end).partition(".")[2]
    return port.lstrip("abcdefghijklmnopqrstuvwxyz") or pipe.id


def _run(plan: Plan, pipe: Pipe, joints: Joints, mark: str) -> Run:
    tube, course = plan.tubes[pipe.id], plan.courses[pipe.id]
    joint = joints.find(tube, pipe.jointing)
    points = corners(course.points)
    if len(points) < 2:
        return Run(pipe, tube, joint, mark, (), ())
    start = (
        _feed(plan, pipe, joint, joints) if course.start is None else _port(plan, pipe, course.start, joint)
    )
    return _made_up(pipe, tube, joint, mark, points, start, _port(plan, pipe, course.end, joint))


_Joined = tuple[Fitting | None, End]
"""A fitting, if one is there, with the end of a piece that it makes."""


@lru_cache(maxsize=512)
def _made_up(
    pipe: Pipe, tube: TubePart, joint: Joint, mark: str, points: tuple[XY, ...], start: _Joined, end: _Joined
) -> Run:
    """Make up one pipe along its corners, between what joins its ends."""
    found = [start, *_elbows(pipe, points, joint, mark), end]
    made = _pieces(pipe, tube, mark, points, [ends for _, ends in found])
    names = [made[0].name, *([""] * (len(found) - 2)), made[-1].name]
    fittings = tuple(
        fitting._replace(between=fitting.between or f"{name}/{end.where}")
        for (fitting, end), name in zip(found, names, strict=True)
        if fitting is not None
    )
    return Run(pipe, tube, joint, mark, made, fittings)


def _elbows(pipe: Pipe, points: tuple[XY, ...], joint: Joint, mark: str) -> Iterator[_Joined]:
    """Go through the corners where an elbow joins two pieces; the others are bends."""
    count = 0
    for a, b, c in zip(points, points[1:], points[2:], strict=False):
        if pipe.turns == "elbows" and is_square(turn(a, b, c)):
            count += 1
            between = f"{mark}-{count}/{mark}-{count + 1}"
            end = End(b, f"elbow {between}", joint.elbow, joint.insertion)
            yield Fitting(f"elbow {_sized(joint)}", b, pipe.id, joint, 2, between=between), end


def _pieces(
    pipe: Pipe, tube: TubePart, mark: str, points: tuple[XY, ...], ends: list[End]
) -> tuple[Piece, ...]:
    """Cut the axis at its elbows: `ends` are those of the pipe and each elbow between."""
    at, axes = 0, []
    for end in ends[1:-1]:
        here = points.index(end.at, at + 1)
        axes.append(points[at : here + 1])
        at = here
    axes.append(points[at:])
    return tuple(
        _piece(f"{mark}-{index}", pipe, tube, axis, *both)
        for index, (axis, both) in enumerate(zip(axes, pairwise(ends), strict=True), 1)
    )


def _piece(name: str, pipe: Pipe, tube: TubePart, axis: tuple[XY, ...], start: End, end: End) -> Piece:
    bends: list[Bend] = []
    along = -start.stop
    before, bend_radius = 0.0, radius(tube)
    for a, b, c in zip(axis, axis[1:], axis[2:], strict=False):
        angle = turn(a, b, c)
        held = bend_radius if angle <= MOST else 0.0
        back = set_back(held, angle)
        along += math.dist(a, b) - before - back
        bends.append(Bend(b, angle, held, along))
        along += arc(held, angle)
        before = back
    return Piece(name, pipe.id, tube.id, axis, start, end, tuple(bends))


# ends


def _sized(joint: Joint) -> str:
    return f"{number(joint.outside)} {CALLED[joint.jointing]}"


def _port(plan: Plan, pipe: Pipe, port: PortAt, joint: Joint) -> _Joined:
    """Return what joins a tube to a port: nut and olive on its own thread, an adaptor, or an elbow."""
    size = _sized(joint)
    if port.direction is None and not _ceiling(plan, port):
        what, stop = f"wall elbow {size} × {port.thread}", joint.wall_elbow
    elif joint.port is not None and joint.port_thread == port.thread:
        what, stop = f"nut and olive {number(joint.outside)}", joint.port
    else:
        bush = "" if port.thread in joint.threads else f" with bush {joint.threads[-1]} × {port.thread}"
        thread = joint.threads[-1] if bush else port.thread
        what, stop = f"adaptor {size} × {thread}{bush}", joint.adaptor
    sealed = None if what.startswith("nut") else port.thread
    fitting = Fitting(what, port.at, pipe.id, joint, 1, sealed, port.name)
    return fitting, End(port.at, port.name, stop, joint.insertion)


def _ceiling(plan: Plan, port: PortAt) -> bool:
    """Return whether a port is that of an arm from the ceiling, which a pipe meets end to end."""
    name = port.name.partition(".")[0]
    return any(head.fitting.id == name and head.part.mount == "ceiling" for head in plan.heads)


def _feed(plan: Plan, pipe: Pipe, joint: Joint, joints: Joints) -> _Joined:
    """Return the end at a feed: a tail where the pipe leaves the wall, else a tee on a pipe in it."""
    at = plan.courses[pipe.id].points[0]
    if leaves_wall(plan.job.wall, at):
        return None, End(at, "supply", -plan.job.pipework.tail, 0.0)
    main = _tapped(plan, at)
    outside = joint.outside if main is None else main.diameter
    stop = joints.tee(outside, joint)[1]
    run = number(outside)
    branch = f"{CALLED[joint.jointing]} {run} × {run} × {number(joint.outside)}"
    where = "tee" if main is None else f"tee on {main.id}"
    return Fitting(f"tee {branch}", at, pipe.id, joint, 3), End(at, where, stop, joint.insertion)


def _tapped(plan: Plan, at: XY) -> OldPipe | None:
    """Return the old pipe that a point lies on, if there is one."""
    import shapely

    for service in plan.job.services:
        if isinstance(service, OldPipe):
            away = shapely.distance(shapely.LineString(service.route), shapely.Point(at))
            if away <= _REACH:
                return service
    return None
