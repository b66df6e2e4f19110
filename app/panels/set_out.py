"""The step Set out: what is fitted to the wall, where, and how it is arranged."""

from collections.abc import Callable
from functools import partial

from PySide6.QtWidgets import QGridLayout, QPushButton, QVBoxLayout, QWidget

from app.arranging import Arranging
from app.document import State
from app.look import TARGET
from app.panels.panel import Panel
from app.panels.parts_list import PartsList
from app.panels.section import Column, Section
from app.panels.sentence import Sentence
from app.panels.thing_forms import Properties
from app.panels.words import kind_word
from geometry.edits.contents import added
from geometry.edits.refs import TILES, Ref, things
from geometry.model import XY, Job
from geometry.parts.records import HeadPart, HosePart, OutletPart, Part, RailPart, SpoutPart, ValvePart
from geometry.setting_out.arrangement import (
    HEAD_UNDERSIDE,
    RAIL_FOOT,
    VALVE_HEIGHT,
)
from geometry.setting_out.lines import lines

SPOUT_HEIGHT = 150.0
"""Of a new spout above the rim of the bath, in mm; own choice, to be moved at once."""
STEP_ASIDE = 100.0
"""By which a new part is set aside where one stands already, in mm; own choice."""


class SetOutPanel(Panel):
    """Parts to add, the place and properties of what is chosen, and how several things are arranged."""

    def set_up(self) -> None:
        """Make what stands on the panel."""
        self.setAccessibleName(self.tr("Set out"))
        self.arranging = Arranging(self.document, self.selection, self)
        self.arranging.told.connect(self.refused)
        self.parts = PartsList()
        self.parts.wanted.connect(self.add_part)
        self.chosen = Sentence("quiet")
        self.properties = Properties(self)
        self.buttons: dict[str, QPushButton] = {}
        self._needs: dict[str, int] = {}
        column = Column()
        chosen = Section(self.tr("What is chosen"))
        chosen.add(self.chosen, self.properties, self._things_buttons())
        arrange = Section(self.tr("Arrange"))
        arrange.add(self._arrange_buttons())
        add = Section(self.tr("Add a part"))
        add.add(self.parts)
        for section in (chosen, arrange, add):
            column.add(section)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.addWidget(column)

    def show_state(self, state: State) -> None:
        """Show parts and properties."""
        self.parts.show_parts(self.document.catalogue)
        self.properties.show_state(state)
        self._show_words()

    def show_chosen(self, refs: tuple[Ref, ...]) -> None:
        """Show what is chosen."""
        self.properties.show_refs(refs)
        self._show_words()

    def focus_parts(self) -> None:
        """Bring the keyboard to the list of parts."""
        self.parts.filter.setFocus()

    def focus_properties(self) -> None:
        """Bring the keyboard to the properties of what is chosen."""
        form = self.properties.form
        if form is not None:
            form.focus_first()

    def add_part(self, part_id: str, at: XY | None = None) -> None:
        """Add a part at a place, or where it usually goes."""
        job = self.document.job
        part = next(part for part in self.document.catalogue if part.id == part_id)
        try:
            after, ref = added(job, part, at or usual_place(job, part))
        except ValueError as problem:
            self._refuse(str(problem))
            return
        problem_said = self.edit(self.tr("Add %1").replace("%1", ref.id), after)
        if problem_said:
            self._refuse(problem_said)
        else:
            self.selection.choose([ref])

    def _refuse(self, sentence: str) -> None:
        text = sentence[:1].upper() + sentence[1:]
        self.refused.emit(text if text.endswith(".") else f"{text}.")

    def _show_words(self) -> None:
        """Say what is chosen, and let only those buttons be pressed that can do something."""
        everything = things(self.document.job)
        here = [ref for ref in self.selection.refs if ref in everything]
        if TILES in self.selection.refs and not here:
            words = self.tr("The tiles, moved by the corner of the first one.")
        elif not here:
            words = self.tr("Nothing yet: choose a part on the wall, or add one below.")
        elif len(here) == 1:
            words = kind_word(everything[here[0]])
        else:
            names = ", ".join(ref.id for ref in here)
            words = self.tr("%1 things: %2").replace("%1", str(len(here))).replace("%2", names)
        self.chosen.say(words)
        for name, needs in self._needs.items():
            self.buttons[name].setEnabled(len(here) >= needs)

    def _things_buttons(self) -> QWidget:
        return self._grid(
            (
                ("duplicate", self.tr("Duplicate"), 1, self.arranging.duplicate),
                ("remove", self.tr("Remove"), 1, self.arranging.remove),
            )
        )

    def _arrange_buttons(self) -> QWidget:
        align, distribute = self.arranging.align, self.arranging.distribute
        return self._grid(
            (
                ("plumb", self.tr("Plumb in line"), 2, partial(align, "x")),
                ("level", self.tr("Level"), 2, partial(align, "y")),
                ("across", self.tr("Space across"), 3, partial(distribute, "x")),
                ("up", self.tr("Space upwards"), 3, partial(distribute, "y")),
                ("hand", self.tr("Other hand"), 0, self.arranging.other_hand),
                ("mirror", self.tr("Mirror the wall"), 0, self.arranging.mirror_wall),
            )
        )

    def _grid(self, offered: tuple[tuple[str, str, int, Callable[[], None]], ...]) -> QWidget:
        """Make buttons, two in a row; each says how many things must be chosen for it."""
        holder = QWidget()
        grid = QGridLayout(holder)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(8)
        for number, (name, word, needs, slot) in enumerate(offered):
            button = QPushButton(word)
            button.setMinimumHeight(TARGET)
            button.clicked.connect(_without_argument(slot))
            grid.addWidget(button, number // 2, number % 2)
            self.buttons[name] = button
            self._needs[name] = needs
        return holder


def _without_argument(slot: Callable[[], None]) -> Callable[..., None]:
    """Return a slot that leaves out whether a button is checked."""

    def run(*_: object) -> None:
        slot()

    return run


def usual_place(job: Job, part: Part) -> XY:
    """Return where a part of this kind usually goes, aside of what stands there already; mm on the wall."""
    held = lines(job.enclosure)
    rail_x = held.quarter_left if job.enclosure.entry == "right" else held.quarter_right
    place: XY = held.centre, held.floor + VALVE_HEIGHT
    match part:
        case HeadPart():
            place = held.centre, held.floor + HEAD_UNDERSIDE + part.drop
        case OutletPart():
            place = rail_x, held.floor + VALVE_HEIGHT
        case RailPart():
            place = rail_x, held.floor + RAIL_FOOT
        case SpoutPart():
            place = held.centre, job.enclosure.rim + SPOUT_HEIGHT
        case ValvePart() | HosePart():
            pass
        case _:
            raise ValueError(f"{part.name} is not fitted to the wall by itself")
    taken = {fitting.at for fitting in job.fittings}
    while place in taken:
        place = place[0] + STEP_ASIDE, place[1]
    return place
