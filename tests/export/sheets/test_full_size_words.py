"""What each full-size page says: its name, its neighbours, its distances, and what to beware of."""

import re

import pytest

from export.sheets.full_size import full_size_sheet
from export.sheets.options import SheetOptions
from geometry.finding import Finding
from geometry.model import Cable
from tests.export.jobs import planned
from tests.export.measured import as_pdf
from tests.export.sheets.full_size_reader import alcove, read, sheet, texts
from tests.samples import SAMPLES

CLASH = Finding(rule="head.rail", status="clash", parts=("head", "rail"), message="the head meets the rail")


# names


@pytest.mark.parametrize("name", SAMPLES)
def test_every_page_has_its_own_name_and_its_number_of_the_set(name: str) -> None:
    pages = sheet(name)
    names = [page.name for page in pages]
    assert len(set(names)) == len(names)
    for number, page in enumerate(pages[1:], 2):
        assert f"page {page.name}, sheet {number} of {len(pages)}" in page.text


@pytest.mark.parametrize("name", SAMPLES)
def test_the_map_names_every_page(name: str) -> None:
    pages = sheet(name)
    words = set(pages[0].text.split())
    assert {page.name for page in pages[1:]} <= words


@pytest.mark.parametrize("name", SAMPLES)
def test_neighbours_are_named_on_each_edge(name: str) -> None:
    for page in sheet(name)[1:]:
        joined = {side for label in page.crosses for side in label.split()[0].split("|")} - {page.name}
        row = re.match("[A-Z]+", page.name)
        assert row
        beside = {side for side in joined if re.match("[A-Z]+", side) == row or side.startswith(row.group())}
        assert set(re.findall(r"joins ([A-Z]+\d+)", page.text)) == joined - beside
        assert set(re.findall(r"joins ([A-Z]+\d+)", page.sideways)) == beside
        edges = len(re.findall(r"joins|no page", page.text)), len(re.findall(r"joins|no page", page.sideways))
        assert edges == (2, 2)


# distances


@pytest.mark.parametrize("name", SAMPLES)
def test_every_page_has_a_level_and_a_plumb_line_with_its_distance(name: str) -> None:
    for page in sheet(name)[1:]:
        words = " ".join(f"{page.text} {page.sideways}".split())
        assert re.search(r"\d (up|above|below)|floor: level, 0|floor, 0", words), page.name
        assert re.search(r"\d from|edge: plumb, 0|edge, 0", words), page.name


# warnings


def test_the_words_of_the_map_say_how_to_print_to_join_and_what_to_beware_of() -> None:
    text = " ".join(sheet("alcove")[0].text.split())
    for words in (
        "100 %",
        "no fit to page",
        "100 mm",
        "cross on cross",
        "left edge of the tray",
        "detector",
        "FFP3",
    ):
        assert words in text


def test_clashes_stand_on_every_page_and_are_named_on_the_map() -> None:
    first, *others = texts(as_pdf(full_size_sheet, planned(alcove()), (CLASH,), SheetOptions()))
    assert "the head meets the rail" in " ".join(first.split())
    assert all("1 CLASH: see the map" in text for text in others)
    first, *others = texts(as_pdf(full_size_sheet, planned(alcove()), (CLASH,) * 7, SheetOptions()))
    assert "And 4 more: see the findings." in " ".join(first.split())
    assert all("7 CLASHES: see the map" in text for text in others)


def test_warnings_stand_on_the_smallest_paper_too() -> None:
    options = SheetOptions(paper="A5", stretch_y=0.95)
    for text in texts(as_pdf(full_size_sheet, planned(alcove()), (CLASH,) * 7, options))[1:]:
        assert "7 CLASHES, STRETCH OVER 3 %" in text


def test_what_lies_in_the_wall_is_named_on_its_pages() -> None:
    cable = Cable(id="lights", route=((320.0, 2000.0), (440.0, 2000.0)))
    named = texts(as_pdf(full_size_sheet, planned(alcove().but(services=(cable,)))))[1:]
    assert sum("CAUTION cable" in text for text in named) == 1


# the title


@pytest.mark.parametrize(
    "title",
    ["<b>Bold</b> & <i>", r"%%c \P {x}", "Łazienka – Gęśla", "(unbalanced", "x" * 300, "", "a\tb\nc"],
)
def test_a_title_appears_as_typed(title: str) -> None:
    for text in texts(as_pdf(full_size_sheet, planned(alcove(title)))):
        assert " ".join(title.split())[:30] in text


def test_a_right_to_left_title_is_in_visual_order() -> None:
    for page in read(as_pdf(full_size_sheet, planned(alcove("שלום")), (), SheetOptions(paper="A2"))):
        assert "םולש" in page.text
