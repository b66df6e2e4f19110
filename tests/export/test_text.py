"""Text is put in order, measured, and cut to its room; nothing that is typed breaks it."""

import subprocess
import sys
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from export.text import clean, fitted, is_bold, missing, text_box, text_width, visual, wrapped


def test_text_on_one_line_stays_as_typed() -> None:
    for typed in ("<b>R&D</b>", "%%c20", r"\P", "{x}", "Łukasz Żółć", "½ in × 3"):
        assert visual(typed) == typed


def test_line_breaks_tabs_and_control_characters_become_spaces() -> None:
    assert clean("a\nb\tc\x00d\u2028e") == "a b c d e"


def test_an_accent_typed_apart_joins_its_letter() -> None:
    assert clean("Lo\u0301dz\u0301") == "L\u00f3d\u017a"


def test_hebrew_is_drawn_from_its_last_letter() -> None:
    # shin lamed vav final-mem, read from the right
    assert visual("\u05e9\u05dc\u05d5\u05dd") == "\u05dd\u05d5\u05dc\u05e9"


def test_numbers_within_hebrew_keep_their_order() -> None:
    assert visual("\u05d7\u05d3\u05e8 12") == "12 \u05e8\u05d3\u05d7"


def test_hebrew_within_english_keeps_its_place() -> None:
    assert visual("Room \u05d7\u05d3\u05e8 A") == "Room \u05e8\u05d3\u05d7 A"


def test_brackets_open_towards_the_hebrew_they_hold() -> None:
    # Unicode UAX 9, rule L4: a bracket in right-to-left text takes its mirrored shape.
    assert visual("\u05d0 (\u05d1)") == "(\u05d1) \u05d0"


def test_arabic_letters_take_their_joined_forms() -> None:
    # beh yeh teh: Unicode chart FE70, initial beh FE91, medial yeh FEF4, final teh FE96
    assert visual("\u0628\u064a\u062a") == "\ufe96\ufef4\ufe91"


def test_every_arabic_word_has_its_letters_in_the_font() -> None:
    # "in the name of God" and a Persian name; a single-glyph form of the second word is not in the font
    assert missing("\u0628\u0633\u0645 \u0627\u0644\u0644\u0647") == ""
    assert "?" not in visual("\u0628\u0633\u0645 \u0627\u0644\u0644\u0647")
    assert "?" not in visual("\u067e\u0646\u062c\u0631\u0647 \u06af\u0686 \u0698\u0627\u0644\u0647")


def test_direction_marks_leave_no_trace_on_paper() -> None:
    assert visual("\u200f\u05d0\u2067\u05d1\u2069\u200f") == "\u05d1\u05d0"
    assert visual("a\u200bb\ufeff") == "ab"


def test_a_character_without_a_letter_form_becomes_a_question_mark_and_is_reported() -> None:
    # U+5B57 and U+6C34 are Han characters, which DejaVu Sans does not hold
    assert visual("a\u5b57b\u6c34\u5b57?") == "a?b???"
    assert missing("a\u5b57b\u6c34\u5b57?") == "\u5b57\u6c34"


def test_a_character_with_a_plain_equivalent_is_written_plainly() -> None:
    assert visual("20 \u339c") == "20 mm"
    assert missing("20 \u339c") == ""


def test_half_of_a_character_pair_becomes_a_question_mark() -> None:
    assert visual("a\ud800b") == "a?b"


def test_width_is_the_sum_of_the_advances_in_the_font() -> None:
    # Advances read from the font with another tool: H 1540, i 569, of an em of 2048 units;
    # H is 1493 units high. Two letters 10 mm high: (1540 + 569) / 1493 * 10.
    assert text_width("Hi", 10) == pytest.approx(14.1259, abs=1e-3)


def test_bold_text_is_wider() -> None:
    assert text_width("caution", 2.5, bold=True) > text_width("caution", 2.5)


def test_only_cautions_and_headings_are_bold() -> None:
    assert is_bold("caution")
    assert is_bold("frame")
    assert not is_bold("text")


def test_widths_agree_with_the_writer_of_the_pdf() -> None:
    from reportlab.pdfbase.pdfmetrics import stringWidth

    from export.pdf import _fonts

    for bold, name in _fonts().items():
        for sample in ("600.5 mm FFL", "Łódź × ½ ≤", "\u05e9\u05dc\u05d5\u05dd"):
            # the writer rounds each advance to a thousandth of the size
            assert text_width(sample, 1493 / 2048, bold=bold) == pytest.approx(
                stringWidth(visual(sample), name, 1), abs=0.001 * len(sample)
            )


def test_the_box_of_centred_text_is_even_about_its_anchor() -> None:
    left, bottom, right, top = text_box("600", 2.5, "centre")
    assert left == -right
    assert bottom < 0 < 2.5 < top


def test_text_that_fits_is_not_shortened() -> None:
    assert fitted("Bathroom", 2.5, text_width("Bathroom", 2.5)) == "Bathroom"


def test_text_that_does_not_fit_ends_in_an_ellipsis() -> None:
    short = fitted("Bathroom on the first floor", 2.5, 20)
    assert short.endswith("…")
    assert "Bathroom on the first floor".startswith(short[:-1])


def test_where_nothing_fits_nothing_is_written() -> None:
    assert fitted("Bathroom", 2.5, 0.5) == ""


words = st.text(st.sampled_from("abc defgh ijk.,-\u05d0\u05d1\u05d2\u0628\u064a\u062a12(\u5b57"), max_size=60)


@given(words, st.floats(0.1, 60))
def test_fitted_text_is_never_wider_than_its_room(text: str, width: float) -> None:
    assert text_width(fitted(text, 2.5, width), 2.5) <= width


@given(words, st.floats(6, 60))
def test_wrapped_lines_fit_and_lose_no_letter(text: str, width: float) -> None:
    lines = wrapped(text, 2.5, width)
    assert "".join("".join(lines).split()) == "".join(text.split())
    assert all(text_width(line, 2.5) <= width for line in lines)


@given(st.text(max_size=30))
def test_any_text_at_all_can_be_drawn(text: str) -> None:
    shown = visual(text)
    assert not any(unicodedata.category(c) in ("Cc", "Zl", "Zp", "Cs") for c in shown)
    assert text_width(text, 2.5) >= 0


def test_typed_line_breaks_stay_when_text_is_wrapped() -> None:
    assert wrapped("first\n\nthird", 2.5, 100) == ["first", "", "third"]


def test_wrapped_text_breaks_between_words() -> None:
    # At 2.5 mm "one two" is narrower than 20 mm and "one two three four" is wider.
    assert text_width("one two", 2.5) < 20 < text_width("one two three", 2.5)
    assert wrapped("one two three", 2.5, 20) == ["one two", "three"]


def test_measuring_text_loads_no_writer() -> None:
    code = (
        "import sys, export.text, export.wrapped_pens; export.text.text_width('600 mm', 2.5);"
        "heavy = {'reportlab', 'ezdxf', 'shapely', 'numpy', 'bidi', 'arabic_reshaper'};"
        "sys.exit(bool(heavy & set(sys.modules)))"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
