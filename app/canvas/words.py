"""What a thing is called and where it is, in words: for names on the drawing and for screen readers."""

from typing import Any

from export.drawings.marks import enclosed
from export.drawings.names import datum_words
from geometry.edits.refs import TILES, Ref, things
from geometry.model import XY, Accessory, Cable, Fitting, Hose, Joist, OldPipe, Opening, Pipe, Stud
from geometry.plan import Placed, Plan
from geometry.setting_out.lines import lines
from geometry.units import Display, with_unit


def what(plan: Plan, ref: Ref) -> str:
    """Return what a thing is: the name of its part, or its kind."""
    if ref == TILES:
        return "first tile"
    thing = things(plan.job).get(ref)
    match thing:
        case Hose():
            return next(hung.part.name for hung in plan.hoses if hung.hose.id == ref.id)
        case Pipe():
            return f"{thing.service}, {plan.tubes[thing.id].name}"
        case Accessory():
            return thing.kind
        case Cable():
            return "cable"
        case OldPipe():
            return "old pipe"
        case Stud():
            return "stud"
        case Joist():
            return "noggin"
        case Opening():
            return "opening"
        case None:
            return ""
    held: tuple[tuple[Placed[Any, Any], ...], ...] = (
        plan.valves, plan.heads, plan.outlets, plan.rails, plan.spouts
    )  # fmt: skip
    return next(str(placed.part.name) for kind in held for placed in kind if placed.fitting.id == ref.id)


def named(plan: Plan, ref: Ref) -> str:
    """Return the id of a thing and what it is; what it is alone if that begins with the id."""
    kind = what(plan, ref)
    if ref == TILES or kind.casefold().startswith(f"{ref.id.casefold()},"):
        return kind
    return ref.id if not kind or kind.casefold() == ref.id.casefold() else f"{ref.id}: {kind}"


def place_of(plan: Plan, ref: Ref) -> XY | None:
    """Return the point by which a thing is set out, in mm, or None if it has no single one."""
    tiling, thing = plan.job.finish.tiling, things(plan.job).get(ref)
    if ref == TILES and tiling:
        return tiling.start_x, tiling.start_y
    if isinstance(thing, Fitting):
        return thing.at
    if isinstance(thing, Accessory):
        return thing.x, thing.height
    if isinstance(thing, Opening):
        return thing.x, thing.y
    if isinstance(thing, Stud):
        return thing.x, plan.job.enclosure.floor
    return None


def whereabouts(plan: Plan, at: XY, unit: Display = "mm") -> str:
    """Say where a point of the wall is: its distances from the tray's edge and floor."""
    held, words = lines(plan.job.enclosure), datum_words(enclosed(plan))
    across, up = at[0] - held.left, at[1] - held.floor
    side, level = "left of" if across < 0 else "from", "below" if up < 0 else "above"
    along, high = with_unit(abs(across), unit), with_unit(abs(up), unit)
    return f"{along} {side} {words['tray edge']}, {high} {level} {words['tray floor']}"
