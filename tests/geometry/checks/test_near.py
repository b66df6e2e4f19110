"""Which solids lie near each other, the legs of pipes, and what holds for every wall whatever is on it."""

from itertools import combinations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.checks.behind import behind
from geometry.checks.edges import Edge, to_edge
from geometry.checks.face import face
from geometry.checks.front import bodies_of, front, on_face
from geometry.checks.legs import cut_legs, pipe_legs, pipe_legs_outside
from geometry.checks.near import Pairs, name, near
from geometry.checks.spray import spray
from geometry.model import Fitting, Head, Job, Pipe
from geometry.parts.catalogue import generic_parts
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from geometry.shape.outline import circle, rectangle
from geometry.shape.solid import Solid, distance
from tests.geometry.checks.walls import along, bare, fittings, jobs, mirrored, mirrored_parts, plan_of, tenths

RULES = standard_rules()
CHECKS = (front, face, behind, spray)
PAIR_RULES = (
    "front.head_rail", "front.head_handset", "front.parts", "face.plates", "behind.boxes", "behind.pipes",
)  # fmt: skip


def findings(job: Job, mirror: bool = False) -> list[tuple[str, str, float | None]]:
    """Return rule, status and measured value of all that is found, in order of these."""
    plan = plan_of(job, mirrored_parts() if mirror else generic_parts())
    told = [(f.rule, f.status, f.measured) for check in CHECKS for f in check(plan)]
    return sorted(told, key=lambda one: (one[0], one[1], -1.0 if one[2] is None else one[2]))


def assert_same(one: list[tuple[str, str, float | None]], other: list[tuple[str, str, float | None]]) -> None:
    assert [(rule, status) for rule, status, _ in one] == [(rule, status) for rule, status, _ in other]
    for (rule, _, a), (_, _, b) in zip(one, other, strict=True):
        # a value in the middle of two tenths may be rounded either way
        assert a == b or (a is not None and b is not None and abs(a - b) <= 0.1 + 1e-9), rule


# pairs


def disc(owner: str, x: float, y: float, diameter: float = 10) -> Solid:
    return Solid(owner, "plate", circle((x, y), diameter), 0, 10)


def test_pairs_come_with_the_nearest_boxes_first() -> None:
    pairs = Pairs([disc("a", 0, 0)], [disc("b", 100, 0), disc("c", 50, 0), disc("d", 500, 0)])
    assert [(bound, b.owner) for bound, _, b in pairs.nearest_first()] == [(40, "c"), (90, "b"), (490, "d")]


def test_of_many_pairs_each_comes_once_and_no_nearer_one_after_it() -> None:
    some = [disc(f"a{x}", x, 0) for x in range(0, 800, 20)]
    others = [disc(f"b{x}", x * x % 997, 40) for x in range(40)]  # 1600 pairs, some equally far apart
    found = [(bound, a.owner, b.owner) for bound, a, b in Pairs(some, others).nearest_first()]
    assert [bound for bound, _, _ in found] == sorted(bound for bound, _, _ in found)
    assert len({(a, b) for _, a, b in found}) == len(found) == 1600


def test_among_themselves_each_pair_comes_once_and_none_of_one_owner() -> None:
    pairs = Pairs([disc("a", 0, 0), disc("a", 10, 0), disc("b", 20, 0)])
    assert [(a.owner, b.owner) for _, a, b in pairs.nearest_first()] == [("a", "b"), ("a", "b")]


def test_the_nearest_pair_is_found_however_far_it_is() -> None:
    (found,) = near(RULES, "face.plates", Pairs([disc("a", -19000, 0)], [disc("b", 19000, 2000)]))
    assert found.measured == pytest.approx((38000**2 + 2000**2) ** 0.5 - 10)


def test_the_nearest_pair_is_nearest_by_outline_not_by_box() -> None:
    # The box of the slanted pipe covers the disc b; the pipe itself is far from it, and nearer to c.
    slanted = Solid("pipe", "pipe", circle((0, 0), 1)._replace(points=((0, 0), (1000, 1000))), 0, 10)
    (found,) = near(RULES, "face.plates", Pairs([slanted], [disc("b", 900, 100), disc("c", -100, -100)]))
    assert found.parts == ("pipe", "c")


def test_without_solids_there_are_no_pairs() -> None:
    assert near(RULES, "face.plates", Pairs([], [])) == ()
    assert near(RULES, "face.plates", Pairs([disc("a", 0, 0)], [])) == ()
    assert near(RULES, "face.plates", Pairs([disc("a", 0, 0)])) == ()


@given(st.lists(st.tuples(tenths(0, 2000), tenths(0, 2000), tenths(1, 300)), min_size=2, max_size=12))
def test_pairs_and_gaps_are_those_of_comparing_each_with_each(
    places: list[tuple[float, float, float]],
) -> None:
    discs = [disc(f"p{number}", *place) for number, place in enumerate(places)]
    every = {(a.owner, b.owner): distance(a, b) for a, b in combinations(discs, 2)}
    found = {gap.parts: gap.measured for gap in near(RULES, "face.plates", Pairs(discs))}
    wanted = {parts: gap for parts, gap in every.items() if gap <= 20}  # 10 and 10 more that is tight
    if wanted:
        assert found == pytest.approx(wanted)
    else:
        assert list(found.values()) == pytest.approx([min(every.values())])


@pytest.mark.parametrize(
    ("what", "owner", "called"),
    [
        ("head", "head", "head"),
        ("head", "Rain head", "Rain head"),
        ("head", "overhead 2", "overhead 2"),
        ("rail", "left", "rail left"),
        ("plate", "valve", "plate of valve"),
        ("temperature control", "valve", "temperature control of valve"),
        ("pipe", "hot", "pipe hot"),
        ("old pipe", "o1", "old pipe o1"),
        ("handset", "rail", "handset of rail"),
    ],
)
def test_things_are_called_by_their_names_and_parts_by_their_things(
    what: str, owner: str, called: str
) -> None:
    assert name(Solid(owner, what, circle((0, 0), 1), 0, 1)) == called


# edges and legs


@pytest.mark.parametrize(
    ("edge", "measured"),
    [
        (Edge("e", "left", 10), 5),
        (Edge("e", "right", 90), 15),
        (Edge("e", "below", 30), -10),
        (Edge("e", "above", 300), 200),
    ],
)
def test_an_edge_is_measured_on_the_side_on_which_it_lies(edge: Edge, measured: float) -> None:
    # a plate from 15 to 75 and from 20 to 100
    assert to_edge(Solid("a", "plate", rectangle(15, 20, 75, 100), 0, 8), edge).measured == measured


def bent() -> Job:
    """Return a pipe up to 1000, right to 1500 with a point on the way, and up into a pocket at 2000."""
    route = ((1000, 0), (1000, 1000), (1200, 1000), (1500, 1000))
    pipe = Pipe(id="pipe", service="mixed", end="head.in", route=route)
    return bare(Head(id="head", part="head-wall-200", x=1500, height=2000), pipes=[pipe])


def test_a_pipe_has_a_leg_for_each_stretch_between_turns() -> None:
    assert [leg.outline.points for leg in pipe_legs(plan_of(bent()))] == [
        ((1000, 0), (1000, 1000)),
        ((1000, 1000), (1500, 1000)),
        ((1500, 1000), (1500, 2000)),
    ]


def test_a_pipe_that_turns_straight_back_keeps_its_far_end() -> None:
    pipe = Pipe(id="pipe", service="mixed", end="head.in", route=((1000, 0), (1000, 1500)))
    job = bare(Head(id="head", part="head-wall-200", x=1000, height=1200), pipes=[pipe])
    legs = [leg.outline.points for leg in pipe_legs(plan_of(job))]
    assert legs == [((1000, 0), (1000, 1500)), ((1000, 1500), (1000, 1200))]


def test_outside_the_pocket_that_it_joins_a_pipe_ends_at_its_edge() -> None:
    assert pipe_legs_outside(plan_of(bent()))[-1].outline.points == ((1500, 1000), (1500, 1975))


def test_chases_are_flat_at_their_ends_and_square_at_their_corners() -> None:
    # 39 wide; 16.5 + 11.5 and 5 for the clip deep
    legs = cut_legs(plan_of(bent()))
    assert [leg.outline.bounds for leg in legs] == [
        (980.5, 0, 1019.5, 1019.5),
        (980.5, 980.5, 1519.5, 1019.5),
        (1480.5, 980.5, 1519.5, 2000),
    ]
    assert {(leg.low, leg.high) for leg in legs} == {(-33, 0)}


# what holds for every wall


@given(jobs(), tenths(0, 8000))
def test_moving_everything_along_the_wall_changes_no_gap(job: Job, dx: float) -> None:
    def inside(told: list[tuple[str, str, float | None]]) -> list[tuple[str, str, float | None]]:
        return [one for one in told if one[0] not in ("behind.edge", "face.opening")]

    assert_same(inside(findings(job)), inside(findings(along(job, dx))))


@given(jobs())
def test_a_mirror_changes_no_gap(job: Job) -> None:
    assert_same(findings(job), findings(mirrored(job), mirror=True))


@given(jobs(), st.sampled_from(PAIR_RULES), tenths(0, 300))
def test_a_stricter_limit_never_clears_a_clash(job: Job, rule: str, more: float) -> None:
    def clashes(limit: float) -> set[frozenset[str]]:
        plan = plan_of(job, limits={rule: limit})
        told = (f for check in CHECKS for f in check(plan))
        return {frozenset(f.parts) for f in told if f.rule == rule and f.status == "clash"}

    limit = RULES[rule].value
    assert clashes(limit) <= clashes(limit + more)


SYMMETRICAL = ("valve-one-round", "head-wall-200", "head-wall-300", "outlet-round", "spout-170", "rail-700")


@given(fittings("a"), fittings("b"), tenths(0, 1500))
def test_moving_a_part_away_never_reduces_a_gap(a: Fitting, b: Fitting, by: float) -> None:
    if a.part not in SYMMETRICAL or b.part not in SYMMETRICAL:
        return  # a recess with a nut on one side only is nearer on that side

    def gaps(second: Fitting) -> dict[str, float | None]:
        plan = plan_of(bare(a, second))
        return {f.rule: f.measured for check in CHECKS for f in check(plan) if f.rule in PAIR_RULES}

    before, after = gaps(b), gaps(b.but(x=round(b.x + (by if b.x >= a.x else -by), 1)))
    for rule, gap in before.items():
        moved = after[rule]
        assert (gap is None) == (moved is None)
        assert gap is None or moved is None or moved >= gap - 0.1 - 1e-9


@given(jobs())
def test_every_rule_of_these_checks_is_reported_on_every_job(job: Job) -> None:
    told = {rule for rule, _, _ in findings(job)}
    wanted = {limit.rule for limit in RULES if limit.rule.partition(".")[0] in ("front", "face", "behind")}
    assert told == wanted | {"spray.inside"}


@given(jobs())
def test_what_is_found_reads_as_a_sentence_and_shows_a_place(job: Job) -> None:
    plan = plan_of(job)
    for finding in (f for check in CHECKS for f in check(plan)):
        assert finding.message[0].isupper()
        assert finding.message.endswith(".")
        assert "-" not in finding.message  # no minus sign: overlaps are said in words
        if finding.status != "clear":
            assert finding.parts
            assert finding.place


def test_everything_in_front_and_on_the_face_is_compared_somewhere() -> None:
    plan = plan_of(suggested_job(760, 760, "left"))
    compared = {(s.owner, s.what) for s in (*bodies_of(plan), *on_face(plan))}
    left_out = {(s.owner, s.what) for s in plan.fitted} - compared
    assert {what for _, what in left_out} == {"recess", "pocket", "box", "screw"}
