"""The job: names stand for one thing, references lead somewhere, and an edit shares what it leaves alone."""

import pytest
from hypothesis import given

from geometry.model import (
    Door,
    Head,
    Hose,
    HoseOutlet,
    Job,
    Opening,
    Pipe,
    Rail,
    Screen,
    Stud,
    Valve,
)
from geometry.model.wall import FarCut
from geometry.setting_out.arrangement import suggested_job
from tests.strategies import jobs

JOB = suggested_job(760, 760, "left")


def refusal(**changes: object) -> str:
    with pytest.raises(ValueError, match=r"^\.") as problem:
        JOB.but(**changes)
    return str(problem.value)


# one name, one thing: findings name parts by id, and what has one owner is not judged against itself


@pytest.mark.parametrize("field", ["fittings", "hoses", "pipes"])
def test_a_name_that_stands_twice_in_a_list_is_refused(field: str) -> None:
    records = getattr(JOB, field)
    last = len(records)
    assert refusal(**{field: (*records, records[0])}) == (
        f".{field}[{last}].id: stands twice: {records[0].id!r}, as in {field}[0]"
    )


def test_a_service_may_not_have_the_name_of_a_fitting() -> None:
    assert (
        refusal(services=(Stud(id="valve", x=0),))
        == ".fittings[0].id: stands twice: 'valve', as in services[0]"
    )


def test_an_opening_a_screen_a_door_and_a_cut_in_the_other_face_have_names_of_their_own() -> None:
    hatch = JOB.wall.but(openings=(Opening(id="hot", x=0, y=0, width=9, height=9),))
    assert refusal(wall=hatch) == ".pipes[0].id: stands twice: 'hot', as in wall.openings[0]"
    back = JOB.wall.but(other_face=(FarCut(id="head", x=0, y=0, width=9, height=9),))
    assert refusal(wall=back) == ".fittings[1].id: stands twice: 'head', as in wall.other_face[0]"
    pane = Screen(id="p", start=(0, 9), end=(9, 9))
    door = Door(id="p", hinge=(0, 0), width=9, angle_from=0, angle_to=9)
    both = JOB.enclosure.but(screens=(pane,), doors=(door,))
    assert refusal(enclosure=both) == ".enclosure.doors[0].id: stands twice: 'p', as in enclosure.screens[0]"


@given(jobs())
def test_all_names_of_a_job_differ(job: Job) -> None:
    names = [name for _, name in job.named()]
    assert len(set(names)) == len(names)


# references


@pytest.mark.parametrize(
    ("hose", "said"),
    [
        (Hose(id="hose", part="hose-1500", outlet="gone", rail="rail"), "outlet: no such fitting: 'gone'"),
        (Hose(id="hose", part="hose-1500", outlet="valve", rail="rail"), "outlet: no such fitting: 'valve'"),
        (Hose(id="hose", part="hose-1500", outlet="outlet", rail="head"), "rail: no such fitting: 'head'"),
        (Hose(id="hose", part="hose-1500", outlet="rail", rail="outlet"), "outlet: no such fitting: 'rail'"),
    ],
)
def test_a_hose_hangs_between_an_outlet_and_a_rail_that_are_there(hose: Hose, said: str) -> None:
    other = Hose(id="other", part="hose-1500", outlet="outlet", rail="rail")
    assert refusal(hoses=(other, hose)) == f".hoses[1].{said}"


@pytest.mark.parametrize("field", ["start", "end"])
@pytest.mark.parametrize("port", ["gone.in", "gone", ".in", " valve.hot"])
def test_a_pipe_leads_to_fittings_that_are_there(field: str, port: str) -> None:
    bad = JOB.pipes[2].but(**{field: port})
    assert refusal(pipes=(JOB.pipes[0], bad)) == f".pipes[1].{field}: no such fitting and port: {port!r}"


def test_removing_a_fitting_under_a_hose_is_refused() -> None:
    rest = tuple(fitting for fitting in JOB.fittings if fitting.id != "rail")
    assert refusal(fittings=rest) == ".hoses[0].rail: no such fitting: 'rail'"


# looking up and changing


def test_a_fitting_is_found_by_its_id() -> None:
    assert isinstance(JOB.fitting("outlet"), HoseOutlet)
    with pytest.raises(KeyError, match="gone"):
        JOB.fitting("gone")


def test_moving_one_fitting_shares_all_else() -> None:
    moved = JOB.moved("head", 400.04, 2150)
    assert moved.fitting("head").at == (400.0, 2150.0)
    assert JOB.fitting("head").at == (380.0, 2190.0)
    for field in ("about", "wall", "enclosure", "services", "hoses", "pipes", "finish"):
        assert getattr(moved, field) is getattr(JOB, field)
    for name in ("valve", "outlet", "rail"):
        assert moved.fitting(name) is JOB.fitting(name)


def test_moving_to_where_nothing_can_be_is_refused() -> None:
    with pytest.raises(ValueError, match=r"^\.x: must be at least -20000 and at most 20000 mm, got 30000$"):
        JOB.moved("head", 30_000, 2150)


def test_a_fitting_is_replaced_in_its_place_and_a_new_one_comes_last() -> None:
    changed = JOB.with_fitting(Head(id="head", part="head-wall-300", x=1, height=2))
    assert [fitting.id for fitting in changed.fittings] == ["valve", "head", "outlet", "rail"]
    assert changed.fitting("head").part == "head-wall-300"
    grown = JOB.with_fitting(Rail(id="second", part="rail-700", x=1, height=2))
    assert [fitting.id for fitting in grown.fittings] == ["valve", "head", "outlet", "rail", "second"]


def test_replacing_a_fitting_by_an_equal_one_changes_nothing() -> None:
    assert JOB.with_fitting(JOB.fitting("valve").but()) == JOB


def test_a_valve_may_not_become_what_a_hose_hangs_on() -> None:
    with pytest.raises(ValueError, match=r"^\.hoses\[0\]\.outlet: no such fitting: 'outlet'$"):
        JOB.with_fitting(Valve(id="outlet", part="valve-two-round", x=1, height=1))


def test_a_pipe_may_end_twice_on_one_fitting() -> None:
    # two pipes on one port are a design mistake, which a check reports, not a broken job
    twin = Pipe(id="twin", service="hot", end="valve.hot", route=((300, 0),))
    assert JOB.but(pipes=(*JOB.pipes, twin)).pipes[-1] is twin
