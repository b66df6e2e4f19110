"""The house round the wall: who uses the shower, what keeps its water clean, what else stands in the room.

Plan positions are (x, z) in mm, as of the enclosure; heights are above the finished floor.
"""

from typing import Literal

from geometry.model.record import Extent, Name, Position, Record, duplicate

User = Literal["usual", "tall", "child", "seated"]
Backflow = Literal[
    "not_known",
    "retaining_ring",
    "factory_ring",
    "double_check_outlet",
    "double_check_supplies",
    "gravity_feed",
    "none",
]
Isolation = Literal["not_known", "behind_plate", "accessible", "none"]
SanitaryKind = Literal["wc", "bidet", "basin"]


class House(Record, frozen=True, kw_only=True):
    """What is stated about the house and its people; the protection of its water, as found or as planned."""

    dwelling: bool = True
    """A dwelling; if not, a place of care, where bathing water counts as the worst."""
    users: tuple[User, ...] = ("usual",)
    """For whom heights are judged."""
    backflow: Backflow = "not_known"
    """What keeps used water out of the pipes: a `factory_ring` holds the hose for good, a `retaining_ring`
    can be taken off; double check valves sit at the hose's outlet or on both supplies; a `gravity_feed`
    comes from a cistern for both hot and cold."""
    isolation: Isolation = "not_known"
    """Where the valve's supplies are shut off."""

    def __post_init__(self) -> None:
        super().__post_init__()
        if not self.users:
            raise ValueError(".users: must name at least one user, has none")
        index = duplicate(self.users)
        if index is not None:
            raise ValueError(f".users[{index}]: stands twice: {self.users[index]!r}")


class Sanitary(Record, frozen=True, kw_only=True):
    """A fixture in the room that holds water, as a rectangle in plan; with no size, its nearest rim point."""

    id: Name
    kind: SanitaryKind = "wc"
    x: Position
    """Of its left edge."""
    z: Position
    """Of its edge nearest to the wall."""
    wide: Extent = 0.0
    """Along the wall."""
    deep: Extent = 0.0
    """From the wall into the room."""
    rim: Extent = 400.0
    """Where its water spills over."""
