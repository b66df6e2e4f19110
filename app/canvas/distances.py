"""Typing a distance: what moves, and by how much, so that the running dimension says what was typed."""

from collections.abc import Collection

from app.canvas.gestures.move import move_title
from app.canvas.tags import Tag
from geometry.edits.moves import moved_by
from geometry.edits.refs import Ref
from geometry.model import Job
from geometry.plan import Plan


def moved_to(plan: Plan, tag: Tag, distance: float, chosen: Collection[Ref]) -> tuple[str, Job]:
    """Return the title and the job in which the things of a tag lie at another distance.

    Where several things share the tag, those that are chosen move, or all if none of them is.

    Args:
        plan: the job with its parts.
        tag: the running dimension that was typed over.
        distance: from the same datum, in mm.
        chosen: what is chosen.

    Raises:
        ValueError: the place is farther off than anything on a wall may lie.
    """
    refs = [ref for ref in tag.refs if ref in chosen] or list(tag.refs)
    step = distance - tag.distance
    dx, dy = (step, 0.0) if tag.axis == "x" else (0.0, step)
    return move_title(refs), moved_by(plan, refs, dx, dy)
