"""What holds for all pipes: lengths to buy and to use up, measured fittings."""

from app.panels.form import Form
from app.panels.listing import Listing
from app.panels.panel import Panel
from app.panels.tubes import tube_field
from app.panels.words import JOINTINGS, MEASURES, choices, said, translate
from geometry.model import Job
from geometry.model.pipework import Measured, Offcut, Pipework


class PipeworkForm(Form[Pipework]):
    """How tube is bought and cut."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(panel, panel.tr("pipework"), lambda job: job.pipework, _put)
        self.length("stock_length", self.tr("A new length of tube"))
        self.length("kerf", self.tr("A cut takes away"))
        self.length("tail", self.tr("Left long at the supply"))
        self.length("least_kept", self.tr("Least off-cut kept"))


def offcuts(panel: Panel) -> Listing[Offcut]:
    """Return the list of lengths of tube at hand."""
    listing: Listing[Offcut] = Listing(
        panel,
        translate("Pipes", "off-cuts at hand"),
        lambda job: job.pipework.offcuts,
        lambda job, records: job.but(pipework=job.pipework.but(offcuts=records)),
        lambda record: f"{record.tube}, {panel.written(record.length)}",
    )
    form = listing.form(Offcut, translate("Pipes", "off-cut"))
    tube_field(form)
    form.length("length", translate("Pipes", "Length"))
    listing.offer(translate("Pipes", "Add off-cut"), lambda job: Offcut(tube="copper-15", length=500.0))
    listing.finish()
    return listing


def measured(panel: Panel) -> Listing[Measured]:
    """Return the list of sizes that somebody measured on the fittings at hand."""
    listing: Listing[Measured] = Listing(
        panel,
        translate("Pipes", "measured fittings"),
        lambda job: job.pipework.measured,
        lambda job, records: job.but(pipework=job.pipework.but(measured=records)),
        lambda record: f"{said(MEASURES[record.what])}: {panel.written(record.value)}",
    )
    form = listing.form(Measured, translate("Pipes", "measured fitting"))
    form.choice("what", translate("Pipes", "Measured"), choices(MEASURES))
    form.length("value", translate("Pipes", "It is"))
    form.choice("jointing", translate("Pipes", "Joint"), choices(JOINTINGS))
    form.length("outside", translate("Pipes", "On a tube of"))
    listing.offer(
        translate("Pipes", "Add size"),
        lambda job: Measured(jointing="capillary", outside=15.0, what="elbow", value=12.0),
    )
    listing.finish()
    return listing


def _put(job: Job, _: Pipework, pipework: Pipework) -> Job:
    return job.but(pipework=pipework)
