"""The findings of the checks as a table, and what was checked and is clear as a list.

Millimetres on paper. A finding has the number that marks its place on the elevation.
"""

from collections import Counter
from collections.abc import Sequence
from typing import NamedTuple

from export.drawings.balloons import numbered
from export.sheets.flow import Section, paragraph
from export.sheets.table import GUTTER, Words, cell, row
from geometry.finding import Finding
from geometry.plan import Plan
from geometry.rules.rulebook import quantity

_DENSE = 1.8  # mm, lettering of sources and of what is clear, ISO 3098 series, from memory


class _Column(NamedTuple):
    heading: str
    width: float
    """In mm; 0 takes what the others leave."""


_COLUMNS = (
    _Column("No.", 8.0),
    _Column("Status", 22.0),
    _Column("What, and where the limit comes from", 0.0),
    _Column("Measured", 20.0),
    _Column("Limit", 22.0),
)
_STATUS_LAYERS = {"clash": "caution", "unchecked": "caution"}
"""The layer of a status that keeps a job from passing; others are plain text."""


def findings_sections(
    plan: Plan, findings: tuple[Finding, ...], width: float, about: str = ""
) -> tuple[Section, ...]:
    """Return the findings, those that want attention first, and the list of what is clear.

    Args:
        plan: for the limits' titles and which side of a limit is right.
        findings: of all checks.
        width: of the table, in mm.
        about: only rules that begin so are listed, with the numbers that they have among all.
    """
    widths = _widths(width)
    listed = [one for one in enumerate(numbered(findings), 1) if one[1].rule.startswith(about)]
    findings = tuple(one for one in findings if one.rule.startswith(about))
    rows = [row(_cells(plan, index, one, widths), widths) for index, one in listed]
    sections = []
    if rows:
        head = [cell("rule", column.heading, width) for column, width in zip(_COLUMNS, widths, strict=True)]
        sections.append(Section("Findings", tuple(rows), row(head, widths)))
    elif findings:
        words = "Every check that was made is clear."
        sections.append(Section("Findings", paragraph(words, width)))
    else:
        sections.append(Section("Findings", paragraph("No check was made.", width)))
    clear = Counter(_title(plan, finding) for finding in findings if finding.status == "clear")
    if clear:
        titles = "; ".join(title if many == 1 else f"{title} ({many})" for title, many in clear.items())
        sections.append(Section("Checked and clear", paragraph(f"{titles}.", width, height=_DENSE)))
    return tuple(sections)


def _title(plan: Plan, finding: Finding) -> str:
    try:
        return plan.rules[finding.rule].title
    except KeyError:
        return finding.message.rstrip(".")


def _cells(plan: Plan, index: int, finding: Finding, widths: Sequence[float]) -> list[list[Words]]:
    measured = "–" if finding.measured is None else quantity(finding.measured, finding.unit)
    limit = "–"
    if finding.limit is not None:
        limit = f"{_sense(plan, finding)} {quantity(finding.limit, finding.unit)}"
    source = "" if finding.source is None else str(finding.source)
    status = _STATUS_LAYERS.get(finding.status, "text")
    return [
        cell("text", str(index), widths[0]),
        cell(status, finding.status.capitalize(), widths[1]),
        cell("text", finding.message, widths[2]) + cell("rule", source, widths[2], _DENSE),
        cell("text", measured, widths[3]),
        cell("text", limit, widths[4]),
    ]


def _sense(plan: Plan, finding: Finding) -> str:
    try:
        return {"at least": "≥", "at most": "≤"}[plan.rules[finding.rule].sense]
    except KeyError:
        return "limit"


def _widths(width: float) -> list[float]:
    fixed = sum(column.width for column in _COLUMNS) + GUTTER * (len(_COLUMNS) - 1)
    return [column.width or width - fixed for column in _COLUMNS]
