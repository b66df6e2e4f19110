"""Where findings lie: a mark at each place that clashes or is tight, and the words of a measured clearance.

Marks that would cover one another become one. Pixels, y down; no Qt.
"""

import math
from collections.abc import Sequence, Set
from typing import NamedTuple

from app.canvas.view import View
from geometry.finding import STATUSES, Finding, Status
from geometry.model import XY
from geometry.rules.rulebook import quantity
from geometry.units import Display, with_unit

RADIUS = 8.0
"""Of a mark, pixels."""
STACKED = 5.0
"""How far to the right of a mark a second one shows behind it, pixels."""
_NO_GAPS = ("water.", "fixings.")
"""Rules that measure heights and lengths: what is below nothing there is no overlap."""
MARKED: tuple[Status, ...] = ("clash", "tight")
"""The findings that have a place which something must be done about."""


class Mark(NamedTuple):
    """A mark: the findings there, the worst first, and where."""

    findings: tuple[Finding, ...]
    at: XY

    @property
    def finding(self) -> Finding:
        """The worst."""
        return self.findings[0]

    def after(self, looked_at: Finding | None) -> Finding:
        """Return the finding that a press looks at: the worst, or the one after that which is looked at."""
        if looked_at not in self.findings:
            return self.finding
        return self.findings[(self.findings.index(looked_at) + 1) % len(self.findings)]


def marks(findings: Sequence[Finding], view: View, size: XY) -> tuple[Mark, ...]:
    """Return the marks that are on the screen; the worst finding of those at one place leads."""
    placed: list[Mark] = []
    for finding in sorted(findings, key=lambda finding: STATUSES.index(finding.status)):
        if finding.status not in MARKED or not finding.place:
            continue
        at = view.to_screen(middle(finding.place))
        if not (-RADIUS <= at[0] <= size[0] + RADIUS and -RADIUS <= at[1] <= size[1] + RADIUS):
            continue
        near = next((i for i, mark in enumerate(placed) if math.dist(mark.at, at) < 2 * RADIUS), None)
        if near is None:
            placed.append(Mark((finding,), at))
        else:
            placed[near] = placed[near]._replace(findings=(*placed[near].findings, finding))
    return tuple(placed)


def middle(place: Sequence[XY]) -> XY:
    """Return the middle of a place."""
    xs, ys = zip(*place, strict=True)
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def worst_of(findings: Sequence[Finding], parts: Set[str], *, tiles: bool = False) -> Finding | None:
    """Return the finding about some of the parts that is worst: clashes first, then what misses by most.

    Only clearances, measured in mm, that can be shown on the wall count; with `tiles`, those of tiles too.
    """
    about = [
        finding
        for finding in findings
        if finding.status in MARKED and finding.place and finding.measured is not None
        and finding.unit == "mm"
        and (not parts.isdisjoint(finding.parts) or (tiles and finding.rule.startswith("tiling.")))
    ]  # fmt: skip
    return min(about, key=_urgency, default=None)


def _urgency(finding: Finding) -> tuple[int, float]:
    """Return a key by which the worst comes first: beyond a limit by the most, or within it by the least."""
    miss = abs((finding.limit or 0.0) - (finding.measured or 0.0))
    return STATUSES.index(finding.status), -miss if finding.status == "clash" else miss


def measured_words(finding: Finding, display: Display) -> str:
    """Say what was measured, against which limit; a clearance below nothing is an overlap."""
    measured, unit = finding.measured, finding.unit
    if measured is None:
        return ""
    if unit == "mm" and measured < 0 and not finding.rule.startswith(_NO_GAPS):
        told = f"overlap {_value(-measured, unit, display)}"
    else:
        told = _value(measured, unit, display)
    return told if finding.limit is None else f"{told} (limit {_value(finding.limit, unit, display)})"


def _value(value: float, unit: str, display: Display) -> str:
    if unit == "mm":
        return with_unit(value, display)
    return quantity(value, unit)
