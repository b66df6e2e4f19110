"""The tiles as they are laid: whole or cut, named by row and column, with the length of every cut.

Millimetres on the wall. Rows count from the bottom and columns from the left, each from 1; in a bond
without rows a row is a column or a flight of steps.
"""

from collections import Counter, defaultdict
from collections.abc import Iterator, Sequence
from functools import lru_cache
from typing import Literal, NamedTuple

import numpy as np
import shapely

from geometry.model import XY, Enclosure, Finish, Tiling, Wall
from geometry.plan import Plan
from geometry.shape.outline import Bounds, rectangle
from geometry.tiling.grid import Tile, tiles_over
from geometry.tiling.region import Faced, faced

_LETTERS = "abcdefghijklmnopqrstuvwxyz"
MOST = 20_000
"""Tiles on a wall; more than this are mosaic, which is laid in sheets."""
SLIVER = 0.05
"""A piece narrower than this is not one: it is lost in the joint, in mm."""
Kind = Literal["whole", "cut", "notched"]


class Piece(NamedTuple):
    """One tile as laid: the whole tile it is taken from, and what is left of it, without its holes."""

    row: int
    column: int
    part: str
    """A letter where an opening or a step parts one tile into several pieces."""
    area: str
    tile: Tile
    shape: shapely.Geometry
    kind: Kind
    """`cut`: straight through; `notched`: round a corner, an opening or a niche."""

    @property
    def name(self) -> str:
        """What it is called on every sheet: R2 C3."""
        return f"R{self.row} C{self.column}{self.part}"

    @property
    def bounds(self) -> Bounds:
        """Its x min, y min, x max, y max."""
        x0, y0, x1, y1 = shapely.bounds(self.shape).tolist()
        return x0, y0, x1, y1

    @property
    def size(self) -> XY:
        """Its width and height."""
        x0, y0, x1, y1 = self.bounds
        return x1 - x0, y1 - y0

    @property
    def cut_sides(self) -> XY:
        """How wide and how high what is left is, where it was cut that way; a whole side counts as whole."""
        wide, high = self.size
        return (
            wide if wide < self.tile.wide - SLIVER else self.tile.wide,
            high if high < self.tile.high - SLIVER else self.tile.high,
        )

    @property
    def rim(self) -> tuple[XY, ...]:
        """The corners of its outline, without the last repeated."""
        if self.kind != "notched":
            return rectangle(*self.bounds).points
        assert isinstance(self.shape, shapely.Polygon)
        return _corners(self.shape.exterior)

    @property
    def rings(self) -> tuple[tuple[XY, ...], ...]:
        """Its outline and what is left out of it, each as a ring of corners without the last repeated."""
        assert isinstance(self.shape, shapely.Polygon)
        return (self.rim, *map(_corners, self.shape.interiors))


def pieces_of(plan: Plan) -> tuple[Piece, ...]:
    """Return the tiles of a job, row by row; none where nothing is tiled.

    Raises:
        ValueError: there are too many tiles.
    """
    job = plan.job
    return () if job.finish.tiling is None else lay(job.finish, job.wall, job.enclosure)


@lru_cache(maxsize=16)
def lay(finish: Finish, wall: Wall, enclosure: Enclosure) -> tuple[Piece, ...]:
    """Return the tiles of a finish, row by row from below.

    Raises:
        ValueError: there are too many tiles, or the finish has none.
    """
    tiling = finish.tiling
    if tiling is None:
        raise ValueError("the finish has no tiles to lay")
    return lay_on(tiling, faced(finish, wall, enclosure, "tile"))


def panels_of(plan: Plan) -> tuple[Piece, ...]:
    """Return the panels of a job, row by row; none where nothing is panelled. A whole sheet is a whole tile.

    Raises:
        ValueError: there are too many.
    """
    job = plan.job
    held = job.finish.panels
    if held is None:
        return ()
    sheets = Tiling(
        wide=held.wide, high=held.high, joint=held.joint, start_x=held.start_x, start_y=held.start_y
    )
    return lay_on(sheets, faced(job.finish, job.wall, job.enclosure, "panel"))


def lay_on(tiling: Tiling, faces: tuple[Faced, ...]) -> tuple[Piece, ...]:
    """Return the pieces that cover some faces, row by row from below.

    Raises:
        ValueError: there are too many.
    """
    pitch = (tiling.wide + tiling.joint) * (tiling.high + tiling.joint)
    if sum(float(shapely.area(one.shape)) for one in faces) / pitch > MOST:
        raise ValueError(
            f"tiles of {tiling.wide:g} x {tiling.high:g} mm are more than {MOST} on this wall: "
            "give the size of the sheet that a mosaic comes in"
        )
    found = [(area.id, piece) for area, shape in faces for piece in _cut(tiling, shape)]
    return tuple(_numbered(found, tiling.bond == "straight"))


class _Left(NamedTuple):
    """What is left of a tile, or a part of that."""

    tile: Tile
    shape: shapely.Geometry
    kind: Kind
    corner: XY
    """Lower left of its bounds."""


def _cut(tiling: Tiling, face: shapely.Geometry) -> Iterator[_Left]:
    """Cut the tiles over a face to it; a tile that an opening parts comes in pieces."""
    x0, y0, x1, y1 = shapely.bounds(face).tolist()
    tiles = list(tiles_over(tiling, (x0, y0, x1, y1)))
    shapes = shapely.box(*np.array([tile.bounds for tile in tiles]).reshape(-1, 4).T)
    shapely.prepare(face)
    outside = ~shapely.contains_properly(face, shapes)
    shapes[outside] = shapely.intersection(face, shapes[outside])
    parts, owners = shapely.get_parts(shapes, return_index=True)
    parts = shapely.normalize(parts)
    bounds = shapely.bounds(parts)
    sizes = bounds[:, 2:] - bounds[:, :2]
    kept = (shapely.get_type_id(parts) == shapely.GeometryType.POLYGON) & (sizes.min(axis=1) > SLIVER)
    notched = sizes.prod(axis=1) - shapely.area(parts) > SLIVER
    for index in np.flatnonzero(kept):
        tile, (wide, high) = tiles[owners[index]], sizes[index]
        whole = wide > tile.wide - SLIVER and high > tile.high - SLIVER
        kind: Kind = "notched" if notched[index] else "whole" if whole else "cut"
        yield _Left(tile, parts[index], kind, (float(bounds[index, 0]), float(bounds[index, 1])))


def _numbered(found: Sequence[tuple[str, _Left]], aligned: bool) -> Iterator[Piece]:
    """Number the courses from 1, and the tiles in each from its first; one over an opening keeps its number.

    In the straight bond a column has one number all the way up.
    """
    courses: defaultdict[int, list[tuple[str, _Left]]] = defaultdict(list)
    left = min((piece.tile.place for _, piece in found), default=0)
    for area, piece in found:
        courses[piece.tile.course].append((area, piece))
    for row, course in enumerate(sorted(courses), 1):
        ordered = sorted(courses[course], key=lambda one: (one[1].tile.place, *one[1].corner))
        first = left if aligned else ordered[0][1].tile.place
        taken = Counter(piece.tile.place for _, piece in ordered)
        parts = {place: iter(_LETTERS if many > 1 else ("",)) for place, many in taken.items()}
        for area, piece in ordered:
            part = next(parts[piece.tile.place], "+")
            column = piece.tile.place - first + 1
            yield Piece(row, column, part, area, piece.tile, piece.shape, piece.kind)


def _corners(ring: shapely.LinearRing) -> tuple[XY, ...]:
    """Return the corners of a ring, points in the middle of an edge left out."""
    points = [(float(x), float(y)) for x, y in ring.coords[:-1]]
    kept = []
    for index, (x, y) in enumerate(points):
        (x0, y0), (x1, y1) = points[index - 1], points[(index + 1) % len(points)]
        if abs((x - x0) * (y1 - y) - (y - y0) * (x1 - x)) > 1e-9:
            kept.append((x, y))
    return tuple(kept)
