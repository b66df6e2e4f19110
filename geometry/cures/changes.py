"""Cures that move nothing: a valve turned, another depth, another part, another finish, a pipe laid deeper.

Each change is one edit with a title; whether it cures is for a trial to say. Lengths in mm.
"""

import math
from collections.abc import Iterator
from typing import NamedTuple

from geometry.build_up import area_at
from geometry.finding import Finding
from geometry.model import FinishArea, Fitting, Job, Layer, Valve
from geometry.parts.records import HosePart, ValvePart
from geometry.plan import Elbowed, Placed, Plan
from geometry.units import EPSILON, on_grid, shown

Sunk = Placed[Valve, ValvePart] | Elbowed
DEPTH_RULES = frozenset(("recess.shallow", "recess.deep", "recess.wall", "recess.range", "outlet.stub"))


class Change(NamedTuple):
    """One edit: what it is called, and the job after it."""

    title: str
    job: Job


def changes(plan: Plan, finding: Finding) -> Iterator[Change]:
    """Go through the edits that might cure a clash without moving anything, the smallest first."""
    for placed in (*plan.valves, *plan.elbowed):
        if placed.fitting.id in finding.parts and finding.rule in DEPTH_RULES:
            yield from _depths(plan, placed, finding)
    yield from _pipe_depths(plan, finding)
    if finding.rule.startswith("hose."):
        yield from _hoses(plan, finding)
    yield from _turned_valves(plan, finding)


# the recess


def _depths(plan: Plan, placed: Sunk, finding: Finding) -> Iterator[Change]:
    """Go through what cures a recess: the depth that the finish wants, the finish, another box."""
    fitting, depth = placed.fitting, plan.depths[placed.fitting.id]
    if fitting.recess is not None and depth.room >= 0:
        title = f"Cut {fitting.id} {shown(depth.target)} mm deep, as the finish wants"
        yield Change(title, plan.job.with_fitting(fitting.but(recess=None)))
    area = area_at(plan.job.finish, fitting.at)
    if area is not None:
        held = plan.rules[finding.rule]
        missing = (finding.limit or 0.0) + held.tight - (finding.measured or 0.0)
        if finding.rule == "recess.wall":
            yield _built_out(plan.job, area, missing)
        elif depth.most < 0:
            yield from _thinner(plan.job, area, missing)
        elif depth.room < 0:
            yield from _closer(plan.job, area, missing / 2 if depth.least > 0 else missing)
    yield from _other_parts(plan, placed.fitting)


def _thinner(job: Job, area: FinishArea, by: float) -> Iterator[Change]:
    """Thin the thickest layer, if it is thick enough; its tolerance stays."""
    if area.layers:
        layer = max(area.layers, key=lambda held: held.thickness)
        left = _down(layer.thickness - by)
        if left > 0:
            title = f"Thin {_name(layer)} of {area.id} from {shown(layer.thickness)} to {shown(left)} mm"
            yield Change(title, _with_layer(job, area, layer, layer.but(thickness=left)))


def _closer(job: Job, area: FinishArea, by: float) -> Iterator[Change]:
    """Hold the layer with the widest tolerance closer, which counts at both ends of what the box allows."""
    if area.layers:
        layer = max(area.layers, key=lambda held: held.tolerance)
        held = _down(layer.tolerance - by)
        if held >= 0:
            title = f"Hold {_name(layer)} of {area.id} to {shown(held)} mm either way"
            yield Change(title, _with_layer(job, area, layer, layer.but(tolerance=held)))


def _built_out(job: Job, area: FinishArea, by: float) -> Change:
    """Put a board under the finish, so that the recess need not be cut so deep."""
    thick = float(math.ceil(by - EPSILON))
    board = Layer(kind="board", thickness=thick, name="board to build out")
    wider = area.but(layers=(board, *area.layers))
    return Change(f"Build {area.id} out with {shown(thick)} mm of board", _with_area(job, wider))


def _name(layer: Layer) -> str:
    return layer.name or layer.kind


def _down(value: float) -> float:
    """Return a thickness rounded down to 0.1 mm."""
    return on_grid(math.floor(value * 10 + EPSILON) / 10)


def _with_layer(job: Job, area: FinishArea, old: Layer, new: Layer) -> Job:
    index = area.layers.index(old)
    return _with_area(job, area.but(layers=(*area.layers[:index], new, *area.layers[index + 1 :])))


def _with_area(job: Job, area: FinishArea) -> Job:
    areas = tuple(area if held.id == area.id else held for held in job.finish.areas)
    return job.but(finish=job.finish.but(areas=areas))


def _other_parts(plan: Plan, fitting: Fitting) -> Iterator[Change]:
    """Try the other parts of a fitting's kind."""
    own = next(part for part in plan.catalogue if part.id == fitting.part)
    for part in plan.catalogue:
        if type(part) is type(own) and part.id != own.id:
            title = f"Change {fitting.id} to {part.name}"
            yield Change(title, plan.job.with_fitting(fitting.but(part=part.id)))


# pipes


def _pipe_depths(plan: Plan, finding: Finding) -> Iterator[Change]:
    """Lay one of two pipes that cross behind the other, or let a depth set by hand follow the rule again."""
    chases = {chase.pipe: chase for chase in plan.chases if chase.pipe in finding.parts}
    if finding.rule == "chase.crossing" and len(chases) == 2:
        need, half = plan.rules["chase.crossing"], sum(chase.lagged for chase in chases.values()) / 2
        one, other = chases.values()
        for front, back in ((one, other), (other, one)):
            deep = _up(front.axis + half + need.value + need.tight)
            title = f"Lay the centre of {back.pipe} {shown(deep)} mm deep"
            yield Change(title, _with_depth(plan.job, back.pipe, deep))
    elif finding.rule in ("chase.bury", "chase.wall"):
        for pipe in plan.job.pipes:
            if pipe.id in chases and pipe.depth is not None:
                title = f"Let the depth of {pipe.id} follow its cover"
                yield Change(title, _with_depth(plan.job, pipe.id, None))


def _with_depth(job: Job, pipe: str, depth: float | None) -> Job:
    return job.but(pipes=tuple(held.but(depth=depth) if held.id == pipe else held for held in job.pipes))


def _up(value: float) -> float:
    """Return a depth rounded up to a whole mm."""
    return float(math.ceil(value - EPSILON))


# hoses, valves


def _hoses(plan: Plan, finding: Finding) -> Iterator[Change]:
    """Try other hoses of the catalogue, the nearest in length first."""
    for hung in plan.hoses:
        if hung.hose.id not in finding.parts:
            continue
        others = [part for part in plan.catalogue if isinstance(part, HosePart) and part != hung.part]
        for part in sorted(others, key=lambda part: (abs(part.length - hung.part.length), part.length)):
            hoses = tuple(
                held.but(part=part.id) if held.id == hung.hose.id else held for held in plan.job.hoses
            )
            yield Change(f"Change {hung.hose.id} to {part.name}", plan.job.but(hoses=hoses))


def _turned_valves(plan: Plan, finding: Finding) -> Iterator[Change]:
    """Turn the side on which a valve named, or one whose pipe is named, is left sideways."""
    named = set(finding.parts)
    fed = {
        (pipe.start or "").partition(".")[0]
        for pipe in plan.job.pipes
        if pipe.id in named or pipe.end.partition(".")[0] in named
    }
    for valve in plan.valves:
        fitting = valve.fitting
        if fitting.id in named | fed and any(port.sideways for port in valve.part.ports):
            side: str = "left" if fitting.side == "right" else "right"
            turned = fitting.but(side=side)
            yield Change(f"Turn the outlet of {fitting.id} to the {side}", plan.job.with_fitting(turned))
