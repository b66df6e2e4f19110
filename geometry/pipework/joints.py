"""How tubes are joined: the sizes of fittings, typical ones from the TOML beside this file.

In mm. A fitting's size is from its centre to the stop of the tube; of an adaptor, or of nut and olive on a
valve's own thread, from the port's end face. What a user measured goes before what is typical.
"""

import pkgutil
from collections.abc import Iterable, Mapping
from functools import cache, lru_cache

import msgspec

from geometry.decoding import decoded, toml_tables
from geometry.model import Measured
from geometry.model.pipes import Jointing
from geometry.model.record import Extent, Length, Position, Record, Text
from geometry.parts.records import Thread, TubePart
from geometry.units import number

CALLED: dict[Jointing, str] = {
    "capillary": "capillary",
    "compression": "compression",
    "press": "press",
    "push_fit": "push-fit",
}
USUAL: dict[str, Jointing] = {"copper": "capillary", "barrier": "push_fit", "multilayer": "press"}
"""How a tube's material is joined if nothing is said (common practice, no source)."""
_MATERIALS: dict[str, frozenset[Jointing]] = {
    "copper": frozenset({"capillary", "compression", "press", "push_fit"}),
    "barrier": frozenset({"compression", "push_fit"}),
    "multilayer": frozenset({"press"}),
}
"""Heat destroys plastic, and it is pressed with fittings of its own (common practice, no source)."""
SAME = 0.05
"""Two outside diameters closer than this are one size, in mm."""


class Joint(Record, frozen=True, kw_only=True):
    """One way to join one size of tube."""

    jointing: Jointing
    outside: Length
    insertion: Length
    elbow: Extent
    tee_run: Extent
    tee_branch: Extent
    coupling: Extent
    adaptor: Position
    threads: tuple[Thread, ...]
    wall_elbow: Extent
    port: Position | None = None
    port_thread: Thread | None = None
    room: Length
    heat: Extent = 0.0
    buried: bool
    note: Text = ""


class ReducingTee(Record, frozen=True, kw_only=True):
    """A tee of which the branch is smaller than the run; outside diameters of the tubes, and its sizes."""

    jointing: Jointing
    run: Length
    branch: Length
    tee_run: Extent
    tee_branch: Extent


class _File(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    joint: tuple[Joint, ...] = ()
    reducing_tee: tuple[ReducingTee, ...] = ()


class Joints:
    """The joints that can be made, by way of jointing and outside diameter of the tube."""

    def __init__(self, joints: Iterable[Joint], tees: Iterable[ReducingTee] = ()) -> None:
        self._joints: Mapping[tuple[Jointing, float], Joint] = {
            (joint.jointing, joint.outside): joint for joint in joints
        }
        self.tees = tuple(tees)

    def find(self, tube: TubePart, jointing: Jointing | None = None) -> Joint:
        """Return how a tube is joined in the way chosen, or in the way usual for it.

        Raises:
            ValueError: its material or size is not joined in that way.
        """
        way = USUAL[tube.material] if jointing is None else jointing
        joint = self._known(way, tube.outside) if way in _MATERIALS[tube.material] else None
        if joint is None:
            raise ValueError(f"no {CALLED[way]} joint is known for {tube.name}")
        return joint

    def tee(self, run: float, joint: Joint) -> tuple[float, float]:
        """Return run and branch of a tee on a tube of outside diameter `run`, from its centre to the stops.

        A reducing tee that is not listed takes the run of a tee as large as the joint's own.
        """
        for tee in self.tees:
            fits = abs(tee.run - run) < SAME and abs(tee.branch - joint.outside) < SAME
            if tee.jointing == joint.jointing and fits:
                return tee.tee_run, tee.tee_branch
        return joint.tee_run, joint.tee_branch

    def with_measured(self, measured: Iterable[Measured]) -> "Joints":
        """Return joints in which measured sizes stand for the typical ones; one that cannot be does not."""
        joints = self
        for one in measured:
            try:
                joint = joints.measured(one)
            except ValueError:
                continue  # a check says so
            held = {**joints._joints, (joint.jointing, joint.outside): joint}
            joints = Joints(held.values(), self.tees)
        return joints

    def measured(self, one: Measured) -> Joint:
        """Return the joint that was measured, with the size found.

        Raises:
            ValueError: such a joint is not known, or the size cannot be.
        """
        way = CALLED[one.jointing]
        joint = self._known(one.jointing, one.outside)
        if joint is None:
            raise ValueError(f"no {way} joint is known for {number(one.outside)} mm")
        if one.what == "port" and joint.port is None:
            raise ValueError(f"a {way} joint is not made on a port's thread")
        try:
            return joint.but(**{one.what: one.value})
        except ValueError as problem:
            raise ValueError(f"it {str(problem).partition(': ')[2]}") from None

    def _known(self, way: Jointing, outside: float) -> Joint | None:
        joint = self._joints.get((way, outside))
        if joint is not None:
            return joint
        of_way = (joint for (held, _), joint in self._joints.items() if held == way)
        return next((joint for joint in of_way if abs(joint.outside - outside) < SAME), None)


def read_joints(data: bytes, name: str) -> Joints:
    """Read joints from TOML.

    Raises:
        ValueError: the text is not TOML, or a joint is wrong; names the file, the place and the value.
    """
    try:
        file = decoded(toml_tables(data), _File)
    except ValueError as problem:
        raise ValueError(f"{name}: {problem}") from None
    return Joints(file.joint, file.reducing_tee)


@cache
def typical_joints() -> Joints:
    """Return the joints that come with the program."""
    data = pkgutil.get_data("geometry.pipework", "joints.toml")
    assert data is not None, "joints.toml is part of the package"
    return read_joints(data, "joints.toml")


@lru_cache(maxsize=16)
def joints_with(measured: tuple[Measured, ...]) -> Joints:
    """Return the typical joints with a job's measured sizes."""
    return typical_joints().with_measured(measured)
