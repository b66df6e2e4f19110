"""Walls for the checks: bare ones on which a sum can be done by hand, their mirror images, random ones."""

from collections.abc import Callable, Iterator, Mapping, Sequence

from hypothesis import strategies as st

from geometry.finding import Finding, Limit
from geometry.model import (
    Accessory,
    Cable,
    Door,
    Enclosure,
    Fitting,
    Head,
    HoseOutlet,
    Job,
    Joist,
    OldPipe,
    Opening,
    Pipe,
    Rail,
    Screen,
    Service,
    Spout,
    Stud,
    Valve,
    Wall,
)
from geometry.model.record import XY
from geometry.parts.catalogue import Catalogue, generic_parts
from geometry.parts.records import Direction, ValvePart
from geometry.plan import Plan
from geometry.rules import Rulebook, standard_rules
from geometry.units import on_grid

Check = Callable[[Plan], Iterator[Finding]]


def bare(
    *fittings: Fitting,
    pipes: Sequence[Pipe] = (),
    services: Sequence[Service] = (),
    screens: Sequence[Screen] = (),
    doors: Sequence[Door] = (),
    openings: Sequence[Opening] = (),
    wall: Wall | None = None,
    enclosure: Enclosure | None = None,
) -> Job:
    """Return a job on a bare wall: the finished face is at 0. It is 4000 x 2400 with both ends free.

    The enclosure fills it, 900 from the wall into the room, floor at 30 and rim at 40.
    """
    stood = wall or Wall(width=4000, height=2400, thickness=140, left="free_end", right="free_end")
    return Job(
        wall=stood.but(openings=tuple(openings)),
        enclosure=(enclosure or Enclosure(left=0, width=stood.width, projection=900)).but(
            screens=tuple(screens), doors=tuple(doors)
        ),
        fittings=fittings,
        pipes=tuple(pipes),
        services=tuple(services),
    )


def plan_of(job: Job, catalogue: Catalogue | None = None, limits: Mapping[str, float] | None = None) -> Plan:
    """Return the plan of a job, perhaps with other parts and some limits changed."""
    rules: dict[str, Limit] = {limit.rule: limit for limit in standard_rules()}
    for rule, value in (limits or {}).items():
        rules[rule] = rules[rule].but(value=value)
    return Plan(job, catalogue or generic_parts(), Rulebook(rules))


def found(check: Check, rule: str, job: Job) -> list[Finding]:
    """Return what a check says by one rule."""
    return [finding for finding in check(plan_of(job)) if finding.rule == rule]


def only(check: Check, rule: str, job: Job) -> Finding:
    """Return the one thing that a check says by one rule."""
    (finding,) = found(check, rule, job)
    return finding


def told(finding: Finding) -> tuple[str, float | None]:
    """Return status and measured value."""
    return finding.status, finding.measured


# moved and mirrored


def along(job: Job, dx: float) -> Job:
    """Return the job with everything on the wall moved along it; the wall stays."""

    def line(points: tuple[XY, ...]) -> tuple[XY, ...]:
        return tuple((on_grid(x + dx), y) for x, y in points)

    def service(old: Service) -> Service:
        match old:
            case Accessory() | Stud():
                return old.but(x=on_grid(old.x + dx))
            case Joist():
                return old.but(left=on_grid(old.left + dx), right=on_grid(old.right + dx))
            case Cable() | OldPipe():
                return old.but(route=line(old.route))

    return job.but(
        enclosure=job.enclosure.but(left=on_grid(job.enclosure.left + dx)),
        fittings=tuple(fitting.but(x=on_grid(fitting.x + dx)) for fitting in job.fittings),
        pipes=tuple(pipe.but(route=line(pipe.route)) for pipe in job.pipes),
        services=tuple(service(old) for old in job.services),
    )


def mirrored(job: Job) -> Job:
    """Return the mirror image of a job, for parts that are mirrored too."""
    width, enclosure = job.wall.width, job.enclosure

    def line(points: tuple[XY, ...]) -> tuple[XY, ...]:
        return tuple((on_grid(width - x), y) for x, y in points)

    def service(old: Service) -> Service:
        match old:
            case Accessory() | Stud():
                return old.but(x=on_grid(width - old.x))
            case Joist():
                return old.but(left=on_grid(width - old.right), right=on_grid(width - old.left))
            case Cable() | OldPipe():
                return old.but(route=line(old.route))

    return job.but(
        wall=job.wall.but(left=job.wall.right, right=job.wall.left),
        enclosure=enclosure.but(left=on_grid(width - enclosure.right)),
        fittings=tuple(fitting.but(x=on_grid(width - fitting.x)) for fitting in job.fittings),
        pipes=tuple(pipe.but(route=line(pipe.route)) for pipe in job.pipes),
        services=tuple(service(old) for old in job.services),
    )


def mirrored_parts() -> Catalogue:
    """Return the parts as in a mirror; only valves have a left and a right."""
    turned: dict[Direction, Direction] = {"left": "right", "right": "left", "up": "up", "down": "down"}
    valves = [
        part.but(
            ports=tuple(port.but(x=-port.x, direction=turned[port.direction]) for port in part.ports),
            screws=tuple(screw.but(x=-screw.x) for screw in part.screws),
        )
        for part in generic_parts()
        if isinstance(part, ValvePart)
    ]
    return generic_parts().with_own(valves)


# random

KINDS: dict[str, tuple[type[Fitting], tuple[str, ...]]] = {
    "valve": (Valve, ("valve-one-round", "valve-two-square", "valve-three-round")),
    "head": (Head, ("head-wall-200", "head-wall-300")),
    "outlet": (HoseOutlet, ("outlet-round",)),
    "rail": (Rail, ("rail-700", "rail-900")),
    "spout": (Spout, ("spout-170",)),
}


def tenths(low: int, high: int) -> st.SearchStrategy[float]:
    """Return lengths in mm on the model's grid."""
    return st.integers(min_value=10 * low, max_value=10 * high).map(lambda number: number / 10)


@st.composite
def fittings(draw: st.DrawFn, name: str, low: int = 1000, high: int = 2500) -> Fitting:
    """A fitting somewhere on a stretch of a wall."""
    kind, parts = KINDS[draw(st.sampled_from(sorted(KINDS)))]
    return kind(
        id=name, part=draw(st.sampled_from(parts)), x=draw(tenths(low, high)), height=draw(tenths(300, 2200))
    )


@st.composite
def jobs(draw: st.DrawFn) -> Job:
    """Two to six fittings, crowded, with pipes up from the floor and things in the wall, on a wide wall."""
    count = draw(st.integers(min_value=2, max_value=6))
    fitted = tuple(draw(fittings(f"f{number}")) for number in range(count))
    pipes = []
    for fitting in fitted:
        feed = (draw(tenths(1000, 2500)), 0.0)
        if isinstance(fitting, Valve):
            pipes += [Pipe(id=f"h{fitting.id}", service="hot", end=f"{fitting.id}.hot", route=(feed,))]
        elif not isinstance(fitting, Rail):
            pipes += [Pipe(id=f"m{fitting.id}", service="mixed", end=f"{fitting.id}.in", route=(feed,))]
    services: tuple[Service, ...] = (
        Cable(id="cable", route=((draw(tenths(1000, 2500)), 2400), (draw(tenths(1000, 2500)), 1000))),
        Stud(id="stud", x=draw(tenths(1000, 2500))),
        Accessory(id="socket", x=draw(tenths(1000, 2500)), height=draw(tenths(300, 2200))),
    )
    return bare(
        *fitted,
        pipes=pipes,
        services=services,
        wall=Wall(width=12000, height=2400, thickness=140, left="free_end", right="free_end"),
        enclosure=Enclosure(left=500, width=2500, projection=900),
    )
