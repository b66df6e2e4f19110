"""The rows of the table of all parts, and what typing into one of their cells does to the job. No widgets."""

from typing import NamedTuple

from app.panels.words import HANDS, WATERS, kind_word, said, translate
from geometry.edits.moves import moved
from geometry.edits.refs import Ref, Thing, things
from geometry.edits.renaming import renamed, replaced
from geometry.finding import Status
from geometry.model import (
    Accessory,
    Cable,
    Fitting,
    Hose,
    Job,
    Joist,
    OldPipe,
    Opening,
    Pipe,
    Rail,
    Stud,
    Valve,
)
from geometry.parts.catalogue import Catalogue
from geometry.parts.records import Part
from geometry.plan import Plan
from geometry.shape.fittings import slider_of
from geometry.units import Display, length, on_grid, shown

THING, NAME, PART, ACROSS, UP, MORE = range(6)
COLUMNS = 7
"""The last one tells the worst finding."""


class Row(NamedTuple):
    """One thing: its reference, what its cells show, and the worst status of its findings."""

    ref: Ref
    cells: tuple[str, ...]
    worst: Status | None


def heading(column: int, display: Display) -> str:
    """Return the heading of a column: across from the tray's left edge, up from its floor."""
    return (
        translate("PartsTable", "Thing"),
        translate("PartsTable", "Name"),
        translate("PartsTable", "Part"),
        f"{translate('PartsTable', 'Across')}, {display}",
        f"{translate('PartsTable', 'Up')}, {display}",
        translate("PartsTable", "More"),
        translate("PartsTable", "Findings"),
    )[column]


def row_of(plan: Plan, ref: Ref, thing: Thing, display: Display, worst: Status | None) -> Row:
    """Return the row of a thing; lengths count from the tray's left edge and from its floor."""
    x, y = place_of(thing)
    tray = plan.job.enclosure
    across = "" if x is None else shown(on_grid(x - tray.left), display)
    up = "" if y is None else shown(on_grid(y - tray.floor), display)
    return Row(
        ref, (kind_word(thing), ref.id, _part(plan, thing), across, up, _more(plan, thing, display)), worst
    )


def place_of(thing: Thing) -> tuple[float | None, float | None]:
    """Return where a thing is, in mm on the wall; None where that follows from other things."""
    if isinstance(thing, Accessory | Fitting):
        return thing.x, thing.height
    match thing:
        case Opening():
            return thing.x, thing.y
        case Cable() | OldPipe():
            return thing.route[0]
        case Stud():
            return thing.x, None
        case Joist():
            return thing.left, thing.height
        case _:
            return None, None


def edited(plan: Plan, ref: Ref, column: int, text: str, display: Display) -> tuple[str, Job]:
    """Return the title and the job of an edit by typing into a cell.

    Args:
        plan: the job as it is.
        ref: the thing of the row.
        column: of the cell.
        text: what was typed.
        display: the unit of a number without one.

    Raises:
        ValueError: the text makes no sense there; the message says why.
    """
    thing = things(plan.job)[ref]
    if column == NAME:
        title = translate("PartsTable", "Change name of %1")
        return title.replace("%1", ref.id), renamed(plan.job, ref, text.strip())
    if column == PART:
        part = _part_called(plan, thing, text)
        title = translate("PartsTable", "Change part of %1")
        return title.replace("%1", ref.id), replaced(plan.job, ref, thing.but(part=part))
    title = translate("PartsTable", "Move %1").replace("%1", ref.id)
    x, y = place_of(thing)
    tray, typed = plan.job.enclosure, length(text, display)
    if column == ACROSS and x is not None:
        return title, moved(plan, (ref,), typed + tray.left - x, 0.0)
    if column == UP and y is not None:
        return title, moved(plan, (ref,), 0.0, typed + tray.floor - y)
    raise ValueError(translate("PartsTable", "this cell follows from others"))


def _part(plan: Plan, thing: Thing) -> str:
    """Return the id of what a thing is made of."""
    if isinstance(thing, Fitting | Hose):
        return thing.part
    return plan.tubes[thing.id].name if isinstance(thing, Pipe) else ""


def _part_called(plan: Plan, thing: Thing, text: str) -> str:
    """Return the id of the part of the same kind that was typed, by its id or by its name."""
    if not isinstance(thing, Fitting | Hose):
        raise ValueError(translate("PartsTable", "a pipe's tube is chosen in the step Pipe"))
    same = _same_kind(plan.catalogue, thing.part)
    wanted = text.strip().casefold()
    for part in same:
        if wanted in (part.id.casefold(), part.name.casefold()):
            return part.id
    known = ", ".join(part.id for part in same)
    problem = translate("PartsTable", "no such part: %1; there are %2")
    raise ValueError(problem.replace("%1", repr(text[:40])).replace("%2", known))


def _same_kind(catalogue: Catalogue, name: str) -> list[Part]:
    kind = type(next(part for part in catalogue if part.id == name))
    return [part for part in catalogue if isinstance(part, kind)]


def _more(plan: Plan, thing: Thing, display: Display) -> str:
    """Return what else is worth hearing of a thing."""
    match thing:
        case Valve():
            side = translate("PartsTable", "an outlet leaves on the %1")
            return side.replace("%1", said(HANDS[thing.side]).lower())
        case Rail():
            part = next(placed.part for placed in plan.rails if placed.fitting is thing)
            slider = translate("PartsTable", "slider %1 above its foot")
            return slider.replace("%1", shown(slider_of(thing, part), display))
        case Hose():
            hangs = translate("PartsTable", "from %1 to %2")
            return hangs.replace("%1", thing.outlet).replace("%2", thing.rail)
        case Pipe():
            return _run(thing)
        case Opening():
            return f"{shown(thing.width, display)} x {shown(thing.height, display)}"
        case _:
            return ""


def _run(pipe: Pipe) -> str:
    start = pipe.start or translate("PartsTable", "the supply")
    runs = translate("PartsTable", "%1, from %2 to %3")
    return runs.replace("%1", said(WATERS[pipe.service])).replace("%2", start).replace("%3", pipe.end)
