"""What is tanked and what it takes: wet zones, collars at the holes, band in corners and along the rim.

Millimetres on the wall, areas in m2. The wet zone is what the enclosure spans, from its rim to the ceiling;
beside it lies the splash zone. A layer of the kind `tanking` makes an area of the finish tanked.
"""

from typing import Literal, NamedTuple

import shapely

from geometry.model import Job
from geometry.plan import Plan
from geometry.setting_out.holes import Hole, holes
from geometry.shape.outline import bounds_of
from geometry.tiling.region import gaps_in

SPLASH = 300.0
"""How far the splash zone reaches beyond the enclosure: 300, often 500 to 1000 (from memory)."""
RATE = (1.0, 1.5)
"""kg of liquid membrane per m2 for two coats; the maker's rate wins (common practice, no source)."""
LAP = 50.0
"""By which bands are laid past their ends, in mm each (common practice, no source)."""
STEPS = (
    "Make good chases and joints, sweep off dust, let fillings dry; prime if the maker says so.",
    "Bed the band into the first coat in corners and along the rim, and the collars round every pipe.",
    "Lay the first coat; when it no longer takes a fingerprint, lay the second across it in another tone.",
    "Let it dry as long as the maker says, longer in a cold or damp room. Do not tile on a tacky coat.",
    "Seal every screw hole through the membrane before the screw goes in.",
    "Lay the tiles in a solid bed; leave corners, rim and holes free of grout, and fill them with sealant.",
)
"""The sequence (common practice, no source)."""
ZoneName = Literal["wet", "splash"]


class Zone(NamedTuple):
    """One zone: how much of the wall it takes up, and how much of that is tanked, in m2."""

    name: ZoneName
    area: float
    tanked: float

    @property
    def open(self) -> float:
        """What is left without tanking, in m2."""
        return self.area - self.tanked


class Tanking(NamedTuple):
    """What the tanking of a job comes to."""

    zones: tuple[Zone, ...]
    collars: tuple[Hole, ...]
    """The holes of pipes that go through it."""
    sealed: int
    """Screw holes that go through it."""
    bands: tuple[tuple[str, float], ...]
    """Where band is laid, and how long it is there, laps included, in mm."""
    least: float
    most: float
    """Liquid membrane for all that is tanked, in kg."""

    @property
    def band(self) -> float:
        """The whole length of band, in m."""
        return sum(length for _, length in self.bands) / 1000


def tanking(plan: Plan) -> Tanking:
    """Return what is tanked on the wall of a job, and what it takes."""
    job = plan.job
    layer, wall = tanked_shape(job), job.wall
    through = [hole for hole in holes(plan) if shapely.covers(layer, shapely.Point(hole.at))]
    collars = tuple(hole for hole in through if hole.kind == "water")
    area = float(shapely.area(layer)) / 1e6
    ends = (("left corner", wall.left, 0.0), ("right corner", wall.right, wall.width))
    bands = [(name, _along(layer, x)) for name, kind, x in ends if kind == "corner"]
    rim = shapely.box(job.enclosure.left, job.enclosure.rim, job.enclosure.right, job.enclosure.rim + 1.0)
    bands.append(("rim", _overlap(layer, rim)))
    for niche in job.finish.niches:
        x0, y0, x1, y1 = bounds_of(niche)
        if shapely.intersects(layer, shapely.box(x0 - 1, y0 - 1, x1 + 1, y1 + 1)):
            bands.append((niche.id, 2 * (2 * (niche.width + niche.height)) + 4 * niche.depth))
    laid = tuple((name, length + 2 * LAP) for name, length in bands if length > 0)
    return Tanking(zones_of(job), collars, len(through) - len(collars), laid, area * RATE[0], area * RATE[1])


def zones_of(job: Job) -> tuple[Zone, ...]:
    """Return the zones of a job, and how much of each is tanked."""
    layer = tanked_shape(job)
    return tuple(_zone(name, shape, layer) for name, shape in zone_shapes(job))


def tanked_shape(job: Job) -> shapely.Geometry:
    """Return what of the wall lies under a tanking layer, openings and what is below the rim left out."""
    open_wall: shapely.Geometry = shapely.box(0.0, 0.0, job.wall.width, job.wall.height)
    for gap in gaps_in(job.finish, job.wall, job.enclosure):
        open_wall = shapely.difference(open_wall, shapely.box(*gap))
    found: list[shapely.Geometry] = []
    for area in job.finish.areas:
        here = open_wall
        if area.region is not None:
            x, y = area.region.x, area.region.y
            block = shapely.box(x, y, x + area.region.width, y + area.region.height)
            here, open_wall = shapely.intersection(open_wall, block), shapely.difference(open_wall, block)
        if any(layer.kind == "tanking" for layer in area.layers):
            found.append(here)
        if area.region is None:
            break
    return shapely.union_all(found) if found else shapely.Polygon()


def zone_shapes(job: Job) -> tuple[tuple[ZoneName, shapely.Geometry], ...]:
    """Return the zones on the wall, openings and niches left out."""
    wall, enclosure = job.wall, job.enclosure
    face: shapely.Geometry = shapely.box(0.0, 0.0, wall.width, wall.height)
    for gap in gaps_in(job.finish, wall, enclosure):
        face = shapely.difference(face, shapely.box(*gap))
    wet = shapely.box(enclosure.left, enclosure.rim, enclosure.right, wall.height)
    wide = shapely.box(enclosure.left - SPLASH, 0.0, enclosure.right + SPLASH, wall.height)
    beside = shapely.intersection(face, shapely.difference(wide, wet))
    parts = [part for part in shapely.get_parts(beside) if isinstance(part, shapely.Polygon)]
    return (
        ("wet", shapely.intersection(face, wet)),
        ("splash", shapely.MultiPolygon(parts)),  # without the lines on which it touches the wet zone
    )


def _zone(name: ZoneName, shape: shapely.Geometry, layer: shapely.Geometry) -> Zone:
    tanked = _overlap(shape, layer)
    return Zone(name, float(shapely.area(shape)) / 1e6, tanked / 1e6)


def _overlap(a: shapely.Geometry, b: shapely.Geometry) -> float:
    """Return the area that two shapes share, in mm2."""
    if shapely.is_empty(a) or shapely.is_empty(b):  # some empty ones cannot be intersected
        return 0.0
    return float(shapely.area(shapely.intersection(a, b)))


def _along(layer: shapely.Geometry, x: float) -> float:
    """Return how far up a plumb line at an end of the wall is tanked, in mm."""
    x0, y0, x1, y1 = shapely.bounds(layer).tolist() if not shapely.is_empty(layer) else (0.0, 0.0, 0.0, 0.0)
    if y1 <= y0 or not x0 - 1 <= x <= x1 + 1:
        return 0.0
    strip = shapely.box(x - 1.0, y0, x + 1.0, y1)
    return _overlap(layer, strip)
