"""Fittings held by screws, walls to screw them to, and what their check says.

The rail's screws go 45 deep behind the bare face, 25 and 675 above its foot, 6 wide. The outlet's go 70
deep, 20 either side of its centre, in a pocket 50 square; those of the valve 100 deep, at -50 / -50 and
50 / 50 in a box 120 square. Chases are 39 wide and 33 deep: 15 + 2 x 4 + 2 x 8; 5 + 23 + 5.
"""

from geometry.checks.fixings import fixings
from geometry.finding import Finding
from geometry.model import FinishArea, HoseOutlet, Job, Layer, Rail, Stud, Valve, Wall
from geometry.model.wall import MakeUp
from tests.geometry.checks.walls import bare, only

TILED = FinishArea(id="all", layers=(Layer(kind="adhesive", thickness=5), Layer(kind="tile", thickness=9)))


def rail(x: float = 2000, foot: float = 1000) -> Rail:
    return Rail(id="rail", part="rail-700", x=x, height=foot)


def outlet(recess: float | None = None, x: float = 2000, y: float = 1000) -> HoseOutlet:
    return HoseOutlet(id="outlet", part="outlet-round", x=x, height=y, recess=recess)


def valve(recess: float | None = None, x: float = 2000, y: float = 1000) -> Valve:
    return Valve(id="valve", part="valve-one-round", x=x, height=y, recess=recess)


def wall(thickness: float = 140, make_up: MakeUp = "dense_block", shell: float | None = None) -> Wall:
    return Wall(
        width=4000, height=2400, thickness=thickness, make_up=make_up, shell=shell,
        left="free_end", right="free_end",
    )  # fmt: skip


def studded(x: float, make_up: MakeUp = "timber_stud") -> Job:
    """The rail on a wall with one stud; its screws are at 2000."""
    return bare(rail(2000), services=[Stud(id="stud", x=x, wide=38)], wall=wall(89, make_up))


def said(job: Job, rule: str) -> Finding:
    """Return the one thing that the check says by one rule of fixings."""
    return only(fixings, f"fixings.{rule}", job)
