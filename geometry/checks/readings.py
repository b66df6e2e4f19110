"""Many readings brought down to few findings: the worst of each part, equal ones in one sentence.

A reading is one measured value of one cut. Of several readings of a part under one rule only the worst is
reported. Parts that come to the same value and limit share a finding, and so do all that are clear.
"""

from collections.abc import Callable, Iterable, Iterator
from operator import itemgetter
from typing import NamedTuple

from geometry.finding import Finding, Status
from geometry.model import XY
from geometry.rules import Rulebook
from geometry.units import EPSILON


class Reading(NamedTuple):
    """One measured value, in mm: its rule, what was measured, whose that is, its limit, the place."""

    rule: str
    what: str
    owners: tuple[str, ...]
    measured: float
    limit: float
    place: tuple[XY, ...]
    deep: float = 0.0
    """Depth of the cut behind the bare face, in mm, where a sentence needs it."""
    other: str = ""
    """The id of what it was measured against, if that has one."""


Saying = Callable[[str, Reading], str]
"""Makes the sentence of a finding from the parts in words and the reading."""


def findings(
    rules: Rulebook, readings: Iterable[Reading], say: Saying, failing: Status = "refer"
) -> Iterator[Finding]:
    """Go through the findings for some readings, in the order in which their parts first come up."""
    worst: dict[tuple[str, str, tuple[str, ...]], tuple[float, Reading]] = {}
    for reading in readings:
        key, left = (reading.rule, reading.what, reading.owners), margin(rules, reading)
        if key not in worst or left < worst[key][0]:
            worst[key] = left, reading
    alike: dict[tuple[str, str, str, float, float | None], list[tuple[float, Reading]]] = {}
    for left, reading in worst.values():
        clear = left > rules[reading.rule].tight + EPSILON
        value = None if clear else round(reading.measured, 1)
        same = reading.rule, reading.what, reading.other, round(reading.limit, 1), value
        alike.setdefault(same, []).append((left, reading))
    for group in alike.values():
        _, reading = min(group, key=itemgetter(0))
        owners = tuple(dict.fromkeys(owner for _, found in group for owner in found.owners))
        names = f"{reading.what} of {listed(owners)}" if reading.what else listed(owners)
        differ = len(group) > 1 and len({round(found.measured, 1) for _, found in group}) > 1
        message = say(f"{names}, the worst" if differ else names, reading)
        yield judged(rules, reading, message, (*owners, reading.other) if reading.other else owners, failing)


def judged(
    rules: Rulebook, reading: Reading, message: str, parts: tuple[str, ...], failing: Status = "refer"
) -> Finding:
    """Return the finding for one reading; its unit is mm, also where the rule counts in something else."""
    found = rules.judge(
        reading.rule, reading.measured, message, parts, reading.place, limit=reading.limit, failing=failing
    )
    return found.but(unit="mm", limit=round(reading.limit, 4))


def margin(rules: Rulebook, reading: Reading) -> float:
    """Return how far a reading lies on the right side of its limit, in mm; negative: beyond it."""
    apart = reading.measured - reading.limit
    return apart if rules[reading.rule].sense == "at least" else -apart


def listed(names: Iterable[str]) -> str:
    """Write names as people list them: `hot, cold and riser`."""
    *most, last = names
    return f"{', '.join(most)} and {last}" if most else last
