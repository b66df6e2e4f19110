"""What the bather stands or lies in, and the screens round it. Plan positions are (x, z) in mm."""

from typing import Literal

from geometry.model.record import Angle, Extent, Length, Name, Point, Position, Record

EnclosureKind = Literal["tray", "bath", "wet_floor"]
Entry = Literal["left", "right", "front"]


class Waste(Record, frozen=True, kw_only=True):
    """The waste: where it lies in the tray, from the wall's left corner and from the wall face."""

    x: Position
    z: Position


class Screen(Record, frozen=True, kw_only=True):
    """A fixed pane, seen in plan as a line from `start` to `end`, upright from `bottom` to `top`."""

    id: Name
    start: Point
    end: Point
    bottom: Extent = 0.0
    top: Length = 1950.0
    thickness: Length = 8.0

    def __post_init__(self) -> None:
        super().__post_init__()
        _refuse_upside_down(self.bottom, self.top)


def _refuse_upside_down(bottom: float, top: float) -> None:
    if top <= bottom:
        raise ValueError(f".top: must lie above bottom at {bottom:g} mm, got {top:g}")


class Door(Record, frozen=True, kw_only=True):
    """A hinged pane: it sweeps from one angle to the other, in degrees from +x towards +z."""

    id: Name
    hinge: Point
    width: Length
    angle_from: Angle
    angle_to: Angle
    bottom: Extent = 0.0
    top: Length = 1950.0
    thickness: Length = 8.0

    def __post_init__(self) -> None:
        super().__post_init__()
        _refuse_upside_down(self.bottom, self.top)
        if abs(self.angle_to - self.angle_from) > 180:
            swing = abs(self.angle_to - self.angle_from)
            raise ValueError(f".angle_to: must be within 180 degrees of angle_from, is {swing:g} away")


class Enclosure(Record, frozen=True, kw_only=True):
    """A tray, a bath or a wet floor against the wall."""

    kind: EnclosureKind = "tray"
    left: Position
    """The x of its left edge."""
    width: Length
    """Along the wall."""
    projection: Length
    """From the wall into the room."""
    floor: Extent = 30.0
    """Height of the finished tray floor, where the bather stands, above the finished floor."""
    rim: Extent = 40.0
    """Height of the rim or upstand above the finished floor: where water spills over."""
    entry: Entry = "front"
    screens: tuple[Screen, ...] = ()
    doors: tuple[Door, ...] = ()
    waste: Waste | None = None

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.rim < self.floor:
            raise ValueError(f".rim: must not lie below the floor at {self.floor:g} mm, got {self.rim:g}")

    @property
    def right(self) -> float:
        """The x of its right edge, in mm."""
        return self.left + self.width

    @property
    def centre(self) -> float:
        """The x of its centre line, in mm."""
        return self.left + self.width / 2
