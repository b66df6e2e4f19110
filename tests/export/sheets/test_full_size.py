"""The set of full-size pages: paper, margins, how many, equal bytes."""

import pytest

from export.sheets.full_size import full_size_sheet
from export.sheets.options import SheetOptions
from geometry.model import Enclosure, Job, Wall
from tests.export.jobs import planned
from tests.export.measured import as_pdf
from tests.export.sheets.full_size_reader import alcove, read, sheet
from tests.samples import SAMPLES


@pytest.mark.parametrize(("paper", "sizes"), [("A4", {210, 297}), ("A3", {297, 420}), ("A2", {420, 594})])
def test_all_pages_are_of_one_size(paper: str, sizes: set[float]) -> None:
    pages = sheet("alcove", paper)
    assert {(round(page.width, 2), round(page.height, 2)) for page in pages} == {
        (round(pages[0].width, 2), round(pages[0].height, 2))
    }
    assert {round(pages[0].width, 2), round(pages[0].height, 2)} == sizes


@pytest.mark.parametrize("name", SAMPLES)
def test_nothing_is_printed_in_the_margin(name: str) -> None:
    for page in sheet(name):
        assert page.bounds[:, :2].min() >= 10 - 0.01
        assert page.bounds[:, 2].max() <= page.width - 10 + 0.01
        assert page.bounds[:, 3].max() <= page.height - 10 + 0.01


def test_larger_paper_takes_fewer_pages() -> None:
    counts = [len(sheet("alcove", paper)) for paper in ("A4", "A3", "A2")]
    assert counts == sorted(counts, reverse=True)
    assert len(set(counts)) == 3


def test_too_many_pages_are_refused() -> None:
    job = alcove()
    # Each row of 19 m is 110 windows of 173 mm, or 73 of 260; two rows of pages hold three of pipe.
    rows = tuple(
        job.pipes[0].but(id=f"hot{i}", route=((19000.0, 200.0 * i), (0.0, 200.0 * i))) for i in range(1, 12)
    )
    with pytest.raises(ValueError, match="more than 400: choose larger paper"):
        as_pdf(full_size_sheet, planned(job.but(pipes=rows)))


def test_a_job_with_nothing_to_mark_is_a_map_alone() -> None:
    job = Job(
        wall=Wall(width=900.0, height=2400.0), enclosure=Enclosure(left=0.0, width=900.0, projection=900.0)
    )
    assert [page.name for page in read(as_pdf(full_size_sheet, planned(job)))] == ["map"]


def test_equal_jobs_give_equal_bytes() -> None:
    assert as_pdf(full_size_sheet, planned(alcove())) == as_pdf(
        full_size_sheet, planned(alcove()), (), SheetOptions()
    )
