"""Edits of what covers the wall. Lengths in mm on the wall."""

from geometry.edits.moves import moved_by
from geometry.edits.refs import Ref
from geometry.model import XY, Job, Region
from geometry.plan import Plan
from geometry.units import on_grid


def started(plan: Plan, at: XY, move: XY = (0.0, 0.0)) -> Job:
    """Return the job with its first tile at a place, and all its fittings moved.

    Args:
        plan: the job with its parts.
        at: lower left corner of the first tile.
        move: along the wall and up; what hangs under the ceiling only goes along.

    Raises:
        ValueError: nothing is tiled, or a fitting would come farther off than anything on a wall may lie.
    """
    job = moved_by(plan, [Ref("fitting", fitting.id) for fitting in plan.job.fittings], *move)
    tiling = job.finish.tiling
    if tiling is None:
        raise ValueError("nothing is tiled, so there is no start to choose")
    placed = tiling.but(start_x=on_grid(at[0]), start_y=on_grid(at[1]))
    return job.but(finish=job.finish.but(tiling=placed))


def outlined(job: Job, area: str, region: Region) -> Job:
    """Return the job in which an area of the finish covers another part of the wall."""
    areas = tuple(each.but(region=region) if each.id == area else each for each in job.finish.areas)
    return job.but(finish=job.finish.but(areas=areas))
