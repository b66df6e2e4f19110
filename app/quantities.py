"""Pressures, flows, temperatures and other amounts as people read them off: `2.4 bar`, `35 psi`, `0.2 l/s`.

An amount is read into the unit of the record that it is typed for. Lengths are read elsewhere; no Qt.
"""

import re
from collections.abc import Mapping

_AMOUNT = re.compile(r"\s*([-+]?(?:\d+(?:[.,]\d*)?|[.,]\d+))\s*([^\d\s].*)?")
_UNITS: Mapping[str, Mapping[str, float]] = {
    # kPa, MPa and mbar by definition; psi 6894.757 Pa; a metre of water 9806.65 Pa
    "bar": {"bar": 1.0, "mbar": 0.001, "kPa": 0.01, "MPa": 10.0, "psi": 0.06894757, "m": 0.0980665},
    "l/min": {"l/min": 1.0, "l/s": 60.0, "l/h": 1 / 60, "m3/h": 1000 / 60},
    "°C": {"°C": 1.0, "C": 1.0, "°F": 5 / 9, "F": 5 / 9},
    "kW": {"kW": 1.0, "W": 0.001},
    "l": {"l": 1.0, "m3": 1000.0},
}
"""For each unit of a record those that may be typed, and what one of them is."""
_ZERO = {"°F": 32.0, "F": 32.0}
"""What stands for nothing in a unit, where that is not 0."""
_SHOWN = ("bar", "kPa", "psi", "l/min", "l/s", "°C", "°F", "kW", "l")
STEPS: Mapping[str, float] = {"bar": 0.1}
"""How far an arrow key steps an amount, where that is not 1."""


def amount(text: str, unit: str) -> float:
    """Read a number with or without a unit after it.

    Args:
        text: such as `2.4`, `2,4 bar` or `35 psi`.
        unit: of what is returned, and of a number that has none.

    Raises:
        ValueError: it is no number, or the unit measures something else; one plain line.
    """
    found = _AMOUNT.fullmatch(text)
    if found is None:
        raise ValueError(f"not a number: {text[:40]!r}")
    value = float(found[1].replace(",", "."))
    typed = (found[2] or "").strip().replace("³", "3")
    if not typed or typed.casefold() == unit.casefold():
        return value
    for name, factor in _UNITS.get(unit, {}).items():
        if name.casefold() == typed.casefold() and not _is_other(name, typed):
            return round((value - _ZERO.get(name, 0.0)) * factor, 6)
    known = " or ".join(name for name in _SHOWN if name in _UNITS.get(unit, {})) or unit
    raise ValueError(f"not a number{known and f' of {known}'}: {text[:40]!r}")


def _is_other(name: str, typed: str) -> bool:
    """Return whether what was typed differs from the unit in a letter whose case counts: mPa is no MPa."""
    return name == "MPa" and typed.startswith("m")
