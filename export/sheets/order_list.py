"""The order list to tick off: what to buy by group, and what to carry away."""

from itertools import groupby

from export.document import Document
from export.sheets.flow import Section, paragraph
from export.sheets.listed import listed_sheet, reading_width
from export.sheets.options import SheetOptions
from export.sheets.paper import paper
from export.sheets.ticked import Column, table
from geometry.finding import Finding
from geometry.pipework.cut_list import unjoined
from geometry.plan import Plan
from geometry.quantities.order import TYPICAL, order
from geometry.units import number

KIND = "Order list"
_COLUMNS = (
    Column("", 5.0),
    Column("Amount", 18.0, "right", "frame"),
    Column("Unit", 15.0),
    Column("Item", 0.0),
    Column("Note", 56.0, layer="rule"),
)


def order_sheet(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document) -> None:
    """Lay out the order list."""
    sheet = paper(options.paper)
    listed_sheet(document, sheet, plan.job.about, KIND, [order_sections(plan, reading_width(sheet))])


def order_sections(plan: Plan, width: float) -> tuple[Section, ...]:
    """Return a table for each group, with a head over the first."""
    found = order(plan)
    if not found:
        return (Section(KIND, paragraph("Nothing is planned yet: there is nothing to order.", width)),)
    sections = [
        table(
            group,
            _COLUMNS,
            [["", number(item.amount), item.unit, item.what, item.note] for item in items],
            width,
        )
        for group, items in groupby(found, key=lambda item: item.group)
    ]
    later = (section._replace(head=None) for section in sections[1:])
    missing = tuple(
        line
        for name, problem in unjoined(plan).items()
        for line in paragraph(f"{name} is not in this list: {problem}.", width, "caution")
    )
    return (sections[0], *later, Section("Before you order", (*missing, *paragraph(TYPICAL, width))))
