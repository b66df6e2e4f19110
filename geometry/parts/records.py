"""What a part is: the sizes that a user reads off a maker's sheet.

Offsets are mm from the part's own origin, x right and y up as seen from the room: for a valve, outlet
or spout the centre of its plate, for a rail its foot. Distances "from the face" are from the finished
face towards the room; "from the back" from the back of the box or elbow towards the room.
"""

from typing import Annotated, Literal

from geometry.model.record import Extent, Length, Name, Position, Record, Span, Text, duplicate

Direction = Literal["left", "right", "up", "down"]
PortService = Literal["hot", "cold", "mixed"]
Thread = Literal["G3/8", "G1/2", "G3/4", "G1"]
Litres = Annotated[float, Span(0.0, 100.0, " l/min")]
FlowPressure = Annotated[float, Span(0.0, 10.0, " bar", least_allowed=False)]


class Disc(Record, frozen=True, kw_only=True, tag="round"):
    """A round outline."""

    diameter: Length


class Slab(Record, frozen=True, kw_only=True, tag="square"):
    """A rectangular outline with rounded corners."""

    wide: Length
    high: Length
    corner: Extent = 0.0


Form = Disc | Slab


class Port(Record, frozen=True, kw_only=True):
    """Where a pipe joins: its end face, the way it leaves, its thread.

    `sideways` marks an outlet that leaves on the side chosen for the valve; it is given for the right.
    """

    name: Name
    service: PortService
    x: Position = 0.0
    y: Position = 0.0
    direction: Direction
    thread: Thread = "G1/2"
    sideways: bool = False


class Control(Record, frozen=True, kw_only=True):
    """A knob or lever on the plate: where, how wide, how far it stands out from the face."""

    name: Name
    x: Position = 0.0
    y: Position = 0.0
    diameter: Length
    projection: Length


class Screw(Record, frozen=True, kw_only=True):
    """A fixing screw: where, its hole, and how deep it goes behind the bare face."""

    x: Position = 0.0
    y: Position = 0.0
    diameter: Length = 6.0
    depth: Length = 45.0


class _Part(Record, frozen=True, kw_only=True):
    id: Name
    name: Text
    """What people call it, in a list."""


class _Seated(_Part, frozen=True, kw_only=True):
    """A part whose back must lie a certain depth behind the finished face."""

    depth_least: Length
    """Least distance from its back to the finished face at which the trim fits."""
    depth_most: Length

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.depth_most < self.depth_least:
            raise ValueError(
                f".depth_most: must be at least depth_least {self.depth_least:g} mm, got {self.depth_most:g}"
            )


class ValvePart(_Seated, frozen=True, kw_only=True, tag="valve"):
    """A concealed thermostatic valve in its box."""

    box: Form
    joint_room: Extent = 25.0
    """Room round the box to turn a compression nut, each side where a pipe joins."""
    plate: Form
    plate_thickness: Length = 8.0
    hole: Length = 100.0
    """Diameter of the hole in the finish."""
    ports: tuple[Port, ...]
    controls: tuple[Control, ...] = ()
    screws: tuple[Screw, ...] = ()
    flow: Litres = 20.0
    """Through the open valve at `pressure`."""
    pressure: FlowPressure = 1.0

    def __post_init__(self) -> None:
        super().__post_init__()
        index = duplicate(tuple(port.name for port in self.ports))
        if index is not None:
            raise ValueError(f".ports[{index}].name: stands twice: {self.ports[index].name!r}")


class _Elbowed(_Seated, frozen=True, kw_only=True):
    """A part on an elbow behind the wall: its pocket, its hole in the finish, the flange that covers it."""

    pocket: Slab = Slab(wide=50.0, high=50.0)
    """Outline to cut for the elbow."""
    hole: Length = 30.0
    flange: Length = 60.0
    flange_thickness: Length = 8.0
    thread: Thread = "G1/2"


class HeadPart(_Elbowed, frozen=True, kw_only=True, tag="head"):
    """An overhead head on its arm. `reach` is from the finished face to the head's axis."""

    mount: Literal["wall", "ceiling"]
    diameter: Length
    thickness: Length = 12.0
    reach: Length
    drop: Length
    """From the arm's axis at the wall, or from the ceiling, down to the underside of the head."""
    arm: Length = 24.0
    """Diameter of the arm."""
    flow: Litres = 12.0
    pressure: FlowPressure = 1.0


class OutletPart(_Elbowed, frozen=True, kw_only=True, tag="hose_outlet"):
    """The elbow from which a hose hangs. The nozzle points down."""

    nozzle_y: Position = -30.0
    nozzle_out: Length = 45.0
    """From the finished face to the hose's axis."""
    nozzle_diameter: Length = 24.0
    screws: tuple[Screw, ...] = ()


class RailPart(_Part, frozen=True, kw_only=True, tag="rail"):
    """An upright rail with a slider that holds the handset. Heights are above its foot."""

    length: Length
    diameter: Length = 22.0
    axis_out: Length = 55.0
    """From the finished face to the rail's axis."""
    fixing_low: Extent
    fixing_high: Length
    bracket: Length = 50.0
    """Diameter of a bracket's flange at the wall."""
    slide_low: Extent
    slide_high: Length
    nut_below: Extent = 40.0
    """The hose nut hangs this far below the slider's centre."""
    nut_out: Length = 95.0
    """From the finished face to the hose's axis at the nut."""
    handset: Name
    screw: Screw = Screw(diameter=6.0, depth=45.0)

    def __post_init__(self) -> None:
        super().__post_init__()
        for low, high in (("fixing_low", "fixing_high"), ("slide_low", "slide_high")):
            if not getattr(self, low) < getattr(self, high) <= self.length:
                raise ValueError(
                    f".{high}: must lie above {low} and within the length, got {getattr(self, high):g}"
                )


class HandsetPart(_Part, frozen=True, kw_only=True, tag="handset"):
    """The head in the hand. Its envelope in the holder is measured from the slider's centre."""

    length: Length
    """From the hose nut to the far end."""
    diameter: Length
    above: Extent = 130.0
    below: Extent = 60.0
    out: Length = 200.0
    """From the finished face to its outermost point, in the holder."""
    flow: Litres = 9.0
    pressure: FlowPressure = 1.0


class HosePart(_Part, frozen=True, kw_only=True, tag="hose"):
    """A hose, from nut to nut."""

    length: Length
    diameter: Length = 15.0
    least_bend: Length = 45.0
    """Least radius of its axis."""
    bore: Length = 9.0


class SpoutPart(_Elbowed, frozen=True, kw_only=True, tag="spout"):
    """A bath spout."""

    reach: Length
    drop: Extent = 20.0
    """From its axis at the wall down to its mouth."""
    body: Length = 40.0
    flow: Litres = 20.0
    pressure: FlowPressure = 1.0


class EnclosurePart(_Part, frozen=True, kw_only=True, tag="enclosure"):
    """A tray or bath as bought."""

    kind: Literal["tray", "bath"]
    width: Length
    projection: Length
    floor: Extent
    rim: Extent


class TubePart(_Part, frozen=True, kw_only=True, tag="tube"):
    """A tube with its usual clip."""

    material: Literal["copper", "barrier", "multilayer"]
    outside: Length
    wall: Length
    clip_side: Extent = 8.0
    """Room for the clip beside the pipe, each side."""
    clip_back: Extent = 5.0
    """The clip holds the pipe this far off the back of the chase."""
    roughness: Extent = 0.0015
    note: Text = ""

    @property
    def bore(self) -> float:
        """Inside diameter in mm."""
        return self.outside - 2 * self.wall


Part = (
    ValvePart
    | HeadPart
    | OutletPart
    | RailPart
    | HandsetPart
    | HosePart
    | SpoutPart
    | EnclosurePart
    | TubePart
)
