"""Tables of limits whose row follows from a thickness in mm, as standards print them.

A row is an ordinary limit: the rule `strength.x_from_85` is the row of the table `strength.x` that holds from
85 mm on, `strength.x_above_300` the one for more than 300 mm. So a user's own row is read like any other.
"""

import re
from functools import lru_cache

from geometry.finding import Limit
from geometry.rules.rulebook import Rulebook
from geometry.units import EPSILON

ROW = re.compile(r"(?P<table>.+)_(?P<start>from|above)_(?P<mm>\d+)")
"""The name of a rule that is a row of a table."""


def table_of(rule: str) -> str | None:
    """Return the table that a rule is a row of, or None."""
    match = ROW.fullmatch(rule)
    return match["table"] if match else None


def row(rules: Rulebook, table: str, thickness: float) -> Limit | None:
    """Return the row for a thickness, in mm: the last that starts below it; None if it is thinner than all.

    Thicknesses that fall between two printed rows, such as 115.5 mm, take the row of the thinner wall.
    """
    reached = [limit for start, limit in _rows(rules, table) if thickness >= start]
    return reached[-1] if reached else None


def begins(rules: Rulebook, table: str) -> float:
    """Return the thickness at which the rows of a table begin, in mm."""
    return min(float(match["mm"]) for limit in rules if (match := _row(limit.rule, table)))


@lru_cache(maxsize=64)
def _rows(rules: Rulebook, table: str) -> tuple[tuple[float, Limit], ...]:
    """Return the rows of a table with the least thickness that each holds for, thinnest first."""
    found = []
    for limit in rules:
        if match := _row(limit.rule, table):
            start = float(match["mm"]) + (2 if match["start"] == "above" else -1) * EPSILON
            found.append((start, limit))
    return tuple(sorted(found, key=lambda item: item[0]))


def _row(rule: str, table: str) -> re.Match[str] | None:
    match = ROW.fullmatch(rule)
    return match if match and match["table"] == table else None
