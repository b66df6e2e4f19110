"""The tiler's sheet: the finished face with its tiles, then holes, cuts, amounts, build-up and best starts.

Millimetres on paper.
"""

from collections import defaultdict

import shapely

from export.document import Document
from export.drawings.tile_plan import draw_tile_plan, plan_bounds
from export.pen import Pen
from export.sheets.flow import Section, entry, paragraph
from export.sheets.listed import listed_sheet, reading_width
from export.sheets.options import SheetOptions
from export.sheets.paper import paper
from export.sheets.scaled import SCALES
from export.sheets.ticked import Column, table
from export.wrapped_pens import Placed
from geometry.build_up import build_up
from geometry.finding import Finding
from geometry.model import Tiling
from geometry.model.finish import MovementJoint
from geometry.plan import Plan
from geometry.shape.outline import Bounds
from geometry.tiling.amounts import amounts, square_weight
from geometry.tiling.best_start import best_starts
from geometry.tiling.drilling import Drilled, covers, drilled
from geometry.tiling.pieces import Piece, pieces_of
from geometry.tiling.region import faced, trimmed
from geometry.units import number
from geometry.waterproofing import STEPS, tanking

KIND = "Tiling"
SHARE = 0.68  # of a page's height that the drawing may take
GAP = 5.0  # mm, under the drawing
_HOLES = (
    Column("No.", 7.0, layer="frame"),
    Column("Hole", 0.0),
    Column("Tile", 27.0),
    Column("Tile dia.", 14.0, "right", "frame"),
    Column("Board dia.", 15.0, "right"),
    Column("From left of tile", 15.0, "right", "frame"),
    Column("Above its lower edge", 16.0, "right", "frame"),
    Column("Across", 13.0, "right"),
    Column("Up", 13.0, "right"),
)
_CUTS = (
    Column("", 5.0),
    Column("Pieces", 14.0, "right"),
    Column("Width", 18.0, "right", "frame"),
    Column("Height", 18.0, "right", "frame"),
    Column("Tiles", 0.0),
)


def tiler_sheet(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document) -> None:
    """Lay out the sheets for whoever tiles.

    Args:
        plan: the job with its parts.
        findings: of its checks; those about the tiles are repeated.
        options: paper.
        document: takes the pages.

    Raises:
        ValueError: there are too many tiles.
    """
    sheet = paper(options.paper)
    width = reading_width(sheet)
    pieces, tiling = pieces_of(plan), plan.job.finish.tiling
    if tiling is None or not pieces:
        words = paragraph("Nothing on this wall is tiled. Panels are on their own sheet.", width)
        listed_sheet(document, sheet, plan.job.about, KIND, [[Section(KIND, words)]])
        return

    def elevation(pen: Pen, room: Bounds) -> float:
        return draw_to_fit(plan, pen, room)

    sections = [
        Section("How to read it", paragraph(_key(plan, tiling), width)),
        holes_table(drilled(plan), width),
        _cuts_table(pieces, width),
        Section(
            "Amounts", tuple(entry(name, text, width) for name, text in amounts_words(plan, pieces, tiling))
        ),
        Section("Build-up", tuple(entry(name, text, width) for name, text in build_up_words(plan))),
        _waterproofing(plan, width),
        *_starts(plan, width),
        *_hints(findings, width),
    ]
    listed_sheet(document, sheet, plan.job.about, KIND, [sections], elevation)


def draw_to_fit(plan: Plan, pen: Pen, room: Bounds, panels: tuple[Piece, ...] | None = None) -> float:
    """Draw tiles or panels at the largest usual scale that fits, and return how much height it took."""
    left, low, right, top = room
    tall = (top - low) * SHARE
    for scale in SCALES:
        x0, y0, x1, y1 = (side / scale for side in plan_bounds(plan, scale))
        if x1 - x0 <= right - left and y1 - y0 + 5 <= tall:
            break
    shift = max(0.0, (right - left - (x1 - x0)) / 2)
    pen.text("text", (left, top - 2.5), f"Finished face 1:{scale}, seen from the room, in mm", 2.5)
    draw_tile_plan(plan, Placed(pen, 1 / scale, left + shift - x0, top - 5 - y1), scale, panels)
    return y1 - y0 + 5 + GAP


def _key(plan: Plan, tiling: Tiling) -> str:
    bond = {
        "straight": "straight, joint over joint", "half": "each row shifted by half a tile",
        "third": f"each row shifted by a third to the {tiling.direction}",
        "vertical": "in columns, each shifted by half a tile", "herringbone": "herringbone",
    }[tiling.bond]  # fmt: skip
    counted = "Rows (R) count from below, tiles in them (C) from the left."
    if tiling.bond == "vertical":
        counted = "R counts the columns from the left, C the tiles in each from below."
    elif tiling.bond == "herringbone":
        side = "left" if tiling.direction == "right" else "right"
        counted = f"R counts the flights of steps from the upper {side}, C the tiles in each from below."
    enclosure = plan.job.enclosure
    across = _way(tiling.start_x - enclosure.left, "right", "left")
    up = _way(tiling.start_y - enclosure.floor, "above", "below")
    return (
        f"Tiles {number(tiling.wide)} × {number(tiling.high)}, joint {number(tiling.joint)}, laid {bond}. "
        f"The grid starts with a tile whose lower left corner lies {across} of the left edge of the "
        f"{enclosure.kind.replace('_', ' ')} and {up} its finished floor. {counted} "
        f"Cut pieces are shaded. A gap of {number(tiling.border)} is left where the tiles "
        "end. A hole across a joint is listed with each of its tiles; a minus: its centre is outside that."
    )


def _way(off: float, positive: str, negative: str) -> str:
    return f"{number(abs(off))} {positive if off >= 0 else negative}"


def hole_rows(holes: tuple[Drilled, ...]) -> list[list[str]]:
    """Return the schedule of holes: number, owner, tile, widths, place in the tile and on the wall.

    A hole across a joint has a row for each of its tiles; those after the first have no number.
    """
    rows: list[list[str]] = []
    for one in holes:
        hole = one.hole
        what = hole.owner if hole.kind == "water" else f"{hole.owner}, {hole.what}"
        wide, board = number(hole.diameter), "–" if one.board is None else number(one.board)
        datum = [number(hole.across), number(hole.up)]
        if not one.tiles:
            rows.append([str(one.number), what, "not tiled", wide, board, "–", "–", *datum])
        for index, tile in enumerate(one.tiles):
            name = f"{tile.piece.name}{', cuts its edge' if tile.cuts else ''}"
            place = [number(tile.across), number(tile.up)]
            if index == 0:
                rows.append([str(one.number), what, name, wide, board, *place, *datum])
            else:
                rows.append(["", "", name, wide, "", *place, "", ""])
    return rows


def holes_table(holes: tuple[Drilled, ...], width: float) -> Section:
    """Return the schedule of holes as a table."""
    rows = hole_rows(holes)
    if not rows:
        return Section("Holes", paragraph("No hole is planned.", width))
    return table("Holes", _HOLES, rows, width)


def cut_rows(pieces: tuple[Piece, ...]) -> list[list[str]]:
    """Return the cut pieces by size: how many, width, height, which."""
    groups: defaultdict[tuple[str, str, str], list[str]] = defaultdict(list)
    for piece in pieces:
        if piece.kind != "whole":
            wide, high = piece.size
            groups[number(wide), number(high), piece.kind].append(piece.name)
    notched = {"notched": " (notched: measure on the wall)"}
    return [
        [str(len(names)), across, up, ", ".join(names) + notched.get(kind, "")]
        for (across, up, kind), names in groups.items()
    ]


def _cuts_table(pieces: tuple[Piece, ...], width: float) -> Section:
    rows = [["", *row] for row in cut_rows(pieces)]
    if not rows:
        return Section("Cuts", paragraph("Every tile is whole.", width))
    return table("Cuts", _CUTS, rows, width)


def amounts_words(plan: Plan, pieces: tuple[Piece, ...], tiling: Tiling) -> list[tuple[str, str]]:
    """Return what the tiles come to, as subject and sentence."""
    job = plan.job
    faces = faced(job.finish, job.wall, job.enclosure, "tile")
    area = sum(float(shapely.area(one.shape)) for one in faces) / 1e6
    held = amounts(pieces, tiling, job.finish.areas, area)
    boxes = f", {held.boxes} boxes of {number(tiling.boxed)}" if held.boxes else ""
    found = [
        ("Area", f"{area:.2f} m2 of tile and joint."),
        (
            "Tiles",
            f"{held.whole} whole and {held.cut} cut; buy {held.bought}{boxes}: one tile for each piece and "
            f"{number(tiling.spare)} % spare.",
        ),
        (
            "Adhesive",
            f"{held.adhesive_least:.1f} to {held.adhesive_most:.1f} kg of powder: 1.2 to 1.5 kg per m2 and "
            "mm of bed (common practice).",
        ),
        ("Grout", f"{held.grout:.1f} kg: (a + b) / (a × b) × joint × depth × 1.6 per m2 (makers' formula)."),
    ]
    if tiling.trim > 0:
        long = trimmed(job.finish, job.wall) / 1000
        found.append(("Trims", f"{long:.2f} m of edge trim, {number(tiling.trim)} wide at the face."))
    found += [
        (
            "Movement joint",
            f"{joint.id}: {_where(joint)}, {number(joint.width)} wide, dashed; with sealant.",
        )
        for joint in job.finish.movement
    ]
    for one in faces:
        weight = square_weight(tiling, one.area)
        found.append(("Weight", f"Area {one.area.id}: up to {weight:.1f} kg/m2 with adhesive and grout."))
    return found


def _where(joint: MovementJoint) -> str:
    if joint.runs == "plumb":
        return f"plumb, its middle {number(joint.at)} from the wall's left end"
    return f"level, its middle {number(joint.at)} above the floor"


def build_up_words(plan: Plan) -> list[tuple[str, str]]:
    """Return the layers of each area, and what they come to at each fitting."""
    found = []
    for area in plan.job.finish.areas:
        layers = [
            f"{layer.name or layer.kind} {number(layer.thickness)}"
            + (f" ± {number(layer.tolerance)}" if layer.tolerance else "")
            for layer in area.layers
        ]
        where = "everywhere else"
        if area.region:
            (x, y), (w, h) = (area.region.x, area.region.y), (area.region.width, area.region.height)
            where = f"from {number(x)} to {number(x + w)} across and {number(y)} to {number(y + h)} up"
        found.append(
            (area.id, f"{' + '.join(layers) or 'bare'}, {where} (from the wall's left end and the floor).")
        )
    for fitting in plan.job.fittings:
        built = build_up(plan.job.finish, fitting.at)
        words = f"{number(built.planned)} from the bare wall to the finished face"
        if built.most > built.least:
            low, high = built.likely
            words += f"; likely {number(low)} to {number(high)}"
            words += f", at worst {number(built.least)} to {number(built.most)}"
        found.append((fitting.id, f"{words}."))
    for cover in covers(plan):
        words = f"hole {number(cover.hole)}: its plate reaches {number(cover.covered)} beyond the rim"
        if cover.room is not None:
            words += f", {number(cover.room)} of room round the thread{' and collar' if cover.collar else ''}"
        found.append((cover.owner, f"{words}."))
    return found


def waterproofing_words(plan: Plan) -> list[tuple[str, str]]:
    """Return what the tanking comes to, and its sequence, as subject and sentence."""
    held = tanking(plan)
    names = {"wet": "over the rim", "splash": "splash zone, 300 beside it"}
    found = [
        ("Area", f"{names[zone.name]}: {zone.tanked:.2f} of {zone.area:.2f} m2 tanked.")
        for zone in held.zones
        if zone.area > 0
    ]
    if held.most > 0:
        rate = "1.0 to 1.5 kg per m2 in two coats, or the maker's rate"
        found.append(("Membrane", f"{held.least:.1f} to {held.most:.1f} kg: {rate}."))
        bands = ", ".join(f"{name} {number(length)}" for name, length in held.bands)
        found.append(("Band", f"{held.band:.1f} m with laps: {bands}."))
        collars = ", ".join(f"{hole.owner} ({number(hole.diameter)} hole)" for hole in held.collars)
        words = f"{len(held.collars)}: {collars or 'none'}. Screw holes to seal: {held.sealed}."
        found.append(("Collars", words))
        found += [(f"Step {index}", text) for index, text in enumerate(STEPS, 1)]
    return found


def _waterproofing(plan: Plan, width: float) -> Section:
    return Section(
        "Waterproofing", tuple(entry(name, text, width) for name, text in waterproofing_words(plan))
    )


def _starts(plan: Plan, width: float) -> list[Section]:
    """Return the best starts, where the bond has them."""
    try:
        found = best_starts(plan, many=3)
    except ValueError:
        return []
    if not found:
        text = (
            "Every start brings a hole too near to the edge of a tile. Move a fitting, or take another tile."
        )
        return [Section("Best starts", paragraph(text, width))]
    enclosure = plan.job.enclosure
    entries = [
        entry(
            f"{index}.",
            f"first tile {_way(start.x - enclosure.left, 'right', 'left')} of the left edge, "
            f"{_way(start.y - enclosure.floor, 'above', 'below')} the floor: {'; '.join(start.reasons)}.",
            width,
            8.0,
        )
        for index, start in enumerate(found, 1)
    ]
    return [Section("Best starts", tuple(entries))]


def _hints(findings: tuple[Finding, ...], width: float) -> list[Section]:
    held = [one for one in findings if one.rule.startswith("tiling.") and one.status != "clear"]
    if not held:
        return []
    return [Section("Watch", tuple(entry(one.status.capitalize(), one.message, width) for one in held))]
