"""Full-size pages taped together by their register crosses and put on the wall."""

import math
from collections.abc import Iterator

import pytest

from geometry.model import XY
from geometry.plan import Plan
from geometry.setting_out.holes import Hole, holes
from tests.export.sheets.full_size_reader import CLOSE, Read


def taped(pages: list[Read]) -> Iterator[dict[str, XY]]:
    """Tape pages together by their register crosses alone; yield where each lies in its group."""
    left = {page.name: page for page in pages}
    while left:
        first = left.pop(next(iter(left)))
        group, waiting = {first.name: (0.0, 0.0)}, [first]
        while waiting:
            page = waiting.pop()
            x, y = group[page.name]
            for label, (cx, cy) in page.crosses.items():
                other = next(name for name in label.split()[0].split("|") if name != page.name)
                if other in left:
                    ox, oy = left[other].crosses[label]
                    group[other] = (x + cx - ox, y + cy - oy)
                    waiting.append(left.pop(other))
        yield group


def anchor(plan: Plan, group: list[tuple[Read, XY]]) -> XY:
    """Return the shift that brings the crosses of taped pages onto holes whose distances they print."""
    crosses = [
        (page, (cx + x, cy + y), size) for page, (x, y) in group for (cx, cy), size in page.hole_crosses()
    ]
    for hole in holes(plan):
        for page, (x, y), size in crosses:
            said = f"{hole.across:g} from" in page.text and f"{hole.up:g} up" in page.text
            dx, dy = hole.at[0] - x, hole.at[1] - y
            if (
                said
                and size == pytest.approx(_size(hole), abs=0.01)
                and all(
                    any(math.dist((cx + dx, cy + dy), other.at) < CLOSE for other in holes(plan))
                    for _, (cx, cy), _ in crosses
                )
            ):
                return dx, dy
    raise AssertionError(f"the crosses on {[page.name for page, _ in group]} answer to no hole of the model")


def _size(hole: Hole) -> float:
    """Return how wide the cross of a hole is: 20 mm, and a screw's 5 mm past its hole."""
    return 20.0 if hole.kind == "water" else hole.diameter + 10
