"""What is marked on the bare wall at full size: where to cut, where to drill, and what to keep clear of.

Millimetres on the wall, x right and y up; sizes of text are those on the wall, for reading at arm's
length. Distances count from the tray's left edge and up from its finished floor. Nothing here knows
paper or pages.
"""

from collections.abc import Iterator
from itertools import pairwise
from typing import NamedTuple

import shapely

from export.drawings.note_places import Along, Beside, Note
from export.drawings.notes import place
from export.drawings.outlines import draw_outline
from export.pen import XY, Axis, Pen
from export.recorder import Recorder
from export.text import fitted
from geometry.chase.channel import cut, rings
from geometry.model import Joist, Pipe, Stud
from geometry.plan import Plan
from geometry.setting_out.holes import Hole, holes
from geometry.setting_out.lines import lines
from geometry.shape.outline import Bounds
from geometry.units import number, on_grid

TEXT = 5.0
"""Height of a capital letter, mm: read at arm's length (common practice, no source)."""
ARM = 10.0
"""Half the cross at the centre of a hole, or past the rim of a small one, in mm."""
EYE = 3.0
"""Radius of the small circle about each hole's centre, in mm."""
CORNER = 8.0
"""Length of the strokes that make a recess's corner plain on its dashed outline, in mm."""
_LONGEST_NAME = 45.0  # mm; a longer name is shortened
_ROUND = 150.0  # mm round what is marked, where words may stand on a drawing without pages

_ENCLOSED = {"tray": "tray", "bath": "bath", "wet_floor": "wet floor"}
_LETTERS = {"hot": "H", "cold": "C"}
_CAUTIONS = {
    "cable": ("CAUTION cable: isolate first", "CAUTION cable"),
    "old pipe": ("CAUTION old pipe: drain first", "CAUTION old pipe"),
    "stud": ("CAUTION stud",),
    "noggin": ("CAUTION noggin",),
}


class DatumLine(NamedTuple):
    """A plumb line (axis "x") or a level line (axis "y"): where it lies, and how far from the datum."""

    axis: Axis
    at: float
    distance: float
    name: str
    low: float
    """Where it is drawn from, along itself, in mm on the wall."""
    high: float

    @property
    def ends(self) -> tuple[XY, XY]:
        """Its ends on the wall, from the lower or the left one."""
        if self.axis == "x":
            return (self.at, self.low), (self.at, self.high)
        return (self.low, self.at), (self.high, self.at)


def draw_marks(plan: Plan, pen: Pen) -> None:
    """Draw all that is marked on the wall, with its notes, at 1:1."""
    drawn = Recorder()
    draw_strokes(plan, drawn)
    drawn.replay(pen)
    words = [line_note(plan, line) for line in datum_lines(plan)]
    for note in place((*notes(plan), *words), _reach(plan, _ROUND), drawn):
        note.draw(pen)


def draw_strokes(plan: Plan, pen: Pen) -> None:
    """Draw all that is marked on the wall, without a word; what lies in it is not hidden by what is cut."""
    for area in _cuts(plan):
        for ring in rings(area):
            pen.polyline("chase", ring, closed=True)
    for corners in _recesses(plan):
        pen.polyline("recess", corners, closed=True)
    for solid, service in zip(plan.existing, plan.job.services, strict=True):
        draw_outline(pen, "stud" if isinstance(service, Stud | Joist) else "service", solid.outline)
    wall = plan.job.wall
    pen.polyline("wall", _box((0.0, 0.0, wall.width, wall.height)), closed=True)
    for line in datum_lines(plan):
        layer = {"centre line": "centre-line", "quarter line": "quarter-line"}.get(line.name, "datum")
        pen.line(layer, *line.ends)
    for pipe in plan.job.pipes:
        points = plan.courses[pipe.id].points
        if len(points) > 1:
            pen.polyline(f"pipe-{pipe.service}", points)
    for corners in _recesses(plan):
        _draw_corners(pen, corners)
    for hole in holes(plan):
        _draw_hole(pen, hole)


def points(plan: Plan) -> tuple[XY, ...]:
    """Return every point that goes onto the wall: centres of holes, corners of recesses and chases."""
    return (
        *(hole.at for hole in holes(plan)),
        *(corner for corners in _recesses(plan) for corner in corners),
        *(corner for area in _cuts(plan) for ring in rings(area) for corner in ring),
    )


def marked(plan: Plan) -> shapely.Geometry:
    """Return the area of all that is cut or drilled, the crosses of holes included; empty if nothing is.

    Lines of the datum and what lies in the wall already are not part of it: they need no page.
    """
    areas = [*_cuts(plan), *(shapely.Polygon(corners) for corners in _recesses(plan))]
    for hole in holes(plan):
        (x, y), arm = hole.at, _arm(hole)
        areas.append(shapely.box(x - arm, y - arm, x + arm, y + arm))
    return shapely.union_all(areas)


def datum_lines(plan: Plan) -> tuple[DatumLine, ...]:
    """Return the datum itself, the plumb lines of the enclosure, and a level line at each valve's height."""
    held, thing = lines(plan.job.enclosure), enclosed(plan)
    plumb = [
        ("centre line", held.centre),
        ("quarter line", held.quarter_left),
        ("quarter line", held.quarter_right),
        (f"{thing} edge", held.left),
    ]
    level = [("valve level", height) for height in sorted({valve.fitting.height for valve in plan.valves})]
    level.append((f"{thing} floor", held.floor))
    x0, y0, x1, y1 = _reach(plan)
    return (
        *(DatumLine("x", x, on_grid(x - held.left), name, y0, y1) for name, x in plumb),
        *(DatumLine("y", y, on_grid(y - held.floor), name, x0, x1) for name, y in level),
    )


def enclosed(plan: Plan) -> str:
    """Return what distances count from, in words: the tray, the bath or the wet floor."""
    return _ENCLOSED[plan.job.enclosure.kind]


def distance_words(axis: Axis, distance: float, thing: str) -> str:
    """Say how far something lies from the datum: `380 from tray edge`, `1000 above tray floor`."""
    if axis == "x":
        return (
            f"{number(distance)} from {thing} edge"
            if distance >= 0
            else f"{number(-distance)} left of {thing} edge"
        )
    side = "above" if distance >= 0 else "below"
    return f"{number(abs(distance))} {side} {thing if thing.endswith('floor') else f'{thing} floor'}"


def notes(plan: Plan) -> tuple[Note, ...]:
    """Return what is written beside the marks, what matters most first; datum lines are not among it."""
    return (*_hole_notes(plan), *_cautions(plan), *_pipe_notes(plan))


def _cuts(plan: Plan) -> Iterator[shapely.Geometry]:
    recesses = tuple(plan.recesses.values())
    for chase in plan.chases:
        yield cut(chase.points, chase.width, recesses)


def _recesses(plan: Plan) -> Iterator[tuple[XY, ...]]:
    """Go through the corners of what is cut for each fitting: square, as a disc cuts them."""
    for outline in plan.recesses.values():
        yield _box(outline.bounds)


def _box(bounds: Bounds) -> tuple[XY, ...]:
    x0, y0, x1, y1 = bounds
    return (x0, y0), (x1, y0), (x1, y1), (x0, y1)


def _reach(plan: Plan, room: float = 0.0) -> Bounds:
    """Return the bounds of the wall and of all that is marked, with room round them."""
    wall, area = plan.job.wall, marked(plan)
    x0, y0, x1, y1 = shapely.bounds(area).tolist() if not shapely.is_empty(area) else (0.0, 0.0, 0.0, 0.0)
    return min(x0, 0.0) - room, min(y0, 0.0) - room, max(x1, wall.width) + room, max(y1, wall.height) + room


# strokes


def _arm(hole: Hole) -> float:
    return ARM if hole.kind == "water" else hole.diameter / 2 + ARM / 2


def _draw_hole(pen: Pen, hole: Hole) -> None:
    """Draw a cross through the centre, and a circle about it: a screw's is as wide as its hole.

    What a hole for water leaves in the finish is not marked, for the recess takes that piece of wall away.
    """
    (x, y), arm = hole.at, _arm(hole)
    pen.line("drill", (x - arm, y), (x + arm, y))
    pen.line("drill", (x, y - arm), (x, y + arm))
    pen.circle("drill", hole.at, EYE if hole.kind == "water" else hole.diameter / 2)


def _draw_corners(pen: Pen, corners: tuple[XY, ...]) -> None:
    for index, (x, y) in enumerate(corners):
        (px, py), (nx, ny) = corners[index - 1], corners[(index + 1) % len(corners)]
        towards = [(_short(x, px), _short(y, py)), (x, y), (_short(x, nx), _short(y, ny))]
        pen.polyline("drill", towards)


def _short(start: float, end: float) -> float:
    """Go from `start` towards `end`, by `CORNER` at most, and no farther than a third of the way."""
    way = (end - start) / 3
    return start + max(-CORNER, min(CORNER, way))


# words


def _hole_notes(plan: Plan) -> Iterator[Beside]:
    """Yield the words beside each hole: what it is, its distances to both datums, how deep to cut."""
    thing = enclosed(plan)
    for hole in holes(plan):
        across = distance_words("x", hole.across, thing)
        up = f"{number(hole.up)} up" if hole.up >= 0 else distance_words("y", hole.up, thing)
        owner = fitted(hole.owner, TEXT, _LONGEST_NAME)
        title, depth = f"{owner} {hole.what}", _depth(plan, hole.owner) if hole.kind == "water" else ()
        if hole.kind == "screw":
            title += f", {number(hole.diameter)} mm"
        wide, narrow = (title, f"{across}, {up}", *depth), (title, across, up, *depth)
        yield Beside(hole.at, (wide, narrow), TEXT, clear=_arm(hole) * 0.75)


def _depth(plan: Plan, owner: str) -> tuple[str, ...]:
    depth, cut_at = plan.depths[owner], number(plan.cuts[owner])
    if depth.room < 0:
        return (f"cut {cut_at} deep", "NO DEPTH FITS")
    return (f"cut {cut_at} deep", f"({number(depth.shallowest)} to {number(depth.most)})")


def _cautions(plan: Plan) -> Iterator[Note]:
    """Yield a word of caution for what is known to lie in the wall."""
    for solid in plan.existing:
        wordings = _CAUTIONS.get(solid.what, (f"CAUTION {solid.what}",))
        outline, (x, y), (x0, y0, x1, y1) = solid.outline, solid.outline.middle, solid.outline.bounds
        if solid.what == "stud":
            yield Along((x, y0), (x, y1), wordings, TEXT, "caution", off=(-TEXT,), needed=True)
        elif solid.what == "noggin":
            yield Along((x0, y), (x1, y), wordings, TEXT, "caution", off=(-TEXT,), needed=True)
        elif outline.closed:
            yield Beside((x, y), tuple((words,) for words in wordings), TEXT, "caution")
        else:
            off = (outline.radius + 1.0, outline.radius + 3 * TEXT)
            for start, end in pairwise(outline.points):
                yield Along(start, end, wordings, TEXT, "caution", off=off, needed=True)


def line_note(plan: Plan, line: DatumLine) -> Along:
    """Return the words along a plumb or level line: what it is, and how far it is from the datum."""
    words, way = (
        distance_words(line.axis, line.distance, enclosed(plan)),
        "level" if line.axis == "y" else "plumb",
    )
    short = f"{number(line.distance)} up" if line.axis == "y" and line.distance >= 0 else words
    if not line.name:
        wordings: tuple[str, ...] = (f"this {way} line is {words}", f"{way}, {words}", words, short)
    elif line.distance == 0:
        wordings = (f"{line.name}: {way}, 0", f"{line.name}, 0", "0 up" if line.axis == "y" else "0")
    else:
        wordings = (f"{line.name}: {way}, {words}", f"{line.name}, {words}", words, short)
    return Along(*line.ends, wordings, TEXT, off=(1.0, TEXT))


def _pipe_notes(plan: Plan) -> Iterator[Along]:
    """Yield the words along each leg of a pipe: its letter, its name, how wide and deep its chase is."""
    for pipe, chase in zip(plan.job.pipes, plan.chases, strict=True):
        letter, name = pipe_letter(pipe), fitted(pipe.id, TEXT, _LONGEST_NAME)
        size = f"cut {number(chase.width)} wide, {number(chase.depth)} deep"
        wordings = (f"{letter} {name}: {size}", f"{letter}: {size}", letter)
        for start, end in chase.legs:
            yield Along(start, end, wordings, TEXT, off=(2.0, chase.width / 2 + 2.0))


def pipe_letter(pipe: Pipe) -> str:
    """Return H, C, or the number of the outlet that a pipe of mixed water serves."""
    if pipe.service in _LETTERS:
        return _LETTERS[pipe.service]
    port = (pipe.start or pipe.end).partition(".")[2]
    return port.lstrip("abcdefghijklmnopqrstuvwxyz") or port
