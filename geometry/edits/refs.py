"""References to the things of a job that a person can choose."""

from typing import Literal, NamedTuple

from geometry.model import Fitting, Hose, Job, Opening, Pipe, Service

Kind = Literal["fitting", "hose", "pipe", "service", "opening"]
Thing = Fitting | Hose | Pipe | Service | Opening


class Ref(NamedTuple):
    """One thing of a job: its kind and its id."""

    kind: Kind
    id: str


def things(job: Job) -> dict[Ref, Thing]:
    """Return everything in a job that can be chosen, in the order of the file."""
    found: dict[Ref, Thing] = {}
    for kind, records in (
        ("fitting", job.fittings),
        ("hose", job.hoses),
        ("pipe", job.pipes),
        ("service", job.services),
        ("opening", job.wall.openings),
    ):
        found.update({Ref(kind, record.id): record for record in records})  # type: ignore[arg-type]
    return found


def free_name(job: Job, wish: str) -> str:
    """Return a name that nothing in the job has: the wish, or the wish with a number behind it."""
    taken = {ref.id for ref in things(job)}
    stem = wish.rstrip("0123456789").rstrip("-") or wish
    if wish not in taken:
        return wish
    return next(name for number in range(2, len(taken) + 3) if (name := f"{stem}-{number}") not in taken)
