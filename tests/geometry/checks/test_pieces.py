"""Whether pipes can be made up: long enough, just so, too short; joints; sizes measured by hand."""

import pytest

from geometry.checks.pieces import pieces
from geometry.finding import Finding
from geometry.model import Measured, Pipework
from geometry.plan import Plan
from tests.export.jobs import sample
from tests.geometry.pipework.walls import hot, with_pipes
from tests.samples import SAMPLES


def found(plan: Plan, rule: str) -> tuple[Finding, ...]:
    return tuple(finding for finding in pieces(plan) if finding.rule == rule)


@pytest.mark.parametrize(
    ("apart", "room", "status"),
    # two elbows take 12 to the stop and 10.6 of tube each: 2 x 22.6 = 45.2
    [(30.0, -15.2, "clash"), (45.2, 0.0, "clear"), (45.3, 0.1, "clear"), (45.1, -0.1, "clash")],
)
def test_tube_between_two_elbows(apart: float, room: float, status: str) -> None:
    x = 335 + apart
    (finding,) = found(with_pipes(hot((x, 0), (x, 480), (335, 480))), "pipe.piece")
    assert finding.measured == pytest.approx(room)
    assert finding.status == status
    assert finding.place == ((x, 480), (335, 480))
    assert finding.parts == ("hot",)
    assert finding.message.startswith("H-2 would be" if status == "clash" else "H-2 of hot shows")


def test_bends_too_near_to_each_other_clash() -> None:
    # two set-backs of 4 x 15 on 100
    plan = with_pipes(hot((435, 0), (435, 400), (335, 400), turns="bends"))
    (finding,) = found(plan, "pipe.piece")
    assert (finding.measured, finding.status) == (-20.0, "clash")


def test_a_pipe_that_comes_back_on_itself_clashes_where_it_turns() -> None:
    (finding,) = found(with_pipes(hot((335, 0), (335, 500), (335, 300))), "pipe.bend")
    assert (finding.status, finding.place, finding.measured) == ("clash", ((335, 500),), 180.0)


def test_a_tube_that_is_not_joined_as_chosen_clashes_and_is_not_cut() -> None:
    plan = with_pipes(hot((335, 0), tube="barrier-15", jointing="capillary"))
    (finding,) = found(plan, "pipe.joint")
    assert finding.status == "clash"
    assert finding.message == (
        "hot: no capillary joint is known for Plastic barrier pipe 15. "
        "Choose another way of jointing, or another tube."
    )
    assert found(plan, "pipe.piece") == ()


@pytest.mark.parametrize(
    ("measured", "words"),
    [
        ({"outside": 17}, "elbow, press 17: no press joint is known for 17 mm"),
        ({"what": "port"}, "nut and olive, press 15: a press joint is not made on a port's thread"),
        ({"value": -3}, "elbow, press 15: it must be at least 0 and at most 20000 mm, got -3"),
    ],
)
def test_a_measured_size_that_cannot_be_is_unchecked(measured: dict[str, object], words: str) -> None:
    one = Measured(**{"jointing": "press", "what": "elbow", "outside": 15, "value": 3, **measured})  # type: ignore[arg-type]
    (finding,) = found(with_pipes(hot((335, 0)), pipework=Pipework(measured=(one,))), "pipe.measured")
    assert finding.status == "unchecked"
    assert finding.message == f"Measured by hand, {words}. The typical size is used."


def test_a_measured_size_that_can_be_is_used() -> None:
    # elbows of 8 instead of 12: 2 x (8 + 10.6) = 37.2 of 40
    one = Measured(jointing="capillary", outside=15, what="elbow", value=8)
    plan = with_pipes(hot((375, 0), (375, 480), (335, 480)), pipework=Pipework(measured=(one,)))
    assert [finding.status for finding in found(plan, "pipe.measured")] == ["clear"]
    assert [finding.measured for finding in found(plan, "pipe.piece")] == [pytest.approx(2.8)]


@pytest.mark.parametrize("name", SAMPLES)
def test_the_pieces_of_every_sample_can_be_made(name: str) -> None:
    assert {finding.status for finding in pieces(sample(name))} == {"clear"}
