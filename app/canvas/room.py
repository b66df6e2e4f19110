"""Room on the screen: boxes that are taken, and whether another one is free. Pixels, y down."""

from collections.abc import Iterable

import numpy as np

from geometry.shape.outline import Bounds


class Room:
    """The boxes that words must not cover; a box is left, top, right, bottom."""

    def __init__(self, taken: Iterable[Bounds] = ()) -> None:
        boxes = np.array(list(taken), dtype=np.float64).reshape(-1, 4)
        self._count = len(boxes)
        self._boxes = np.empty((max(64, 2 * self._count), 4))
        self._boxes[: self._count] = boxes

    def covered(self, box: Bounds) -> int:
        """Return how many of the taken boxes a box would cover; touching is not covering."""
        held = self._boxes[: self._count]
        apart = (
            (held[:, 0] >= box[2]) | (held[:, 2] <= box[0]) | (held[:, 1] >= box[3]) | (held[:, 3] <= box[1])
        )
        return self._count - int(np.count_nonzero(apart))

    def is_free(self, box: Bounds) -> bool:
        """Return whether a box covers none that is taken."""
        return self.covered(box) == 0

    def take(self, box: Bounds) -> None:
        """Note a box as taken."""
        if self._count == len(self._boxes):
            self._boxes = np.concatenate((self._boxes, np.empty_like(self._boxes)))
        self._boxes[self._count] = box
        self._count += 1
