"""Giving a thing another name: what hangs on it by name follows."""

from geometry.edits.refs import Ref
from geometry.model import Job, Pipe


def renamed(job: Job, ref: Ref, name: str) -> Job:
    """Return the job with one thing called by another name; its hoses and pipes go with a fitting.

    Raises:
        ValueError: the name is impossible, or stands already.
    """
    if ref.kind == "fitting":
        fittings = tuple(f.but(id=name) if f.id == ref.id else f for f in job.fittings)
        hoses = tuple(
            hose.but(
                outlet=name if hose.outlet == ref.id else hose.outlet,
                rail=name if hose.rail == ref.id else hose.rail,
            )
            for hose in job.hoses
        )
        pipes = tuple(_with_ends(pipe, ref.id, name) for pipe in job.pipes)
        return job.but(fittings=fittings, hoses=hoses, pipes=pipes)
    if ref.kind == "hose":
        return job.but(hoses=tuple(h.but(id=name) if h.id == ref.id else h for h in job.hoses))
    if ref.kind == "pipe":
        return job.but(pipes=tuple(p.but(id=name) if p.id == ref.id else p for p in job.pipes))
    if ref.kind == "service":
        return job.but(services=tuple(s.but(id=name) if s.id == ref.id else s for s in job.services))
    openings = tuple(o.but(id=name) if o.id == ref.id else o for o in job.wall.openings)
    return job.but(wall=job.wall.but(openings=openings))


def _with_ends(pipe: Pipe, fitting: str, name: str) -> Pipe:
    def renamed_port(port: str | None) -> str | None:
        if port is None or port.partition(".")[0] != fitting:
            return port
        return f"{name}.{port.partition('.')[2]}"

    start, end = renamed_port(pipe.start), renamed_port(pipe.end)
    return pipe if (start, end) == (pipe.start, pipe.end) else pipe.but(start=start, end=end)


def replaced(job: Job, ref: Ref, thing: object) -> Job:
    """Return the job in which a record stands in place of the thing of a reference, its name unchanged."""

    def put(records: tuple[object, ...]) -> tuple[object, ...]:
        return tuple(thing if getattr(record, "id", None) == ref.id else record for record in records)

    if ref.kind == "opening":
        return job.but(wall=job.wall.but(openings=put(job.wall.openings)))
    field = {"fitting": "fittings", "hose": "hoses", "pipe": "pipes", "service": "services"}[ref.kind]
    return job.but(**{field: put(getattr(job, field))})


def successor(before: tuple[Ref, ...], ref: Ref, after: tuple[Ref, ...]) -> Ref | None:
    """Return what a thing is called now: the same reference, or the one that has taken its place in the job.

    Args:
        before: all references before an edit.
        ref: one of them.
        after: all references after it.
    """
    if ref in after:
        return ref
    if ref not in before or len(before) != len(after):
        return None
    there = after[before.index(ref)]
    return there if there.kind == ref.kind and there not in before else None


def followed(refs: tuple[Ref, ...], before: tuple[Ref, ...], after: tuple[Ref, ...]) -> tuple[Ref, ...]:
    """Return references under the names that their things have now; those of removed ones stay."""
    return tuple(successor(before, ref, after) or ref for ref in refs)
