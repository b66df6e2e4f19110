"""What will cover the bare wall: layers by area, and the tiles."""

from typing import Literal

from geometry.model.record import Extent, Length, Name, Position, Record, Text, duplicate

LayerKind = Literal["board", "plaster", "tanking", "adhesive", "tile", "panel"]
Bond = Literal["straight", "half", "third", "vertical", "herringbone"]


class Layer(Record, frozen=True, kw_only=True):
    """One layer of the build-up: its thickness, and by how much that may be out either way."""

    kind: LayerKind
    thickness: Extent
    tolerance: Extent = 0.0
    name: Text = ""


class Region(Record, frozen=True, kw_only=True):
    """A rectangle on the wall; `x` and `y` are its lower left corner."""

    x: Position
    y: Position
    width: Length
    height: Length


class FinishArea(Record, frozen=True, kw_only=True):
    """The layers over one part of the wall, from the bare face outwards; without `region`, everywhere."""

    id: Name
    layers: tuple[Layer, ...]
    region: Region | None = None


class Tiling(Record, frozen=True, kw_only=True):
    """The tiles and where the first one starts: its lower left corner."""

    wide: Length = 300.0
    high: Length = 600.0
    joint: Extent = 3.0
    bond: Bond = "straight"
    start_x: Position = 0.0
    start_y: Position = 0.0


class Finish(Record, frozen=True, kw_only=True):
    """The finish: the first area that covers a point counts there."""

    areas: tuple[FinishArea, ...] = ()
    tiling: Tiling | None = None

    def __post_init__(self) -> None:
        super().__post_init__()
        index = duplicate(tuple(area.id for area in self.areas))
        if index is not None:
            raise ValueError(f".areas[{index}].id: stands twice: {self.areas[index].id!r}")
