"""Moving things on the wall, and what follows them. All distances in mm, x right, y up.

Pipes hang on the ports of their fittings, so they follow by themselves; the next point of a route that
was plumb or level with its port stays so, which keeps a straight pipe straight. A pipe between two things
that both move goes with them as it is.
"""

from collections.abc import Collection, Iterable, Sequence
from typing import Literal

from geometry.edits.refs import TILES, Ref, things
from geometry.model import (
    XY,
    Accessory,
    Cable,
    Door,
    Finish,
    Fitting,
    Job,
    Joist,
    OldPipe,
    Opening,
    Pipe,
    Service,
    Stud,
    Valve,
)
from geometry.pipework.routes import ALIGNED
from geometry.plan import Plan
from geometry.units import on_grid

Axis = Literal["x", "y"]


def moved(plan: Plan, chosen: Collection[Ref], dx: float, dy: float) -> Job:
    """Return the job with the chosen things moved by whole tenths; hoses move with their ends only."""
    job, dx, dy = plan.job, on_grid(dx), on_grid(dy)
    fittings = {ref.id for ref in chosen if ref.kind == "fitting"}
    services = {ref.id for ref in chosen if ref.kind == "service"}
    openings = {ref.id for ref in chosen if ref.kind == "opening"}
    pipes = {ref.id for ref in chosen if ref.kind == "pipe"}
    return job.but(
        fittings=tuple(_fitting(f, dx, dy) if f.id in fittings else f for f in job.fittings),
        services=tuple(_service(s, dx, dy) if s.id in services else s for s in job.services),
        pipes=tuple(_pipe(plan, pipe, fittings, pipes, dx, dy) for pipe in job.pipes),
        wall=job.wall.but(
            openings=tuple(_opening(o, dx, dy) if o.id in openings else o for o in job.wall.openings)
        )
        if openings
        else job.wall,
        finish=_restarted(job.finish, dx, dy) if TILES in chosen else job.finish,
    )


def _restarted(finish: Finish, dx: float, dy: float) -> Finish:
    """Return the finish with its first tile elsewhere."""
    tiling = finish.tiling
    if tiling is None:
        return finish
    x, y = on_grid(tiling.start_x + dx), on_grid(tiling.start_y + dy)
    return finish.but(tiling=tiling.but(start_x=x, start_y=y))


def moved_by(plan: Plan, refs: Sequence[Ref], dx: float, dy: float) -> Job:
    """Return the job with things moved; a head under the ceiling stays under it."""
    hung = {Ref("fitting", head.fitting.id) for head in plan.heads if head.part.mount == "ceiling"}
    up = [ref for ref in refs if ref in hung]
    job = moved(plan, [ref for ref in refs if ref not in hung], dx, dy)
    return moved(Plan(job, plan.catalogue, plan.rules), up, dx, 0.0) if up else job


def shifted(points: Iterable[XY], dx: float, dy: float) -> tuple[XY, ...]:
    """Return points elsewhere, on the model's grid."""
    return tuple((on_grid(x + dx), on_grid(y + dy)) for x, y in points)


def _fitting(fitting: Fitting, dx: float, dy: float) -> Fitting:
    return fitting.but(x=on_grid(fitting.x + dx), height=on_grid(fitting.height + dy))


def _opening(opening: Opening, dx: float, dy: float) -> Opening:
    return opening.but(x=on_grid(opening.x + dx), y=on_grid(opening.y + dy))


def _service(service: Service, dx: float, dy: float) -> Service:
    match service:
        case Accessory():
            return service.but(x=on_grid(service.x + dx), height=on_grid(service.height + dy))
        case Cable() | OldPipe():
            return service.but(route=shifted(service.route, dx, dy))
        case Stud():
            return service.but(x=on_grid(service.x + dx))
        case Joist():
            return service.but(
                height=on_grid(service.height + dy),
                left=on_grid(service.left + dx),
                right=on_grid(service.right + dx),
            )


def _pipe(
    plan: Plan, pipe: Pipe, fittings: Collection[str], pipes: Collection[str], dx: float, dy: float
) -> Pipe:
    if not pipe.route:
        return pipe
    course = plan.courses[pipe.id]
    ends = (course.start, course.end)
    carried = all(port is not None and _fitting_of(port.name) in fittings for port in ends)
    if pipe.id in pipes or carried:
        return pipe.but(route=shifted(pipe.route, dx, dy))
    route = list(pipe.route)
    for port, index in ((course.start, 0), (course.end, -1)):
        if port is None or _fitting_of(port.name) not in fittings:
            continue
        x, y = route[index]
        if abs(x - port.at[0]) < ALIGNED:
            route[index] = (on_grid(x + dx), y)
        elif abs(y - port.at[1]) < ALIGNED:
            route[index] = (x, on_grid(y + dy))
    changed = tuple(route)
    return pipe if changed == pipe.route else pipe.but(route=changed)


def _fitting_of(port: str) -> str:
    return port.partition(".")[0]


def other_hand(job: Job) -> Job:
    """Return the job with its arrangement mirrored about the enclosure's centre line.

    Fittings and pipes change sides; wall, enclosure and what is in the wall stay. Hot stays on the left of
    a valve, so the hot pipe takes the mirrored course of the cold one and the other way round.
    """
    twice = 2 * job.enclosure.centre
    return job.but(
        fittings=tuple(_turned(fitting, twice) for fitting in job.fittings),
        pipes=_mirrored_pipes(job.pipes, twice),
    )


def mirrored_wall(job: Job) -> Job:
    """Return the whole job as its mirror image about the middle of the wall."""
    width = job.wall.width
    wall, enclosure = job.wall, job.enclosure
    swapped = {"left": "right", "right": "left", "front": "front"}
    return job.but(
        wall=wall.but(
            left=wall.right,
            right=wall.left,
            openings=tuple(o.but(x=on_grid(width - o.x - o.width)) for o in wall.openings),
            other_face=wall.other_face
            and tuple(far.but(x=on_grid(width - far.x - far.width)) for far in wall.other_face),
        ),
        enclosure=enclosure.but(
            left=on_grid(width - enclosure.right),
            entry=swapped[enclosure.entry],
            screens=tuple(
                s.but(start=(width - s.start[0], s.start[1]), end=(width - s.end[0], s.end[1]))
                for s in enclosure.screens
            ),
            doors=tuple(_mirrored_door(door, width) for door in enclosure.doors),
            waste=enclosure.waste and enclosure.waste.but(x=width - enclosure.waste.x),
        ),
        services=tuple(_mirrored_service(service, width) for service in job.services),
        fittings=tuple(_turned(fitting, width) for fitting in job.fittings),
        pipes=_mirrored_pipes(job.pipes, width),
        finish=_mirrored_finish(job.finish, width),
        sanitary=tuple(held.but(x=on_grid(width - held.x - held.wide)) for held in job.sanitary),
    )


def _mirrored_door(door: Door, width: float) -> Door:
    """Mirror a door; whole turns keep its angles within 360 degrees."""
    start, end = 180 - door.angle_from, 180 - door.angle_to
    turn = 360 if max(start, end) > 360 else 0
    return door.but(
        hinge=(width - door.hinge[0], door.hinge[1]), angle_from=start - turn, angle_to=end - turn
    )


def _mirrored_finish(finish: Finish, width: float) -> Finish:
    """Mirror the areas, and where the first tile or panel starts and which way the bond runs."""
    tiling, panels = finish.tiling, finish.panels
    if tiling:
        tiling = tiling.but(start_x=width - tiling.start_x - tiling.wide)
        if tiling.bond in ("third", "herringbone"):  # the others are their own mirror image
            tiling = tiling.but(direction="left" if tiling.direction == "right" else "right")
    return finish.but(
        areas=tuple(
            area
            if area.region is None
            else area.but(region=area.region.but(x=width - area.region.x - area.region.width))
            for area in finish.areas
        ),
        tiling=tiling,
        panels=panels and panels.but(start_x=width - panels.start_x - panels.wide),
        niches=tuple(niche.but(x=width - niche.x - niche.width) for niche in finish.niches),
        movement=tuple(
            joint.but(at=on_grid(width - joint.at)) if joint.runs == "plumb" else joint
            for joint in finish.movement
        ),
    )


def _turned(fitting: Fitting, twice: float) -> Fitting:
    turned = fitting.but(x=on_grid(twice - fitting.x))
    if isinstance(turned, Valve):
        return turned.but(side="left" if turned.side == "right" else "right")
    return turned


def _mirrored_service(service: Service, width: float) -> Service:
    match service:
        case Accessory() | Stud():
            return service.but(x=on_grid(width - service.x))
        case Cable() | OldPipe():
            return service.but(route=_mirrored(service.route, width))
        case Joist():
            return service.but(left=on_grid(width - service.right), right=on_grid(width - service.left))


def _mirrored(points: Iterable[XY], twice: float) -> tuple[XY, ...]:
    return tuple((on_grid(twice - x), y) for x, y in points)


def _mirrored_pipes(pipes: tuple[Pipe, ...], twice: float) -> tuple[Pipe, ...]:
    """Mirror the courses; one hot and one cold feed of the same valve change courses."""
    feeds: dict[tuple[str, str], list[Pipe]] = {}
    for pipe in pipes:
        if pipe.start is None:
            feeds.setdefault((_fitting_of(pipe.end), pipe.service), []).append(pipe)
    courses = {pipe.id: pipe.route for pipe in pipes}
    for (fitting, service), hot in feeds.items():
        cold = feeds.get((fitting, "cold"), [])
        if service == "hot" and len(hot) == len(cold) == 1:
            courses[hot[0].id], courses[cold[0].id] = cold[0].route, hot[0].route
    return tuple(pipe.but(route=_mirrored(courses[pipe.id], twice)) for pipe in pipes)


def aligned(plan: Plan, chosen: Sequence[Ref], axis: Axis) -> Job:
    """Return the job with the chosen fittings and accessories on one plumb ("x") or level ("y") line.

    The line is that of the first one chosen.
    """
    places = _places(plan.job, chosen)
    if len(places) < 2:
        return plan.job
    line = next(iter(places.values()))
    job = plan.job
    for ref, (x, y) in places.items():
        step = (line[0] - x, 0.0) if axis == "x" else (0.0, line[1] - y)
        job = moved(Plan(job, plan.catalogue, plan.rules), (ref,), *step)
    return job


def distributed(plan: Plan, chosen: Collection[Ref], axis: Axis) -> Job:
    """Return the job with the chosen things evenly spaced between the outermost two along an axis."""
    index = 0 if axis == "x" else 1
    places = sorted(_places(plan.job, chosen).items(), key=lambda item: item[1][index])
    if len(places) < 3:
        return plan.job
    first, last = places[0][1][index], places[-1][1][index]
    job = plan.job
    for number, (ref, at) in enumerate(places):
        step = first + (last - first) * number / (len(places) - 1) - at[index]
        job = moved(
            Plan(job, plan.catalogue, plan.rules), (ref,), *((step, 0.0) if axis == "x" else (0.0, step))
        )
    return job


def _places(job: Job, chosen: Collection[Ref]) -> dict[Ref, XY]:
    everything = things(job)
    return {
        ref: (thing.x, thing.height)
        for ref in chosen
        if isinstance(thing := everything.get(ref), Accessory | Fitting)
    }
