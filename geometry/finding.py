"""What a check says: a value against its limit, in one sentence of plain trade English."""

from typing import Annotated, Literal

from geometry.model.record import XY, Record, Span

Status = Literal["clash", "unchecked", "refer", "tight", "clear"]
STATUSES: tuple[Status, ...] = ("clash", "unchecked", "refer", "tight", "clear")
"""In the order in which they want attention."""
Standing = Literal["published", "common practice", "from memory: verify"]


class Source(Record, frozen=True, kw_only=True):
    """Where a limit comes from."""

    standing: Standing
    document: str = ""
    edition: str = ""
    clause: str = ""

    def __str__(self) -> str:
        """Write it as people cite it, the standing last."""
        named = " ".join(
            part
            for part in (self.document + (f":{self.edition}" if self.edition else ""), self.clause)
            if part
        )
        if self.standing == "common practice":
            return f"{named} (common practice)" if named else "common practice, no source"
        return f"{named} ({self.standing})" if named else self.standing


class Limit(Record, frozen=True, kw_only=True):
    """One limit of a rule: the value, its unit, which side of it is right, and where it comes from."""

    rule: str
    title: str
    value: Annotated[float, Span(-1e6, 1e6, "")]
    unit: str
    sense: Literal["at least", "at most"]
    source: Source
    tight: Annotated[float, Span(0.0, 1e6, "")] = 0.0
    """A value within this much of the limit is `tight`."""


class Finding(Record, frozen=True, kw_only=True):
    """The outcome of one check on the parts named."""

    rule: str
    status: Status
    parts: tuple[str, ...]
    message: str
    unit: str = "mm"
    measured: float | None = None
    limit: float | None = None
    source: Source | None = None
    place: tuple[XY, ...] = ()
    """What to highlight on the wall: a point, or two points between which was measured."""


def attention(findings: tuple[Finding, ...]) -> tuple[Finding, ...]:
    """Return the findings in the order in which they want attention; otherwise as they were."""
    return tuple(sorted(findings, key=lambda finding: STATUSES.index(finding.status)))
