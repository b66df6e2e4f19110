"""What is in or on the wall already: accessories, cables, pipes, studs and joists."""

from typing import Literal

from geometry.model.record import Extent, Length, Line, Name, Position, Record

AccessoryKind = Literal["socket", "switch", "spur", "shaver", "light", "fan", "heater"]


class Accessory(Record, frozen=True, kw_only=True, tag="accessory"):
    """An electrical point on the wall; `x` and `height` are its centre."""

    id: Name
    kind: AccessoryKind = "socket"
    x: Position
    height: Position
    wide: Length = 86.0
    high: Length = 86.0


class Cable(Record, frozen=True, kw_only=True, tag="cable"):
    """A cable that is known to lie in the wall, along `route`; `depth` is behind the bare face."""

    id: Name
    route: Line
    diameter: Length = 10.0
    depth: Extent = 10.0


class OldPipe(Record, frozen=True, kw_only=True, tag="old_pipe"):
    """A pipe that is known to lie in the wall; `depth` is that of its centre behind the bare face."""

    id: Name
    route: Line
    diameter: Length = 15.0
    depth: Extent = 20.0


class Stud(Record, frozen=True, kw_only=True, tag="stud"):
    """An upright of a stud wall; `x` is its centre."""

    id: Name
    x: Position
    wide: Length = 38.0


class Joist(Record, frozen=True, kw_only=True, tag="joist"):
    """A level timber in the wall, such as a noggin or a wall plate; `height` is its centre."""

    id: Name
    height: Position
    left: Position
    right: Position
    high: Length = 50.0

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.right <= self.left:
            raise ValueError(f".right: must lie right of left at {self.left:g} mm, got {self.right:g}")


Service = Accessory | Cable | OldPipe | Stud | Joist
