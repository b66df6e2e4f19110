"""Edges that things keep clear of: ends and corners of the wall, the ceiling, the lines of the enclosure."""

from typing import Literal, NamedTuple

from geometry.checks.near import Gap, name
from geometry.model import XY, Enclosure, Wall
from geometry.pipework.routes import ALIGNED
from geometry.shape.solid import Solid

Side = Literal["left", "right", "below", "above"]
_FACING: dict[Side, tuple[int, float]] = {
    "left": (0, 1.0), "below": (1, 1.0), "right": (3, -1.0), "above": (4, -1.0)
}  # fmt: skip
"""Which value of a box faces an edge on that side, and which way is away from the edge."""


class Edge(NamedTuple):
    """A level or plumb line on the wall, in mm: the side of things on which it lies, and its x or y."""

    name: str
    side: Side
    at: float
    corner: bool = False
    """Whether another wall stands there."""

    def reached_by(self, point: XY) -> bool:
        """Return whether a point lies on it or past it."""
        index, way = _FACING[self.side]
        return way * (point[index % 3] - self.at) <= ALIGNED

    def left(self, solid: Solid) -> float:
        """Return how far a solid stays short of it, in mm; negative is how far it reaches past it."""
        index, way = _FACING[self.side]
        return way * (solid.box[index] - self.at)


def sides(wall: Wall) -> tuple[Edge, Edge]:
    """Return the left and right edge of a wall."""
    left = Edge(_end("left", wall.left), "left", 0.0, wall.left == "corner")
    return left, Edge(_end("right", wall.right), "right", wall.width, wall.right == "corner")


def _end(side: str, state: str) -> str:
    return f"wall at the {side} corner" if state == "corner" else f"{side} end of the wall"


def ceiling(wall: Wall) -> Edge:
    """Return the upper edge of a wall."""
    return Edge("ceiling", "above", wall.height)


def within(enclosure: Enclosure, wall: Wall) -> tuple[Edge, ...]:
    """Return the edges of an enclosure that end short of those of the wall."""
    kind, edges = enclosure.kind.replace("_", " "), []
    if enclosure.left >= ALIGNED:
        edges.append(Edge(f"left edge of the {kind}", "left", enclosure.left))
    if enclosure.right <= wall.width - ALIGNED:
        edges.append(Edge(f"right edge of the {kind}", "right", enclosure.right))
    return tuple(edges)


def rim(enclosure: Enclosure) -> Edge:
    """Return the rim of an enclosure against the wall."""
    return Edge(f"rim of the {enclosure.kind.replace('_', ' ')}", "below", enclosure.rim)


def to_edge(solid: Solid, edge: Edge) -> Gap:
    """Return how far a solid stays short of an edge, and where."""
    box, (index, _) = solid.box, _FACING[edge.side]
    x, y = (box[0] + box[3]) / 2, (box[1] + box[4]) / 2
    own = box[index]
    place = ((own, y), (edge.at, y)) if edge.side in ("left", "right") else ((x, own), (x, edge.at))
    return Gap((solid.owner, edge.name), (solid.owner,), name(solid), edge.name, edge.left(solid), place)
