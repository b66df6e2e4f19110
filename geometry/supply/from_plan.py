"""From a job to the ways of its water: one network for each valve, or what is missing for one.

Lengths and heights come from the courses of the pipes and the elevation, resistances from the parts,
pressures from the readings. Lengths are taken along square corners, and the water is mixed at the height of
the valve's centre; mm, bar, l/min, Celsius.
"""

import math
from collections.abc import Iterator, Mapping
from functools import lru_cache
from itertools import pairwise
from typing import Literal, NamedTuple

from geometry.model import Branch, Head, HoseOutlet, Pipe, Spout, Supply, Valve
from geometry.model.pipes import Turns
from geometry.model.record import XY
from geometry.model.supply import HotSource
from geometry.parts.records import HeadPart, OutletPart, SpoutPart, TubePart, ValvePart
from geometry.pipework.routes import ALIGNED
from geometry.plan import Hung, Placed, Plan
from geometry.shape.fittings import slider_of
from geometry.supply.fitting_losses import change_k, fitting_k
from geometry.supply.friction import ROUGHEST
from geometry.supply.network import Feed, Heater, MixingValve, Network, Outlet
from geometry.supply.pieces import Device, Piece, Pump, Stretch
from geometry.supply.supply_curve import SupplyCurve, fit_curve, gravity_curve

Side = Literal["cold", "hot"]
SIDES: tuple[Side, ...] = ("hot", "cold")
ARM_BORE = 15.0
"""mm, of a head's arm or a spout's body: the waterway of a G 1/2 thread, from memory."""
_COUNT = {"not_known": 0, "none": 0, "single": 1, "double": 2}


class Need(NamedTuple):
    """What an outlet asks for, by its maker, and the part that states it."""

    flow: float
    pressure: float
    part: str


class Shower(NamedTuple):
    """One valve and all that its water passes; `parts` and `tubes` are by the names in the network."""

    valve: str
    network: Network
    needs: Mapping[str, Need]
    parts: Mapping[str, tuple[str, ...]]
    """The ids that an outlet or a stretch stands for."""
    tubes: Mapping[str, TubePart]
    """The tube of each stretch that is one."""
    spouts: frozenset[str]
    mouths: Mapping[str, float]
    """Height of each outlet above the finished floor."""


class Lacking(NamedTuple):
    """Why no flow can be worked out for some parts: one sentence."""

    parts: tuple[str, ...]
    message: str


def showers(plan: Plan) -> tuple[Shower | Lacking, ...]:
    """Return the water of every valve, and every outlet to which no pipe leads; none without a supply."""
    supply = plan.job.supply
    if supply is None:
        return ()
    found: list[Shower | Lacking] = []
    for valve in plan.valves:
        try:
            found.append(_Ways(plan, supply, valve).shower())
        except ValueError as problem:
            message = f"The flow at {valve.fitting.id} cannot be worked out: {str(problem).lstrip('.')}."
            found.append(Lacking((valve.fitting.id,), message))
    led = {pipe.end for pipe in plan.job.pipes if pipe.start is not None}
    for placed in plan.elbowed:
        name = placed.fitting.id
        if f"{name}.in" not in led:
            message = f"No pipe leads from a valve to {name}, so its flow cannot be worked out."
            found.append(Lacking((name,), message))
    return tuple(found)


class _Ways:
    """Gathers the pieces of one valve's network, and what their names stand for."""

    def __init__(self, plan: Plan, supply: Supply, valve: Placed[Valve, ValvePart]) -> None:
        self.plan, self.supply, self.valve = plan, supply, valve
        self.parts: dict[str, tuple[str, ...]] = {}
        self.tubes: dict[str, TubePart] = {}
        self.needs: dict[str, Need] = {}
        self.mouths: dict[str, float] = {}
        self.spouts: set[str] = set()
        self._taken = {"cold", "hot"}

    def shower(self) -> Shower:
        """Return the network; ValueError says what is missing or cannot be."""
        feeds = {side: self._feed(side) for side in SIDES}
        part = self.valve.part
        network = Network(
            cold=feeds["cold"],
            hot=feeds["hot"],
            heater=_heater(self.supply),
            valve=_mixing_valve(
                setting=self.supply.set_to,
                hot_flow=_stated(part.flow, self.valve.fitting.id),
                cold_flow=_stated(part.flow, self.valve.fitting.id),
                pressure=part.pressure,
            ),
            outlets=tuple(self._outlets()),
        )
        for _, pieces in network.ways():
            for piece in pieces:
                if isinstance(piece, Stretch) and piece.roughness > ROUGHEST * piece.bore:
                    worst = f"{piece.roughness:g} mm in a bore of {piece.bore:g} mm"
                    raise ValueError(f"{piece.name} is too rough for any friction factor: {worst}")
        return Shower(
            self.valve.fitting.id, network, self.needs, self.parts, self.tubes, frozenset(self.spouts),
            self.mouths,
        )  # fmt: skip

    def _name(self, wanted: str, *parts: str, tube: TubePart | None = None) -> str:
        name, number = wanted, 1
        while name in self._taken:
            number += 1
            name = f"{wanted} ({number})"
        self._taken.add(name)
        self.parts[name] = parts
        if tube is not None:
            self.tubes[name] = tube
        return name

    # hot and cold

    def _feed(self, side: Side) -> Feed:
        branch: Branch = getattr(self.supply, side)
        end = f"{self.valve.fitting.id}.{_port(self.valve.part, side)}"
        pipe = next((pipe for pipe in self.plan.job.pipes if pipe.end == end), None)
        if pipe is None:
            raise ValueError(f"no pipe leads to {end}")
        lead = self._lead(pipe, self.plan.courses[pipe.id].points, (pipe.id,))
        port = self.plan.ports[end].at[1]
        begin = port - sum(stretch.rise for stretch in lead)
        lead[-1] = _altered(lead[-1], rise=self.valve.fitting.height - port)
        stretches = [*self._upstream(side, branch), *lead]
        stretches[0] = _altered(stretches[0], rise=begin - branch.gauge_height)
        pieces: list[Piece] = [*_changed(stretches), *self._check_valves(side, branch, lead[-1].bore)]
        if branch.pump is not None:
            name = self._name(f"{side} pump")
            pieces.insert(0, Pump(name=name, pressure=branch.pump.pressure, flow=branch.pump.flow))
        return Feed(
            curve=_curve(branch, self.supply.source, side), temperature=branch.temperature,
            pieces=tuple(pieces), regulated=branch.regulated,
        )  # fmt: skip

    def _upstream(self, side: Side, branch: Branch) -> Iterator[Stretch]:
        for index, stretch in enumerate(branch.upstream):
            try:
                tube = self.plan.catalogue.find(stretch.tube, TubePart)
            except ValueError as problem:
                raise ValueError(f"supply.{side}.upstream[{index}].tube: {problem}") from None
            part = f", part {index + 1}" if len(branch.upstream) > 1 else ""
            name = self._name(f"{side} pipe to the wall{part}", tube=tube)
            yield _made_stretch(
                name=name, length=stretch.length, bore=tube.bore, roughness=tube.roughness,
                sum_k=stretch.elbows * fitting_k("elbow"),
            )  # fmt: skip

    def _lead(self, pipe: Pipe, points: tuple[XY, ...], seen: tuple[str, ...]) -> list[Stretch]:
        """Return the stretches on the wall up to the last of the points, those of a pipe it taps before."""
        if pipe.start is not None:
            raise ValueError(f"{pipe.id} begins at {pipe.start}, not at its supply")
        before: list[Stretch] = []
        k = 0.0
        for other in self.plan.job.pipes:
            if other.id in seen or other.service != pipe.service or other.start is not None:
                continue
            part = _until(self.plan.courses[other.id].points, points[0])
            if part is not None:
                before, k = self._lead(other, part, (*seen, other.id)), fitting_k("tee_branch")
                break
        return [*before, self._stretch(pipe, points, k)]

    def _check_valves(self, side: Side, branch: Branch, bore: float) -> Iterator[Device]:
        stated = branch.check_valves
        if self.plan.job.house.backflow == "double_check_supplies":
            stated = "double"
        if _COUNT[stated]:
            # K times the velocity pressure is 1 bar at this flow
            speed = math.sqrt(2e5 / (1000.0 * fitting_k("check_valve") * _COUNT[stated]))  # m/s
            flow = speed * math.pi / 4.0 * (bore / 1000.0) ** 2 * 60_000.0
            yield _made_device(name=self._name(f"{side} check valve"), flow=flow, one_way=True)

    # pipes

    def _stretch(
        self, pipe: Pipe, points: tuple[XY, ...], k: float = 0.0, rise: float | None = None
    ) -> Stretch:
        """Return a pipe's tube along some points, with a loss at its start; it rises as they do."""
        tube = self.plan.tubes[pipe.id]
        return _made_stretch(
            name=self._name(f"{pipe.id} pipe", pipe.id, tube=tube),
            length=_length(points),
            bore=tube.bore, roughness=tube.roughness,
            rise=points[-1][1] - points[0][1] if rise is None else rise,
            sum_k=k + _turns_k(pipe.turns, points) + 2 * fitting_k("coupling"),
        )  # fmt: skip

    # outlets

    def _outlets(self) -> Iterator[Outlet]:
        done: set[str] = set()
        for pipe in self.plan.job.pipes:
            start, end = (name and name.partition(".")[0] for name in (pipe.start, pipe.end))
            if start != self.valve.fitting.id or end in done:
                continue
            placed = next((one for one in self.plan.elbowed if one.fitting.id == end), None)
            if placed is None:
                continue
            done.add(placed.fitting.id)
            rise = placed.fitting.height - self.valve.fitting.height
            yield self._outlet(placed, self._stretch(pipe, self.plan.courses[pipe.id].points, rise=rise))
        if not done:
            raise ValueError(f"no pipe leads from {self.valve.fitting.id} to a head, an outlet or a spout")

    def _outlet(
        self,
        placed: Placed[Head, HeadPart] | Placed[HoseOutlet, OutletPart] | Placed[Spout, SpoutPart],
        stretch: Stretch,
    ) -> Outlet:
        fitting, part = placed.fitting, placed.part
        if isinstance(part, OutletPart):
            hung = next((hung for hung in self.plan.hoses if hung.outlet.fitting.id == fitting.id), None)
            if hung is None:
                raise ValueError(f"no hose hangs from {fitting.id}")
            return self._handset(hung, stretch)
        name = self._name(fitting.id, fitting.id)
        self.needs[name] = Need(_stated(part.flow, fitting.id), part.pressure, part.id)
        self.mouths[name] = fitting.height - part.drop
        if isinstance(part, SpoutPart):
            self.spouts.add(name)
        reach = fitting.reach if isinstance(fitting, Head) and fitting.reach is not None else part.reach
        what = "body" if isinstance(part, SpoutPart) else "arm"
        arm = _made_stretch(
            name=self._name(f"{what} of {fitting.id}", fitting.id), length=reach + part.drop, bore=ARM_BORE,
            rise=-part.drop, sum_k=fitting_k("elbow_threaded"),
        )  # fmt: skip
        what = "mouth" if isinstance(part, SpoutPart) else "spray"
        head = _made_device(
            name=self._name(f"{what} of {fitting.id}"), flow=part.flow, pressure=part.pressure
        )
        return Outlet(name=name, pieces=_changed([stretch, arm]), head=head)

    def _handset(self, hung: Hung, stretch: Stretch) -> Outlet:
        outlet, rail, handset = hung.outlet, hung.rail, hung.handset
        ids = (outlet.fitting.id, hung.hose.id, rail.fitting.id)
        name = self._name(f"handset at {outlet.fitting.id}", *ids)
        self.needs[name] = Need(_stated(handset.flow, handset.id), handset.pressure, handset.id)
        spray = handset.above - handset.diameter / 2  # centre of its face over the slider
        mouth = rail.fitting.height + slider_of(rail.fitting, rail.part) + spray
        self.mouths[name] = mouth
        hose = _made_stretch(
            name=self._name(f"{hung.hose.id} to the handset", hung.hose.id), length=hung.part.length,
            bore=hung.part.bore, rise=mouth - outlet.fitting.height, sum_k=fitting_k("elbow_threaded"),
        )  # fmt: skip
        head = _made_device(
            name=self._name(f"spray at {outlet.fitting.id}"), flow=handset.flow, pressure=handset.pressure
        )
        return Outlet(name=name, pieces=_changed([stretch, hose]), head=head)


def _port(part: ValvePart, side: Side) -> str:
    for port in part.ports:
        if port.service == side:
            return port.name
    raise ValueError(f"{part.id} has no {side} port")


def _stated(flow: float, what: str) -> float:
    if flow <= 0.0:
        raise ValueError(f"no flow is stated for {what}")
    return flow


def _heater(supply: Supply) -> Heater | None:
    if supply.source != "instant_heater":
        return None
    if not supply.heater_kw:
        raise ValueError("supply.heater_kw: the power of the instant heater is not stated")
    return Heater(power=supply.heater_kw, beyond=supply.beyond_power)


@lru_cache(maxsize=64)
def _curve(branch: Branch, source: HotSource, side: Side) -> SupplyCurve:
    """Return how a branch's pressure falls, by its readings, or by its cistern where there are none."""
    if branch.cistern is not None and not branch.readings and (source == "stored_gravity" or side == "cold"):
        return gravity_curve(branch.cistern - branch.gauge_height, branch.temperature)
    return fit_curve(branch.static, branch.readings, f"supply.{side}")


@lru_cache(maxsize=256)
def _length(points: tuple[XY, ...]) -> float:
    return sum(math.dist(a, b) for a, b in pairwise(points))


@lru_cache(maxsize=256)
def _turns_k(turns: Turns, points: tuple[XY, ...]) -> float:
    """Return the loss of a pipe's turns: a square one is an elbow unless bent, any other a bend."""
    total = 0.0
    for a, b, c in zip(points, points[1:], points[2:], strict=False):
        ux, uy, vx, vy = b[0] - a[0], b[1] - a[1], c[0] - b[0], c[1] - b[1]
        angle = abs(math.degrees(math.atan2(ux * vy - uy * vx, ux * vx + uy * vy)))
        if abs(angle - 90.0) <= 1.0 and turns == "elbows":
            total += fitting_k("elbow")
        else:
            total += fitting_k("bend") * angle / 90.0
    return total


def _until(points: tuple[XY, ...], at: XY) -> tuple[XY, ...] | None:
    """Return a course up to a point that lies on it; None if it does not lie on it."""
    for index, ((ax, ay), (bx, by)) in enumerate(pairwise(points)):
        long = math.hypot(bx - ax, by - ay)
        along = ((at[0] - ax) * (bx - ax) + (at[1] - ay) * (by - ay)) / long
        off = abs((at[0] - ax) * (by - ay) - (at[1] - ay) * (bx - ax)) / long
        if off < ALIGNED and -ALIGNED < along < long + ALIGNED:
            return (*points[: index + 1], at)
    return None


def _changed(stretches: list[Stretch]) -> tuple[Stretch, ...]:
    """Return stretches with the loss of each change of bore added to the narrower."""
    changed = list(stretches)
    for index, (a, b) in enumerate(pairwise(stretches)):
        if a.bore != b.bore:
            narrow = index if a.bore < b.bore else index + 1
            changed[narrow] = _altered(changed[narrow], k=change_k(a.bore, b.bore))
    return tuple(changed)


# a record is checked when it is made; those that are as they were are not made again

_made_stretch = lru_cache(maxsize=512)(Stretch)
_made_device = lru_cache(maxsize=128)(Device)
_mixing_valve = lru_cache(maxsize=32)(MixingValve)


@lru_cache(maxsize=512)
def _altered(stretch: Stretch, *, rise: float = 0.0, k: float = 0.0) -> Stretch:
    """Return a stretch that rises by so many mm more and takes so much more."""
    return stretch.but(rise=stretch.rise + rise, sum_k=stretch.sum_k + k)
