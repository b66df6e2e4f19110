"""Tracks: along which line a thing may be moved, and at which places it is tried. All in mm on the wall.

Places count as on site: along the wall from the enclosure's centre line, upwards from its floor. Centre line,
quarter lines, the other end of a hose and whole 10 mm come first, then whole 5 mm, then whole mm. Only level
and plumb moves are tried: what wants two moves at once is for the person to find.
"""

import math
from collections.abc import Callable, Iterator
from heapq import merge
from typing import Literal, NamedTuple

from geometry.build_up import BuildUp, build_up
from geometry.cures.still import Still, still_by_fitting, still_by_leg
from geometry.edits.moves import Axis, moved
from geometry.edits.refs import Ref
from geometry.edits.routes import leg_moved, legs
from geometry.model import XY, Finish, Fitting, Job
from geometry.pipework.routes import ALIGNED
from geometry.plan import Plan
from geometry.setting_out.lines import lines
from geometry.units import EPSILON, on_grid, shown

FAR = 400.0
"""How far a thing is moved at most, in mm: beyond that it is another arrangement (own choice)."""
STEPS = (10.0, 5.0, 1.0)
"""Whole so many mm, the best places first."""
SHORT_LEG = 1.0
"""A leg shorter than this, in mm, is not moved."""
Way = Literal[-1, 1]
"""To lower or to higher places of a track."""
WAYS: tuple[Way, ...] = (-1, 1)
LeftOut = Callable[[float], tuple[float, float] | None]
"""Tells the stretch that is left out and in which a place lies."""


class Track(NamedTuple):
    """A thing and the line along which it is moved; `to` gives the job with the thing at a place."""

    thing: str
    called: str
    axis: Axis
    at: float
    origin: float
    reach: tuple[float, float]
    marks: tuple[float, ...]
    """Setting-out lines, and where it is in line with what it is joined to: there values may jump."""
    to: Callable[[float], Job]
    still: Still
    """The legs of pipes that stay."""
    ground: Callable[[float], BuildUp] | None = None
    """The build-up at a place; None where it is the same everywhere."""
    whole: bool = True
    """Whether whole mm are tried, beside the marks."""

    @property
    def number(self) -> int:
        """Its axis as the index of a coordinate."""
        return "xy".index(self.axis)

    def ground_at(self, place: float) -> BuildUp | None:
        """Return the build-up at a place, if that is not the same everywhere."""
        return None if self.ground is None else self.ground(place)

    def outwards(self, step: float, way: Way, left_out: LeftOut) -> Iterator[float]:
        """Go through the places one way on whole so many mm within reach; at the first step the marks too."""
        marks = sorted(self.marks, reverse=way < 0) if step == STEPS[0] else ()
        beyond = (q for q in marks if way * (q - self.at) >= ALIGNED and self._within(q))
        last = self.at
        for place in merge(beyond, self._whole(step, way, left_out), key=lambda q: way * q):
            if place != last:
                yield place
            last = place

    def _whole(self, step: float, way: Way, left_out: LeftOut) -> Iterator[float]:
        if not self.whole:
            return
        low, high = self.reach
        number = math.floor((min(max(self.at, low), high) - self.origin) / step) + (way < 0)
        end = high if way > 0 else -low
        while way * (place := on_grid(self.origin + number * step)) <= end + EPSILON:
            on = number + way
            if way * (place - self.at) >= ALIGNED and self._within(place):
                stretch = left_out(place)
                if stretch is None:
                    yield place
                elif self.ground is None:
                    past = math.floor((min(max(stretch[way > 0], low), high) - self.origin) / step)
                    on = max(on, past) if way > 0 else min(on, past + 1)
            number = on

    def _within(self, place: float) -> bool:
        return self.reach[0] - EPSILON <= place <= self.reach[1] + EPSILON

    def title(self, to: float) -> str:
        """Say the move: `Move rail 60 mm right`."""
        by = to - self.at
        ways = ("right", "left") if self.axis == "x" else ("up", "down")
        return f"Move {self.called} {shown(abs(by))} mm {ways[by < 0]}"


def named_tracks(plan: Plan, parts: tuple[str, ...]) -> tuple[tuple[Track, ...], ...]:
    """Return the tracks of each thing that a finding names: fittings, both ends of hoses, legs of pipes."""
    names = list(parts)
    for hose in plan.job.hoses:
        if hose.id in parts:
            names += [hose.outlet, hose.rail]
    return (*_fittings(plan, names), *(legs_of for name in parts if (legs_of := _legs(plan, name))))


def tracks_at_ends(plan: Plan, parts: tuple[str, ...]) -> tuple[tuple[Track, ...], ...]:
    """Return the tracks of the fittings, not named themselves, to which the named pipes lead."""
    ends = [
        end.partition(".")[0]
        for pipe in plan.job.pipes
        if pipe.id in parts
        for end in (pipe.start, pipe.end)
        if end is not None
    ]
    hung = {end for hose in plan.job.hoses if hose.id in parts for end in (hose.outlet, hose.rail)}
    return tuple(_fittings(plan, [end for end in ends if end not in parts and end not in hung]))


def _fittings(plan: Plan, names: list[str]) -> Iterator[tuple[Track, ...]]:
    known = {fitting.id: fitting for fitting in plan.job.fittings}
    for name in dict.fromkeys(names):
        if name in known:
            yield _along(plan, known[name]), _up(plan, known[name])


def _along(plan: Plan, fitting: Fitting) -> Track:
    job, held, chosen = plan.job, lines(plan.job.enclosure), (Ref("fitting", fitting.id),)
    marks = (held.quarter_left, held.centre, held.quarter_right, *_in_line(plan, fitting, 0))
    return Track(
        fitting.id, fitting.id, "x", fitting.x, held.centre, _within(fitting.x, job.wall.width),
        tuple(map(on_grid, marks)),
        lambda x: moved(plan, chosen, x - fitting.x, 0.0),
        still_by_fitting(plan, fitting.id, 0),
        _ground(job.finish, lambda x: (x, fitting.height)),
    )  # fmt: skip


def _up(plan: Plan, fitting: Fitting) -> Track:
    job, chosen = plan.job, (Ref("fitting", fitting.id),)
    hung = any(head.fitting.id == fitting.id and head.part.mount == "ceiling" for head in plan.heads)
    return Track(
        fitting.id, fitting.id, "y", fitting.height, lines(job.enclosure).floor,
        _within(fitting.height, job.wall.height),
        (job.wall.height,) if hung else tuple(map(on_grid, _in_line(plan, fitting, 1))),
        lambda y: moved(plan, chosen, 0.0, y - fitting.height),
        still_by_fitting(plan, fitting.id, 1),
        _ground(job.finish, lambda y: (fitting.x, y)),
        whole=not hung,
    )  # fmt: skip


def _ground(finish: Finish, at: Callable[[float], XY]) -> Callable[[float], BuildUp] | None:
    """Return what tells the build-up at a place; nothing where it is the same everywhere."""
    if all(area.region is None for area in finish.areas[:1]):
        return None
    return lambda place: build_up(finish, at(place))


def _in_line(plan: Plan, fitting: Fitting, axis: int) -> Iterator[float]:
    """Go through where a fitting is in line with its hose's other end, or a port of it with its pipe."""
    for hung in plan.hoses:
        ends = (hung.outlet.fitting, hung.rail.fitting)
        if fitting in ends and axis == 0:
            yield ends[fitting == ends[0]].x
    for pipe in plan.job.pipes:
        course = plan.courses[pipe.id]
        others = [*pipe.route, *(port.at for port in (course.start, course.end) if port)]
        for port in (course.start, course.end):
            if port and port.name.partition(".")[0] == fitting.id:
                yield from (fitting.at[axis] + other[axis] - port.at[axis] for other in others)


def _legs(plan: Plan, name: str) -> tuple[Track, ...]:
    """Return the tracks of a pipe's level and plumb legs, square to each; none if it is no pipe."""
    if name not in plan.courses:
        return ()
    return tuple(
        track
        for index, leg in enumerate(legs(plan, name))
        if (track := _leg(plan, name, index, *leg)) is not None
    )


def _leg(
    plan: Plan, pipe: str, index: int, start: tuple[float, float], end: tuple[float, float]
) -> Track | None:
    across, up = abs(end[0] - start[0]), abs(end[1] - start[1])
    if max(across, up) < SHORT_LEG or min(across, up) >= ALIGNED:
        return None
    wall, held, still = plan.job.wall, lines(plan.job.enclosure), still_by_leg(plan, pipe, index)
    if across < up:
        return Track(
            pipe, f"the upright leg of {pipe} (at {shown(start[0])} mm)", "x", start[0], held.centre,
            _within(start[0], wall.width), (),
            lambda x: leg_moved(plan, pipe, index, (x - start[0], 0.0)), still,
        )  # fmt: skip
    return Track(
        pipe, f"the level leg of {pipe} (at {shown(start[1])} mm)", "y", start[1], held.floor,
        _within(start[1], wall.height), (),
        lambda y: leg_moved(plan, pipe, index, (0.0, y - start[1])), still,
    )  # fmt: skip


def _within(at: float, size: float) -> tuple[float, float]:
    """Return from where to where a thing may be moved: on the wall, and not far."""
    return max(0.0, at - FAR), min(size, at + FAR)
