"""In which order the pipes are made up, so that a spanner turns and no flame comes near the valve. In mm.

Everything soldered is made up on the bench and cools before the valve's body is in the wall. What is made up
cannot be turned any more: it is laid with the nuts of its adaptors loose. Ports that leave a spanner least
room come first, and what does not leave enough is said with the step. Order and rooms are common practice,
no source.
"""

import math
from collections.abc import Iterator
from typing import NamedTuple

import shapely

from geometry.model.pipes import Jointing
from geometry.parts.records import Direction
from geometry.pipework.cut_list import Fitting, Run
from geometry.pipework.joints import CALLED
from geometry.plan import Plan
from geometry.units import number

MADE_UP: frozenset[Jointing] = frozenset({"capillary"})
"""Ways of jointing by which a whole pipe is made up before it is laid."""


class Step(NamedTuple):
    """One step: its subject in a word or two, what to do, and what to look out for."""

    subject: str
    text: str
    caution: str = ""


def assembly(plan: Plan, made: tuple[Run, ...]) -> tuple[Step, ...]:
    """Return the steps from cut pieces to pipes that can be tested; nothing if there are no pipes."""
    held = tuple(run for run in made if run.pieces)
    if not held:
        return ()
    return (*_cutting(held), *_bench(held), *_valves(plan, held), *_in_place(plan, held), *_supply(held))


def _cutting(held: tuple[Run, ...]) -> Iterator[Step]:
    plastic = any(run.tube.material == "barrier" for run in held)
    lined = " Push a liner into each end of plastic." if plastic else ""
    yield Step("Cut", f"Cut the pieces, write the name on each, take off the burr, clean the ends.{lined}")
    bent = [piece.name for run in held for piece in run.pieces if piece.bends]
    if bent:
        yield Step("Bend", f"Mark and bend {', '.join(bent)} before the ends are joined.")


def _bench(held: tuple[Run, ...]) -> Iterator[Step]:
    soldered = [run for run in held if run.joint.jointing in MADE_UP]
    for run in soldered:
        names = ", ".join(piece.name for piece in run.pieces)
        ends = ", ".join(fitting.what for fitting in run.fittings if fitting.port)
        between = "with the elbows between them and " if len(run.pieces) > 1 else "with "
        yield Step(f"Solder {run.mark}", f"Away from the wall, make up {names} {between}{ends}.")
    if soldered:
        heat = number(max(run.joint.heat for run in soldered))
        yield Step(
            "Cool, wipe",
            "Let all of it cool, wipe the flux off, flush the pipes.",
            f"No flame within {heat} mm of a valve's body or of its seals: soldering ends before it is near.",
        )


def _valves(plan: Plan, held: tuple[Run, ...]) -> Iterator[Step]:
    """Go through the valves: fix the body, then join its ports, the tightest first."""
    joined = [fitting for run in held for fitting in run.fittings if fitting.port]
    marks = {run.pipe.id: run.mark for run in held}
    for valve in plan.valves:
        name = valve.fitting.id
        here = [fitting for fitting in joined if fitting.port.partition(".")[0] == name]
        if not here:
            continue
        yield Step(f"Fix {name}", f"Set {name} plumb and level, at its depth, and fix it.")
        here.sort(key=lambda fitting: _room(plan, fitting))
        for fitting in here:
            room = _room(plan, fitting)
            caution = ""
            if room < fitting.joint.room:
                caution = (
                    f"There are {number(room)} mm across for the spanner, {number(fitting.joint.room)} are "
                    "wanted: make it up before its neighbour, or cut the recess wider."
                )
            text = f"{fitting.port}: {fitting.what}{_sealed(fitting)}."
            if fitting.joint.jointing in MADE_UP:
                text = f"Lay {marks[fitting.pipe]} in its chase, join it to {text}"
            yield Step("Join", text, caution)


def _sealed(fitting: Fitting) -> str:
    if not fitting.thread:
        return ""
    nut = "its nut loose until now, " if fitting.joint.jointing in MADE_UP else ""
    return f", {nut}thread {fitting.thread} sealed"


_ACROSS: dict[Direction | None, int] = {"up": 0, "down": 0, "left": 1, "right": 1}
"""The axis across a port's direction."""


def _room(plan: Plan, fitting: Fitting) -> float:
    """Return the clear width about a port across its direction: to the recess's sides and to other ports."""
    port = plan.ports[fitting.port]
    axis = _ACROSS.get(port.direction)
    name = port.name.partition(".")[0]
    if axis is None or name not in plan.recesses:
        return math.inf
    low, high = plan.recesses[name].bounds[axis], plan.recesses[name].bounds[axis + 2]
    near = [port.at[axis] - low, high - port.at[axis]]
    near += [
        abs(other.at[axis] - port.at[axis])
        for other in plan.ports.values()
        if other is not port and other.direction == port.direction and other.name.startswith(f"{name}.")
    ]
    return 2 * min(near)


def _in_place(plan: Plan, held: tuple[Run, ...]) -> Iterator[Step]:
    """Go through the runs that are joined where they lie, and the elbows behind the finish."""
    recesses = shapely.union_all([shapely.box(*outline.bounds) for outline in plan.recesses.values()])
    widths = {chase.pipe: chase.width for chase in plan.chases}
    for run in held:
        joint = run.joint
        if joint.jointing in MADE_UP:
            continue
        turns = [
            f for f in run.fittings if f.ends > 1 and not shapely.intersects(recesses, shapely.Point(f.at))
        ]
        narrow = turns and widths[run.pipe.id] < joint.room and not plan.job.wall.is_stud_wall
        caution = ""
        if narrow:
            caution = f"Cut the chase {number(joint.room)} wide at each of its {len(turns)} joints."
        names = ", ".join(piece.name for piece in run.pieces)
        how = CALLED[joint.jointing]
        yield Step(
            f"Lay {run.mark}", f"Lay {names} in place and make the {how} joints from the valve on.", caution
        )
    marks = ", ".join(run.mark for run in held)
    yield Step("Clip", f"Screw the wall elbows to the wall, plumb and level; wrap and clip {marks}.")


def _supply(held: tuple[Run, ...]) -> Iterator[Step]:
    fed = [run.mark for run in held if run.pipe.start is None]
    if fed:
        yield Step("Supply", f"Join {' and '.join(fed)} to the supply last, shut off and drained.")
    yield Step("Plug", "Put a plug into every open end, then test before anything is covered.")
