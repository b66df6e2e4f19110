"""The elevation: the wall as seen from the room, with everything that is cut, laid and fitted.

Model millimetres, x right from the wall's left corner and y up from the finished floor; sizes of text
are millimetres on paper times the scale. Each part of the drawing is a function of its own, so that a
canvas can replay them by themselves; `draw_elevation` draws all of them in the order of painting.
"""

import math
from collections.abc import Iterator
from functools import lru_cache
from typing import Literal, NamedTuple

from export.drawings.balloons import draw_numbers, draw_places
from export.drawings.chains import Chain, chain_across, chain_upward, draw_chain
from export.drawings.extent import around, wall_extent
from export.drawings.fittings import draw_fitting, draw_holes
from export.drawings.gaps import draw_gap
from export.drawings.labels import LETTERING, PlacedLabel, draw_labels, label_column
from export.drawings.marks import pipe_letter
from export.drawings.names import wall_labels
from export.drawings.outlines import draw_outline
from export.drawings.piece_names import draw_piece_names
from export.drawings.spots import Spot, Spots
from export.pen import XY, Pen
from export.recorder import Recorder
from export.text import RISE, SINK, text_width
from geometry.chase.channel import cut, rings
from geometry.finding import Finding
from geometry.hose.sweep import line_at, swept_outline
from geometry.model import Joist, Stud
from geometry.plan import Plan
from geometry.setting_out.lines import lines
from geometry.shape.fittings import slider_of
from geometry.shape.outline import Bounds, rectangle

Stage = Literal["all", "first_fix", "second_fix"]
"""What is shown: everything, what is done before the wall is covered, or what is fitted after."""
PAST = 4.0  # mm on paper; the finished floor and the datum reach past what they belong to
SHORT_LEG = 7.0  # mm on paper; a shorter leg of a pipe has no letter, unless it is the longest
BAR = 1000.0  # mm, of the line by which a receiver of the drawing can check its unit
FAINT = frozenset({"hose-sweep", "spray", "centre-line", "quarter-line", "leader", "stud"})
"""What a letter or number may cover."""


class Room(NamedTuple):
    """How long the texts round the wall may be, in mm on paper."""

    labels: float
    heights: float
    across: float


FULL = Room(58.0, 40.0, 32.0)
"""Enough for the names of most parts, and for names beside the numbers of the chains."""


class Margins(NamedTuple):
    """What stands round the wall: both chains and the column of labels; and how far the wall reaches."""

    across: Chain
    upward: Chain
    column: tuple[PlacedLabel, ...]
    wall: Bounds

    @property
    def bounds(self) -> Bounds:
        """How far the whole elevation reaches, in model mm."""
        labels = [label.box for label in self.column]
        return around((self.wall, *self.across.boxes, *self.upward.boxes, *labels))


def margins(plan: Plan, scale: float, room: Room = FULL) -> Margins:
    """Return what stands round the wall; `scale` is 20 for 1:20."""
    wall = wall_extent(plan)
    return Margins(
        chain_across(plan, scale, room.across),
        chain_upward(plan, scale, room.heights),
        label_column(wall_labels(plan), wall, scale, room.labels),
        wall,
    )


def draw_elevation(
    plan: Plan,
    findings: tuple[Finding, ...],
    pen: Pen,
    scale: float,
    *,
    parts: bool = True,
    stage: Stage = "all",
    reference: bool = False,
    pieces: bool = False,
    room: Room = FULL,
) -> None:
    """Draw the elevation.

    Args:
        plan: the job with its parts.
        findings: those with a place are marked and numbered, as `balloons.numbered` numbers them.
        pen: in model mm.
        scale: 20 for a drawing that will be printed at 1:20.
        parts: draw the fittings; a writer that places them as blocks draws them itself.
        stage: what to leave out.
        reference: add a line of 1000 mm, for a drawing that is handed on as a file.
        pieces: name the pieces of the pipes, on a layer of their own.
        room: how long the texts round the wall may be.
    """
    layers = _drawn(plan, findings, scale, stage, room)
    layers.ground.replay(pen)
    if parts:
        layers.fittings.replay(pen)
    layers.over.replay(pen)
    layers.words.replay(pen)
    if pieces:
        layers.pieces.replay(pen)
    if reference:
        draw_reference(margins(plan, scale, room).bounds, pen, scale)


class _Drawn(NamedTuple):
    """The elevation in the order of painting, recorded; not to be drawn on any more."""

    ground: Recorder
    fittings: Recorder
    over: Recorder
    words: Recorder
    pieces: Recorder


@lru_cache(maxsize=2)  # the same drawing goes to paper and into a file
def _drawn(plan: Plan, findings: tuple[Finding, ...], scale: float, stage: Stage, room: Room) -> _Drawn:
    """Draw the elevation once; its letters and numbers keep clear of all else, fittings too."""
    held = margins(plan, scale, room)
    drawn = _Drawn(Recorder(), Recorder(), Recorder(), Recorder(), Recorder())
    if stage != "first_fix":
        draw_sweeps(plan, drawn.ground)
    draw_surroundings(plan, drawn.ground, scale)
    if stage != "second_fix":
        draw_cuts(plan, drawn.ground)
        draw_pipes(plan, drawn.ground)
    draw_datum(plan, drawn.ground, scale)
    for fitting in plan.job.fittings:
        (draw_holes if stage == "first_fix" else draw_fitting)(plan, drawn.fittings, fitting.id)
    if stage != "first_fix":
        draw_hoses(plan, drawn.over)
    draw_chain(drawn.over, held.across)
    draw_chain(drawn.over, held.upward)
    draw_labels(drawn.over, held.column, scale)
    draw_places(findings, drawn.over, scale)
    whole = Recorder()
    for part in drawn[:3]:
        part.replay(whole)
    spots = Spots(whole, held.wall, FAINT)
    if stage != "second_fix":
        draw_letters(plan, spots, drawn.words, scale)
    draw_numbers(findings, spots, drawn.words, scale)
    if stage != "second_fix":
        draw_piece_names(plan, spots, drawn.pieces, scale)
    return drawn


def draw_surroundings(plan: Plan, pen: Pen, scale: float) -> None:
    """Draw the wall and its openings, what is in it already, tray or bath, screens, and the floor."""
    wall, enclosure = plan.job.wall, plan.job.enclosure
    pen.polyline("wall", rectangle(0.0, 0.0, wall.width, wall.height).points, closed=True)
    for opening in wall.openings:
        draw_gap(opening, pen)
    for solid, service in zip(plan.existing, plan.job.services, strict=True):
        draw_outline(pen, "stud" if isinstance(service, Stud | Joist) else "service", solid.outline)
    for pane in plan.panes:
        draw_outline(pen, "screen", pane.in_elevation().outline)
    if enclosure.rim > 0:
        pen.polyline(
            "tray", rectangle(enclosure.left, 0.0, enclosure.right, enclosure.rim).points, closed=True
        )
    past = PAST * scale
    left, right = min(0.0, enclosure.left), max(wall.width, enclosure.right)
    pen.line("wall", (left - past, 0.0), (right + past, 0.0))


def draw_datum(plan: Plan, pen: Pen, scale: float) -> None:
    """Draw the plumb lines of the enclosure, and the level of its finished floor from which heights count."""
    held, top = lines(plan.job.enclosure), plan.job.wall.height
    for layer, x in (
        ("quarter-line", held.quarter_left),
        ("centre-line", held.centre),
        ("quarter-line", held.quarter_right),
    ):
        pen.line(layer, (x, 0.0), (x, top))
    pen.line("datum", (held.left, held.floor), (held.right, held.floor))


def draw_cuts(plan: Plan, pen: Pen) -> None:
    """Draw the chases, and the recesses and pockets that they run into."""
    recesses = tuple(plan.recesses.values())
    for chase in plan.chases:
        for ring in rings(cut(chase.points, chase.width, recesses)):
            pen.polyline("chase", ring, closed=True)
    for outline in recesses:
        draw_outline(pen, "recess", outline)


def draw_pipes(plan: Plan, pen: Pen) -> None:
    """Draw the axis of every pipe in the line style of its service."""
    for pipe in plan.job.pipes:
        points = plan.courses[pipe.id].points
        if len(points) > 1:
            pen.polyline(f"pipe-{pipe.service}", points)


def draw_letters(plan: Plan, spots: Spots, pen: Pen, scale: float) -> None:
    """Write H, C or the number of its outlet beside each leg of a pipe, where there is room.

    Args:
        plan: the job with its parts.
        spots: the drawing so far, of which the letters stand clear.
        pen: in model mm.
        scale: 20 for 1:20.
    """
    height = LETTERING * scale
    for pipe, chase in zip(plan.job.pipes, plan.chases, strict=True):
        letter = pipe_letter(pipe)
        width = text_width(letter, height)
        lengths = [math.dist(*leg) for leg in chase.legs]
        for leg, length in zip(chase.legs, lengths, strict=True):
            if length >= min(SHORT_LEG * scale, max(lengths)):
                off = (chase.width + height) / 2 + 0.5 * scale
                spot = spots.take(_beside(leg, off), width, (RISE + SINK) * height)
                if spot:
                    x, y = spot.middle
                    pen.text(f"pipe-{pipe.service}", (x, y - height / 2), letter, height, align="centre")


def _beside(leg: tuple[XY, XY], off: float) -> Iterator[Spot]:
    """Go through places beside a leg of pipe, from its middle outwards, on both sides of it."""
    (x0, y0), (x1, y1) = leg
    length = math.dist(*leg)
    across = ((y1 - y0) / length * off, (x0 - x1) / length * off)
    for away in (1.0, 1.4):
        for share in (0.5, 0.4, 0.6, 0.3, 0.7, 0.2, 0.8, 0.1, 0.9):
            for side in (away, -away):
                x, y = x0 + (x1 - x0) * share, y0 + (y1 - y0) * share
                yield Spot((x + across[0] * side, y + across[1] * side))


def draw_sweeps(plan: Plan, pen: Pen) -> None:
    """Draw the area over which each hose hangs as its slider moves, and each head's spray."""
    for hung in plan.hoses:
        for ring in rings(swept_outline(hung)):
            pen.polyline("hose-sweep", ring, closed=True)
    floor = plan.job.enclosure.floor
    for head in plan.heads:
        under = head.fitting.height - head.part.drop
        for side in (-0.5, 0.5):
            x = head.fitting.x + side * head.part.diameter
            pen.line("spray", (x, under), (x, floor))


def draw_hoses(plan: Plan, pen: Pen) -> None:
    """Draw each hose as it hangs with its slider in its place; none where it is too short."""
    for hung in plan.hoses:
        line = line_at(hung, slider_of(hung.rail.fitting, hung.rail.part))
        if line is not None:
            pen.polyline("hose", [(float(x), float(y)) for x, y in line])


def draw_reference(bounds: Bounds, pen: Pen, scale: float) -> None:
    """Draw a line of 1000 mm under a drawing of these bounds, and say what a unit is."""
    left, low, _, _ = bounds
    y, tick, height = low - 8.0 * scale, 1.5 * scale, LETTERING * scale
    pen.line("check-bar", (left, y), (left + BAR, y))
    for x in (left, left + BAR):
        pen.line("check-bar", (x, y - tick), (x, y + tick))
    pen.text("text", (left, y + height), "1000 mm. 1 unit = 1 mm.", height)
