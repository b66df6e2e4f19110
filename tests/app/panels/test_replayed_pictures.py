"""A photograph looks in the window as it does in the PDF: as large, in its place, and as it is turned."""

import pytest

from export.picture import read_picture
from export.sheets.as_fitted import as_fitted_sheet
from export.sheets.options import SheetOptions
from geometry.model import Photograph, Pipework
from tests.app.panels.test_pages import Grey, assert_alike, rendered, replayed
from tests.export.jobs import planned, usual
from tests.export.measured import as_pdf, laid_out
from tests.export.photographs import SIDES, photograph

pytestmark = pytest.mark.usefixtures("qapp")


def both(orientation: int, kind: str = "JPEG", width: int = 600) -> tuple[Grey, Grey]:
    """Return the page of a photograph as replayed and as rendered from the PDF."""
    plan = planned(usual().job.but(pipework=Pipework(photographs=(Photograph(file="wall"),))))
    options = SheetOptions(pictures={"wall": read_picture(photograph(width, 400, orientation, kind))})
    document = laid_out(as_fitted_sheet, plan, (), options)
    data = as_pdf(as_fitted_sheet, plan, (), options)
    last = len(document.pages) - 1
    return replayed(document, last, 50), rendered(data, last, 50)


@pytest.mark.parametrize("orientation", SIDES)
def test_a_photograph_is_replayed_as_in_the_pdf(orientation: int) -> None:
    # the greys of neighbouring quarters are 70 of 255 apart, and half a cell of one is mistaken at most
    assert_alike(*both(orientation), size=20, most=0.1)


def test_one_that_is_turned_otherwise_is_noticed() -> None:
    with pytest.raises(AssertionError):
        assert_alike(both(1)[0], both(3)[1], size=20, most=0.1)


def test_a_png_and_one_finer_than_is_painted_are_replayed_too() -> None:
    assert_alike(*both(6, "PNG"), size=20, most=0.1)
    assert_alike(*both(1, width=5000), size=20, most=0.1)
