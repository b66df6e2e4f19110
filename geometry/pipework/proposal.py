"""Routes that the program proposes for a pipe: cheapest first, each with its reasons, or what blocks it.

A route leaves each port straight for as long as its fittings take, turns square, and prefers upright legs,
since level chases weaken a wall more. What lies in its way, and how near it may come, follows from the
rules. All in mm.
"""

from collections.abc import Collection, Mapping
from typing import NamedTuple

from geometry.model import Job, Pipe, Wall
from geometry.pipework import cut_list
from geometry.pipework.obstacles import Side
from geometry.pipework.routes import leaves_wall
from geometry.pipework.seeker import Route, Seeker
from geometry.plan import Plan
from geometry.units import Display, with_unit


class Proposal(NamedTuple):
    """The routes found for a pipe, best first; if there is none, the names of what blocks it."""

    pipe: str
    routes: tuple[Route, ...]
    blocked: tuple[str, ...] = ()

    @property
    def message(self) -> str:
        """Say what was found, in one sentence."""
        if self.routes:
            best = self.routes[0]
            return f"{self.pipe}: {len(self.routes)} found; best: {', '.join(best.reasons)}."
        return f"{self.pipe}: no way was found. In the way: {', '.join(self.blocked)}."


def proposals(
    plan: Plan,
    pipe_id: str,
    side: Side | None = None,
    at: float | None = None,
    others: Collection[str] | None = None,
    display: Display = "mm",
) -> Proposal:
    """Propose routes for a pipe.

    Args:
        plan: the job with its parts.
        pipe_id: which pipe.
        side: the edge from which it is fed; None keeps the feed where it is. Of a pipe from a valve's outlet
            it is not used.
        at: where on that edge, in mm along it; None leaves the choice.
        others: the pipes to keep off; None is all others, as they are now.
        display: the unit of lengths in the reasons.
    """
    pipe = next(one for one in plan.job.pipes if one.id == pipe_id)
    if others is None:
        others = {one.id for one in plan.job.pipes}
    if side is None and pipe.start is None and at is None:
        side, at = feed_now(plan.job.wall, pipe)
    for tight in (False, True):
        seeker = Seeker(plan, pipe, side, at, others, tight)
        routes = seeker.routes()
        if routes:
            made = [route._replace(fault=_fault(plan, pipe, route)) for route in routes]
            made.sort(key=lambda route: bool(route.fault))
            return Proposal(pipe_id, _with_reasons(made, display))
    return Proposal(pipe_id, (), seeker.blockers())


def routed(plan: Plan, sides: Mapping[str, Side]) -> tuple[Job, tuple[Proposal, ...]]:
    """Return the job with a route for every pipe that keeps off all others, as far as one is found.

    Pipes are led one after the other. One that finds no way is led before all others the next time, until all
    find one or an order comes again.

    Args:
        plan: the job with its parts; its present routes are not kept.
        sides: by id, the edge from which a pipe is fed; one that is not named keeps its feed.
    """
    best: tuple[int, Job, tuple[Proposal, ...]] | None = None
    names = [pipe.id for pipe in plan.job.pipes]
    order, tried = tuple(names), set()
    while order not in tried:
        tried.add(order)
        job, found = plan.job, []
        for index, name in enumerate(order):
            here = Plan(job, plan.catalogue, plan.rules)
            found.append(proposals(here, name, sides.get(name), others=order[:index]))
            if found[-1].routes:
                job = applied(job, name, found[-1].routes[0])
        missing = [proposal.pipe for proposal in found if not proposal.routes]
        if best is None or len(missing) < best[0]:
            best = len(missing), job, tuple(sorted(found, key=lambda proposal: names.index(proposal.pipe)))
        if missing:
            order = (missing[0], *(name for name in order if name != missing[0]))
    return (plan.job, ()) if best is None else best[1:]


def applied(job: Job, pipe_id: str, route: Route) -> Job:
    """Return the job with a route taken."""
    pipes = tuple(pipe.but(route=route.points) if pipe.id == pipe_id else pipe for pipe in job.pipes)
    return job.but(pipes=pipes)


def feed_now(wall: Wall, pipe: Pipe) -> tuple[Side | None, float | None]:
    """Return the edge on which a pipe is fed now, and where; (None, None) within the wall, or from a port."""
    if pipe.start is not None or not leaves_wall(wall, pipe.route[0]):
        return None, None
    x, y = pipe.route[0]
    gaps: dict[Side, float] = {"below": y, "above": wall.height - y, "left": x, "right": wall.width - x}
    side = min(gaps, key=lambda name: gaps[name])
    return side, y if side in ("left", "right") else x


def _fault(plan: Plan, pipe: Pipe, route: Route) -> str:
    """Return what keeps the pieces of a route from being made, or nothing."""
    alone = Plan(plan.job.but(pipes=(pipe.but(route=route.points),)), plan.catalogue, plan.rules)
    faults = (*cut_list.unjoined(alone).values(), *(piece.fault for piece in cut_list.pieces(alone)))
    return next((fault for fault in faults if fault), "")


def _with_reasons(routes: list[Route], display: Display) -> tuple[Route, ...]:
    """Say of each route what it is and in what it is the best of them."""
    least = {
        name: min(getattr(route, name) for route in routes) for name in ("length", "level", "bends", "buried")
    }

    def said(route: Route) -> tuple[str, ...]:
        several = len(routes) > 1
        told = [
            ("length", f"{with_unit(route.length, display)} long", "the shortest"),
            ("level", f"{with_unit(route.level, display)} of it level", "the least level chase"),
            ("bends", f"{route.bends} {'turn' if route.bends == 1 else 'turns'}", "the fewest"),
            ("buried", f"{route.buried} {'joint' if route.buried == 1 else 'joints'} buried", "the fewest"),
        ]
        words = [
            f"{text} ({best})" if several and getattr(route, name) == least[name] else text
            for name, text, best in told
        ]
        words += [f"runs through {name}" for name in route.through]
        if route.tight:
            words.append("tight: only the least room that the rules ask for")
        if route.fault:
            words.append(f"but {route.fault}")
        return tuple(words)

    return tuple(route._replace(reasons=said(route)) for route in routes)
