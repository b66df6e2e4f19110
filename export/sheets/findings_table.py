"""The findings of the checks as a table, and what was checked and is clear as a list.

Millimetres on paper. A finding has the number that marks its place on the elevation.
"""

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from export.drawings.balloons import numbered
from export.pen import Pen
from export.sheets.flow import BODY, LINE, Block, Section, paragraph
from export.text import RISE, is_bold, wrapped
from geometry.finding import Finding
from geometry.plan import Plan
from geometry.units import number

_PAD = 0.9  # mm, above and below the words of a row
_GUTTER = 2.5  # mm, between columns
_DENSE = 1.8  # mm, lettering of sources and of what is clear, ISO 3098 series, from memory


class _Column(NamedTuple):
    heading: str
    width: float
    """In mm; 0 takes what the others leave."""


class _Words(NamedTuple):
    """One line of a cell."""

    layer: str
    text: str
    height: float = BODY


_COLUMNS = (
    _Column("No.", 8.0),
    _Column("Status", 22.0),
    _Column("What, and where the limit comes from", 0.0),
    _Column("Measured", 20.0),
    _Column("Limit", 22.0),
)
_STATUS_LAYERS = {"clash": "caution", "unchecked": "caution"}
"""The layer of a status that keeps a job from passing; others are plain text."""


def findings_sections(plan: Plan, findings: tuple[Finding, ...], width: float) -> tuple[Section, ...]:
    """Return the findings, those that want attention first, and the list of what is clear.

    Args:
        plan: for the limits' titles and which side of a limit is right.
        findings: of all checks.
        width: of the table, in mm.
    """
    widths = _widths(width)
    rows = [_row(_cells(plan, index, one, widths), widths) for index, one in enumerate(numbered(findings), 1)]
    sections = []
    if rows:
        head = [
            _wrapped("rule", column.heading, width) for column, width in zip(_COLUMNS, widths, strict=True)
        ]
        sections.append(Section("Findings", tuple(rows), _row(head, widths)))
    elif findings:
        words = "Every check that was made is clear."
        sections.append(Section("Findings", paragraph(words, width)))
    else:
        sections.append(Section("Findings", paragraph("No check was made.", width)))
    clear = Counter(_title(plan, finding) for finding in findings if finding.status == "clear")
    if clear:
        listed = "; ".join(title if many == 1 else f"{title} ({many})" for title, many in clear.items())
        sections.append(Section("Checked and clear", paragraph(f"{listed}.", width, height=_DENSE)))
    return tuple(sections)


def _title(plan: Plan, finding: Finding) -> str:
    try:
        return plan.rules[finding.rule].title
    except KeyError:
        return finding.message.rstrip(".")


def _cells(plan: Plan, index: int, finding: Finding, widths: Sequence[float]) -> list[list[_Words]]:
    measured = "–" if finding.measured is None else f"{number(finding.measured)} {finding.unit}"
    limit = "–"
    if finding.limit is not None:
        limit = f"{_sense(plan, finding)} {number(finding.limit)} {finding.unit}"
    source = "" if finding.source is None else str(finding.source)
    status = _STATUS_LAYERS.get(finding.status, "text")
    return [
        _wrapped("text", str(index), widths[0]),
        _wrapped(status, finding.status.capitalize(), widths[1]),
        _wrapped("text", finding.message, widths[2]) + _wrapped("rule", source, widths[2], _DENSE),
        _wrapped("text", measured, widths[3]),
        _wrapped("text", limit, widths[4]),
    ]


def _wrapped(layer: str, text: str, width: float, height: float = BODY) -> list[_Words]:
    return [_Words(layer, line, height) for line in wrapped(text, height, width, bold=is_bold(layer))]


def _sense(plan: Plan, finding: Finding) -> str:
    try:
        return {"at least": "≥", "at most": "≤"}[plan.rules[finding.rule].sense]
    except KeyError:
        return "limit"


def _widths(width: float) -> list[float]:
    fixed = sum(column.width for column in _COLUMNS) + _GUTTER * (len(_COLUMNS) - 1)
    return [column.width or width - fixed for column in _COLUMNS]


def _row(cells: Sequence[Sequence[_Words]], widths: Sequence[float]) -> Block:
    """Return one row with a thin rule under it."""
    tall = max(sum(line.height * LINE for line in cell) for cell in cells) + 2 * _PAD
    end = sum(widths) + _GUTTER * (len(widths) - 1)

    def draw(pen: Pen, x: float, y: float) -> None:
        left = x
        for cell, width in zip(cells, widths, strict=True):
            top = y - _PAD
            for line in cell:
                pen.text(line.layer, (left, top - line.height * RISE), line.text, line.height)
                top -= line.height * LINE
            left += width + _GUTTER
        pen.line("rule", (x, y - tall), (x + end, y - tall))

    return Block(tall, draw)
