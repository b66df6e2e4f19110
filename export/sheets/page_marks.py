"""The marks of a whole wall, and which of them may show on one page; millimetres on the wall."""

import numpy as np

from export.drawings.marks import datum_lines, draw_strokes, notes
from export.drawings.note_places import Beside, Note
from export.recorder import Recorder, Stroke
from export.sheets.page_edges import Edges
from geometry.arrays import Floats
from geometry.plan import Plan
from geometry.shape.outline import Bounds


class Marks:
    """All that the pages show parts of, at full size in mm on the wall."""

    def __init__(self, plan: Plan, edges: Edges) -> None:
        self.plan, self.edges = plan, edges
        self.datum = datum_lines(plan)
        self.strokes = Recorder()
        draw_strokes(plan, self.strokes)
        self._notes = notes(plan)
        self._stroke_bounds = np.array([_stroke_bounds(stroke) for stroke in self.strokes.strokes])
        self._note_bounds = np.array([_note_bounds(note) for note in self._notes]).reshape(-1, 4)

    def strokes_in(self, window: Bounds) -> Recorder:
        """Return the strokes that may show in a window: what is not there need not be cut off."""
        found = Recorder()
        found.strokes = [self.strokes.strokes[index] for index in _within(self._stroke_bounds, window)]
        return found

    def notes_in(self, window: Bounds) -> list[Note]:
        """Return the notes that may show in a window."""
        return [self._notes[index] for index in _within(self._note_bounds, window)]


def _within(bounds: Floats, window: Bounds) -> list[int]:
    x0, y0, x1, y1 = bounds.T
    meet = (x0 <= window[2]) & (x1 >= window[0]) & (y0 <= window[3]) & (y1 >= window[1])
    found: list[int] = np.flatnonzero(meet).tolist()
    return found


def _stroke_bounds(stroke: Stroke) -> Bounds:
    alone = Recorder()
    alone.strokes = [stroke]
    return alone.bounds()


def _note_bounds(note: Note) -> Bounds:
    ends = (note.at, note.at) if isinstance(note, Beside) else (note.start, note.end)
    (x0, x1), (y0, y1) = (sorted(axis) for axis in zip(*ends, strict=True))
    return x0, y0, x1, y1
