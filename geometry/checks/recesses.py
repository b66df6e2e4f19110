"""How deep each recess may be cut under its finish, and what that leaves of the wall.

The build-up is that at the fitting's place, and its tolerances are carried to the worst case. Depths are
mm behind the bare face. Whether a wall may structurally be cut at all is another subject.
"""

from collections.abc import Iterator

from geometry.build_up import area_at, build_up
from geometry.chase.recess import CutDepth
from geometry.finding import Finding
from geometry.model import Valve
from geometry.parts.records import ValvePart
from geometry.parts.threads import THREADS
from geometry.plan import Elbowed, Placed, Plan
from geometry.shape.outline import Outline
from geometry.units import at_least, shown

Sunk = Placed[Valve, ValvePart] | Elbowed


def recesses(plan: Plan) -> Iterator[Finding]:
    """Judge the recess of each valve and the seat of each elbow; a ceiling arm has none."""
    covers = {solid.owner: solid.outline for solid in plan.solids("plate", "flange")}
    for placed in (*plan.valves, *plan.elbowed):
        name = placed.fitting.id
        if name in plan.depths:
            depth = plan.depths[name]
            yield _range(plan, placed, depth)
            yield from _set_by_hand(plan, placed, depth)
            yield _wall(plan, placed, depth)
            yield _finish(plan, placed, covers[name])
    for elbow in plan.elbowed:
        if elbow.fitting.id in plan.depths:
            yield _hole(plan, elbow)


def _range(plan: Plan, placed: Sunk, depth: CutDepth) -> Finding:
    """Judge the depths that are left to choose from: none where no depth suits the finish."""
    rule = "recess.range" if isinstance(placed.part, ValvePart) else "outlet.stub"
    name, part, finish = placed.fitting.id, placed.part, placed.finish
    if depth.most < 0:
        message = (
            f"The finish at {name} comes to {shown(finish.most)} mm, but its back may lie at most "
            f"{shown(part.depth_most)} mm behind the finished face: even on the bare wall it sits "
            f"{shown(-depth.most)} mm too deep. Pack it out, thin the finish or choose an extension kit."
        )
    elif depth.room < 0:
        message = (
            f"No one depth suits {name}: under a finish of {shown(finish.least)} to {shown(finish.most)} mm "
            f"it needs at least {shown(depth.shallowest)} and at most {shown(depth.most)} mm. "
            "Hold the finish to a closer tolerance."
        )
    else:
        thread = "" if rule == "recess.range" else ", so that the thread reaches the finished face"
        message = (
            f"{name}: cut {_span(depth)} mm deep, aim for {shown(depth.target)} {_under(placed)}{thread}."
        )
    return plan.rules.judge(rule, depth.room, message, (name,), (placed.fitting.at,))


def _span(depth: CutDepth) -> str:
    return f"{shown(depth.shallowest)} to {shown(depth.most)}"


def _under(placed: Sunk) -> str:
    return f"(build-up {shown(placed.finish.planned)} mm)"


def _set_by_hand(plan: Plan, placed: Sunk, depth: CutDepth) -> Iterator[Finding]:
    """Judge a depth set by hand against both ends of the range."""
    wished, name, place = placed.fitting.recess, placed.fitting.id, (placed.fitting.at,)
    if wished is None:
        return
    needs = f"needs {_span(depth)}" if depth.room >= 0 else "but no depth fits"
    message = f"Recess of {name} {shown(wished)} mm deep, {needs} with this finish {_under(placed)}"
    less, more = depth.least - wished, wished - depth.most
    shallow = f"{message}: {shown(less)} mm too shallow." if less > 0 else f"{message}."
    deep = f"{message}: {shown(more)} mm too deep." if more > 0 else f"{message}."
    yield plan.rules.judge("recess.shallow", wished, shallow, (name,), place, limit=depth.least)
    yield plan.rules.judge("recess.deep", wished, deep, (name,), place, limit=depth.most)


def _wall(plan: Plan, placed: Sunk, depth: CutDepth) -> Finding:
    """Judge what is left of the wall at the depth set by hand, or else at the least that works.

    A stud wall is a cavity as deep as its studs, in which the box must only not press on the far lining.
    Where the least depth leaves enough but the depth to aim for does not, the finding is `tight`.
    """
    wall, name, wished = plan.job.wall, placed.fitting.id, placed.fitting.recess
    limit = 0.0 if wall.is_stud_wall else plan.rules["recess.wall"].value
    deepest, cut = wall.thickness - limit, depth.shallowest if wished is None else wished
    left = wall.thickness - cut
    binds = wished is None and deepest < depth.most
    what = "cavity" if wall.is_stud_wall else "wall"
    if not at_least(left, limit):
        where = "presses on the far lining of" if wall.is_stud_wall else "leaves too little of"
        message = (
            f"Recess of {name}, {shown(cut)} mm deep, {where} the {shown(wall.thickness)} mm {what}: "
            f"{shown(cut - deepest)} mm too deep."
        )
    elif binds:
        held = "it presses on the far lining" if wall.is_stud_wall else f"less than {shown(limit)} mm is left"
        message = f"Cut no deeper than {shown(deepest)} mm for {name}: beyond that {held} of the {what}."
    else:
        message = f"{shown(left)} mm of the {what} left behind the recess of {name}, {shown(cut)} mm deep."
    found = plan.rules.judge("recess.wall", left, message, (name,), (placed.fitting.at,), limit=limit)
    beyond_aim = binds and not at_least(deepest, depth.target)
    return found.but(status="tight") if beyond_aim and found.status == "clear" else found


def _finish(plan: Plan, placed: Sunk, cover: Outline) -> Finding:
    """Judge whether the finish is known, and level under the cover: at its middle and four rim points."""
    name, finish, at = placed.fitting.id, plan.job.finish, placed.fitting.at
    if area_at(finish, at) is None:
        message = f"No finish is given at {name}: its depth counts to the bare wall. Say what will cover it."
        return Finding(rule="recess.finish", status="unchecked", parts=(name,), message=message, place=(at,))
    (x0, y0, x1, y1), (x, y) = cover.bounds, cover.middle
    places = (at, (x0, y), (x1, y), (x, y0), (x, y1))
    heights = [build_up(finish, place).planned for place in places]
    step = max(heights) - min(heights)
    message = (
        f"The finish steps by {shown(step)} mm under the cover of {name}: it cannot lie flat. "
        "Move it clear of the step."
        if step > 0
        else f"The finish is level under the cover of {name}."
    )
    return plan.rules.judge("recess.finish", step, message, (name,), (at,))


def _hole(plan: Plan, elbow: Elbowed) -> Finding:
    """Judge whether an elbow's thread passes its hole in the finish."""
    name, part = elbow.fitting.id, elbow.part
    major = THREADS[part.thread].major
    message = (
        f"Hole {shown(part.hole)} mm in the finish at {name} for a {part.thread} thread of {shown(major)} mm."
    )
    return plan.rules.judge("outlet.hole", (part.hole - major) / 2, message, (name,), (elbow.fitting.at,))
