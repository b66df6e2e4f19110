"""Cut list, order list, first fix and as-fitted record: legible, complete, and one piece under one name."""

import csv
import io

import pytest

from export.csv import csv_bytes, order_csv
from export.pack import SHEETS, LayOut
from export.recorded import RecordedDocument
from export.sheets.as_fitted import as_fitted_sheet
from export.sheets.cut_list import cut_list_sheet
from export.sheets.first_fix import first_fix_sheet
from export.sheets.options import SheetOptions
from export.sheets.order_list import order_sheet
from geometry.pipework.cut_list import pieces
from geometry.plan import Plan
from geometry.quantities.order import order
from tests.export.jobs import crowded, planned, sample, usual
from tests.export.measured import assert_legible, laid_out, words
from tests.samples import SAMPLES

MAKERS: tuple[LayOut, ...] = (cut_list_sheet, order_sheet, first_fix_sheet, as_fitted_sheet)


def record(sheet: LayOut, plan: Plan, size: str = "A4") -> RecordedDocument:
    return laid_out(sheet, plan, (), SheetOptions(paper=size))


def texts(pages: RecordedDocument) -> list[str]:
    return [text.text for page in pages.pages for text in words(page)]


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("size", ["A4", "A3"])
@pytest.mark.parametrize("maker", MAKERS)
def test_samples_are_legible(name: str, size: str, maker: LayOut) -> None:
    assert_legible(record(maker, sample(name), size))


@pytest.mark.parametrize("name", SAMPLES)
def test_every_piece_stands_in_the_table_and_on_the_small_elevation(name: str) -> None:
    plan = sample(name)
    said = texts(record(cut_list_sheet, plan))
    for piece in pieces(plan):
        assert said.count(piece.name) >= 2, piece.name


def test_a_crowded_wall_takes_more_sheets() -> None:
    assert len(record(cut_list_sheet, crowded(4, 6000)).pages) > 1
    assert len(record(as_fitted_sheet, crowded(4, 6000)).pages) > 1


@pytest.mark.parametrize("maker", MAKERS)
def test_a_job_without_pipes_has_its_page(maker: LayOut) -> None:
    bare = planned(usual().job.but(pipes=(), hoses=(), fittings=()))
    assert len(record(maker, bare).pages) >= 1


def test_commissioning_begins_on_a_page_of_its_own() -> None:
    pages = record(first_fix_sheet, usual()).pages
    begins = [
        index for index, page in enumerate(pages)
        for text in words(page) if text.text == "Commissioning, at second fix"
    ]  # fmt: skip
    assert len(begins) == 1
    assert "First fix" not in [text.text for text in words(pages[begins[0]])]


def test_metal_pipes_are_tested_at_one_and_a_half_times_what_stands() -> None:
    # nothing measured: 3 bar assumed, x 1.5 = 4.5; EN 806-4 1.1 x 1.5 = 1.65 x, 4.95
    plan = planned(usual().job.but(supply=None))
    said = " ".join(texts(record(first_fix_sheet, plan)))
    assert "Pump to 4.5 bar" in said
    assert "Pump to 5 bar" in said  # upwards, to a tenth
    assert "3 bar at rest that was assumed: measure" in said


def test_readings_stand_beside_what_was_worked_out() -> None:
    said = " ".join(texts(record(first_fix_sheet, sample("corner-1200x800"))))
    assert "Flow at foot-spout, l/min about 15" in said
    assert "about" not in " ".join(texts(record(first_fix_sheet, usual()))).partition("Flow at")[2]


def test_plastic_pipes_have_tests_of_their_own() -> None:
    said = texts(record(first_fix_sheet, sample("bath-stud-wall")))
    assert "With plastic, test A" in said
    assert "Metal pipes" not in said


def test_the_record_counts_from_the_left_corner_and_the_floor() -> None:
    said = texts(record(as_fitted_sheet, usual()))
    assert "335, 0 to 335, 960" in said
    # 5 under the bare face and half of 23: 16.5, and a finish of 14
    assert "30.5" in said


# CSV


def test_the_list_reads_back_as_it_was() -> None:
    items = order(usual())
    read = list(csv.reader(io.StringIO(order_csv(items).decode("utf-8-sig"))))
    assert read[0] == ["Group", "Item", "Amount", "Unit", "Note"]
    assert [row[1] for row in read[1:]] == [item.what for item in items]
    assert [float(row[2]) for row in read[1:]] == [item.amount for item in items]


def test_a_text_that_looks_like_a_sum_stays_a_text() -> None:
    assert csv_bytes(("a",), [("=1+1",)]).decode("utf-8-sig").splitlines()[1] == "'=1+1"


@pytest.mark.parametrize("name", ["cut-list", "order", "order-csv", "first-fix", "as-fitted"])
def test_the_pack_makes_the_same_bytes_twice(name: str) -> None:
    make = SHEETS[name][1]
    assert make(usual(), (), SheetOptions()) == make(usual(), (), SheetOptions())


def test_only_copper_that_is_soldered_is_made_up_with_a_flame() -> None:
    assert "soldered" in " ".join(texts(record(first_fix_sheet, usual())))
    assert "soldered" not in " ".join(texts(record(first_fix_sheet, sample("bath-stud-wall"))))
