"""PDF: a pen that draws on a page, and the document that gathers the pages.

Millimetres of paper, origin at the bottom left of the page, at true size. The font is embedded and
text is written as typed, never read as markup. Equal drawings give equal bytes: there is no clock.
"""

import math
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import lru_cache
from io import BytesIO
from itertools import chain

from reportlab import rl_config
from reportlab.lib.utils import ImageReader
from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas
from reportlab.pdfgen.pdfgeom import bezierArc

from export.layers import DASHES, LAYERS, RGB
from export.pen import XY, Align
from export.picture import Picture
from export.plain_dimensions import PlainDimensions
from export.text import CAPITAL, FONTS, clean, is_bold, text_width, visual
from geometry.shape.outline import Bounds, rectangle

rl_config.useA85 = 0  # streams stay binary: a fifth smaller, and no time goes into spelling them in letters
_POINT = 72 / 25.4  # points to the millimetre; a point is 1/72 inch


class PdfPen(PlainDimensions):
    """Draws on one page; made by `PdfDocument.page`."""

    def __init__(self, canvas: Canvas) -> None:
        self._canvas: Canvas | None = canvas
        self._stroked: str | None = None
        self._filled: RGB | None = None

    def line(self, layer: str, start: XY, end: XY) -> None:
        """Draw one straight line."""
        self.polyline(layer, (start, end))

    def polyline(self, layer: str, points: Sequence[XY], *, closed: bool = False) -> None:
        """Draw joined lines; a closed one is filled if its layer has a fill."""
        self._draw(layer, _joined(layer, points, closed), filled=closed)

    def fill(self, layer: str, points: Sequence[XY]) -> None:
        """Fill the closed shape through these points, without its edge, if its layer has a fill."""
        if LAYERS[layer].fill:
            self._draw(layer, _joined(layer, points, True), filled=True, stroked=False)

    def circle(self, layer: str, centre: XY, radius: float) -> None:
        """Draw a true circle, filled if its layer has a fill."""
        self._draw(layer, f"{_curved(layer, centre, radius, 0, 360)} h", filled=True)

    def arc(self, layer: str, centre: XY, radius: float, start: float, end: float) -> None:
        """Draw an arc counter-clockwise, in degrees; a whole circle if it ends where it starts."""
        self._draw(layer, _curved(layer, centre, radius, start, (end - start) % 360 or 360), filled=False)

    def text(
        self, layer: str, at: XY, text: str, height: float, *, align: Align = "left", angle: float = 0.0
    ) -> None:
        """Write one line of text as typed; bold on the layers that `export.text` names."""
        if not LAYERS[layer].plot:
            return
        bold = is_bold(layer)
        (x, y), cos, sin = at, 1.0, 0.0
        if angle:
            cos, sin = math.cos(math.radians(angle)), math.sin(math.radians(angle))
        if align != "left":
            shift = (0.5 if align == "centre" else 1.0) * text_width(text, height, bold=bold)
            x, y = x - shift * cos, y - shift * sin
        x, y, size = _points(layer, x, y, height / CAPITAL)
        self._fill_with(LAYERS[layer].colour)
        words = self._page.beginText()
        words.setFont(_fonts()[bold], size)
        words.setTextTransform(cos, sin, -sin, cos, x, y)
        words.textLine(visual(text, bold=bold))  # unlike textOut it does not measure what it writes
        self._page.drawText(words)

    @contextmanager
    def within(self, x0: float, y0: float, x1: float, y1: float) -> Iterator[None]:
        """Hide whatever is drawn outside a window of the page, letters and line thickness included."""
        page = self._page
        page.saveState()
        path = page.beginPath()
        path.rect(x0 * _POINT, y0 * _POINT, (x1 - x0) * _POINT, (y1 - y0) * _POINT)
        page.clipPath(path, stroke=0, fill=0)
        yield
        page.restoreState()
        self._stroked = self._filled = None  # as before the window: whatever that was

    def picture(self, layer: str, picture: Picture, box: Bounds) -> None:
        """Lay a picture upright in a box, with the line of its layer for an edge."""
        if not LAYERS[layer].plot:
            return
        matrix = _points(layer, *picture.matrix(box))
        page = self._page
        page.saveState()
        page.transform(*matrix)
        reader = _Jpeg(picture.data) if picture.is_jpeg else ImageReader(BytesIO(picture.data))
        page.drawImage(reader, 0, 0, 1, 1, mask="auto")
        page.restoreState()
        self.polyline(layer, rectangle(*box).points, closed=True)

    def finish(self) -> None:
        """End the page; drawing on it afterwards is an error."""
        self._page.showPage()
        self._canvas = None

    @property
    def _page(self) -> Canvas:
        if self._canvas is None:
            raise ValueError("this page is finished: draw on the page that was begun last")
        return self._canvas

    def _draw(self, layer: str, path: str, *, filled: bool, stroked: bool = True) -> None:
        """Put a path on the page with the looks of its layer."""
        look = LAYERS[layer]
        if not look.plot:
            return
        if stroked and layer != self._stroked:
            self._page.setStrokeColorRGB(*look.colour)
            self._page.setLineWidth(look.weight * _POINT)
            self._page.setDash([length * _POINT for length in DASHES[look.pattern]])
            self._page.setLineJoin(1)  # round: a sharp corner must not reach past its point
            self._stroked = layer
        if filled and look.fill:
            self._fill_with(look.fill)
            self._page.addLiteral(f"{path} {'B*' if stroked else 'f*'}")
        else:
            self._page.addLiteral(f"{path} S")

    def _fill_with(self, colour: RGB) -> None:
        if colour != self._filled:
            self._page.setFillColorRGB(*colour)
            self._filled = colour


class PdfDocument:
    """A PDF of any number of pages, each of its own size."""

    def __init__(self, *, language: str = "en-GB") -> None:
        self._file = BytesIO()
        self._canvas = Canvas(
            self._file,
            pageCompression=1,
            invariant=1,
            pdfVersion=(1, 7),
            initialFontName=_fonts()[False],  # type: ignore[arg-type]  # a name, whatever the stubs say
            lang=language,
        )
        self._canvas.setCreator("Chasewright")
        # A viewer that heeds this offers true size first; none is bound to.
        self._canvas.setViewerPreference("PrintScaling", "None")
        self._canvas.setViewerPreference("DisplayDocTitle", "true")
        self._pages = 0
        self._pen: PdfPen | None = None

    def entitle(self, title: str, *, author: str = "", subject: str = "") -> None:
        """Write title, author and subject into the properties of the file."""
        self._canvas.setTitle(clean(title))
        self._canvas.setAuthor(clean(author))
        self._canvas.setSubject(clean(subject))

    def page(self, width: float, height: float, *, name: str = "") -> PdfPen:
        """Begin a page and return its pen; the page before it is finished.

        Args:
            width: The paper's width in mm.
            height: The paper's height in mm.
            name: What the page is called in the list of bookmarks; a page without a name is not listed.

        Raises:
            ValueError: A size is not above 0, or the document is complete already.
        """
        if self._file.tell():
            raise ValueError(f"page {name!r}: the document is complete, so nothing can be added")
        if not (0 < width < math.inf and 0 < height < math.inf):
            raise ValueError(
                f"page {name!r}: paper must have a size above 0 mm, got {width:g} × {height:g} mm"
            )
        self._finish_page()
        self._pages += 1
        self._canvas.setPageSize((width * _POINT, height * _POINT))
        if name:
            key = f"page-{self._pages}"
            self._canvas.bookmarkPage(key)
            self._canvas.addOutlineEntry(clean(name), key)
        self._pen = PdfPen(self._canvas)
        return self._pen

    def to_bytes(self) -> bytes:
        """Finish the document and return the whole file.

        Raises:
            ValueError: It has no page.
        """
        if not self._pages:
            raise ValueError("a PDF needs one page at least")
        if not self._file.tell():
            self._finish_page()
            if self._pages > 1:
                self._canvas.showOutline()
            self._canvas.save()
        return self._file.getvalue()

    def _finish_page(self) -> None:
        if self._pen:
            self._pen.finish()
            self._pen = None


class _Jpeg(ImageReader):
    """A JPEG that goes into a PDF as it is, byte for byte, and is never taken apart on the way."""

    _dataA = None  # noqa: N815  # no transparency

    def __init__(self, data: bytes) -> None:
        self._jpeg = data

    def getRGBData(self) -> bytes:  # noqa: N802
        """Return what the canvas tells pictures apart by."""
        return self._jpeg

    def jpeg_fh(self) -> BytesIO:  # type: ignore[override]  # None is for what is no JPEG
        """Return the file that is copied."""
        return BytesIO(self._jpeg)


def _joined(layer: str, points: Sequence[XY], closed: bool) -> str:
    """Return joined lines as operators of PDF (ISO 32000-1, 8.5.2), in points to 0.0001."""
    if len(points) < 2:
        raise ValueError(f"layer {layer!r}: joined lines need two points or more, got {len(points)}")
    path = "%.4f %.4f m" + (len(points) - 1) * " %.4f %.4f l" + closed * " h"
    return path % _points(layer, *chain.from_iterable(points))


def _curved(layer: str, centre: XY, radius: float, start: float, sweep: float) -> str:
    """Return an arc as operators of PDF, each quarter turn or less as one Bezier curve; degrees."""
    _check(layer, start, sweep)
    x, y, r = _points(layer, *centre, radius)
    curves = bezierArc(x - r, y - r, x + r, y + r, start, sweep)  # type: ignore[arg-type]  # parts of a degree do work
    path = "%.4f %.4f m" + len(curves) * " %.4f %.4f %.4f %.4f %.4f %.4f c"
    return path % (*curves[0][:2], *chain.from_iterable(curve[2:] for curve in curves))


def _points(layer: str, *lengths: float) -> tuple[float, ...]:
    """Turn millimetres into points."""
    _check(layer, *lengths)
    return tuple(length * _POINT for length in lengths)


def _check(layer: str, *numbers: float) -> None:
    """Refuse a number that is none before it spoils the file."""
    if not all(map(math.isfinite, numbers)):
        raise ValueError(f"layer {layer!r}: a coordinate is not a number, got {numbers}")


@lru_cache(maxsize=1)
def _fonts() -> dict[bool, str]:
    """Register the fonts once and return their names, plain and bold."""
    names = {bold: path.stem for bold, path in FONTS.items()}
    for bold, path in FONTS.items():
        pdfmetrics.registerFont(TTFont(names[bold], str(path)))
    return names
