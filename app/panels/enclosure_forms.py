"""The parts of the step Measure about what the bather stands or lies in, and the panes round it."""

from typing import Any

from app.document import State
from app.fields import LengthField
from app.panels.choice_fields import ChoiceField, TickField
from app.panels.form import Form
from app.panels.listing import Listing
from app.panels.panel import Panel
from app.panels.words import ENCLOSURES, ENTRIES, choices, translate
from geometry.edits.refs import free_name
from geometry.model import XY, Door, Enclosure, Job, Screen, Waste
from geometry.parts.records import EnclosurePart
from geometry.units import on_grid


class EnclosureForm(Form[Enclosure]):
    """Tray, bath or wet floor: from the parts, or by its sizes."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(
            panel,
            translate("Measure", "tray or bath"),
            lambda job: job.enclosure,
            lambda job, _, enclosure: job.but(enclosure=enclosure),
        )
        self._parts = ChoiceField(self.tr("As bought"))
        self._parts.set_unknown(self.tr("Own sizes"))
        self.add(self._parts, self._part_of, self._with_part, title=self.tr("Change the tray"), wide=True)
        self.choice("kind", self.tr("It is a"), choices(ENCLOSURES))
        self.choice("entry", self.tr("People step in"), choices(ENTRIES))
        self.length("width", self.tr("Along the wall"))
        self.length("projection", self.tr("Out from the wall"))
        self.length("left", self.tr("Left edge, from the left"))
        self.length("floor", self.tr("Height of its floor"))
        self.length("rim", self.tr("Height of its rim"))
        has_waste = TickField(self.tr("The waste's place is known"))
        self.add(has_waste, lambda e: e.waste is not None, _with_waste, wide=True)
        self.before_showing(self._prepare)

    def _prepare(self, enclosure: Enclosure, state: State) -> None:
        offered = [(part.id, part.name) for part in self._trays()]
        self._parts.set_choices(offered)

    def _trays(self) -> list[EnclosurePart]:
        return [part for part in self.panel.document.catalogue if isinstance(part, EnclosurePart)]

    def _part_of(self, enclosure: Enclosure) -> str | None:
        held = _sizes(enclosure)
        return next((part.id for part in self._trays() if _sizes(part) == held), None)

    def _with_part(self, enclosure: Enclosure, name: str) -> Enclosure:
        part = self.panel.document.catalogue.find(name, EnclosurePart)
        return enclosure.but(
            kind=part.kind, width=part.width, projection=part.projection, floor=part.floor, rim=part.rim
        )


def _sizes(held: Enclosure | EnclosurePart) -> tuple[object, ...]:
    return held.kind, held.width, held.projection, held.floor, held.rim


def _with_waste(enclosure: Enclosure, known: bool) -> Enclosure:
    middle = Waste(x=enclosure.centre, z=enclosure.projection / 2)
    return enclosure.but(waste=middle if known else None)


def waste_form(panel: Panel) -> Form[Waste]:
    """Return the form for the place of the waste."""
    form: Form[Waste] = Form(
        panel,
        translate("Measure", "waste"),
        lambda job: job.enclosure.waste,
        lambda job, _, waste: job.but(enclosure=job.enclosure.but(waste=waste)),
    )
    form.length("x", translate("Measure", "Waste, from the left"))
    form.length("z", translate("Measure", "Waste, from the wall"))
    return form


def panes(panel: Panel) -> Listing[Screen | Door]:
    """Return the list of fixed screens and doors."""
    listing: Listing[Screen | Door] = Listing(
        panel,
        translate("Measure", "screens and doors"),
        lambda job: (*job.enclosure.screens, *job.enclosure.doors),
        _with_panes,
        lambda record: record.id,
    )
    screen = listing.form(Screen, translate("Measure", "screen"))
    screen.text("id", translate("Measure", "Name"), most=60)
    screen.length("thickness", translate("Measure", "Thickness"))
    _plan_point(
        screen,
        "start",
        translate("Measure", "End, from the left"),
        translate("Measure", "End, from the wall"),
    )
    _plan_point(
        screen,
        "end",
        translate("Measure", "Other end, from left"),
        translate("Measure", "Other end, from wall"),
    )
    screen.length("bottom", translate("Measure", "Lower edge"))
    screen.length("top", translate("Measure", "Upper edge"))
    door = listing.form(Door, translate("Measure", "door"))
    door.text("id", translate("Measure", "Name"), most=60)
    door.length("width", translate("Measure", "Width"))
    _plan_point(
        door,
        "hinge",
        translate("Measure", "Hinge, from the left"),
        translate("Measure", "Hinge, from the wall"),
    )
    door.number("angle_from", translate("Measure", "Shut, angle"), "°")
    door.number("angle_to", translate("Measure", "Open, angle"), "°")
    door.length("bottom", translate("Measure", "Lower edge"))
    door.length("top", translate("Measure", "Upper edge"))
    door.length("thickness", translate("Measure", "Thickness"))
    listing.offer(translate("Measure", "Add screen"), _screen)
    listing.offer(translate("Measure", "Add door"), _door)
    listing.finish()
    return listing


def _plan_point(form: Form[Any], name: str, along: str, out: str) -> None:
    """Add both coordinates of a point in plan."""

    def add(index: int, label: str) -> None:
        def read(record: Any) -> float:
            point: XY = getattr(record, name)
            return point[index]

        def write(record: Any, value: float) -> Any:
            x, z = getattr(record, name)
            return record.but(**{name: (value, z) if index == 0 else (x, value)})

        form.add(LengthField(label, form.panel.display), read, write)

    add(0, along)
    add(1, out)


def _with_panes(job: Job, records: tuple[Screen | Door, ...]) -> Job:
    screens = tuple(record for record in records if isinstance(record, Screen))
    doors = tuple(record for record in records if isinstance(record, Door))
    return job.but(enclosure=job.enclosure.but(screens=screens, doors=doors))


def _screen(job: Job) -> Screen:
    """Return a screen on the side away from the entry."""
    tray = job.enclosure
    x = on_grid(tray.right if tray.entry == "left" else tray.left)
    return Screen(id=free_name(job, "screen"), start=(x, 0.0), end=(x, tray.projection), bottom=tray.rim)


def _door(job: Job) -> Door:
    """Return a door across the entry, hinged at the wall or at the left, that opens outwards."""
    tray, name = job.enclosure, free_name(job, "door")
    if tray.entry == "front":
        hinge, width, shut, opened = (tray.left, tray.projection), tray.width, 0.0, 90.0
    else:
        outwards = tray.entry == "left"
        hinge, width = (tray.left if outwards else tray.right, 0.0), tray.projection
        shut, opened = 90.0, 180.0 if outwards else 0.0
    return Door(id=name, hinge=hinge, width=width, angle_from=shut, angle_to=opened, bottom=tray.rim)
