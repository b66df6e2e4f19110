"""What the tiles come to: how many, how many boxes, how much grout and adhesive, how heavy a square metre is.

Areas in m2, weights in kg. Every cut piece is counted as one tile: an off-cut seldom has the size, the side
or the factory edge that the next cut needs.
"""

import math
from collections.abc import Sequence
from typing import NamedTuple

import shapely

from geometry.model import FinishArea, Tiling
from geometry.tiling.pieces import Piece

TILE_WEIGHT = 2.3
"""kg per m2 and mm of thickness: 2.0 to 2.3 for ceramic and porcelain (common practice, no source)."""
ADHESIVE = (1.2, 1.5)
"""kg of powder per m2 and mm of solid bed (common practice, no source)."""
GROUT = 1.6
"""kg per litre of joint: 1.6 to 1.8; grout kg/m2 = (a + b) / (a x b) x joint x depth x 1.6, lengths in mm
(formula found on makers' and trade pages)."""
LARGE = 0.1
"""m2 of one tile from which the bed must be solid: BS 5385-1:2018 (trade summary)."""


class Amounts(NamedTuple):
    """What one job takes."""

    whole: int
    cut: int
    """Pieces that are cut, notched ones with them."""
    bought: int
    """Tiles to buy, spare ones included, rounded up to whole boxes."""
    boxes: int
    """0 if it is not known how many are in a box."""
    area: float
    """Of tile and joint, in m2."""
    grout: float
    adhesive_least: float
    adhesive_most: float


def amounts(pieces: Sequence[Piece], tiling: Tiling, areas: Sequence[FinishArea], faced: float) -> Amounts:
    """Return what the tiles of a job come to.

    Args:
        pieces: all of them.
        tiling: their size, joint, how many are in a box, how many are spare.
        areas: of the finish; their layers say how thick tile and bed are.
        faced: what tiles and joints cover, in m2.
    """
    whole = sum(piece.kind == "whole" for piece in pieces)
    wanted = len(pieces) * (100 + tiling.spare) / 100
    bought = math.ceil(wanted - 1e-9)
    boxes = math.ceil(bought / tiling.boxed) if tiling.boxed else 0
    by_name = {area.id: area for area in areas}
    laid: dict[str, float] = {}
    for piece in pieces:
        laid[piece.area] = laid.get(piece.area, 0.0) + float(shapely.area(piece.shape))
    total = sum(laid.values()) or 1.0
    grout = least = most = 0.0
    for name, share in laid.items():
        area = by_name[name]
        square = faced * share / total
        grout += square * grout_weight(tiling, thickness(area, "tile"))
        least += square * thickness(area, "adhesive") * ADHESIVE[0]
        most += square * thickness(area, "adhesive") * ADHESIVE[1]
    return Amounts(
        whole, len(pieces) - whole, int(boxes * tiling.boxed) or bought, boxes, faced, grout, least, most
    )


def thickness(area: FinishArea, kind: str) -> float:
    """Return how thick the layers of a kind are together, in mm."""
    return sum(layer.thickness for layer in area.layers if layer.kind == kind)


def grout_weight(tiling: Tiling, depth: float) -> float:
    """Return the grout in kg/m2 of joints that are `depth` mm deep."""
    return (tiling.wide + tiling.high) / (tiling.wide * tiling.high) * tiling.joint * depth * GROUT


def square_weight(tiling: Tiling, area: FinishArea) -> float:
    """Return what a square metre weighs with adhesive and grout, in kg: the heaviest of common practice."""
    tile = thickness(area, "tile")
    tiles = tile * TILE_WEIGHT if tiling.weight is None else tiling.weight
    return tiles + thickness(area, "adhesive") * ADHESIVE[1] + grout_weight(tiling, tile)
