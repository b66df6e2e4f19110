"""The section sheet: a section for all that sits in the wall, at a large scale, legible."""

import io

import pdfplumber
import pytest

from export.recorded import RecordedDocument
from export.sheets.options import SheetOptions
from export.sheets.section import section_sheet
from geometry.checks.runner import check
from geometry.model import Finish, FinishArea, Layer
from geometry.plan import Plan
from tests.export.jobs import crowded, planned, sample, usual
from tests.export.measured import as_pdf, assert_legible, laid_out, words
from tests.samples import SAMPLES


def recorded(plan: Plan, options: SheetOptions) -> RecordedDocument:
    return laid_out(section_sheet, plan, check(plan), options)


def texts(pages: RecordedDocument) -> list[str]:
    return [text.text for page in pages.pages for text in words(page)]


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("size", ["A4", "A3"])
def test_samples_are_legible(name: str, size: str) -> None:
    assert_legible(recorded(sample(name), SheetOptions(paper=size)))


def test_the_valve_comes_first_at_1_to_2_on_a4() -> None:
    pages = recorded(usual(), SheetOptions())
    first = [text.text for text in words(pages.pages[0])]
    assert "valve: Concealed valve, two outlets, round plate" in first
    assert "1:2" in first
    assert pages.pages[0].name == "Wall section: valve"


def test_everything_that_sits_in_the_wall_has_its_section() -> None:
    plan = crowded(2, 3000)
    found = texts(recorded(plan, SheetOptions()))
    for fitting in plan.job.fittings:
        titled = any(text.startswith(f"{fitting.id}: ") for text in found)
        assert titled == (not fitting.id.startswith("rail"))


def test_the_depth_to_cut_is_said_in_words() -> None:
    # 60 - 13 = 47 and 85 - 15 = 70 behind the bare face, see the part and the finish of the usual job
    assert "Cut 58 deep into the bare wall; 47 to 70 will do." in texts(recorded(usual(), SheetOptions()))


def test_a_depth_outside_its_range_is_a_caution() -> None:
    pages = recorded(sample("planted-faults"), SheetOptions())
    cautions = [stroke.values["text"] for stroke in pages.pages[0].on("caution")]
    assert any("but it needs 47 to 70" in text for text in cautions)
    assert any(text.startswith("Clash: ") for text in cautions)


def test_a_finish_for_which_no_depth_fits_is_a_caution() -> None:
    plan = usual()
    # 60 - (20 - 20) = 60 at least and 85 - (20 + 20) = 45 at most
    wild = Finish(
        areas=(FinishArea(id="wall", layers=(Layer(kind="plaster", thickness=20.0, tolerance=20.0),)),)
    )
    pages = recorded(planned(plan.job.but(finish=wild)), SheetOptions())
    assert "No depth of recess suits this finish." in texts(pages)


def test_a_large_scale_that_is_asked_for_is_taken_or_refused() -> None:
    assert "1:5" in texts(recorded(usual(), SheetOptions(scale=5)))
    with pytest.raises(ValueError, match=r"^the section of valve does not fit A4 at 1:1: 1:2 would do$"):
        as_pdf(section_sheet, usual(), (), SheetOptions(scale=1))


def test_the_scale_of_the_elevation_is_not_that_of_the_section() -> None:
    assert "1:2" in texts(recorded(usual(), SheetOptions(scale=20)))


def test_a_job_with_nothing_in_the_wall_still_gives_a_sheet() -> None:
    bare = planned(usual().job.but(fittings=(), hoses=(), pipes=()))
    pages = recorded(bare, SheetOptions())
    assert len(pages.pages) == 1
    assert "Nothing of this job sits in the wall." in texts(pages)


def test_equal_jobs_give_equal_files_that_read_back() -> None:
    first, second = (as_pdf(section_sheet, usual()) for _ in range(2))
    assert first == second
    with pdfplumber.open(io.BytesIO(first)) as document:
        assert "Cut 58 deep into the bare wall" in document.pages[0].extract_text()
        assert len(document.pages) == 3
