"""Paper: ISO 216 sizes, margins, and the sheet that a drawing is laid on. All in mm."""

from typing import NamedTuple

SIZES: dict[str, tuple[float, float]] = {
    "A0": (841.0, 1189.0),
    "A1": (594.0, 841.0),
    "A2": (420.0, 594.0),
    "A3": (297.0, 420.0),
    "A4": (210.0, 297.0),
    "A5": (148.0, 210.0),
}
"""Trimmed sizes of ISO 216, upright: width, height."""


class Paper(NamedTuple):
    """A sheet of paper as it is printed: its name, and width and height in mm."""

    name: str
    width: float
    height: float

    @property
    def turned(self) -> "Paper":
        """The same paper, the other way up."""
        return Paper(self.name, self.height, self.width)


def paper(name: str, *, landscape: bool = False) -> Paper:
    """Return a paper by its ISO name, in capitals or not.

    Raises:
        ValueError: there is no such size; the message lists those there are.
    """
    size = SIZES.get(name.upper())
    if size is None:
        raise ValueError(f"no paper is called {name!r}; there are {', '.join(sorted(SIZES))}")
    upright = Paper(name.upper(), *size)
    return upright.turned if landscape else upright
