"""The as-fitted record, for the next person who drills: what lies where behind the finish.

Everything is given from two fixed datums: the left finished corner and the finished floor. Depths count from
the finished face, to the middle of the pipe or cable. Lengths are mm.
"""

from export.document import Document
from export.drawings.pieces import draw_pieces, scale_for
from export.pen import Pen
from export.picture import Picture
from export.sheets.flow import Section, paragraph
from export.sheets.frame import inside
from export.sheets.listed import listed_sheet, reading_width
from export.sheets.options import Pictures, SheetOptions
from export.sheets.paper import paper
from export.sheets.photographs import captioned, photograph_pages
from export.sheets.ticked import Column, blank_lines, table
from geometry.build_up import build_up
from geometry.finding import Finding
from geometry.model import XY, Cable, OldPipe
from geometry.pipework.cut_list import piece_marks, runs
from geometry.pipework.routes import corners
from geometry.plan import Plan
from geometry.shape.outline import Bounds
from geometry.units import number

KIND = "As-fitted record"
TALLEST = 80.0  # mm, of the small elevation
_WORDS = (
    "Do not drill where pipes or cables lie, nor straight above, below or beside an accessory. x counts from "
    "the left finished corner, y from the finished floor, depth from the finished face to the middle. "
    "Planned values: write what was fitted beside them where it differs."
)
_RUNS = (
    Column("What", 38.0, layer="frame"),
    Column("Goes over x, y", 0.0),
    Column("Depth", 14.0, "right"),
    Column("As fitted", 42.0),
)
_JOINTS = (
    Column("Joint", 0.0),
    Column("Between", 34.0, layer="frame"),
    Column("x", 14.0, "right", "frame"),
    Column("y", 14.0, "right", "frame"),
    Column("As fitted", 42.0),
)
_PHOTOGRAPHS = (Column("File", 60.0, layer="frame"), Column("Shows", 0.0), Column("Picture", 36.0))


def as_fitted_sheet(
    plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document
) -> None:
    """Lay out the record."""
    sheet = paper(options.paper)
    pieces = tuple(piece for run in runs(plan) for piece in run.pieces)

    def small_elevation(pen: Pen, room: Bounds) -> float:
        left, low, right, top = room
        scale = scale_for(plan, right - left - 40.0, min(TALLEST, (top - low) / 2))
        wall = plan.job.wall
        shift = (right - left - wall.width / scale) / 2
        draw_pieces(plan, pieces, pen, (left + shift, top - wall.height / scale), scale)
        return wall.height / scale + 5.0

    chapter = record(plan, reading_width(sheet), options.pictures)
    shown = captioned(plan.job.pipework.photographs, options.pictures)
    more = photograph_pages(shown, inside(sheet))
    listed_sheet(document, sheet, plan.job.about, KIND, [chapter], small_elevation, more)


def record(plan: Plan, width: float, pictures: Pictures) -> tuple[Section, ...]:
    """Return pipes, cables, joints, photographs, and who wrote it."""
    sections = [Section("Where pipes and cables lie", paragraph(_WORDS, width))]
    lying = [*_pipes(plan), *_services(plan)]
    if lying:
        sections.append(table("Pipes and cables", _RUNS, lying, width))
    joints = [
        [fitting.what, fitting.between, number(fitting.at[0]), number(fitting.at[1]), ""]
        for run in runs(plan)
        for fitting in run.fittings
    ]
    if joints:
        sections.append(table("Joints", _JOINTS, joints, width))
    photographs = plan.job.pipework.photographs
    if photographs:
        rows = [[one.file, one.shows, _where(pictures.get(one.file, ""))] for one in photographs]
        sections.append(table("Photographs", _PHOTOGRAPHS, rows, width))
    sections.append(Section("Recorded by", blank_lines(("Name", "Date", "Signed"), width)))
    return tuple(sections)


def _where(picture: Picture | str) -> str:
    return "attached" if isinstance(picture, Picture) else picture


def _pipes(plan: Plan) -> list[list[str]]:
    rows, marks = [], piece_marks(plan)
    for pipe, chase in zip(plan.job.pipes, plan.chases, strict=True):
        points = corners(plan.courses[pipe.id].points)
        called = pipe.id if marks[pipe.id] == pipe.id else f"{marks[pipe.id]} {pipe.id}"
        what = f"{called}, {plan.tubes[pipe.id].name}"
        rows.append([what, _listed(points), number(chase.axis + _face(plan, points)), ""])
    return rows


def _services(plan: Plan) -> list[list[str]]:
    return [
        [
            f"{service.id}, {'cable' if isinstance(service, Cable) else 'old pipe'}",
            _listed(service.route),
            number(service.depth + _face(plan, service.route)),
            "",
        ]
        for service in plan.job.services
        if isinstance(service, Cable | OldPipe)
    ]


def _listed(points: tuple[XY, ...]) -> str:
    return " to ".join(f"{number(x)}, {number(y)}" for x, y in points)


def _face(plan: Plan, points: tuple[XY, ...]) -> float:
    """Return the least build-up along the points, so that nothing is said to lie deeper than it does."""
    return min(build_up(plan.job.finish, point).planned for point in points)
