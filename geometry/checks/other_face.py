"""Cuts that lie back to back with cuts in the other face of a masonry wall.

Distances are as seen on the wall, in mm; negative is by how much cuts lie over one another.
"""

from collections.abc import Iterator

import shapely

from geometry.chase.cuts import Cut
from geometry.checks.readings import Reading, findings, judged
from geometry.finding import Finding
from geometry.model import XY, FarCut
from geometry.plan import Plan
from geometry.shape.outline import Outline, bounds_of, gap, nearest, rectangle
from geometry.units import EPSILON, at_least, at_most, shown

OFFSET, BACK = "strength.spec_offset", "strength.part_a_back_to_back"
WAYS = "Move one of them, build out in front, or have an engineer decide."


def other_face(plan: Plan, cuts: tuple[Cut, ...]) -> Iterator[Finding]:
    """Judge the nearest cut in the other face; one finding, `refer`, if nobody has looked there."""
    far = plan.job.wall.other_face
    if not cuts:
        return
    parts = tuple(dict.fromkeys(owner for cut in cuts for owner in cut.owners))
    source = plan.rules[BACK].source
    if far is None:
        message = (
            "What is cut into the other face is not known. Look before cutting: nothing may lie back to "
            "back, and cuts keep the thickness of the wall apart. Then enter what is there, or nothing."
        )
        yield Finding(rule=BACK, status="refer", parts=parts, message=message, source=source)
        return
    if not far:
        message = "Nothing is cut into the other face."
        yield Finding(rule=BACK, status="clear", parts=parts, message=message, source=source)
        return
    cut, back = _nearest(cuts, far)
    apart, place = _apart(cut, back)
    names = f"{cut.owners[0]} and {back.id} in the other face"
    for rule, need in (
        (BACK, plan.rules[BACK].value),
        (OFFSET, plan.rules[OFFSET].value * plan.job.wall.thickness),
    ):
        over = (
            f"lie over one another by {shown(-apart)} mm"
            if apart < -EPSILON
            else f"are {shown(apart)} mm apart"
        )
        message = f"{names} {over} as seen on the wall, at least {shown(need)} mm."
        if not at_least(apart, need):
            message += f" {WAYS}"
        yield judged(plan.rules, Reading(rule, "", (), apart, need, place), message, (*cut.owners, back.id))


def both_faces(plan: Plan, level: tuple[Cut, ...]) -> Iterator[Finding]:
    """Judge level chases back to back: a machine may cut shallow ones into both faces of a thick wall."""
    wall, rules = plan.job.wall, plan.rules
    far = tuple(cut for cut in wall.other_face or () if cut.width > cut.height)
    if not level or not far:
        return
    thick = at_least(wall.thickness, rules["strength.en_both_thickness"].value)
    most = rules["strength.en_both_depth"].value if thick and wall.machine_cut else 0.0

    def say(names: str, reading: Reading) -> str:
        message = (
            f"{names} lies back to back with {reading.other}, {shown(reading.measured)} mm deep, "
            f"at most {shown(most)} mm each"
        )
        return f"{message}." if at_most(reading.measured, most) else f"{message}. {WAYS}"

    readings = []
    for i, j in _tree(far).query(_boxes(level), predicate="intersects").T.tolist():
        apart, place = _apart(level[i], far[j])
        if apart < -EPSILON:
            deep, rule = max(level[i].depth, far[j].depth), "strength.en_both_depth"
            readings.append(Reading(rule, "Level chase", level[i].owners, deep, most, place, other=far[j].id))
    yield from findings(rules, readings, say)


def _nearest(cuts: tuple[Cut, ...], far: tuple[FarCut, ...]) -> tuple[Cut, FarCut]:
    """Return the cut and the one in the other face that lie nearest to, or deepest over, one another."""
    pairs, apart = _tree(far).query_nearest(_boxes(cuts), return_distance=True)
    near = pairs[:, apart <= apart.min() + EPSILON].T.tolist()
    i, j = min(near, key=lambda pair: _apart(cuts[pair[0]], far[pair[1]])[0])
    return cuts[i], far[j]


def _boxes(cuts: tuple[Cut, ...]) -> list[shapely.Geometry]:
    return [shapely.box(*cut.bounds) for cut in cuts]


def _tree(far: tuple[FarCut, ...]) -> shapely.STRtree:
    return shapely.STRtree([shapely.box(*_outline(back).bounds) for back in far])


def _apart(cut: Cut, back: FarCut) -> tuple[float, tuple[XY, ...]]:
    ours, theirs = rectangle(*cut.bounds), _outline(back)
    return gap(ours, theirs), nearest(ours, theirs)


def _outline(back: FarCut) -> Outline:
    return rectangle(*bounds_of(back))
