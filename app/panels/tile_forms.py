"""The forms for what faces the wall: tiles, or panels instead of them, niches, the background."""

from app.panels.form import Form
from app.panels.listing import Listing
from app.panels.panel import Panel
from app.panels.words import BONDS, HANDS, RUNS, choices, said, translate
from geometry.edits.refs import free_name
from geometry.model import Finish, Job, Tiling
from geometry.model.finish import MovementJoint, Niche, Panels
from geometry.units import on_grid


class TilingForm(Form[Tiling]):
    """The tiles, and where the first one starts."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(panel, panel.tr("tiles"), lambda job: job.finish.tiling, _with_tiling)
        self.length("wide", self.tr("Tile, width"))
        self.length("high", self.tr("Tile, height"))
        self.length("joint", self.tr("Joint"))
        self.length("border", self.tr("Gap at corners"))
        self.length("trim", self.tr("Edge trim"))
        self.choice("bond", self.tr("Bond"), choices(BONDS))
        self.choice("direction", self.tr("Shifted to the"), choices(HANDS))
        self.length("start_x", self.tr("First tile, left edge"))
        self.length("start_y", self.tr("First tile, lower edge"))
        self.number("spare", self.tr("Bought to spare"), "%")
        self.number("boxed", self.tr("Tiles in a box"), "")
        self.number("weight", self.tr("Weight"), "kg/m²", empty=self.tr("not stated"))


class PanelsForm(Form[Panels]):
    """Sheets that face the wall instead of tiles."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(panel, panel.tr("panels"), lambda job: job.finish.panels, _with_panels)
        self.length("wide", self.tr("Panel, width"))
        self.length("high", self.tr("Panel, height"))
        self.length("joint", self.tr("Joint between two"))
        self.length("trim", self.tr("Edge trim"))
        self.length("start_x", self.tr("First panel, left edge"))
        self.length("start_y", self.tr("First panel, lower edge"))


class BackgroundForm(Form[Finish]):
    """What lies under the tiles or panels: how holes in board are widened, and what the wall carries."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(
            panel, panel.tr("finish"), lambda job: job.finish, lambda job, _, finish: job.but(finish=finish)
        )
        self.length("board_wider", self.tr("Holes in board wider by"))
        self.number("carries", self.tr("It carries"), "kg/m²", empty=self.tr("not stated"))


def niches(panel: Panel) -> Listing[Niche]:
    """Return the list of niches."""
    listing: Listing[Niche] = Listing(
        panel,
        translate("Finish", "niches"),
        lambda job: job.finish.niches,
        lambda job, records: job.but(finish=job.finish.but(niches=records)),
        lambda record: f"{record.id}: {panel.written(record.width)} x {panel.written(record.height)}",
    )
    form = listing.form(Niche, translate("Finish", "niche"))
    form.text("id", translate("Finish", "Name"), most=60)
    form.length("depth", translate("Finish", "Depth"))
    form.rectangle()
    listing.offer(translate("Finish", "Add niche"), _niche)
    listing.finish()
    return listing


def movement_joints(panel: Panel) -> Listing[MovementJoint]:
    """Return the list of movement joints."""

    def describe(joint: MovementJoint) -> str:
        return f"{joint.id}: {said(RUNS[joint.runs]).lower()}, {panel.written(joint.at)}"

    listing: Listing[MovementJoint] = Listing(
        panel,
        translate("Finish", "movement joints"),
        lambda job: job.finish.movement,
        lambda job, records: job.but(finish=job.finish.but(movement=records)),
        describe,
    )
    form = listing.form(MovementJoint, translate("Finish", "movement joint"))
    form.text("id", translate("Finish", "Name"), most=60)
    form.choice("runs", translate("Finish", "It runs"), choices(RUNS))
    form.length("at", translate("Finish", "Its middle, from left or floor"))
    form.length("width", translate("Finish", "Width"))
    listing.offer(
        translate("Finish", "Add movement joint"),
        lambda job: MovementJoint(id=free_name(job, "movement"), at=on_grid(job.wall.width / 2)),
    )
    listing.finish()
    return listing


def _niche(job: Job) -> Niche:
    """Return a niche over the left part of the tray: own choice, to be moved at once."""
    return Niche(
        id=free_name(job, "niche"), x=job.enclosure.left + 100.0, y=1100.0, width=300.0, height=300.0
    )


def _with_tiling(job: Job, _: Tiling, tiling: Tiling) -> Job:
    return job.but(finish=job.finish.but(tiling=tiling))


def _with_panels(job: Job, _: Panels, panels: Panels) -> Job:
    return job.but(finish=job.finish.but(panels=panels))
