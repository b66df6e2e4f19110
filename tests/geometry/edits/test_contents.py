"""Adding, removing, duplicating, and the names that are free."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.edits.contents import added, duplicated, removed
from geometry.edits.refs import Ref, free_name, things
from geometry.model import (
    Accessory,
    Door,
    Head,
    Hose,
    HoseOutlet,
    Job,
    Opening,
    Rail,
    Screen,
    Spout,
    Stud,
    Valve,
)
from geometry.parts.catalogue import generic_parts
from geometry.parts.records import (
    HeadPart,
    HosePart,
    OutletPart,
    RailPart,
    SpoutPart,
    ValvePart,
)
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.strategies import jobs

PARTS, RULES = generic_parts(), standard_rules()
JOB = suggested_job(760, 760, "left")
VALVE, HEAD, OUTLET, RAIL = (Ref("fitting", name) for name in ("valve", "head", "outlet", "rail"))


def plan_of(job: Job) -> Plan:
    return Plan(job, PARTS, RULES)


def names(job: Job) -> list[str]:
    return [ref.id for ref in things(job)]


# what there is


def test_everything_of_a_job_can_be_chosen_in_the_order_of_the_file() -> None:
    job = JOB.but(
        services=(Stud(id="stud", x=1),),
        wall=JOB.wall.but(openings=(Opening(id="hatch", x=1, y=1, width=1, height=1),)),
    )
    assert list(things(job)) == [
        VALVE, HEAD, OUTLET, RAIL, Ref("hose", "hose"), Ref("pipe", "hot"), Ref("pipe", "cold"),
        Ref("pipe", "riser"), Ref("pipe", "branch"), Ref("service", "stud"), Ref("opening", "hatch"),
    ]  # fmt: skip
    assert things(job)[HEAD] is job.fitting("head")


# free names


@pytest.mark.parametrize(
    ("wish", "name"),
    [("spout", "spout"), ("head", "head-2"), ("hot", "hot-2"), ("head-2", "head-2"), ("hose", "hose-2")],
)
def test_a_name_that_is_free(wish: str, name: str) -> None:
    assert free_name(JOB, wish) == name


def test_numbers_count_on_and_gaps_are_filled() -> None:
    heads = tuple(Head(id=name, part="head-wall-200", x=1, height=1) for name in ("head", "head-2", "head-4"))
    job = JOB.but(fittings=heads, hoses=(), pipes=())
    assert free_name(job, "head-2") == "head-3"
    assert free_name(job, "head") == "head-3"


def test_a_name_of_digits_only_keeps_them() -> None:
    job = JOB.but(fittings=(Head(id="15", part="head-wall-200", x=1, height=1),), hoses=(), pipes=())
    assert free_name(job, "15") == "15-2"


def test_a_name_of_the_greatest_length_still_finds_one_of_no_more() -> None:
    longest = "n" * 60
    job = JOB.but(fittings=(Head(id=longest, part="head-wall-200", x=1, height=1),), hoses=(), pipes=())
    assert free_name(job, longest) == "n" * 58 + "-2"


def test_screens_and_doors_have_names_that_are_taken() -> None:
    enclosure = JOB.enclosure.but(
        screens=(Screen(id="pane", start=(0, 1), end=(1, 1)),),
        doors=(Door(id="door", hinge=(0, 0), width=1, angle_from=0, angle_to=1),),
    )
    job = JOB.but(enclosure=enclosure)
    assert (free_name(job, "pane"), free_name(job, "door")) == ("pane-2", "door-2")


@given(jobs(), st.data())
def test_a_free_name_can_be_used(job: Job, data: st.DataObject) -> None:
    taken = [name for _, name in job.named()]
    wish = data.draw(st.sampled_from([*taken, "new"]))
    extra = Stud(id=free_name(job, wish), x=0)
    assert job.but(services=(*job.services, extra)).services[-1] is extra


# removing


def test_removing_a_pipe_leaves_all_else() -> None:
    job = removed(JOB, (Ref("pipe", "riser"),))
    assert names(job) == ["valve", "head", "outlet", "rail", "hose", "hot", "cold", "branch"]
    assert job.wall is JOB.wall
    assert job.fitting("valve") is JOB.fitting("valve")


@pytest.mark.parametrize(
    ("chosen", "left"),
    [
        (VALVE, ["head", "outlet", "rail", "hose"]),  # all four pipes hung on the valve
        (HEAD, ["valve", "outlet", "rail", "hose", "hot", "cold", "branch"]),
        (OUTLET, ["valve", "head", "rail", "hot", "cold", "riser"]),  # its hose goes too
        (RAIL, ["valve", "head", "outlet", "hot", "cold", "riser", "branch"]),
        (Ref("hose", "hose"), ["valve", "head", "outlet", "rail", "hot", "cold", "riser", "branch"]),
    ],
)
def test_removing_a_fitting_takes_hoses_and_pipes_along(chosen: Ref, left: list[str]) -> None:
    assert names(removed(JOB, (chosen,))) == left


def test_removing_what_is_in_the_wall() -> None:
    job = JOB.but(
        services=(Stud(id="stud", x=1), Accessory(id="fan", x=1, height=1)),
        wall=JOB.wall.but(openings=(Opening(id="hatch", x=1, y=1, width=1, height=1),)),
    )
    assert removed(job, (Ref("service", "stud"), Ref("service", "fan"), Ref("opening", "hatch"))) == JOB


def test_only_the_kind_that_was_chosen_goes() -> None:
    assert removed(JOB, (Ref("pipe", "head"), Ref("fitting", "riser"), Ref("service", "valve"))) == JOB


@given(jobs(), st.data())
def test_whatever_is_removed_leaves_a_job_that_can_be_planned(job: Job, data: st.DataObject) -> None:
    everything = list(things(job))
    chosen = [ref for ref in everything if data.draw(st.booleans())]
    after = removed(job, chosen)
    assert not set(things(after)) & set(chosen)
    plan_of(after)


# adding


@pytest.mark.parametrize(
    ("part", "kind", "name"),
    [
        ("valve-one-square", Valve, "valve-2"),
        ("head-wall-300", Head, "head-2"),
        ("outlet-round", HoseOutlet, "outlet-2"),
        ("rail-900", Rail, "rail-2"),
        ("spout-170", Spout, "spout"),
    ],
)
def test_a_fitting_of_each_kind_is_added_at_its_place(part: str, kind: type, name: str) -> None:
    found = next(one for one in PARTS if one.id == part)
    job, ref = added(JOB, found, (123.04, 456.78))
    assert ref == Ref("fitting", name)
    fitting = job.fittings[-1]
    assert isinstance(fitting, kind)
    assert (fitting.id, fitting.part, fitting.at) == (name, part, (123, 456.8))
    assert job.fittings[:-1] == JOB.fittings
    plan_of(job)


def test_a_head_on_a_ceiling_arm_goes_to_the_ceiling() -> None:
    job, _ = added(JOB, PARTS.find("head-ceiling-250", HeadPart), (300, 1000))
    assert job.fittings[-1].at == (300, 2400)


def test_a_hose_is_hung_between_the_first_outlet_and_rail_without_one() -> None:
    hose = PARTS.find("hose-1750", HosePart)
    bare = JOB.but(hoses=())
    job, ref = added(bare, hose, (0, 0))
    assert (job.hoses, ref) == (
        (Hose(id="hose", part="hose-1750", outlet="outlet", rail="rail"),),
        Ref("hose", "hose"),
    )
    with pytest.raises(ValueError, match=r"^a hose wants an outlet and a rail that have none yet$"):
        added(job, hose, (0, 0))
    more, _ = added(job, PARTS.find("outlet-round", OutletPart), (100, 1000))
    more, _ = added(more, PARTS.find("rail-700", RailPart), (100, 1100))
    more, ref = added(more, hose, (0, 0))
    assert more.hoses[-1] == Hose(id="hose-2", part="hose-1750", outlet="outlet-2", rail="rail-2")


@pytest.mark.parametrize("name", ["copper-15", "tray-760x760", "handset-110"])
def test_a_part_that_is_not_fitted_by_itself_is_refused_by_its_name(name: str) -> None:
    part = next(one for one in PARTS if one.id == name)
    with pytest.raises(ValueError, match=f"^{part.name} is not fitted to the wall by itself$"):
        added(JOB, part, (0, 0))


def test_a_place_that_cannot_be_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^\.x: must be at least -20000 and at most 20000 mm, got 99999$"):
        added(JOB, PARTS.find("spout-170", SpoutPart), (99_999, 0))


def test_a_valve_that_is_added_is_found_by_the_plan() -> None:
    job, ref = added(JOB, PARTS.find("valve-one-round", ValvePart), (1000, 1100))
    assert f"{ref.id}.hot" in plan_of(job).ports


# duplicating


def test_copies_stand_beside_what_they_copy_under_names_of_their_own() -> None:
    job, copies = duplicated(plan_of(JOB), (HEAD, RAIL), 150, -20)
    assert copies == (Ref("fitting", "head-2"), Ref("fitting", "rail-2"))
    assert job.fitting("head-2") == JOB.fitting("head").but(id="head-2", x=530, height=2170)
    assert job.fitting("rail-2").at == (720, 1100)
    assert job.fittings[:4] == JOB.fittings
    assert (job.pipes, job.hoses) == (JOB.pipes, JOB.hoses)


def test_copying_a_copy_counts_on() -> None:
    job, first = duplicated(plan_of(JOB), (HEAD,))
    job, second = duplicated(plan_of(job), first)
    assert second == (Ref("fitting", "head-3"),)
    assert job.fitting("head-3").x == 580  # 380 + 100 + 100


def test_services_and_openings_are_copied_and_pipes_and_hoses_are_not() -> None:
    job = JOB.but(
        services=(Stud(id="stud 400", x=400),),
        wall=JOB.wall.but(openings=(Opening(id="hatch", x=1, y=2, width=3, height=4),)),
    )
    chosen = (Ref("service", "stud 400"), Ref("opening", "hatch"), Ref("pipe", "hot"), Ref("hose", "hose"))
    after, copies = duplicated(plan_of(job), chosen, 600, 10)
    assert copies == (Ref("service", "stud 400-2"), Ref("opening", "hatch-2"))
    assert after.services[1] == Stud(id="stud 400-2", x=1000)
    assert after.wall.openings[1] == Opening(id="hatch-2", x=601, y=12, width=3, height=4)
    assert (after.pipes, after.hoses) == (job.pipes, job.hoses)


@given(jobs())
def test_everything_duplicated_and_the_copies_removed_is_as_it_was(job: Job) -> None:
    after, copies = duplicated(plan_of(job), tuple(things(job)), 10, 10)
    plan_of(after)
    kinds = ("fitting", "service", "opening")
    assert len(copies) == sum(ref.kind in kinds for ref in things(job))
    assert removed(after, copies) == job


def test_something_that_is_not_there_cannot_be_duplicated() -> None:
    with pytest.raises(KeyError):
        duplicated(plan_of(JOB), (Ref("fitting", "gone"),))
