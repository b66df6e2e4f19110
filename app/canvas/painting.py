"""Everything that one picture of the canvas shows, and painting it in order."""

from typing import NamedTuple

from PySide6.QtGui import QPainter

from app.canvas.gestures.gesture import Feedback
from app.canvas.highlight import Highlight
from app.canvas.layout import Laid
from app.canvas.marks import measured_words
from app.canvas.overlay import (
    PlacedGuide,
    paint_band,
    paint_draft,
    paint_frame,
    paint_guides,
    paint_handles,
    paint_hint,
    paint_marks,
    paint_measured,
    paint_names,
    paint_start,
    paint_tags,
)
from app.canvas.placing import on_screen
from app.canvas.room import Room
from app.canvas.scene import Scene
from app.canvas.theme import Ink, Theme
from app.canvas.view import View
from geometry.edits.refs import Ref
from geometry.finding import Finding
from geometry.model import XY
from geometry.units import Display


class Picture(NamedTuple):
    """What is shown over the wall as it was before the work."""

    theme: Theme
    view: View
    size: XY
    unit: Display
    scene: Scene
    laid: Laid
    chosen: tuple[Highlight, ...]
    pointed: Highlight | None
    corners: tuple[XY, ...]
    """Of the pipe that is chosen, in mm."""
    corner: XY | None
    """The one that was clicked."""
    start: XY | None
    """Where the first tile starts, if tiles are shown, in mm."""
    finding: Finding | None
    feedback: Feedback
    hint: str


def paint(painter: QPainter, picture: Picture) -> None:
    """Paint a picture; the wall before the work is there already."""
    theme, view, size, feedback = picture.theme, picture.view, picture.size, picture.feedback
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    picture.scene.paint_work(painter, view, theme)
    if picture.pointed is not None and picture.pointed not in picture.chosen:
        picture.pointed.pen.paint(painter, view, theme, Ink(theme.chosen, 1.5))
    for highlight in picture.chosen:
        highlight.pen.paint(painter, view, theme, Ink(theme.chosen, 2.5))
        paint_frame(painter, on_screen(view, highlight.bounds), theme)
    held = None if picture.corner is None else view.to_screen(picture.corner)
    paint_handles(painter, [view.to_screen(corner) for corner in picture.corners], held, theme)
    if picture.start is not None:
        paint_start(painter, view.to_screen(picture.start), theme)
    paint_tags(painter, picture.laid.tags, theme)
    paint_names(painter, picture.laid.names, theme, _told(picture))
    paint_marks(painter, picture.laid.marks, theme)
    for finding in (picture.finding, feedback.clearance):
        if finding is not None:
            _paint_finding(painter, picture, finding)
    if feedback.guides:
        placed = [
            PlacedGuide(
                guide.axis, view.to_screen((guide.at, guide.at))[0 if guide.axis == "x" else 1], guide.word
            )
            for guide in feedback.guides
        ]
        paint_guides(painter, placed, view.to_screen(feedback.near or (0.0, 0.0)), size, theme)
    if feedback.band is not None:
        paint_band(painter, view.to_screen(feedback.band[0]), view.to_screen(feedback.band[1]), theme)
    if feedback.draft:
        ink = theme.ink(f"pipe-{feedback.service}")
        paint_draft(painter, [view.to_screen(point) for point in feedback.draft], ink, theme)
    words = feedback.hint or picture.hint
    if words:
        paint_hint(painter, words, size, theme)


def _told(picture: Picture) -> set[Ref]:
    told = {highlight.ref for highlight in picture.chosen}
    return told | {picture.pointed.ref} if picture.pointed else told


def _paint_finding(painter: QPainter, picture: Picture, finding: Finding) -> None:
    if finding.place:
        theme = picture.theme
        layers = {"clash": "clash", "tight": "tight", "clear": "dimension", "unchecked": "caution"}
        ink = theme.refer if finding.status == "refer" else theme.ink(layers[finding.status]).colour
        place = [picture.view.to_screen(point) for point in finding.place]
        words = measured_words(finding, picture.unit)
        paint_measured(painter, place, words, ink, theme, picture.size, Room(picture.laid.boxes))
