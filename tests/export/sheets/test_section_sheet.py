"""The section sheet: a section for all that sits in the wall, at a large scale, legible."""

import io

import pdfplumber
import pytest

import export.sheets.section
from export.sheets.frame import frame_box, title_box
from export.sheets.options import SheetOptions
from export.sheets.paper import paper
from export.sheets.section import section_sheet
from geometry.checks.runner import check
from geometry.model import Finish, FinishArea, Layer
from geometry.plan import Plan
from tests.export.jobs import crowded, planned, sample, usual
from tests.export.measured import RecordedPages, touching, words
from tests.samples import SAMPLES


def recorded(plan: Plan, options: SheetOptions, monkeypatch: pytest.MonkeyPatch) -> RecordedPages:
    made: list[RecordedPages] = []

    def document(**about: str) -> RecordedPages:
        made.append(RecordedPages(**about))
        return made[-1]

    monkeypatch.setattr(export.sheets.section, "PdfDocument", document)
    section_sheet(plan, check(plan), options)
    return made[0]


def texts(pages: RecordedPages) -> list[str]:
    return [text.text for page in pages.pages for text in words(page)]


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("size", ["A4", "A3"])
def test_samples_are_legible(name: str, size: str, monkeypatch: pytest.MonkeyPatch) -> None:
    sheet = paper(size)
    for page in recorded(sample(name), SheetOptions(paper=size), monkeypatch).pages:
        found = words(page)
        assert touching(found, slack=1e-4) == []
        left, low, right, top = frame_box(sheet)
        block = title_box(sheet)
        for text in found:
            x0, y0, x1, y1 = text.bounds
            assert left <= x0 <= x1 <= right, text
            assert low <= y0 <= y1 <= top, text
            assert y0 >= block[3] or (y1 <= block[3] and x0 >= block[0]), text


def test_the_valve_comes_first_at_1_to_2_on_a4(monkeypatch: pytest.MonkeyPatch) -> None:
    pages = recorded(usual(), SheetOptions(), monkeypatch)
    first = [text.text for text in words(pages.pages[0])]
    assert "valve: Concealed valve, two outlets, round plate" in first
    assert "1:2" in first
    assert pages.names[0] == "Wall section: valve"


def test_everything_that_sits_in_the_wall_has_its_section(monkeypatch: pytest.MonkeyPatch) -> None:
    plan = crowded(2, 3000)
    found = texts(recorded(plan, SheetOptions(), monkeypatch))
    for fitting in plan.job.fittings:
        titled = any(text.startswith(f"{fitting.id}: ") for text in found)
        assert titled == (not fitting.id.startswith("rail"))


def test_the_depth_to_cut_is_said_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    # 60 - 13 = 47 and 85 - 15 = 70 behind the bare face, see the part and the finish of the usual job
    assert "Cut 58 deep into the bare wall; 47 to 70 will do." in texts(
        recorded(usual(), SheetOptions(), monkeypatch)
    )


def test_a_depth_outside_its_range_is_a_caution(monkeypatch: pytest.MonkeyPatch) -> None:
    pages = recorded(sample("planted-faults"), SheetOptions(), monkeypatch)
    cautions = [stroke.values["text"] for stroke in pages.pages[0].on("caution")]
    assert any("but it needs 47 to 70" in text for text in cautions)
    assert any(text.startswith("Clash: ") for text in cautions)


def test_a_finish_for_which_no_depth_fits_is_a_caution(monkeypatch: pytest.MonkeyPatch) -> None:
    plan = usual()
    # 60 - (20 - 20) = 60 at least and 85 - (20 + 20) = 45 at most
    wild = Finish(
        areas=(FinishArea(id="wall", layers=(Layer(kind="plaster", thickness=20.0, tolerance=20.0),)),)
    )
    pages = recorded(planned(plan.job.but(finish=wild)), SheetOptions(), monkeypatch)
    assert "No depth of recess suits this finish." in texts(pages)


def test_a_large_scale_that_is_asked_for_is_taken_or_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "1:5" in texts(recorded(usual(), SheetOptions(scale=5), monkeypatch))
    with pytest.raises(ValueError, match=r"^the section of valve does not fit A4 at 1:1: 1:2 would do$"):
        section_sheet(usual(), (), SheetOptions(scale=1))


def test_the_scale_of_the_elevation_is_not_that_of_the_section(monkeypatch: pytest.MonkeyPatch) -> None:
    assert "1:2" in texts(recorded(usual(), SheetOptions(scale=20), monkeypatch))


def test_a_job_with_nothing_in_the_wall_still_gives_a_sheet(monkeypatch: pytest.MonkeyPatch) -> None:
    bare = planned(usual().job.but(fittings=(), hoses=(), pipes=()))
    pages = recorded(bare, SheetOptions(), monkeypatch)
    assert len(pages.pages) == 1
    assert "Nothing of this job sits in the wall." in texts(pages)


def test_equal_jobs_give_equal_files_that_read_back() -> None:
    first, second = (section_sheet(usual(), (), SheetOptions()) for _ in range(2))
    assert first == second
    with pdfplumber.open(io.BytesIO(first)) as document:
        assert "Cut 58 deep into the bare wall" in document.pages[0].extract_text()
        assert len(document.pages) == 3
