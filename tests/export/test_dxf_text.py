"""Text in DXF: every reader finds it as typed and where it was put."""

import pytest
from ezdxf.tools.text import plain_mtext, plain_text
from hypothesis import given, settings
from hypothesis import strategies as st

from export.dxf import DxfDocument
from export.dxf_text import dimension_text, line_of_text
from tests.export.dxf_reader import found, read

NASTY = [
    "<b>bold</b> & <img src='x'>",
    "%%c",
    "100%%%d 50%",
    "%%037 %%u",
    "^I",
    "caret at the end ^",
    "^^",
    r"\P {\fArial;x} \~ \\",
    r"\U+0041",
    r"\M+10041",
    r"\\U+05D0 ^J %%p",
    "מקלחת 1100 מ״מ",
    "Łazienka, żółć",
    "Ελληνικά Ω ≤ ⌀22",
    "<> []",
    "  two blanks before and behind  ",
]
MAKE_UP = ["%", "^", "\\", "{", "}", "U+0041", "M+1", "<", ">", "I", "c", "d", " ", "א", "ł"]
READABLE = st.characters(exclude_categories=["Cc", "Cs", "Zl", "Zp"])
LINES = (
    st.text(READABLE, min_size=1, max_size=30) | st.lists(st.sampled_from(MAKE_UP), min_size=1).map("".join)
).filter(lambda text: bool(text.strip()))


@pytest.mark.parametrize("way", ["read", "recover"])
def test_every_reader_finds_nasty_text_as_typed(way: str) -> None:
    document = DxfDocument(10)
    for row, text in enumerate(NASTY):
        document.model.text("text", (0, 40 * row), text, 25)
    shown = [plain_text(entity.dxf.text) for entity in read(document.to_bytes(), way).modelspace()]
    assert shown == NASTY


@settings(max_examples=25, deadline=None)
@given(st.lists(LINES, min_size=1, max_size=20), st.sampled_from(["read", "recover"]))
def test_any_line_of_text_is_found_as_typed(texts: list[str], way: str) -> None:
    document = DxfDocument(10)
    for text in texts:
        document.model.text("text", (0, 0), text, 25)
    shown = [plain_text(entity.dxf.text) for entity in read(document.to_bytes(), way).modelspace()]
    assert shown == texts


def test_line_ends_and_tabulators_in_text_become_blanks() -> None:
    assert line_of_text("one\ntwo\tthree\x1ffour\u2028five") == "one two three four five"


def test_half_a_character_does_not_stop_the_writer() -> None:
    assert line_of_text("bad \ud800 half") == "bad \ufffd half"


def test_text_stands_where_it_was_put() -> None:
    document = DxfDocument(10)
    for align in ("left", "centre", "right"):
        document.model.text("text", (100, 200), "600", 25, align=align, angle=90)
    left, centre, right = found(read(document.to_bytes()).modelspace(), "TEXT")
    assert (left.dxf.halign, centre.dxf.halign, right.dxf.halign) == (0, 1, 2)  # DXF reference, group 72
    assert left.dxf.insert == (100, 200, 0)
    assert centre.dxf.align_point == right.dxf.align_point == (100, 200, 0)
    assert {(e.dxf.valign, e.dxf.height, e.dxf.rotation) for e in (left, centre, right)} == {(0, 25, 90)}
    assert left.dxf.style == "CHASEWRIGHT"


def test_text_without_letters_is_not_written() -> None:
    document = DxfDocument(10)
    document.model.line("wall", (0, 0), (1, 0))
    document.model.text("text", (0, 0), " \n ", 25)
    assert not found(read(document.to_bytes()).modelspace(), "TEXT")


@settings(max_examples=200, deadline=None)
@given(LINES)
def test_dimension_text_is_shown_as_typed(text: str) -> None:
    shown = dimension_text(text, -1)  # no text is the number -1
    assert "<>" not in shown
    assert plain_mtext(shown) == text
