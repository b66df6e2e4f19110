"""Whether the job makes sense as a whole: things lie on the wall, the enclosure fits it, levels agree.

Only places and edges are judged here; how much room a plate, a recess or the spray wants are other subjects.
"""

from collections.abc import Iterator

from geometry.finding import Finding, Status
from geometry.model import Fitting, Wall
from geometry.plan import Plan
from geometry.shape.outline import bounds_of
from geometry.units import at_least, shown


def job(plan: Plan) -> Iterator[Finding]:
    """Judge the job as a whole."""
    yield _fitted(plan)
    ends = {rail.fitting.id: rail.part.length for rail in plan.rails}
    for fitting in plan.job.fittings:
        yield _place(plan, fitting, ends.get(fitting.id, 0.0))
    yield from _ceiling(plan)
    yield from _rails(plan)
    yield from _enclosure(plan)
    yield from _waste(plan)
    yield from _openings(plan)
    yield _storey(plan)


def _fitted(plan: Plan) -> Finding:
    """Report a wall with nothing on it: then there is nothing that could be checked."""
    count = len(plan.job.fittings)
    message = f"Fittings on the wall: {count}." if count else "Nothing is fitted to the wall yet."
    return plan.rules.judge("job.fittings", count, message, (), failing="unchecked")


def _inside(wall: Wall, x0: float, y0: float, x1: float, y1: float) -> tuple[float, str]:
    """Return how far a rectangle stays inside the wall's nearest edge, negative beyond it, and which edge."""
    return min(
        (x0, "left edge of the wall"),
        (wall.width - x1, "right edge of the wall"),
        (y0, "finished floor"),
        (wall.height - y1, "ceiling"),
    )


def _place(plan: Plan, fitting: Fitting, up: float) -> Finding:
    """Judge the place of a fitting, of a rail both ends; on the edge it is still on the wall."""
    x, y = fitting.at
    inside, edge = _inside(plan.job.wall, x, y, x, y + up)
    message = (
        f"{fitting.id} lies {shown(-inside)} mm beyond the {edge}."
        if not at_least(inside, 0.0)
        else f"{fitting.id} lies on the wall, {shown(inside)} mm from the {edge}."
    )
    return plan.rules.judge("job.place", inside, message, (fitting.id,), (fitting.at,))


def _ceiling(plan: Plan) -> Iterator[Finding]:
    """Judge whether ceiling arms start at the ceiling; a lowered ceiling may be meant."""
    for head in plan.heads:
        if head.part.mount == "ceiling":
            name, height, ceiling = head.fitting.id, head.fitting.height, plan.job.wall.height
            message = f"{name} hangs from {shown(height)} mm, the ceiling is at {shown(ceiling)} mm."
            away, place = abs(height - ceiling), (head.fitting.at,)
            yield plan.rules.judge("job.ceiling", away, message, (name,), place, failing="tight")


def _rails(plan: Plan) -> Iterator[Finding]:
    """Judge whether a rail's foot stands above the rim, below which there is no wall to fix it to."""
    rim = plan.job.enclosure.rim
    for rail in plan.rails:
        name, above = rail.fitting.id, rail.fitting.height - rim
        side = "above" if at_least(above, 0.0) else "below"
        message = f"Foot of {name} {shown(abs(above))} mm {side} the rim, which is at {shown(rim)} mm."
        yield plan.rules.judge("job.rail", above, message, (name,), (rail.fitting.at,))


def _enclosure(plan: Plan) -> Iterator[Finding]:
    """Judge whether the enclosure keeps to the wall: past a corner it cannot go, past a free end it may."""
    wall, enclosure = plan.job.wall, plan.job.enclosure
    sides = (
        ("left", wall.left, enclosure.left, enclosure.left),
        ("right", wall.right, wall.width - enclosure.right, enclosure.right),
    )
    for side, what, inside, x in sides:
        end = "corner" if what == "corner" else "free end of the wall"
        message = (
            f"The {enclosure.kind.replace('_', ' ')} reaches {shown(-inside)} mm past the {side} {end}."
            if not at_least(inside, 0.0)
            else f"{shown(inside)} mm between the {enclosure.kind.replace('_', ' ')} and the {side} {end}."
        )
        failing: Status = "clash" if what == "corner" else "tight"
        yield plan.rules.judge(
            "job.enclosure", inside, message, (), ((x, 0.0), (x, enclosure.rim)), failing=failing
        )


def _waste(plan: Plan) -> Iterator[Finding]:
    """Judge whether the waste, if its place is given, lies inside the enclosure."""
    enclosure = plan.job.enclosure
    if enclosure.waste is not None:
        x, z = enclosure.waste.x, enclosure.waste.z
        inside = min(x - enclosure.left, enclosure.right - x, z, enclosure.projection - z)
        side = "inside" if at_least(inside, 0.0) else "outside"
        kind = enclosure.kind.replace("_", " ")
        message = f"The centre of the waste lies {shown(abs(inside))} mm {side} the edge of the {kind}."
        yield plan.rules.judge("job.waste", inside, message, (), ((x, 0.0),))


def _openings(plan: Plan) -> Iterator[Finding]:
    """Judge whether each opening lies in the wall."""
    for opening in plan.job.wall.openings:
        x0, y0, x1, y1 = bounds_of(opening)
        inside, edge = _inside(plan.job.wall, x0, y0, x1, y1)
        message = (
            f"Opening {opening.id} reaches {shown(-inside)} mm beyond the {edge}."
            if not at_least(inside, 0.0)
            else f"Opening {opening.id} lies in the wall, {shown(inside)} mm from the {edge}."
        )
        place = ((x0, y0), (x1, y1))
        yield plan.rules.judge("job.opening", inside, message, (opening.id,), place)


def _storey(plan: Plan) -> Finding:
    """Judge the storey height, from which the height of low chases is reckoned, against the wall."""
    wall = plan.job.wall
    message = (
        f"The wall is {shown(wall.height)} mm high, the storey is given as {shown(wall.storey_height)} mm."
    )
    return plan.rules.judge("job.storey", wall.storey_height - wall.height, message, (), failing="tight")
