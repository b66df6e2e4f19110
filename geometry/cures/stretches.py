"""Open stretches of a line, in mm, put together where they overlap: what of a track is left out."""

from bisect import bisect_left, bisect_right


class Stretches:
    """Stretches without their ends that have no point in common."""

    def __init__(self) -> None:
        self._lows: list[float] = []
        self._highs: list[float] = []

    def add(self, low: float, high: float) -> None:
        """Add a stretch; it becomes one with those that it overlaps."""
        first, last = bisect_right(self._highs, low), bisect_left(self._lows, high)
        if first < last:
            low, high = min(low, self._lows[first]), max(high, self._highs[last - 1])
        self._lows[first:last], self._highs[first:last] = [low], [high]

    def about(self, place: float) -> tuple[float, float] | None:
        """Return the stretch in which a place lies, or None."""
        number = bisect_left(self._lows, place) - 1
        if number >= 0 and place < self._highs[number]:
            return self._lows[number], self._highs[number]
        return None
