"""What stands out in front of the wall: head, arm, rail, handset, spout and nozzle.

They are judged against each other, the ceiling, screens, swung doors and the walls at the corners, in
three dimensions, in mm. The handset counts at every height of its slider.
"""

import math
from collections.abc import Iterator

from geometry.checks.edges import ceiling, sides, to_edge
from geometry.checks.memory import remembered
from geometry.checks.near import Gap, Pairs, Saying, compare, near, report, sentence
from geometry.finding import Finding, Status
from geometry.hose.slide import Stretch
from geometry.model import Head, Rail
from geometry.parts.records import RailPart
from geometry.plan import Placed, Plan
from geometry.shape.outline import gap
from geometry.shape.solid import Solid
from geometry.units import at_most, number, on_grid

CUT = frozenset(("recess", "pocket", "box", "screw"))
"""What lies behind the finished face."""
HEAD = ("head", "arm", "ceiling flange")
AT_CEILING = 1.0
"""How far from the ceiling a ceiling arm may start, in mm (own choice: a slip of the tape)."""


def front(plan: Plan) -> Iterator[Finding]:
    """Judge everything that stands in front of the wall."""
    bodies, flat = bodies_of(plan), on_face(plan)
    heads, rails, handsets = (
        [solid for solid in bodies if solid.what in kinds] for kinds in (HEAD, {"rail"}, {"handset"})
    )
    rules = plan.rules
    yield from compare(rules, "front.head_rail", Pairs(heads, rails))
    by_handset = Pairs(heads, handsets)
    yield from compare(rules, "front.head_handset", by_handset, say=_at_heights(plan, heads))
    yield from _ceiling(plan)
    parts = Pairs((*bodies, *flat), wanted=_left_over)
    yield from compare(rules, "front.parts", parts)
    panes = near(rules, "front.screen", Pairs((*bodies, *flat), plan.panes))
    yield from report(rules, "front.screen", (*panes, *_to_corners(plan, bodies)))


def bodies_of(plan: Plan) -> tuple[Solid, ...]:
    """Return what stands out from the wall, each handset with all of its travel."""
    standing = (solid for solid in plan.fitted if solid.plane == "plan" and solid.what != "handset")
    travels = (plan.handset(rail, rail.part.slide_low, rail.part.slide_high) for rail in plan.rails)
    return (*standing, *travels)


def on_face(plan: Plan) -> tuple[Solid, ...]:
    """Return what sits on the finished face: plates, controls, flanges and brackets."""
    return tuple(solid for solid in plan.fitted if solid.plane == "elevation" and solid.what not in CUT)


def _left_over(a: Solid, b: Solid) -> bool:
    """Return whether no other rule compares these two: at least one stands out, and not head with rail."""
    if a.plane == b.plane == "elevation":
        return False
    return not any(p.what in HEAD and q.what in ("rail", "handset") for p, q in ((a, b), (b, a)))


# head and handset


def _at_heights(plan: Plan, heads: list[Solid]) -> Saying:
    """Return what says how near a handset comes to a head, and at which slider heights."""
    rails = {rail.fitting.id: rail for rail in plan.rails}
    parts: dict[str, list[Solid]] = {}
    for solid in heads:
        parts.setdefault(solid.owner, []).append(solid)

    def say(found_gap: Gap, found: Finding) -> str:
        text = sentence(found_gap, found)
        if found.status == "clear":
            return text
        head, rail = found_gap.parts
        held = plan.rules["front.head_handset"]
        limit = held.value if found.status == "clash" else held.value + held.tight
        stretches = _stretches(plan, rails[rail], parts[head], limit)
        return f"{text} They are nearer than {number(limit)} mm {stretches}."

    return say


def _stretches(plan: Plan, rail: Placed[Rail, RailPart], heads: list[Solid], limit: float) -> str:
    """Say at which slider heights a handset is nearer to a head than the limit, to the millimetre."""
    slide = rail.part.slide_low, rail.part.slide_high
    found = _failing(plan.handset(rail, 0.0), slide, heads, limit)
    if found == [slide]:
        return "at every slider height"
    kind, up = plan.job.enclosure.kind, rail.fitting.height - plan.job.enclosure.floor
    spoken = []
    for stretch in found:
        low, high = (number(up + slider, 0) for slider in stretch)
        spoken.append(f"at {low}" if low == high else f"between {low} and {high}")
    floor = "wet floor" if kind == "wet_floor" else f"{kind} floor"
    return f"with the slider {' and '.join(spoken)} mm above the {floor}"


def _failing(foot: Solid, slide: Stretch, heads: list[Solid], limit: float) -> list[Stretch]:
    """Return the stretches of the slide in which the handset is nearer to any part of a head than the limit.

    What the handset takes up moves straight up with its slider, so each stretch follows from its place
    with the slider at the rail's foot.
    """
    found: list[Stretch] = []
    for head in heads:
        flat = max(0.0, gap(head.outline, foot.outline))
        if flat >= limit:
            continue
        upright = math.sqrt(limit**2 - flat**2)
        low, high = head.low - upright - foot.high, head.high + upright - foot.low
        if low < slide[1] and high > slide[0]:
            found.append((max(low, slide[0]), min(high, slide[1])))
    merged: list[Stretch] = []
    for low, high in sorted(found):
        if merged and low <= merged[-1][1]:
            merged[-1] = merged[-1][0], max(high, merged[-1][1])
        else:
            merged.append((low, high))
    return merged


# ceiling and corners


@remembered
def _ceiling(plan: Plan) -> Iterator[Finding]:
    """Judge heads on wall arms by what is left above them, and whether ceiling arms start at the ceiling."""
    edge = ceiling(plan.job.wall)
    hung = [head.fitting for head in plan.heads if head.part.mount == "ceiling"]
    on_wall = {head.fitting.id for head in plan.heads if head.part.mount == "wall"}
    if on_wall or not hung:
        left = (to_edge(solid, edge) for solid in plan.solids(*HEAD) if solid.owner in on_wall)
        yield from report(plan.rules, "front.head_ceiling", left)
    yield from (_at_ceiling(plan, head, edge.at) for head in hung)


def _at_ceiling(plan: Plan, head: Head, height: float) -> Finding:
    below = on_grid(height - head.height)
    away, side = abs(below), "below" if below > 0 else "above"
    status: Status = "clear" if at_most(away, AT_CEILING) else "clash"
    message = f"Ceiling arm of {head.id} starts at the ceiling."
    if away:
        message = (
            f"Ceiling arm of {head.id} starts {number(away)} mm {side} the ceiling; "
            f"it must start within {number(AT_CEILING)} mm of it."
        )
    return Finding(
        rule="front.head_ceiling", status=status, parts=(head.id,), message=message, measured=away,
        limit=AT_CEILING, source=plan.rules["front.head_ceiling"].source, place=(head.at, (head.x, height)),
    )  # fmt: skip


def _to_corners(plan: Plan, bodies: tuple[Solid, ...]) -> Iterator[Gap]:
    """Go through what stands out from the wall, with what is left to the walls at its corners."""
    corners = [edge for edge in sides(plan.job.wall) if edge.corner]
    return (to_edge(solid, edge) for solid in bodies for edge in corners)
