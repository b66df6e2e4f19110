"""What is set once for all pipes of a job: lengths to buy and use up, measured fittings, photographs."""

from typing import Annotated, Literal

from geometry.model.pipes import Jointing
from geometry.model.record import UNWRITABLE, Extent, Length, Name, Position, Record, Text, Words

Measure = Literal["elbow", "tee_run", "tee_branch", "coupling", "adaptor", "port", "wall_elbow", "insertion"]
FileName = Annotated[str, Words(200, barred=rf"{UNWRITABLE}\t\n\r\x80-\x9f\u2028\u2029")]


class Offcut(Record, frozen=True, kw_only=True):
    """A length of tube at hand, to be used up before new tube is bought."""

    tube: Name
    length: Length


class Measured(Record, frozen=True, kw_only=True):
    """A size that somebody measured on the fittings at hand; it goes before the typical one.

    From a fitting's centre to the stop of its tube; of an adaptor or a valve's port from the port's end face,
    negative inwards; `insertion` is how deep the tube goes in.
    """

    jointing: Jointing
    outside: Length
    """Of the tube."""
    what: Measure
    value: Position


class Photograph(Record, frozen=True, kw_only=True):
    """A picture kept with the record: the name of its file, and what it shows."""

    file: FileName
    shows: Text = ""


class Pipework(Record, frozen=True, kw_only=True):
    """What is set for all pipes of a job, in mm."""

    stock_length: Length = 3000.0
    """Of a new straight length of tube."""
    kerf: Extent = 1.0
    """What a cut takes away: about 1 with a hacksaw, 0 with a tube cutter."""
    tail: Extent = 100.0
    """By how much a pipe is cut longer where it leaves the wall at its feed."""
    least_kept: Extent = 150.0
    """An off-cut shorter than this is not worth keeping."""
    offcuts: tuple[Offcut, ...] = ()
    measured: tuple[Measured, ...] = ()
    photographs: tuple[Photograph, ...] = ()
