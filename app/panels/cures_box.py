"""What cures the clash that is looked at: a button for each cure, worked out off the window's thread."""

from functools import partial
from typing import NamedTuple

from PySide6.QtCore import QTimer

from app.document import State
from app.panels.offers_box import OffersBox
from app.panels.panel import Panel
from app.panels.work import Work
from geometry.cures import Cure, cures_for, ways_out
from geometry.finding import Finding

SETTLE = 150
"""Milliseconds of rest before a cure is sought, so that going through the list does not seek them all."""


class Sought(NamedTuple):
    """What a cure is sought for: a finding of a state."""

    state: State
    finding: Finding


class Offer(NamedTuple):
    """What was found: the cures, and in words the ways out that the job cannot express."""

    sought: Sought
    cures: tuple[Cure, ...]
    ways: tuple[str, ...]


class CuresBox(OffersBox):
    """Offers cures; a press on one applies it as a step of the history."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(panel)
        self._sought: Sought | None = None
        self._clock = QTimer(self)
        self._clock.setSingleShot(True)
        self._clock.setInterval(SETTLE)
        self._clock.timeout.connect(self._seek)

    def show_finding(self, state: State, finding: Finding | None) -> None:
        """Seek cures for a finding of a state; only clashes have some."""
        if finding is None or finding.status != "clash" or finding not in state.findings:
            self.stop()
            self._sought = None
            self._say("")
            return
        sought = Sought(state, finding)
        if self._sought is not None and self._sought.state is state and self._sought.finding == finding:
            return
        self.stop()
        self._sought = sought
        self._say(self.tr("Looking for what cures it…"))
        self._clock.start()

    def apply_first(self) -> bool:
        """Apply the first cure; return whether there is one."""
        if not self.buttons:
            return False
        self.buttons[0].click()
        return True

    def stop(self) -> None:
        """Give up what is being sought."""
        self._clock.stop()
        super().stop()

    def _seek(self) -> None:
        if self._sought is not None:
            self._begin(partial(_found, self._sought), self._on_found)

    def _on_found(self, offer: Offer) -> None:
        if offer.sought is not self._sought:
            return  # of a finding, or a state, that is no longer looked at
        words = list(offer.ways)
        if offer.cures:
            words.append(self.tr("Any one of these cures it:"))
        elif not words:
            words = [self.tr("No single change cures it; move the parts on the wall and watch this list.")]
        self._say("\n".join(words))
        for cure in offer.cures:
            name = self.tr("Cure: %1").replace("%1", cure.title)
            self._offer_button(cure.title, name, partial(self._apply, offer.sought, cure))

    def _on_failed(self, problem: str) -> None:
        self._say(self.tr("No cure could be worked out: %1.").replace("%1", problem))

    def _apply(self, sought: Sought, cure: Cure, *_: object) -> None:
        if sought.state.job is not self._panel.document.job:
            return  # the job has changed meanwhile; cures for it are being sought
        self._take(cure.title, cure.job)


def _found(sought: Sought, _work: Work) -> Offer:
    state, finding = sought
    cures = cures_for(state.plan, state.findings, finding)
    return Offer(sought, cures, ways_out(state.plan, finding))
