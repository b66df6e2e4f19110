"""A form: fields in two columns that show one record of the job and change it through the document."""

from collections.abc import Callable, Hashable, Sequence
from typing import Any, Generic, TypeVar

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QWidget

from app.document import State
from app.fields import Field, LengthField, NumberField, TextField
from app.panels.choice_fields import ChoiceField, TickField
from app.panels.panel import Panel
from app.panels.sentence import plainly
from geometry.model import Job
from geometry.model.record import Record

R = TypeVar("R", bound=Record)
GAP = 12
"""Pixels between fields."""


class Form(QWidget, Generic[R]):
    """Shows what `find` finds in the job; with nothing found it is not to be seen.

    Args:
        panel: whose document is edited, and whose unit holds.
        thing: what the record is, in words, for titles of the history: `wall`; a record's id goes before it.
        find: returns the record in a job, or None.
        put: returns a job in which one record stands in place of another.
        key: by what a record is told from another; by its id unless given.
    """

    def __init__(
        self,
        panel: Panel,
        thing: str,
        find: Callable[[Job], R | None],
        put: Callable[[Job, R, R], Job],
        key: Callable[[], Hashable] | None = None,
    ) -> None:
        super().__init__()
        self.panel, self.thing, self.record_in, self.put = panel, thing, find, put
        self._preparing: list[Callable[[R, State], None]] = []
        self._key = key
        self._shown: Hashable = None
        self._rows: list[_Row[R]] = []
        self._column = 0
        self.setSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Maximum)
        self._grid = QGridLayout(self)
        self._grid.setContentsMargins(0, 0, 0, 0)
        self._grid.setHorizontalSpacing(GAP)
        self._grid.setVerticalSpacing(8)
        self._grid.setColumnStretch(0, 1)
        self._grid.setColumnStretch(1, 1)

    def show_state(self, state: State) -> bool:
        """Show the record of a state; return whether there is one."""
        record = self.record_in(state.job)
        self.setVisible(record is not None)
        if record is None:
            self._shown = None
            return False
        for prepare in self._preparing:
            prepare(record, state)
        shown: Hashable = self._key() if self._key else getattr(record, "id", self.thing)
        afresh, self._shown = shown != self._shown, shown
        for row in self._rows:
            row.field.show_value(row.read(record), afresh=afresh)
        return True

    def before_showing(self, prepare: Callable[[R, State], None]) -> None:
        """Have something done before the fields show a record, such as offering what can be chosen for it."""
        self._preparing.append(prepare)

    def add(
        self,
        field: Field,
        read: Callable[[R], Any],
        write: Callable[[R, Any], R],
        *,
        title: str = "",
        wide: bool = False,
    ) -> Field:
        """Add a field that shows what is read of a record, and writes what is entered into it."""
        row = _Row(self, field, read, write, title)
        self._rows.append(row)
        field.name_for(self.thing)
        if wide and self._column % 2:
            self._column += 1
        self._grid.addWidget(field, self._column // 2, self._column % 2, 1, 2 if wide else 1)
        self._column += 2 if wide else 1
        return field

    def focus_first(self) -> None:
        """Bring the keyboard to the first field."""
        if self._rows:
            self._rows[0].field.setFocus()

    def field(self, label: str) -> Field:
        """Return the field with a label; KeyError if there is none."""
        for row in self._rows:
            if row.field.label == label:
                return row.field
        raise KeyError(label)

    def length(
        self, name: str, label: str, *, empty: str | None = None, wide: bool = False, title: str = ""
    ) -> LengthField:
        """Add a length of the record, by the name of its attribute; one that may be `empty` may be None."""
        field = LengthField(label, self.panel.display, empty=empty)
        self._add_attribute(field, name, wide=wide, title=title)
        return field

    def rectangle(self) -> None:
        """Add the place and the size of a rectangle: its lower left corner, its width and its height."""
        self.length("x", self.tr("Left edge"))
        self.length("y", self.tr("Lower edge"))
        self.length("width", self.tr("Width"))
        self.length("height", self.tr("Height"))

    def number(self, name: str, label: str, unit: str, *, empty: str | None = None) -> NumberField:
        """Add a number of the record."""
        field = NumberField(label, unit, empty=empty)
        self._add_attribute(field, name)
        return field

    def text(self, name: str, label: str, *, most: int = 300, wide: bool = False) -> TextField:
        """Add words of the record."""
        field = TextField(label, most=most)
        self._add_attribute(field, name, wide=wide)
        return field

    def choice(
        self, name: str, label: str, choices: Sequence[tuple[Any, str]] = (), *, wide: bool = False
    ) -> ChoiceField:
        """Add one of several values of the record."""
        field = ChoiceField(label, choices)
        self._add_attribute(field, name, wide=wide)
        return field

    def tick(self, name: str, label: str, *, wide: bool = True) -> TickField:
        """Add a yes or no of the record."""
        field = TickField(label)
        self._add_attribute(field, name, wide=wide)
        return field

    def _add_attribute(self, field: Field, name: str, *, wide: bool = False, title: str = "") -> None:
        self.add(
            field,
            lambda record: getattr(record, name),
            lambda record, value: record.but(**{name: value}),
            wide=wide,
            title=title,
        )


class _Row(QObject, Generic[R]):
    """One field of a form, and how it reads and writes the record."""

    def __init__(
        self,
        form: Form[R],
        field: Field,
        read: Callable[[R], Any],
        write: Callable[[R, Any], R],
        title: str,
    ) -> None:
        super().__init__(form)
        self.form, self.field, self.read, self.write, self.title = form, field, read, write, title
        field.entered.connect(self._on_entered)
        field.stepped.connect(self._on_stepped)

    def _on_entered(self, value: Any) -> None:
        self._edit(value, None)

    def _on_stepped(self, value: Any) -> None:
        self._edit(value, (id(self), self.field.visit))

    def _edit(self, value: Any, merge: Hashable) -> None:
        form = self.form
        job = form.panel.document.job
        record = form.record_in(job)
        if record is None:
            return
        try:
            changed = self.write(record, value)
            after = form.put(job, record, changed)
        except ValueError as problem:
            self.field.refuse(plainly(problem))
            return
        problem_said = form.panel.edit(self._title(record), after, merge=merge)
        if problem_said:
            self.field.refuse(problem_said)

    def _title(self, record: R) -> str:
        thing = getattr(record, "id", "") or self.form.thing
        template = self.title or self.form.tr("Change %1 of %2")
        return template.replace("%1", lowered(self.field.label)).replace("%2", thing)


def lowered(label: str) -> str:
    """Return a label as it stands within a sentence."""
    return label if label[1:2].isupper() else label[:1].lower() + label[1:]


def swapped(records: tuple[R, ...], old: R, new: R) -> tuple[R, ...]:
    """Return records in which one, the very same object, is replaced."""
    return tuple(new if record is old else record for record in records)
