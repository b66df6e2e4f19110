"""Strength of masonry as findings: which rules hold, what is said, and what must hold for any cut.

Hand sums for copper 15 with 4 mm of wrap: chase 39 wide and 33 deep. The suggested job stands on a 140 mm
dense block wall 760 wide; its valve is cut 58 deep, 155 wide and 190 tall.
"""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.checks.readings import listed
from geometry.checks.strength import strength
from geometry.checks.strength_en import en_1996
from geometry.edits.moves import mirrored_wall, moved
from geometry.edits.refs import Ref, things
from geometry.finding import Finding, Limit
from geometry.jobfile import read_job, write_job
from geometry.model import FarCut, Job, Opening, Pipe, Wall
from geometry.model.wall import YesNo
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.rules.tables import row
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.checks.cut_walls import ORDER, PARTS, bare, fitted, level, upright, worst

JOB = suggested_job(760, 760, "left")
RULES = standard_rules()


def found(job: Job) -> tuple[Finding, ...]:
    return tuple(strength(Plan(job, PARTS, RULES)))


def only(findings: tuple[Finding, ...], rule: str, *parts: str) -> Finding:
    (finding,) = (f for f in findings if f.rule == rule and (not parts or f.parts == parts))
    return finding


def on_wall(**changes: object) -> Job:
    return JOB.but(wall=JOB.wall.but(**changes))


# which rules hold


def test_fresh_job_is_referred_but_never_a_clash_or_unchecked() -> None:
    statuses = {finding.status for finding in found(JOB)}
    assert statuses == {"clear", "refer"}


@pytest.mark.parametrize(("known", "status"), [("yes", "clear"), ("no", "clear"), ("not_known", "refer")])
def test_whether_the_wall_carries_load_must_be_known(known: YesNo, status: str) -> None:
    assert only(found(on_wall(loadbearing=known)), "strength.loadbearing").status == status


def test_wall_of_unknown_load_is_judged_as_one_that_carries() -> None:
    def rest(known: YesNo) -> list[Finding]:
        return [f for f in found(on_wall(loadbearing=known)) if f.rule != "strength.loadbearing"]

    assert rest("not_known") == rest("yes")


@pytest.mark.parametrize(
    ("rules", "begin"), [(("en_1996",), "strength.en_"), (("approved_document_a",), "strength.part_a_")]
)
def test_each_rule_set_is_reported_by_itself(rules: tuple[str, ...], begin: str) -> None:
    findings = found(on_wall(strength_rules=rules))
    both = [f for f in found(JOB) if f.rule.startswith(begin)]
    assert [f for f in findings if f.rule.startswith(begin)] == both
    assert len(both) > 0
    other = {"strength.en_": "strength.part_a_", "strength.part_a_": "strength.en_"}[begin]
    assert not [f for f in findings if f.rule.startswith(other)]


def test_wall_without_or_with_a_doubled_rule_set_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^\.strength_rules: must name at least one rule set, has none$"):
        Wall(width=900, height=2400, strength_rules=())
    with pytest.raises(ValueError, match=r"^\.strength_rules\[1\]: stands twice: 'en_1996'$"):
        Wall(width=900, height=2400, strength_rules=("en_1996", "en_1996"))


@pytest.mark.parametrize("make_up", ["timber_stud", "metal_stud"])
def test_stud_wall_is_not_judged_as_masonry(make_up: str) -> None:
    assert found(on_wall(make_up=make_up)) == ()


def test_old_job_files_read_with_both_rule_sets_and_an_unknown_other_face() -> None:
    text = write_job(JOB).decode()
    for key in ("shell", "machine_cut", "other_face"):
        start = text.index(f'    "{key}"')
        text = text[:start] + text[text.index("\n", start) + 1 :]
    start = text.index(',\n    "strength_rules"')
    text = text[:start] + text[text.index("]", start) + 1 :]
    assert read_job(text.encode()) == JOB


# what is said


def test_recess_too_deep_for_both_rule_sets_names_the_ways_out_with_millimetres() -> None:
    findings = found(on_wall(loadbearing="yes"))
    by_table = only(findings, "strength.en_upright_depth_from_116", "valve")
    assert (by_table.status, by_table.measured, by_table.limit, by_table.unit) == ("refer", 58, 30, "mm")
    assert by_table.message == (  # 58 - 30 = 28
        "Recess of valve: 58 mm deep, at most 30 mm in the 140 mm leaf. Pack out or build out in front by "
        "28 mm, choose a shallower box, fix a lining or stud wall, or have an engineer calculate it."
    )
    by_third = only(findings, "strength.part_a_upright", "valve")
    assert (by_third.status, by_third.measured, by_third.limit) == ("refer", 58, 46.6667)  # 140 / 3
    assert "build out in front by 11.3 mm" in by_third.message  # 58 - 46.67


def test_recess_that_its_finish_lets_be_shallower_is_told_so() -> None:
    # the finish comes to 13 to 15; the head's elbow wants 40 to 60: cut 27 to 45 deep, aim for 36
    finding = only(found(on_wall(loadbearing="yes")), "strength.en_upright_depth_from_116", "head", "outlet")
    assert (finding.status, finding.measured) == ("refer", 36)
    assert "Cut head 27 mm deep, which its finish allows; or pack out" in finding.message


def test_pipes_alike_share_one_finding() -> None:
    finding = only(found(JOB), "strength.en_upright_depth_from_116", "hot", "cold", "riser")
    assert finding.message.startswith("Upright chase of hot, cold and riser: 33 mm deep, at most 30 mm")
    assert "build out in front by 3 mm" in finding.message


def test_clear_pipes_share_one_finding_that_shows_the_worst() -> None:
    pipes = tuple(pipe.but(wrap=0.0) if pipe.id == "hot" else pipe for pipe in JOB.pipes)
    finding = only(found(JOB.but(pipes=pipes)), "strength.part_a_upright", "hot", "cold", "riser")
    assert (finding.status, finding.measured) == ("clear", 33)  # hot without wrap is 25 deep
    assert finding.message.startswith("Upright chase of hot, cold and riser, the worst: 33 mm deep")


def test_worst_leg_of_a_pipe_speaks_for_it() -> None:
    # level legs of 100, 1100 and 965: the longest breaks 1000
    route = ((100.0, 100.0), (200.0, 100.0), (200.0, 200.0), (1300.0, 200.0), (1300.0, 300.0))
    job = suggested_job(760, 760, "left", 3000)
    pipes = (Pipe(id="hot", service="hot", end="valve.hot", route=(*route, (335.0, 300.0))),)
    finding = only(found(job.but(pipes=pipes)), "strength.spec_level_length")
    assert (finding.status, finding.measured) == ("refer", 1100)


def test_inclined_chase_is_held_to_a_sixth_like_a_level_one() -> None:
    plan = fitted(140, branch=30)
    pipes = tuple(
        pipe.but(route=((4000.0, 0.0), (4600.0, 200.0))) if pipe.id == "branch" else pipe
        for pipe in plan.job.pipes
    )
    finding = only(tuple(strength(Plan(plan.job.but(pipes=pipes), PARTS, RULES))), "strength.part_a_level")
    assert (finding.status, finding.limit) == ("refer", 23.3333)  # 140 / 6
    assert finding.message.startswith("Inclined chase of branch: 30 mm deep, at most 23.3 mm")


@pytest.mark.parametrize(("names", "said"), [(("a",), "a"), (("a", "b"), "a and b"), ("abc", "a, b and c")])
def test_names_are_listed_as_people_do(names: tuple[str, ...], said: str) -> None:
    assert listed(names) == said


# specification practice


@pytest.mark.parametrize(("long", "status"), [(999.9, "clear"), (1000, "clear"), (1000.1, "refer")])
def test_level_chase_is_at_most_1000_long(long: float, status: str) -> None:
    # UK masonry specification practice P31/650; the pocket of the spout takes the last 25 of the pipe
    plan = fitted(330)
    pipes = tuple(
        pipe.but(route=((4600 - long, 200.0),)) if pipe.id == "branch" else pipe for pipe in plan.job.pipes
    )
    findings = tuple(strength(Plan(plan.job.but(pipes=pipes), PARTS, RULES)))
    assert only(findings, "strength.spec_level_length").status == status


# hollow block


def hollow(shell: float | None, chase: float = 25) -> tuple[Finding, ...]:
    return tuple(strength(fitted(215, chase=chase, make_up="hollow_block", shell=shell, box=20, branch=10)))


@pytest.mark.parametrize(
    ("chase", "status"), [(24.9, "tight"), (25, "tight"), (25.1, "refer"), (22.9, "clear")]
)
def test_15_mm_of_the_face_shell_stay_before_the_void(chase: float, status: str) -> None:
    # shell 40: 40 - 15 = 25; two mm are what a disc wanders
    assert worst(hollow(40, chase), "hot", "strength.void") == status


def test_unmeasured_face_shell_is_referred_with_what_to_measure() -> None:
    finding = only(hollow(None), "strength.void")
    assert finding.status == "refer"
    assert "Drill one hole, measure the face shell and enter it" in finding.message


def test_hollow_block_is_never_cut_by_specification_practice() -> None:
    finding = only(hollow(60), "strength.spec_hollow")
    assert (finding.status, finding.measured, finding.limit) == ("refer", 4, 0)  # two chases, valve and spout
    assert (
        only(tuple(strength(bare(make_up="hollow_block", shell=60))), "strength.spec_hollow").status
        == "clear"
    )


def test_chase_that_reaches_the_void_counts_down_to_the_far_shell() -> None:
    # EN 1996-1-1 Table 8.1 note 1: depth counts any hole reached; shell 22 of a 215 block: 215 - 22 = 193
    finding = next(
        f for f in hollow(22) if f.rule == "strength.en_upright_depth_from_176" and "hot" in f.parts
    )
    assert (finding.status, finding.measured) == ("refer", 193)
    assert "the void that it reaches included" in finding.message
    assert "build out in front by 3 mm" in finding.message  # 25 - 22 keeps the shell whole


# the other face


def back_to_back(gap: float, thickness: float = 140) -> tuple[Finding, ...]:
    # `hot` of the fitted wall ends 20 beside its axis at 2355: at x = 2375
    far = FarCut(id="cistern", x=2375 + gap, y=0, width=100, height=500)
    return tuple(strength(fitted(thickness, other_face=(far,), box=5)))


def test_nobody_has_looked_at_the_other_face() -> None:
    finding = only(tuple(strength(fitted(other_face=None))), "strength.part_a_back_to_back")
    assert finding.status == "refer"
    assert "Look before cutting" in finding.message


def test_nothing_is_cut_into_the_other_face() -> None:
    finding = only(tuple(strength(fitted(other_face=()))), "strength.part_a_back_to_back")
    assert finding.status == "clear"


@pytest.mark.parametrize(("gap", "status"), [(0.1, "clear"), (0, "clear"), (-0.1, "refer")])
def test_cuts_do_not_lie_back_to_back(gap: float, status: str) -> None:
    finding = only(back_to_back(gap), "strength.part_a_back_to_back", "hot", "cistern")
    assert (finding.status, finding.measured) == (status, gap)


@pytest.mark.parametrize(("gap", "status"), [(140.1, "clear"), (140, "clear"), (139.9, "refer")])
def test_cuts_in_both_faces_keep_the_thickness_of_the_wall_apart(gap: float, status: str) -> None:
    assert only(back_to_back(gap), "strength.spec_offset").status == status


# rules as data


def with_limit(rule: str, value: float) -> dict[str, Limit]:
    return {rule: RULES[rule].but(value=value)}


def test_own_row_for_thinner_walls_is_read_like_any_other() -> None:
    names = ("upright_depth", "upright_width", "level_depth", "level_short_depth")
    own = {
        f"strength.en_{name}_from_75": RULES[f"strength.en_{name}_from_85"].but(
            rule=f"strength.en_{name}_from_75"
        )
        for name in names
    }
    findings = tuple(strength(fitted(80, rules=RULES.with_own(own))))
    assert worst(findings, "hot", "strength.en_upright_depth_from_75") == "clear"
    assert (
        worst(tuple(strength(fitted(74.9, rules=RULES.with_own(own)))), rule="strength.en_thick") == "refer"
    )


@pytest.mark.parametrize(
    ("thickness", "suffix"), [(85, "from_85"), (115.5, "from_85"), (300, "from_226"), (300.1, "above_300")]
)
def test_thickness_between_two_rows_takes_that_of_the_thinner_wall(thickness: float, suffix: str) -> None:
    limit = row(RULES, "strength.en_upright_width", thickness)
    assert limit is not None
    assert limit.rule == f"strength.en_upright_width_{suffix}"


def test_thickness_below_all_rows_has_none() -> None:
    assert row(RULES, "strength.en_upright_width", 84.9) is None


# what must hold for any cut

DEPTHS = st.floats(6, 120)
THICKNESS = st.floats(60, 400)
MASONRY = st.sampled_from(["dense_block", "brick", "hollow_block"])


def statuses(plan: Plan, *ignored: str) -> dict[str, int]:
    """Return how bad the worst finding on each part is; a finding on no part counts for all."""
    findings = [f for f in strength(plan) if f.rule not in ignored]
    parts = ("hot", "branch", "valve")
    return {
        part: max(ORDER.index(f.status) for f in findings if part in f.parts or not f.parts) for part in parts
    }


@given(DEPTHS, DEPTHS, st.floats(0, 60), THICKNESS, MASONRY)
def test_deeper_cut_never_clears_a_finding(
    one: float, other: float, deeper: float, thickness: float, make_up: str
) -> None:
    made: dict[str, Any] = {"make_up": make_up, "shell": 30}
    before = statuses(fitted(thickness, chase=one, branch=one, box=other, **made))
    after = statuses(fitted(thickness, chase=one + deeper, branch=one + deeper, box=other + deeper, **made))
    assert all(after[part] >= before[part] for part in before)


@given(DEPTHS, DEPTHS, THICKNESS, st.floats(0, 200), MASONRY)
def test_thinner_wall_never_clears_a_finding(
    one: float, other: float, thickness: float, thinner: float, make_up: str
) -> None:
    made: dict[str, Any] = {"make_up": make_up, "shell": 30}
    before = statuses(fitted(thickness, chase=one, branch=one, box=other, **made))
    after = statuses(fitted(max(20, thickness - thinner), chase=one, branch=one, box=other, **made))
    assert all(after[part] >= before[part] for part in before)


@given(
    st.sampled_from([limit.rule for limit in RULES if limit.rule.startswith("strength.")]),
    st.floats(0, 1), DEPTHS, DEPTHS, THICKNESS, MASONRY, st.sampled_from(["yes", "no"]),
)  # fmt: skip
def test_stricter_rule_never_clears_a_finding(
    rule: str, share: float, one: float, other: float, thickness: float, make_up: str, known: str
) -> None:
    held = RULES[rule]
    value = held.value * share if held.sense == "at most" else held.value / max(share, 1e-3)
    strict = RULES.with_own(with_limit(rule, value))
    made: dict[str, Any] = {"make_up": make_up, "shell": 30, "loadbearing": known}
    before = statuses(fitted(thickness, chase=one, branch=one, box=other, **made))
    after = statuses(fitted(thickness, chase=one, branch=one, box=other, rules=strict, **made))
    assert all(after[part] >= before[part] for part in before)


def reduced(job: Job) -> list[tuple[object, ...]]:
    """Return what is measured, without the names of pipes, which change sides in a mirror."""
    return sorted(
        (f.rule, f.status, len(f.parts), f.measured is None, f.measured or 0.0, f.limit or 0.0)
        for f in found(job)
    )


WINDOW = Opening(id="window", x=1500, y=900, width=600, height=900)
CISTERN = FarCut(id="cistern", x=600, y=400, width=150, height=900, depth=40)


@given(st.floats(-150, 150), st.floats(-200, 200), st.sampled_from([140.0, 215.0, 330.0]))
def test_mirrored_wall_has_the_mirrored_findings(dx: float, dy: float, thickness: float) -> None:
    job = suggested_job(760, 760, "left", 2600)
    job = job.but(wall=job.wall.but(thickness=thickness, openings=(WINDOW,), other_face=(CISTERN,)))
    job = moved(Plan(job, PARTS, RULES), (Ref("fitting", "outlet"),), dx, dy)
    mirrored = mirrored_wall(job)
    assert mirrored_wall(mirrored) == job
    assert reduced(mirrored) == reduced(job)


@given(st.integers(-200, 900))
def test_moving_everything_along_the_wall_changes_nothing_that_is_measured(dx: int) -> None:
    job = suggested_job(760, 760, "left", 3000)
    job = job.but(
        wall=job.wall.but(thickness=215.0, openings=(WINDOW,), other_face=(CISTERN,)),
        enclosure=job.enclosure.but(left=300.0),
    )
    chosen = [ref for ref in things(job) if ref.kind != "hose"]
    away = moved(Plan(job, PARTS, RULES), chosen, dx, 0)
    far = CISTERN.but(x=CISTERN.x + dx)
    away = away.but(wall=away.wall.but(other_face=(far,)))
    assert reduced(away) == reduced(job)


def test_list_of_findings_does_not_grow_with_the_pipes() -> None:
    plan = bare(width=20_000)
    cuts = tuple(upright(20, x=300 * n)._replace(owners=(f"p{n}",)) for n in range(60))
    findings = tuple(en_1996(plan, (*cuts, level(5)), ()))
    # depth, width, gap and total of the upright ones; depth, width and height of the level one
    assert len(findings) == 7
