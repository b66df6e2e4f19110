"""What the water does, in words for the panel: rows of tables and sentences. bar, l/min, m/s, Celsius.

No widgets.
"""

import re
from collections.abc import Iterator
from typing import NamedTuple

from app.panels.facts import Row
from app.panels.sentence import Tone, plainly
from app.panels.statuses import LOOKS
from app.panels.words import translate
from export.drawings.supply_plot import letter
from geometry.finding import Status
from geometry.plan import Plan
from geometry.supply.from_plan import Lacking, Shower, showers
from geometry.supply.results import results
from geometry.supply.solution import Loss, Solution
from geometry.supply.sweep import Sweep
from geometry.supply.tryouts import best_size, bounded, others, sizes
from geometry.units import number

_SIDE = re.compile(r"(?:supply)?\.?\b(cold|hot)\.?(?:temperature)?(?=:| reading )")
_PATH = re.compile(r"\bsupply\.[\w.\[\]]+: ")
NOTHING = "–"
AS_SET = 1.0
"""K; water that comes so near to what is set is as warm as was wanted, own choice."""
HARMLESS = ("uncertain", "heater_too_small")
"""Troubles that do not matter where enough runs, as warm as it was set."""


class Way(NamedTuple):
    """Some outlets of one valve that are open, and what comes out of them."""

    shower: Shower
    names: tuple[str, ...]
    solution: Solution

    @property
    def title(self) -> str:
        """Which outlets are open, in words."""
        return translate("Water", " and ").join(self.names)


class Water(NamedTuple):
    """What comes out of every outlet alone and of every two, and why nothing can be worked out of others."""

    ways: tuple[Way, ...]
    lacking: tuple[str, ...]


def water_of(plan: Plan) -> Water:
    """Work out the water of a job."""
    ways: list[Way] = []
    lacking: list[str] = []
    for shower in showers(plan):
        if isinstance(shower, Lacking):
            lacking.append(_plain(shower.message))
            continue
        try:
            found = results(shower.network)
        except ArithmeticError:
            words = translate("Water", "No flow at %1 agrees with these readings; read once more.")
            lacking.append(words.replace("%1", shower.valve))
            continue
        ways += [Way(shower, names, solution) for names, solution in found.running]
    return Water(tuple(ways), tuple(lacking))


def _plain(message: str) -> str:
    """Return a complaint without the paths of the job's file in it."""
    return plainly(_PATH.sub("", _SIDE.sub(r"\1 water", message)))


# what comes out


def short(way: Way) -> tuple[str, Tone]:
    """Say in one line what an outlet gives, and whether that is what its maker states."""
    [name] = way.names
    need, solution = way.shower.needs[name], way.solution
    words = _filled(
        translate("Water", "%1: %2 l/min at %3 °C, %4 stated"),
        name, number(solution.flow), _warm(solution), number(need.flow),
    )  # fmt: skip
    set_to = way.shower.network.valve.setting
    warm = solution.temperature is not None and abs(solution.temperature - set_to) <= AS_SET
    harmless = all(problem.kind in HARMLESS for problem in solution.problems)
    status: Status = "clear" if warm and harmless and solution.flow >= need.flow else "tight"
    return f"{LOOKS[status].mark} {words}", LOOKS[status].tone


def results_head() -> Row:
    """Return the head over what comes out."""
    return (translate("Water", "Open"), "l/min", "°C", translate("Water", "hot"), "bar", "m/s")


def result(way: Way) -> Row:
    """Return the row of a way: flow, temperature, share of hot, pressure at the spray, fastest water."""
    solution = way.solution
    share = NOTHING if solution.hot_share is None else f"{number(100 * solution.hot_share, 0)} %"
    least = min(outlet.pressure for outlet in solution.outlets)
    speeds = [loss.velocity for loss in solution.losses if loss.velocity is not None]
    fastest = number(max(speeds), 2) if speeds else NOTHING
    return way.title, number(solution.flow), _warm(solution), share, number(least, 2), fastest


def details(way: Way) -> Iterator[str]:
    """Go through the sentences about a way: what its outlets get, and the pressures at the valve."""
    solution = way.solution
    for name in way.names:
        got, need = solution.outlet(name), way.shower.needs[name]
        yield _filled(
            translate("Water", "%1: %2 l/min of the %3 stated, %4 bar at its spray of the %5 stated."),
            name, number(got.flow), number(need.flow), number(got.pressure, 2), number(need.pressure, 2),
        )  # fmt: skip
    yield _filled(
        translate("Water", "At the valve: hot %1 bar, cold %2 bar, mixed %3 bar."),
        number(solution.hot_pressure, 2), number(solution.cold_pressure, 2),
        number(solution.mixed_pressure, 2),
    )  # fmt: skip
    costliest = solution.costliest
    if costliest is not None:
        words = translate("Water", "What costs most between house and spray: %1, %2 bar.")
        yield _filled(words, costliest.name, number(costliest.pressure, 2))


def losses_head() -> Row:
    """Return the head over what each piece takes."""
    return (translate("Water", "Piece"), "l/min", "m/s", "bar")


def loss_row(loss: Loss) -> Row:
    """Return the row of a piece; with its pressure the height that the water climbs in it."""
    speed = "" if loss.velocity is None else number(loss.velocity, 2)
    return loss.name, number(loss.flow), speed, number(loss.pressure + loss.height, 2)


def legend(sweeps: tuple[Sweep, ...]) -> Iterator[str]:
    """Go through what the letters of the plot stand for."""
    for index, sweep in enumerate(sweeps):
        if sweep.enough is None:
            words = translate("Water", "%1: %2, %3 l/min now; the %4 stated is not reached.")
        else:
            words = translate("Water", "%1: %2, %3 l/min now; the %4 stated from %5 bar on.")
        enough = "" if sweep.enough is None else number(sweep.enough, 2)
        yield _filled(words, letter(index), sweep.outlet, number(sweep.now[1]), number(sweep.need), enough)


# what if


def sizes_head() -> Row:
    """Return the head over the tubes tried."""
    return (translate("Water", "Stretch"), translate("Water", "Smaller"), translate("Water", "Larger"))


def sizes_rows(plan: Plan, way: Way) -> tuple[Row, ...]:
    """Return each stretch with the l/min that come out with it in either usual size."""
    rows = []
    for tried in sizes(plan, way.shower, way.names):
        if tried:
            gives = [f"{one.to}: {number(one.solution.flow, 2)}" for one in (tried[0], tried[-1])]
            rows.append((tried[0].what, *gives))
    return tuple(rows)


def best_words(plan: Plan, way: Way) -> str:
    """Say which one wider tube gives most."""
    if bounded(way.shower, way.solution):
        return translate("Water", "The heater's power bounds this flow, so no tube changes it.")
    best = best_size(plan, way.shower, way.names)
    if best is None:
        return translate("Water", "No wider tube on one stretch gives more.")
    words = translate("Water", "%1 on %2 gives most: %3 l/min more.")
    return _filled(words, best.tube.name, best.stretch, number(best.gain, 2))


def changes_head() -> Row:
    """Return the head over the other changes tried."""
    return (translate("Water", "Change"), translate("Water", "To"), "l/min", "°C")


def changes_rows(plan: Plan, way: Way) -> tuple[Row, ...]:
    """Return what other heads, a pump and a reducing valve would give."""
    return tuple(
        (one.what, one.to, number(one.solution.flow, 2), _warm(one.solution))
        for one in others(plan, way.shower, way.names)
    )


def _warm(solution: Solution) -> str:
    return NOTHING if solution.temperature is None else number(solution.temperature)


def _filled(words: str, *texts: str) -> str:
    """Return words with each %1, %2 replaced at once, so that a name with a % in it does no harm."""
    return re.sub(r"%(\d)", lambda found: texts[int(found[1]) - 1], words)
