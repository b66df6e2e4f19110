"""The cautions of a job: short sentences, chosen by what the job does to the wall.

Plain words for a sheet that is read on site. What they rest on stands beside each; local codes win.
"""

from typing import NamedTuple

from geometry.model import Accessory, Cable, OldPipe
from geometry.plan import Plan
from geometry.zones import CAUTION, cuts_in_zones


class Caution(NamedTuple):
    """A word for the subject, and what to do."""

    subject: str
    text: str


def cautions(plan: Plan) -> tuple[Caution, ...]:
    """Return the cautions that apply to a job, in the order in which the work is done."""
    found = [_measure(), _electricity(plan), _structure(plan), _cutting(plan)]
    if any(isinstance(service, OldPipe) for service in plan.job.services):
        found.append(_OLD_PIPES)
    if any(plan.tubes[pipe.id].material == "copper" for pipe in plan.job.pipes):
        found.append(_HOT_WORK)
    return (*found, _PRESSURE, _SCALDING)


def _measure() -> Caution:
    return Caution("Measure", "Measure on site before you cut. Do not scale this drawing: the numbers count.")


def _electricity(plan: Plan) -> Caution:
    """Isolate, prove dead, lock off: practice of HSE GS38 and HSG85, from memory."""
    known = any(isinstance(service, Cable | Accessory) for service in plan.job.services)
    seen = "Cables are shown where they are known; there may be others. " if known else ""
    cut = tuple(dict.fromkeys(each.owner for each in cuts_in_zones(plan)))
    zoned = f"In a zone where cables run: {', '.join(cut)}. {CAUTION} " if cut else ""
    return Caution(
        "Electricity",
        f"{seen}{zoned}Search the wall with a detector. Isolate, lock off and prove dead before you cut, "
        "wherever the cables may run. Electrical work is for a licensed electrician.",
    )


def _structure(plan: Plan) -> Caution:
    """The limits themselves are findings; this says who decides (common practice, no source)."""
    wall = plan.job.wall
    if wall.is_stud_wall:
        text = (
            "Keep within the limits for notches and holes; never cut through a stud to make room for a box."
        )
    else:
        text = "Keep within the limits for chases: no deeper, no wider, no nearer. Do not cut both faces."
    ask = {
        "yes": " This wall carries load: where in doubt, an engineer decides before anything is cut.",
        "not_known": " It is not known whether this wall carries load: find out before anything is cut; "
        "where in doubt, an engineer decides.",
        "no": "",
    }[wall.loadbearing]
    return Caution("Structure", text + ask)


def _cutting(plan: Plan) -> Caution:
    """Wet cutting, class M, FFP3: HSE guidance on wall chasing; asbestos before 2000: from memory."""
    what = "board and tile" if plan.job.wall.is_stud_wall else "masonry and tile"
    return Caution(
        "Dust",
        f"Cutting {what} makes silica dust, which destroys lungs: cut wet, or with extraction of class M "
        "or H on the tool. Wear a fitted mask (FFP3), eye and ear protection and gloves. Keep others out; "
        "do not sweep dry. In a building from before 2000 have it checked for asbestos first.",
    )


_OLD_PIPES = Caution("Old pipes", "Shut off and drain the pipes in the wall before you cut near them.")
_HOT_WORK = Caution(
    "Hot work",
    "Solder away from the valve body and from anything that burns. Have water or an extinguisher at "
    "hand, and look again after an hour.",
)
"""Heat and flux harm the body; a fire watch of an hour: common practice, no source."""
_PRESSURE = Caution(
    "Pressure test",
    "Test all pipes and joints under pressure, and write down the reading, before anything is covered.",
)
_SCALDING = Caution(
    "Scalding",
    "Set the thermostat so that the shower runs no hotter than 41 °C, and measure it. Joining to the supply "
    "may need a licensed plumber: ask what your local code says.",
)
"""41 °C at a shower: guidance for thermostatic mixing valves, from memory."""
