"""What is named beside the wall, in the trade's words, and the point of it that a leader touches.

Model millimetres, x right and y up.
"""

import math
from collections.abc import Iterator
from itertools import pairwise

from export.drawings.labels import Label
from export.drawings.marks import enclosed
from export.pen import XY
from geometry.model import Accessory, Cable, Joist, OldPipe, Stud
from geometry.model.services import Service
from geometry.parts.records import Disc, Form
from geometry.plan import Elbowed, Plan
from geometry.units import number

_EDGE = math.sqrt(0.5)  # leaders touch a round plate at its upper right


def wall_labels(plan: Plan) -> tuple[Label, ...]:
    """Return a label for each fitting, hose, pipe and service, and for what the wall has of its own."""
    return (*_fittings(plan), *_hoses(plan), *_pipes(plan), *_services(plan), *_surroundings(plan))


def floor_of(thing: str) -> str:
    """Return what heights count from, in words: `tray floor`, `bath floor`, `wet floor`."""
    return thing if thing.endswith("floor") else f"{thing} floor"


def datum_words(thing: str) -> dict[str, str]:
    """Return what is called a tray in the marks of a tape, and may be a bath or a wet floor."""
    return {"tray edge": f"{thing.removeprefix('wet ')} edge", "tray floor": floor_of(thing)}


def _named(name: str, what: str) -> str:
    """Return the id and what it is; only once if both are the same word."""
    return what if name.casefold() == what.casefold() else f"{name}: {what}"


def _fittings(plan: Plan) -> Iterator[Label]:
    for valve in plan.valves:
        yield Label(
            _named(valve.fitting.id, valve.part.name), _upper_right(valve.part.plate, valve.fitting.at)
        )
    for head in plan.heads:
        x, y = head.fitting.at
        under = y - head.part.drop + head.part.thickness / 2
        yield Label(_named(head.fitting.id, head.part.name), (x + head.part.diameter / 2, under))
    elbows: tuple[Elbowed, ...] = (*plan.outlets, *plan.spouts)
    for placed in elbows:
        flange = Disc(diameter=placed.part.flange)
        yield Label(_named(placed.fitting.id, placed.part.name), _upper_right(flange, placed.fitting.at))
    for rail in plan.rails:
        x, y = rail.fitting.x + rail.part.diameter / 2, rail.fitting.height + rail.part.length * 0.3
        yield Label(_named(rail.fitting.id, rail.part.name), (x, y))


def _upper_right(form: Form, at: XY) -> XY:
    wide, high = (form.diameter, form.diameter) if isinstance(form, Disc) else (form.wide, form.high)
    share = _EDGE if isinstance(form, Disc) else 1.0
    return at[0] + share * wide / 2, at[1] + share * high / 2


def _hoses(plan: Plan) -> Iterator[Label]:
    for hung in plan.hoses:
        x, y = hung.outlet.fitting.at
        # The nozzle, where the hose begins: it is there whatever the slider's height.
        yield Label(_named(hung.hose.id, hung.part.name), (x, y + hung.outlet.part.nozzle_y))


def _pipes(plan: Plan) -> Iterator[Label]:
    for pipe in plan.job.pipes:
        points = plan.courses[pipe.id].points
        what = f"{pipe.service}, {plan.tubes[pipe.id].name}"
        yield Label(f"{pipe.id}: {what}", _along(points, 0.35))


def _along(points: tuple[XY, ...], share: float) -> XY:
    """Return the point at a share of the longest leg."""
    if len(points) < 2:
        return points[0]
    a, b = max(pairwise(points), key=lambda leg: math.dist(*leg))
    return a[0] + (b[0] - a[0]) * share, a[1] + (b[1] - a[1]) * share


def _services(plan: Plan) -> Iterator[Label]:
    for service in plan.job.services:
        yield Label(_named(service.id, _kind(service)), _touched(service, plan.job.wall.height))


def _kind(service: Service) -> str:
    if isinstance(service, Accessory):
        return service.kind
    if isinstance(service, Cable | OldPipe):
        what = "cable" if isinstance(service, Cable) else "old pipe"
        return f"{what}, {number(service.depth)} deep"
    return "stud" if isinstance(service, Stud) else "noggin"


def _touched(service: Service, ceiling: float) -> XY:
    if isinstance(service, Accessory):
        return service.x + service.wide / 2, service.height
    if isinstance(service, Cable | OldPipe):
        return _along(service.route, 0.5)
    if isinstance(service, Joist):
        return service.right, service.height
    return service.x, ceiling * 0.94


def _surroundings(plan: Plan) -> Iterator[Label]:
    enclosure = plan.job.enclosure
    size = f"{enclosed(plan)} {number(enclosure.width)} × {number(enclosure.projection)}"
    levels = f"floor {number(enclosure.floor)}, rim {number(enclosure.rim)} above FFL"
    yield Label(f"{size}, {levels}", (enclosure.right, enclosure.rim))
    yield Label("FFL: finished floor level", (max(plan.job.wall.width, enclosure.right), 0.0))
    for opening in plan.job.wall.openings:
        yield Label(
            _named(opening.id, "opening"), (opening.x + opening.width, opening.y + opening.height / 2)
        )
    for pane in plan.panes:
        _, y0, x1, y1 = pane.in_elevation().outline.bounds
        yield Label(_named(pane.owner, pane.what), (x1, y0 + (y1 - y0) * 0.6))
