"""The cut-list page: every piece with its name, where it is on the wall, how to cut it from stock, assembly.

Millimetres on paper; lengths in the tables are mm of tube.
"""

from export.document import Document
from export.drawings.piece_names import cut_to
from export.drawings.pieces import draw_pieces, scale_for
from export.pen import Pen
from export.sheets.flow import BODY, LINE, Block, Section, entry, paragraph
from export.sheets.listed import listed_sheet, reading_width
from export.sheets.options import SheetOptions
from export.sheets.paper import paper
from export.sheets.ticked import Column, table, together
from export.text import text_width
from geometry.finding import Finding
from geometry.pipework.assembly import assembly
from geometry.pipework.cut_list import Piece, Run, runs, unjoined
from geometry.pipework.stock import Bar, TubeCutting, cuttings
from geometry.plan import Plan
from geometry.quantities.order import TYPICAL
from geometry.quantities.tails import tails
from geometry.shape.outline import Bounds, rectangle
from geometry.units import number

KIND = "Cut list"
TALLEST = 95.0  # mm, of the small elevation
_GAP = 5.0  # mm, under it
_BAR = 5.0  # mm, height of a length of tube as drawn
_COLUMNS = (
    Column("", 5.0),
    Column("Piece", 16.0, layer="frame"),
    Column("Cut to", 17.0, "right", "frame"),
    Column("Tube", 0.0),
    Column("From", 33.0),
    Column("To", 33.0),
    Column("Centres", 17.0, "right"),
)


def cut_list_sheet(
    plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document
) -> None:
    """Lay out the cut list.

    Args:
        plan: the job with its parts.
        findings: not used; what cannot be made is said in a section of its own.
        options: paper.
        document: takes the pages.
    """
    sheet = paper(options.paper)
    made = runs(plan)
    pieces = tuple(piece for run in made for piece in run.pieces)
    if not pieces:
        width = reading_width(sheet)
        said = "There is nothing to cut." if plan.job.pipes else "No pipe is planned yet: nothing is to cut."
        nothing = Section(KIND, paragraph(said, width))
        listed_sheet(document, sheet, plan.job.about, KIND, [(nothing, *_faults(plan, pieces, width))])
        return

    def small_elevation(pen: Pen, room: Bounds) -> float:
        left, low, right, top = room
        scale = scale_for(plan, right - left, min(TALLEST, (top - low) / 2))
        wall = plan.job.wall
        shift = (right - left - wall.width / scale) / 2
        draw_pieces(plan, pieces, pen, (left + shift, top - wall.height / scale), scale)
        return wall.height / scale + _GAP

    sections = cut_sections(plan, made, pieces, reading_width(sheet))
    listed_sheet(document, sheet, plan.job.about, KIND, [sections], small_elevation)


def cut_sections(
    plan: Plan, made: tuple[Run, ...], pieces: tuple[Piece, ...], width: float
) -> tuple[Section, ...]:
    """Return the sections of the page: pieces, bends, faults, stock, assembly."""
    names = {run.pipe.id: run.tube.name for run in made}
    rows = [
        ["", p.name, cut_to(p), names[p.pipe], p.start.where, p.end.where, number(p.centres)] for p in pieces
    ]
    kept = number(plan.job.pipework.tail)
    note = (
        "Write the name on the pipe. Lengths are to half a millimetre, the tube pushed home in each fitting. "
        f"What goes to the supply is {kept} mm longer, to leave the wall. {TYPICAL}"
    )
    return (
        table("Pieces to cut, in mm", _COLUMNS, rows, width),
        *_bends(pieces, width),
        *_faults(plan, pieces, width),
        Section("How to read it", paragraph(note, width)),
        *_tails(plan, width),
        *_stock(plan, pieces, names, width),
        *_assembly(plan, made, width),
    )


def _bends(pieces: tuple[Piece, ...], width: float) -> tuple[Section, ...]:
    columns = (
        Column("Piece", 16.0, layer="frame"),
        Column("Bend", 12.0),
        Column("Angle", 16.0, "right"),
        Column("Radius", 18.0, "right"),
        Column("Starts at, from the end that is named first", 0.0),
    )
    rows = [
        [piece.name, str(index), f"{number(bend.angle)}°", number(bend.radius), number(bend.mark)]
        for piece in pieces
        for index, bend in enumerate(piece.bends, 1)
    ]
    return (table("Bends, in mm", columns, rows, width),) if rows else ()


def _faults(plan: Plan, pieces: tuple[Piece, ...], width: float) -> tuple[Section, ...]:
    faults = [
        *(f"{name}: {problem}" for name, problem in unjoined(plan).items()),
        *(piece.fault for piece in pieces if piece.fault),
    ]
    lines = [line for fault in faults for line in paragraph(f"{fault}.", width, "caution")]
    return (Section("Cannot be made like this", tuple(lines)),) if lines else ()


def _tails(plan: Plan, width: float) -> tuple[Section, ...]:
    columns = (
        Column("", 5.0),
        Column("Old pipe", 0.0, layer="frame"),
        Column("From x, y", 32.0),
        Column("To x, y", 32.0),
        Column("Length", 18.0, "right"),
    )
    rows = [
        [
            "",
            tail.pipe,
            *(f"{number(x)}, {number(y)}" for x, y in (tail.start, tail.end)),
            number(tail.length),
        ]
        for tail in tails(plan)
    ]
    heading = "Drain, cut out and cap before the wall is cut"
    return (table(heading, columns, rows, width),) if rows else ()


def _stock(plan: Plan, pieces: tuple[Piece, ...], names: dict[str, str], width: float) -> tuple[Section, ...]:
    tubes = {piece.tube: names[piece.pipe] for piece in pieces}
    sections = []
    for one in cuttings(plan, pieces):
        held = one.cutting
        longest = max((bar.length for bar in held.bars), default=1.0)
        blocks = [_bar(bar, one, width, longest, plan.job.pipework.least_kept) for bar in held.bars]
        words = (
            f"{held.bought} new of {number(plan.job.pipework.stock_length)} mm; each cut takes "
            f"{number(plan.job.pipework.kerf)} mm."
        )
        if not held.fewest:
            words += " One fewer might do: the search was given up."
        elif not held.longest:
            words += " No fewer would do; the longest rest might be longer still: the search was given up."
        for index in held.too_long:
            words += f" {one.pieces[index].name} is longer than any length: buy a longer one, or join it."
        opening = together((*paragraph(words, width), *blocks[:1]))
        sections.append(Section(f"From stock: {tubes[one.tube]}", (opening, *blocks[1:])))
    return tuple(sections)


def _bar(bar: Bar, one: TubeCutting, width: float, longest: float, least_kept: float) -> Block:
    """Return one length of tube drawn to scale, its pieces named in it, and what is left."""
    named = " + ".join(f"{one.pieces[index].name} {number(one.pieces[index].cut)}" for index in bar.pieces)
    kept = "keep" if bar.rest >= least_kept else "scrap"
    rest = f"; rest {number(bar.rest)}, {kept}" if bar.rest > 0 else "; no rest"
    own = f"off-cut of {number(bar.length)}: " if bar.own else ""
    below = paragraph(f"{own}{named}{rest}", width)

    def draw(pen: Pen, x: float, y: float) -> None:
        scale, low, left = width / longest, y - _BAR - 1.0, x
        for index in bar.pieces:
            piece = one.pieces[index]
            right = left + piece.cut * scale
            pen.polyline("frame", rectangle(left, low, right, low + _BAR).points, closed=True)
            if text_width(piece.name, BODY) <= right - left - 1.0:
                pen.text("text", ((left + right) / 2, low + 1.3), piece.name, BODY, align="centre")
            left = right
        if bar.rest > 0:
            pen.polyline(
                "trim", rectangle(left, low, left + bar.rest * scale, low + _BAR).points, closed=True
            )
        for index, line in enumerate(below):
            line.draw(pen, x, low - 0.5 - index * BODY * LINE)

    return Block(_BAR + 2.5 + len(below) * BODY * LINE, draw)


def _assembly(plan: Plan, made: tuple[Run, ...], width: float) -> tuple[Section, ...]:
    blocks: list[Block] = []
    for index, step in enumerate(assembly(plan, made), 1):
        said = [entry(f"{index} {step.subject}", step.text, width)]
        if step.caution:
            said.append(_caution(step.caution, width))
        blocks.append(together(said))
    return (Section("Put together in this order", tuple(blocks)),) if blocks else ()


def _caution(words: str, width: float, aside: float = 28.0) -> Block:
    lines = paragraph(words, width - aside, "caution")

    def draw(pen: Pen, x: float, y: float) -> None:
        for index, line in enumerate(lines):
            line.draw(pen, x + aside, y - index * BODY * LINE)

    return Block(len(lines) * BODY * LINE + 0.8, draw)
