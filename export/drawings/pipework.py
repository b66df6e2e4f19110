"""The wall with the pipes by piece: what is cut and laid, and the name of every piece. For the plumber.

Model millimetres, as the elevation.
"""

from export.drawings.elevation import FAINT, draw_cuts, draw_pipes
from export.drawings.extent import wall_extent
from export.drawings.fittings import draw_holes
from export.drawings.outlines import draw_outline
from export.drawings.piece_names import draw_piece_names
from export.drawings.spots import Spots
from export.pen import Pen
from export.recorder import Recorder
from geometry.model import Joist, Stud
from geometry.pipework.cut_list import pieces
from geometry.plan import Plan
from geometry.shape.outline import Bounds, bounds_of, rectangle

JOINT = 0.7  # mm on paper, radius of the ring at each end of a piece
BESIDE = 24.0  # mm on paper; so far beside the wall a name may stand


def extent(plan: Plan, scale: float) -> Bounds:
    """Return how far the drawing reaches at most, in model mm."""
    left, low, right, top = wall_extent(plan)
    return left - BESIDE * scale, low, right + BESIDE * scale, top


def draw_pipework(plan: Plan, pen: Pen, scale: float) -> tuple[str, ...]:
    """Draw wall, cuts, pipes and joints, with each piece's name and the length that it is cut to.

    Where there is no room for all lengths, names stand alone; those for which there is none are returned.

    Args:
        plan: the job with its parts.
        pen: in model mm.
        scale: 20 for a drawing that will be printed at 1:20.
    """
    drawn, wall = Recorder(), plan.job.wall
    drawn.polyline("wall", rectangle(0.0, 0.0, wall.width, wall.height).points, closed=True)
    for opening in wall.openings:
        drawn.polyline("opening", rectangle(*bounds_of(opening)).points, closed=True)
    for solid, service in zip(plan.existing, plan.job.services, strict=True):
        draw_outline(drawn, "stud" if isinstance(service, Stud | Joist) else "service", solid.outline)
    draw_cuts(plan, drawn)
    draw_pipes(plan, drawn)
    for fitting in plan.job.fittings:
        draw_holes(plan, drawn, fitting.id)
    for at in sorted({end.at for piece in pieces(plan) for end in (piece.start, piece.end)}):
        drawn.circle("drill", at, JOINT * scale)
    drawn.replay(pen)
    left_out: tuple[str, ...] = ()
    names = Recorder()
    for lengths in (True, False):
        names, spots = Recorder(), Spots(drawn, extent(plan, scale), FAINT)
        left_out = draw_piece_names(plan, spots, names, scale, lengths=lengths)
        if not left_out:
            break
    names.replay(pen)
    return left_out
