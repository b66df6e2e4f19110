"""What will cover the bare wall: layers by area, and the tiles or panels that face it."""

from typing import Annotated, Literal

from geometry.model.record import Extent, Length, Name, Position, Record, Span, Text, duplicate

SquareWeight = Annotated[float, Span(0.0, 500.0, " kg/m2", least_allowed=False)]
Percent = Annotated[float, Span(0.0, 100.0, " %")]
Count = Annotated[float, Span(0.0, 10_000.0, "", grid=0)]

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
    """The tiles, and where the first one starts: its lower left corner."""

    wide: Length = 300.0
    high: Length = 600.0
    joint: Extent = 3.0
    bond: Bond = "straight"
    start_x: Position = 0.0
    start_y: Position = 0.0
    direction: Literal["right", "left"] = "right"
    """Towards which side each row, or each column, is shifted from the one before it."""
    border: Extent = 5.0
    """Gap left where the tiles end, to be sealed: corners, floor, ceiling, rim, openings."""
    weight: SquareWeight | None = None
    """Of the tiles alone, if their maker states it."""
    spare: Percent = 10.0
    """Bought beyond what is laid, for breakage and wrong cuts."""
    boxed: Count = 0.0
    """Tiles in a box; 0: not known, or sold singly."""
    trim: Extent = 0.0
    """What an edge trim takes up round openings and niches and at a free end of the wall; 0: no trim."""


class Niche(Record, frozen=True, kw_only=True):
    """A niche in the finished face, tiled inside; `x` and `y` are its lower left corner."""

    id: Name
    x: Position
    y: Position
    width: Length
    height: Length
    depth: Length = 90.0


class MovementJoint(Record, frozen=True, kw_only=True):
    """A joint filled with sealant that parts the tiles right across, so that they may move."""

    id: Name
    runs: Literal["plumb", "level"] = "plumb"
    at: Position
    """Its middle: x where it is plumb, y where it is level."""
    width: Length = 6.0


class Panels(Record, frozen=True, kw_only=True):
    """Sheets that face the wall instead of tiles, upright side by side, and where the first one starts."""

    wide: Length = 1000.0
    high: Length = 2400.0
    joint: Extent = 2.0
    """Between two sheets: what a joint strip or a bead of sealant takes up."""
    trim: Extent = 3.0
    """What an edge trim takes up where the sheets end: corners, floor, ceiling, rim, openings."""
    start_x: Position = 0.0
    start_y: Position = 0.0


class Finish(Record, frozen=True, kw_only=True):
    """The finish: the first area that covers a point counts there."""

    areas: tuple[FinishArea, ...] = ()
    tiling: Tiling | None = None
    panels: Panels | None = None
    niches: tuple[Niche, ...] = ()
    movement: tuple[MovementJoint, ...] = ()
    board_wider: Extent = 6.0
    """By how much a hole is wider in board than in the tile or panel over it."""
    carries: SquareWeight | None = None
    """What the background carries, tiles with adhesive and grout, if its maker states it."""

    def __post_init__(self) -> None:
        super().__post_init__()
        for field, names in (
            ("areas", tuple(area.id for area in self.areas)),
            ("niches", tuple(niche.id for niche in self.niches)),
            ("movement", tuple(joint.id for joint in self.movement)),
        ):
            index = duplicate(names)
            if index is not None:
                raise ValueError(f".{field}[{index}].id: stands twice: {names[index]!r}")
