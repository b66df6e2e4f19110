"""A photograph of the wall laid flat: four points whose places are known take its perspective away.

Points of a picture are pixels, x right and y down from its upper left corner; points of the wall are mm.
Nothing here knows a file or an image.
"""

from collections.abc import Sequence
from itertools import combinations
from typing import Annotated, NamedTuple

import numpy as np

from geometry.arrays import Floats
from geometry.model.record import XY, Points, Record, Span

Strength = Annotated[float, Span(0.0, 1.0, "")]
_FLAT = 1e-3  # of the largest triangle of four points: a smaller one is a line


class Perspective(NamedTuple):
    """How points of a picture lie on the wall, and the other way round, as 3 x 3 matrices.

    A point on the horizon or behind the camera comes out as not a number.
    """

    onto_wall: Floats
    onto_picture: Floats

    def to_wall(self, points: Sequence[XY] | Floats) -> Floats:
        """Return where points of the picture lie on the wall, in mm, one a row."""
        return _mapped(self.onto_wall, points)

    def to_picture(self, points: Sequence[XY] | Floats) -> Floats:
        """Return where points of the wall lie in the picture, in pixels, one a row."""
        return _mapped(self.onto_picture, points)


class Backdrop(Record, frozen=True, kw_only=True):
    """How a photograph lies behind the drawing: four points of it, their places on the wall, its strength."""

    picture: Points
    """Pixels of the photograph as it is kept."""
    wall: Points
    strength: Strength = 0.5
    """0: not seen; 1: as bright as it was taken."""

    def __post_init__(self) -> None:
        super().__post_init__()
        perspective(self.picture, self.wall)


def perspective(picture: Sequence[XY], wall: Sequence[XY]) -> Perspective:
    """Return the perspective by which four points of a picture lie on the wall.

    Args:
        picture: four points, in pixels.
        wall: the places of the same points in the same order, in mm.

    Raises:
        ValueError: there are not four of each, three of them lie on one line, or their order differs.
    """
    for name, points in (("picture", picture), ("wall", wall)):
        if len(points) != 4:
            raise ValueError(f".{name}: must have 4 points, has {len(points)}")
        areas = [abs(_turn(*three)) for three in combinations(points, 3)]
        if min(areas) <= _FLAT * max(areas) or max(areas) == 0:
            raise ValueError(f".{name}: three of the four points lie on one line: choose others")
    ways = [_turn(*(picture[i] for i in three)) * _turn(*(wall[i] for i in three)) for three in _TRIPLES]
    if not (all(way < 0 for way in ways) or all(way > 0 for way in ways)):
        raise ValueError(".picture: the four points do not go round in the order of those on the wall")
    if ways[0] > 0:  # y runs down in the picture and up on the wall, so a true picture turns the other way
        raise ValueError(".picture: the four points go round the other way than on the wall: two are swapped")
    onto_wall = _solved(picture, wall)
    onto_picture: Floats = np.linalg.inv(onto_wall).astype(np.float64)
    return Perspective(_facing(onto_wall, picture), _facing(onto_picture, wall))


_TRIPLES = ((0, 1, 2), (1, 2, 3), (2, 3, 0), (3, 0, 1))


def _turn(a: XY, b: XY, c: XY) -> float:
    """Return twice the area of a triangle, negative where it goes round clockwise."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _mapped(matrix: Floats, points: Sequence[XY] | Floats) -> Floats:
    held = np.asarray(points, dtype=np.float64).reshape(-1, 2)
    shifted = np.column_stack([held, np.ones(len(held))]) @ matrix.T
    ahead = np.where(shifted[:, 2:] > 0, shifted[:, 2:], np.nan)  # on the horizon and behind it is nowhere
    flat: Floats = shifted[:, :2] / ahead
    return flat


def _facing(matrix: Floats, points: Sequence[XY]) -> Floats:
    """Return the matrix with the sign by which what is seen lies ahead, as the four points do."""
    return matrix if float(matrix[2] @ (*points[0], 1.0)) > 0 else -matrix


def _solved(start: Sequence[XY], end: Sequence[XY]) -> Floats:
    """Return the matrix that takes four points to four others; both are centred first, to lose no digits."""
    (a, near), (b, far) = _centred(start), _centred(end)
    rows, values = [], []
    for (x, y), (u, v) in zip(near, far, strict=True):
        rows += [[x, y, 1, 0, 0, 0, -u * x, -u * y], [0, 0, 0, x, y, 1, -v * x, -v * y]]
        values += [u, v]
    matrix = np.append(np.linalg.solve(np.array(rows), np.array(values)), 1.0).reshape(3, 3)
    found: Floats = np.linalg.inv(b) @ matrix @ a
    return found


def _centred(points: Sequence[XY]) -> tuple[Floats, Floats]:
    """Return the matrix that puts points about the origin at a size of 1, and the points there."""
    held = np.asarray(points, dtype=np.float64)
    middle = held.mean(axis=0)
    size = float(np.abs(held - middle).max())
    matrix = np.array([[1 / size, 0, -middle[0] / size], [0, 1 / size, -middle[1] / size], [0, 0, 1]])
    return matrix, (held - middle) / size
