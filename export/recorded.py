"""A document that remembers its pages, stroke by stroke in mm of paper, to be drawn again at any size."""

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from typing import NamedTuple

from export.document import PagePen
from export.pen import XY
from export.picture import Picture
from export.recorder import Recorder, Stroke
from geometry.shape.outline import Bounds


class Window(NamedTuple):
    """What is seen of some strokes that follow one another: nothing outside these bounds, in mm."""

    first: int
    after: int
    """Numbers of the first stroke and of the one after the last."""
    bounds: tuple[float, float, float, float]


class RecordedPage(Recorder):
    """One page of paper, and what is drawn on it."""

    def __init__(self, width: float, height: float, name: str = "") -> None:
        super().__init__()
        self.width, self.height, self.name = width, height, name
        self.windows: list[Window] = []

    def fill(self, layer: str, points: Sequence[XY]) -> None:
        """Record a shape without its edge."""
        self.strokes.append(Stroke("fill", layer, {"points": tuple(points)}))

    def picture(self, layer: str, picture: Picture, box: Bounds) -> None:
        """Record a picture."""
        self.strokes.append(Stroke("picture", layer, {"picture": picture, "box": box}))

    @contextmanager
    def within(self, x0: float, y0: float, x1: float, y1: float) -> Iterator[None]:
        """Record that what follows is seen in a window only; there is none inside another."""
        first, held = len(self.strokes), len(self.windows)
        yield
        if len(self.windows) != held:
            raise ValueError("a window of a page has no windows in it")
        self.windows.append(Window(first, len(self.strokes), (x0, y0, x1, y1)))

    def draw(self, pen: PagePen) -> None:
        """Draw the page again with the pen of another page, windows included."""
        done = 0
        for first, after, bounds in self.windows:
            _again(self.strokes[done:first], pen)
            with pen.within(*bounds):
                _again(self.strokes[first:after], pen)
            done = after
        _again(self.strokes[done:], pen)


class RecordedDocument:
    """Keeps every page that is drawn, with its title."""

    def __init__(self) -> None:
        self.title = ""
        self.pages: list[RecordedPage] = []

    def entitle(self, title: str, *, author: str = "", subject: str = "") -> None:
        """Keep the title; who wrote it and about what is for files."""
        self.title = title

    def page(self, width: float, height: float, *, name: str = "") -> RecordedPage:
        """Begin a page of this size in mm and return its pen."""
        self.pages.append(RecordedPage(width, height, name))
        return self.pages[-1]


def _again(strokes: list[Stroke], pen: PagePen) -> None:
    for stroke in strokes:
        getattr(pen, stroke.verb)(stroke.layer, **stroke.values)
