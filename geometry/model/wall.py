"""The bare wall: its size, what it is made of, and the openings in it."""

from typing import Literal

from geometry.model.record import Extent, Length, Name, Position, Record, duplicate

MakeUp = Literal["aerated_block", "dense_block", "hollow_block", "brick", "timber_stud", "metal_stud"]
YesNo = Literal["yes", "no", "not_known"]
Side = Literal["corner", "free_end"]
StrengthRules = Literal["en_1996", "approved_document_a"]
STUD_WALLS: frozenset[MakeUp] = frozenset({"timber_stud", "metal_stud"})


class Opening(Record, frozen=True, kw_only=True):
    """A door, window or hatch; `x` and `y` are its lower left corner, in mm on the wall."""

    id: Name
    x: Position
    y: Position
    width: Length
    height: Length


class FarCut(Record, frozen=True, kw_only=True):
    """A chase or recess in the other face, as seen from this one; `x` and `y` are its lower left corner."""

    id: Name
    x: Position
    y: Position
    width: Length
    height: Length
    depth: Extent = 30.0


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
    shell: Extent | None = None
    """Thickness of a hollow block's face shell, from its face to the void; None if it was not measured."""
    machine_cut: bool = True
    """Whether chases are cut with a machine that holds its depth, rather than by hand."""
    other_face: tuple[FarCut, ...] | None = None
    """What is cut into the other face; None if nobody has looked."""
    strength_rules: tuple[StrengthRules, ...] = ("en_1996", "approved_document_a")
    """By which rules a cut into masonry is judged; each is reported by itself."""

    def __post_init__(self) -> None:
        super().__post_init__()
        if not self.strength_rules:
            raise ValueError(".strength_rules: must name at least one rule set, has none")
        index = duplicate(self.strength_rules)
        if index is not None:
            raise ValueError(f".strength_rules[{index}]: stands twice: {self.strength_rules[index]!r}")

    @property
    def is_stud_wall(self) -> bool:
        """Whether the wall has a cavity between studs instead of masonry."""
        return self.make_up in STUD_WALLS
