"""What covers the wall: the layers of each area, the section that follows from them, and the tiles."""

from collections.abc import Callable
from functools import partial

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QPushButton, QSplitter, QVBoxLayout

from app.document import State
from app.look import TARGET
from app.panels.best_starts import BestStartsBox
from app.panels.choice_fields import ChoiceField, TickField
from app.panels.form import Form
from app.panels.listing import Listing
from app.panels.panel import Panel
from app.panels.section import Column, Section
from app.panels.section_view import SectionView
from app.panels.sentence import Heading, Sentence
from app.panels.tile_forms import BackgroundForm, PanelsForm, TilingForm, movement_joints, niches
from app.panels.words import LAYERS, choices, said, translate
from export.drawings.seats import seats
from geometry.build_up import build_up
from geometry.edits.refs import Ref
from geometry.model import FinishArea, Job, Layer, Region, Tiling
from geometry.model.finish import LayerKind, Panels
from geometry.plan import Plan

NEW_LAYERS: dict[LayerKind, tuple[float, float]] = {
    "board": (12.5, 0.5),
    "plaster": (12.0, 3.0),
    "tanking": (1.0, 0.0),
    "adhesive": (4.0, 1.0),
    "tile": (9.0, 0.0),
    "panel": (11.0, 0.0),
}
"""Thickness and tolerance of a new layer, in mm (usual; common practice, no source)."""


class BuildUpPanel(Panel):
    """Areas, their layers beside a live section, and the tiles."""

    is_slow = True
    outline_requested = Signal(str)
    """An area is to be outlined on the wall: its name."""

    def set_up(self) -> None:
        """Make what stands on the panel."""
        self.setAccessibleName(self.tr("What covers the wall"))
        self.section = SectionView()
        self.seat = ChoiceField(self.tr("The section is through"))
        self.seat.entered.connect(self._on_seat)
        self.cut = Sentence("words")
        self.total = Sentence("words")
        self.areas = _areas(self)
        self.region = _region_form(self, self._area)
        self.outliner = QPushButton(self.tr("Outline it on the wall"))
        self.outliner.setMinimumHeight(TARGET)
        self.outliner.clicked.connect(self._on_outline)
        self.layers = self._layers()
        self.tiled = TickField(self.tr("Tiled"))
        self.tiled.entered.connect(self._on_tiled)
        self.tiling = TilingForm(self)
        self.starts = BestStartsBox(self)
        self.panelled = TickField(self.tr("Panels instead of tiles"))
        self.panelled.entered.connect(self._on_panelled)
        self.panels = PanelsForm(self)
        self.niches = niches(self)
        self.movement = movement_joints(self)
        self.background = BackgroundForm(self)
        self.areas.chosen.connect(self._on_area)
        self._build()

    def _build(self) -> None:
        column = Column()
        layers = Section(self.tr("Layers, from the bare wall outwards"))
        layers.add(self.total, self.layers)
        seen = Section(self.tr("Section"))
        seen.add(self.cut, self.seat)
        areas = Section(self.tr("Areas of the wall"), opened=False)
        covers = Sentence("quiet", self.tr("Where areas overlap, the upper one in the list counts."))
        areas.add(covers, self.areas, self.outliner, self.region)
        tiles = Section(self.tr("Tiles"), opened=False)
        tiles.add(self.tiled, self.tiling)
        starts = Section(self.tr("Best starts of the tiles"), opened=False)
        starts.add(self.starts)
        panels = Section(self.tr("Panels"), opened=False)
        panels.add(self.panelled, self.panels)
        more = Section(self.tr("Niches, movement joints, background"), opened=False)
        more.add(Heading(self.tr("Niches")), self.niches)
        more.add(Heading(self.tr("Movement joints")), self.movement)
        more.add(Heading(self.tr("Background")), self.background)
        for section in (layers, seen, areas, tiles, starts, panels, more):
            column.add(section)
        halves = QSplitter(Qt.Orientation.Vertical)
        halves.setChildrenCollapsible(False)
        halves.addWidget(self.section)
        halves.addWidget(column)
        halves.setStretchFactor(0, 3)
        halves.setStretchFactor(1, 2)
        halves.setSizes([400, 280])
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(halves)

    def show_state(self, state: State) -> None:
        """Show the finish and the section."""
        self.areas.show_state(state)
        if self.areas.index < 0 and state.job.finish.areas:
            self.areas.choose(0)
        self.region.show_state(state)
        self.outliner.setVisible(self._area(state.job) is not None)
        self.layers.setVisible(bool(state.job.finish.areas))
        self.layers.show_state(state)
        self.tiled.show_value(state.job.finish.tiling is not None)
        self.tiling.show_state(state)
        self.starts.show_state(state)
        self.panelled.show_value(state.job.finish.panels is not None)
        self.panels.show_state(state)
        self.niches.show_state(state)
        self.movement.show_state(state)
        self.background.show_state(state)
        self._show_section(state.plan)

    def show_chosen(self, refs: tuple[Ref, ...]) -> None:
        """Show the section through a fitting that is chosen on the wall."""
        held = seats(self.document.state.plan)
        for ref in refs:
            if ref.kind == "fitting" and ref.id in held and ref.id != self.seat.value:
                self.seat.show_value(ref.id)
                self._show_section(self.document.state.plan)
                return

    def _show_section(self, plan: Plan) -> None:
        names = seats(plan)
        self.seat.set_choices([(name, name) for name in names])
        if self.seat.value not in names:
            self.seat.show_value(names[0] if names else None)
        name = self.seat.value or ""
        self.section.show_section(plan, name)
        self.cut.say(self._depth_words(plan, name) if name else self.tr("Nothing sits in the wall yet."))
        self.section.setAccessibleName(self.tr("Section through %1").replace("%1", name))
        self.section.setAccessibleDescription(self.cut.text())
        self.total.say(self._total_words(plan, name))

    def _depth_words(self, plan: Plan, name: str) -> str:
        depth, cut = plan.depths[name], plan.cuts[name]
        if depth.room < 0:
            return self.tr("No depth of recess suits this finish at %1.").replace("%1", name)
        template = self.tr("At %1 the bare wall is cut %2 deep; %3 to %4 will do.")
        lengths = (self.written(value) for value in (cut, depth.shallowest, depth.most))
        for number, words in enumerate((name, *lengths), 1):
            template = template.replace(f"%{number}", words)
        return template

    def _total_words(self, plan: Plan, name: str) -> str:
        """Say how thick the build-up is at the fitting of the section."""
        at = plan.job.fitting(name).at if name else (plan.job.enclosure.centre, plan.job.wall.height / 2)
        finish = build_up(plan.job.finish, at)
        template = self.tr("Together %1; with tolerances %2 to %3.")
        for number, value in enumerate((finish.planned, finish.least, finish.most), 1):
            template = template.replace(f"%{number}", self.written(value))
        return template

    def _area(self, job: Job) -> FinishArea | None:
        areas, index = job.finish.areas, self.areas.index
        return areas[index] if 0 <= index < len(areas) else None

    def _layers(self) -> Listing[Layer]:
        def read(job: Job) -> tuple[Layer, ...]:
            area = self._area(job)
            return area.layers if area else ()

        def write(job: Job, layers: tuple[Layer, ...]) -> Job:
            area = self._area(job)
            return _with_area(job, area, area.but(layers=layers)) if area else job

        def describe(layer: Layer) -> str:
            slack = f" ± {self.written(layer.tolerance)}" if layer.tolerance else ""
            return f"{layer.name or said(LAYERS[layer.kind])}: {self.written(layer.thickness)}{slack}"

        listing: Listing[Layer] = Listing(self, self.tr("layers"), read, write, describe, ordered=True)
        form = listing.form(Layer, self.tr("layer"))
        form.length("thickness", self.tr("Thickness"))
        form.length("tolerance", self.tr("May be out by"))
        form.choice("kind", self.tr("It is"), choices(LAYERS))
        form.text("name", self.tr("Called"))
        for kind in NEW_LAYERS:
            word = self.tr("Add %1").replace("%1", said(LAYERS[kind]).lower())
            listing.offer(word, partial(_new_layer, kind))
        listing.finish()
        return listing

    def _on_seat(self, name: str) -> None:
        self.seat.show_value(name)
        self._show_section(self.document.state.plan)

    def _on_area(self) -> None:
        self.layers.choose(-1)
        self.region.show_state(self.document.state)
        self.layers.show_state(self.document.state)

    def _on_outline(self) -> None:
        area = self._area(self.document.job)
        if area is not None:
            self.outline_requested.emit(area.id)

    def _on_tiled(self, tiled: bool) -> None:
        job = self.document.job
        title = self.tr("Tile the wall") if tiled else self.tr("Leave the tiles out")
        self.edit(title, job.but(finish=job.finish.but(tiling=Tiling() if tiled else None)))

    def _on_panelled(self, panelled: bool) -> None:
        job = self.document.job
        title = self.tr("Panel the wall") if panelled else self.tr("Leave the panels out")
        self.edit(title, job.but(finish=job.finish.but(panels=Panels() if panelled else None)))


def _areas(panel: Panel) -> Listing[FinishArea]:
    """Return the list of areas, with the tick that says whether one covers only a part."""

    def describe(area: FinishArea) -> str:
        thick = sum(layer.thickness for layer in area.layers)
        where = translate("BuildUp", "everywhere") if area.region is None else translate("BuildUp", "a part")
        return f"{area.id}: {where}, {panel.written(thick)}"

    listing: Listing[FinishArea] = Listing(
        panel,
        translate("BuildUp", "areas of the wall"),
        lambda job: job.finish.areas,
        lambda job, areas: job.but(finish=job.finish.but(areas=areas)),
        describe,
        ordered=True,
        on_top=True,
    )
    form = listing.form(FinishArea, translate("BuildUp", "area"))
    form.text("id", translate("BuildUp", "Name"), most=60, wide=True)
    form.add(
        TickField(translate("BuildUp", "Only a part of the wall")),
        lambda area: area.region is not None,
        lambda area, partly: area.but(region=_lower_part(panel.document.job) if partly else None),
        wide=True,
    )
    listing.offer(translate("BuildUp", "Add area"), _new_area)
    listing.finish()
    return listing


def _lower_part(job: Job) -> Region:
    """Return the part of the wall over the tray, up to 2000: own choice, to be changed at once."""
    tray = job.enclosure
    return Region(x=tray.left, y=0.0, width=tray.width, height=min(2000.0, job.wall.height))


def _new_area(job: Job) -> FinishArea:
    taken = {area.id for area in job.finish.areas}
    name = next(name for name in (f"area-{number}" for number in range(1, 1000)) if name not in taken)
    layers = job.finish.areas[0].layers if job.finish.areas else ()
    return FinishArea(id=name, layers=layers, region=_lower_part(job))


def _with_area(job: Job, old: FinishArea, new: FinishArea) -> Job:
    areas = tuple(new if area is old else area for area in job.finish.areas)
    return job.but(finish=job.finish.but(areas=areas))


def _region_form(panel: Panel, area_of: Callable[[Job], FinishArea | None]) -> Form[Region]:
    def find(job: Job) -> Region | None:
        area = area_of(job)
        return area.region if area else None

    def put(job: Job, _: Region, region: Region) -> Job:
        area = area_of(job)
        return _with_area(job, area, area.but(region=region)) if area else job

    form: Form[Region] = Form(panel, translate("BuildUp", "area"), find, put)
    form.rectangle()
    return form


def _new_layer(kind: LayerKind, _job: Job) -> Layer:
    thickness, tolerance = NEW_LAYERS[kind]
    return Layer(kind=kind, thickness=thickness, tolerance=tolerance)
