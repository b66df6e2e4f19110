"""A pipe between the fittings of a wall, and what is set for all pipes."""

from functools import cache
from typing import Literal, get_args

from hypothesis import strategies as st

from geometry.model import (
    Fitting,
    Head,
    HoseOutlet,
    Measured,
    Offcut,
    Photograph,
    Pipe,
    Pipework,
    Spout,
    Valve,
    Wall,
)
from geometry.model.pipes import Jointing, Turns
from geometry.model.pipework import Measure
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import TubePart, ValvePart
from tests.strategies.values import part_ids, perhaps, tenths, texts
from tests.strategies.wall import route

PORTS = {part.id: part.ports for part in generic_parts() if isinstance(part, ValvePart)}
JOINTINGS: st.SearchStrategy[Jointing | None] = st.none() | st.sampled_from(get_args(Jointing))
TURNS: st.SearchStrategy[Turns] = st.sampled_from(get_args(Turns))


def pipe(draw: st.DrawFn, wall: Wall, name: str, placed: tuple[Fitting, ...]) -> Pipe | None:
    """Draw a pipe from the floor to a valve, or from a valve to an outlet; None if there is no valve."""
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
