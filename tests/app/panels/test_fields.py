"""Fields: what is typed, what is said back, what is refused. Sums are in the comments; an inch is 25.4 mm."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtWidgets import QCheckBox, QComboBox, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from app.fields import Field, LengthField, NumberField, TextField
from app.look import TARGET
from app.panels.choice_fields import ChoiceField, NotesField, TickField
from geometry.units import Display
from tests.app.panels.desk import key, keys, line_of, press, type_into

Show = Callable[[QWidget], None]


class Heard:
    """Notes what a field says, and shows it back, as a panel does."""

    def __init__(self, field: Field) -> None:
        self.field = field
        self.entered: list[object] = []
        self.stepped: list[object] = []
        field.entered.connect(self._on_entered)
        field.stepped.connect(self._on_stepped)

    def _on_entered(self, value: object) -> None:
        self.entered.append(value)
        self.field.show_value(value)

    def _on_stepped(self, value: object) -> None:
        self.stepped.append(value)
        self.field.show_value(value)


def length_field(
    display: Display = "mm", value: float | None = 380.0, empty: str | None = None
) -> LengthField:
    field = LengthField("Width", display, empty=empty)
    field.show_value(value)
    return field


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("400", 400.0),
        ("760/2 + 5", 385.0),
        ("60cm", 600.0),
        ('1 1/2"', 38.1),  # 1.5 * 25.4
        ("12,5", 12.5),
        ("760 - 2*190", 380.0),
    ],
)
def test_a_length_is_typed_as_a_number_a_sum_or_with_a_unit(typed: str, read: float, shown: Show) -> None:
    field = length_field(value=100.0)
    shown(field)
    heard = Heard(field)
    type_into(field, typed)
    assert heard.entered == [pytest.approx(read)]
    assert field.problem == ""


@pytest.mark.parametrize(
    ("display", "text", "unit"),
    [("mm", "380", "mm"), ("cm", "38", "cm"), ("in", '15"', "")],
)
def test_a_length_is_shown_in_the_unit_that_was_chosen(
    display: Display, text: str, unit: str, qtbot: QtBot
) -> None:
    field = length_field(display, 381.0 if display == "in" else 380.0)  # 15 * 25.4 = 381
    qtbot.addWidget(field)
    assert (line_of(field).text(), field.aside) == (text, unit)


def test_changing_the_unit_changes_what_is_shown_and_not_the_value(qtbot: QtBot) -> None:
    field = length_field()
    qtbot.addWidget(field)
    heard = Heard(field)
    field.set_display("cm")
    assert line_of(field).text() == "38"
    assert (field.value, heard.entered) == (380.0, [])


def test_a_sum_is_said_back_while_it_is_typed(shown: Show) -> None:
    field = length_field()
    shown(field)
    type_into(field, "760/4", enter=False)
    assert field.aside == "= 190 mm"
    type_into(field, "190", enter=False)
    assert field.aside == "mm"
    type_into(field, "19x", enter=False)
    assert field.aside == "?"


def test_nonsense_is_refused_in_one_sentence_and_stays_to_be_mended(shown: Show) -> None:
    field = length_field()
    shown(field)
    heard = Heard(field)
    type_into(field, "wide")
    assert heard.entered == []
    assert field.problem == "Not a length: 'wide'."
    assert line_of(field).text() == "wide"
    assert line_of(field).accessibleDescription() == "Not a length: 'wide'."
    type_into(field, "390")
    assert (heard.entered, field.problem) == ([390.0], "")


def test_what_the_listener_refuses_stays_with_its_sentence(shown: Show) -> None:
    field = length_field()
    shown(field)
    field.entered.connect(lambda _: field.refuse("Must be above 0 mm."))
    type_into(field, "-5")
    assert (line_of(field).text(), field.problem, field.value) == ("-5", "Must be above 0 mm.", 380.0)
    field.show_value(380.0)  # as after an edit elsewhere
    assert line_of(field).text() == "-5"


def test_escape_gives_up_what_was_typed(shown: Show) -> None:
    field = length_field()
    shown(field)
    heard = Heard(field)
    type_into(field, "99", enter=False)
    key(line_of(field), Qt.Key.Key_Escape)
    assert (line_of(field).text(), heard.entered) == ("380", [])


def test_a_change_from_elsewhere_does_not_overwrite_what_is_being_typed(shown: Show) -> None:
    field = length_field()
    shown(field)
    type_into(field, "12", enter=False)
    field.show_value(500.0)
    assert line_of(field).text() == "12"
    key(line_of(field), Qt.Key.Key_Escape)
    assert line_of(field).text() == "500"


def test_a_field_shown_afresh_forgets_what_was_typed(shown: Show) -> None:
    field = length_field()
    shown(field)
    type_into(field, "wide")
    field.show_value(500.0, afresh=True)
    assert (line_of(field).text(), field.problem) == ("500", "")


def test_leaving_a_field_enters_what_was_typed(shown: Show) -> None:
    page = QWidget()
    first, second = length_field(), length_field()
    layout = QVBoxLayout(page)
    layout.addWidget(first)
    layout.addWidget(second)
    shown(page)
    heard = Heard(first)
    type_into(first, "390", enter=False)
    line_of(second).setFocus(Qt.FocusReason.TabFocusReason)
    assert heard.entered == [390.0]


def test_passing_through_an_inch_field_does_not_round_its_value(shown: Show) -> None:
    field = length_field("in", 380.0)  # 380 / 25.4 = 14.96: shown as 14 15/16
    shown(field)
    heard = Heard(field)
    assert line_of(field).text() == '14 15/16"'
    type_into(field, '14 15/16"')
    assert heard.entered == []
    assert field.value == 380.0


def test_arrow_keys_step_a_length_by_1_mm_and_with_shift_by_10(shown: Show) -> None:
    field = length_field()
    shown(field)
    heard = Heard(field)
    line = line_of(field)
    line.setFocus()
    visit = field.visit
    key(line, Qt.Key.Key_Up)
    key(line, Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    assert heard.stepped == [381.0, 371.0]  # 380 + 1, 381 - 10
    assert line.text() == "371"
    assert field.visit == visit


def test_a_length_in_inches_steps_by_millimetres_too(shown: Show) -> None:
    field = length_field("in", 380.0)
    shown(field)
    heard = Heard(field)
    key(line_of(field), Qt.Key.Key_Up)
    assert heard.stepped == [381.0]


def test_an_empty_line_is_refused_unless_it_means_something(shown: Show) -> None:
    field = length_field()
    shown(field)
    heard = Heard(field)
    type_into(field, "")
    assert field.problem.startswith("Type a length")
    field.set_empty("from the finish")
    type_into(field, "")
    assert (heard.entered, field.problem) == ([None], "")
    assert line_of(field).placeholderText() == "from the finish"


def test_a_number_takes_a_comma_or_a_point_and_a_unit_of_what_it_measures(shown: Show) -> None:
    field = NumberField("Pressure", "bar")
    field.show_value(1.0)
    shown(field)
    heard = Heard(field)
    type_into(field, "2,5")
    type_into(field, "3.25")
    type_into(field, "3 bar")
    assert heard.entered == [2.5, 3.25, 3.0]
    assert field.aside == "bar"
    type_into(field, "3 l/min")
    assert heard.entered == [2.5, 3.25, 3.0]
    assert field.problem == "Not a number of bar or kPa or psi: '3 l/min'."
    assert field.aside == "?"


def test_a_pressure_typed_in_another_unit_is_shown_in_bar_as_it_is_typed(shown: Show) -> None:
    field = NumberField("Pressure", "bar")
    field.show_value(1.0)
    shown(field)
    heard = Heard(field)
    type_into(field, "240 kPa", enter=False)
    assert field.aside == "= 2.4 bar"
    key(line_of(field), Qt.Key.Key_Return)
    assert (heard.entered, line_of(field).text(), field.aside) == ([2.4], "2.4", "bar")


def test_an_arrow_key_steps_a_pressure_by_a_tenth_of_a_bar(shown: Show) -> None:
    field = NumberField("Pressure", "bar")
    field.show_value(1.0)
    shown(field)
    heard = Heard(field)
    line_of(field).setFocus()
    key(line_of(field), Qt.Key.Key_Up)
    key(line_of(field), Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier)
    assert heard.stepped == [1.1, 0.1]


def test_words_are_entered_without_the_spaces_round_them(shown: Show) -> None:
    field = TextField("Title")
    field.show_value("Shower")
    shown(field)
    heard = Heard(field)
    type_into(field, "  Upstairs bath ")
    assert heard.entered == ["Upstairs bath"]


def test_notes_are_entered_by_leaving_them(shown: Show) -> None:
    page = QWidget()
    notes, other = NotesField("Notes"), TextField("Title")
    notes.show_value("")
    layout = QVBoxLayout(page)
    layout.addWidget(notes)
    layout.addWidget(other)
    shown(page)
    heard = Heard(notes)
    notes.editor.setFocus()
    keys(notes.editor, "first")
    key(notes.editor, Qt.Key.Key_Return)
    keys(notes.editor, "second")
    assert heard.entered == []
    key(notes.editor, Qt.Key.Key_Tab)
    assert heard.entered == ["first\nsecond"]


def test_a_choice_is_made_by_the_keyboard_and_not_by_a_wheel_that_passes(shown: Show) -> None:
    field = ChoiceField("Entry", [("left", "Left"), ("right", "Right")])
    field.show_value("left")
    shown(field)
    heard = Heard(field)
    assert isinstance(field.editor, QComboBox)
    key(field.editor, Qt.Key.Key_Down)
    assert heard.entered == ["right"]


def test_a_choice_that_is_refused_goes_back(shown: Show) -> None:
    field = ChoiceField("Entry", [("left", "Left"), ("right", "Right")])
    field.show_value("left")
    shown(field)
    field.entered.connect(lambda _: field.refuse("Not that side."))
    key(field.editor, Qt.Key.Key_Down)
    assert (field.box.currentText(), field.problem) == ("Left", "Not that side.")


def test_a_choice_shows_what_it_does_not_know_in_words(qtbot: QtBot) -> None:
    field = ChoiceField("Size", [("a", "760 x 760")])
    field.set_unknown("Own sizes")
    field.show_value("b")
    qtbot.addWidget(field)
    assert (field.box.currentIndex(), field.box.placeholderText()) == (-1, "Own sizes")


def test_a_tick_says_what_it_became(shown: Show) -> None:
    field = TickField("Cut by machine")
    field.show_value(True)
    shown(field)
    heard = Heard(field)
    assert isinstance(field.editor, QCheckBox)
    press(field.editor, QPoint(12, TARGET // 2))
    assert heard.entered == [False]


@pytest.mark.parametrize(
    "field",
    [
        lambda: LengthField("A length"),
        lambda: NumberField("A number", "bar"),
        lambda: TextField("Words"),
        lambda: ChoiceField("A choice", [(1, "one")]),
        lambda: TickField("A tick"),
        lambda: NotesField("Notes"),
    ],
)
def test_every_field_has_a_name_and_is_high_enough_for_wet_hands(
    field: Callable[[], Field], shown: Show
) -> None:
    made = field()
    shown(made)
    assert made.editor.accessibleName() == made.label
    assert made.editor.height() >= TARGET
    made.name_for("wall")
    assert made.editor.accessibleName() == f"{made.label}, wall"
    made.setFocus()
    assert made.editor.hasFocus()
