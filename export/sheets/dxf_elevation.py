"""The elevation as DXF: the model at full size in mm, each part as a block, and one sheet of paper.

Paper, scale and place on the sheet are those of the printed elevation, so that both look alike.
"""

from export.drawings.elevation import draw_elevation
from export.drawings.fittings import draw_fitting
from export.dxf import DxfDocument
from export.recorder import Recorder, Stroke
from export.sheets.frame import Sheet, draw_frame, inside
from export.sheets.options import SheetOptions
from export.sheets.scaled import KIND, Layout, layout
from export.wrapped_pens import Placed
from geometry.finding import Finding
from geometry.model import Fitting
from geometry.plan import Plan
from geometry.units import number


def dxf_elevation(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    """Return the elevation as a DXF file, R2010, in mm.

    Args:
        plan: the job with its parts.
        findings: of its checks; those with a place are numbered on the drawing.
        options: paper and scale of the sheet, which also size text and dashes in the model.

    Raises:
        ValueError: the drawing does not fit the paper; says which paper or scale would do.
    """
    first = layout(plan, options)
    document = DxfDocument(first.scale)
    draw_elevation(
        plan, findings, document.model, first.scale,
        parts=False, reference=True, pieces=True, room=first.room,
    )  # fmt: skip
    _insert_parts(plan, document)
    _lay_out(plan, document, first)
    return document.to_bytes()


def _insert_parts(plan: Plan, document: DxfDocument) -> None:
    """Place each fitting as a block of its part; fittings that look alike share one."""
    blocks: list[tuple[str, list[Stroke], str]] = []
    for fitting in plan.job.fittings:
        x, y = fitting.at
        drawn = Recorder()
        draw_fitting(plan, Placed(drawn, 1.0, -x, -y), fitting.id)
        name = next((n for part, look, n in blocks if (part, look) == (fitting.part, drawn.strokes)), None)
        if name is None:
            name = document.block(fitting.part, drawn.replay)
            blocks.append((fitting.part, drawn.strokes, name))
        document.insert(name, fitting.at, "plate", _attributes(fitting, plan))


def _attributes(fitting: Fitting, plan: Plan) -> dict[str, str]:
    enclosure = plan.job.enclosure
    return {
        "ID": fitting.id,
        "PART": fitting.part,
        "ACROSS": number(fitting.x - enclosure.left),
        "UP": number(fitting.height - enclosure.floor),
    }


def _lay_out(plan: Plan, document: DxfDocument, first: Layout) -> None:
    """Lay out the sheet: frame, title block, and the window in which the model shows as on paper."""
    left, low, right, top = inside(first.paper)
    middle = ((left + right) / 2, (low + top) / 2)
    centre = ((middle[0] - first.origin[0]) * first.scale, (middle[1] - first.origin[1]) * first.scale)
    size = (first.paper.width, first.paper.height)
    pen = document.sheet(size, ((left, low), (right, top)), centre)
    draw_frame(pen, Sheet(first.paper, plan.job.about, KIND, f"1:{first.scale}"))
