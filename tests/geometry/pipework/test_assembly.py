"""The order of making up: solder before the body is near, the tightest port first, room for the spanner."""

import pytest

from geometry.model import Pipe
from geometry.pipework.assembly import assembly
from geometry.pipework.cut_list import runs
from geometry.plan import Plan
from tests.export.jobs import sample, usual
from tests.geometry.pipework.walls import hot, with_pipes
from tests.samples import SAMPLES


def subjects(plan: Plan) -> list[str]:
    return [step.subject for step in assembly(plan, runs(plan))]


@pytest.mark.parametrize("name", SAMPLES)
def test_all_soldering_is_finished_before_a_body_is_fixed(name: str) -> None:
    said = subjects(sample(name))
    soldering = [index for index, word in enumerate(said) if word.startswith("Solder")]
    fixing = [index for index, word in enumerate(said) if word.startswith("Fix")]
    assert max(soldering, default=-1) < min(fixing)


def test_the_whole_order_of_the_usual_arrangement() -> None:
    assert subjects(usual()) == [
        "Cut", "Solder H", "Solder C", "Solder 1", "Solder 2", "Cool, wipe", "Fix valve",
        "Join", "Join", "Join", "Join", "Clip", "Supply", "Plug",
    ]  # fmt: skip


def test_the_port_with_least_room_is_joined_first() -> None:
    # recess of the valve from 315 to 470 and 935 to 1125: hot at 335 has 20 to its side (40 across), cold at
    # 425 has 45 (90), out1 at 380 has 65 (130), out2 at 1030 has 95 (190)
    steps = [step for step in assembly(usual(), runs(usual())) if step.subject == "Join"]
    assert [step.text.partition(":")[0] for step in steps] == [
        f"Lay {mark} in its chase, join it to valve.{port}"
        for mark, port in (("H", "hot"), ("C", "cold"), ("1", "out1"), ("2", "out2"))
    ]
    assert steps[0].caution.startswith("There are 40 mm across for the spanner, 45 are wanted:")
    assert steps[1].caution == ""


def test_joints_made_in_a_chase_ask_for_their_room() -> None:
    # a chase for copper 15 with 4 of wrap is 39 wide; a spanner wants 60
    plan = with_pipes(hot((1035, 0), (1035, 480), (335, 480), jointing="compression"))
    laid = next(step for step in assembly(plan, runs(plan)) if step.subject == "Lay H")
    assert laid.caution == "Cut the chase 60 wide at each of its 2 joints."


def test_bends_are_made_before_anything_is_joined() -> None:
    plan = with_pipes(hot((1035, 0), (1035, 480), (335, 480), turns="bends"))
    assert subjects(plan)[:2] == ["Cut", "Bend"]


def test_without_pipes_there_is_nothing_to_make_up() -> None:
    assert subjects(with_pipes()) == []
    pipe = Pipe(id="riser", service="mixed", start="valve.out1", end="head.in")
    assert "Supply" not in subjects(with_pipes(pipe))
