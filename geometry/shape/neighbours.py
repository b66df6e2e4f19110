"""Which of many boxes lie near one another, in mm."""

from collections.abc import Sequence

from geometry.shape.outline import Bounds


def neighbours(boxes: Sequence[Bounds], along: float = 0.0, up: float = 0.0) -> list[tuple[int, int]]:
    """Return each two boxes, by index, that are at most so far apart either way, in order.

    The boxes are swept from left to right, so that many that lie apart cost little more than few.

    Args:
        boxes: the boxes.
        along: level distance, 0 or more.
        up: plumb distance; negative: by how much they must share a height.
    """
    found: list[tuple[int, int]] = []
    reached: list[int] = []
    for here in sorted(range(len(boxes)), key=lambda index: boxes[index][0]):
        left, low, _, high = boxes[here]
        reached = [other for other in reached if left - boxes[other][2] <= along]
        for other in reached:
            _, its_low, _, its_high = boxes[other]
            if its_low - high <= up and low - its_high <= up:
                found.append((here, other) if here < other else (other, here))
        reached.append(here)
    return sorted(found)
