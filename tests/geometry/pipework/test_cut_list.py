"""Cut lengths against hand sums; names, faults, measured sizes, and what the drawing shows as a whole."""

import io
import math
from itertools import pairwise

import pytest
from hypothesis import given

from export.drawings.marks import pipe_letter
from geometry.model import Job, Measured, OldPipe, Pipe, Pipework
from geometry.pipework.cut_list import Piece, piece_marks, pieces, runs, unjoined
from tests.export.jobs import sample
from tests.geometry.pipework.walls import USUAL, hot, planned, with_pipes
from tests.samples import SAMPLES
from tests.strategies import jobs


def cuts(*made: Piece) -> dict[str, float]:
    return {piece.name: piece.cut for piece in made}


# five assemblies worked by hand; typical sizes of joints.toml


def test_an_elbow_at_each_end() -> None:
    # H-2 from elbow to elbow: 700 from centre to centre, less 12 each side to the stops = 676
    plan = with_pipes(hot((1035, 0), (1035, 480), (335, 480)))
    made = {piece.name: piece for piece in pieces(plan)}
    assert made["H-2"].exact == pytest.approx(676.0, abs=0.1)
    # or: centre to centre 700, less a take-off of 12 + 10.6 twice, plus an insertion of 10.6 twice
    assert made["H-2"].start.take_off == pytest.approx(22.6)
    assert made["H-2"].end.insertion == pytest.approx(10.6)


def test_an_elbow_and_an_adaptor() -> None:
    # H-3 from the elbow at y 480 up to the port's face at 960: 480, less 12 at the elbow, less 22 at the
    # adaptor 15 x G3/4 = 446; H-1 from 100 below the floor to the elbow: 100 + 480 - 12 = 568
    plan = with_pipes(hot((1035, 0), (1035, 480), (335, 480)))
    assert cuts(*pieces(plan)) == {"H-1": 568.0, "H-2": 676.0, "H-3": 446.0}


def test_an_offset_of_two_bends() -> None:
    # up 400, across 300, up 560 in one piece, copper 15 bent to 60 mm: each bend takes an arc of
    # 60 x pi / 2 = 94.2478 (the textbook: 94.2) in place of two set-backs of 60: gain 25.7522 each.
    # 100 tail + 400 + 300 + 560 - 2 x 25.7522 - 22 adaptor = 1286.4956, to half a mm 1286.5
    plan = with_pipes(hot((635, 0), (635, 400), (335, 400), turns="bends"))
    (piece,) = pieces(plan)
    assert piece.exact == pytest.approx(1286.4956, abs=0.001)
    assert piece.cut == 1286.5
    # the first bend begins 100 + 400 - 60 from the lower end; the second an arc and 300 - 120 later
    assert [bend.mark for bend in piece.bends] == pytest.approx([440.0, 440.0 + 94.2478 + 180.0], abs=0.001)
    assert [bend.angle for bend in piece.bends] == pytest.approx([90.0, 90.0])


def test_a_tee_on_a_pipe_in_the_wall() -> None:
    # tapped from a 22 pipe by a reducing tee 22 x 22 x 15, branch 15.5 from the centre; 600 - 15.5 - 22
    old = OldPipe(id="main", route=((0, 360), (2000, 360)), diameter=22)
    plan = with_pipes(hot((335, 360)), services=(old,))
    (piece,) = pieces(plan)
    assert piece.cut == pytest.approx(562.5, abs=0.1)
    (run,) = runs(plan)
    assert run.fittings[0].what == "tee capillary 22 × 22 × 15"
    assert piece.start.where == "tee on main"


def test_compression_straight_into_the_valves_port() -> None:
    # 22 goes onto G3/4 with nut and olive alone, 12 into the body: 100 + 960 + 12 = 1072
    plan = with_pipes(hot((335, 0), tube="copper-22", jointing="compression"))
    (piece,) = pieces(plan)
    assert piece.cut == pytest.approx(1072.0, abs=0.1)
    assert runs(plan)[0].fittings[0].what == "nut and olive 22"
    # 15 does not: an adaptor, 20 from the port's face
    (other,) = pieces(with_pipes(hot((335, 0), jointing="compression")))
    assert other.cut == pytest.approx(1040.0, abs=0.1)


def test_a_slanting_offset_is_bent_whatever_is_chosen() -> None:
    # 45 degrees: set-back 60 tan 22.5 = 24.8528, arc 60 pi / 4 = 47.1239, gain 2.5817 each.
    # 100 + 400 + 200 sqrt 2 + 360 - 2 x 2.5817 - 22 = 1115.6793
    plan = with_pipes(hot((535, 0), (535, 400), (335, 600)))
    (piece,) = pieces(plan)
    assert piece.exact == pytest.approx(1115.6793, abs=0.001)
    assert piece.cut == 1115.5


# what a user sets


def test_a_measured_size_goes_before_the_typical_one() -> None:
    held = Pipework(
        tail=0.0, measured=(Measured(jointing="capillary", outside=15, what="elbow", value=13.4),)
    )
    plan = with_pipes(hot((1035, 0), (1035, 480), (335, 480)), pipework=held)
    # 480 - 13.4; 700 - 26.8; 480 - 13.4 - 22: to half a mm
    assert cuts(*pieces(plan)) == {"H-1": 466.5, "H-2": 673.0, "H-3": 444.5}


def test_a_measured_size_that_cannot_be_leaves_the_typical_one() -> None:
    one = Measured(jointing="capillary", outside=15, what="elbow", value=-3)
    route = hot((435, 0), (435, 400), (335, 400))
    assert pieces(with_pipes(route, pipework=Pipework(measured=(one,)))) == pieces(with_pipes(route))


def test_a_tube_that_is_not_joined_as_chosen_is_left_out() -> None:
    plan = with_pipes(hot((335, 0), tube="barrier-15", jointing="capillary"))
    assert runs(plan) == ()
    assert unjoined(plan) == {"hot": "no capillary joint is known for Plastic barrier pipe 15"}


def test_a_tube_is_joined_in_the_way_usual_for_it() -> None:
    made = [
        runs(with_pipes(hot((335, 0), tube=tube)))[0].joint.jointing
        for tube in ("copper-22", "barrier-22", "multilayer-20")
    ]
    assert made == ["capillary", "push_fit", "press"]


# names and faults


def test_pieces_are_named_by_letter_and_count() -> None:
    assert [piece.name for piece in pieces(sample("corner-1200x800"))] == [
        "H-1", "H-2", "H-3", "C-1", "1-1", "2-1", "3-1", "3-2"
    ]  # fmt: skip


def test_two_pipes_of_one_mark_take_their_ids() -> None:
    pipe = Pipe(id="second", service="hot", end="valve.cold", route=((425, 0),))
    assert piece_marks(with_pipes(hot((335, 0)), pipe)) == {"hot": "hot", "second": "second"}


@pytest.mark.parametrize("name", SAMPLES)
def test_the_mark_is_the_letter_on_the_drawings(name: str) -> None:
    plan = sample(name)
    assert piece_marks(plan) == {pipe.id: pipe_letter(pipe) for pipe in plan.job.pipes}


def test_a_piece_shorter_than_what_its_fittings_hold_is_a_fault() -> None:
    # 30 between two elbows less 24 leaves 6; both hold 10.6
    plan = with_pipes(hot((365, 0), (365, 480), (335, 480)))
    made = {piece.name: piece for piece in pieces(plan)}
    assert made["H-2"].fault.startswith("H-2 would be 6 mm long, but its fittings hold 21.2 mm of it:")
    assert not made["H-1"].fault


def test_bends_too_near_to_each_other_are_a_fault() -> None:
    # two set-backs of 60 on 100
    plan = with_pipes(hot((435, 0), (435, 400), (335, 400), turns="bends"))
    (piece,) = pieces(plan)
    assert piece.fault.startswith("H-1 has 20 mm too little between bend 1 and bend 2")


def test_a_pipe_that_comes_back_on_itself_is_a_fault() -> None:
    (piece,) = pieces(with_pipes(hot((335, 0), (335, 500), (335, 300))))
    assert piece.fault == "H-1 turns right back on itself at 335, 500: lead it another way"


# all together


@given(jobs())
def test_what_is_drawn_is_what_is_cut_and_what_fittings_and_bends_take(job: Job) -> None:
    pipes = tuple(pipe.but(jointing=None) for pipe in job.pipes)
    plan = planned(job.but(pipes=pipes, pipework=Pipework()))
    for run in runs(plan):
        drawn = plan.courses[run.pipe.id].length
        taken = sum(p.exact + p.gained + p.start.stop + p.end.stop for p in run.pieces)
        if run.pieces:
            assert taken == pytest.approx(drawn, abs=1e-6 * max(1.0, drawn))


@pytest.mark.parametrize("name", SAMPLES)
def test_tube_in_the_dxf_is_the_cut_list_with_take_offs_less_insertions(name: str) -> None:
    from ezdxf.entities.lwpolyline import LWPolyline
    from ezdxf.filemanagement import read

    from export.sheets.dxf_elevation import dxf_elevation
    from export.sheets.options import SheetOptions

    plan = sample(name)
    model = read(io.StringIO(dxf_elevation(plan, (), SheetOptions()).decode())).modelspace()
    lines = [line for line in model if line.dxf.layer.lower().startswith("pipe-")]
    assert {line.dxftype() for line in lines} == {"LWPOLYLINE", "TEXT"}
    drawn = sum(
        math.dist(a, b)
        for line in lines
        if isinstance(line, LWPolyline)
        for a, b in pairwise(line.get_points("xy"))
    )
    made = pieces(plan)
    listed = sum(p.cut + p.start.take_off + p.end.take_off for p in made)
    listed -= sum(p.start.insertion + p.end.insertion for p in made)
    # each piece is rounded by up to 0.25
    assert drawn == pytest.approx(listed, abs=0.25 * len(made))
    assert USUAL.pipework.tail == 100.0  # which the feeds' negative take-off brings in
