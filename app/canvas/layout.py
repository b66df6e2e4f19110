"""The words and marks over the drawing as they stand on the screen: laid out once for what they depend on."""

from typing import NamedTuple

from app.canvas.marks import STACKED, Mark, marks
from app.canvas.names import Naming, names
from app.canvas.placing import Name
from app.canvas.stages import Stage
from app.canvas.tags import Chain, Tag, chains, tags
from app.canvas.view import View
from app.document import State
from geometry.edits.refs import Ref
from geometry.model import XY
from geometry.shape.outline import Bounds
from geometry.units import Display

_REACH = 12.0
"""Half the side of the box that a mark takes up, pixels."""


class Wanted(NamedTuple):
    """What the layout depends on, besides the state."""

    view: View
    size: XY
    stage: Stage
    chosen: tuple[Ref, ...]
    pointed: Ref | None
    display: Display


class Laid(NamedTuple):
    """Words and marks with their places."""

    tags: tuple[Tag, ...] = ()
    names: tuple[Name, ...] = ()
    marks: tuple[Mark, ...] = ()

    @property
    def boxes(self) -> tuple[Bounds, ...]:
        """What other words should not cover."""
        words = (*(tag.box for tag in self.tags), *(name.box for name in self.names))
        return (*words, *(_round(mark) for mark in self.marks))

    def tag_at(self, at: XY, tolerance: float) -> Tag | None:
        """Return the tag of a thing under a point; a finger may miss it by a little."""
        for tag in self.tags:
            left, top, right, low = tag.box
            reach = max(0.0, tolerance - (low - top) / 2)
            if tag.refs and left - reach <= at[0] <= right + reach and top - reach <= at[1] <= low + reach:
                return tag
        return None

    def mark_at(self, at: XY, tolerance: float) -> Mark | None:
        """Return the mark under a point."""
        return next(
            (m for m in self.marks if max(abs(m.at[0] - at[0]), abs(m.at[1] - at[1])) <= tolerance), None
        )


class Layout:
    """Lays out, and keeps what was laid out last."""

    def __init__(self) -> None:
        self._state: State | None = None
        self._chains: tuple[Chain, Chain] | None = None
        self._wanted: Wanted | None = None
        self._laid = Laid()

    def lay(self, state: State, wanted: Wanted) -> Laid:
        """Return words and marks for a state as it is seen."""
        if state is not self._state or self._chains is None:
            self._state, self._wanted = state, None
            self._chains = chains(state.plan)
        if wanted != self._wanted:
            self._wanted = wanted
            self._laid = _laid(state, self._chains, wanted)
        return self._laid


def _laid(state: State, held: tuple[Chain, Chain], wanted: Wanted) -> Laid:
    view, size = wanted.view, wanted.size
    tagged = tags(held, view, size, wanted.chosen, wanted.display)
    marked = marks(state.findings, view, size)
    told = dict.fromkeys((*wanted.chosen, *((wanted.pointed,) if wanted.pointed else ())))
    taken = Laid(tagged, (), marked).boxes
    written = names(state.plan, Naming(wanted.stage, view, size, tuple(told)), taken)
    return Laid(tagged, written, marked)


def _round(mark: Mark) -> Bounds:
    x, y = mark.at
    stacked = STACKED if len(mark.findings) > 1 else 0.0
    return x - _REACH, y - _REACH, x + _REACH + stacked, y + _REACH
