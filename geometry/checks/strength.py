"""What a masonry wall may lose without a calculation: which rules hold, fractions of the leaf, good practice.

Depths are mm of the bare wall, without finishes. A limit that is exceeded is `refer`, never a clash: an
engineer or building control decides, and the ways out are named. A stud wall is another subject.
"""

from collections.abc import Iterator
from functools import lru_cache

from geometry.chase.cuts import Cut, by_way, chase_cuts, recess_cuts
from geometry.checks.other_face import other_face
from geometry.checks.readings import Reading, findings
from geometry.checks.strength_en import en_1996
from geometry.checks.ways_out import counted, depth_said, reading_of
from geometry.finding import Finding
from geometry.model import Wall
from geometry.plan import Plan
from geometry.rules import Rulebook
from geometry.units import at_most, shown


def strength(plan: Plan) -> Iterator[Finding]:
    """Judge every chase and recess in masonry by each rule set of the wall, each by itself."""
    wall = plan.job.wall
    if wall.is_stud_wall:
        return
    chases, recesses = chase_cuts(plan), recess_cuts(plan)
    yield _loadbearing(plan)
    carries, by_fraction = wall.loadbearing != "no", "approved_document_a" in wall.strength_rules
    if wall.make_up == "hollow_block":
        yield from _hollow(plan, (*chases, *recesses))
    if carries and "en_1996" in wall.strength_rules:
        yield from en_1996(plan, chases, recesses)
    if by_fraction or not carries:
        for cuts in by_way((*chases, *recesses)):
            yield from _fractions(plan.rules, wall, cuts, "part_a" if carries else "partition")
        for cuts in by_way(cut for cut in chases if cut.way != "upright"):
            yield from _length(plan.rules, cuts)
        yield from _size(plan.rules, recesses)
        yield from other_face(plan, (*chases, *recesses))


def _loadbearing(plan: Plan) -> Finding:
    """Say whether the wall carries load is known; until it is, the wall counts as carrying."""
    known = plan.job.wall.loadbearing
    said = {
        "yes": "The wall carries load: chases and recesses are held to what masonry may lose.",
        "no": "The wall carries no load: the fractions of good practice are kept all the same.",
        "not_known": "Whether the wall carries load is not known, so it counts as if it did. Look for joists "
        "or a wall above that bear on it, ask building control or an engineer, and enter yes or no.",
    }
    return plan.rules.judge("strength.loadbearing", known != "not_known", said[known], (), failing="refer")


@lru_cache(maxsize=256)
def _fractions(rules: Rulebook, wall: Wall, cuts: tuple[Cut, ...], which: str) -> tuple[Finding, ...]:
    """Judge the depths of cuts of one way against a fraction of the leaf; a recess counts as upright."""
    way = "level" if cuts[0].way in ("level", "inclined") else "upright"
    share = rules[f"strength.{which}_{way}"]
    limit = share.value * wall.thickness
    readings = [reading_of(share.rule, cut, counted(wall, cut), limit) for cut in cuts]
    return tuple(findings(rules, readings, depth_said(wall, cuts)))


def _hollow(plan: Plan, cuts: tuple[Cut, ...]) -> Iterator[Finding]:
    """Judge what is left before the void of a hollow block, which specification practice never cuts."""
    shell = plan.job.wall.shell
    parts = tuple(dict.fromkeys(owner for cut in cuts for owner in cut.owners))
    ways = "Pack out in front, or fix a lining or stud wall and leave the block whole."
    many = f"{len(cuts)} cuts are planned into hollow block, which practice leaves whole. {ways}"
    message = many if cuts else "Nothing is cut into the hollow block."
    yield plan.rules.judge("strength.spec_hollow", len(cuts), message, parts, failing="refer")
    if shell is None:
        need = shown(plan.rules["strength.void"].value)
        message = (
            f"How thick the block is before its void is not known, and {need} mm of it must stay. "
            f"Drill one hole, measure the face shell and enter it. {ways}"
        )
        yield Finding(
            rule="strength.void", status="refer", parts=parts, message=message,
            source=plan.rules["strength.void"].source,
        )  # fmt: skip
        return

    def say(names: str, reading: Reading) -> str:
        left, need = reading.measured, reading.limit
        if left < need:
            return (
                f"{names}: {shown(reading.deep)} mm deep, leaves {shown(max(0.0, left))} mm of the "
                f"{shown(shell)} mm face shell before the void, {shown(need)} mm must stay. {ways}"
            )
        return f"{names}: {shown(left)} mm left of the face shell before the void."

    limit = plan.rules["strength.void"].value
    readings = [
        Reading("strength.void", _noun(cut), cut.owners, shell - cut.depth, limit, (cut.middle,), cut.depth)
        for cut in cuts
    ]
    yield from findings(plan.rules, readings, say)


def _noun(cut: Cut) -> str:
    return "Recess" if cut.way == "recess" else "Chase"


@lru_cache(maxsize=256)
def _length(rules: Rulebook, cuts: tuple[Cut, ...]) -> tuple[Finding, ...]:
    """Judge the length of level chases, or of inclined ones, as specifications do."""

    def say(names: str, reading: Reading) -> str:
        message = f"{names}: {shown(reading.measured)} mm long, at most {shown(reading.limit)} mm in one run"
        if at_most(reading.measured, reading.limit):
            return f"{message}."
        return f"{message}. Lead it upright instead, in front of the wall, or have an engineer calculate it."

    most = rules["strength.spec_level_length"]
    readings = [reading_of(most.rule, cut, cut.length, most.value) for cut in cuts]
    return tuple(findings(rules, readings, say))


@lru_cache(maxsize=256)
def _size(rules: Rulebook, recesses: tuple[Cut, ...]) -> tuple[Finding, ...]:
    """Judge the size of recesses as specifications do."""

    def say(names: str, reading: Reading) -> str:
        message = (
            f"{names}: {shown(reading.measured)} mm across, at most {shown(reading.limit)} mm either way"
        )
        if at_most(reading.measured, reading.limit):
            return f"{message}."
        return f"{message}. Choose a smaller box, build out in front, or have an engineer calculate it."

    most = rules["strength.spec_hole"]
    readings = [reading_of(most.rule, cut, max(cut.width, cut.length), most.value) for cut in recesses]
    return tuple(findings(rules, readings, say))
