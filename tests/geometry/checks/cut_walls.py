"""Walls with cuts of wished sizes, for tests of what masonry and studs may lose. All in mm."""

from typing import Any

from geometry.chase.cuts import Cut, Way
from geometry.finding import Finding, Status
from geometry.model import Enclosure, Finish, Job, Pipe, Spout, Valve, Wall
from geometry.parts.catalogue import Catalogue, generic_parts
from geometry.parts.records import TubePart
from geometry.plan import Plan
from geometry.rules import Rulebook, standard_rules
from geometry.setting_out.arrangement import suggested_job

ORDER: tuple[Status, ...] = ("clear", "tight", "refer", "unchecked", "clash")
"""From good to bad."""
SLIM = TubePart(id="slim", name="Slim", material="copper", outside=10, wall=1, clip_side=15, clip_back=0)
"""A tube whose chase, without wrap, is 10 + 2 x 15 = 40 wide and reaches 5 mm behind the pipe's centre."""
PARTS: Catalogue = generic_parts().with_own((SLIM,))
LONG = 6000.0
"""Length of a wall in which 0.13 x length, 780 mm, is never reached."""


def bare(thickness: float = 215, rules: Rulebook | None = None, **wall: Any) -> Plan:
    """Return a plan of a loadbearing wall with nothing on it; nothing is cut into its other face."""
    made = {
        "width": LONG,
        "height": 2400,
        "loadbearing": "yes",
        "machine_cut": False,
        "other_face": (),
        **wall,
    }
    job = Job(wall=Wall(thickness=thickness, **made), enclosure=Enclosure(left=0, width=900, projection=900))
    return Plan(job, PARTS, rules or standard_rules())


def upright(deep: float, wide: float = 40, low: float = 0, high: float = 2000, x: float = 1000) -> Cut:
    """Return an upright chase with its axis at `x`."""
    return Cut(("riser",), "upright", (x - wide / 2, low, x + wide / 2, high), wide, deep, high - low)


def level(
    deep: float, wide: float = 20, long: float = 600, y: float = 150, x: float = 1000, way: Way = "level"
) -> Cut:
    """Return a level chase that begins at `x`, with its axis at `y`."""
    return Cut(("branch",), way, (x, y - wide / 2, x + long, y + wide / 2), wide, deep, long)


def recess(deep: float, wide: float = 100, tall: float = 150, x: float = 2000, y: float = 1000) -> Cut:
    """Return a recess with its lower left corner at a point."""
    return Cut(("valve",), "recess", (x, y, x + wide, y + tall), wide, deep, tall)


def fitted(
    thickness: float = 215,
    *,
    chase: float = 25,
    branch: float = 15,
    box: float = 58,
    rules: Rulebook | None = None,
    **wall: Any,
) -> Plan:
    """Return a plan with an upright chase `hot`, a level one `branch`, and a recess `valve`, so many mm deep.

    All three lie far apart. `hot` comes up from the floor to the valve's recess at y = 905; `branch` runs
    at y = 200 over 600 mm into the pocket of a spout.
    """
    made = {"width": LONG, "height": 2400, "loadbearing": "yes", "other_face": (), **wall}
    job = Job(
        wall=Wall(thickness=thickness, **made),
        enclosure=Enclosure(left=2000, width=900, projection=900),
        finish=Finish(areas=suggested_job(760, 760, "left").finish.areas),
        fittings=(
            Valve(id="valve", part="valve-two-round", x=2400, height=1000, recess=box),
            Spout(id="spout", part="spout-170", x=4625, height=200, recess=5),
        ),
        pipes=(
            Pipe(
                id="hot", service="hot", end="valve.hot", route=((2355, 0),),
                tube="slim", wrap=0, depth=chase - 5,
            ),
            Pipe(
                id="branch", service="mixed", end="spout.in", route=((4000, 200),),
                tube="slim", wrap=0, depth=branch - 5,
            ),
        ),
    )  # fmt: skip
    return Plan(job, PARTS, rules or standard_rules())


def worst(findings: tuple[Finding, ...], part: str | None = None, rule: str = "") -> Status:
    """Return the worst status among the findings that name a part, of rules that begin so."""
    named = [f.status for f in findings if (part is None or part in f.parts) and f.rule.startswith(rule)]
    assert named, f"nothing was found on {part} under {rule}*"
    return max(named, key=ORDER.index)
