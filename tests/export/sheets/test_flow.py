"""Text flows from region to region: nothing is cut, nothing is lost, heads are repeated."""

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from export.pen import Pen
from export.recorder import Recorder
from export.sheets.flow import Block, Section, columns, entry, flow, height_of, paragraph
from tests.export.measured import touching, words

REGION = (0.0, 0.0, 170.0, 100.0)


def block(height: float) -> Block:
    return Block(height, lambda pen, x, y: pen.line("rule", (x, y), (x + 10, y - height)))


def endless(region: tuple[float, float, float, float]) -> list[tuple[float, float, float, float]]:
    return [region] * 200


def test_what_fits_stays_in_one_region() -> None:
    sections = [Section("One", (block(20), block(30)))]
    # heading 3.5 * 2.1 = 7.35
    assert height_of(sections) == 57.35
    laid = flow(sections, [REGION])
    assert [(one.region, round(one.y, 2)) for one in laid] == [(0, 100), (0, 92.65), (0, 72.65)]


def test_a_heading_stays_with_its_first_block() -> None:
    sections = [Section("One", (block(80),)), Section("Two", (block(30),))]
    assert [one.region for one in flow(sections, endless(REGION))] == [0, 0, 1, 1]


def test_the_head_of_a_table_is_repeated_where_it_goes_on() -> None:
    head = block(5)
    laid = flow([Section("Table", tuple(block(40) for _ in range(4)), head)], endless(REGION))
    assert [one.region for one in laid if one.block is head] == [0, 1]


@given(st.lists(st.lists(st.floats(1, 90), min_size=1, max_size=8), min_size=1, max_size=5))
def test_nothing_is_lost_nothing_overlaps_and_nothing_reaches_out(heights: list[list[float]]) -> None:
    sections = [Section(str(i), tuple(map(block, row))) for i, row in enumerate(heights)]
    laid = flow(sections, endless(REGION))
    assert len(laid) == sum(len(row) + 1 for row in heights)
    for before, after in pairwise(laid):
        assert after.region > before.region or after.y <= before.y - before.block.height + 1e-9
    assert all(one.y <= 100 and one.y - one.block.height >= -1e-9 for one in laid)


def test_wide_regions_become_columns_that_can_be_read() -> None:
    assert columns((0, 0, 170, 100)) == ((0, 0, 170, 100),)
    assert len(columns((0, 0, 380, 100))) == 2
    for left, _, right, _ in columns((0, 0, 1149, 100)):
        assert 165 <= right - left < 340


def shown(blocks: tuple[Block, ...]) -> Recorder:
    pen = Recorder()
    y = 0.0
    for one in blocks:
        drawing: Pen = pen
        one.draw(drawing, 0.0, y)
        y -= one.height
    return pen


def test_paragraphs_and_entries_keep_to_their_width_and_never_touch() -> None:
    text = "Éprouver tous les joints; gęślą jaźń. " * 12
    pen = shown((*paragraph(text, 90), entry("Electricity", text, 90), entry("Dust", text, 90)))
    found = words(pen)
    assert touching(found) == []
    assert max(one.bounds[2] for one in found) <= 90
    assert min(one.height for one in found) >= 1.8
