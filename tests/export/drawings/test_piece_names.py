"""A piece is found on the elevation by its name: on a sheet of its own, and on its own layer of the DXF."""

import io
import math
from itertools import pairwise

import pytest

from export.drawings.elevation import draw_elevation
from export.drawings.pipework import draw_pipework, extent
from export.recorded import RecordedDocument
from export.recorder import Recorder
from export.sheets.dxf_elevation import dxf_elevation
from export.sheets.frame import Sheet
from export.sheets.options import SheetOptions
from export.sheets.paper import paper
from export.sheets.pipework_page import KIND as PIECES
from export.sheets.pipework_page import pipework_page
from export.sheets.scaled import elevation_sheet
from geometry.pipework.cut_list import pieces
from tests.export.jobs import crowded, planned, sample, usual
from tests.export.measured import laid_out, touching, words
from tests.geometry.pipework.walls import hot, with_pipes
from tests.samples import SAMPLES

SCALE = 20.0


def drawn(name: str) -> Recorder:
    pen = Recorder()
    draw_pipework(sample(name), pen, SCALE)
    return pen


@pytest.mark.parametrize("name", SAMPLES)
def test_every_piece_stands_on_the_drawing_with_its_length(name: str) -> None:
    plan = sample(name)
    said = {stroke.values["text"] for stroke in drawn(name).strokes if stroke.layer == "piece"}
    assert said == {f"{piece.name}: {piece.cut:g}" for piece in pieces(plan)}


@pytest.mark.parametrize("name", SAMPLES)
def test_a_name_stands_beside_its_piece_or_a_leader_ends_on_it(name: str) -> None:
    strokes = drawn(name).strokes
    dots = {s.values["centre"] for s in strokes if s.layer == "leader" and s.verb == "circle"}
    names = {s.values["text"].partition(":")[0]: s.values["at"] for s in strokes if s.layer == "piece"}
    for piece in pieces(sample(name)):
        (ax, ay), (bx, by) = leg = max(pairwise(piece.axis), key=lambda leg: math.dist(*leg))
        x, y = names[piece.name]
        # half of the widest name is 12 mm on paper, half of a chase 1 to 2
        beside = min(ax, bx) - 15 * SCALE <= x <= max(ax, bx) + 15 * SCALE
        beside &= min(ay, by) - 6 * SCALE <= y <= max(ay, by) + 6 * SCALE
        assert beside or ((ax + bx) / 2, (ay + by) / 2) in dots, leg


def test_the_sheet_follows_the_elevation_and_nothing_covers_anything() -> None:
    for plan in (usual(), sample("corner-1200x800"), crowded(4, 4000)):
        pages = laid_out(elevation_sheet, plan, (), SheetOptions()).pages
        assert PIECES in [text.text for text in words(pages[1])]
        assert touching(words(pages[1]), slack=1e-4) == []
        left, low, right, top = extent(plan, SCALE)
        assert right - left > plan.job.wall.width
        assert top - low >= plan.job.wall.height


def test_the_elevation_names_the_pieces_only_where_that_is_asked_for() -> None:
    plan = usual()
    for asked in (False, True):
        pen = Recorder()
        draw_elevation(plan, (), pen, SCALE, pieces=asked)
        said = {stroke.values["text"] for stroke in pen.strokes if stroke.layer == "piece"}
        assert said == ({piece.name for piece in pieces(plan)} if asked else set())


def test_a_piece_that_cannot_be_made_has_no_length() -> None:
    # 30 between two elbows that take 45.2
    plan, pen = with_pipes(hot((365, 0), (365, 480), (335, 480))), Recorder()
    draw_pipework(plan, pen, SCALE)
    said = {stroke.values["text"] for stroke in pen.strokes if stroke.layer == "piece"}
    assert "H-2: –" in said


def test_a_name_without_room_is_told_below_the_drawing() -> None:
    plan, document = crowded(6, 3600), RecordedDocument()
    pipework_page(plan, Sheet(paper("A4"), plan.job.about, PIECES), (200,), document)
    said = [text.text for text in words(document.pages[0])]
    shown = {text.partition(":")[0] for text in said}
    missing = [piece.name for piece in pieces(plan) if piece.name not in shown]
    told = " ".join(said).partition("No room for ")[2]
    assert missing
    assert all(name in told for name in missing)


def test_without_pipes_there_is_no_such_sheet() -> None:
    bare = planned(usual().job.but(pipes=()))
    pages = laid_out(elevation_sheet, bare, (), SheetOptions()).pages
    assert all(PIECES not in [text.text for text in words(page)] for page in pages)


@pytest.mark.parametrize("name", SAMPLES)
def test_the_dxf_names_the_pieces_on_a_layer_of_their_own(name: str) -> None:
    from ezdxf.filemanagement import read

    plan = sample(name)
    model = read(io.StringIO(dxf_elevation(plan, (), SheetOptions()).decode())).modelspace()
    said = {entity.dxf.text for entity in model.query("TEXT") if entity.dxf.layer.upper() == "PIECE"}
    assert said == {piece.name for piece in pieces(plan)}
