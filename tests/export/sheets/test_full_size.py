"""The full-size pages as a reader that did not write them sees them, and taped together by their crosses."""

import io
import math
import re
from collections.abc import Iterator
from functools import cache
from itertools import combinations, pairwise
from typing import Any, NamedTuple

import numpy as np
import pdfplumber
import pypdf
import pypdfium2
import pytest
import shapely

from export.drawings.marks import points
from export.sheets.full_size import full_size_sheet
from export.sheets.options import SheetOptions
from geometry.finding import Finding
from geometry.model import XY, Cable, Enclosure, Job, Wall
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from geometry.setting_out.holes import Hole, holes
from tests.export.measured import as_pdf
from tests.samples import SAMPLES, sample_job

POINT = 25.4 / 72  # mm in a point of PDF, 1/72 inch
CLOSE = 0.05  # mm; what is asked of a hole's centre and a chase's corner
CLASH = Finding(rule="head.rail", status="clash", parts=("head", "rail"), message="the head meets the rail")

Segment = tuple[XY, XY]


class Read(NamedTuple):
    """What was read from one page, in mm from its lower left corner."""

    name: str
    width: float
    height: float
    text: str
    sideways: str
    """The words that run up the page."""
    segments: list[Segment]
    """Every straight stroke, those of joined lines one by one."""
    strong: list[Segment]
    """Those of 0.2 mm or more: what is cut, pipes, the wall."""
    crosses: dict[str, XY]
    """Register crosses by their labels."""
    bounds: Any
    """Of every stroke and letter: x min, y min, x max, y max."""

    def hole_crosses(self) -> list[tuple[XY, float]]:
        """Return where a level and an upright stroke of one length halve each other, and that length."""
        level = [
            (a, b) for a, b in self.segments if a[1] == pytest.approx(b[1]) and 8 < abs(a[0] - b[0]) < 23
        ]
        upright = [
            (a, b) for a, b in self.segments if a[0] == pytest.approx(b[0]) and 8 < abs(a[1] - b[1]) < 23
        ]
        found = [
            (_middle(*one), abs(one[0][0] - one[1][0]))
            for one in level
            for other in upright
            if math.dist(_middle(*one), _middle(*other)) < CLOSE
        ]
        return [
            (at, size)
            for at, size in found
            if all(math.dist(at, cross) > 1 for cross in self.crosses.values())
        ]

    def bars(self) -> tuple[list[float], list[float]]:
        """Return the lengths of long strokes in the strips at the bottom and at the left: across and up."""
        level = [math.dist(a, b) for a, b in self.segments if a[1] == pytest.approx(b[1]) and a[1] < 15]
        upright = [math.dist(a, b) for a, b in self.segments if a[0] == pytest.approx(b[0]) and a[0] < 15]
        return [length for length in level if length > 50], [length for length in upright if length > 50]


def _middle(a: XY, b: XY) -> XY:
    return (a[0] + b[0]) / 2, (a[1] + b[1]) / 2


def read(data: bytes) -> list[Read]:
    """Read all pages, the map first."""
    with pdfplumber.open(io.BytesIO(data)) as pdf:
        return [_read_page(page) for page in pdf.pages]


def texts(data: bytes) -> list[str]:
    """Read only the words of all pages, with another reader."""
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(data)]


def _read_page(page: Any) -> Read:
    def mm(at: XY) -> XY:
        return at[0] * POINT, (float(page.height) - at[1]) * POINT

    segments: list[Segment] = []
    strong: list[Segment] = []
    diamonds: list[XY] = []
    for path in (*page.lines, *page.curves, *page.rects):
        if not path["stroke"]:
            continue
        corners = [mm(at) for at in path["pts"]]
        xs, ys = zip(*corners, strict=True)
        wide, high = max(xs) - min(xs), max(ys) - min(ys)
        if len(set(corners)) == 4 and abs(wide - high) < 0.01 and min(abs(wide - 4), abs(wide - 2)) < 0.01:
            diamonds.append(((max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2))
        if path["object_type"] == "rect":
            corners.append(corners[0])
        segments += list(pairwise(corners))
        if path["linewidth"] * POINT > 0.2:
            strong += list(pairwise(corners))
    crosses = {}
    for word in page.extract_words(keep_blank_chars=True, x_tolerance=1):
        for label in re.findall(r"[A-Z]+\d+\|[A-Z]+\d+ \d", word["text"]):
            box = shapely.box(*mm((word["x0"], word["bottom"])), *mm((word["x1"], word["top"])))
            crosses[label] = min(diamonds, key=lambda at: float(shapely.distance(box, shapely.Point(at))))
    text = page.extract_text()
    name = re.search(r"page ([A-Z]+\d+), sheet", text)
    letters = [(*mm((c["x0"], c["bottom"])), *mm((c["x1"], c["top"]))) for c in page.chars]
    ends = [(min(a[0], b[0]), min(a[1], b[1]), max(a[0], b[0]), max(a[1], b[1])) for a, b in segments]
    return Read(
        name.group(1) if name else "map",
        float(page.width) * POINT,
        float(page.height) * POINT,
        text,
        _sideways(page.chars),
        segments,
        strong,
        crosses,
        np.array(letters + ends),
    )


def _sideways(chars: list[dict[str, Any]]) -> str:
    """Gather the letters that run up the page, one line of words after the other."""
    turned = [char for char in chars if not char["upright"]]
    lines = sorted({round(char["matrix"][4], 1) for char in turned})
    rows = [
        sorted((c for c in turned if round(c["matrix"][4], 1) == at), key=lambda c: c["matrix"][5])
        for at in lines
    ]
    return "\n".join("".join(char["text"] for char in row) for row in rows)


def plan_of(job: Job) -> Plan:
    return Plan(job, generic_parts(), standard_rules())


def alcove(title: str = "Alcove") -> Job:
    return suggested_job(760, 760, "left", title=title)


@cache
def sheet(name: str, paper: str = "A4", stretch_x: float = 1.0, stretch_y: float = 1.0) -> list[Read]:
    job = alcove() if name == "alcove" else sample_job(name)
    options = SheetOptions(paper=paper, stretch_x=stretch_x, stretch_y=stretch_y)
    return read(as_pdf(full_size_sheet, plan_of(job), (), options))


def taped(pages: list[Read]) -> Iterator[dict[str, XY]]:
    """Tape pages together by their register crosses alone; yield where each lies in its group."""
    left = {page.name: page for page in pages}
    while left:
        first = left.pop(next(iter(left)))
        group, waiting = {first.name: (0.0, 0.0)}, [first]
        while waiting:
            page = waiting.pop()
            x, y = group[page.name]
            for label, (cx, cy) in page.crosses.items():
                other = next(name for name in label.split()[0].split("|") if name != page.name)
                if other in left:
                    ox, oy = left[other].crosses[label]
                    group[other] = (x + cx - ox, y + cy - oy)
                    waiting.append(left.pop(other))
        yield group


# true size


@pytest.mark.parametrize(
    ("name", "paper"), [(name, "A4") for name in SAMPLES] + [("alcove", "A3"), ("alcove", "A2")]
)
def test_taped_together_every_hole_and_corner_lies_where_the_model_has_it(name: str, paper: str) -> None:
    # The sheets are joined by their printed crosses only, and put on the wall by a hole with its words.
    plan = plan_of(alcove() if name == "alcove" else sample_job(name))
    pages = {page.name: page for page in sheet(name, paper)[1:]}
    found: list[XY] = []
    for group in taped(list(pages.values())):
        dx, dy = _anchor(plan, [(pages[page], at) for page, at in group.items()])
        for page, (x, y) in group.items():
            places = [end for segment in pages[page].segments for end in segment]
            places += [at for at, _ in pages[page].hole_crosses()]
            found += [(px + x + dx, py + y + dy) for px, py in places]
    everything = shapely.STRtree(shapely.points(found))
    for at in points(plan):
        _, distances = everything.query_nearest(shapely.Point(at), return_distance=True)
        assert distances[0] < CLOSE, at


def _anchor(plan: Plan, group: list[tuple[Read, XY]]) -> XY:
    """Return the shift that brings the crosses of taped pages onto holes whose distances they print."""
    crosses = [
        (page, (cx + x, cy + y), size) for page, (x, y) in group for (cx, cy), size in page.hole_crosses()
    ]
    for hole in holes(plan):
        for page, (x, y), size in crosses:
            said = f"{hole.across:g} from" in page.text and f"{hole.up:g} up" in page.text
            dx, dy = hole.at[0] - x, hole.at[1] - y
            if (
                said
                and size == pytest.approx(_size(hole), abs=0.01)
                and all(
                    any(math.dist((cx + dx, cy + dy), other.at) < CLOSE for other in holes(plan))
                    for _, (cx, cy), _ in crosses
                )
            ):
                return dx, dy
    raise AssertionError(f"the crosses on {[page.name for page, _ in group]} answer to no hole of the model")


def _size(hole: Hole) -> float:
    """Return how wide the cross of a hole is: 20 mm, and a screw's 5 mm past its hole."""
    return 20.0 if hole.kind == "water" else hole.diameter + 10


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


@pytest.mark.parametrize("paper", ["A4", "A3", "A2"])
def test_both_bars_of_every_page_are_100_mm(paper: str) -> None:
    for page in sheet("alcove", paper):
        across, up = page.bars()
        assert across == pytest.approx([100], abs=0.02)
        assert up == pytest.approx([100], abs=0.02)


def test_a_stretch_lengthens_bars_and_marks_by_just_that() -> None:
    for page in sheet("alcove", "A4", 0.995, 1.004):
        across, up = page.bars()
        assert across == pytest.approx([99.5], abs=0.02)
        assert up == pytest.approx([100.4], abs=0.02)
    stretched = 0
    for page in sheet("alcove", "A4", 0.995, 1.004)[1:]:
        places = [at for at, _ in page.hole_crosses()]
        for (ax, ay), (bx, by) in combinations(places, 2):
            # On the wall all holes are whole millimetres apart: (dx / 0.995, dy / 1.004) must be.
            dx, dy = (bx - ax) / 0.995, (by - ay) / 1.004
            assert dx == pytest.approx(round(dx), abs=0.005)
            assert dy == pytest.approx(round(dy), abs=0.005)
            stretched += abs(round(dx)) > 40 and abs(round(dy)) > 40
    assert stretched


def test_a_stretch_is_stated_on_every_page() -> None:
    plain, stretched = sheet("alcove"), sheet("alcove", "A4", 0.995, 1.004)
    assert all("stretched x 0.995, y 1.004" in page.text for page in stretched)
    assert not any("stretched" in page.text for page in plain)


@pytest.mark.parametrize(("stretch", "warned"), [(1.03, False), (0.97, False), (1.031, True), (0.96, True)])
def test_a_stretch_of_more_than_3_percent_is_a_wrong_print_setting(stretch: float, warned: bool) -> None:
    data = as_pdf(full_size_sheet, plan_of(alcove()), (), SheetOptions(stretch_x=stretch))
    assert all(("STRETCH OVER 3 %" in text) == warned for text in texts(data))


def test_a_page_rendered_at_300_dpi_has_a_bar_of_1181_pixels() -> None:
    # 100 mm / 25.4 x 300 = 1181.1 pixels from the middle of one end stroke to that of the other.
    data = as_pdf(full_size_sheet, plan_of(alcove()))
    bitmap = pypdfium2.PdfDocument(data)[1].render(scale=300 / 72, grayscale=True)
    pixels = bitmap.to_numpy().squeeze()
    # A row a millimetre above the bar at 12.5 mm from the lower edge crosses only its end strokes.
    row = pixels[-round(13.7 / 25.4 * 300), : round(120 / 25.4 * 300)]
    dark = np.flatnonzero(row < 128)
    breaks = np.flatnonzero(np.diff(dark) > 1) + 1
    strokes = [float(stroke.mean()) for stroke in np.split(dark, breaks)]
    assert len(strokes) == 2
    assert strokes[1] - strokes[0] == pytest.approx(1181.1, abs=1.5)


# paper


def test_viewers_are_asked_for_actual_size() -> None:
    reader = pypdf.PdfReader(io.BytesIO(as_pdf(full_size_sheet, plan_of(alcove()))))
    preferences = reader.root_object["/ViewerPreferences"].get_object()
    assert isinstance(preferences, pypdf.generic.DictionaryObject)
    assert str(preferences["/PrintScaling"]) == "/None"


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
        as_pdf(full_size_sheet, plan_of(job.but(pipes=rows)))


# what each page says


@pytest.mark.parametrize("name", SAMPLES)
def test_every_page_has_its_own_name_and_its_number_of_the_set(name: str) -> None:
    pages = sheet(name)
    names = [page.name for page in pages]
    assert len(set(names)) == len(names)
    for number, page in enumerate(pages[1:], 2):
        assert f"page {page.name}, sheet {number} of {len(pages)}" in page.text


@pytest.mark.parametrize("name", SAMPLES)
def test_the_map_names_every_page(name: str) -> None:
    pages = sheet(name)
    words = set(pages[0].text.split())
    assert {page.name for page in pages[1:]} <= words


@pytest.mark.parametrize("name", SAMPLES)
def test_neighbours_are_named_on_each_edge(name: str) -> None:
    for page in sheet(name)[1:]:
        joined = {side for label in page.crosses for side in label.split()[0].split("|")} - {page.name}
        row = re.match("[A-Z]+", page.name)
        assert row
        beside = {side for side in joined if re.match("[A-Z]+", side) == row or side.startswith(row.group())}
        assert set(re.findall(r"joins ([A-Z]+\d+)", page.text)) == joined - beside
        assert set(re.findall(r"joins ([A-Z]+\d+)", page.sideways)) == beside
        edges = len(re.findall(r"joins|no page", page.text)), len(re.findall(r"joins|no page", page.sideways))
        assert edges == (2, 2)


@pytest.mark.parametrize("name", SAMPLES)
def test_every_page_has_a_level_and_a_plumb_line_with_its_distance(name: str) -> None:
    for page in sheet(name)[1:]:
        words = " ".join(f"{page.text} {page.sideways}".split())
        assert re.search(r"\d (up|above|below)|floor: level, 0|floor, 0", words), page.name
        assert re.search(r"\d from|edge: plumb, 0|edge, 0", words), page.name


def test_a_level_line_lies_as_far_above_the_tray_floor_as_it_says() -> None:
    plan, pages = plan_of(alcove()), {page.name: page for page in sheet("alcove")[1:]}
    [group] = taped(list(pages.values()))
    _, dy = _anchor(plan, [(pages[name], at) for name, at in group.items()])
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


def test_the_words_of_the_map_say_how_to_print_to_join_and_what_to_beware_of() -> None:
    text = " ".join(sheet("alcove")[0].text.split())
    for words in (
        "100 %",
        "no fit to page",
        "100 mm",
        "cross on cross",
        "left edge of the tray",
        "detector",
        "FFP3",
    ):
        assert words in text


def test_clashes_stand_on_every_page_and_are_named_on_the_map() -> None:
    first, *others = texts(as_pdf(full_size_sheet, plan_of(alcove()), (CLASH,), SheetOptions()))
    assert "the head meets the rail" in " ".join(first.split())
    assert all("1 CLASH: see the map" in text for text in others)
    first, *others = texts(as_pdf(full_size_sheet, plan_of(alcove()), (CLASH,) * 7, SheetOptions()))
    assert "And 4 more: see the findings." in " ".join(first.split())
    assert all("7 CLASHES: see the map" in text for text in others)


def test_warnings_stand_on_the_smallest_paper_too() -> None:
    options = SheetOptions(paper="A5", stretch_y=0.95)
    for text in texts(as_pdf(full_size_sheet, plan_of(alcove()), (CLASH,) * 7, options))[1:]:
        assert "7 CLASHES, STRETCH OVER 3 %" in text


@pytest.mark.parametrize(
    "title",
    ["<b>Bold</b> & <i>", r"%%c \P {x}", "Łazienka – Gęśla", "(unbalanced", "x" * 300, "", "a\tb\nc"],
)
def test_a_title_appears_as_typed(title: str) -> None:
    for text in texts(as_pdf(full_size_sheet, plan_of(alcove(title)))):
        assert " ".join(title.split())[:30] in text


def test_a_right_to_left_title_is_in_visual_order() -> None:
    for page in read(as_pdf(full_size_sheet, plan_of(alcove("שלום")), (), SheetOptions(paper="A2"))):
        assert "םולש" in page.text


def test_what_lies_in_the_wall_is_named_on_its_pages() -> None:
    cable = Cable(id="lights", route=((320.0, 2000.0), (440.0, 2000.0)))
    named = texts(as_pdf(full_size_sheet, plan_of(alcove().but(services=(cable,)))))[1:]
    assert sum("CAUTION cable" in text for text in named) == 1


def test_a_job_with_nothing_to_mark_is_a_map_alone() -> None:
    job = Job(
        wall=Wall(width=900.0, height=2400.0), enclosure=Enclosure(left=0.0, width=900.0, projection=900.0)
    )
    assert [page.name for page in read(as_pdf(full_size_sheet, plan_of(job)))] == ["map"]


def test_equal_jobs_give_equal_bytes() -> None:
    assert as_pdf(full_size_sheet, plan_of(alcove())) == as_pdf(
        full_size_sheet, plan_of(alcove()), (), SheetOptions()
    )


@pytest.mark.parametrize("overlap", [0.0, 20.0, 40.0])
def test_any_overlap_can_be_taped(overlap: float) -> None:
    data = as_pdf(full_size_sheet, plan_of(alcove()), (), SheetOptions(overlap=overlap))
    pages = read(data)[1:]
    [group] = taped(pages)
    assert set(group) == {page.name for page in pages}
