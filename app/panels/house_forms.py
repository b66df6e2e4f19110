"""The parts of the step Measure about the house: title block, people and fixtures, water supply."""

from collections.abc import Callable
from typing import Any, Literal

from app.document import State
from app.panels.choice_fields import NotesField, TickField
from app.panels.form import Form
from app.panels.listing import Listing
from app.panels.panel import Panel
from app.panels.words import BACKFLOWS, HOT_SOURCES, ISOLATIONS, SANITARY, USERS, choices, said, translate
from geometry.edits.refs import free_name
from geometry.model import About, Branch, House, Job, Reading, Sanitary, Supply, Upstream
from geometry.parts.records import TubePart

Side = Literal["cold", "hot"]
STANDING_PRESSURE = 3.0
"""bar; stands in a new record until the reading is typed (usual at a mains tap, no source)."""
COLD, HOT = 10.0, 60.0
"""Degrees Celsius in a new record; own choice, to be measured."""


class AboutForm(Form[About]):
    """The words of the title block."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(
            panel,
            translate("Measure", "title block"),
            lambda job: job.about,
            lambda job, _, about: job.but(about=about),
        )
        self.text("title", self.tr("Title"), wide=True)
        self.text("place", self.tr("Room and wall"), wide=True)
        self.text("owner", self.tr("Legal owner"))
        self.text("creator", self.tr("Created by"))
        self.text("approved_by", self.tr("Approved by"))
        self.text("date", self.tr("Date of issue"))
        self.text("number", self.tr("Number"))
        self.text("revision", self.tr("Revision"))
        self.add(
            NotesField(self.tr("Notes")),
            lambda about: about.notes,
            lambda about, notes: about.but(notes=notes),
            wide=True,
        )


class HouseForm(Form[House]):
    """Who will use the shower, and how its water is kept clean and shut off."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(
            panel,
            translate("Measure", "house"),
            lambda job: job.house,
            lambda job, _, house: job.but(house=house),
        )
        self.tick("dwelling", self.tr("It is a dwelling, not a place of care"))
        for user, words in USERS.items():
            self._add_user(user, said(words))
        self.choice("backflow", self.tr("Used water is kept out by"), choices(BACKFLOWS), wide=True)
        self.choice("isolation", self.tr("The supplies are shut off"), choices(ISOLATIONS), wide=True)

    def _add_user(self, user: str, words: str) -> None:
        order = tuple(USERS)

        def write(house: House, wanted: bool) -> House:
            users = {*house.users, user} if wanted else {*house.users} - {user}
            return house.but(users=tuple(sorted(users, key=order.index)))

        title = self.tr("Change who uses the shower")
        self.add(TickField(words), lambda house: user in house.users, write, title=title)


def fixtures(panel: Panel) -> Listing[Sanitary]:
    """Return the list of what else holds water in the room."""
    listing: Listing[Sanitary] = Listing(
        panel,
        translate("Measure", "other fixtures"),
        lambda job: job.sanitary,
        lambda job, records: job.but(sanitary=records),
        lambda record: f"{record.id}: {said(SANITARY[record.kind])}",
    )
    form = listing.form(Sanitary, translate("Measure", "fixture"))
    form.text("id", translate("Measure", "Name"), most=60)
    form.choice("kind", translate("Measure", "It is a"), choices(SANITARY))
    form.length("x", translate("Measure", "Left edge, from the left"))
    form.length("z", translate("Measure", "Near edge, from the wall"))
    form.length("wide", translate("Measure", "Along the wall"))
    form.length("deep", translate("Measure", "Out from the wall"))
    form.length("rim", translate("Measure", "Height of its rim"), wide=True)
    listing.offer(translate("Measure", "Add fixture"), _fixture)
    listing.finish()
    return listing


def _fixture(job: Job) -> Sanitary:
    """Return a WC beside the tray: own choice, to be moved at once."""
    x = job.enclosure.right + 300.0
    return Sanitary(id=free_name(job, "wc"), kind="wc", x=x, z=200.0, wide=360.0, deep=450.0)


# the water supply


class SupplyForm(Form[Supply]):
    """Where the hot water comes from."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(
            panel,
            translate("Measure", "supply"),
            lambda job: job.supply,
            lambda job, _, supply: job.but(supply=supply),
        )
        self.choice("source", self.tr("Hot water comes from"), choices(HOT_SOURCES), wide=True)
        self.number("heater_kw", self.tr("Heater"), "kW", empty=self.tr("not known"))
        self.number("stored_litres", self.tr("Stored"), "l", empty=self.tr("not known"))


def new_supply() -> Supply:
    """Return a supply of which nothing but a usual pressure is stated yet."""
    return Supply(
        cold=Branch(static=STANDING_PRESSURE, temperature=COLD),
        hot=Branch(static=STANDING_PRESSURE, temperature=HOT),
    )


def _branch(job: Job, side: Side) -> Branch | None:
    return None if job.supply is None else getattr(job.supply, side)


def _with_branch(job: Job, side: Side, branch: Branch) -> Job:
    assert job.supply is not None, "a branch is edited only where there is a supply"
    return job.but(supply=job.supply.but(**{side: branch}))


def branch_form(panel: Panel, side: Side, thing: str) -> Form[Branch]:
    """Return the form for one branch: pressure with all taps shut, temperature, where it was read."""
    form: Form[Branch] = Form(
        panel, thing, lambda job: _branch(job, side), lambda job, _, branch: _with_branch(job, side, branch)
    )
    form.number("static", translate("Measure", "All taps shut"), "bar")
    form.number("temperature", translate("Measure", "Temperature"), "°C")
    form.length("gauge_height", translate("Measure", "Gauge, above the floor"))
    return form


def readings(panel: Panel, side: Side, name: str) -> Listing[Reading]:
    """Return the list of readings with water running."""
    read, write = _records(side, "readings")
    listing: Listing[Reading] = Listing(
        panel, name, read, write, lambda record: f"{record.flow:g} l/min, {record.pressure:g} bar"
    )
    form = listing.form(Reading, translate("Measure", "reading"))
    form.number("flow", translate("Measure", "Flow"), "l/min")
    form.number("pressure", translate("Measure", "Pressure meanwhile"), "bar")
    listing.offer(translate("Measure", "Add reading"), lambda job: Reading(flow=10.0, pressure=1.0))
    listing.finish()
    return listing


def upstream(panel: Panel, side: Side, name: str) -> Listing[Upstream]:
    """Return the list of stretches of pipe between the gauge and the wall."""
    read, write = _records(side, "upstream")
    listing: Listing[Upstream] = Listing(
        panel, name, read, write, lambda record: f"{record.tube}, {panel.written(record.length)}"
    )
    form = listing.form(Upstream, translate("Measure", "stretch of pipe"))
    tube_field(form)
    form.length("length", translate("Measure", "Length"))
    listing.offer(translate("Measure", "Add stretch"), lambda job: Upstream(tube="copper-15", length=3000.0))
    listing.finish()
    return listing


def _records(
    side: Side, field: str
) -> tuple[Callable[[Job], tuple[Any, ...]], Callable[[Job, tuple[Any, ...]], Job]]:
    """Return what reads and what writes the records of one field of a branch; none without a supply."""

    def read(job: Job) -> tuple[Any, ...]:
        branch = _branch(job, side)
        return getattr(branch, field) if branch else ()

    def write(job: Job, records: tuple[Any, ...]) -> Job:
        branch = _branch(job, side)
        return _with_branch(job, side, branch.but(**{field: records})) if branch else job

    return read, write


def tube_field(form: Form[Any], *, wide: bool = False) -> None:
    """Add the choice of a record's tube among those there are."""
    field = form.choice("tube", translate("Measure", "Tube"), wide=wide)

    def prepare(_record: Any, _state: State) -> None:
        field.set_choices(tubes(form.panel))

    form.before_showing(prepare)


def tubes(panel: Panel) -> tuple[tuple[str, str], ...]:
    """Return the tubes there are, with their names."""
    return tuple((part.id, part.name) for part in panel.document.catalogue if isinstance(part, TubePart))
