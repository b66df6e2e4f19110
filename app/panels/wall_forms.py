"""The parts of the step Measure about the wall itself: its size and make-up, its openings, its other face."""

from app.document import State
from app.panels.form import Form
from app.panels.listing import Listing
from app.panels.panel import Panel
from app.panels.words import LOADBEARING, MAKE_UPS, RULE_SETS, SIDES, choices, translate
from geometry.edits.refs import free_name
from geometry.model import FarCut, Job, Opening, Wall


class WallForm(Form[Wall]):
    """Size, make-up and sides of the wall."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(
            panel, translate("Measure", "wall"), lambda job: job.wall, lambda job, _, wall: job.but(wall=wall)
        )
        self.length("width", self.tr("Width"))
        self.length("height", self.tr("Height to the ceiling"))
        self.choice("make_up", self.tr("Made of"), choices(MAKE_UPS))
        self.length("thickness", self.tr("Thickness, bare"))
        self.choice("loadbearing", self.tr("Carries a load"), choices(LOADBEARING))
        self.length("storey_height", self.tr("Storey height"))
        self.choice("left", self.tr("At its left"), choices(SIDES))
        self.choice("right", self.tr("At its right"), choices(SIDES))
        self._rules = self.choice(
            "strength_rules", self.tr("Cuts are judged by"), choices(RULE_SETS), wide=True
        )
        self._shell = self.length(
            "shell", self.tr("Face shell of the block"), empty=self.tr("not measured"), wide=True
        )
        self._by_machine = self.tick("machine_cut", self.tr("Chases are cut with a machine"))
        self.before_showing(self._prepare)

    def _prepare(self, wall: Wall, state: State) -> None:
        self._shell.setVisible(wall.make_up == "hollow_block")
        for field in (self._rules, self._by_machine):
            field.setVisible(not wall.is_stud_wall)


def opening_form(form: Form[Opening]) -> Form[Opening]:
    """Add the fields of an opening."""
    form.text("id", translate("Measure", "Name"), most=60, wide=True)
    form.rectangle()
    return form


def openings(panel: Panel) -> Listing[Opening]:
    """Return the list of doors, windows and hatches."""
    listing: Listing[Opening] = Listing(
        panel,
        translate("Measure", "openings"),
        lambda job: job.wall.openings,
        lambda job, records: job.but(wall=job.wall.but(openings=records)),
        lambda record: f"{record.id}: {panel.written(record.width)} x {panel.written(record.height)}",
        kind="opening",
    )
    opening_form(listing.form(Opening, translate("Measure", "opening")))
    listing.offer(translate("Measure", "Add opening"), _opening)
    listing.finish()
    return listing


def _opening(job: Job) -> Opening:
    """Return a window at the right end of the wall: own choice, to be moved at once."""
    width, height, y = 600.0, 900.0, 1100.0
    x = max(0.0, job.wall.width - width)
    return Opening(
        id=free_name(job, "opening"), x=x, y=min(y, job.wall.height / 2), width=width, height=height
    )


def far_cuts(panel: Panel) -> Listing[FarCut]:
    """Return the list of chases and recesses in the other face."""
    listing: Listing[FarCut] = Listing(
        panel,
        translate("Measure", "cuts in the other face"),
        lambda job: job.wall.other_face or (),
        lambda job, records: job.but(wall=job.wall.but(other_face=records)),
        lambda record: f"{record.id}: {panel.written(record.depth)}",
    )
    form = listing.form(FarCut, translate("Measure", "cut in the other face"))
    form.text("id", translate("Measure", "Name"), most=60)
    form.length("depth", translate("Measure", "Depth"))
    form.rectangle()
    listing.offer(
        translate("Measure", "Add a cut"),
        lambda job: FarCut(id=free_name(job, "far-cut"), x=0.0, y=0.0, width=40.0, height=1000.0),
    )
    listing.finish()
    return listing
