"""A whole job that a Plan accepts: up to six fittings, three services and four pipes."""

from collections.abc import Callable
from functools import cache
from typing import TypeVar

from hypothesis import strategies as st

from geometry.model import About, Hose, HoseOutlet, Job, Opening, Pipework, Rail
from geometry.model.wall import FarCut
from geometry.parts.records import HosePart
from tests.strategies.finish import finish
from tests.strategies.fittings import fitting
from tests.strategies.pipes import pipe, pipeworks
from tests.strategies.room import enclosure, sanitary
from tests.strategies.supply import houses, supplies
from tests.strategies.values import names, part_ids, texts, whole
from tests.strategies.wall import region, service, walls

T = TypeVar("T")


def _job(draw: st.DrawFn) -> Job:
    fresh = draw(names())

    def several(most: int, make: Callable[[str], T]) -> tuple[T, ...]:
        return tuple(make(next(fresh)) for _ in range(draw(whole(0, most))))

    bare = draw(walls())
    wall = bare.but(
        openings=several(1, lambda name: Opening(id=name, **region(draw, bare))),
        other_face=several(1, lambda name: FarCut(id=name, **region(draw, bare))) or None,
    )
    placed = several(6, lambda name: fitting(draw, wall, name))
    outlets = [fitting.id for fitting in placed if isinstance(fitting, HoseOutlet)]
    rails = [fitting.id for fitting in placed if isinstance(fitting, Rail)]
    run = several(4, lambda name: pipe(draw, wall, name, placed))
    return Job(
        about=About(title=draw(texts()), owner=draw(texts()), notes=draw(texts())),
        wall=wall,
        enclosure=enclosure(draw, wall, several(2, str)),
        services=several(3, lambda name: service(draw, wall, name)),
        fittings=placed,
        hoses=tuple(
            Hose(id=next(fresh), part=draw(part_ids(HosePart)), outlet=outlet, rail=rail)
            for outlet, rail in zip(outlets, rails, strict=False)
        ),
        pipes=tuple(pipe for pipe in run if pipe is not None),
        finish=finish(draw, wall, several(1, str), several(1, str)),
        pipework=draw(pipeworks()) if draw(st.booleans()) else Pipework(),
        house=draw(houses()),
        sanitary=several(1, lambda name: sanitary(draw, name)),
        supply=draw(supplies()) if draw(st.booleans()) else None,
    )


jobs = cache(st.composite(_job))
