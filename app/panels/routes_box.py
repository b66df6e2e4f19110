"""Ways to lead the chosen pipe: found off the window's thread, best first, each with its reasons in words.

It looks for ways only when it is asked to, and takes back what it found as soon as the job is another.
"""

from functools import partial
from typing import NamedTuple, cast

from PySide6.QtWidgets import QPushButton

from app.document import State
from app.look import TARGET
from app.panels.choice_fields import ChoiceField
from app.panels.offers_box import OffersBox
from app.panels.panel import Panel
from app.panels.sentence import Sentence
from app.panels.work import Work
from geometry.model import Job, Pipe
from geometry.pipework.obstacles import Side
from geometry.pipework.proposal import Proposal, applied, feed_now, proposals, routed
from geometry.pipework.seeker import Route
from geometry.units import Display


class Sought(NamedTuple):
    """What ways are sought for: a pipe of a state, fed from a side or, if None, where it is fed now.

    The reasons are in the unit that the user reads.
    """

    state: State
    pipe: str
    side: Side | None
    display: Display


class Found(NamedTuple):
    """What was found, and for what."""

    sought: Sought
    proposal: Proposal


class AllLed(NamedTuple):
    """A job with all its pipes led anew, as far as a way was found, and the job that it was made of."""

    before: Job
    job: Job
    proposals: tuple[Proposal, ...]


class RoutesBox(OffersBox):
    """Offers ways to lead a pipe; a press on one takes it as a step of the history."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(panel)
        self._shown: Sought | None = None
        self._sought: Sought | None = None
        self.side = ChoiceField(
            self.tr("The supply comes"),
            (
                ("below", self.tr("From below")),
                ("above", self.tr("From above")),
                ("left", self.tr("From the left")),
                ("right", self.tr("From the right")),
                (None, self.tr("From where it is now")),
            ),
        )
        self.side.entered.connect(self._on_side)
        self.finder = QPushButton(self.tr("Find ways"))
        self.finder.setMinimumHeight(TARGET)
        self.finder.clicked.connect(self._on_find)
        self._layout.insertWidget(0, self.side)
        self._layout.insertWidget(1, self.finder)

    def show_pipe(self, state: State, pipe: Pipe | None) -> None:
        """Show what can be asked for a pipe; what was found for another pipe or job is taken back."""
        now = (
            None
            if pipe is None
            else Sought(state, pipe.id, feed_now(state.job.wall, pipe)[0], self._panel.display)
        )
        before, self._shown = self._shown, now
        if now is None or pipe is None:
            if before is not None:
                self._forget()
            return
        self.side.setHidden(pipe.start is not None)
        if before is None or (before.pipe, before.side) != (now.pipe, now.side):
            self.side.show_value(now.side)
        if before is None or _asked(before) != _asked(now):
            self._forget()

    def lead_all(self) -> None:
        """Lead all pipes of the job anew; each keeps its feed."""
        self._forget()
        self._begin(partial(_led, self._panel.document.state), self._on_led)

    def _forget(self) -> None:
        self.stop()
        self._sought = None
        self._say("")

    def _on_side(self, side: Side | None) -> None:
        self._forget()
        self.side.show_value(side)

    def _on_find(self) -> None:
        if self._shown is not None:
            side = cast("Side | None", self.side.value) if self.side.isVisibleTo(self) else None
            self._sought = self._shown._replace(side=side)
            self._say(self.tr("Looking for ways…"))
            self._begin(partial(_found, self._sought), self._on_found)

    def _on_found(self, found: Found) -> None:
        if found.sought is not self._sought:
            return  # of a pipe, a side or a job that is no longer asked for
        if not found.proposal.routes:
            self._say(found.proposal.message)
            return
        self._say(self.tr("Ways to lead %1, the best first:").replace("%1", found.sought.pipe))
        held = next(pipe for pipe in found.sought.state.job.pipes if pipe.id == found.sought.pipe)
        for number, route in enumerate(found.proposal.routes, 1):
            words = f"{number}. {', '.join(route.reasons)}"
            self._offer(Sentence("tight" if route.fault else "words", words))
            is_now = route.points == held.route
            text = self.tr("It is led this way now") if is_now else self.tr("Lead it this way")
            button = self._offer_button(text, f"{text}: {words}", partial(self._apply, found.sought, route))
            button.setEnabled(not is_now)

    def _on_failed(self, problem: str) -> None:
        self._say(self.tr("No way could be worked out: %1.").replace("%1", problem))

    def _apply(self, sought: Sought, route: Route, *_: object) -> None:
        job = sought.state.job
        if job is self._panel.document.job:
            title = self.tr("Lead %1 another way").replace("%1", sought.pipe)
            self._take(title, applied(job, sought.pipe, route))

    def _on_led(self, led: AllLed) -> None:
        if led.before is not self._panel.document.job:
            return  # the job has changed meanwhile
        stuck = [proposal.message for proposal in led.proposals if not proposal.routes]
        if led.job == led.before and not stuck:
            stuck = [self.tr("All pipes run already as they would be led.")]
        elif not self._take(self.tr("Lead all pipes anew"), led.job):
            return
        words = " ".join(stuck)
        self._say(words)
        if words:
            self._panel.refused.emit(words)


def _asked(sought: Sought) -> tuple[str, Display, int]:
    """Return what an answer is for, but for the side, which is chosen by hand."""
    return sought.pipe, sought.display, id(sought.state.job)


def _found(sought: Sought, _work: Work) -> Found:
    return Found(sought, proposals(sought.state.plan, sought.pipe, sought.side, display=sought.display))


def _led(state: State, _work: Work) -> AllLed:
    job, found = routed(state.plan, {})
    return AllLed(state.job, job, found)
