"""Whether the pipes can be made up: each tube joined in its way, each piece long enough for what holds it."""

from collections.abc import Iterator
from typing import get_args

from geometry.checks.memory import remembered
from geometry.checks.readings import listed
from geometry.finding import Finding
from geometry.model.pipework import Measure, Measured
from geometry.pipework.bends import MOST
from geometry.pipework.cut_list import Run, runs, unjoined
from geometry.pipework.joints import CALLED, typical_joints
from geometry.plan import Plan
from geometry.units import at_least, number, shown

_WORDS: dict[Measure, str] = {
    "elbow": "elbow",
    "tee_run": "tee along the run",
    "tee_branch": "tee's branch",
    "coupling": "coupling",
    "adaptor": "adaptor",
    "port": "nut and olive",
    "wall_elbow": "wall elbow",
    "insertion": "depth of the tube in a fitting",
}
assert tuple(_WORDS) == get_args(Measure), "every size that can be measured has its words"


def pieces(plan: Plan) -> Iterator[Finding]:
    """Judge the sizes that somebody measured, how each tube is joined, and the pieces of each pipe."""
    for one in plan.job.pipework.measured:
        yield _measured(plan, one)
    yield from _joints(plan)
    for run in runs(plan):
        if run.pieces:
            yield from _pieces(plan, run)


def _joints(plan: Plan) -> Iterator[Finding]:
    """Judge how the tubes are joined; those that are joined as chosen share a finding."""
    faulty = unjoined(plan)
    for name, problem in faulty.items():
        message = f"{name}: {problem}. Choose another way of jointing, or another tube."
        yield plan.rules.judge("pipe.joint", 1, message, (name,), plan.courses[name].points)
    sound = tuple(pipe.id for pipe in plan.job.pipes if pipe.id not in faulty)
    if sound:
        yield plan.rules.judge("pipe.joint", 0, f"{listed(sound)}: each tube takes its joints.", sound)


def _measured(plan: Plan, one: Measured) -> Finding:
    """Report a measured size that cannot be: the typical one is taken then."""
    what = f"{_WORDS[one.what]}, {CALLED[one.jointing]} {number(one.outside)}"
    message, wrong = f"Measured by hand, {what}: {shown(one.value)} mm is used.", 0
    try:
        typical_joints().measured(one)
    except ValueError as problem:
        message, wrong = f"Measured by hand, {what}: {problem}. The typical size is used.", 1
    return plan.rules.judge("pipe.measured", wrong, message, (), failing="unchecked")


@remembered
def _pieces(plan: Plan, run: Run) -> Iterator[Finding]:
    """Judge the pieces of one pipe."""
    yield from _turns(plan, run)
    yield _tightest(plan, run)


def _turns(plan: Plan, run: Run) -> Iterator[Finding]:
    """Report the turns that no bend makes."""
    for piece in run.pieces:
        sharpest = max(piece.bends, key=lambda bend: bend.angle, default=None)
        if sharpest is not None and sharpest.angle > MOST:
            message = f"{piece.fault}."
            yield plan.rules.judge("pipe.bend", sharpest.angle, message, (run.pipe.id,), (sharpest.at,))


def _tightest(plan: Plan, run: Run) -> Finding:
    """Judge a pipe by its tightest piece: by the tube that is seen between two fittings or bends."""
    piece, straight = min(
        ((piece, straight) for piece in run.pieces for straight in piece.straights),
        key=lambda one: one[1].room,
    )
    message = f"{piece.fault}."
    if at_least(straight.room, 0.0):
        between = f"{straight.first} and {straight.last}"
        message = f"{piece.name} of {run.pipe.id} shows {shown(straight.room)} mm of tube between {between}."
    return plan.rules.judge("pipe.piece", straight.room, message, (run.pipe.id,), straight.leg)
