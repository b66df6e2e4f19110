"""The elevation sheet: the largest scale that fits, all inside the frame, nothing on top of anything."""

import io
from itertools import combinations

import pdfplumber
import pytest

from export.recorded import RecordedDocument
from export.sheets.options import SheetOptions
from export.sheets.scaled import elevation_sheet, layout
from export.text import visual
from geometry.checks.runner import check
from geometry.finding import Finding
from geometry.plan import Plan
from tests.export.jobs import AWKWARD, crowded, planned, sample, usual
from tests.export.measured import as_pdf, assert_legible, laid_out, words
from tests.samples import SAMPLES


def recorded(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> RecordedDocument:
    return laid_out(elevation_sheet, plan, findings, options)


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("size", ["A4", "A3", "A1"])
def test_samples_are_legible_on_every_page(name: str, size: str) -> None:
    plan = sample(name)
    assert_legible(recorded(plan, check(plan), SheetOptions(paper=size)))


@pytest.mark.parametrize(("bays", "size"), [(2, "A4"), (6, "A4"), (6, "A3"), (8, "A1")])
def test_crowded_walls_with_awkward_words_are_legible(bays: int, size: str) -> None:
    plan = crowded(bays, 600.0 * bays)
    assert_legible(recorded(plan, check(plan), SheetOptions(paper=size)))


@pytest.mark.parametrize("scale", [20, 25, 50])
def test_a_scale_that_is_asked_for_is_taken(scale: int) -> None:
    pages = recorded(usual(), (), SheetOptions(scale=scale))
    wall = pages.pages[0].on("wall")[0].values["points"]
    # the wall is 760 by 2400
    assert wall[2][0] - wall[0][0] == pytest.approx(760 / scale)
    assert wall[2][1] - wall[0][1] == pytest.approx(2400 / scale)
    assert f"1:{scale}" in [text.text for text in words(pages.pages[0])]


def test_the_largest_usual_scale_that_fits_is_taken() -> None:
    # a wall of 2400 is 240 mm high at 1:10: more than A4 leaves over the title block, less than A3 does
    assert layout(usual(), SheetOptions(paper="A4")).scale == 20
    assert layout(usual(), SheetOptions(paper="A3")).scale == 10
    assert layout(usual(), SheetOptions(paper="A1")).scale == 5


def test_a_scale_that_does_not_fit_says_what_would_do() -> None:
    # 480 mm at 1:5: A3 is 420 high, A2 is 594 and leaves 524 over the title block
    with pytest.raises(ValueError, match=r"^the elevation does not fit A4 at 1:5: A2 or 1:20 would do$"):
        as_pdf(elevation_sheet, usual(), (), SheetOptions(paper="A4", scale=5))


def test_a_paper_that_is_too_small_for_anything_says_what_would_do() -> None:
    with pytest.raises(ValueError, match=r"does not fit A5 at any usual scale: A\d would do$"):
        as_pdf(elevation_sheet, crowded(6, 3600), (), SheetOptions(paper="A5"))


def test_an_unknown_paper_is_refused() -> None:
    with pytest.raises(ValueError, match="no paper is called 'B4'"):
        as_pdf(elevation_sheet, usual(), (), SheetOptions(paper="B4"))


def test_findings_and_cautions_follow_on_sheets_that_are_counted() -> None:
    plan = sample("planted-faults")
    pages = recorded(plan, check(plan), SheetOptions())
    total = len(pages.pages)
    assert total > 1
    for number, page in enumerate(pages.pages, 1):
        assert f"{number} / {total}" in [text.text for text in words(page)]
    everything = [text.text for page in pages.pages for text in words(page)]
    assert everything.count("Findings") == 1
    assert everything.count("Cautions") == 1
    assert "Scalding" in everything


def test_every_numbered_finding_is_in_the_table() -> None:
    plan = crowded(6, 3600)
    findings = check(plan)
    pages = recorded(plan, findings, SheetOptions(paper="A3"))
    everything = [text.text for page in pages.pages for text in words(page)]
    open_ones = sum(finding.status != "clear" for finding in findings)
    assert open_ones > 10
    assert all(str(number) in everything for number in range(1, open_ones + 1))


def test_what_stands_beside_the_drawing_does_not_reach_into_it() -> None:
    for name, size in (("alcove-760", "A4"), ("alcove-760", "A3"), ("corner-1200x800", "A3")):
        plan = sample(name)
        held = layout(plan, SheetOptions(paper=size))
        if held.spare is None:
            continue
        x0, y0, x1, y1 = held.spare
        wall = recorded(plan, (), SheetOptions(paper=size)).pages[0].on("wall")[0].values["points"]
        (left, low), (right, top) = wall[0], wall[2]
        assert x1 <= left or right <= x0 or y1 <= low or top <= y0


# the PDF itself


def read(data: bytes) -> str:
    with pdfplumber.open(io.BytesIO(data)) as document:
        return "\n".join(page.extract_text() for page in document.pages)


def test_what_a_user_typed_reads_back_as_typed() -> None:
    plan = crowded(2, 1800)
    text = read(as_pdf(elevation_sheet, plan, (), SheetOptions(paper="A3")))
    for typed in (r"Łazienka <b>bold</b> & %%c \P", "Ż & Co <i>", "<b>socket & co: socket", "Zażółć gęślą"):
        assert typed in text
    assert visual("מקלחת") in text or "מקלחת" in text
    assert "First note with <b> & ümlauts." in text
    assert "Second note." in text


def test_the_document_names_its_title_and_creator() -> None:
    data = as_pdf(elevation_sheet, crowded(1, 1200))
    with pdfplumber.open(io.BytesIO(data)) as document:
        assert document.metadata["Title"] == AWKWARD.title
        assert document.metadata["Author"] == "Zoë"


def test_the_wall_has_its_true_size_on_paper() -> None:
    with pdfplumber.open(io.BytesIO(as_pdf(elevation_sheet, usual()))) as document:
        rects = [(rect["width"], rect["height"]) for rect in document.pages[0].rects]
    # 760 by 2400 at 1:20 is 38 by 120 mm
    point = 72 / 25.4
    assert any(
        width == pytest.approx(38 * point, abs=0.01) and height == pytest.approx(120 * point, abs=0.01)
        for width, height in rects
    )


def test_equal_jobs_give_equal_files() -> None:
    plan = sample("planted-faults")
    first, second = (
        as_pdf(elevation_sheet, planned(plan.job), check(plan), SheetOptions()) for _ in range(2)
    )
    assert first == second


def test_papers_differ_in_size_not_in_content() -> None:
    plan = sample("alcove-760")
    written = [
        {
            text.text
            for page in recorded(plan, check(plan), SheetOptions(paper=size)).pages
            for text in words(page)
        }
        for size in ("A3", "A2")
    ]
    names = {fitting.id for fitting in plan.job.fittings}
    for one, other in combinations(written, 2):
        assert (
            {text.split(":")[0] for text in one} & names
            == {text.split(":")[0] for text in other} & names
            == names
        )
