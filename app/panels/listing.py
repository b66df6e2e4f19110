"""A list of records of one kind, or of a few kinds: one is chosen, and its form stands below the list."""

from collections.abc import Callable
from functools import partial
from typing import Any, Generic, TypeVar

from PySide6.QtCore import QSize, QTimer, Signal
from PySide6.QtWidgets import (
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QMenu,
    QPushButton,
    QScrollArea,
    QVBoxLayout,
    QWidget,
)

from app.document import State
from app.look import TARGET
from app.panels.form import Form, swapped
from app.panels.panel import Panel
from app.panels.sentence import Sentence
from geometry.edits.refs import Kind, Ref
from geometry.edits.renaming import followed
from geometry.model import Job
from geometry.model.record import Record

R = TypeVar("R", bound=Record)
T = TypeVar("T", bound=Record)
MOST_ROWS = 6
"""Rows that are seen without scrolling."""
_FEW = 2  # kinds that have a button each; more share a menu


class Listing(QWidget, Generic[R]):
    """Shows records of the job in their order; adds, removes, and moves them up and down.

    Args:
        panel: whose document is edited.
        name: what the list is called, for those who hear the window.
        read: returns the records of a job.
        write: returns a job with other records.
        describe: returns the words for a record.
        kind: of the references by which the records can be chosen on the wall, if they can.
        ordered: whether the user may change the order.
        on_top: whether a new record goes before all others, since the first one counts.
    """

    chosen = Signal()
    """Another record is chosen, or none."""

    def __init__(
        self,
        panel: Panel,
        name: str,
        read: Callable[[Job], tuple[R, ...]],
        write: Callable[[Job, tuple[R, ...]], Job],
        describe: Callable[[R], str],
        *,
        kind: Kind | None = None,
        ordered: bool = False,
        on_top: bool = False,
    ) -> None:
        super().__init__()
        self._panel, self._name = panel, name
        self._read, self._write, self._describe = read, write, describe
        self._kind, self._on_top = kind, on_top
        self._records: tuple[R, ...] = ()
        self._makers: list[tuple[str, Callable[[Job], R]]] = []
        self.forms: list[Form[Any]] = []
        self.adders: list[QPushButton] = []
        self.menu: QMenu | None = None
        """What can be added, where there is too much of it for a button each."""
        self._problem = Sentence("clash")
        self.list = QListWidget()
        self.list.setAccessibleName(name)
        self.list.setUniformItemSizes(True)
        self.list.currentRowChanged.connect(self._on_row)
        self._none = Sentence("quiet", self.tr("None yet."))
        panel.preferences.changed.connect(self._on_preferences)
        self._adding = QHBoxLayout()
        self._adding.setSpacing(8)
        self.remover = self._button(self.tr("Remove"), self.tr("Remove from %1"), self._on_remove)
        self.raiser = self._button("↑", self.tr("Move up in %1"), partial(self._on_shift, -1))
        self.sinker = self._button("↓", self.tr("Move down in %1"), partial(self._on_shift, 1))
        for button in (self.raiser, self.sinker):
            button.setFixedWidth(TARGET + 4)
            button.setVisible(ordered)
            self._adding.addWidget(button)
        self._adding.addWidget(self.remover)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(0, 0, 0, 0)
        self._layout.setSpacing(8)
        for widget in (self.list, self._none):
            self._layout.addWidget(widget)
        self._layout.addLayout(self._adding)
        self._layout.addWidget(self._problem)

    def offer(self, word: str, make: Callable[[Job], R]) -> None:
        """Offer to add a record: the word on the button or in its menu, and what makes the record."""
        self._makers.append((word, make))

    def form(self, kind: type[T], thing: str) -> Form[T]:
        """Add the form for records of a kind; `thing` is the kind in words."""

        def find(job: Job) -> T | None:
            records, index = self._read(job), self.index
            record: object = records[index] if 0 <= index < len(records) else None
            return record if isinstance(record, kind) else None

        def put(job: Job, old: T, new: T) -> Job:
            return self._write(job, swapped(self._read(job), old, new))  # type: ignore[arg-type]  # T is one of R

        made = Form(self._panel, thing, find, put, key=self._key)
        self.forms.append(made)
        self._layout.addWidget(made)
        return made

    def finish(self) -> None:
        """Make the buttons, once all that can be added has been offered."""
        if len(self._makers) <= _FEW:
            for place, (word, make) in enumerate(self._makers):
                button = self._button(word, word, partial(self._on_add, word, make))
                self._adding.insertWidget(place, button)
                self.adders.append(button)
        else:
            button = QPushButton(self.tr("Add"))
            button.setAccessibleName(self.tr("Add to %1").replace("%1", self._name))
            button.setMinimumHeight(TARGET)
            self.menu = QMenu(button)
            for word, make in self._makers:
                self.menu.addAction(word).triggered.connect(partial(self._on_add, word, make))
            button.setMenu(self.menu)
            self._adding.insertWidget(0, button)

    @property
    def index(self) -> int:
        """Which record is chosen, from 0; -1 if none is."""
        return self.list.currentRow()

    def show_state(self, state: State) -> None:
        """Show the records of a state; the chosen one stays chosen."""
        before, self._records = self._records, self._read(state.job)
        if self._records is not before or self.list.isHidden() == self._none.isHidden():
            self._show_rows(self._place_now(before))
            self._follow_name(before)
        for form in self.forms:
            form.show_state(state)
        index, many = self.index, len(self._records)
        self.remover.setEnabled(index >= 0)
        self.raiser.setEnabled(index > 0)
        self.sinker.setEnabled(0 <= index < many - 1)

    def show_chosen(self, refs: tuple[Ref, ...]) -> bool:
        """Choose the record that is chosen on the wall; return whether one of these is."""
        names = [getattr(record, "id", "") for record in self._records]
        for ref in refs:
            if ref.kind == self._kind and ref.id in names:
                self.choose(names.index(ref.id))
                return True
        return False

    def choose(self, index: int) -> None:
        """Choose a record by its place in the list; -1 chooses none."""
        if index != self.index:
            self.list.setCurrentRow(index)

    def _show_rows(self, index: int) -> None:
        self.list.blockSignals(True)
        for row, record in enumerate(self._records):
            text = self._describe(record)
            if row >= self.list.count():
                item = QListWidgetItem(text)
                item.setSizeHint(QSize(0, TARGET))
                self.list.addItem(item)
            elif self.list.item(row).text() != text:
                self.list.item(row).setText(text)
        while self.list.count() > len(self._records):
            self.list.takeItem(self.list.count() - 1)
        self.list.setCurrentRow(index)
        self.list.blockSignals(False)
        many = self.list.count()
        self.list.setVisible(many > 0)
        self._none.setVisible(many == 0)
        self.list.setFixedHeight(min(max(many, 1), MOST_ROWS) * TARGET + 2 * self.list.frameWidth())

    def _place_now(self, before: tuple[R, ...]) -> int:
        """Return where the chosen record stands now: by its name, or else in the same place."""
        index = self.index
        if not 0 <= index < len(before):
            return -1
        name = getattr(before[index], "id", None)
        if name is not None:
            names = [getattr(record, "id", None) for record in self._records]
            if name in names:
                return names.index(name)
            if len(names) < len(before):
                return -1
        return min(index, len(self._records) - 1)

    def _follow_name(self, before: tuple[R, ...]) -> None:
        """Keep a thing chosen on the wall when its name changes."""
        if self._kind is not None:
            selection = self._panel.selection
            selection.choose(followed(selection.refs, self._refs(before), self._refs(self._records)))

    def _refs(self, records: tuple[R, ...]) -> tuple[Ref, ...]:
        assert self._kind is not None, "only what can be chosen on the wall has references"
        return tuple(Ref(self._kind, getattr(record, "id", "")) for record in records)

    def _key(self) -> tuple[int, str]:
        records, index = self._records, self.index
        name = getattr(records[index], "id", "") if 0 <= index < len(records) else ""
        return (-1 if name else index), name

    def _button(self, word: str, name: str, slot: Callable[[], None]) -> QPushButton:
        button = QPushButton(word)
        button.setAccessibleName(name.replace("%1", self._name))
        button.setToolTip(button.accessibleName() if word in "↑↓" else "")
        button.setMinimumHeight(TARGET)
        button.clicked.connect(slot)
        return button

    def _edit(self, title: str, job: Job) -> bool:
        problem = self._panel.edit(title, job)
        self._problem.say(problem)
        return not problem

    def _on_preferences(self) -> None:
        self._show_rows(self.index)

    def _on_row(self, index: int) -> None:
        self.show_state(self._panel.document.state)
        self._problem.say("")
        self.chosen.emit()
        name = getattr(self._records[index], "id", "") if 0 <= index < len(self._records) else ""
        if self._kind is not None and name:
            self._panel.selection.choose((Ref(self._kind, name),))
        QTimer.singleShot(0, self, self._reveal)  # once the form has its place

    def _reveal(self) -> None:
        """Scroll to the form of the chosen record."""
        area: QWidget | None = self.parentWidget()
        while area is not None and not isinstance(area, QScrollArea):
            area = area.parentWidget()
        form = next((form for form in self.forms if form.isVisible()), None)
        if area is not None and form is not None:
            area.ensureWidgetVisible(form, 0, 8)
            area.ensureWidgetVisible(self.list, 0, 8)

    def _on_add(self, word: str, make: Callable[[Job], R], *_: object) -> None:
        job = self._panel.document.job
        records = self._read(job)
        # A new record of an ordered list goes below the chosen one, else to the end.
        place = self.index + 1 if not self.raiser.isHidden() and self.index >= 0 else len(records)
        place = 0 if self._on_top else place
        made = make(job)
        if self._edit(word, self._write(job, (*records[:place], made, *records[place:]))):
            self.choose(next(i for i, record in enumerate(self._records) if record is made))
            shown = [form for form in self.forms if not form.isHidden()]
            if shown:
                shown[0].focus_first()

    def _on_remove(self, *_: object) -> None:
        job, index = self._panel.document.job, self.index
        records = self._read(job)
        if 0 <= index < len(records):
            name = getattr(records[index], "id", "") or self._describe(records[index])
            title = self.tr("Remove %1").replace("%1", name)
            self._edit(title, self._write(job, (*records[:index], *records[index + 1 :])))

    def _on_shift(self, by: int, *_: object) -> None:
        job, index = self._panel.document.job, self.index
        records = list(self._read(job))
        to = index + by
        if 0 <= index < len(records) and 0 <= to < len(records):
            records[index], records[to] = records[to], records[index]
            name = self._describe(records[to])
            if self._edit(
                self.tr("Move %1 in the list").replace("%1", name), self._write(job, tuple(records))
            ):
                self.choose(to)
