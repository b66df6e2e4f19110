"""The only reader and writer of lengths, and the only comparison of a measured value with its limit.

Lengths are mm inside. A typed length may carry a unit (mm, cm, m, in, "), a fraction, a comma or a
point as its decimal sign and + - * /; it never depends on the computer's locale, and there is no
thousands separator: `1,200` is refused, since it might be meant as one.
"""

import re
from functools import cache
from typing import Literal

Display = Literal["mm", "cm", "in"]
EPSILON = 1e-6
"""Half of nothing, in mm: what binary fractions lose. A gap exactly at its limit passes."""
INCH = 25.4
"""mm; exact, international yard and pound agreement of 1959."""
MOST_TYPED = 60
"""Characters of a typed length; a longer text is not one."""
_FACTORS = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": INCH, '"': INCH}
_TOKEN = r"""\s*(?:
        (?P<doubtful>[1-9]\d{0,2},\d{3}(?!\d)(?!\s*(?:cm|m(?!m)|in|")))  # 1,200: a thousand or a decimal?
      | (?P<whole>\d+)\s+(?P<num>\d+)\s*/\s*(?P<den>\d+)               # 1 1/2
      | (?P<fraction>\d+\s*/\s*\d+)(?=\s*(?:mm|cm|m|in|"))            # 1/2": of the unit behind it
      | (?P<number>\d+(?:[.,]\d*)?|[.,]\d+)
      | (?P<unit>mm|cm|m|in|")
      | (?P<mark>[-+*/()])
    )"""
"""What a typed length is made of; compiled when the first one is read."""


@cache
def _token() -> re.Pattern[str]:
    return re.compile(_TOKEN, re.VERBOSE | re.IGNORECASE)


def at_least(measured: float, limit: float) -> bool:
    """Return whether a measured value reaches its lower limit; exactly at the limit passes.

    NaN never passes.
    """
    return measured >= limit - EPSILON


def at_most(measured: float, limit: float) -> bool:
    """Return whether a measured value keeps to its upper limit; exactly at the limit passes."""
    return measured <= limit + EPSILON


def on_grid(value: float) -> float:
    """Return a position in mm rounded to the 0.1 mm that the model keeps."""
    return round(value, 1) + 0.0


def number(value: float, places: int = 1) -> str:
    """Write a number with a point and without trailing zeros: 380, 190.5, never -0."""
    text = f"{value:.{places}f}"
    if "." in text:
        text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def shown(length: float, display: Display = "mm") -> str:
    """Write a length in mm for people, in the unit that they chose; inches to the nearest sixteenth."""
    if display == "mm":
        return number(length)
    if display == "cm":
        return number(length / 10, 2)
    sixteenths = round(abs(length) / INCH * 16)
    whole, rest = divmod(sixteenths, 16)
    sign = "-" if length < 0 and sixteenths else ""
    if not rest:
        return f'{sign}{whole}"'
    den = 16
    while rest % 2 == 0:
        rest, den = rest // 2, den // 2
    return f'{sign}{whole} {rest}/{den}"' if whole else f'{sign}{rest}/{den}"'


def with_unit(length: float, display: Display) -> str:
    """Write a length in mm with the unit that it is shown in; inches carry their mark already."""
    return shown(length, display) if display == "in" else f"{shown(length, display)} {display}"


def length(text: str, display: Display = "mm") -> float:
    """Read a typed length and return mm, not rounded.

    Args:
        text: such as `380`, `60cm`, `1 1/2"`, `380/2`, `12,5`, `760 - 2*190`.
        display: the unit of a number that carries none.

    Raises:
        ValueError: the text is not a length; the message quotes it.
    """
    return _Reader(text, _FACTORS["in" if display == "in" else display]).read()


class _Reader:
    """A reader of sums: terms of factors; a number without a unit takes the default at the end.

    A value is kept with its dimension (0 plain, 1 length), so that `380/2` is a length and `2 * 190` too,
    while `60cm * 2cm` is refused.
    """

    def __init__(self, text: str, default: float) -> None:
        self.text, self.default = text, default
        self.tokens = self._split(text)
        self.next = 0

    def read(self) -> float:
        value, dimension = self._sum()
        if self.next < len(self.tokens):
            raise self._refusal()
        return value if dimension else value * self.default

    def _refusal(self, advice: str = "") -> ValueError:
        return ValueError(f"not a length: {self.text[:40]!r}{advice}")

    def _fraction(self, num: str, den: str) -> float:
        if int(den) == 0:
            raise self._refusal()
        return int(num) / int(den)

    def _split(self, text: str) -> list[str | float]:
        tokens: list[str | float] = []
        place, text = 0, text.strip()
        if len(text) > MOST_TYPED:
            raise self._refusal()
        while place < len(text):
            match = _token().match(text, place)
            if match is None:
                raise self._refusal()
            if match["doubtful"]:
                raise self._refusal("; leave out the comma between thousands, or write a decimal point")
            place = match.end()
            if match["num"]:
                tokens.append(int(match["whole"]) + self._fraction(match["num"], match["den"]))
            elif match["fraction"]:
                tokens.append(self._fraction(*match["fraction"].split("/")))
            elif match["number"]:
                tokens.append(float(match["number"].replace(",", ".")))
            else:
                tokens.append((match["unit"] or match["mark"]).lower())
        return tokens

    def _peek(self) -> str | float | None:
        return self.tokens[self.next] if self.next < len(self.tokens) else None

    def _sum(self) -> tuple[float, int]:
        value, dimension = self._product()
        while (mark := self._peek()) in ("+", "-"):
            self.next += 1
            other, its_dimension = self._product()
            if dimension != its_dimension:
                value, other = (
                    x if d else x * self.default for x, d in ((value, dimension), (other, its_dimension))
                )
                dimension = 1
            value = value + other if mark == "+" else value - other
        return value, dimension

    def _product(self) -> tuple[float, int]:
        value, dimension = self._factor()
        while (mark := self._peek()) in ("*", "/"):
            self.next += 1
            other, its_dimension = self._factor()
            if its_dimension and (dimension or mark == "/"):
                raise self._refusal()
            if mark == "/" and other == 0:
                raise self._refusal()
            value = value * other if mark == "*" else value / other
            dimension |= its_dimension
        return value, dimension

    def _factor(self) -> tuple[float, int]:
        token = self._peek()
        self.next += 1
        if token == "-":
            value, dimension = self._factor()
            return -value, dimension
        if token == "(":
            value, dimension = self._sum()
            if self._peek() != ")":
                raise self._refusal()
            self.next += 1
            return value, dimension
        if not isinstance(token, float):
            raise self._refusal()
        unit = self._peek()
        if isinstance(unit, str) and unit in _FACTORS:
            self.next += 1
            return token * _FACTORS[unit], 1
        return token, 0
