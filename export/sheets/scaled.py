"""The elevation to scale: the drawing with its findings and cautions, on as many sheets as they take.

Millimetres on paper. The scale is the largest usual one at which the drawing with its chains and labels
fits the paper, either way up; findings and cautions stand beside or below it where they fit.
"""

from collections.abc import Iterator
from functools import lru_cache
from itertools import cycle
from typing import NamedTuple

from export.document import Document, PagePen
from export.drawings.cautions import cautions
from export.drawings.elevation import FULL, Room, draw_elevation, margins
from export.drawings.extent import wall_extent
from export.drawings.marks import enclosed
from export.drawings.names import floor_of
from export.pen import XY
from export.sheets.findings_table import findings_sections
from export.sheets.flow import BODY, LINE, Laid, Section, columns, entry, flow, height_of, paragraph
from export.sheets.frame import PAD, Sheet, draw_frame, frame_box, inside, title_box
from export.sheets.options import SheetOptions
from export.sheets.paper import SIZES, Paper, paper
from export.sheets.pipework_page import pipework_page
from export.text import RISE, wrapped
from export.wrapped_pens import Placed
from geometry.finding import Finding
from geometry.pipework.cut_list import pieces
from geometry.plan import Plan
from geometry.shape.outline import Bounds

SCALES = (1, 2, 5, 10, 20, 25, 50, 100, 200)
"""1:N from the largest: ISO 5455 from memory, and 1:25, which is usual in building."""
LEGIBLE = 50  # 1:50; what is smaller shows no more than where things are
ROOMS = (FULL, *(Room(labels, 0.0, 0.0) for labels in (FULL.labels, 40.0, 30.0)))
"""How long the texts round the wall may be: with names in the chains, with numbers alone, and narrower."""
LEAST_TABLE, LEAST_TALL = 130.0, 20.0  # mm; in less room a table of findings would not be read
WORDS_BESIDE = 50.0  # mm; width of the words about the drawing where they stand beside it
KIND = "Elevation"
GAP = 6.0  # mm, between the drawing and what stands beside it
_KEY = (
    "H hot, C cold, 1 2 3 outlets of the valve. Grey bands: chases. Dashed outlines: recesses. "
    "Numbers in boxes: findings."
)


class Layout(NamedTuple):
    """The first sheet: which paper, the drawing's scale and place, the words over it, what room is left."""

    paper: Paper
    scale: int
    room: Room
    """How long the texts round the wall may be."""
    origin: XY = (0.0, 0.0)
    """Where the wall's lower left corner stands."""
    words: tuple[str, ...] = ()
    words_at: XY = (0.0, 0.0)
    """Upper left corner of the words."""
    spare: Bounds | None = None


def elevation_sheet(
    plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document
) -> None:
    """Lay out the elevation: the drawing first, then what does not fit beside it.

    Args:
        plan: the job with its parts.
        findings: of its checks.
        options: paper and scale.
        document: takes the pages.

    Raises:
        ValueError: the drawing does not fit; says which paper or scale would do.
    """
    first = layout(plan, options)
    beside = _beside(plan, findings, first.spare)
    pages = columns(inside(first.paper))
    rest = _sections(plan, findings, pages[0][2] - pages[0][0])[len(beside) :]
    later = flow(rest, cycle(pages)) if rest else []
    opening = 2 if pieces(plan) else 1
    total = opening + (1 + later[-1].region // len(pages) if later else 0)

    about = plan.job.about
    sheet = Sheet(first.paper, about, KIND, f"1:{first.scale}", 1, total)
    document.entitle(about.title or KIND, author=about.creator, subject=KIND)
    pen = document.page(first.paper.width, first.paper.height, name=f"{KIND} 1:{first.scale}")
    draw_frame(pen, sheet)
    _draw_first(plan, findings, pen, first)
    if beside and first.spare:
        _draw(flow(beside, [first.spare]), pen)
    if opening == 2:
        pipework_page(plan, sheet._replace(number=2), SCALES, document)
    for number in range(opening + 1, total + 1):
        pen = document.page(
            first.paper.width, first.paper.height, name=f"Findings and cautions, sheet {number}"
        )
        draw_frame(pen, sheet._replace(number=number, scale="–"))
        _draw([one for one in later if one.region // len(pages) == number - opening - 1], pen)


def _draw_first(plan: Plan, findings: tuple[Finding, ...], pen: PagePen, first: Layout) -> None:
    x, y = first.words_at
    for index, line in enumerate(first.words):
        pen.text("text", (x, y - RISE * BODY - index * LINE * BODY), line, BODY)
    placed = Placed(pen, 1 / first.scale, *first.origin)
    draw_elevation(plan, findings, placed, first.scale, room=first.room)


def _draw(laid: list[Laid], pen: PagePen) -> None:
    for one in laid:
        one.block.draw(pen, one.x, one.y)


# what is written


def _sections(plan: Plan, findings: tuple[Finding, ...], width: float) -> tuple[Section, ...]:
    notes = plan.job.about.notes.strip()
    return (
        *findings_sections(plan, findings, width),
        *([Section("Notes", paragraph(notes, width))] if notes else []),
        Section("Cautions", tuple(entry(one.subject, one.text, width) for one in cautions(plan))),
    )


def _beside(plan: Plan, findings: tuple[Finding, ...], spare: Bounds | None) -> tuple[Section, ...]:
    """Return the sections, from the first, that fit whole into the room beside the drawing."""
    if spare is None:
        return ()
    sections = _sections(plan, findings, spare[2] - spare[0])
    room = spare[3] - spare[1]
    return sections[: sum(height_of(sections[: many + 1]) <= room for many in range(len(sections)))]


def _heading(plan: Plan, width: float) -> tuple[str, ...]:
    """Return the words over the drawing: how to read it, in lines of this width."""
    thing = enclosed(plan)
    datum = (
        f"Seen from the room, in mm. Distances count from the left edge of the {thing}, "
        f"heights from the finished {floor_of(thing)}."
    )
    return (*wrapped(datum, BODY, width), *wrapped(_KEY, BODY, width))


# where everything stands


@lru_cache(maxsize=4)  # the elevation is laid out once for PDF and DXF
def layout(plan: Plan, options: SheetOptions) -> Layout:
    """Return the first sheet: of the largest scale that fits, that which leaves the most room for findings.

    Labels are not shortened for the sake of a larger scale, unless it would be smaller than 1:50.

    Raises:
        ValueError: nothing fits; says which paper or scale would do.
    """
    scales = (options.scale,) if options.scale else SCALES
    for cutting in (False, True):
        for scale in scales:
            found = _layouts(plan, options.paper, scale, cutting) if cutting or scale <= LEGIBLE else []
            if found:
                return max(found, key=lambda one: _area(one.spare))
    raise ValueError(_refusal(plan, options))


def _refusal(plan: Plan, options: SheetOptions) -> str:
    name = paper(options.paper).name
    asked = f"at 1:{options.scale}" if options.scale else "at any usual scale"
    scales = (options.scale,) if options.scale else SCALES[::-1]
    papers = [size for size in reversed(SIZES) for scale in scales if _layouts(plan, size, scale, True)]
    smaller = [f"1:{scale}" for scale in SCALES if _layouts(plan, name, scale, True)]
    cures = [*papers[:1], *smaller[:1]]
    advice = f"{' or '.join(cures)} would do" if cures else "no paper is large enough"
    return f"the elevation does not fit {name} {asked}: {advice}"


def _layouts(plan: Plan, name: str, scale: int, cutting: bool) -> list[Layout]:
    """Return the ways in which the drawing fits the paper at this scale with the longest texts that fit.

    Args:
        plan: the job with its parts.
        name: of the paper.
        scale: 20 for 1:20.
        cutting: whether labels may be shortened that would be whole if there were more room.
    """
    left, low, right, top = wall_extent(plan)
    if max(right - left, top - low) / scale > max(*paper(name)[1:]):
        return []
    found: list[Layout] = []
    fewest = 0
    for room in ROOMS:
        held = margins(plan, scale, room)
        cut = sum(label.cut for label in held.column)
        fewest = cut if room is ROOMS[0] else fewest
        if cut > fewest and not cutting:
            break
        for landscape in (False, True):
            sheet = Layout(paper(name, landscape=landscape), scale, room)
            for area in _areas(sheet.paper):
                for words_over in (True, False):
                    found += _in_area(plan, sheet, area, held.bounds, words_over)
        if found:
            break
    return found


def _areas(sheet: Paper) -> Iterator[Bounds]:
    """Go through the rooms for a drawing: above the title block, and at its left."""
    yield inside(sheet)
    left, low, _, top = frame_box(sheet)
    if title_box(sheet)[0] > left:
        yield left + PAD, low + PAD, title_box(sheet)[0] - PAD, top - PAD


def _in_area(plan: Plan, sheet: Layout, area: Bounds, bounds: Bounds, words_over: bool) -> Iterator[Layout]:
    """Put the drawing into an area of the paper, if it fits, and find the larger room beside or below it."""
    x0, y0, x1, y1 = (side / sheet.scale for side in bounds)
    left, low, right, top = area
    free_left, free_low, free_right, free_top = inside(sheet.paper)
    beside_left = max(left + x1 - x0 + GAP, free_left)
    words = _heading(plan, x1 - x0 if words_over else min(free_right - beside_left, WORDS_BESIDE))
    tall = len(words) * LINE * BODY + 2.0
    over = tall if words_over else 0.0
    fits = x1 - x0 <= right - left and y1 - y0 + over <= top - low
    if not fits or (not words_over and free_right - beside_left < WORDS_BESIDE):
        return
    below = (free_left, free_low, free_right, top - over - (y1 - y0) - GAP)
    beside = (beside_left, free_low, free_right, free_top - (0.0 if words_over else tall + GAP))
    spare = max((below, beside), key=_area)
    used = x1 - x0 if words_over else right - left
    shift = 0.0 if spare is beside and _area(spare) else (right - left - used) / 2
    drawing = left + shift
    yield sheet._replace(
        origin=(drawing - x0, top - over - y1),
        words=words,
        words_at=(drawing if words_over else beside_left, top),
        spare=spare if _area(spare) else None,
    )


def _area(box: Bounds | None) -> float:
    """Return the area of a room, 0 if it is too narrow or too low for a table."""
    if box is None or box[2] - box[0] < LEAST_TABLE or box[3] - box[1] < LEAST_TALL:
        return 0.0
    return (box[2] - box[0]) * (box[3] - box[1])
