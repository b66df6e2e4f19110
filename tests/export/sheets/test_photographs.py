"""Photographs in the as-fitted record: as large as fits, upright, undistorted, under their names."""

import io

import pdfplumber
import pytest

from export.picture import read_picture
from export.recorder import Stroke
from export.sheets.as_fitted import as_fitted_sheet
from export.sheets.frame import inside
from export.sheets.options import Pictures, SheetOptions
from export.sheets.paper import paper
from export.text import text_box
from geometry.model import Photograph, Pipework
from geometry.plan import Plan
from tests.export.jobs import planned, usual
from tests.export.measured import as_pdf, laid_out
from tests.export.photographs import photograph

WIDE = read_picture(photograph(400, 300))
HIGH = read_picture(photograph(400, 300, 6))


def job_with(*photographs: Photograph) -> Plan:
    return planned(usual().job.but(pipework=Pipework(photographs=photographs)))


def named(*files: str) -> Plan:
    return job_with(*(Photograph(file=file) for file in files))


def pictures_by_page(plan: Plan, pictures: Pictures, size: str = "A4") -> list[list[Stroke]]:
    document = laid_out(as_fitted_sheet, plan, (), SheetOptions(paper=size, pictures=pictures))
    return [[stroke for stroke in page.strokes if stroke.verb == "picture"] for page in document.pages]


def texts(plan: Plan, pictures: Pictures) -> list[str]:
    document = laid_out(as_fitted_sheet, plan, (), SheetOptions(pictures=pictures))
    return [one.values["text"] for page in document.pages for one in page.strokes if one.verb == "text"]


def test_pictures_stand_in_the_pdf_with_their_proportions_and_captions() -> None:
    plan = job_with(Photograph(file="wide.jpg", shows="valve, before boarding"), Photograph(file="high.jpg"))
    data = as_pdf(as_fitted_sheet, plan, (), SheetOptions(pictures={"wide.jpg": WIDE, "high.jpg": HIGH}))
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        *_, first, second = pdf.pages
        for page, proportion, caption in (
            (first, 400 / 300, "wide.jpg: valve, before boarding"),
            (second, 300 / 400, "high.jpg"),
        ):
            (image,) = page.images
            assert image["width"] / image["height"] == pytest.approx(proportion, rel=0.001)
            under = page.crop((image["x0"], image["bottom"], page.width, image["bottom"] + 15)).extract_text()
            assert under == caption
        many = len(pdf.pages)
        assert f"{many} / {many}" in second.extract_text()  # in the title block
        # the free room of A4, 170 mm wide: the wide picture alone on its page takes it all
        (image,) = first.images
        assert image["width"] * 25.4 / 72 == pytest.approx(170, abs=0.1)


def test_two_wide_pictures_share_a_page_and_a_high_one_has_its_own() -> None:
    held = {"a": WIDE, "b": HIGH, "c": WIDE, "d": WIDE, "e": WIDE}
    counts = [len(page) for page in pictures_by_page(named(*held), held)]
    assert [count for count in counts if count] == [1, 1, 2, 1]


@pytest.mark.parametrize("size", ["A5", "A4", "A0"])
def test_pictures_and_captions_keep_within_their_rooms(size: str) -> None:
    # the widest letter, as often as a file's name and its description may have it: 200 and 300 times
    files = [letter + "W" * 199 for letter in "abc"]
    plan = job_with(*(Photograph(file=file, shows="W" * 300) for file in files))
    options = SheetOptions(paper=size, pictures=dict(zip(files, (WIDE, WIDE, HIGH), strict=True)))
    left, low, right, top = inside(paper(size))
    for page in laid_out(as_fitted_sheet, plan, (), options).pages[-2:]:
        boxes = [stroke.values["box"] for stroke in page.strokes if stroke.verb == "picture"]
        assert boxes
        for stroke in page.on("text"):
            if "WWW" in stroke.values["text"]:
                x, y = stroke.values["at"]
                x0, y0, x1, y1 = text_box(stroke.values["text"], stroke.values["height"])
                boxes.append((x + x0, y + y0, x + x1, y + y1))
        for index, (x0, y0, x1, y1) in enumerate(boxes):
            assert left - 0.3 <= x0 < x1 <= right + 0.3
            assert low <= y0 < y1 <= top
            for a0, b0, a1, b1 in boxes[:index]:
                assert x1 <= a0 or a1 <= x0 or y1 <= b0 + 0.01 or b1 <= y0 + 0.01


def test_the_record_says_why_a_picture_is_not_there() -> None:
    plan = job_with(
        Photograph(file="wall.jpg", shows="before boarding"),
        Photograph(file="lost.jpg"),
        Photograph(file="x"),
    )
    held: Pictures = {"wall.jpg": WIDE, "lost.jpg": "not found", "x": "broken or cut short"}
    assert {"wall.jpg", "before boarding", "attached", "not found", "broken or cut short"} <= set(
        texts(plan, held)
    )
    assert sum(len(page) for page in pictures_by_page(plan, held)) == 1


def test_without_pictures_the_photographs_are_only_named() -> None:
    plan = job_with(Photograph(file="wall.jpg", shows="before boarding"))
    assert {"wall.jpg", "before boarding"} <= set(texts(plan, {}))
    assert pictures_by_page(plan, {}) == [[]] * len(pictures_by_page(usual(), {}))


def test_the_sheet_grows_by_the_picture_and_its_page_only() -> None:
    plan = named("a.jpg")
    bare, full = (
        as_pdf(as_fitted_sheet, plan, (), SheetOptions(pictures=held)) for held in ({}, {"a.jpg": WIDE})
    )
    assert len(WIDE.data) < len(full) - len(bare) < len(WIDE.data) + 4000
    assert full == as_pdf(as_fitted_sheet, plan, (), SheetOptions(pictures={"a.jpg": WIDE}))
