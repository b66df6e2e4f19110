"""How far a thing must move at least before a finding on it can be gone; distances in mm.

What is measured as a gap changes by no more than a thing moves. So a gap that is 30 mm short stays short for
the next 30 mm, and no place on the way needs to be looked at. Where a value may jump, nothing is known: 0.
"""

import math
import re
from collections.abc import Sequence

from geometry.checks.legs import cut_legs
from geometry.cures.apart import lasting_gap, lasting_web
from geometry.cures.lasting import (
    lasting_crossing,
    lasting_cut,
    lasting_joint,
    lasting_leg,
    lasting_legs,
    lasting_port,
    lasting_straight,
)
from geometry.cures.still import ROUNDED, lasting
from geometry.cures.tracks import Track
from geometry.finding import Finding
from geometry.hose.sweep import ends_of
from geometry.pipework.routes import ALIGNED
from geometry.plan import Hung, Plan
from geometry.rules import Rulebook
from geometry.shape.outline import circle, gap
from geometry.units import EPSILON

GAPS = frozenset(
    ("hose.length", "hose.reach", "front.head_rail", "front.head_handset", "front.head_ceiling",
     "front.parts", "front.screen", "face.plates", "face.opening", "face.service", "behind.boxes",
     "behind.stud", "job.place", "job.rail", "fixings.filled",
     "people.valve_low", "people.valve_high", "people.head_low", "people.head_high", "people.slide_top")
)  # fmt: skip
"""Rules whose value is a distance, between things, to an edge, up the wall or along a pipe."""
HANGING = frozenset(("hose.valve", "hose.bend", "hose.floor"))
"""Rules by which a hose hangs: steady while its ends stay, and sagging faster than they move apart."""
SLACK = 50.0
"""A hose that is at least so much longer than straight, in mm, sags no faster than `SAG` says."""
SAG = 2.0
"""So many mm for each mm that its ends move. Of 1500 mm of hose with 50 to spare between level ends
sqrt(3/8 D (1500 - D)) hangs down, which changes by 1.6 mm a mm; on sound jobs 1.0 was measured."""
LEVEL = re.compile(r"strength\.(part_a_level|partition_level|en_level_(short|long)_depth.*)")
"""Rules that judge a level chase by its depth, however long it is."""
UPRIGHT = re.compile(r"strength\.(part_a_upright|partition_upright|en_upright_depth.*)")
"""Rules that judge an upright chase by its depth, however long it is."""


def least_move(plan: Plan, finding: Finding, track: Track, allowed: int, worse: Sequence[str]) -> float:
    """Return how far a thing moves at least before a finding can be as good as is allowed, in mm.

    Args:
        plan: the job in which the finding was found.
        finding: what is worse than it may be.
        track: along which a thing moves.
        allowed: how bad the finding may be, as in `BADNESS`.
        worse: the parts of the finding on which it is worse than it was.
    """
    lasts = lasting(plan, finding, track.thing, track.number, track.still)
    return max(0.0, lasts - ROUNDED, _least_move(plan, finding, track, allowed, worse))


def _least_move(plan: Plan, finding: Finding, track: Track, allowed: int, worse: Sequence[str]) -> float:
    """Return what is known by how short the value is, and how long what it is measured on lasts."""
    rule = finding.rule
    short = _short(plan.rules, finding, allowed)
    if LEVEL.fullmatch(rule):
        return lasting_leg(plan, worse, "level") - ROUNDED
    if rule == "strength.en_level_band":
        return min(short, lasting_cut(plan, worse, finding.place) - ROUNDED)
    if UPRIGHT.fullmatch(rule):
        return lasting_leg(plan, worse, "upright") - ROUNDED
    if rule == "water.buried_joint":
        return lasting_joint(plan, finding.parts[0], finding.place) - ROUNDED
    if rule == "chase.crossing" and len(finding.parts) == 2:
        moving = 1 if track.thing in plan.courses else 2
        return lasting_crossing(plan, finding.parts, finding.place, moving) - ROUNDED
    if rule == "pipe.piece":
        goes = track.number if track.thing in finding.parts else None
        return lasting_straight(plan, finding, track.still[finding.parts[0]], short, goes) - ROUNDED
    if rule == "pipe.port":
        return lasting_port(plan, finding, track.still[finding.parts[0]], short) - ROUNDED
    if rule == "behind.edge":
        return min(short, _off_arms(plan, finding, track), _feed_within(plan, finding, track))
    if track.thing in worse and track.thing in plan.courses:
        if rule == "chase.web":
            return lasting_web(plan, finding, track.thing, short) - ROUNDED
        if rule == "strength.en_chase_gap":
            room = plan.rules[rule].tight if allowed == 0 else 0.0
            return lasting_gap(plan, track.thing, track.number, plan.rules[rule].value + room) - ROUNDED
    if rule in GAPS:
        return short
    if rule == "electricity.zone":  # of one pipe or fitting: it keeps its cuts, however they lie to the zones
        owner = finding.parts[0]
        if owner not in worse:
            return 0.0
        lasts = math.inf if owner not in plan.courses else lasting_legs(plan, owner)
        return min(short, lasts - ROUNDED)
    if rule in HANGING:
        return _hanging(plan, finding, track.thing, short, allowed)
    if rule == "behind.pipes":  # two pipes that come to cross are no longer side by side
        return short if {fitting.id for fitting in plan.job.fittings} & set(finding.parts) else 0.0
    if rule == "face.edge":  # beside the enclosure its rim does not count
        return 0.0 if finding.place[1][1] == plan.job.enclosure.rim else short
    return 0.0


def _off_arms(plan: Plan, finding: Finding, track: Track) -> float:
    """Return how far it takes until a cut may lie below the arm at the ceiling to which its pipe leads.

    There the ceiling is no edge for it, nor for the cut that it becomes one with once a leg between is gone.
    Cut and arm may move towards each other; an arm stays while a leg moves.
    """
    arms = {head.fitting.id for head in plan.heads if head.part.mount == "ceiling"}
    pipe = next((held for held in plan.job.pipes if held.id == finding.parts[0]), None)
    if pipe is None or pipe.end.partition(".")[0] not in arms:
        return math.inf
    arm, own = circle(plan.courses[pipe.id].points[-1], 0.0), circle(finding.place[0], 0.0)
    cuts = (cut.outline for cut in cut_legs(plan) if cut.owner == pipe.id)
    off = (gap(arm, cut) for cut in cuts if gap(own, cut) <= EPSILON)
    apart = max((held for held in off if held > ALIGNED), default=0.0)
    speed = 1 if track.thing in plan.courses else 2
    return max(0.0, min(apart / speed, lasting_legs(plan, pipe.id)) - ROUNDED)


def _feed_within(plan: Plan, finding: Finding, track: Track) -> float:
    """Return how far it takes until the feed of a pipe, if it moves, may be at an edge: that is none then."""
    pipe, wall = finding.parts[0], plan.job.wall
    course = plan.courses.get(pipe)
    if course is None or course.start is not None or track.still[pipe].first > 0:
        return math.inf
    x, y = course.points[0]
    away = (x, wall.width - x, wall.height - y)
    return max(0.0, min((off for off in away if off > ALIGNED), default=math.inf) - ROUNDED)


def _hanging(plan: Plan, finding: Finding, moving: str, short: float, allowed: int) -> float:
    for hung in plan.hoses:
        if hung.hose.id not in finding.parts:
            continue
        if moving == hung.hose.rail and _begins_near(plan, hung, finding, allowed):
            return math.inf
        if moving in (hung.hose.outlet, hung.hose.rail):
            ends = ends_of(hung)
            slack = ends.length - max(map(ends.straight, ends.slide))
            return short / SAG if slack >= SLACK else 0.0
    return short


def _begins_near(plan: Plan, hung: Hung, finding: Finding, allowed: int) -> bool:
    """Return whether a hose is too near a valve where it leaves its outlet: it is wherever it hangs from."""
    if finding.rule != "hose.valve":
        return False
    ends, held = ends_of(hung), plan.rules[finding.rule]
    begins = circle(ends.nozzle[:2], 2 * ends.radius)
    wanted = held.value + (held.tight if allowed == 0 else 0.0) - ROUNDED
    return any(
        gap(begins, solid.outline) < wanted
        for solid in plan.fitted
        if solid.owner == finding.parts[1] and (solid.what == "plate" or solid.what.endswith(" control"))
    )


def _short(rules: Rulebook, finding: Finding, allowed: int) -> float:
    """Return by how much a value misses what is allowed, on whichever side of its limit."""
    if finding.measured is None or finding.limit is None or finding.rule not in rules:
        return 0.0
    held = rules[finding.rule]
    short = finding.limit - finding.measured if held.sense == "at least" else finding.measured - finding.limit
    if finding.status == "clash" and short < 0:
        return max(0.0, -short - ROUNDED)
    room = held.tight if allowed == 0 else 0.0
    return max(0.0, short + room - ROUNDED)
