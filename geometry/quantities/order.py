"""The order list: what to buy for the pipework of a job, and what to carry away.

Yields, weights and allowances are typical, and most are from memory or common practice: each is said beside
its number, and the list says so too. Lengths are mm, volumes litres, weights kg.
"""

import math
from collections import Counter
from collections.abc import Iterator
from typing import NamedTuple

from geometry.model.wall import MakeUp
from geometry.parts.threads import THREADS
from geometry.pipework.assembly import MADE_UP
from geometry.pipework.clips import clips, spacing
from geometry.pipework.cut_list import Fitting, Run, runs
from geometry.pipework.joints import CALLED
from geometry.pipework.stock import TubeCutting, cuttings
from geometry.plan import Plan
from geometry.quantities.volumes import Volumes, volumes
from geometry.studwork import noggins
from geometry.units import number

FOAM_CAN = 750.0
"""ml of a can of one-part foam."""
FOAM_YIELD = 15.0
"""Litres that a can fills in a chase: half of the 30 it yields rising freely (from memory: verify)."""
FOAM_WASTE = 0.10
"""Share of foam that is trimmed off or lost (common practice, no source)."""
DENSITY: dict[MakeUp, float] = {
    "aerated_block": 600.0, "dense_block": 2000.0, "hollow_block": 1400.0, "brick": 1900.0,
    "timber_stud": 0.0, "metal_stud": 0.0,
}  # fmt: skip
"""kg per m3 of wall (from memory: verify)."""
BULKING = 1.5
"""Volume of rubble over that of the wall it was (from memory: verify)."""
BAG_LITRES, BAG_KG = 25.0, 20.0
"""What a rubble bag holds, and what one person carries down a stair (common practice, no source)."""
SOLDER_PER_MM = 1.0
"""mm of 3 mm solder wire to a joint over the tube's outside diameter (common practice, no source)."""
TAPE_TURNS, TAPE_ROLL = 12.0, 12_000.0
"""Turns of tape to a thread, and mm of tape in a roll (common practice, no source)."""
WRAP_WASTE = 0.10
SCREWS_PER_NOGGIN = 4
"""Two to each end (common practice, no source)."""
TYPICAL = (
    "Fittings, yields and weights are typical and partly from memory: "
    "measure, and read labels, before you order."
)
"""What a list of amounts says of itself."""


class Item(NamedTuple):
    """One line of the list."""

    group: str
    what: str
    amount: float
    unit: str
    note: str = ""


def order(plan: Plan) -> tuple[Item, ...]:
    """Return everything to buy and to carry away, by group; nothing that is not wanted."""
    made = runs(plan)
    cut = cuttings(plan, tuple(piece for run in made for piece in run.pieces))
    held = volumes(plan)
    found = (
        *_tubes(plan, cut),
        *_fittings(made),
        *_liners(made),
        *_clips(plan),
        *_jointing(made),
        *_wrap(plan),
        *_fixing(plan),
        *_timber(plan),
        *_filling(held),
        *_rubble(plan, held),
    )
    groups = list(dict.fromkeys(item.group for item in found))
    wanted = [_in_number(item) for item in found if item.amount > 0]
    return tuple(sorted(wanted, key=lambda item: groups.index(item.group)))


def _in_number(item: Item) -> Item:
    """Return an item whose unit is in the singular if there is but one."""
    return item._replace(unit=item.unit.removesuffix("s")) if item.amount == 1 else item


def _tubes(plan: Plan, cut: tuple[TubeCutting, ...]) -> Iterator[Item]:
    length = plan.job.pipework.stock_length
    for one in cut:
        name = next(tube.name for tube in plan.tubes.values() if tube.id == one.tube)
        used = sum(piece.cut for piece in one.pieces)
        rest = max((bar.rest for bar in one.cutting.bars if not bar.own), default=0.0)
        note = f"{number(used / 1000, 2)} m to cut"
        if one.cutting.bought:
            note += f"; longest rest {number(rest)} mm"
        if not one.cutting.fewest:
            note += "; one fewer might do"
        yield Item("Tube", f"{name}, lengths of {number(length)} mm", one.cutting.bought, "pieces", note)
        own = sum(bar.own for bar in one.cutting.bars)
        yield Item("Tube", f"{name}, off-cuts at hand", own, "pieces", "not to buy")
        for index in one.cutting.too_long:
            piece = one.pieces[index]
            what = f"{name}, length of {number(math.ceil(piece.cut))} mm or more"
            yield Item("Tube", what, 1, "pieces", f"{piece.name} is longer than a stock length")


def _fittings(made: tuple[Run, ...]) -> Iterator[Item]:
    held = {fitting.what: fitting for run in made for fitting in run.fittings}
    counted = Counter(fitting.what for run in made for fitting in run.fittings)
    for what, many in counted.items():
        yield Item("Fittings", what, many, "pieces", _note(held[what]))
    feeds = Counter(f"coupling {_size(run)}" for run in made if run.pieces and run.pieces[0].start.stop < 0)
    for what, many in feeds.items():
        yield Item("Fittings", what, many, "pieces", "where the pipe meets its supply")
    open_ends = [run for run in made if run.fittings and run.pipe.service == "mixed"]
    plugs = Counter(run.fittings[-1].thread for run in open_ends if run.fittings[-1].thread)
    for thread, many in plugs.items():
        yield Item("Fittings", f"plug {thread}", many, "pieces", "to flush and test with; used again")


def _note(fitting: Fitting) -> str:
    """Return what to ask for at the counter (common practice, no source)."""
    if fitting.what.startswith("adaptor"):
        loose = "loose nut; " if fitting.joint.jointing in MADE_UP else ""
        return f"{loose}male or female as the port is"
    if fitting.what.startswith("wall elbow"):
        return "with a plate to screw to the wall"
    return "end feed or solder ring" if fitting.joint.jointing == "capillary" else ""


def _size(run: Run) -> str:
    return f"{number(run.joint.outside)} {CALLED[run.joint.jointing]}"


def _liners(made: tuple[Run, ...]) -> Iterator[Item]:
    """Plastic needs a liner in every compression or push-fit joint (from memory: verify)."""
    ends: Counter[float] = Counter()
    for run in made:
        if run.tube.material == "barrier":
            ends[run.joint.outside] += 2 * len(run.pieces)
    for outside, many in ends.items():
        yield Item("Fittings", f"pipe liner {number(outside)}", many, "pieces", "one to each end of a piece")


def _clips(plan: Plan) -> Iterator[Item]:
    many: Counter[str] = Counter()
    for pipe in plan.job.pipes:
        many[plan.tubes[pipe.id].id] += clips(plan, pipe.id)
    for tube in {tube.id: tube for tube in plan.tubes.values()}.values():
        held = spacing(tube)
        note = f"at most {number(held.level)} mm apart level, {number(held.upright)} upright"
        yield Item("Clips and screws", f"clip {number(tube.outside)}", many[tube.id], "pieces", note)


def soldered(made: tuple[Run, ...]) -> tuple[float, ...]:
    """Return the outside diameter of the tube for every end that is soldered."""
    return tuple(
        run.joint.outside
        for run in made
        if run.joint.jointing == "capillary"
        for _ in range(2 * len(run.pieces))
    )


def _jointing(made: tuple[Run, ...]) -> Iterator[Item]:
    ends = soldered(made)
    if ends:
        wire = math.ceil(sum(ends) * SOLDER_PER_MM / 100) * 100
        yield Item(
            "Jointing",
            "lead-free solder wire, 3 mm",
            wire,
            "mm",
            f"{len(ends)} ends; less with solder-ring fittings",
        )
        yield Item("Jointing", "flux for copper", 1, "tins", "wipe and flush it off")
        yield Item("Jointing", "heat mat", 1, "pieces")
    threads = [fitting.thread for run in made for fitting in run.fittings if fitting.thread is not None]
    tape = sum(TAPE_TURNS * math.pi * THREADS[thread].major for thread in threads)
    note = f"{len(threads)} threads, {number(tape / 1000, 1)} m"
    yield Item("Jointing", "thread sealing tape", math.ceil(tape / TAPE_ROLL), "rolls", note)


def _wrap(plan: Plan) -> Iterator[Item]:
    lengths: dict[tuple[float, float], float] = {}
    for pipe in plan.job.pipes:
        if pipe.wrap > 0:
            key = plan.tubes[pipe.id].outside, pipe.wrap
            lengths[key] = lengths.get(key, 0.0) + plan.courses[pipe.id].length
    for (outside, thick), length in lengths.items():
        metres = math.ceil(length * (1 + WRAP_WASTE) / 100) / 10
        note = f"{number(WRAP_WASTE * 100)} % more than the pipe"
        yield Item("Wrap", f"wrap {number(thick)} thick for {number(outside)}", metres, "m", note)
    plastic = sum(
        plan.courses[pipe.id].length for pipe in plan.job.pipes if plan.tubes[pipe.id].material == "barrier"
    )
    note = "behind plastic pipe, so that a detector finds it (NHBC 8.1.11)"
    yield Item("Wrap", "metallic tape", math.ceil(plastic / 100) / 10, "m", note)


def _fixing(plan: Plan) -> Iterator[Item]:
    screws = Counter((2 * solid.outline.radius, -solid.low) for solid in plan.fitted if solid.what == "screw")
    stud = plan.job.wall.is_stud_wall
    for (diameter, deep), many in sorted(screws.items()):
        what = "screw" if stud else "plug and screw"
        size = f"{number(diameter)} mm hole, {number(deep)} deep"
        yield Item("Clips and screws", f"{what}, {size}", many, "pieces", "valve, outlets and rail")
    held = sum(clips(plan, pipe.id) for pipe in plan.job.pipes)
    what = "screw for clips" if stud else "plug and screw for clips"
    yield Item("Clips and screws", what, held, "pieces", "one to a clip")


def _timber(plan: Plan) -> Iterator[Item]:
    if not plan.job.wall.is_stud_wall:
        return
    wanted = [noggin for noggin in noggins(plan) if not noggin.carriers]
    lengths = Counter(number(noggin.bay.clear) if noggin.bay else "to measure" for noggin in wanted)
    for length, many in lengths.items():
        yield Item(
            "Boards and noggins", f"noggin or board, {length} mm long", many, "pieces", "between studs"
        )
    yield Item(
        "Boards and noggins",
        "screw for noggins",
        SCREWS_PER_NOGGIN * len(wanted),
        "pieces",
        "two to each end",
    )


def _filling(held: Volumes) -> Iterator[Item]:
    wanted = held.to_fill * (1 + FOAM_WASTE)
    note = (
        f"{number(held.to_fill)} l to fill, {number(FOAM_WASTE * 100)} % lost, "
        f"{number(FOAM_YIELD)} l to a can in a chase"
    )
    yield Item("Filling", f"fixing foam, {number(FOAM_CAN)} ml", math.ceil(wanted / FOAM_YIELD), "cans", note)


def _rubble(plan: Plan, held: Volumes) -> Iterator[Item]:
    weight = held.cut / 1000 * DENSITY[plan.job.wall.make_up]
    loose = held.cut * BULKING
    bags = max(math.ceil(weight / BAG_KG), math.ceil(loose / BAG_LITRES))
    note = f"{number(held.cut)} l of wall, {number(loose)} l loose, {number(weight)} kg"
    yield Item("To carry away", "rubble bags", bags, "bags", note)
