"""Running dimensions: every distance counted from one datum, as a tape is used when it is laid once."""

from typing import NamedTuple

from geometry.plan import Plan
from geometry.setting_out.lines import lines
from geometry.units import on_grid


class Mark(NamedTuple):
    """One mark on a tape: its place on the wall, its distance from the datum, and what is there."""

    at: float
    distance: float
    labels: tuple[str, ...]


def across(plan: Plan) -> tuple[Mark, ...]:
    """Return the marks along the wall, counted from the left edge of the tray; x rises."""
    held = lines(plan.job.enclosure)
    marks = [
        (held.left, "tray edge"),
        (held.quarter_left, "quarter line"),
        (held.centre, "centre line"),
        (held.quarter_right, "quarter line"),
        (held.right, "tray edge"),
        *((fitting.x, fitting.id) for fitting in plan.job.fittings),
    ]
    return _chain(marks, held.left)


def upward(plan: Plan) -> tuple[Mark, ...]:
    """Return the marks up the wall, counted from the finished tray floor; y rises."""
    floor = plan.job.enclosure.floor
    marks = [(floor, "tray floor")]
    marks += [(placed.fitting.height, placed.fitting.id) for placed in (*plan.valves, *plan.elbowed)]
    for rail in plan.rails:
        for name, up in (("low fixing", rail.part.fixing_low), ("high fixing", rail.part.fixing_high)):
            marks.append((rail.fitting.height + up, f"{rail.fitting.id} {name}"))
    return _chain(marks, floor)


def _chain(marks: list[tuple[float, str]], datum: float) -> tuple[Mark, ...]:
    """Gather marks that fall on the same tenth of a mm, in rising order; distances add up in tenths."""
    found: dict[float, Mark] = {}
    for tenth, label in sorted((on_grid(at), label) for at, label in marks):
        mark = found.get(tenth, Mark(tenth, on_grid(tenth - on_grid(datum)), ()))
        found[tenth] = mark._replace(labels=(*mark.labels, label))
    return tuple(found.values())
