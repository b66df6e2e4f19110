"""What a user chooses for a set of sheets, and the photographs that go with them."""

from collections.abc import Mapping
from dataclasses import dataclass, field

from export.picture import Picture

Pictures = Mapping[str, Picture | str]
"""The photographs of the record by the names of their files: each a picture, or why there is none."""


@dataclass(frozen=True)
class SheetOptions:
    """Choices for the sheets; lengths are mm on paper.

    Raises:
        ValueError: a choice is impossible; the message names it.
    """

    paper: str = "A4"
    scale: int | None = None
    """1:N of the scaled sheets; None takes the largest of the usual scales that fits."""
    stretch_x: float = 1.0
    """Full-size pages are drawn this much longer in x, to correct a printer that prints short."""
    stretch_y: float = 1.0
    margin: float = 10.0
    """Round full-size pages, which the printer cannot print on."""
    overlap: float = 10.0
    """By which neighbouring full-size pages repeat each other."""
    pictures: Pictures = field(default_factory=dict, compare=False)
    """Not among the choices by which layouts are told apart: these are kept, and pictures are large."""

    def __post_init__(self) -> None:
        for name, value in (("stretch-x", self.stretch_x), ("stretch-y", self.stretch_y)):
            if not 0.9 <= value <= 1.1:
                raise ValueError(f"{name} must be from 0.9 to 1.1, got {value:g}")
        for name, value in (("margin", self.margin), ("overlap", self.overlap)):
            if not 0 <= value <= 50:
                raise ValueError(f"{name} must be from 0 to 50 mm, got {value:g}")
        if self.scale is not None and not 1 <= self.scale <= 200:
            raise ValueError(f"scale must be from 1 to 200, got {self.scale}")
