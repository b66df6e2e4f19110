"""The arrangement that the trade's rule suggests for a tray and the side it is entered from.

Valve and head stand on the centre line, the rail on the quarter line on the far side from the entry,
the hose outlet under the rail and level with the valve, so that the hose hangs clear of the controls
and the controls are met first. Heights count from the finished tray floor. All of it is common
practice, no source.
"""

from typing import Literal

from geometry.model import (
    About,
    Enclosure,
    Finish,
    FinishArea,
    Head,
    Hose,
    HoseOutlet,
    Job,
    Layer,
    Pipe,
    Rail,
    Tiling,
    Valve,
    Wall,
)
from geometry.model.enclosure import Entry
from geometry.setting_out.lines import lines

VALVE_HEIGHT = 1000.0
"""Valve centre above the tray floor, mm: 1000-1200 (common practice, no source)."""
HEAD_UNDERSIDE = 2100.0
"""Underside of the head above the tray floor, mm: 2000-2200 (common practice, no source)."""
RAIL_FOOT = 1090.0
"""Foot of the rail above the tray floor, mm: 1000-1100 (common practice, no source)."""
HEAD_DROP = 60.0
"""Of the part suggested: from the arm's axis at the wall down to the underside, mm."""
FLOOR = 30.0
RIM = 40.0
TRAY_SIZES = (400.0, 3000.0)
WALL_HEIGHTS = (1000.0, 6000.0)
"""What a tray and a wall to shower at may measure, mm (common practice, no source): 76 was meant in cm."""
INLETS = 45.0
"""Of the part suggested: its inlets stand this far either side of its centre, mm."""


def suggested_job(
    tray_width: float,
    tray_projection: float,
    entry: Entry,
    wall_width: float | None = None,
    wall_height: float = 2400.0,
    title: str = "Concealed shower",
) -> Job:
    """Return a new job, set out by the trade's rule.

    Args:
        tray_width: along the wall, in mm.
        tray_projection: from the wall into the room, in mm.
        entry: the edge that people step in over.
        wall_width: mm; without one the wall is as wide as the tray.
        wall_height: floor to ceiling, in mm.
        title: for the title block.

    Raises:
        ValueError: the tray is wider than the wall, or a size is impossible or must be a slip.
    """
    width = tray_width if wall_width is None else wall_width
    if width < tray_width:
        raise ValueError(f"the tray is wider than the wall: {tray_width:g} mm on {width:g} mm")
    enclosure = Enclosure(
        left=0.0, width=tray_width, projection=tray_projection, floor=FLOOR, rim=RIM, entry=entry
    )
    _refuse_slips("width of the tray", tray_width, TRAY_SIZES)
    _refuse_slips("projection of the tray", tray_projection, TRAY_SIZES)
    _refuse_slips("height of the wall", wall_height, WALL_HEIGHTS)
    held = lines(enclosure)
    far_side: Literal["left", "right"] = "left" if entry == "right" else "right"
    rail_x = held.quarter_left if far_side == "left" else held.quarter_right
    valve_y = held.floor + VALVE_HEIGHT
    fittings = (
        Valve(id="valve", part="valve-two-round", x=held.centre, height=valve_y, side=far_side),
        Head(id="head", part="head-wall-200", x=held.centre, height=held.floor + HEAD_UNDERSIDE + HEAD_DROP),
        HoseOutlet(id="outlet", part="outlet-round", x=rail_x, height=valve_y),
        Rail(id="rail", part="rail-700", x=rail_x, height=held.floor + RAIL_FOOT),
    )
    pipes = (
        Pipe(id="hot", service="hot", end="valve.hot", route=((held.centre - INLETS, 0.0),)),
        Pipe(id="cold", service="cold", end="valve.cold", route=((held.centre + INLETS, 0.0),)),
        Pipe(id="riser", service="mixed", start="valve.out1", end="head.in"),
        Pipe(id="branch", service="mixed", start="valve.out2", end="outlet.in"),
    )
    return Job(
        about=About(title=title),
        wall=Wall(
            width=width, height=wall_height, storey_height=wall_height, thickness=140.0, make_up="dense_block"
        ),
        enclosure=enclosure,
        fittings=fittings,
        hoses=(Hose(id="hose", part="hose-1500", outlet="outlet", rail="rail"),),
        pipes=pipes,
        finish=Finish(areas=(FinishArea(id="wall", layers=USUAL_LAYERS),), tiling=Tiling()),
    )


def _refuse_slips(what: str, size: float, bounds: tuple[float, float]) -> None:
    least, most = bounds
    if not least <= size <= most:
        raise ValueError(f"{what}: must be from {least:g} to {most:g} mm, got {size:g} mm")


USUAL_LAYERS = (
    Layer(kind="tanking", thickness=1.0, name="tanking membrane"),
    Layer(kind="adhesive", thickness=4.0, tolerance=1.0, name="adhesive"),
    Layer(kind="tile", thickness=9.0, name="tile"),
)
"""A tiled and tanked masonry wall: adhesive 3-6 mm, tile 6.5-11 mm (common practice, no source)."""
