"""The parts of the step Measure about what is in or on the wall already: points, cables, pipes, timbers."""

from typing import Any

from app.panels.form import Form
from app.panels.listing import Listing
from app.panels.panel import Panel
from app.panels.points import PointsField
from app.panels.words import ACCESSORIES, choices, kind_word, said, translate
from geometry.edits.refs import free_name
from geometry.model import Accessory, Cable, Job, Joist, OldPipe, Service, Stud
from geometry.units import on_grid

BESIDE = 150.0
"""From the tray to the centre of a new electrical point, in mm; own choice, to be moved at once."""
STUDS = 400.0
"""Between the centres of new studs, in mm: usual (common practice, no source)."""


def services(panel: Panel) -> Listing[Service]:
    """Return the list of what is in the wall."""
    listing: Listing[Service] = Listing(
        panel,
        translate("Measure", "things in the wall"),
        lambda job: job.services,
        lambda job, records: job.but(services=records),
        described,
        kind="service",
    )
    accessory_fields(listing.form(Accessory, translate("Measure", "electrical point")))
    line_fields(listing.form(Cable, translate("Measure", "cable")))
    line_fields(listing.form(OldPipe, translate("Measure", "old pipe")))
    stud_fields(listing.form(Stud, translate("Measure", "stud")))
    joist_fields(listing.form(Joist, translate("Measure", "noggin")))
    listing.offer(translate("Measure", "Add socket or switch"), _accessory)
    listing.offer(translate("Measure", "Add cable"), _cable)
    listing.offer(translate("Measure", "Add old pipe"), _old_pipe)
    listing.offer(translate("Measure", "Add stud"), _stud)
    listing.offer(translate("Measure", "Add noggin or plate"), _joist)
    listing.finish()
    return listing


def described(service: Service) -> str:
    """Return the words for a service in a list."""
    if isinstance(service, Accessory):
        return f"{service.id}: {said(ACCESSORIES[service.kind])}"
    return f"{service.id}: {kind_word(service)}"


def accessory_fields(form: Form[Accessory]) -> None:
    """Add the fields of an electrical point."""
    form.text("id", translate("Measure", "Name"), most=60)
    form.choice("kind", translate("Measure", "It is a"), choices(ACCESSORIES))
    form.length("x", translate("Measure", "Centre, from the left"))
    form.length("height", translate("Measure", "Centre, above the floor"))
    form.length("wide", translate("Measure", "Width of its plate"))
    form.length("high", translate("Measure", "Height of its plate"))


def line_fields(form: Form[Any]) -> None:
    """Add the fields of a cable or of an old pipe."""
    form.text("id", translate("Measure", "Name"), most=60, wide=True)
    form.length("diameter", translate("Measure", "Diameter"))
    form.length("depth", translate("Measure", "Depth of its centre"))
    route = PointsField(
        translate("Measure", "Where it runs"),
        form.panel.display,
        across=translate("Measure", "From the left"),
        up=translate("Measure", "Above the floor"),
        least=2,
    )
    form.add(route, lambda record: record.route, lambda record, points: record.but(route=points), wide=True)


def stud_fields(form: Form[Stud]) -> None:
    """Add the fields of a stud."""
    form.text("id", translate("Measure", "Name"), most=60, wide=True)
    form.length("x", translate("Measure", "Centre, from the left"))
    form.length("wide", translate("Measure", "Width"))


def joist_fields(form: Form[Joist]) -> None:
    """Add the fields of a noggin or plate."""
    form.text("id", translate("Measure", "Name"), most=60, wide=True)
    form.length("height", translate("Measure", "Centre, above the floor"))
    form.length("high", translate("Measure", "Height of the timber"))
    form.length("left", translate("Measure", "Left end"))
    form.length("right", translate("Measure", "Right end"))


def _beside(job: Job) -> float:
    """Return an x beside the tray, on the wall if there is room."""
    tray, wall = job.enclosure, job.wall
    for x in (tray.right + BESIDE, tray.left - BESIDE):
        if 0 < x < wall.width:
            return on_grid(x)
    return on_grid(wall.width / 2)


def _accessory(job: Job) -> Accessory:
    return Accessory(id=free_name(job, "socket"), kind="socket", x=_beside(job), height=450.0)


def _cable(job: Job) -> Cable:
    x = _beside(job)
    return Cable(id=free_name(job, "cable"), route=((x, 450.0), (x, job.wall.height)))


def _old_pipe(job: Job) -> OldPipe:
    x = _beside(job)
    return OldPipe(id=free_name(job, "old-pipe"), route=((x, 0.0), (x, 1000.0)))


def _stud(job: Job) -> Stud:
    """Return a stud one spacing right of the last one, or the first at the left end."""
    last = max((service.x for service in job.services if isinstance(service, Stud)), default=None)
    width = Stud(id="stud", x=0.0).wide
    x = width / 2 if last is None else min(last + STUDS, job.wall.width - width / 2)
    return Stud(id=free_name(job, "stud"), x=on_grid(x))


def _joist(job: Job) -> Joist:
    return Joist(id=free_name(job, "noggin"), height=job.wall.height / 2, left=0.0, right=job.wall.width)
