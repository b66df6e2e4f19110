"""What a recorder has kept, as shapely lines and plain values; places and sizes to draw with."""

from typing import Any

import shapely
from hypothesis import strategies as st

from export.recorder import Recorder

# Tenths of a millimetre, as positions in a job are: in a window of 100 x 60, outside it and on its border.
coordinates = st.integers(-1500, 2500).map(lambda tenths: tenths / 10)
points = st.tuples(coordinates, coordinates)
radii = st.integers(1, 1500).map(lambda tenths: tenths / 10)


def values_of(pen: Recorder, *verbs: str) -> list[dict[str, Any]]:
    """Return what was given to these verbs, in the order drawn."""
    return [stroke.values for stroke in pen.strokes if stroke.verb in verbs]


def lines_of(pen: Recorder) -> list[shapely.LineString]:
    """Return every straight line that was drawn, as shapely lines."""
    lines = [shapely.LineString([v["start"], v["end"]]) for v in values_of(pen, "line")]
    for v in values_of(pen, "polyline"):
        ring = [*v["points"], v["points"][0]] if v["closed"] else v["points"]
        lines.append(shapely.LineString(ring))
    return lines
