"""The sheet for panels against cuts worked by hand."""

import io

import pdfplumber

from export.sheets.panel_cutouts import amounts_words, cut_outs, panels_sheet
from geometry.model import HoseOutlet, Layer, Opening, Panels, Tiling
from geometry.plan import Plan
from geometry.tiling.pieces import panels_of
from tests.export.jobs import usual
from tests.export.measured import as_pdf, laid_out, touching, words
from tests.geometry.checks.walls import plan_of
from tests.geometry.tiling.walls import tiled

PANEL = (Layer(kind="panel", thickness=11.0),)
HELD = Panels(wide=1000, high=2400, joint=2, trim=3)


def panelled(*outlets: HoseOutlet, openings: tuple[Opening, ...] = ()) -> Plan:
    """A wall of 2200 x 2400 over a rim of 40, panelled: faced from 3 to 2197 and from 43 to 2397."""
    job = tiled(Tiling(), *outlets, width=2200, height=2400, rim=40, layers=PANEL, openings=openings)
    return plan_of(job.but(finish=job.finish.but(tiling=None, panels=HELD)))


def test_sizes_by_hand() -> None:
    # sheets from 0, 1002, 2004: 1000 - 3 = 997, 1000, 2197 - 2004 = 193; all 2354 high
    assert [piece.size for piece in panels_of(panelled())] == [(997, 2354), (1000, 2354), (193, 2354)]


def test_a_hole_is_given_from_the_panels_own_edges() -> None:
    outlet = HoseOutlet(id="outlet", part="outlet-round", x=1300, height=1043)
    plan = panelled(outlet)
    assert cut_outs(plan, panels_of(plan)) == [["R1 C2", "1 outlet", "dia. 30", "298", "1000"]]


def test_a_window_is_cut_out_with_room_for_its_trim() -> None:
    window = Opening(id="window", x=1300, y=1000, width=400, height=500)
    plan = panelled(openings=(window,))
    # 3 more all round: from 1297 - 1002 = 295 and 997 - 43 = 954, 406 x 506
    assert cut_outs(plan, panels_of(plan)) == [["R1 C2", "opening, niche or rim", "406 × 506", "295", "954"]]


def test_joints_and_trims_by_hand() -> None:
    # two joints of 2354; the faced area is 2194 x 2354 and its joints take 2 x 2 of the width at both ends
    plan = panelled()
    said = dict(amounts_words(plan, panels_of(plan), HELD))
    assert said["Joints"].startswith("4.71 m")
    assert said["Trims"].startswith("9.09 m")  # 2 x 2354 + 2 x (997 + 1000 + 193) = 9088


def test_the_sheet_is_legible() -> None:
    outlet = HoseOutlet(id="outlet", part="outlet-round", x=1300, height=1043)
    pages = laid_out(
        panels_sheet, panelled(outlet, openings=(Opening(id="w", x=300, y=900, width=400, height=500),))
    ).pages
    for page in pages:
        assert touching(words(page), slack=1e-4) == []


def test_a_wall_without_panels_says_so() -> None:
    with pdfplumber.open(io.BytesIO(as_pdf(panels_sheet, usual()))) as pdf:
        assert "Nothing on this wall is panelled" in pdf.pages[0].extract_text()
