"""The words, mark and tone of each status, and how a finding is written for people."""

from typing import NamedTuple

from PySide6.QtCore import QCoreApplication

from app.panels.sentence import Tone
from app.words import QT_TRANSLATE_NOOP
from geometry.finding import STATUSES, Finding, Status
from geometry.rules import Rulebook
from geometry.rules.rulebook import quantity
from geometry.units import Display, shown


class StatusLook(NamedTuple):
    """How a status is told: one word, the heading of its group, a mark that is no colour, and a tone."""

    word: str
    heading: str
    mark: str
    tone: Tone


LOOKS: dict[Status, StatusLook] = {
    "clash": StatusLook(
        QT_TRANSLATE_NOOP("Statuses", "clash"), QT_TRANSLATE_NOOP("Statuses", "Must change"), "✗", "clash"
    ),
    "unchecked": StatusLook(
        QT_TRANSLATE_NOOP("Statuses", "unchecked"),
        QT_TRANSLATE_NOOP("Statuses", "Could not be checked"),
        "?",
        "clash",
    ),
    "refer": StatusLook(
        QT_TRANSLATE_NOOP("Statuses", "refer"),
        QT_TRANSLATE_NOOP("Statuses", "Somebody else decides"),
        "→",
        "refer",
    ),
    "tight": StatusLook(
        QT_TRANSLATE_NOOP("Statuses", "tight"),
        QT_TRANSLATE_NOOP("Statuses", "Measure again on site"),
        "≈",
        "tight",
    ),
    "clear": StatusLook(
        QT_TRANSLATE_NOOP("Statuses", "clear"), QT_TRANSLATE_NOOP("Statuses", "Clear"), "✓", "clear"
    ),
}


def status_word(status: Status) -> str:
    """Return the word for a status in the user's language."""
    return QCoreApplication.translate("Statuses", LOOKS[status].word)


def status_heading(status: Status) -> str:
    """Return the heading over the findings of a status."""
    return QCoreApplication.translate("Statuses", LOOKS[status].heading)


def counts(findings: tuple[Finding, ...]) -> dict[Status, int]:
    """Return how many findings there are of each status, those without any included."""
    found: dict[Status, int] = dict.fromkeys(STATUSES, 0)
    for finding in findings:
        found[finding.status] += 1
    return found


def against(finding: Finding, rules: Rulebook, display: Display = "mm") -> str:
    """Write what was measured: `Measured 28.4 mm, must be at least 30 mm`; nothing if it could not be."""
    if finding.measured is None or finding.limit is None:
        return ""
    measured, limit = (_written(value, finding.unit, display) for value in (finding.measured, finding.limit))
    sense = rules[finding.rule].sense if finding.rule in rules else ""
    must = {
        "at least": QCoreApplication.translate("Statuses", "Measured %1, must be at least %2"),
        "at most": QCoreApplication.translate("Statuses", "Measured %1, must be at most %2"),
    }.get(sense, QCoreApplication.translate("Statuses", "Measured %1 against %2"))
    return must.replace("%1", measured).replace("%2", limit)


def successor(finding: Finding, findings: tuple[Finding, ...]) -> Finding | None:
    """Return what an earlier finding has become: the one of the same rule on the same parts, if any."""
    if finding in findings:
        return finding
    same = [other for other in findings if (other.rule, other.parts) == (finding.rule, finding.parts)]
    return same[0] if same else None


def _written(value: float, unit: str, display: Display) -> str:
    if unit == "mm" and display != "mm":
        return shown(value, display) + (" cm" if display == "cm" else "")
    return quantity(value, unit)
