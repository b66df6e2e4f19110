"""The pipes of the job, from feed or port to port."""

from typing import Annotated, Literal

from geometry.model.record import Extent, Name, Points, Record, Words

PipeService = Literal["hot", "cold", "mixed"]
Jointing = Literal["capillary", "compression", "press", "push_fit"]
Turns = Literal["elbows", "bends"]
PortName = Annotated[str, Words(121)]
"""A fitting and one of its ports, such as `valve.hot`."""


class Pipe(Record, frozen=True, kw_only=True):
    """One run of pipe.

    `start` is a port, or None for a feed, whose place is then the first point of `route`. `end` is a
    port. `route` holds the points between, in mm; a leg from a port to the next point leaves the port
    in the port's own direction and turns once where it is level or plumb with that point.
    """

    id: Name
    service: PipeService
    start: PortName | None = None
    end: PortName
    route: Points = ()
    tube: Name = "copper-15"
    wrap: Extent = 4.0
    """Thickness of wrap or sleeve all round, in mm."""
    depth: Extent | None = None
    """Depth of the centre behind the bare face, in mm; None follows from the chase rule."""
    jointing: Jointing | None = None
    """How its joints are made; None is what is usual for its tube."""
    turns: Turns = "elbows"
    """Whether square turns are elbows, or made with a bender; any other turn is always a bend."""

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.start is None and not self.route:
            raise ValueError(".route: must have the place of its supply as its first point, has none")
