"""A stud wall by hand sums: holes, pipes along studs, bays and noggins. All in mm.

The wall of these tests: studs 100 wide and 140 deep, 2400 high, so a hole is at most 0.25 x 100 = 25, 600 to
960 from either end, 70 deep. Copper 15 with 4 of wrap needs a hole of 23.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.checks.studs import studs
from geometry.edits.moves import mirrored_wall
from geometry.finding import Finding
from geometry.model import Enclosure, HoseOutlet, Job, Joist, Pipe, Rail, Stud, Valve, Wall
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import Rulebook, standard_rules
from geometry.studwork import bays, noggins, stud_holes
from tests.geometry.checks.cut_walls import ORDER

RULES = standard_rules()
STUDS = tuple(Stud(id=f"stud-{n}", x=600.0 * n, wide=100) for n in range(5))
"""At 0, 600, 1200, 1800 and 2400: clear bays of 500; the first and last stand half beyond the ends."""


def wall(
    *pipes: Pipe, fittings: tuple[object, ...] = (), services: tuple[object, ...] = STUDS, **changes: object
) -> Job:
    made = {"width": 2400, "height": 2400, "make_up": "timber_stud", "thickness": 140, **changes}
    return Job(
        wall=Wall(**made),  # type: ignore[arg-type]
        enclosure=Enclosure(left=0, width=900, projection=900),
        fittings=(HoseOutlet(id="outlet", part="outlet-round", x=1500, height=700), *fittings),  # type: ignore[arg-type]
        pipes=pipes,
        services=services,  # type: ignore[arg-type]
    )


def through(height: float = 700, depth: float = 70, wrap: float = 4, name: str = "pipe") -> Pipe:
    """Return a pipe that comes level from x = 900 through the stud at 1200, then to the outlet at 1500."""
    route = ((900.0, height), (1500.0, height))
    return Pipe(id=name, service="mixed", end="outlet.in", route=route, depth=depth, wrap=wrap)


def plan_of(job: Job, rules: Rulebook = RULES) -> Plan:
    return Plan(job, generic_parts(), rules)


def found(job: Job, rule: str = "studs.") -> tuple[Finding, ...]:
    return tuple(finding for finding in studs(plan_of(job)) if finding.rule.startswith(rule))


def only(job: Job, rule: str) -> Finding:
    (finding,) = found(job, rule)
    return finding


# given at all


def test_masonry_has_nothing_to_judge() -> None:
    assert found(wall(through(), make_up="brick")) == ()


def test_stud_wall_without_studs_is_unchecked_and_says_what_is_missing() -> None:
    finding = only(wall(through(), services=()), "studs.")
    assert (finding.rule, finding.status) == ("studs.given", "unchecked")
    assert "find the studs and enter them" in finding.message


# holes (UK specification practice P31/670: struts and columns)


def test_level_pipe_makes_a_hole_in_each_stud_on_its_way() -> None:
    (hole,) = stud_holes(plan_of(wall(through())))
    assert (hole.pipe, hole.stud.id, hole.at, hole.depth, hole.diameter) == (
        "pipe",
        "stud-2",
        (1200, 700),
        70,
        23,
    )


def test_inclined_pipe_is_drilled_where_it_meets_the_stud() -> None:
    # from (900, 400) to (1500, 1000): at x = 1200 half way up
    pipe = Pipe(id="pipe", service="mixed", end="outlet.in", route=((900.0, 400.0), (1500.0, 1000.0)))
    assert [hole.at for hole in stud_holes(plan_of(wall(pipe)))] == [(1200, 700)]


@pytest.mark.parametrize(("wrap", "status"), [(4.9, "clear"), (5, "clear"), (5.1, "refer")])
def test_hole_is_at_most_a_quarter_of_the_least_width(wrap: float, status: str) -> None:
    # 15 + 2 x 5 = 25 = 0.25 x 100; the stud is 140 deep
    (finding,) = (f for f in found(wall(through(wrap=wrap))) if f.rule == "studs.hole")
    assert (finding.status, finding.limit, finding.parts) == (status, 25, ("pipe", "stud-2"))


@pytest.mark.parametrize(
    ("height", "status"),
    [
        (599.9, "refer"), (600, "clear"), (960, "clear"), (960.1, "refer"), (1200, "refer"),
        (1439.9, "refer"), (1440, "clear"), (1800, "clear"), (1800.1, "refer"),
    ],
)  # fmt: skip
def test_hole_lies_a_quarter_to_four_tenths_of_the_height_from_an_end(height: float, status: str) -> None:
    # 0.25 x 2400 = 600, 0.4 x 2400 = 960; from the top 1800 and 1440
    (finding,) = (f for f in found(wall(through(height))) if f.rule in ("studs.hole_low", "studs.hole_high"))
    assert finding.status == status


@pytest.mark.parametrize(
    ("depth", "status"), [(67, "clear"), (73, "clear"), (66.9, "refer"), (73.1, "refer")]
)
def test_hole_keeps_to_the_centre_line(depth: float, status: str) -> None:
    # 140 / 2 = 70, 3 either way (common practice, no source)
    finding = only(wall(through(depth=depth)), "studs.centre")
    assert finding.status == status
    assert ("Lay the pipe's centre 70 mm deep" in finding.message) == (status == "refer")


@pytest.mark.parametrize(("apart", "status"), [(69.1, "clear"), (69, "clear"), (68.9, "refer")])
def test_holes_keep_three_diameters_apart(apart: float, status: str) -> None:
    # 3 x 23 = 69, centre to centre
    job = wall(through(700, name="one"), through(700 + apart, name="other"))
    finding = only(job, "studs.hole_gap")
    assert (finding.status, finding.parts) == (status, ("one", "other", "stud-2"))


@pytest.mark.parametrize("wraps", [(4, 0), (0, 4)])
def test_wider_hole_decides_how_far_two_keep_apart(wraps: tuple[float, float]) -> None:
    low, high = wraps
    job = wall(through(700, wrap=low, name="one"), through(760, wrap=high, name="other"))
    assert only(job, "studs.hole_gap").limit == 69  # 3 x 23, whichever of the two it is


def test_least_width_of_a_stud_is_its_depth_where_that_is_less() -> None:
    (finding,) = (f for f in found(wall(through(depth=40), thickness=80)) if f.rule == "studs.hole")
    assert (finding.status, finding.limit) == ("refer", 20)  # 0.25 x 80, the stud is 100 wide


def test_pipes_within_one_bay_make_no_hole() -> None:
    pipe = Pipe(id="pipe", service="mixed", end="outlet.in", route=((1300.0, 100.0), (1500.0, 100.0)))
    finding = only(wall(pipe), "studs.hole")
    assert (finding.status, finding.message) == ("clear", "No pipe goes through a stud.")


def test_metal_studs_are_passed_by_their_own_holes_with_grommets() -> None:
    # NHBC Standards 6.10.22
    finding = only(wall(through(), make_up="metal_stud"), "studs.service_hole")
    assert (finding.status, finding.parts) == ("refer", ("pipe", "stud-2"))
    assert "a grommet in each" in finding.message
    assert "drill and notch nothing" in finding.message


# along a stud


@pytest.mark.parametrize(
    ("x", "status"), [(1264.5, "clear"), (1261.5, "tight"), (1261.4, "clash"), (1200, "clash")]
)
def test_upright_pipe_runs_beside_a_stud_not_in_it(x: float, status: str) -> None:
    # 1200 + 50 + 23 / 2 = 1261.5; within 3 mm it is tight
    pipe = Pipe(id="pipe", service="mixed", end="outlet.in", route=((x, 0.0), (x, 650.0), (x, 700.0)))
    finding = next(f for f in found(wall(pipe), "studs.along"))
    assert finding.status == status


def test_pipe_in_a_stud_says_by_how_much() -> None:
    pipe = Pipe(id="pipe", service="mixed", end="outlet.in", route=((1250.0, 0.0), (1250.0, 700.0)))
    finding = only(wall(pipe), "studs.along")
    assert (finding.measured, finding.parts) == (-11.5, ("pipe", "stud-2"))  # 1250 - 11.5 against 1250
    assert finding.message == "pipe: 11.5 mm into stud-2 all along it. Studs are not notched: move it aside."


# bays, recesses, noggins


def test_bays_lie_between_the_faces_of_the_studs() -> None:
    clear = [(bay.left, bay.right, bay.clear) for bay in bays(plan_of(wall()))]
    assert clear == [(50, 550, 500), (650, 1150, 500), (1250, 1750, 500), (1850, 2350, 500)]


def test_stud_within_a_wider_one_makes_no_bay_of_its_own() -> None:
    pair = (Stud(id="post", x=1000, wide=200), Stud(id="within", x=950, wide=40))
    assert [(bay.left, bay.right) for bay in bays(plan_of(wall(services=pair)))] == [(0, 900), (1100, 2400)]


def test_bay_at_the_end_of_the_wall_reaches_to_the_end() -> None:
    ends = bays(plan_of(wall(services=(Stud(id="s", x=1000, wide=40),))))
    assert [(bay.left, bay.right, bay.between) for bay in ends] == [
        (0, 980, "the left end of the wall and s"),
        (1020, 2400, "s and the right end of the wall"),
    ]


@pytest.mark.parametrize(("clear", "status"), [(50, "clear"), (49.8, "refer")])
def test_recess_fits_its_bay_or_a_stud_would_be_cut(clear: float, status: str) -> None:
    # the pocket of the outlet is 50 wide
    beside = tuple(
        Stud(id=name, x=1500 + side * (clear / 2 + 19), wide=38) for name, side in (("a", -1), ("b", 1))
    )
    finding = only(wall(services=beside), "studs.bay")
    assert (finding.status, finding.measured, finding.limit) == (status, 50, clear)


def test_noggin_is_cut_to_the_clear_width_and_set_back_by_the_recess() -> None:
    # valve at 1000 between 650 and 1150; its screws 60 below and above; no finish: 60 to 85 deep, aim for 72
    job = wall(fittings=(Valve(id="valve", part="valve-two-round", x=900, height=1000),))
    noggin = next(n for n in noggins(plan_of(job)) if n.fitting == "valve")
    assert noggin.bay is not None
    assert (noggin.bay.clear, noggin.heights, noggin.back) == (500, (940, 1060), 72)
    finding = next(f for f in found(job, "studs.noggin") if f.parts == ("valve",))
    assert finding.status == "clear"
    assert finding.message == (
        "valve: cut a noggin or board 500 mm long between stud-1 and stud-2, its face 72 mm behind that of "
        "the studs; fixed at 940 and 1060 mm above the floor."
    )


def test_rail_wants_a_noggin_behind_each_bracket_flush_with_the_studs() -> None:
    # fixing centres 25 and 675 above the foot at 1100
    finding = next(
        f
        for f in found(wall(fittings=(Rail(id="rail", part="rail-700", x=900, height=1100),)), "studs.n")
        if f.parts == ("rail",)
    )
    assert "500 mm long between stud-1 and stud-2, flush with the face of the studs" in finding.message
    assert "fixed at 1125 and 1775 mm above the floor" in finding.message


def test_rail_on_a_stud_needs_no_noggin() -> None:
    finding = next(
        f
        for f in found(
            wall(fittings=(Rail(id="rail", part="rail-700", x=1200, height=1100),)), "studs.noggin"
        )
        if "rail" in f.parts
    )
    assert (finding.parts, finding.message) == (("rail", "stud-2"), "rail is held by stud-2.")


def test_timber_that_is_there_already_holds_what_is_screwed_to_it() -> None:
    there = tuple(Joist(id=n, height=y, left=650, right=1150) for n, y in (("low", 1125.0), ("high", 1775.0)))
    job = wall(fittings=(Rail(id="rail", part="rail-700", x=900, height=1100),), services=(*STUDS, *there))
    finding = next(f for f in found(job, "studs.noggin") if "rail" in f.parts)
    assert finding.message == "rail is held by low and high."


@pytest.mark.parametrize(("clear", "status"), [(600, "clear"), (600.1, "tight")])
def test_noggin_longer_than_600_wants_to_be_stiffer(clear: float, status: str) -> None:
    # common practice, no source
    services = (Stud(id="a", x=1280, wide=40), Stud(id="b", x=1320 + clear, wide=40))
    finding = next(f for f in found(wall(services=services), "studs.noggin") if f.parts == ("outlet",))
    assert (finding.status, finding.measured) == (status, clear)


# what must hold for any wall

HEIGHTS = st.integers(50, 2350).map(float)


@given(
    HEIGHTS, HEIGHTS, st.floats(0, 20), st.floats(20, 120), st.floats(0, 1),
    st.sampled_from([limit.rule for limit in RULES if limit.rule.startswith("studs.")]),
)  # fmt: skip
def test_stricter_rule_never_clears_a_finding(
    one: float, other: float, wrap: float, depth: float, share: float, rule: str
) -> None:
    job = wall(through(one, depth, wrap, "one"), through(other, depth, wrap, "other"))
    held = RULES[rule]
    value = held.value * share if held.sense == "at most" else held.value / max(share, 0.01) + (1 - share)
    strict = RULES.with_own({rule: held.but(value=value)})

    def statuses(rules: Rulebook) -> dict[str, int]:
        findings = tuple(studs(plan_of(job, rules)))
        return {
            part: max(ORDER.index(f.status) for f in findings if part in f.parts or not f.parts)
            for part in ("one", "other", "outlet")
        }

    before, after = statuses(RULES), statuses(strict)
    assert all(after[part] >= before[part] for part in before)


@given(HEIGHTS, HEIGHTS, st.integers(1250, 1450).map(float))
def test_mirrored_wall_has_the_mirrored_findings(one: float, other: float, x: float) -> None:
    drop = Pipe(id="drop", service="mixed", end="outlet.in", route=((x, 0.0), (x, 650.0), (1500.0, 650.0)))
    job = wall(through(one, name="one"), through(other, name="other"), drop)

    def reduced(job: Job) -> list[tuple[object, ...]]:
        return sorted((f.rule, f.status, len(f.parts), f.measured or 0.0) for f in found(job))

    assert reduced(mirrored_wall(job)) == reduced(job)
