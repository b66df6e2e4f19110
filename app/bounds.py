"""What a setting may be. Each bound returns the value as it is kept, or refuses it in one line.

They know nothing but Python's own types, since the settings are read before anything is painted.
"""

import math
from collections.abc import Mapping
from typing import Any, NamedTuple, Protocol


class Bound(Protocol):
    """What a value may be."""

    def kept(self, value: Any) -> Any:
        """Return the value as it is kept.

        Raises:
            ValueError: it cannot be.
        """


class OneOf(NamedTuple):
    """One of several values, each with its words."""

    words: Mapping[str, str]

    def kept(self, value: Any) -> str:
        """Return one of the values."""
        if not isinstance(value, str) or value not in self.words:
            raise ValueError(f"must be one of {', '.join(self.words)}, got {value!r}")
        return value


class Tick:
    """On or off."""

    def kept(self, value: Any) -> bool:
        """Return whether it is on."""
        if not isinstance(value, bool):
            raise ValueError(f"must be true or false, got {value!r}")
        return value


class Between(NamedTuple):
    """A number within limits, kept to so many decimal places."""

    least: float
    most: float
    unit: str = ""
    places: int | None = None

    def kept(self, value: Any) -> float:
        """Return the number; NaN and infinity are beyond every limit."""
        is_number = isinstance(value, int | float) and not isinstance(value, bool)
        if not is_number or not math.isfinite(value) or not self.least <= value <= self.most:
            raise ValueError(f"must be from {self.least:g} to {self.most:g}{self.unit}, got {value!r}")
        return value if self.places is None else round(float(value), self.places)


class Text(NamedTuple):
    """Some words."""

    most: int = 4000

    def kept(self, value: Any) -> str:
        """Return the words."""
        if not isinstance(value, str) or len(value) > self.most:
            raise ValueError(f"must be a text of at most {self.most} characters")
        return value


class Many(NamedTuple):
    """Several values of a kind; any number, or so many."""

    bound: Bound
    exactly: int | None = None

    def kept(self, value: Any) -> tuple[Any, ...]:
        """Return the values."""
        if not isinstance(value, list | tuple) or self.exactly not in (None, len(value)):
            raise ValueError(f"must be a list{f' of {self.exactly}' if self.exactly else ''}, got {value!r}")
        return tuple(self.bound.kept(each) for each in value)


class Maybe(NamedTuple):
    """A value, or none."""

    bound: Bound

    def kept(self, value: Any) -> Any:
        """Return the value, or None."""
        return None if value is None else self.bound.kept(value)
