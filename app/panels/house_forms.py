"""The parts of the step Measure about the house: title block, people and fixtures."""

from app.panels.choice_fields import NotesField, TickField
from app.panels.form import Form
from app.panels.listing import Listing
from app.panels.panel import Panel
from app.panels.words import BACKFLOWS, ISOLATIONS, SANITARY, USERS, choices, said, translate
from geometry.edits.refs import free_name
from geometry.model import About, House, Job, Sanitary


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
