"""The picture as a whole: what each stage shows, what is painted anew, findings, themes, sharp screens."""

from pathlib import Path
from typing import get_args

import pytest
from PySide6.QtCore import QPoint, Qt
from PySide6.QtGui import QColor, QImage
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.canvas.drawings import face_pieces, setting_pieces, work_pieces
from app.canvas.scene import Scene
from app.canvas.stages import STAGES, Stage
from app.canvas.theme import DARK, LIGHT
from app.canvas.view import View
from app.files import open_job
from export.recorder import Recorder
from geometry.finding import Finding
from geometry.model import Accessory, Cable, FinishArea, Job, Layer, Niche, Region, Tiling
from geometry.model.finish import Bond, MovementJoint
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.app.canvas.conftest import Hand, Make

CUTS, PIPES = {"chase", "recess"}, {"pipe-hot", "pipe-cold", "pipe-mixed"}
FRONTS, HOSES = {"plate", "head", "rail", "handset"}, {"hose", "hose-sweep", "spray"}
SAMPLES = Path(__file__).parents[3] / "samples"


def plan_of(job: Job) -> Plan:
    return Plan(job, generic_parts(), standard_rules())


@pytest.fixture(scope="module")
def plan() -> Plan:
    services = (
        Accessory(id="spur", x=700.0, height=1500.0),
        Cable(id="feed", route=((700.0, 1543.0), (700.0, 2400.0))),
    )
    return plan_of(suggested_job(760, 760, "left").but(services=services))


def drawn(plan: Plan, stage: Stage) -> Recorder:
    recorder = Recorder()
    for piece in (*setting_pieces(plan, stage), *work_pieces(plan, stage)):
        piece.draw(recorder)
    return recorder


# stages


@pytest.mark.parametrize(
    ("stage", "seen", "unseen"),
    [
        ("cut", {"chase", "recess", "drill"}, {"pipe-hot", "body", "plate", "rail", "hose", "spray"}),
        (
            "piped",
            {"chase", "recess", "pipe-hot", "pipe-cold", "pipe-mixed", "body"},
            {"plate", "rail", "hose"},
        ),
        (
            "finished",
            {"plate", "head", "rail", "handset", "hose", "spray"},
            {"chase", "recess", "pipe-hot", "body"},
        ),
        (
            "all",
            {"chase", "recess", "pipe-hot", "body", "plate", "rail", "hose", "spray", "hose-sweep"},
            set(),
        ),
    ],
)
def test_a_stage_shows_what_is_done_then(plan: Plan, stage: Stage, seen: set[str], unseen: set[str]) -> None:
    layers = {stroke.layer for stroke in drawn(plan, stage).strokes}
    assert seen <= layers
    assert layers & unseen == set()
    assert {"wall", "tray", "datum", "centre-line", "quarter-line", "service"} <= layers


def test_zones_of_cables_are_shown_where_something_is_cut(plan: Plan) -> None:
    shown = {stage: bool(drawn(plan, stage).on("zone")) for stage in STAGES}
    assert shown == {"cut": True, "piped": True, "finished": False, "all": True}


def test_when_finished_electrical_points_are_seen_and_cables_are_not(plan: Plan) -> None:
    assert len(drawn(plan, "finished").on("service")) < len(drawn(plan, "all").on("service"))
    assert drawn(plan, "finished").on("service")


def test_the_strokes_are_those_of_the_sheets(plan: Plan) -> None:
    from export.drawings.elevation import draw_datum, draw_pipes, draw_surroundings

    ours, theirs = drawn(plan, "all"), Recorder()
    draw_surroundings(plan, theirs, 20.0)
    draw_datum(plan, theirs, 20.0)
    draw_pipes(plan, theirs)
    for layer in (
        "wall",
        "tray",
        "centre-line",
        "quarter-line",
        "datum",
        "pipe-hot",
        "pipe-cold",
        "pipe-mixed",
    ):
        assert ours.on(layer) == theirs.on(layer)


# tiles


def faced(plan: Plan, **finish: object) -> Recorder:
    """Draw what faces the wall of a plan with another finish."""
    recorder = Recorder()
    for piece in face_pieces(plan_of(plan.job.but(finish=plan.job.finish.but(**finish)))):
        piece.draw(recorder)
    return recorder


def boxes(drawing: Recorder, layer: str) -> set[tuple[float, ...]]:
    """Return left, low, right and top of the pieces on a layer."""
    found: set[tuple[float, ...]] = set()
    for stroke in drawing.on(layer):
        xs, ys = zip(*stroke.values["points"], strict=True)
        found.add((min(xs), min(ys), max(xs), max(ys)))
    return found


def test_each_tile_is_drawn_as_it_is_laid_whole_or_cut(plan: Plan) -> None:
    region = Region(x=0.0, y=200.0, width=700.0, height=800.0)
    areas = (FinishArea(id="low", layers=(Layer(kind="tile", thickness=9.0),), region=region),)
    tiling = Tiling(wide=300.0, high=400.0, joint=0.0, border=0.0, bond="half", start_x=0.0, start_y=200.0)
    drawing = faced(plan, areas=areas, tiling=tiling, niches=())
    # two of 300 and 100 of a third below; above, half a tile on: 150, 300, 250 left of the third
    assert boxes(drawing, "tile-whole") == {
        (0, 200, 300, 600), (300, 200, 600, 600), (150, 600, 450, 1000),
    }  # fmt: skip
    assert boxes(drawing, "tile-cut") == {
        (600, 200, 700, 600), (0, 600, 150, 1000), (450, 600, 700, 1000),
    }  # fmt: skip


@pytest.mark.parametrize("bond", get_args(Bond))
def test_every_bond_is_drawn(plan: Plan, bond: Bond) -> None:
    drawing = faced(plan, tiling=Tiling(wide=300.0, high=100.0, bond=bond))
    assert len(drawing.on("tile-whole")) > 10
    assert drawing.on("tile-cut")


def test_niches_are_drawn_and_tiles_left_out_of_them(plan: Plan) -> None:
    niche = Niche(id="niche", x=200.0, y=1100.0, width=300.0, height=300.0)
    drawing = faced(plan, tiling=Tiling(wide=100.0, high=100.0, joint=0.0, border=0.0), niches=(niche,))
    assert boxes(drawing, "opening") == {(200, 1100, 500, 1400)}
    inside = [box for layer in ("tile-whole", "tile-cut") for box in boxes(drawing, layer)
              if box[0] >= 200 and box[2] <= 500 and box[1] >= 1100 and box[3] <= 1400]  # fmt: skip
    assert inside == []


def test_movement_joints_are_drawn_in_their_gap_between_tiles(plan: Plan) -> None:
    joint = MovementJoint(id="move", at=400.0)
    drawing = faced(plan, tiling=Tiling(wide=300.0, high=300.0), movement=(joint,))
    (line,) = drawing.on("movement-joint")
    assert line.values["start"] == (400.0, 0.0)
    tiles = boxes(drawing, "tile-whole") | boxes(drawing, "tile-cut")
    assert not any(left < 400 < right for left, _, right, _ in tiles)


def test_tiles_too_small_to_lay_are_not_drawn(plan: Plan) -> None:
    assert faced(plan, tiling=Tiling(wide=5.0, high=5.0, joint=0.0)).strokes == []


# what is painted anew


def pens(scene: Scene) -> dict[object, object]:
    return {key: kept[1] for key, kept in scene._kept.items()}


def test_an_edit_draws_only_what_it_has_touched(qapp: object, plan: Plan) -> None:
    scene = Scene()
    scene.show(plan, "all")
    before = pens(scene)
    scene.show(plan_of(plan.job.moved("rail", 560.0, 1120.0)), "all")
    after = pens(scene)
    changed = {key for key in after if after[key] is not before[key]}
    assert changed == {("fitting", "rail"), ("sweep", "hose"), ("hose", "hose")}


def test_moving_a_valve_leaves_the_wall_before_the_work_as_it_is(qapp: object, plan: Plan) -> None:
    scene = Scene()
    scene.show(plan, "all")
    before = scene.setting
    scene.show(plan_of(plan.job.moved("valve", 300.0, 1000.0)), "all")
    assert scene.setting == before
    scene.show(plan_of(plan.job.but(wall=plan.job.wall.but(width=1000.0))), "all")
    assert scene.setting != before


def test_what_is_gone_is_forgotten(qapp: object, plan: Plan) -> None:
    scene = Scene()
    scene.show(plan, "all")
    scene.show(plan_of(plan.job.but(hoses=(), pipes=())), "all")
    assert not any(
        isinstance(key, tuple) and key[0] in ("hose", "sweep", "pipe", "chase") for key in pens(scene)
    )


# findings


def clash(hand: Hand) -> Finding:
    hand.document.edit("Move rail", hand.document.job.moved("rail", 380.0, 1120.0))
    return next(f for f in hand.document.state.findings if f.status == "clash" and len(f.place) > 1)


def test_looking_at_a_finding_out_of_sight_brings_it_into_view(hand: Hand) -> None:
    found = clash(hand)
    hand.canvas.look(View(2.0, 5000.0, 9000.0))
    hand.selection.look_at(found)
    for at in found.place:
        x, y = hand.canvas.view.to_screen(at)
        assert 0 <= x <= hand.canvas.width()
        assert 0 <= y <= hand.canvas.height()


def test_looking_at_a_finding_in_sight_moves_nothing(make: Make) -> None:
    hand = make(fitted=True)
    found = clash(hand)
    before = hand.canvas.view
    hand.selection.look_at(found)
    assert hand.canvas.view == before


def test_a_finding_that_is_looked_at_is_painted_in_its_place(make: Make) -> None:
    hand = make(fitted=True)
    found = clash(hand)
    before = hand.canvas.grab().toImage()
    hand.selection.look_at(found)
    after = hand.canvas.grab().toImage()
    x, y = hand.canvas.view.to_screen(found.place[0])
    assert any(
        before.pixel(round(x) + dx, round(y) + dy) != after.pixel(round(x) + dx, round(y) + dy)
        for dx in range(-6, 7)
        for dy in range(-6, 7)
    )


def test_what_somebody_else_decides_is_shown_in_the_colour_of_its_list(make: Make) -> None:
    hand = make(fitted=True)
    found = next(
        f for f in hand.document.state.findings if f.status == "refer" and len(f.place) == 1 and f.measured
    )
    hand.selection.look_at(found)
    x, y = hand.canvas.view.to_screen(found.place[0])
    # a point is ringed at 2 * 8 pixels
    assert colour_at(hand.canvas.grab().toImage(), x - 16.0, y) == LIGHT.refer


def test_a_click_on_a_mark_looks_at_its_finding(make: Make) -> None:
    hand = make(fitted=True)
    clash(hand)
    mark = hand.canvas.laid.marks[0]
    QTest.mouseClick(
        hand.canvas,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
        QPoint(round(mark.at[0]), round(mark.at[1])),
    )
    assert hand.selection.finding == mark.finding
    assert hand.chosen() == ()


def test_a_part_can_be_dragged_by_the_mark_that_lies_on_it(make: Make) -> None:
    hand = make()
    hand.document.edit("Move rail", hand.document.job.moved("rail", 380.0, 1120.0))
    hand.choose("fitting", "valve")
    on_valve = next(
        mark for mark in hand.canvas.laid.marks if 950 < hand.canvas.view.to_wall(mark.at)[1] < 1110
    )
    start = hand.canvas.view.to_wall(on_valve.at)
    hand.drag(start, (start[0] - 20, start[1]), (start[0] - 70, start[1]))
    assert hand.titles == ["Move rail", "Move valve"]
    assert hand.selection.finding is None


# looks


def colour_at(image: QImage, x: float, y: float) -> str:
    ratio = image.devicePixelRatio()
    return str(QColor(image.pixel(round(x * ratio), round(y * ratio))).name())


def finish_of(hand: Hand, tiling: Tiling | None) -> Job:
    """Return the job with other tiles, or with none."""
    job = hand.document.job
    return job.but(finish=job.finish.but(tiling=tiling))


def test_light_and_dark_change_at_once(make: Make) -> None:
    hand = make(fitted=True)
    canvas = hand.canvas
    bare = hand.place((640.0, 2350.0))  # upper right, clear of everything
    hand.document.edit("Tile", finish_of(hand, None))
    assert colour_at(canvas.grab().toImage(), bare.x(), bare.y()) == LIGHT.wall
    canvas.set_theme(DARK)
    assert colour_at(canvas.grab().toImage(), bare.x(), bare.y()) == DARK.wall
    hand.document.edit("Tile", finish_of(hand, Tiling()))  # whose last course is cut at the ceiling
    assert colour_at(canvas.grab().toImage(), bare.x(), bare.y()) == DARK.ink("tile-cut").fill
    assert colour_at(canvas.grab().toImage(), 1190.0, 20.0) == DARK.room


def test_the_keyboards_place_is_framed(make: Make) -> None:
    hand = make(fitted=True)
    assert colour_at(hand.canvas.grab().toImage(), 1.0, 500.0) == LIGHT.chosen
    hand.canvas.clearFocus()
    assert colour_at(hand.canvas.grab().toImage(), 1.0, 500.0) == LIGHT.room


def test_mosaic_from_afar_does_not_make_the_wall_grey(make: Make) -> None:
    job = suggested_job(760, 760, "left")
    hand = make(job.but(finish=job.finish.but(tiling=Tiling(wide=20.0, high=20.0, joint=2.0))), fitted=True)
    assert hand.canvas.view.scale * 22 > 5  # pixels from joint to joint

    def upright_joints() -> int:
        image = hand.canvas.grab().toImage()
        (left, top), (right, _) = (
            hand.canvas.view.to_screen((0.0, 2390.0)),
            hand.canvas.view.to_screen((760.0, 0.0)),
        )
        return sum(colour_at(image, x, top) != LIGHT.wall for x in range(round(left) + 5, round(right) - 5))

    assert upright_joints() > 30
    hand.canvas.look(hand.canvas.view.zoomed((600.0, 60.0), 0.25))
    assert hand.canvas.view.scale * 22 < 5
    assert upright_joints() < 30


@pytest.mark.parametrize("stage", STAGES)
@pytest.mark.parametrize("sample", ["corner-1200x800", "bath-stud-wall", "planted-faults"])
def test_every_sample_is_painted_at_every_stage(make: Make, sample: str, stage: Stage) -> None:
    hand = make(open_job(SAMPLES / f"{sample}.json"), fitted=True)
    hand.canvas.set_stage(stage)
    hand.choose("fitting", hand.document.job.fittings[0].id)
    image = hand.canvas.grab().toImage()
    colours = {image.pixel(x, y) for x in range(0, 1200, 7) for y in range(0, 1000, 7)}
    assert len(colours) > 5


def test_stages_are_said(hand: Hand, qtbot: QtBot) -> None:
    with qtbot.waitSignal(hand.canvas.stage_changed) as said:
        hand.canvas.set_stage("cut")
    assert said.args == ["cut"]
    hand.canvas.set_stage("cut")


def test_words_are_drawn_with_real_letters(make: Make) -> None:
    # with no font at all Qt draws boxes: a tag then has two or three colours
    hand = make(fitted=True)
    left, top, right, low = hand.canvas.laid.tags[-2].box
    image = hand.canvas.grab().toImage()
    columns, rows = range(round(left) + 3, round(right) - 3), range(round(top) + 3, round(low) - 3)
    colours = {image.pixel(x, y) for x in columns for y in rows}
    assert len(colours) > 20


def test_a_canvas_goes_with_its_document(make: Make, qtbot: QtBot) -> None:
    hand = make()
    document = hand.document
    document.setParent(None)
    hand.canvas.close()
    hand.canvas.deleteLater()
    qtbot.wait(0)
    document.edit("Move rail", document.job.moved("rail", 500.0, 1120.0))
    assert document.job.fitting("rail").x == 500.0
