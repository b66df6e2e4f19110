"""The wall as it is shown: a widget that paints the document's state, what is chosen and what is measured.

It looks, and is looked at; what the pointer and the keys do to the job is in `canvas.py`, built upon it.
"""

from collections.abc import Hashable
from functools import partial

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtGui import QAccessible, QAccessibleEvent, QPainter, QPaintEvent, QPen, QPixmap, QResizeEvent
from PySide6.QtWidgets import QWidget

from app.canvas.gestures.gesture import Board
from app.canvas.hands import Hands
from app.canvas.highlight import Highlights
from app.canvas.layout import Laid, Layout, Wanted
from app.canvas.marks import middle
from app.canvas.options import Options
from app.canvas.painting import Picture, paint
from app.canvas.photograph import Photograph
from app.canvas.qt_pen import colour
from app.canvas.scene import Scene
from app.canvas.sizes import BAND
from app.canvas.stages import Stage, shows
from app.canvas.theme import LIGHT, Theme
from app.canvas.view import Margin, View
from app.canvas.words import named, place_of, whereabouts
from app.document import Document, State
from app.selection import Selection
from export.drawings.extent import around, wall_extent
from geometry.edits.refs import TILES, Ref, choosable
from geometry.edits.routes import corners
from geometry.finding import Finding
from geometry.model import XY
from geometry.plan import Plan
from geometry.shape.outline import Bounds

MARGIN = Margin(190.0, 40.0, 60.0, 70.0)
"""Room for tags and names round the wall when it is fitted in, pixels."""
LEAST_SIZE = QSize(320, 240)
STEP = 1.25
"""One press of + or - makes the wall so many times as large; own choice."""


class WallView(QWidget):
    """Shows the wall."""

    hint_changed = Signal(str)
    """What to do next, or why something was not done: one sentence, or nothing."""
    stage_changed = Signal(str)
    view_changed = Signal(float)
    """Another part of the wall is seen, or at another size: pixels a mm."""

    def __init__(
        self,
        document: Document,
        selection: Selection,
        parent: QWidget | None = None,
        *,
        options: Options | None = None,
        theme: Theme = LIGHT,
    ) -> None:
        super().__init__(parent)
        self.setObjectName("canvas")
        self.document, self.selection = document, selection
        self.options, self.theme = options or Options(), theme
        self.board = Board(document, selection, self.look, snapping=self.options.snapping)
        self.hands = Hands(self.board)
        self._scene, self._layout, self._highlights = Scene(), Layout(), Highlights()
        self._photograph = Photograph()
        self._is_fitted = True
        self._backdrop: tuple[Hashable, QPixmap] | None = None
        self._hint = ""
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMinimumSize(LEAST_SIZE)
        self.setAccessibleName(self.tr("Wall"))
        document.changed.connect(self._on_document_changed)
        document.photo_changed.connect(self._on_photo_changed)
        selection.changed.connect(self._on_selection_changed)
        selection.finding_changed.connect(self._on_finding_changed)
        self._bounds = _setting_bounds(document.state.plan)
        self._take_up(document.state)
        self._describe()

    # what is seen

    @property
    def view(self) -> View:
        """Which part of the wall is seen, and how large."""
        return self.board.view

    @property
    def stage(self) -> Stage:
        """Which stage of the work is shown."""
        return self.board.stage

    @property
    def laid(self) -> Laid:
        """Words and marks as they stand on the screen."""
        wanted = Wanted(
            self.view, self._size, self.stage, self.selection.refs, self.hands.pointed, self.options.unit
        )
        return self._layout.lay(self.document.state, wanted)

    def look(self, view: View) -> None:
        """Show another view; part of the wall always stays on the screen."""
        held = view.held(wall_extent(self.document.state.plan), self._size, BAND)
        self._is_fitted = False
        self._show_view(held)

    def fit(self) -> None:
        """Show the whole wall."""
        self._is_fitted = True
        self._show_view(View.fitted(wall_extent(self.document.state.plan), self._size, MARGIN))

    def zoom_in(self) -> None:
        """Show the middle larger."""
        self.look(self.view.zoomed(self._middle, STEP))

    def zoom_out(self) -> None:
        """Show the middle smaller."""
        self.look(self.view.zoomed(self._middle, 1 / STEP))

    def set_stage(self, stage: Stage) -> None:
        """Show another stage of the work."""
        if stage != self.stage:
            self.hands.cancel()
            self.board.stage = stage
            self._take_up(self.document.state)
            self.stage_changed.emit(stage)

    def choose_tiles(self) -> None:
        """Choose the tiles, to be moved by their start, and show them."""
        if self.document.job.finish.tiling is None:
            self._tell(self.tr("Nothing is tiled yet: say so under What covers it."))
            return
        if not shows(self.stage, "tiles"):
            self.set_stage("finished")
        self.selection.choose([TILES])
        self.setFocus(Qt.FocusReason.OtherFocusReason)
        self._tell(self.tr("Drag the corner of the first tile, or move it with the arrow keys."))

    def set_theme(self, theme: Theme) -> None:
        """Show everything in other colours."""
        if theme != self.theme:
            self.theme = theme
            self._backdrop = None
            self.update()

    def set_options(self, options: Options) -> None:
        """Take up what the user has chosen."""
        self.options = options
        self.board.snapping = options.snapping
        self._describe()
        self.update()

    @property
    def _size(self) -> XY:
        return float(self.width()), float(self.height())

    @property
    def _middle(self) -> XY:
        return self.width() / 2, self.height() / 2

    def _show_view(self, view: View) -> None:
        self.board.size = self._size
        if view != self.board.view:
            self.board.view = view
            self.view_changed.emit(view.scale)
            self.update()

    # what has changed

    def _take_up(self, state: State) -> None:
        self._scene.show(state.plan, self.stage, moving=self.hands.gesture is not None)
        self.update()

    def _on_document_changed(self, state: State) -> None:
        self._take_up(state)
        if not self.hands.is_busy:
            self._fit_again(state)
            self._describe()

    def _on_photo_changed(self) -> None:
        self._backdrop = None
        self.update()

    def _fit_again(self, state: State) -> None:
        """Keep the whole wall in sight if it has another size now, unless the user looks closer."""
        before, self._bounds = self._bounds, _setting_bounds(state.plan)
        if self._is_fitted and self._bounds != before:
            self.fit()

    def _on_selection_changed(self) -> None:
        self._describe()
        self.update()

    def _on_finding_changed(self, finding: Finding | None) -> None:
        if finding is not None and finding.place:
            self._bring_into_view(finding)
        self.update()

    def _bring_into_view(self, finding: Finding) -> None:
        """Show the place of a finding if it is out of sight, or too small to make out."""
        places = [self.view.to_screen(point) for point in finding.place]
        width, height = self._size
        seen = all(0 <= x <= width and 0 <= y <= height for x, y in places)
        if not seen:
            at = middle(finding.place)
            half = max(300.0, max(abs(x - at[0]) + abs(y - at[1]) for x, y in finding.place) * 1.5)
            bounds = (at[0] - half, at[1] - half, at[0] + half, at[1] + half)
            self.look(View.fitted(bounds, self._size, MARGIN))

    def _describe(self) -> None:
        """Tell a screen reader what is chosen and where it is."""
        plan, refs = self.document.state.plan, self.selection.refs
        described = [self._described(ref) for ref in refs[:3] if ref in choosable(plan.job)]
        if len(refs) > 3:
            described.append(self.tr("and %1 more").replace("%1", str(len(refs) - 3)))
        words = "; ".join(described) or self.tr("Nothing is chosen. Tab chooses the first thing.")
        if words != self.accessibleDescription():
            self.setAccessibleDescription(words)
            QAccessible.updateAccessibility(QAccessibleEvent(self, QAccessible.Event.DescriptionChanged))

    def _described(self, ref: Ref) -> str:
        state = self.document.state
        place = place_of(state.plan, ref)
        where = f", {whereabouts(state.plan, place, self.options.unit)}" if place else ""
        clashes = sum(ref.id in f.parts and f.status == "clash" for f in state.findings)
        wrong = self.tr(", clashes: %1").replace("%1", str(clashes)) if clashes else ""
        return f"{named(state.plan, ref)}{where}{wrong}"

    def _tell(self, sentence: str) -> None:
        self._hint = sentence
        self.refresh()

    def refresh(self) -> None:
        """Paint again, and say what to do next."""
        self.hint_changed.emit(self.hands.feedback.hint or self._hint)
        self.update()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Keep what is in the middle there, or the whole wall in sight."""
        before, after = event.oldSize(), event.size()
        self.board.size = self._size
        if self._is_fitted:
            self.fit()
        else:
            self._show_view(
                self.view.resized((before.width(), before.height()), (after.width(), after.height()))
            )

    def paintEvent(self, event: QPaintEvent) -> None:
        """Paint the picture."""
        painter = QPainter(self)
        painter.drawPixmap(0, 0, self._painted_backdrop())
        paint(painter, self._picture())
        if self.hasFocus():
            painter.setPen(QPen(colour(self.theme.chosen), 2.0))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self.rect().adjusted(1, 1, -1, -1))
        painter.end()

    def _picture(self) -> Picture:
        state, refs = self.document.state, self.selection.refs
        find = partial(self._highlights.of, state.plan, self.stage)
        pointed = None if self.hands.pointed is None else find(self.hands.pointed)
        shaped = refs[0].id if len(refs) == 1 and refs[0].kind == "pipe" else None
        points = (
            corners(state.plan, shaped) if shaped in state.plan.courses and shows(self.stage, "cuts") else ()
        )
        held = self.hands.corner
        return Picture(
            theme=self.theme,
            view=self.view,
            size=self._size,
            unit=self.options.unit,
            scene=self._scene,
            laid=self.laid,
            chosen=tuple(found for ref in refs if (found := find(ref))),
            pointed=pointed,
            corners=points,
            corner=points[held.number] if held and held.number < len(points) else None,
            start=place_of(state.plan, TILES) if shows(self.stage, "tiles") else None,
            finding=self.selection.finding,
            feedback=self.hands.feedback,
            hint=self._hint,
        )

    def _painted_backdrop(self) -> QPixmap:
        """Return the wall as it was before the work, painted once for what it depends on."""
        ratio = self.devicePixelRatioF()
        depends = (self._scene.setting, self.view, self._size, ratio, self.theme.name)
        if self._backdrop is None or self._backdrop[0] != depends:
            pixmap = QPixmap(round(self.width() * ratio), round(self.height() * ratio))
            pixmap.setDevicePixelRatio(ratio)
            pixmap.fill(colour(self.theme.room))
            painter = QPainter(pixmap)
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            photo, wall = self.document.photo, self.document.state.job.wall
            self._scene.paint_ground(painter, self.view, self.theme)
            if photo is not None:
                self._photograph.paint(painter, self.view, wall, photo)
            self._scene.paint_setting(painter, self.view, self.theme, filled=photo is None)
            painter.end()
            self._backdrop = depends, pixmap
        return self._backdrop[1]


def _setting_bounds(plan: Plan) -> Bounds:
    """Return the bounds of what was there before the work, in mm."""
    wall, enclosure = plan.job.wall, plan.job.enclosure
    panes = (pane.in_elevation().outline.bounds for pane in plan.panes)
    tray = (enclosure.left, 0.0, enclosure.right, enclosure.rim)
    return around(((0.0, 0.0, wall.width, wall.height), tray, *panes))
