"""What is said where a cut is too deep for a wall, and the depth that counts; all in mm."""

from collections.abc import Iterable

from geometry.chase.cuts import Cut
from geometry.checks.readings import Reading, Saying
from geometry.model import Wall
from geometry.units import at_most, shown


def counted(wall: Wall, cut: Cut) -> float:
    """Return the depth of a cut as strength counts it: with any hole that is reached while cutting.

    A hollow block whose face shell is cut through counts down to its far shell.
    """
    if wall.make_up == "hollow_block" and wall.shell is not None and cut.depth > wall.shell:
        return max(cut.depth, wall.thickness - wall.shell)
    return cut.depth


def reading_of(rule: str, cut: Cut, measured: float, limit: float) -> Reading:
    """Return a value measured of a cut, in mm, beside the limit for it."""
    return Reading(rule, cut.words, cut.owners, measured, limit, (cut.middle,), cut.depth)


def depth_said(wall: Wall, cuts: Iterable[Cut], why: str = "") -> Saying:
    """Return what makes the sentence for the depth of a cut.

    Args:
        wall: what is cut.
        cuts: all that may be spoken of.
        why: what allows the limit, if not the leaf alone.
    """
    thick, least = shown(wall.thickness), {cut.owners: cut.least for cut in cuts}

    def say(names: str, reading: Reading) -> str:
        void = ", the void that it reaches included" if reading.measured > reading.deep else ""
        message = (
            f"{names}: {shown(reading.measured)} mm deep{void}, at most {shown(reading.limit)} mm "
            f"in the {thick} mm leaf{why}"
        )
        within = at_most(reading.measured, reading.limit)
        return f"{message}." if within else f"{message}. {_ways_out(wall, reading, least[reading.owners])}"

    return say


def _ways_out(wall: Wall, reading: Reading, least: float | None) -> str:
    """Name the ways out of a depth that is too great, with the mm that building out takes."""
    shell = wall.shell
    most = reading.limit if shell is None or reading.measured <= reading.deep else min(reading.limit, shell)
    build = f"build out in front by {shown(reading.deep - most)} mm"
    if reading.what != "Recess":
        return (
            f"Choose a smaller tube or a thinner wrap, {build}, lead the pipe in a lining or stud wall, "
            "or have an engineer calculate it."
        )
    ways = (
        f"pack out or {build}, choose a shallower box, fix a lining or stud wall, "
        "or have an engineer calculate it."
    )
    if least is not None and least < reading.deep and at_most(least, most):
        return f"Cut {reading.owners[0]} {shown(least)} mm deep, which its finish allows; or {ways}"
    return f"{ways[0].upper()}{ways[1:]}"
