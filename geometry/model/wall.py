"""The bare wall: its size, what it is made of, and the openings in it."""

from typing import Literal

from geometry.model.record import Length, Name, Position, Record

MakeUp = Literal["aerated_block", "dense_block", "hollow_block", "brick", "timber_stud", "metal_stud"]
YesNo = Literal["yes", "no", "not_known"]
Side = Literal["corner", "free_end"]
STUD_WALLS: frozenset[MakeUp] = frozenset({"timber_stud", "metal_stud"})


class Opening(Record, frozen=True, kw_only=True):
    """A door, window or hatch; `x` and `y` are its lower left corner, in mm on the wall."""

    id: Name
    x: Position
    y: Position
    width: Length
    height: Length


class Wall(Record, frozen=True, kw_only=True):
    """One wall, seen from the room; all sizes in mm."""

    width: Length
    height: Length
    """From the finished floor to the ceiling."""
    storey_height: Length = 2400.0
    """Clear height of the storey, by which low chases are judged."""
    make_up: MakeUp = "dense_block"
    thickness: Length = 100.0
    """Of the leaf that is cut, without finishes; for a stud wall the depth of its studs."""
    loadbearing: YesNo = "not_known"
    left: Side = "corner"
    right: Side = "corner"
    openings: tuple[Opening, ...] = ()

    @property
    def is_stud_wall(self) -> bool:
        """Whether the wall has a cavity between studs instead of masonry."""
        return self.make_up in STUD_WALLS
