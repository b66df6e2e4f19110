"""A millimetre on a full-size page is a millimetre, or as much more as was asked for."""

import io
from itertools import combinations

import numpy as np
import pypdf
import pypdfium2
import pytest

from export.sheets.full_size import full_size_sheet
from export.sheets.options import SheetOptions
from tests.export.jobs import planned
from tests.export.measured import as_pdf
from tests.export.sheets.full_size_reader import alcove, sheet, texts

# true size


@pytest.mark.parametrize("paper", ["A4", "A3", "A2"])
def test_both_bars_of_every_page_are_100_mm(paper: str) -> None:
    for page in sheet("alcove", paper):
        across, up = page.bars()
        assert across == pytest.approx([100], abs=0.02)
        assert up == pytest.approx([100], abs=0.02)


def test_a_page_rendered_at_300_dpi_has_a_bar_of_1181_pixels() -> None:
    # 100 mm / 25.4 x 300 = 1181.1 pixels from the middle of one end stroke to that of the other.
    data = as_pdf(full_size_sheet, planned(alcove()))
    bitmap = pypdfium2.PdfDocument(data)[1].render(scale=300 / 72, grayscale=True)
    pixels = bitmap.to_numpy().squeeze()
    # A row a millimetre above the bar at 12.5 mm from the lower edge crosses only its end strokes.
    row = pixels[-round(13.7 / 25.4 * 300), : round(120 / 25.4 * 300)]
    dark = np.flatnonzero(row < 128)
    breaks = np.flatnonzero(np.diff(dark) > 1) + 1
    strokes = [float(stroke.mean()) for stroke in np.split(dark, breaks)]
    assert len(strokes) == 2
    assert strokes[1] - strokes[0] == pytest.approx(1181.1, abs=1.5)


def test_viewers_are_asked_for_actual_size() -> None:
    reader = pypdf.PdfReader(io.BytesIO(as_pdf(full_size_sheet, planned(alcove()))))
    preferences = reader.root_object["/ViewerPreferences"].get_object()
    assert isinstance(preferences, pypdf.generic.DictionaryObject)
    assert str(preferences["/PrintScaling"]) == "/None"


# stretch


def test_a_stretch_lengthens_bars_and_marks_by_just_that() -> None:
    for page in sheet("alcove", "A4", 0.995, 1.004):
        across, up = page.bars()
        assert across == pytest.approx([99.5], abs=0.02)
        assert up == pytest.approx([100.4], abs=0.02)
    stretched = 0
    for page in sheet("alcove", "A4", 0.995, 1.004)[1:]:
        places = [at for at, _ in page.hole_crosses()]
        for (ax, ay), (bx, by) in combinations(places, 2):
            # On the wall all holes are whole millimetres apart: (dx / 0.995, dy / 1.004) must be.
            dx, dy = (bx - ax) / 0.995, (by - ay) / 1.004
            assert dx == pytest.approx(round(dx), abs=0.005)
            assert dy == pytest.approx(round(dy), abs=0.005)
            stretched += abs(round(dx)) > 40 and abs(round(dy)) > 40
    assert stretched


def test_a_stretch_is_stated_on_every_page() -> None:
    plain, stretched = sheet("alcove"), sheet("alcove", "A4", 0.995, 1.004)
    assert all("stretched x 0.995, y 1.004" in page.text for page in stretched)
    assert not any("stretched" in page.text for page in plain)


@pytest.mark.parametrize(("stretch", "warned"), [(1.03, False), (0.97, False), (1.031, True), (0.96, True)])
def test_a_stretch_of_more_than_3_percent_is_a_wrong_print_setting(stretch: float, warned: bool) -> None:
    data = as_pdf(full_size_sheet, planned(alcove()), (), SheetOptions(stretch_x=stretch))
    assert all(("STRETCH OVER 3 %" in text) == warned for text in texts(data))
