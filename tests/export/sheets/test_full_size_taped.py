"""Taped together, the full-size pages lie where the model has everything, and agree with each other."""

import re
from itertools import combinations

import pytest
import shapely

from export.drawings.marks import points
from export.sheets.full_size import full_size_sheet
from export.sheets.options import SheetOptions
from geometry.model import XY
from tests.export.jobs import planned
from tests.export.measured import as_pdf
from tests.export.sheets.full_size_reader import CLOSE, Read, alcove, read, sheet
from tests.export.sheets.taped import anchor, taped
from tests.samples import SAMPLES, sample_job


@pytest.mark.parametrize(
    ("name", "paper"), [(name, "A4") for name in SAMPLES] + [("alcove", "A3"), ("alcove", "A2")]
)
def test_taped_together_every_hole_and_corner_lies_where_the_model_has_it(name: str, paper: str) -> None:
    # The sheets are joined by their printed crosses only, and put on the wall by a hole with its words.
    plan = planned(alcove() if name == "alcove" else sample_job(name))
    pages = {page.name: page for page in sheet(name, paper)[1:]}
    found: list[XY] = []
    for group in taped(list(pages.values())):
        dx, dy = anchor(plan, [(pages[page], at) for page, at in group.items()])
        for page, (x, y) in group.items():
            places = [end for segment in pages[page].segments for end in segment]
            places += [at for at, _ in pages[page].hole_crosses()]
            found += [(px + x + dx, py + y + dy) for px, py in places]
    everything = shapely.STRtree(shapely.points(found))
    for at in points(plan):
        _, distances = everything.query_nearest(shapely.Point(at), return_distance=True)
        assert distances[0] < CLOSE, at


def test_a_level_line_lies_as_far_above_the_tray_floor_as_it_says() -> None:
    plan, pages = planned(alcove()), {page.name: page for page in sheet("alcove")[1:]}
    [group] = taped(list(pages.values()))
    _, dy = anchor(plan, [(pages[name], at) for name, at in group.items()])
    measured = 0
    for name, (_, y) in group.items():
        page = pages[name]
        if not page.hole_crosses():  # whose words would be taken for those of the line
            for said in re.findall(r"(\d+) (?:above tray floor|up)\b", page.text):
                wanted = 30 + float(said) - y - dy  # the finished floor of the tray is at 30
                level = [(a, b) for a, b in page.segments if abs(a[1] - wanted) < CLOSE > abs(b[1] - wanted)]
                assert any(abs(a[0] - b[0]) > 150 for a, b in level), name
                measured += 1
    assert measured >= 5


@pytest.mark.parametrize("overlap", [0.0, 20.0, 40.0])
def test_any_overlap_can_be_taped(overlap: float) -> None:
    data = as_pdf(full_size_sheet, planned(alcove()), (), SheetOptions(overlap=overlap))
    pages = read(data)[1:]
    [group] = taped(pages)
    assert set(group) == {page.name for page in pages}


@pytest.mark.parametrize("name", SAMPLES)
def test_both_pages_of_an_overlap_agree(name: str) -> None:
    pages = {page.name: page for page in sheet(name)[1:]}
    shared = 0
    for one, other in combinations(pages.values(), 2):
        labels = sorted(set(one.crosses) & set(other.crosses))
        if not labels:
            continue
        shared += 1
        assert len(labels) >= 2
        shifts = [
            (one.crosses[label][0] - other.crosses[label][0], one.crosses[label][1] - other.crosses[label][1])
            for label in labels
        ]
        assert all(shift == pytest.approx(shifts[0], abs=0.01) for shift in shifts)
    assert shared >= len(pages) / 2


@pytest.mark.parametrize("name", SAMPLES)
def test_strokes_that_run_over_a_join_meet_on_it(name: str) -> None:
    pages = {page.name: page for page in sheet(name)[1:]}
    met = 0
    for one, other in combinations(pages.values(), 2):
        labels = sorted(set(one.crosses) & set(other.crosses))
        if labels:
            (ax, ay), (bx, by) = one.crosses[labels[0]], other.crosses[labels[0]]
            axis = 0 if ax == pytest.approx(one.crosses[labels[1]][0], abs=0.01) else 1
            here, there = _over(one, axis, (ax, ay)[axis]), _over(other, axis, (bx, by)[axis])
            shift = (bx - ax, by - ay)[1 - axis]
            assert [place + shift for place in here] == pytest.approx(there, abs=CLOSE)
            met += len(here)
    assert met > 0


def _over(page: Read, axis: int, at: float) -> list[float]:
    """Return where strong strokes cross a join at right angles, 4.5 mm or more to both sides of it."""
    low, high = ((21, page.width - 16), (25, page.height - 16))[1 - axis]  # of the window, margin and strips
    return sorted(
        a[1 - axis]
        for a, b in page.strong
        if abs(a[1 - axis] - b[1 - axis]) < 0.01
        and low < a[1 - axis] < high
        and min(a[axis], b[axis]) < at - 4.5
        and max(a[axis], b[axis]) > at + 4.5
    )
