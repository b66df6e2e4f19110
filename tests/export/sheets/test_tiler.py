"""The tiler's sheets: legible on every sample, with the numbers that a hand sum gives."""

import io

import pdfplumber
import pytest

from export.drawings.tile_plan import draw_tile_plan
from export.recorded import RecordedDocument
from export.recorder import Recorder
from export.sheets.options import SheetOptions
from export.sheets.tiler import tiler_sheet
from geometry.checks.runner import check
from geometry.model import HoseOutlet, Layer, Niche, Tiling
from geometry.model.finish import MovementJoint
from geometry.plan import Plan
from tests.export.jobs import crowded, sample, usual
from tests.export.measured import as_pdf, assert_legible, laid_out, touching, words
from tests.geometry.tiling.walls import TILED, tiled_plan
from tests.samples import SAMPLES


def recorded(plan: Plan, size: str = "A4") -> RecordedDocument:
    return laid_out(tiler_sheet, plan, check(plan), SheetOptions(paper=size))


def text_of(plan: Plan) -> str:
    with pdfplumber.open(io.BytesIO(as_pdf(tiler_sheet, plan))) as pdf:
        return "\n".join(page.extract_text() for page in pdf.pages)


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("size", ["A4", "A3"])
def test_samples_are_legible(name: str, size: str) -> None:
    assert_legible(recorded(sample(name), size))


@pytest.mark.parametrize("bond", ["half", "third", "vertical", "herringbone"])
def test_every_bond_with_a_niche_is_legible(bond: str) -> None:
    job = usual().job
    finish = job.finish.but(
        tiling=Tiling(wide=300, high=100, bond=bond),  # type: ignore[arg-type]
        niches=(Niche(id="niche", x=100, y=1300, width=300, height=300),),
    )
    plan = Plan(job.but(finish=finish), usual().catalogue, usual().rules)
    for page in recorded(plan).pages:
        assert touching(words(page), slack=1e-4) == []


def test_a_hole_is_listed_from_the_edges_of_its_tile_and_from_the_datum() -> None:
    board = (Layer(kind="board", thickness=12.5), *TILED)
    outlet = HoseOutlet(id="outlet", part="outlet-round", x=500, height=300)
    plan = tiled_plan(Tiling(wide=200, high=200, joint=4, border=0), outlet, layers=board)
    # tiles from 408 and 204: 500 - 408 = 92, 300 - 204 = 96; in board 30 + 6; datum 0 and 0
    assert "1 outlet R2 C3 30 36 92 96 500 300" in text_of(plan)


def test_the_cuts_and_amounts_are_those_worked_by_hand() -> None:
    # the alcove of test_pieces: 750 x 2350 faced is 1.7625 m2; adhesive 4 x 1.2 and 4 x 1.5 kg/m2;
    # grout 0.216 kg/m2
    plan = tiled_plan(Tiling(wide=300, high=600, joint=3), width=760, height=2400, rim=40)
    found = text_of(plan)
    assert "2 295 600 R2 C1, R3 C1" in found
    assert "1 149 586 R4 C3" in found
    assert "1.76 m2" in found
    assert "2 whole and 10 cut; buy 14" in found
    assert "8.5 to 10.6 kg" in found
    assert "0.4 kg" in found


def test_a_wall_without_tiles_says_so() -> None:
    job = usual().job
    plan = Plan(job.but(finish=job.finish.but(tiling=None)), usual().catalogue, usual().rules)
    assert "Nothing on this wall is tiled" in text_of(plan)


def test_a_crowded_wall_without_a_clear_start_is_drawn() -> None:
    job = crowded(2, 2400).job
    plan = Plan(
        job.but(finish=job.finish.but(tiling=Tiling(wide=100, high=100))), usual().catalogue, usual().rules
    )
    assert "Holes" in text_of(plan)


def test_equal_jobs_give_equal_bytes() -> None:
    assert as_pdf(tiler_sheet, usual()) == as_pdf(tiler_sheet, usual(), (), SheetOptions())


def test_movement_joints_and_trims_are_told_and_drawn() -> None:
    job = usual().job
    tiles = Tiling(wide=300, high=300, trim=11)
    finish = job.finish.but(tiling=tiles, movement=(MovementJoint(id="move", at=400, width=8),))
    plan = Plan(
        job.but(finish=finish, wall=job.wall.but(left="free_end", openings=())),
        usual().catalogue,
        usual().rules,
    )
    told = " ".join(text_of(plan).split())
    assert "move: plumb, its middle 400 from the wall's left end, 8 wide, dashed" in told
    # the free end is as long as the wall is high
    assert f"{job.wall.height / 1000:.2f} m of edge trim, 11 wide at the face" in told
    recorder = Recorder()
    draw_tile_plan(plan, recorder, 20.0)
    (line,) = recorder.on("movement-joint")
    assert (line.values["start"], line.values["end"]) == ((400, 0), (400, job.wall.height))
