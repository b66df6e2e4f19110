"""The limits by name, read from the TOML beside this file, and the judging of a value against one."""

import math
import pkgutil
from collections.abc import Iterable, Iterator, Mapping
from functools import cache

from geometry.decoding import decoded, toml_tables
from geometry.finding import Finding, Limit, Status
from geometry.model.record import XY
from geometry.units import at_least, at_most, number

_FILES = ("limits", "supply", "strength", "electricity", "water", "people", "fixings", "tiling")
"""The TOML files beside this one; no rule stands in two of them."""
_PLACES = {"bar": 2, "m/s": 2, "l/s": 2, "": 2}
"""Decimals to which a measured value is kept, by its unit; all others to a tenth, as positions are."""
_COUNTED = frozenset({"answers", "cuts", "ends", "fittings", "heads", "joints", "kinds", "pipes", "studs"})
"""Units that are things, of which there may be one."""


class Rulebook:
    """The limits in force, by the name of their rule."""

    def __init__(self, limits: Mapping[str, Limit]) -> None:
        self._limits = dict(limits)

    def __getitem__(self, rule: str) -> Limit:
        """Return the limit of a rule; KeyError if there is none."""
        return self._limits[rule]

    def __iter__(self) -> Iterator[Limit]:
        """Go through the limits in the order of the file."""
        return iter(self._limits.values())

    def __contains__(self, rule: str) -> bool:
        """Return whether there is a limit of this name."""
        return rule in self._limits

    def with_own(self, limits: Mapping[str, Limit]) -> "Rulebook":
        """Return a rulebook in which a user's own limits are added, or replace those of the same name."""
        return Rulebook({**self._limits, **limits})

    def judge(
        self,
        rule: str,
        measured: float,
        message: str,
        parts: tuple[str, ...],
        place: tuple[XY, ...] = (),
        *,
        limit: float | None = None,
        failing: Status = "clash",
    ) -> Finding:
        """Return the finding for one measured value, which it keeps to 0.1, or to 0.01 of a coarse unit.

        A value that misses its limit by less than that is not rounded up to it, but away from it. One
        that could not be worked out (NaN) is `unchecked`, whatever the limit.

        Args:
            rule: the name of the rule; its limit brings unit, sense and source.
            measured: the value, in the limit's unit; exactly at the limit passes.
            message: one sentence in plain trade English.
            parts: the ids concerned.
            place: what to highlight, in mm on the wall.
            limit: a limit worked out for this place, where the rule's own value is only a default.
            failing: the status of a value beyond the limit.
        """
        held = self[rule]
        bound = held.value if limit is None else limit
        passes, inward = (at_least, 1.0) if held.sense == "at least" else (at_most, -1.0)
        if math.isnan(measured) or math.isnan(bound):
            return Finding(
                rule=rule, status="unchecked", parts=parts, message=message, unit=held.unit,
                source=held.source, place=place,
            )  # fmt: skip
        status: Status = failing
        places = kept_places(held.unit)
        kept = round(measured, places) + 0.0
        if passes(kept, bound) and not passes(measured, bound):
            kept = round(kept - inward * 10.0**-places, places)
        if passes(measured, bound):
            status = "clear" if passes(measured, bound + inward * held.tight) else "tight"
        return Finding(
            rule=rule, status=status, parts=parts, message=message, unit=held.unit,
            measured=kept, limit=bound, source=held.source, place=place,
        )  # fmt: skip


def kept_places(unit: str) -> int:
    """Return the decimals to which a measured value in a unit is kept, and should be shown."""
    return _PLACES.get(unit, 1)


def quantity(value: float, unit: str, places: int | None = None) -> str:
    """Write a value with its unit, to the decimals that are kept unless told: `28.4 mm`, `1 joint`."""
    if value == 1 and unit in _COUNTED:
        unit = unit.removesuffix("s")
    return f"{number(value, kept_places(unit) if places is None else places)} {unit}".rstrip()


def read_rules(data: bytes, name: str) -> dict[str, Limit]:
    """Read limits from TOML: one table a rule.

    Raises:
        ValueError: the text is not TOML, or a limit lacks something; names the file and the place.
    """
    try:
        return {rule: limit_of(rule, table) for rule, table in rule_tables(toml_tables(data))}
    except ValueError as problem:
        raise ValueError(f"{name}: {problem}") from None


def joined(files: Iterable[tuple[str, bytes]]) -> Rulebook:
    """Return the limits of several files, given as name and content.

    Raises:
        ValueError: a file is wrong, or a rule stands in two of them.
    """
    limits: dict[str, Limit] = {}
    for name, data in files:
        read = read_rules(data, name)
        for rule in read:
            if rule in limits:
                raise ValueError(f"{name}: {rule}: stands in an earlier file too")
        limits.update(read)
    return Rulebook(limits)


def limit_of(rule: str, table: dict[str, object]) -> Limit:
    """Return the limit that a table states; ValueError names rule, key and value."""
    if "rule" in table:
        raise ValueError(f"{rule}.rule: unknown key")
    try:
        return decoded({"rule": rule, **table}, Limit)
    except ValueError as problem:
        raise ValueError(str(problem).replace("$", rule, 1)) from None


def rule_tables(tables: dict[str, object]) -> Iterator[tuple[str, dict[str, object]]]:
    """Go through a file's tables `[subject.rule]` by the name of the rule; ValueError names the place."""
    for subject, rules in tables.items():
        if not isinstance(rules, dict):
            raise ValueError(f"{subject}: must be a table of rules")
        for rule, table in rules.items():
            if not isinstance(table, dict):
                raise ValueError(f"{subject}.{rule}: must be a table")
            yield f"{subject}.{rule}", table


@cache
def standard_rules() -> Rulebook:
    """Return the rules that come with the program."""
    return joined((f"{name}.toml", _content(f"{name}.toml")) for name in _FILES)


def _content(name: str) -> bytes:
    data = pkgutil.get_data("geometry.rules", name)
    assert data is not None, f"{name} is part of the package"
    return data
