"""The base of every record: frozen, and refusing impossible values by itself.

A field's type carries its bounds (`Length`, `Position`, ...); they are checked whenever a record is
made, by hand or from a file. The message begins with the field, so that a reader of files can put the
path of the record before it: `.height: must be ..., got -5`.
"""

import re
from collections.abc import Callable
from functools import cache
from typing import Annotated, Any, NamedTuple, Self, get_args, get_type_hints

import msgspec

XY = tuple[float, float]
"""A point in mm. On the wall: x right, y up. In plan: x right, z towards the room."""

FARTHEST = 20_000.0
"""Nothing on one wall lies farther away or is longer than this, in mm."""


class Span(NamedTuple):
    """The values that a number may take; `grid` rounds it once, on entry."""

    least: float
    most: float
    unit: str
    least_allowed: bool = True
    grid: int | None = None

    def problem(self, value: float) -> str | None:
        """Return what is wrong with a value, or None. NaN compares with nothing, so it is always wrong."""
        above = value >= self.least if self.least_allowed else value > self.least
        if above and value <= self.most:
            return None
        opening = "at least" if self.least_allowed else "above"
        bounds = f"{opening} {self.least:.12g} and at most {self.most:.12g}{self.unit}"
        return f"must be {bounds}, got {value:.12g}"

    def kept(self, value: float) -> float:
        """Return the value as the record keeps it, never -0."""
        return (float(value) if self.grid is None else round(float(value), self.grid)) + 0.0


UNWRITABLE = r"\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff"
"""Characters that no file of ours can hold: control characters but tab and line ends, halves of pairs."""


class Words(NamedTuple):
    """The texts that a field may hold; `barred` are characters as in the brackets of a regular expression."""

    most: int
    empty: bool = False
    barred: str = UNWRITABLE

    def problem(self, value: str) -> str | None:
        """Return what is wrong with a text, or None."""
        if not value and not self.empty:
            return "must not be empty"
        if len(value) > self.most:
            return f"must have at most {self.most} characters, has {len(value)}"
        held = _any_of(self.barred)(value)
        return None if held is None else f"must not hold {held.group()!r}, got {value!r}"

    def kept(self, value: str) -> str:
        """Return the text as the record keeps it."""
        return value


@cache
def _any_of(characters: str) -> Callable[[str], re.Match[str] | None]:
    """Return what looks for the first of some characters in a text."""
    return re.compile(f"[{characters}]").search


class Route(NamedTuple):
    """Points that each keep to `POSITION`; `least` is how many there must be."""

    least: int

    def problem(self, value: tuple[XY, ...]) -> str | None:
        """Return what is wrong with the points, after the place of the bad value, or None."""
        if len(value) < self.least:
            return f"must have {self.least} points or more, has {len(value)}"
        for index, point in enumerate(value):
            problem = Place().problem(point)
            if problem is not None:
                return f"[{index}]{problem}"
        return None

    def kept(self, value: tuple[XY, ...]) -> tuple[XY, ...]:
        """Return the points on the grid."""
        return tuple(map(Place().kept, value))


class Place(NamedTuple):
    """One point that keeps to `POSITION`."""

    def problem(self, value: XY) -> str | None:
        """Return what is wrong with the point, after the place of the bad value, or None."""
        for index, axis in enumerate(value):
            problem = POSITION.problem(axis)
            if problem is not None:
                return f"[{index}]: {problem}"
        return None

    def kept(self, value: XY) -> XY:
        """Return the point on the grid."""
        return POSITION.kept(value[0]), POSITION.kept(value[1])


POSITION = Span(-FARTHEST, FARTHEST, " mm", grid=1)

Position = Annotated[float, POSITION]
"""A coordinate in mm, kept to 0.1 mm."""
Point = Annotated[XY, Place()]
"""A point in mm, kept to 0.1 mm."""
Points = Annotated[tuple[XY, ...], Route(0)]
Line = Annotated[tuple[XY, ...], Route(2)]
"""Joined points, at least two."""
Length = Annotated[float, Span(0.0, FARTHEST, " mm", least_allowed=False)]
"""A size in mm, above zero."""
Extent = Annotated[float, Span(0.0, FARTHEST, " mm")]
"""A size in mm that may be zero."""
Angle = Annotated[float, Span(-360.0, 360.0, " degrees")]
Celsius = Annotated[float, Span(0.0, 99.0, " °C")]
Bar = Annotated[float, Span(0.0, 20.0, " bar")]
"""Gauge pressure."""
Flow = Annotated[float, Span(0.0, 200.0, " l/min")]
MOST_NAME = 60
Name = Annotated[str, Words(MOST_NAME, barred=rf"{UNWRITABLE}\t\n\r\x80-\x9f\u2028\u2029.\"'/\\")]
"""What a record is called by others: short, on one line, without the marks that references and paths use."""
Text = Annotated[str, Words(300, empty=True)]


class Record(msgspec.Struct, frozen=True, forbid_unknown_fields=True, kw_only=True):
    """An immutable record whose fields keep to their bounds."""

    def __post_init__(self) -> None:
        for name, rule in _rules(type(self)):
            value = getattr(self, name)
            if value is None:
                continue
            problem = rule.problem(value)
            if problem is not None:
                raise ValueError(f".{name}{'' if problem.startswith('[') else ': '}{problem}")
            kept = rule.kept(value)
            if kept is not value:
                msgspec.structs.force_setattr(self, name, kept)

    def but(self, **changes: Any) -> Self:
        """Return a copy with some fields changed, checked again; all else is shared."""
        return msgspec.structs.replace(self, **changes)


@cache
def _rules(kind: type[Record]) -> tuple[tuple[str, Any], ...]:
    """Read the bounds from the types of a record's fields, once per kind of record."""
    found: dict[str, Any] = {}
    for name, hint in get_type_hints(kind, include_extras=True).items():
        for candidate in (hint, *get_args(hint)):  # the second for `X | None`
            for mark in getattr(candidate, "__metadata__", ()):
                if isinstance(mark, Span | Words | Route | Place):
                    found[name] = mark
    return tuple(found.items())


def duplicate(names: tuple[str, ...]) -> int | None:
    """Return the index of the first name that stood before, or None."""
    seen: set[str] = set()
    for index, name in enumerate(names):
        if name in seen:
            return index
        seen.add(name)
    return None
