"""A job with its parts looked up, and what follows from both: the one place where checks and drawings look.

Everything here is derived and computed at most once a plan. What depends on a few records only is
cached on those records, so that a plan of an edited job recomputes no more than it must.
"""

from collections.abc import Iterator
from functools import cached_property
from typing import Generic, NamedTuple, TypeVar

import msgspec

from geometry.build_up import BuildUp, build_up
from geometry.chase.channel import Chase, chase
from geometry.chase.recess import CutDepth, cut_depth
from geometry.model import Fitting, Head, Hose, HoseOutlet, Job, Pipe, Rail, Spout, Valve
from geometry.parts.catalogue import Catalogue
from geometry.parts.records import (
    Direction,
    HandsetPart,
    HeadPart,
    HosePart,
    OutletPart,
    Part,
    RailPart,
    SpoutPart,
    TubePart,
    ValvePart,
)
from geometry.pipework.routes import Course, PortAt, course
from geometry.rules import Rulebook
from geometry.shape.fittings import (
    handset_solid,
    head_solids,
    outlet_solids,
    rail_solids,
    slider_of,
    spout_solids,
    valve_solids,
)
from geometry.shape.outline import Outline
from geometry.shape.solid import Solid
from geometry.shape.surroundings import door_solid, screen_solid, service_solid
from geometry.units import on_grid

F = TypeVar("F", bound=Fitting)
P = TypeVar("P", bound=ValvePart | HeadPart | OutletPart | RailPart | SpoutPart)
Q = TypeVar("Q", bound=Part)
_MIRRORED: dict[Direction, Direction] = {"left": "right", "right": "left", "up": "up", "down": "down"}


class Placed(msgspec.Struct, Generic[F, P], frozen=True):
    """A fitting with its part and the finish at its place."""

    fitting: F
    part: P
    finish: BuildUp

    @property
    def face(self) -> float:
        """The finished face at its place, in mm from the bare face."""
        return self.finish.planned


class Hung(NamedTuple):
    """A hose with its part, its outlet, its rail and the handset on it."""

    hose: Hose
    part: HosePart
    outlet: Placed[HoseOutlet, OutletPart]
    rail: Placed[Rail, RailPart]
    handset: HandsetPart


Elbowed = Placed[Head, HeadPart] | Placed[HoseOutlet, OutletPart] | Placed[Spout, SpoutPart]


class Plan:
    """A job and everything derived from it, in mm.

    Raises:
        ValueError: a part that the job names is missing or of the wrong kind, or a pipe names a port that
            its fitting does not have; the message begins with the path in the job file.
    """

    def __init__(self, job: Job, catalogue: Catalogue, rules: Rulebook) -> None:
        self.job, self.catalogue, self.rules = job, catalogue, rules
        self.valves = self._of(Valve, ValvePart)
        self.heads = self._of(Head, HeadPart)
        self.outlets = self._of(HoseOutlet, OutletPart)
        self.rails = self._of(Rail, RailPart)
        self.spouts = self._of(Spout, SpoutPart)
        self.handsets = {
            rail.fitting.id: self._find(rail.part.handset, HandsetPart, f"part {rail.part.id!r}, handset")
            for rail in self.rails
        }
        self.hoses = tuple(self._hang(hose, index) for index, hose in enumerate(job.hoses))
        self.tubes = {
            pipe.id: self._find(pipe.tube, TubePart, f"$.pipes[{index}].tube")
            for index, pipe in enumerate(job.pipes)
        }
        self.ports = {port.name: port for port in self._ports()}
        self.courses = {pipe.id: self._course(pipe, index) for index, pipe in enumerate(job.pipes)}

    def _find(self, name: str, kind: type[Q], path: str) -> Q:
        try:
            return self.catalogue.find(name, kind)
        except ValueError as problem:
            raise ValueError(f"{path}: {problem}") from None

    def _of(self, kind: type[F], part_kind: type[P]) -> tuple[Placed[F, P], ...]:
        return tuple(
            Placed(
                fitting,
                self._find(fitting.part, part_kind, f"$.fittings[{index}].part"),
                build_up(self.job.finish, fitting.at),
            )
            for index, fitting in enumerate(self.job.fittings)
            if isinstance(fitting, kind)
        )

    def _hang(self, hose: Hose, index: int) -> Hung:
        outlet = next(placed for placed in self.outlets if placed.fitting.id == hose.outlet)
        rail = next(placed for placed in self.rails if placed.fitting.id == hose.rail)
        part = self._find(hose.part, HosePart, f"$.hoses[{index}].part")
        return Hung(hose, part, outlet, rail, self.handsets[hose.rail])

    @property
    def elbowed(self) -> tuple[Elbowed, ...]:
        """The fittings that sit on an elbow."""
        return (*self.heads, *self.outlets, *self.spouts)

    # ports and pipes

    def _ports(self) -> Iterator[PortAt]:
        for valve in self.valves:
            x, y = valve.fitting.at
            for port in valve.part.ports:
                swap = port.sideways and valve.fitting.side == "left"
                at = (on_grid(x - port.x if swap else x + port.x), on_grid(y + port.y))
                direction = _MIRRORED[port.direction] if swap else port.direction
                yield PortAt(f"{valve.fitting.id}.{port.name}", at, direction, port.service, port.thread)
        for placed in self.elbowed:
            fitting = placed.fitting
            yield PortAt(f"{fitting.id}.in", fitting.at, None, "mixed", placed.part.thread)

    def _course(self, pipe: Pipe, index: int) -> Course:
        ends: list[PortAt | None] = []
        for field, name in (("start", pipe.start), ("end", pipe.end)):
            if name is not None and name not in self.ports:
                fitting = name.partition(".")[0]
                known = ", ".join(port for port in self.ports if port.startswith(f"{fitting}."))
                raise ValueError(
                    f"$.pipes[{index}].{field}: no port is called {name!r}; there are {known or 'none'}"
                )
            ends.append(None if name is None else self.ports[name])
        start, end = ends
        assert end is not None, "a pipe always has an end"
        return course(pipe, start, end)

    @cached_property
    def chases(self) -> tuple[Chase, ...]:
        """The chase of each pipe, in the order of the job."""
        cover = self.rules["chase.bury"].value
        return tuple(
            chase(pipe, self.tubes[pipe.id], self.courses[pipe.id], cover) for pipe in self.job.pipes
        )

    def joined(self, valve: str) -> frozenset[Direction]:
        """Return the sides on which pipes join a valve; with no pipe yet, all that have a port."""
        used = {end for pipe in self.job.pipes for end in (pipe.start, pipe.end)}
        ports = [port for port in self.ports.values() if port.name.startswith(f"{valve}.")]
        wanted = [port for port in ports if port.name in used] or ports
        return frozenset(port.direction for port in wanted if port.direction is not None)

    # depths

    @cached_property
    def depths(self) -> dict[str, CutDepth]:
        """How deep to cut for each part that sits behind the wall, by the fitting's id."""
        return {
            placed.fitting.id: cut_depth(placed.part.depth_least, placed.part.depth_most, placed.finish)
            for placed in (*self.valves, *self.elbowed)
            if not (isinstance(placed.part, HeadPart) and placed.part.mount == "ceiling")
        }

    @cached_property
    def cuts(self) -> dict[str, float]:
        """The depth that is cut, in mm, by the fitting's id: as set by hand, or else the target."""
        return {
            fitting.id: self.depths[fitting.id].target if fitting.recess is None else fitting.recess
            for fitting in (placed.fitting for placed in (*self.valves, *self.elbowed))
            if fitting.id in self.depths
        }

    @cached_property
    def recesses(self) -> dict[str, Outline]:
        """The outline to cut for each part that sits behind the wall, by the fitting's id."""
        return {solid.owner: solid.outline for solid in self.solids("recess", "pocket")}

    # solids

    @cached_property
    def fitted(self) -> tuple[Solid, ...]:
        """What the fittings take up, the handset at its slider's place included."""
        return tuple(self._fitted())

    def _fitted(self) -> Iterator[Solid]:
        cuts = self.cuts
        for valve in self.valves:
            fitting = valve.fitting
            sides = self.joined(fitting.id)
            yield from valve_solids(fitting, valve.part, valve.face, cuts[fitting.id], sides)
        for head in self.heads:
            yield from head_solids(head.fitting, head.part, head.face, cuts.get(head.fitting.id, 0.0))
        for outlet in self.outlets:
            yield from outlet_solids(outlet.fitting, outlet.part, outlet.face, cuts[outlet.fitting.id])
        for spout in self.spouts:
            yield from spout_solids(spout.fitting, spout.part, spout.face, cuts[spout.fitting.id])
        for rail in self.rails:
            yield from rail_solids(rail.fitting, rail.part, rail.face)
            yield self.handset(rail, slider_of(rail.fitting, rail.part))

    def solids(self, *kinds: str) -> tuple[Solid, ...]:
        """Return what the fittings take up, of the kinds named."""
        return tuple(solid for solid in self.fitted if solid.what in kinds)

    def handset(self, rail: Placed[Rail, RailPart], low: float, high: float | None = None) -> Solid:
        """Return what a rail's handset takes up with the slider at `low`, or all the way up to `high`."""
        part = self.handsets[rail.fitting.id]
        return handset_solid(rail.fitting, rail.part, part, rail.face, low, low if high is None else high)

    @cached_property
    def lagged_pipes(self) -> tuple[Solid, ...]:
        """The pipes of the job with their wrap, behind the wall."""
        return tuple(
            Solid(cut.pipe, "pipe", cut.lagged_pipe, -cut.axis - cut.lagged / 2, -cut.axis + cut.lagged / 2)
            for cut in self.chases
        )

    @cached_property
    def panes(self) -> tuple[Solid, ...]:
        """Fixed screens and what doors sweep."""
        enclosure = self.job.enclosure
        return (*map(screen_solid, enclosure.screens), *map(door_solid, enclosure.doors))

    @cached_property
    def existing(self) -> tuple[Solid, ...]:
        """What is in or on the wall already."""
        return tuple(service_solid(service, self.job.wall) for service in self.job.services)
