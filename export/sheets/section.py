"""The sections: upright through each valve and each elbow that sits in the wall, to a large scale.

Millimetres on paper. Each has the largest scale at which it fits; those of one scale may share a sheet.
"""

from collections.abc import Iterator
from typing import NamedTuple

from export.document import Document, PagePen
from export.drawings.marks import enclosed
from export.drawings.names import floor_of
from export.drawings.seats import Seat, seat, seats
from export.drawings.section import draw_section, section_bounds
from export.sheets.flow import BODY, Block, heading_block, paragraph
from export.sheets.frame import Sheet, draw_frame, inside
from export.sheets.options import SheetOptions
from export.sheets.paper import Paper, paper
from export.text import fitted
from export.wrapped_pens import Placed
from geometry.finding import Finding
from geometry.plan import Plan
from geometry.units import at_least, at_most, number

SCALES = (1, 2, 5, 10)
"""1:N from the largest, ISO 5455 from memory."""
GAP = 8.0  # mm, between one section and the title of the next
KIND = "Wall section"
_ABOUT_DEPTH = ("recess.", "outlet.")
"""How the rules begin whose findings are repeated over the section."""


class _Detail(NamedTuple):
    """One section: its scale, the words over it, and the room for both in mm on paper."""

    held: Seat
    scale: int
    words: tuple[Block, ...]
    height: float


def section_sheet(
    plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document
) -> None:
    """Lay out the sections.

    Args:
        plan: the job with its parts.
        findings: of its checks; those about the depth of a recess are repeated over its section.
        options: paper and scale; a scale smaller than 1:10 is meant for the elevation and is left aside.
        document: takes the pages.

    Raises:
        ValueError: a section does not fit; says which scale would do.
    """
    sheet = paper(options.paper)
    details = [_detail(plan, name, findings, options) for name in seats(plan)]
    pages = _stacked(details, sheet) or [[]]
    about = plan.job.about
    document.entitle(about.title or KIND, author=about.creator, subject=KIND)
    for number_of, page in enumerate(pages, 1):
        names = ", ".join(detail.held.name for detail in page)
        pen = document.page(sheet.width, sheet.height, name=f"{KIND}: {names}")
        scale = f"1:{page[0].scale}" if page else "–"
        draw_frame(pen, Sheet(sheet, about, KIND, scale, number_of, len(pages)))
        left, _, right, top = inside(sheet)
        for detail in page:
            _draw(plan, detail, pen, (left, right), top)
            top -= detail.height + GAP
        if not page:
            pen.text("text", (left, top - BODY), "Nothing of this job sits in the wall.", BODY)


def _draw(plan: Plan, detail: _Detail, pen: PagePen, sides: tuple[float, float], top: float) -> None:
    """Draw words and section between the sides, downwards from the top."""
    left, right = sides
    for block in detail.words:
        block.draw(pen, left, top)
        top -= block.height
    name, scale = detail.held.name, detail.scale
    x0, _, x1, y1 = (side / scale for side in section_bounds(plan, name, scale))
    shift = (right - left - (x1 - x0)) / 2
    draw_section(plan, name, Placed(pen, 1 / scale, left + shift - x0, top - y1), scale)


def _detail(plan: Plan, name: str, findings: tuple[Finding, ...], options: SheetOptions) -> _Detail:
    """Return one section at the largest scale at which it fits a sheet by itself.

    Raises:
        ValueError: it does not fit; says which scale would do.
    """
    sheet = paper(options.paper)
    left, low, right, top = inside(sheet)
    held = seat(plan, name)
    words = tuple(_words(plan, held, findings, right - left))
    asked = options.scale if options.scale and options.scale <= SCALES[-1] else None
    fitting = []
    for scale in dict.fromkeys((*([asked] if asked else []), *SCALES)):
        x0, y0, x1, y1 = (side / scale for side in section_bounds(plan, name, scale))
        height = sum(block.height for block in words) + y1 - y0
        if x1 - x0 <= right - left and height <= top - low:
            fitting.append(_Detail(held, scale, words, height))
    if fitting and (asked is None or fitting[0].scale == asked):
        return fitting[0]
    cure = f"1:{fitting[0].scale} would do" if fitting else "take a larger paper"
    raise ValueError(f"the section of {name} does not fit {sheet.name} at 1:{asked or SCALES[-1]}: {cure}")


def _stacked(details: list[_Detail], sheet: Paper) -> list[list[_Detail]]:
    """Return the sections of each sheet: one above the other, all of one scale."""
    _, low, _, top = inside(sheet)
    pages: list[list[_Detail]] = []
    room = 0.0
    for detail in details:
        if not pages or pages[-1][0].scale != detail.scale or room < detail.height + GAP:
            pages.append([])
            room = top - low + GAP
        pages[-1].append(detail)
        room -= detail.height + GAP
    return pages


def _words(plan: Plan, held: Seat, findings: tuple[Finding, ...], width: float) -> Iterator[Block]:
    """Go through the words over a section: what it is, where, how deep to cut, what is wrong with that."""
    yield heading_block(fitted(f"{held.name}: {held.part}", 3.5, width, bold=True))
    enclosure, thing = plan.job.enclosure, enclosed(plan)
    fitting = plan.job.fitting(held.name)
    across, up = number(fitting.x - enclosure.left), number(held.centre - enclosure.floor)
    where = f"{across} from the left edge of the {thing}, {up} above the {floor_of(thing)}."
    yield from paragraph(f"Seen from the left. {where}", width)
    depth = held.depth
    will_do = f"{number(depth.shallowest)} to {number(depth.most)}"
    cut = f"Cut {number(held.cut)} deep into the bare wall"
    if plan.job.wall.is_stud_wall:
        cut = f"Set the back {number(held.cut)} behind the bare face"
    if depth.room < 0:
        yield from paragraph("No depth of recess suits this finish.", width, "caution")
    elif at_least(held.cut, depth.shallowest) and at_most(held.cut, depth.most):
        yield from paragraph(f"{cut}; {will_do} will do.", width, "frame")
    else:
        yield from paragraph(f"{cut} is what the job says, but it needs {will_do}.", width, "caution")
    for finding in findings:
        if finding.status != "clear" and held.name in finding.parts and finding.rule.startswith(_ABOUT_DEPTH):
            yield from paragraph(f"{finding.status.capitalize()}: {finding.message}", width, "caution")
    yield Block(2.0, lambda pen, x, y: None)
