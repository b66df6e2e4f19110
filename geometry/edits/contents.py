"""Adding, removing and duplicating things of a job."""

from collections.abc import Collection

from geometry.edits.moves import moved
from geometry.edits.refs import Ref, free_name, things
from geometry.model import XY, Fitting, Head, Hose, HoseOutlet, Job, Opening, Pipe, Rail, Spout, Valve
from geometry.parts.records import (
    HeadPart,
    HosePart,
    OutletPart,
    Part,
    RailPart,
    SpoutPart,
    ValvePart,
)
from geometry.plan import Plan
from geometry.units import on_grid


def removed(job: Job, chosen: Collection[Ref]) -> Job:
    """Return the job without the chosen things, and without hoses and pipes that hung on them."""
    gone = {
        kind: {ref.id for ref in chosen if ref.kind == kind}
        for kind in ("fitting", "hose", "pipe", "service", "opening")
    }
    fittings = gone["fitting"]

    def ends_on_gone(pipe_end: str | None) -> bool:
        return pipe_end is not None and pipe_end.partition(".")[0] in fittings

    return job.but(
        fittings=tuple(f for f in job.fittings if f.id not in fittings),
        hoses=tuple(h for h in job.hoses if h.id not in gone["hose"] and not {h.outlet, h.rail} & fittings),
        pipes=tuple(
            p
            for p in job.pipes
            if p.id not in gone["pipe"] and not ends_on_gone(p.start) and not ends_on_gone(p.end)
        ),
        services=tuple(s for s in job.services if s.id not in gone["service"]),
        wall=job.wall.but(openings=tuple(o for o in job.wall.openings if o.id not in gone["opening"]))
        if gone["opening"]
        else job.wall,
    )


def added(job: Job, part: Part, at: XY) -> tuple[Job, Ref]:
    """Return the job with a fitting of a part at a place, and what was added.

    A hose is hung between the first outlet and rail that have none yet.

    Raises:
        ValueError: a part of this kind is not fitted by itself, or a hose finds no outlet and rail.
    """
    x, y = on_grid(at[0]), on_grid(at[1])
    if isinstance(part, HosePart):
        return _with_hose(job, part)
    kinds: tuple[tuple[type[Part], type[Fitting], str], ...] = (
        (ValvePart, Valve, "valve"),
        (HeadPart, Head, "head"),
        (OutletPart, HoseOutlet, "outlet"),
        (RailPart, Rail, "rail"),
        (SpoutPart, Spout, "spout"),
    )
    for part_kind, kind, name in kinds:
        if isinstance(part, part_kind):
            if isinstance(part, HeadPart) and part.mount == "ceiling":
                y = job.wall.height
            fitting = kind(id=free_name(job, name), part=part.id, x=x, height=y)
            return job.but(fittings=(*job.fittings, fitting)), Ref("fitting", fitting.id)
    raise ValueError(f"{part.name} is not fitted to the wall by itself")


def _with_hose(job: Job, part: HosePart) -> tuple[Job, Ref]:
    outlets = [
        f.id for f in job.fittings if isinstance(f, HoseOutlet) and f.id not in {h.outlet for h in job.hoses}
    ]
    rails = [f.id for f in job.fittings if isinstance(f, Rail) and f.id not in {h.rail for h in job.hoses}]
    if not outlets or not rails:
        raise ValueError("a hose wants an outlet and a rail that have none yet")
    hose = Hose(id=free_name(job, "hose"), part=part.id, outlet=outlets[0], rail=rails[0])
    return job.but(hoses=(*job.hoses, hose)), Ref("hose", hose.id)


def duplicated(
    plan: Plan, chosen: Collection[Ref], dx: float = 100.0, dy: float = 0.0
) -> tuple[Job, tuple[Ref, ...]]:
    """Return the job with copies of the chosen things beside them, and the copies; pipes stay single."""
    job, copies, everything = plan.job, [], things(plan.job)
    for ref in chosen:
        thing = everything[ref]
        if isinstance(thing, Hose | Pipe):
            continue
        copy = thing.but(id=free_name(job, ref.id))
        if isinstance(copy, Opening):
            job = job.but(wall=job.wall.but(openings=(*job.wall.openings, copy)))
        elif isinstance(copy, Fitting):
            job = job.but(fittings=(*job.fittings, copy))
        else:
            job = job.but(services=(*job.services, copy))
        copies.append(Ref(ref.kind, copy.id))
    return moved(Plan(job, plan.catalogue, plan.rules), copies, dx, dy), tuple(copies)
