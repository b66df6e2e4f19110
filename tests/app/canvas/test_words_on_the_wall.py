"""Tags, names, letters and marks: where they stand, that they never cover one another, and what they say."""

from itertools import combinations
from math import hypot
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from app.canvas.layout import Laid, Layout, Wanted
from app.canvas.marks import Mark, marks, measured_words, worst_of
from app.canvas.names import thing_bounds
from app.canvas.placing import beside_place, on_screen
from app.canvas.room import Room
from app.canvas.stages import STAGES, Stage
from app.canvas.tags import BORDER, HEIGHT, OFF_WALL, chains, tags
from app.canvas.view import View
from app.canvas.words import whereabouts
from app.document import State
from app.files import open_job
from geometry.checks.runner import check
from geometry.edits.refs import Ref
from geometry.finding import Finding, Status
from geometry.model import XY, Job
from geometry.model.enclosure import EnclosureKind
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from geometry.shape.outline import Bounds

SAMPLES = sorted((Path(__file__).parents[3] / "samples").glob("*.json"))
SIZE = (1000.0, 800.0)
FITTED = View(0.3, 350.0, 740.0)
"""The whole wall of 2400 mm on a screen of 1000 x 800, its floor at pixel 740."""
RAIL = Ref("fitting", "rail")


def plan_of(job: Job) -> Plan:
    return Plan(job, generic_parts(), standard_rules())


def state_of(job: Job) -> State:
    plan = plan_of(job)
    return State(job, plan, check(plan))


@pytest.fixture(scope="module")
def plan() -> Plan:
    return plan_of(suggested_job(760, 760, "left"))


@pytest.fixture(scope="module", params=SAMPLES, ids=lambda path: str(path.stem))
def sample(request: pytest.FixtureRequest) -> State:
    return state_of(open_job(request.param))


def laid(
    state: State, view: View = FITTED, stage: Stage = "all", chosen: tuple[Ref, ...] = (), size: XY = SIZE
) -> Laid:
    return Layout().lay(state, Wanted(view, size, stage, chosen, None, "mm"))


def overlap(a: Bounds, b: Bounds) -> bool:
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


# tags


def test_distances_count_from_the_trays_edge_and_heights_from_its_floor(plan: Plan) -> None:
    found = tags(chains(plan), FITTED, SIZE, (), "mm")
    # quarter lines of 760 at 190 and 570; heights less the tray's floor at 30
    assert [tag.words for tag in found if tag.axis == "x"] == ["0", "190", "380", "570", "760"]
    assert [tag.words for tag in found if tag.axis == "y"] == [
        "2160 head", "1765 rail high fixing", "1115 rail low fixing", "1000 outlet, valve", "0 tray floor",
    ]  # fmt: skip


@pytest.mark.parametrize(("kind", "floor"), [("bath", "0 bath floor"), ("wet_floor", "0 wet floor")])
def test_heights_count_from_the_floor_that_is_there(plan: Plan, kind: EnclosureKind, floor: str) -> None:
    other = plan_of(plan.job.but(enclosure=plan.job.enclosure.but(kind=kind)))
    assert floor in [tag.words for tag in tags(chains(other), FITTED, SIZE, (), "mm")]
    assert floor.removeprefix("0 ") in whereabouts(other, (0.0, 100.0))
    assert "floor floor" not in whereabouts(other, (0.0, 100.0))


def test_a_tag_stands_below_what_it_measures(plan: Plan) -> None:
    tag = next(tag for tag in tags(chains(plan), FITTED, SIZE, (), "mm") if tag.words == "380")
    # 350 + 380 * 0.3 = 464 across; the floor is at 740
    assert (tag.box[0] + tag.box[2]) / 2 == pytest.approx(464.0)
    assert tag.box[1] == 740.0 + OFF_WALL
    assert tag.leader[0] == pytest.approx((464.0, 740.0))
    assert tag.leader[1] == pytest.approx((464.0, 740.0 + OFF_WALL))


def test_a_tag_moves_what_it_names(plan: Plan) -> None:
    refs = {tag.words: tag.refs for tag in tags(chains(plan), FITTED, SIZE, (), "mm")}
    assert refs["1115 rail low fixing"] == (RAIL,)
    assert refs["1000 outlet, valve"] == (Ref("fitting", "outlet"), Ref("fitting", "valve"))
    assert refs["760"] == ()


def test_what_is_chosen_is_named_in_its_tags(plan: Plan) -> None:
    found = [tag for tag in tags(chains(plan), FITTED, SIZE, (RAIL,), "mm") if tag.chosen]
    assert [tag.words for tag in found if tag.axis == "x"] == ["570 outlet, rail"]


def test_tags_stay_on_the_screen_when_the_wall_is_larger(plan: Plan) -> None:
    close = View(3.0, -900.0, 4000.0)
    found = tags(chains(plan), close, SIZE, (), "mm")
    assert found
    for tag in found:
        assert tag.box[0] >= 0
        assert tag.box[2] <= SIZE[0]
        assert tag.box[1] >= 0
        assert tag.box[3] <= SIZE[1]
    row = [tag for tag in found if tag.axis == "x"]
    assert {tag.box[1] for tag in row} == {SIZE[1] - BORDER - HEIGHT}


@given(
    st.floats(0.05, 3.0),
    st.floats(-500, 900),
    st.floats(100, 1500),
    st.tuples(st.floats(320, 2000), st.floats(240, 1400)),
)
def test_tags_of_one_chain_never_touch(scale: float, x: float, y: float, size: XY) -> None:
    held = chains(plan_of(suggested_job(760, 760, "left")))
    found = tags(held, View(scale, x, y), size, (RAIL,), "mm")
    for axis in ("x", "y"):
        boxes = [tag.box for tag in found if tag.axis == axis]
        assert not any(overlap(a, b) for a, b in combinations(boxes, 2))


def test_where_there_is_no_room_what_is_chosen_and_things_come_first(plan: Plan) -> None:
    narrow = (150.0, 800.0)
    found = [
        tag for tag in tags(chains(plan), View(0.15, 20.0, 500.0), narrow, (RAIL,), "mm") if tag.axis == "x"
    ]
    assert any(tag.chosen for tag in found)
    assert all(tag.refs for tag in found)


def test_tags_are_in_the_unit_that_is_chosen(plan: Plan) -> None:
    words = {tag.words for tag in tags(chains(plan), FITTED, SIZE, (), "in") if tag.axis == "x"}
    # 380 / 25.4 = 14.96, to the nearest sixteenth 14 15/16
    assert '14 15/16"' in words


def test_a_tag_says_as_many_names_as_it_has_room_for(plan: Plan) -> None:
    rails = [plan.job.fitting("rail").but(id=f"rail-{number}", x=600.0) for number in range(2, 6)]
    crowded = plan_of(plan.job.but(fittings=(*plan.job.fittings, *rails)))
    found = [tag for tag in tags(chains(crowded), FITTED, SIZE, (), "mm") if tag.distance == 1115.0]
    assert found[0].words == "1115 rail low fixing +4"
    assert len(found[0].refs) == 5


# names and letters


@pytest.mark.parametrize("stage", STAGES)
@pytest.mark.parametrize("view", [FITTED, View(0.8, -100.0, 1500.0), View(0.1, 450.0, 500.0)])
def test_no_words_cover_one_another_nor_a_mark(sample: State, stage: Stage, view: View) -> None:
    found = laid(sample, view, stage)
    boxes = [name.box for name in found.names]
    fixed = [tag.box for tag in found.tags]
    fixed += [(x - 8, y - 8, x + 8, y + 8) for x, y in (mark.at for mark in found.marks)]
    assert not any(overlap(a, b) for a, b in combinations(boxes, 2))
    assert not any(overlap(a, b) for a in boxes for b in fixed)


def apart(a: Bounds, b: Bounds) -> float:
    return hypot(max(b[0] - a[2], a[0] - b[2], 0), max(b[1] - a[3], a[1] - b[3], 0))


@pytest.mark.parametrize("stage", STAGES)
@pytest.mark.parametrize("view", [FITTED, View(0.22, 350.0, 600.0)])
def test_no_name_is_nearer_to_another_fitting_than_to_its_own(
    sample: State, stage: Stage, view: View
) -> None:
    boxes = {}
    for fitting in sample.job.fittings:
        bounds = thing_bounds(sample.plan, Ref("fitting", fitting.id), stage)
        if bounds is not None and (stage in ("finished", "all") or fitting.id in sample.plan.recesses):
            boxes[fitting.id] = on_screen(view, bounds)
    found = [name for name in laid(sample, view, stage).names if name.words in boxes]
    assert found or view != FITTED  # a small drawing may have room for none
    for name in found:
        assert min(boxes, key=lambda other: apart(name.box, boxes[other])) == name.words


def test_pipes_have_their_letters(plan: Plan) -> None:
    state = State(plan.job, plan, ())
    letters = {(name.layer, name.words) for name in laid(state).names if name.layer.startswith("pipe-")}
    # the riser leaves the valve at out1, the branch at out2, which are outlets 1 and 2
    assert {("pipe-hot", "H"), ("pipe-cold", "C"), ("pipe-mixed", "1")} <= letters


def test_letters_stand_beside_their_pipe(plan: Plan) -> None:
    state = State(plan.job, plan, ())
    hot = next(name for name in laid(state).names if name.words == "H")
    # the hot pipe is plumb at x 335: 350 + 335 * 0.3 = 450.5; its chase reaches 19.5 * 0.3 = 5.85 each way
    assert hot.box[2] <= 450.5 - 5.85 or hot.box[0] >= 450.5 + 5.85
    assert 740 - 960 * 0.3 <= hot.at[1] <= 740


def test_what_is_chosen_is_named_with_what_it_is(plan: Plan) -> None:
    found = laid(State(plan.job, plan, ()), chosen=(RAIL,)).names
    [words] = [name.words for name in found if name.ref == RAIL]
    assert words.startswith("rail: ")


def test_the_name_of_what_is_chosen_covers_no_tag_and_no_mark(sample: State) -> None:
    for fitting in sample.job.fittings:
        ref = Ref("fitting", fitting.id)
        found = laid(sample, chosen=(ref,))
        [name] = [name for name in found.names if name.ref == ref]
        assert name.words.startswith(ref.id)
        fixed = [tag.box for tag in found.tags]
        fixed += [(x - 8, y - 8, x + 8, y + 8) for x, y in (mark.at for mark in found.marks)]
        assert not any(overlap(name.box, box) for box in fixed)


def test_words_about_a_place_stand_where_they_cover_nothing() -> None:
    place = (500.0, 400.0, 520.0, 420.0)
    above = beside_place("12 mm", place, SIZE, 12.0, Room())
    assert above.box[3] <= place[1]  # the first that is tried
    below = beside_place("12 mm", place, SIZE, 12.0, Room([above.box]))
    assert below.box[1] >= place[3]
    around = beside_place("12 mm", place, SIZE, 12.0, Room([above.box, below.box]))
    assert around.box[0] >= place[2]


def test_words_about_a_place_at_the_edge_stay_on_the_screen() -> None:
    corner = beside_place("12 mm", (0.0, 0.0, 20.0, 20.0), SIZE, 12.0, Room())
    assert corner.box[0] >= 0
    assert corner.box[1] >= 0


def test_what_is_chosen_is_named_even_at_the_edge_of_the_screen(plan: Plan) -> None:
    state = State(plan.job, plan, ())
    # the rail is at the right edge: 570 * 2 - 160 = 980 of 1000
    found = laid(state, View(2.0, -160.0, 3200.0), chosen=(RAIL,)).names
    [name] = [name for name in found if name.ref == RAIL]
    assert name.box[0] >= 0
    assert name.box[2] <= SIZE[0]


def test_layout_is_kept_until_something_changes(plan: Plan) -> None:
    layout, state = Layout(), State(plan.job, plan, ())
    wanted = Wanted(FITTED, SIZE, "all", (), None, "mm")
    first = layout.lay(state, wanted)
    assert layout.lay(state, wanted) is first
    assert layout.lay(state, wanted._replace(chosen=(RAIL,))) is not first


@given(
    st.lists(st.tuples(st.integers(0, 90), st.integers(0, 90)), max_size=90),
    st.integers(0, 90),
    st.integers(0, 90),
)
def test_room_counts_what_a_box_would_cover(corners: list[tuple[int, int]], x: int, y: int) -> None:
    room = Room()
    boxes: list[Bounds] = [(a, b, a + 10, b + 10) for a, b in corners]
    for box in boxes:
        room.take(box)
    wanted = (x, y, x + 10, y + 10)
    assert room.covered(wanted) == sum(overlap(wanted, box) for box in boxes)


# marks


def finding(
    status: Status, measured: float | None, *place: XY, parts: tuple[str, ...] = ("rail",), unit: str = "mm"
) -> Finding:
    return Finding(
        rule="face.plates", status=status, parts=parts, message="Too near.", measured=measured, limit=30.0,
        place=place, unit=unit,
    )  # fmt: skip


def test_a_mark_stands_in_the_middle_of_its_place() -> None:
    one = finding("clash", 12.0, (100.0, 1000.0), (300.0, 1200.0))
    # (200, 1100): 350 + 60 across, 740 - 330 down
    assert marks([one], FITTED, SIZE) == (Mark((one,), (410.0, pytest.approx(410.0))),)  # type: ignore[arg-type]


def test_only_clashes_and_what_is_tight_are_marked() -> None:
    found = [finding(status, 12.0, (100.0, 1000.0)) for status in ("clear", "refer", "unchecked")]
    assert marks([*found, finding("clash", 12.0)], FITTED, SIZE) == ()


def test_marks_that_would_cover_one_another_become_one_and_the_worst_leads() -> None:
    tight, clash = finding("tight", 31.0, (100.0, 1000.0)), finding("clash", 12.0, (120.0, 1000.0))
    [mark] = marks([tight, clash], FITTED, SIZE)
    assert mark.findings == (clash, tight)
    assert len(marks([tight, clash], View(1.0, 0.0, 1500.0), SIZE)) == 2


def test_presses_on_a_mark_go_through_its_findings() -> None:
    tight, clash = finding("tight", 31.0, (100.0, 1000.0)), finding("clash", 12.0, (120.0, 1000.0))
    mark = Mark((clash, tight), (0.0, 0.0))
    assert mark.after(None) == clash
    assert mark.after(clash) == tight
    assert mark.after(tight) == clash
    assert mark.after(finding("clash", 1.0, (9.0, 9.0))) == clash


def test_the_worst_is_the_clash_that_misses_by_most_and_else_what_is_tightest() -> None:
    place = (100.0, 1000.0)
    small, large = finding("clash", 25.0, place), finding("clash", -10.0, place)
    tight, tightest = finding("tight", 38.0, place), finding("tight", 31.0, place)
    assert worst_of([tight, small, large, tightest], {"rail"}) == large
    assert worst_of([tight, tightest], {"rail"}) == tightest
    assert worst_of([large], {"valve"}) is None
    assert worst_of([finding("clear", 50.0, place)], {"rail"}) is None


def test_water_that_lacks_pressure_is_no_clearance() -> None:
    place = (100.0, 1000.0)
    weak, near = finding("clash", 0.35, place, unit="bar"), finding("tight", 31.0, place)
    assert worst_of([weak, near], {"rail"}) == near
    assert worst_of([weak], {"rail"}) is None


def test_a_measured_clearance_is_told_against_its_limit() -> None:
    assert measured_words(finding("clash", 12.5, (0.0, 0.0)), "mm") == "12.5 mm (limit 30 mm)"
    assert measured_words(finding("clash", 12.5, (0.0, 0.0)), "cm") == "1.25 cm (limit 3 cm)"
    # 12.7 mm is half an inch, 30 mm 1 3/16 to the nearest sixteenth
    assert measured_words(finding("clash", 12.7, (0.0, 0.0)), "in") == '1/2" (limit 1 3/16")'
    assert measured_words(finding("clash", 2.0, (0.0, 0.0), unit="l/min"), "in") == "2 l/min (limit 30 l/min)"
    assert measured_words(finding("clash", 0.35, (0.0, 0.0), unit="bar"), "mm") == "0.35 bar (limit 30 bar)"
    assert measured_words(finding("clash", -15.2, (0.0, 0.0)), "mm") == "overlap 15.2 mm (limit 30 mm)"
    assert measured_words(finding("clash", None, (0.0, 0.0)), "mm") == ""


def test_a_handset_that_hangs_below_a_rim_overlaps_nothing() -> None:
    low = finding("refer", -10.0, (0.0, 0.0)).but(rule="water.handset_gap")
    assert measured_words(low, "mm") == "-10 mm (limit 30 mm)"
