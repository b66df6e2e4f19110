"""References to the things of a job that a person can choose."""

import re
from itertools import count
from typing import Literal, NamedTuple

from geometry.model import Fitting, Hose, Job, Opening, Pipe, Service
from geometry.model.record import MOST_NAME

Kind = Literal["fitting", "hose", "pipe", "service", "opening", "tiles"]
Thing = Fitting | Hose | Pipe | Service | Opening


class Ref(NamedTuple):
    """One thing of a job: its kind and its id."""

    kind: Kind
    id: str


TILES = Ref("tiles", "tiles")
"""All tiles together, which are chosen and moved by the corner at which the first one starts."""


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


def choosable(job: Job) -> tuple[Ref, ...]:
    """Return all that can be chosen: the things of a job, and its tiles."""
    return (*things(job), *((TILES,) if job.finish.tiling else ()))


def free_name(job: Job, wish: str) -> str:
    """Return a name that nothing in the job has: the wish, or the wish with a number behind it."""
    taken = {name for _, name in job.named()}
    if wish not in taken:
        return wish
    stem = re.sub(r"-\d+$", "", wish) or wish
    numbered = (f"{stem[: MOST_NAME - 1 - len(str(number))]}-{number}" for number in count(2))
    return next(name for name in numbered if name not in taken)
