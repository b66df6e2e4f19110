"""Hypothesis strategies for valid jobs on the model's 0.1 mm grid, with the generic parts.

`jobs()` draws a whole job that a Plan accepts. Its sense on a wall is not promised: fittings may overlap
and pipes may cross, since checks and drawings must bear that too. A strategy that is made anew for every
example is slow, so they are made once and the plain functions below draw from them.
"""

from collections.abc import Callable, Iterator
from functools import cache
from itertools import count
from typing import Literal, TypeVar, get_args

from hypothesis import strategies as st

from geometry.model import (
    XY,
    About,
    Accessory,
    Branch,
    Cable,
    Door,
    Enclosure,
    Finish,
    FinishArea,
    Fitting,
    Head,
    Hose,
    HoseOutlet,
    House,
    Job,
    Joist,
    Layer,
    Measured,
    Niche,
    Offcut,
    OldPipe,
    Opening,
    Photograph,
    Pipe,
    Pipework,
    Rail,
    Reading,
    Region,
    Sanitary,
    Screen,
    Service,
    Spout,
    Stud,
    Supply,
    Tiling,
    Upstream,
    Valve,
    Wall,
    Waste,
)
from geometry.model.finish import MovementJoint, Panels
from geometry.model.house import Backflow, Isolation, SanitaryKind, User
from geometry.model.pipes import Jointing, Turns
from geometry.model.pipework import Measure
from geometry.model.services import AccessoryKind
from geometry.model.wall import FarCut
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import (
    HeadPart,
    HosePart,
    OutletPart,
    Part,
    RailPart,
    SpoutPart,
    TubePart,
    ValvePart,
)
from geometry.units import on_grid

T = TypeVar("T")
KINDS: tuple[type[Fitting], ...] = (Valve, Head, HoseOutlet, Rail, Spout)
PORTS = {part.id: part.ports for part in generic_parts() if isinstance(part, ValvePart)}
WORDS = ("head", "półka 2", "R&D <b>x</b>", "50%%c \\P", "راس", "[ 1, 2 ]", "淋浴", "Ünder 🚿 tap", "-7")
"""Titles, and styles of names but for their marks, that have harmed files and drawings."""
SHARES = st.tuples(st.integers(0, 10_000), st.integers(0, 10_000))
"""Where on a wall, in ten thousandths of its width and height."""
SIDES: st.SearchStrategy[Literal["left", "right"]] = st.sampled_from(("left", "right"))
JOINTINGS: st.SearchStrategy[Jointing | None] = st.none() | st.sampled_from(get_args(Jointing))
TURNS: st.SearchStrategy[Turns] = st.sampled_from(get_args(Turns))
SANITARY: st.SearchStrategy[SanitaryKind] = st.sampled_from(get_args(SanitaryKind))
ACCESSORIES: st.SearchStrategy[AccessoryKind] = st.sampled_from(get_args(AccessoryKind))


@cache
def whole(low: int, high: int) -> st.SearchStrategy[int]:
    """Draw a whole number."""
    return st.integers(low, high)


@cache
def tenths(low: float, high: float) -> st.SearchStrategy[float]:
    """Draw a multiple of 0.1, as of a mm."""
    return st.integers(round(low * 10), round(high * 10)).map(lambda n: n / 10)


@cache
def perhaps(low: float, high: float) -> st.SearchStrategy[float | None]:
    """Draw a multiple of 0.1, or None."""
    return st.none() | tenths(low, high)


@cache
def texts() -> st.SearchStrategy[str]:
    """Draw a text of any script: as a title, it must come out as typed."""
    return st.sampled_from(WORDS) | st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=20)


@cache
def names() -> st.SearchStrategy[Iterator[str]]:
    """Draw an endless row of names, all different, of one style."""
    letters = st.characters(exclude_categories=("Cs", "Cc", "Zl", "Zp"), exclude_characters=".\"'/\\")
    words = st.sampled_from([word for word in WORDS if not set(word) & set("./\\")])
    styles = st.just("thing") | words | st.text(letters, max_size=8)
    return styles.map(lambda style: (f"{style}-{number}" for number in count(1)))


@cache
def part_ids(kind: type[Part]) -> st.SearchStrategy[str]:
    """Draw the id of a generic part of a kind."""
    return st.sampled_from([part.id for part in generic_parts() if isinstance(part, kind)])


@cache
def walls() -> st.SearchStrategy[Wall]:
    """Draw a small bare wall."""
    sides = st.sampled_from(("corner", "free_end"))
    make_ups = ("aerated_block", "dense_block", "hollow_block", "brick", "timber_stud", "metal_stud")
    return st.builds(
        Wall,
        width=tenths(600, 2600),
        height=tenths(2000, 2700),
        storey_height=tenths(2700, 3000),
        make_up=st.sampled_from(make_ups),
        thickness=tenths(50, 250),
        loadbearing=st.sampled_from(("yes", "no", "not_known")),
        left=sides,
        right=sides,
        shell=perhaps(10, 40),
        machine_cut=st.booleans(),
    )


def point(draw: st.DrawFn, wall: Wall) -> XY:
    """Draw a point on a wall, its edges included."""
    x, y = draw(SHARES)
    return on_grid(wall.width * x / 10_000), on_grid(wall.height * y / 10_000)


def route(draw: st.DrawFn, wall: Wall, least: int) -> tuple[XY, ...]:
    """Draw so many points on a wall, or up to three."""
    return tuple(point(draw, wall) for _ in range(draw(whole(least, 3))))


def _region(draw: st.DrawFn, wall: Wall) -> dict[str, float]:
    x, y = point(draw, wall)
    return {"x": x, "y": y, "width": draw(tenths(50, 900)), "height": draw(tenths(50, 900))}


def _enclosure(draw: st.DrawFn, wall: Wall, panes: tuple[str, ...] = ()) -> Enclosure:
    left, right = sorted(point(draw, wall)[0] for _ in range(2))
    floor = draw(tenths(0, 150))
    screens = tuple(
        Screen(id=name, start=_in_plan(draw), end=_in_plan(draw), top=draw(tenths(1800, 2000)))
        for name in panes[:1]
    )
    turn = draw(whole(-180, 270))
    doors = tuple(
        Door(
            id=name,
            hinge=_in_plan(draw),
            width=draw(tenths(300, 900)),
            angle_from=turn,
            angle_to=turn + draw(whole(1, 90)),
        )
        for name in panes[1:]
    )
    waste = Waste(x=left + draw(tenths(0, 700)), z=draw(tenths(0, 400)))
    return Enclosure(
        kind=draw(st.sampled_from(("tray", "bath", "wet_floor"))),
        left=left,
        width=max(on_grid(right - left), 0.1),
        projection=draw(tenths(600, 1000)),
        floor=floor,
        rim=floor + draw(tenths(0, 400)),
        entry=draw(st.sampled_from(("left", "right", "front"))),
        screens=screens,
        doors=doors,
        waste=waste if draw(st.booleans()) else None,
    )


def _in_plan(draw: st.DrawFn) -> XY:
    return draw(tenths(0, 2600)), draw(tenths(0, 1000))


def _fitting(draw: st.DrawFn, wall: Wall, name: str, kind: type[Fitting] | None = None) -> Fitting:
    kind = kind or KINDS[draw(whole(0, len(KINDS) - 1))]
    x, height = point(draw, wall)
    if kind is Rail:
        part, slider = draw(part_ids(RailPart)), draw(perhaps(0, 900))
        return Rail(id=name, part=part, x=x, height=height, slider=slider)
    recess = draw(perhaps(0, 120))
    if kind is Valve:
        part, side = draw(part_ids(ValvePart)), draw(SIDES)
        return Valve(id=name, part=part, x=x, height=height, recess=recess, side=side)
    if kind is Head:
        part, reach = draw(part_ids(HeadPart)), draw(perhaps(100, 500))
        return Head(id=name, part=part, x=x, height=height, recess=recess, reach=reach)
    if kind is HoseOutlet:
        return HoseOutlet(id=name, part=draw(part_ids(OutletPart)), x=x, height=height, recess=recess)
    return Spout(id=name, part=draw(part_ids(SpoutPart)), x=x, height=height, recess=recess)


def _service(draw: st.DrawFn, wall: Wall, name: str) -> Service:
    x, height = point(draw, wall)
    match draw(whole(0, 4)):
        case 0:
            return Accessory(id=name, kind=draw(ACCESSORIES), x=x, height=height)
        case 1:
            return Cable(id=name, route=route(draw, wall, 2), depth=draw(tenths(0, 40)))
        case 2:
            return OldPipe(id=name, route=route(draw, wall, 2), depth=draw(tenths(0, 40)))
        case 3:
            return Stud(id=name, x=x, wide=draw(tenths(30, 60)))
    return Joist(id=name, height=height, left=x, right=x + 400.0)


def _pipe(draw: st.DrawFn, wall: Wall, name: str, placed: tuple[Fitting, ...]) -> Pipe | None:
    valves = [fitting for fitting in placed if isinstance(fitting, Valve)]
    inlets = [f"{f.id}.{p.name}" for f in valves for p in PORTS[f.part] if p.service != "mixed"]
    outlets = [f"{f.id}.{p.name}" for f in valves for p in PORTS[f.part] if p.service == "mixed"]
    ends = [f"{f.id}.in" for f in placed if isinstance(f, Head | HoseOutlet | Spout)]
    if not valves:
        return None
    fed = not ends or draw(st.booleans())
    end = draw(st.sampled_from(inlets if fed else ends))
    service: Literal["hot", "cold", "mixed"] = "mixed"
    if fed:
        service = "hot" if end.endswith(".hot") else "cold"
    return Pipe(
        id=name,
        service=service,
        start=None if fed else draw(st.sampled_from(outlets)),
        end=end,
        route=route(draw, wall, int(fed)),
        tube=draw(part_ids(TubePart)),
        wrap=draw(tenths(0, 9)),
        depth=draw(perhaps(5, 60)),
        jointing=draw(JOINTINGS),
        turns=draw(TURNS),
    )


@cache
def pipeworks() -> st.SearchStrategy[Pipework]:
    """Draw what is set for all pipes: lengths, off-cuts at hand, a measured fitting, photographs."""
    offcut = st.builds(Offcut, tube=part_ids(TubePart), length=tenths(100, 2900))
    measured = st.builds(
        Measured,
        jointing=st.sampled_from(get_args(Jointing)),
        outside=st.just(15.0),
        what=st.sampled_from(get_args(Measure)),
        value=tenths(-10, 40),
    )
    return st.builds(
        Pipework,
        stock_length=tenths(2000, 6000),
        kerf=tenths(0, 2),
        offcuts=st.lists(offcut, max_size=2).map(tuple),
        measured=st.lists(measured, max_size=1).map(tuple),
        photographs=st.lists(st.builds(Photograph, file=st.just("a b/c.jpg"), shows=texts()), max_size=1).map(
            tuple
        ),
    )


@cache
def layers() -> st.SearchStrategy[tuple[Layer, ...]]:
    """Draw the layers of a build-up."""
    kinds = st.sampled_from(("board", "plaster", "tanking", "adhesive", "tile", "panel"))
    layer = st.builds(Layer, kind=kinds, thickness=tenths(0, 20), tolerance=tenths(0, 3), name=texts())
    return st.lists(layer, max_size=3).map(tuple)


@cache
def tilings() -> st.SearchStrategy[Tiling]:
    """Draw tiles with their bond and start."""
    bonds = st.sampled_from(("straight", "half", "third", "vertical", "herringbone"))
    size = tenths(50, 600)
    return st.builds(
        Tiling,
        wide=size,
        high=size,
        joint=tenths(0, 5),
        bond=bonds,
        start_x=tenths(-300, 300),
        start_y=tenths(-300, 300),
        direction=SIDES,
        border=tenths(0, 6),
        weight=perhaps(5, 60),
        spare=whole(0, 20).map(float),
        boxed=whole(0, 30).map(float),
        trim=tenths(0, 12),
    )


@cache
def panels() -> st.SearchStrategy[Panels]:
    """Draw sheets that face a wall."""
    return st.builds(
        Panels,
        wide=tenths(300, 1200),
        high=tenths(600, 2600),
        joint=tenths(0, 4),
        trim=tenths(0, 5),
        start_x=tenths(-300, 300),
        start_y=tenths(-300, 300),
    )


def _movement(draw: st.DrawFn, wall: Wall, name: str) -> MovementJoint:
    x, y = point(draw, wall)
    plumb = draw(st.booleans())
    runs: Literal["plumb", "level"] = "plumb" if plumb else "level"
    return MovementJoint(id=name, runs=runs, at=x if plumb else y, width=draw(tenths(3, 12)))


def _finish(
    draw: st.DrawFn, wall: Wall, niches: tuple[str, ...] = (), joints: tuple[str, ...] = ()
) -> Finish:
    areas = (
        FinishArea(id="part", layers=draw(layers()), region=Region(**_region(draw, wall))),
        FinishArea(id="all", layers=draw(layers())),
    )
    return Finish(
        areas=areas[draw(whole(0, 2)) :],
        tiling=draw(tilings()) if draw(st.booleans()) else None,
        panels=draw(panels()) if draw(st.booleans()) else None,
        niches=tuple(Niche(id=name, depth=draw(tenths(40, 120)), **_region(draw, wall)) for name in niches),
        movement=tuple(_movement(draw, wall, name) for name in joints),
        board_wider=draw(tenths(0, 10)),
        carries=draw(perhaps(10, 80)),
    )


@cache
def supplies() -> st.SearchStrategy[Supply]:
    """Draw what was measured at a house."""
    reading = st.builds(Reading, pressure=tenths(0, 0.4), flow=tenths(1, 30))
    stretch = st.builds(Upstream, tube=part_ids(TubePart), length=tenths(100, 9000))
    branch = st.builds(
        Branch,
        static=tenths(0.5, 8),
        readings=st.lists(reading, max_size=2).map(tuple),
        temperature=tenths(5, 65),
        upstream=st.lists(stretch, max_size=2).map(tuple),
    )
    sources = st.sampled_from(("instant_heater", "stored_mains", "stored_gravity", "boosted"))
    return st.builds(Supply, cold=branch, hot=branch, source=sources, heater_kw=perhaps(3, 40))


@cache
def houses() -> st.SearchStrategy[House]:
    """Draw who uses the shower and how its water is protected."""
    return st.builds(
        House,
        dwelling=st.booleans(),
        users=st.lists(st.sampled_from(get_args(User)), min_size=1, unique=True).map(tuple),
        backflow=st.sampled_from(get_args(Backflow)),
        isolation=st.sampled_from(get_args(Isolation)),
    )


def _sanitary(draw: st.DrawFn, name: str) -> Sanitary:
    x, z = _in_plan(draw)
    kind = draw(SANITARY)
    return Sanitary(id=name, kind=kind, x=x, z=z, wide=draw(tenths(0, 600)), rim=draw(tenths(0, 900)))


def _job(draw: st.DrawFn) -> Job:
    fresh = draw(names())

    def several(most: int, make: Callable[[str], T]) -> tuple[T, ...]:
        return tuple(make(next(fresh)) for _ in range(draw(whole(0, most))))

    bare = draw(walls())
    wall = bare.but(
        openings=several(1, lambda name: Opening(id=name, **_region(draw, bare))),
        other_face=several(1, lambda name: FarCut(id=name, **_region(draw, bare))) or None,
    )
    placed = several(6, lambda name: _fitting(draw, wall, name))
    outlets = [fitting.id for fitting in placed if isinstance(fitting, HoseOutlet)]
    rails = [fitting.id for fitting in placed if isinstance(fitting, Rail)]
    run = several(4, lambda name: _pipe(draw, wall, name, placed))
    return Job(
        about=About(title=draw(texts()), owner=draw(texts()), notes=draw(texts())),
        wall=wall,
        enclosure=_enclosure(draw, wall, several(2, str)),
        services=several(3, lambda name: _service(draw, wall, name)),
        fittings=placed,
        hoses=tuple(
            Hose(id=next(fresh), part=draw(part_ids(HosePart)), outlet=outlet, rail=rail)
            for outlet, rail in zip(outlets, rails, strict=False)
        ),
        pipes=tuple(pipe for pipe in run if pipe is not None),
        finish=_finish(draw, wall, several(1, str), several(1, str)),
        pipework=draw(pipeworks()) if draw(st.booleans()) else Pipework(),
        house=draw(houses()),
        sanitary=several(1, lambda name: _sanitary(draw, name)),
        supply=draw(supplies()) if draw(st.booleans()) else None,
    )


# What others draw from: `fittings(wall, name)`, or of one kind, `fittings(wall, name, Valve)`; the enclosure
# with a screen and a door if it gets names for them; a pipe between the fittings given, None if it finds no
# ports; a job of up to six fittings, three services and four pipes.
enclosures = st.composite(_enclosure)
fittings = st.composite(_fitting)
services = st.composite(_service)
pipes = st.composite(_pipe)
finishes = st.composite(_finish)
jobs = cache(st.composite(_job))
