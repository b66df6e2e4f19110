"""The tables of the page about the water, as words; the first row of each is its head."""

from collections.abc import Iterator, Mapping, Sequence

from export.sheets.flow import Block
from export.sheets.table import GUTTER, cell, row
from geometry.model import Branch, Supply
from geometry.plan import Plan
from geometry.supply.from_plan import Shower
from geometry.supply.results import Results
from geometry.supply.solution import Loss, Solution
from geometry.supply.tryouts import Tryout, others, sizes
from geometry.units import number

Row = tuple[str, ...]
SOURCES = {
    "instant_heater": "Instant heater",
    "stored_mains": "Cylinder at mains pressure",
    "stored_gravity": "Cylinder fed from a cistern",
    "boosted": "Boosted by a pump",
}
_CHECKED = {"not_known": "not known", "none": "none", "single": "single", "double": "double"}
_FIRST, _FIRST_OF_MANY, _MANY = 0.34, 0.26, 6
"""Share of the width that the first column takes, and that of a table with so many columns or more."""


def table(rows: Sequence[Row], width: float) -> tuple[Block, ...]:
    """Return the rows as blocks: the first column a third of the width, the others alike."""
    many = len(rows[0])
    free = width - GUTTER * (many - 1)
    share = _FIRST if many < _MANY else _FIRST_OF_MANY
    widths = [free * share, *(free * (1 - share) / (many - 1) for _ in range(many - 1))]
    return tuple(
        row(
            [
                cell("rule" if index == 0 else "text", text, wide)
                for text, wide in zip(words, widths, strict=True)
            ],
            widths,
        )
        for index, words in enumerate(rows)
    )


# measured


def to_measure() -> tuple[Row, ...]:
    """Return what to measure, with room to write it down."""
    blank = "................"
    what = (
        "All taps shut, bar", "One tap running, bar", "Its flow meanwhile, l/min",
        "Two taps running, bar", "Their flow meanwhile, l/min", "Temperature after a minute, °C",
        "Height of the gauge above the floor, mm", "Tube from there to the wall: size, length, elbows",
        "Hot water from: heater, kW, or cylinder, l", "Waste: bore, length, fall for each metre",
    )  # fmt: skip
    return (("", "Cold", "Hot"), *((text, blank, blank) for text in what))


def readings(supply: Supply, tubes: Mapping[str, str]) -> tuple[Row, ...]:
    """Return what was measured, cold and hot beside each other; `tubes` holds their names by id."""
    columns = [_branch(branch, tubes) for branch in (supply.cold, supply.hot)]
    rows = [(name, cold, hot) for (name, cold), (_, hot) in zip(*columns, strict=True)]
    source = SOURCES[supply.source]
    if supply.heater_kw is not None:
        source += f", {number(supply.heater_kw)} kW"
    if supply.stored_litres is not None:
        source += f", {number(supply.stored_litres)} l"
    drain = "not stated"
    if supply.drain is not None:
        drain = f"{number(supply.drain.length)} mm, falls {number(supply.drain.fall)} mm/m"
    return (
        ("", "Cold", "Hot"),
        *rows,
        ("Hot water from", "", source),
        ("Thermostat set to", "", f"{number(supply.set_to)} °C"),
        ("Waste", drain, ""),
    )


def _branch(branch: Branch, tubes: Mapping[str, str]) -> list[tuple[str, str]]:
    read = "; ".join(f"{number(one.pressure, 2)} bar at {number(one.flow)} l/min" for one in branch.readings)
    pipes = "; ".join(
        f"{tubes.get(one.tube, one.tube)}, {number(one.length / 1000, 2)} m, {_elbows(one.elbows)}"
        for one in branch.upstream
    )
    pump = branch.pump and f"{number(branch.pump.pressure, 2)} bar, {number(branch.pump.flow)} l/min"
    regulated = "none" if branch.regulated is None else f"{number(branch.regulated, 2)} bar"
    cistern = "" if branch.cistern is None else f"; cistern at {number(branch.cistern)} mm"
    return [
        ("All taps shut", f"{number(branch.static, 2)} bar{cistern}"),
        ("With water running", read or "not read"),
        ("Temperature", f"{number(branch.temperature)} °C"),
        ("Gauge above the floor", f"{number(branch.gauge_height)} mm"),
        ("From there to the wall", pipes or "nothing stated"),
        ("Pump", pump or "none"),
        ("Pressure reducing valve", regulated),
        ("Check valves at the inlet", _CHECKED[branch.check_valves]),
    ]


def _elbows(count: float) -> str:
    return f"{number(count) if count else 'no'} {'elbows' if count > 1 else 'elbow'}"


# results


def results_rows(shower: Shower, found: Results) -> tuple[Row, ...]:
    """Return what comes out of every outlet alone and of every two; the last columns are at the valve."""
    head = ("Open", "l/min", "stated", "at spray, bar", "°C", "hot, l/min", "hot in, bar", "cold in, bar")
    rows = [_result(shower, names, solution) for names, solution in found.running]
    return (head, *rows)


def _result(shower: Shower, names: tuple[str, ...], solution: Solution) -> Row:
    flows = " + ".join(number(solution.outlet(name).flow) for name in names)
    stated = " + ".join(number(shower.needs[name].flow) for name in names)
    pressures = " + ".join(number(solution.outlet(name).pressure, 2) for name in names)
    warm = "–" if solution.temperature is None else number(solution.temperature)
    inlets = number(solution.hot_pressure, 2), number(solution.cold_pressure, 2)
    return (" and ".join(names), flows, stated, pressures, warm, number(solution.hot_flow), *inlets)


def losses(solution: Solution) -> tuple[Row, ...]:
    """Return what each piece takes on the way from the house to the spray."""
    head = ("Piece", "l/min", "m/s", "lost, bar", "height, bar")
    return (head, *(_loss(loss) for loss in solution.losses))


def _loss(loss: Loss) -> Row:
    speed = "" if loss.velocity is None else number(loss.velocity, 2)
    doubt = " (estimate)" if loss.uncertain else ""
    height = number(loss.height, 3) if loss.height else ""
    return loss.name, number(loss.flow), speed, f"{number(loss.pressure, 3)}{doubt}", height


# what if


def sizes_rows(plan: Plan, shower: Shower, running: tuple[str, ...]) -> tuple[Row, ...]:
    """Return each stretch with what comes out with it in either usual size."""
    rows = [_sizes(shower, tryouts) for tryouts in sizes(plan, shower, running) if tryouts]
    return (("Stretch", "laid", "smaller", "larger"), *rows)


def _sizes(shower: Shower, tryouts: tuple[Tryout, ...]) -> Row:
    stretch = tryouts[0].what
    small, large = tryouts[0], tryouts[-1]
    laid = shower.tubes[stretch].name
    gives = [
        f"{'as laid' if one.to == laid else one.to}: {number(one.solution.flow, 2)}" for one in (small, large)
    ]
    return stretch, laid, *gives


def tried(plan: Plan, shower: Shower, running: tuple[str, ...]) -> tuple[Row, ...]:
    """Return what other heads, a pump and a reducing valve would give."""
    return (("Change", "to", "l/min", "°C"), *_tried(plan, shower, running))


def _tried(plan: Plan, shower: Shower, running: tuple[str, ...]) -> Iterator[Row]:
    for one in others(plan, shower, running):
        warm = one.solution.temperature
        yield one.what, one.to, number(one.solution.flow, 2), "–" if warm is None else number(warm)
