"""The frame and title block of a sheet: borders as in ISO 5457, fields as in ISO 7200:2004.

Millimetres on paper, from the paper's lower left corner. Words that a user typed are shortened with an
ellipsis where their field is too narrow; an empty field is left blank, to be filled in by hand.
"""

from typing import NamedTuple

from export.pen import Pen
from export.sheets.paper import Paper
from export.text import fitted
from geometry.model import About
from geometry.shape.outline import Bounds, rectangle

BORDER_LEFT = 20.0  # mm, ISO 5457, from memory: room to file the sheet
BORDER = 10.0  # mm, ISO 5457, from memory
CENTRING = 5.0  # mm of a centring mark outside the frame, ISO 5457, from memory
TITLE_WIDTH = 180.0  # mm, ISO 7200:2004 and ISO 5457, from memory
PAD = 5.0  # mm, between the frame and what stands in it
LOCAL_CODES = "Local codes and the makers' instructions win over this sheet."
_CAPTION, _VALUE, _TITLE = 1.8, 2.5, 3.5  # mm, lettering of ISO 3098, from memory
_INSET = 1.5  # mm, from the edge of a field to its words
_NOTE = 6.0  # mm, height of the line about local codes


class Sheet(NamedTuple):
    """What a title block says about one sheet of a document."""

    paper: Paper
    about: About
    kind: str
    """Document type, such as `Elevation`."""
    scale: str = "–"
    number: int = 1
    total: int = 1


class _Field(NamedTuple):
    caption: str
    value: str
    share: float
    """Of the block's width."""


def frame_box(paper: Paper) -> Bounds:
    """Return the frame of a sheet of paper, within which everything is drawn."""
    return BORDER_LEFT, BORDER, paper.width - BORDER, paper.height - BORDER


def title_box(paper: Paper) -> Bounds:
    """Return the room of the title block: lower right, at most 180 mm wide."""
    left, low, right, _ = frame_box(paper)
    width = min(TITLE_WIDTH, right - left)
    height = _NOTE + sum(height for height, _ in _ROWS)
    return right - width, low, right, low + height


def inside(paper: Paper) -> Bounds:
    """Return the free room of a sheet: above the title block, clear of the frame."""
    left, _, right, top = frame_box(paper)
    return left + PAD, title_box(paper)[3] + PAD, right - PAD, top - PAD


def draw_frame(pen: Pen, sheet: Sheet) -> None:
    """Draw border, centring marks and title block of a sheet."""
    left, low, right, top = frame_box(sheet.paper)
    pen.polyline("frame", rectangle(left, low, right, top).points, closed=True)
    middle_x, middle_y = sheet.paper.width / 2, sheet.paper.height / 2
    pen.line("frame", (left, middle_y), (left - CENTRING, middle_y))
    pen.line("frame", (right, middle_y), (right + CENTRING, middle_y))
    pen.line("frame", (middle_x, low), (middle_x, low - CENTRING))
    pen.line("frame", (middle_x, top), (middle_x, top + CENTRING))
    _draw_title(pen, sheet)


def _title_row(sheet: Sheet) -> tuple[_Field, ...]:
    return _Field("Title", sheet.about.title, 0.64), _Field("Document type", sheet.kind, 0.36)


def _place_row(sheet: Sheet) -> tuple[_Field, ...]:
    about = sheet.about
    return (
        _Field("Room and wall", about.place, 0.44),
        _Field("Identification number", about.number, 0.36),
        _Field("Revision", about.revision, 0.20),
    )


def _people_row(sheet: Sheet) -> tuple[_Field, ...]:
    about = sheet.about
    return (
        _Field("Legal owner", about.owner, 0.44),
        _Field("Created by", about.creator, 0.28),
        _Field("Approved by", about.approved_by, 0.28),
    )


def _sheet_row(sheet: Sheet) -> tuple[_Field, ...]:
    return (
        _Field("Date of issue", sheet.about.date, 0.30),
        _Field("Scale", sheet.scale, 0.18),
        _Field("Paper", sheet.paper.name, 0.14),
        _Field("Units", "mm", 0.14),
        _Field("Sheet", f"{sheet.number} / {sheet.total}", 0.24),
    )


_ROWS = ((9.5, _title_row), (8.0, _place_row), (8.0, _people_row), (8.0, _sheet_row))
"""Heights of the rows in mm, from the top, and what stands in them."""


def _draw_title(pen: Pen, sheet: Sheet) -> None:
    left, low, right, top = title_box(sheet.paper)
    pen.polyline("frame", [(left, low), (left, top), (right, top)])
    pen.text("text", (left + _INSET, top - _NOTE + 1.8), _within(LOCAL_CODES, right - left), _VALUE)
    upper = top - _NOTE
    for height, row in _ROWS:
        pen.line("rule", (left, upper), (right, upper))
        fields = row(sheet)
        edges = [
            left + (right - left) * sum(field.share for field in fields[:i]) for i in range(len(fields) + 1)
        ]
        for field, start, end in zip(fields, edges, edges[1:], strict=False):
            if start > left:
                pen.line("rule", (start, upper), (start, upper - height))
            _draw_field(pen, field, start, upper, upper - height, end - start)
        upper -= height


def _draw_field(pen: Pen, field: _Field, left: float, top: float, low: float, width: float) -> None:
    """Write the caption at the top of a field and its value at the bottom."""
    lettering = _TITLE if field.caption == "Title" else _VALUE
    caption = fitted(field.caption, _CAPTION, width - 2 * _INSET)
    value = fitted(field.value, lettering, width - 2 * _INSET)
    pen.text("rule", (left + _INSET, top - 0.9 - _CAPTION), caption, _CAPTION)
    if value:
        pen.text("text", (left + _INSET, low + 1.25), value, lettering)


def _within(text: str, width: float) -> str:
    return fitted(text, _VALUE, width - 2 * _INSET)
