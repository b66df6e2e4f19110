"""The page about the water: what was measured, what comes out, where the pressure goes, what would change it.

Millimetres on paper; bar, l/min, m/s and Celsius in the tables.
"""

from collections.abc import Iterator, Sequence
from itertools import cycle

from export.document import Document
from export.drawings.supply_plot import draw_supply_plot, letter
from export.pen import Pen
from export.sheets.findings_table import findings_sections
from export.sheets.flow import Block, Section, columns, entry, flow, paragraph
from export.sheets.frame import Sheet, draw_frame, inside
from export.sheets.options import SheetOptions
from export.sheets.paper import paper
from export.sheets.supply_tables import (
    Row,
    losses,
    readings,
    results_rows,
    sizes_rows,
    table,
    to_measure,
    tried,
)
from export.wrapped_pens import Placed
from geometry.finding import Finding
from geometry.parts.records import TubePart
from geometry.plan import Plan
from geometry.supply.from_plan import Lacking, Shower, showers
from geometry.supply.results import results
from geometry.supply.sweep import Sweep, sweeps
from geometry.supply.tryouts import bounded
from geometry.units import number

KIND = "Water supply"
PLOT = 75.0  # mm, height of the plot
_KEY = (
    "Cross: now, on the upright line of the pressure measured. Ring: from here the outlet gets what its maker"
    " states. Hot keeps its difference to cold."
)
_BOUNDED = "The heater's power bounds this flow, so no tube changes it."
_CAUTIONS = (
    (
        "Scalding",
        "Set the thermostat's stop so that the shower runs no hotter than 41 °C, measure it at the outlet,"
        " and try it with the cold shut off.",
    ),
    (
        "Legionella",
        "Store hot water at 60 °C or more, keep cold below 20 °C, leave no pipe in which water stands. Flush"
        " what was not used for a week.",
    ),
    (
        "Pressure",
        "Unvented cylinders, expansion vessels and their safety valves are pressure vessels: only people with"
        " the licence for them may change or set them.",
    ),
    ("Gas", "Gas pipes, gas boilers and gas heaters are for licensed gas fitters only."),
    (
        "Readings",
        "Hot and cold were read one at a time. If one main feeds both, less comes when both run: read once"
        " more with both running. Losses from tables are estimates; makers' figures win.",
    ),
)
"""Temperatures: HSE guidance on legionella and on mixing valves (see the findings); flushing from memory."""


def supply_sheet(
    plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document
) -> None:
    """Lay out the page about the water; without a supply, what to measure, with room to write.

    Args:
        plan: the job with its parts.
        findings: of its checks; those about the supply are listed, with the numbers of the elevation.
        options: paper.
        document: takes the pages.
    """
    sheet = paper(options.paper)
    pages = columns(inside(sheet))
    laid = flow(_sections(plan, findings, pages[0][2] - pages[0][0]), cycle(pages))
    total = 1 + laid[-1].region // len(pages)
    about = plan.job.about
    document.entitle(about.title or KIND, author=about.creator, subject=KIND)
    for page in range(total):
        pen = document.page(sheet.width, sheet.height, name=f"{KIND}, sheet {page + 1}")
        draw_frame(pen, Sheet(sheet, about, KIND, "–", page + 1, total))
        for one in laid:
            if one.region // len(pages) == page:
                one.block.draw(pen, one.x, one.y)


def _sections(plan: Plan, findings: tuple[Finding, ...], width: float) -> list[Section]:
    supply = plan.job.supply
    sections: list[Section] = []
    if supply is None:
        sections.append(_table("To be measured at the house", to_measure(), width))
    else:
        tubes = {part.id: part.name for part in plan.catalogue if isinstance(part, TubePart)}
        sections.append(_table("Measured at the house", readings(supply, tubes), width))
        found = showers(plan)
        for shower in found:
            if isinstance(shower, Lacking):
                sections.append(Section("Not worked out", paragraph(shower.message, width, "caution")))
            else:
                several = sum(isinstance(one, Shower) for one in found) > 1
                sections += _shower(plan, shower, width, f" at {shower.valve}" if several else "")
    if any(finding.rule.startswith("supply.") for finding in findings):
        sections += findings_sections(plan, findings, width, "supply.")
    cautions = tuple(entry(subject, text, width) for subject, text in _CAUTIONS)
    return [*sections, Section("Cautions", cautions)]


def _shower(plan: Plan, shower: Shower, width: float, where: str) -> Iterator[Section]:
    """Go through the sections about one valve; the first outlet stands for it where one has to."""
    found = results(shower.network)
    first = shower.network.outlets[0].name
    yield _table(f"What comes out{where}", results_rows(shower, found), width)
    yield _table(f"Where the pressure goes{where}, with {first} running", losses(found.alone[first]), width)
    drawn = sweeps(shower)
    legend = tuple(line for index, sweep in enumerate(drawn) for line in _legend(index, sweep, width))
    key = paragraph(_KEY, width)
    yield Section(f"Flow against supply pressure{where}", (_plot(drawn, width), *legend, *key))
    if shower.tubes:
        title = f"Other tubes on one stretch{where}: l/min at {first}"
        sizes = _table(title, sizes_rows(plan, shower, (first,)), width)
        why = paragraph(_BOUNDED, width) if bounded(shower, found.alone[first]) else ()
        yield sizes._replace(blocks=(*sizes.blocks, *why))
    yield _table(f"Other changes{where}", tried(plan, shower, (first,)), width)


def _plot(drawn: Sequence[Sweep], width: float) -> Block:
    wide = min(width, 170.0)

    def draw(pen: Pen, x: float, y: float) -> None:
        draw_supply_plot(drawn, Placed(pen, 1.0, x, y - PLOT), wide, PLOT)

    return Block(PLOT + 2.0, draw)


def _legend(index: int, sweep: Sweep, width: float) -> tuple[Block, ...]:
    bar, now = sweep.now
    reached = "is not reached" if sweep.enough is None else f"from {number(sweep.enough, 2)} bar"
    text = (
        f"{letter(index)}: {sweep.outlet}, {number(now)} l/min at the {number(bar, 2)} bar measured;"
        f" the {number(sweep.need)} l/min stated {reached}."
    )
    return paragraph(text, width)


def _table(heading: str, rows: Sequence[Row], width: float) -> Section:
    head, *body = table(rows, width)
    return Section(heading, tuple(body), head)
