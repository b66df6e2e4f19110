import math
from collections import Counter
from itertools import pairwise
from typing import Any, TypedDict

import pytest
import shapely
from hypothesis import given
from hypothesis import strategies as st

from export.sheets.pages import BAR, Layout, Page, split
from export.sheets.paper import SIZES, paper
from geometry.model import XY

A4 = paper("A4")
ROUNDING = 1e-6  # mm

# Marks as a wall has them: boxes and long chases, in tenths of a millimetre, also beyond the wall's corner.
places = st.integers(-5000, 30000).map(lambda tenths: tenths / 10)
sizes = st.integers(10, 12000).map(lambda tenths: tenths / 10)
boxes = st.builds(lambda x, y, w, h: shapely.box(x, y, x + w, y + h), places, places, sizes, sizes)
chases = st.builds(
    lambda x, y, length, level: shapely.box(x, y, *((x + length, y + 39) if level else (x + 39, y + length))),
    places, places, sizes, st.booleans(),
)  # fmt: skip
marks = st.lists(boxes | chases, min_size=1, max_size=5).map(shapely.union_all)
stretches = st.sampled_from([(1.0, 1.0), (0.995, 1.004), (1.1, 0.9)])
papers = st.sampled_from(["A4", "A3", "A2", "A1", "A0"])


class Chosen(TypedDict):
    margin: float
    overlap: float
    stretch: XY


settings: st.SearchStrategy[Any] = st.fixed_dictionaries(
    {
        "margin": st.sampled_from([0.0, 6.35, 10.0, 25.0]),
        "overlap": st.sampled_from([0.0, 10.0, 30.0]),
        "stretch": stretches,
    }
)


def split_a4(marked: shapely.Geometry, *, centres: tuple[XY, ...] = ()) -> Layout:
    return split(marked, A4, margin=10, overlap=10, centres=centres)


def by_name(layout: Layout) -> dict[str, Page]:
    return {page.name: page for page in layout.pages}


# sizes, by hand


def test_a4_with_a_margin_of_10_prints_173_by_256() -> None:
    # 210 - 2 x 10 - 11 - 6 = 173 and 297 - 2 x 10 - 15 - 6 = 256, of margin and edge strips
    layout = split_a4(shapely.box(0, 0, 50, 100))
    assert layout.paper == A4
    assert layout.size == (173, 256)
    assert layout.origin == (10 + 11, 10 + 15)


def test_a_wide_mark_takes_one_page_on_its_side_rather_than_two_upright() -> None:
    # 240 and room of 6 each side is 252: more than the 173 of an upright page, less than 297 - 20 - 17 = 260
    layout = split_a4(shapely.box(0, 0, 240, 30))
    assert (layout.paper.width, layout.paper.height) == (297, 210)
    assert len(layout.pages) == 1


def test_a_tall_mark_takes_one_page_upright_rather_than_two_on_its_side() -> None:
    layout = split_a4(shapely.box(0, 0, 30, 240))  # 252 of 256
    assert (layout.paper.width, layout.paper.height) == (210, 297)
    assert len(layout.pages) == 1


def test_a_chase_of_1000_takes_five_pages() -> None:
    # 1000 + 12 = 1012. Upright: 256 + 3 x 246 = 994 is too little for four.
    layout = split_a4(shapely.box(0, 0, 39, 1000))
    assert [page.name for page in layout.pages] == ["A1", "B1", "C1", "D1", "E1"]


def test_rows_count_down_from_the_top_and_columns_from_the_left() -> None:
    layout = split_a4(shapely.box(0, 0, 300, 450))
    pages = by_name(layout)
    assert set(pages) == {"A1", "A2", "B1", "B2"}
    assert pages["A1"].window[1] > pages["B1"].window[1]
    assert pages["A1"].window[0] < pages["A2"].window[0]
    assert (pages["B2"].left, pages["B2"].right, pages["B2"].below, pages["B2"].above) == (
        "B1", None, None, "A2",
    )  # fmt: skip


def test_the_row_after_z_is_aa() -> None:
    # 27 rows: 27 x 246 + 10 = 6652 > 6500 + 12 > 26 x 246 + 10 = 6406
    layout = split_a4(shapely.box(0, 0, 39, 6500))
    assert [page.name for page in layout.pages][-2:] == ["Z1", "AA1"]


def test_pages_without_marks_are_left_out() -> None:
    layout = split_a4(shapely.union(shapely.box(0, 0, 30, 30), shapely.box(0, 1500, 30, 1530)))
    assert len(layout.pages) == 2
    assert all(page.below is None and page.above is None for page in layout.pages)
    assert all(not page.crosses for page in layout.pages)


def test_nothing_marked_needs_no_page() -> None:
    assert split_a4(shapely.Polygon()).pages == ()


def test_the_centre_of_a_hole_is_kept_off_the_join() -> None:
    # 412 of 502 mm: with the slack shared out the join would lie in the middle, right through the hole.
    marked = shapely.box(0, 0, 39, 400)
    unaware, aware = split_a4(marked), split_a4(marked, centres=((19.5, 200),))
    assert unaware.pages[0].cell[1] == pytest.approx(200)
    assert abs(aware.pages[0].cell[1] - 200) >= 12
    assert len(aware.pages) == len(unaware.pages) == 2


# what goes wrong


def test_paper_without_room_for_the_bars_is_refused_by_name() -> None:
    # 148 - 2 x 30 = 88 mm across, 210 - 60 = 150; on its side 148 - 60 - 15 = 73 mm up
    with pytest.raises(ValueError, match=r"A5 with a margin of 30 mm .* larger paper or a smaller margin"):
        split(shapely.box(0, 0, 10, 10), paper("A5"), margin=30, overlap=0)


def test_a_stretch_that_no_longer_leaves_room_for_the_bars_is_refused() -> None:
    # 148 - 2 x 21 = 106 mm: 100 + 2 x 2 fit, 110 + 2 x 2 do not; on its side 148 - 42 - 15 = 91 mm up
    marked, a5 = shapely.box(0, 0, 10, 10), paper("A5")
    assert split(marked, a5, margin=21, overlap=0).pages
    with pytest.raises(ValueError, match="A5"):
        split(marked, a5, margin=21, overlap=0, stretch=(1.1, 1.0))


def test_more_than_400_pages_are_refused_with_the_way_out() -> None:
    wall = shapely.box(0, 0, 10000, 3000)
    with pytest.raises(ValueError, match=r"would take \d+ pages of A4, more than 400: choose larger paper"):
        split_a4(wall)
    assert split(wall, paper("A1"), margin=10, overlap=10).pages


# for any marks


@given(marks, papers, settings)
def test_everything_marked_is_printed_and_seen(marked: shapely.Geometry, name: str, chosen: Chosen) -> None:
    layout = split(marked, paper(name), **chosen)
    printed = shapely.union_all([shapely.box(*page.window) for page in layout.pages])
    seen = shapely.union_all([shapely.box(*page.cell) for page in layout.pages])
    assert shapely.difference(marked, printed.buffer(ROUNDING)).is_empty
    assert shapely.difference(marked, seen.buffer(ROUNDING)).is_empty


@given(marks, papers, settings)
def test_every_page_is_marked_and_printed_whole(marked: shapely.Geometry, name: str, chosen: Chosen) -> None:
    layout = split(marked, paper(name), **chosen)
    (x, y), (wide, high) = layout.origin, layout.size
    assert x >= chosen["margin"]
    assert y >= chosen["margin"]
    assert x + wide <= layout.paper.width - chosen["margin"]
    assert y + high <= layout.paper.height - chosen["margin"]
    for page in layout.pages:
        assert shapely.intersects(marked, shapely.box(*page.cell).buffer(ROUNDING))
        assert layout.on_paper(page, page.window[:2]) == pytest.approx((x, y))
        assert layout.on_paper(page, page.window[2:]) == pytest.approx((x + wide, y + high))


@given(marks, papers, settings)
def test_neighbours_name_each_other_and_repeat_the_overlap(
    marked: shapely.Geometry, name: str, chosen: Chosen
) -> None:
    layout = split(marked, paper(name), **chosen)
    pages = by_name(layout)
    assert len(pages) == len(layout.pages)
    for page in layout.pages:
        if page.right:
            other = pages[page.right]
            assert other.left == page.name
            assert (page.window[2] - other.window[0]) * chosen["stretch"][0] == pytest.approx(
                chosen["overlap"], abs=ROUNDING
            )
            assert page.cell[2] == other.cell[0]
        if page.below:
            other = pages[page.below]
            assert other.above == page.name
            assert (other.window[3] - page.window[1]) * chosen["stretch"][1] == pytest.approx(
                chosen["overlap"], abs=ROUNDING
            )
            assert page.cell[1] == other.cell[3]
        assert page.left or page.cell[0] == page.window[0]
        assert page.above or page.cell[3] == page.window[3]


@given(marks, papers, settings)
def test_each_join_has_two_crosses_or_more_at_the_same_places_on_both_pages(
    marked: shapely.Geometry, name: str, chosen: Chosen
) -> None:
    layout = split(marked, paper(name), **chosen)
    pages = by_name(layout)
    crosses = Counter(cross for page in layout.pages for cross in page.crosses)
    assert set(crosses.values()) <= {2}
    for cross in crosses:
        joined = cross.label.split()[0].split("|")
        assert all(cross in pages[side].crosses for side in joined)
        x0, y0, x1, y1 = pages[joined[0]].cell
        on_join = (cross.at[0], y1 if pages[joined[0]].above == joined[1] else y0)
        if cross.upright:
            on_join = (x1, cross.at[1])
            assert y0 < cross.at[1] < y1
        else:
            assert x0 < cross.at[0] < x1
        assert cross.at == on_join
    joins = sum(bool(page.right) + bool(page.below) for page in layout.pages)
    assert len({cross.label for cross in crosses}) >= 2 * joins


@given(marks, settings)
def test_the_better_way_up_is_taken(marked: shapely.Geometry, chosen: Chosen) -> None:
    x0, y0, x1, y1 = shapely.bounds(marked).tolist()
    margin, overlap, stretch = chosen["margin"], chosen["overlap"], chosen["stretch"]
    most = []
    for width, height in ((210, 297), (297, 210)):
        # Strips of 11 + 6 across and 15 + 6 up; room of 6 on each side of what is marked.
        wide, high = width - 2 * margin - 17, height - 2 * margin - 21
        columns = math.ceil(max((x1 - x0 + 12) * stretch[0] - overlap, 1) / (wide - overlap))
        rows = math.ceil(max((y1 - y0 + 12) * stretch[1] - overlap, 1) / (high - overlap))
        if width - 2 * margin >= 100 * stretch[0] + 4 and height - 2 * margin - 15 >= 100 * stretch[1] + 4:
            most.append(columns * rows)
    assert len(split(marked, A4, **chosen).pages) <= min(most)


@given(st.sampled_from(sorted(SIZES)))
def test_larger_paper_never_takes_more_pages_for_a_wall_without_gaps(name: str) -> None:
    wall = shapely.box(0, 0, 900, 2400)
    order = sorted(SIZES, reverse=True)
    counts = [len(split(wall, paper(size), margin=10, overlap=10).pages) for size in order]
    assert all(fewer <= more for more, fewer in pairwise(counts))
    assert counts[order.index(name)] >= 1


def test_register_crosses_stand_clear_of_marks_where_there_is_room() -> None:
    chase = shapely.box(-20, 0, 20, 900)
    for page in split_a4(chase).pages:
        for cross in page.crosses:
            assert shapely.distance(shapely.Point(cross.at), chase) >= 10


def test_the_bar_is_100_mm() -> None:
    assert BAR == 100
