from itertools import combinations

import pytest
import shapely

from export.drawings.marks import (
    TEXT,
    datum_lines,
    draw_marks,
    draw_strokes,
    marked,
    notes,
    pipe_letter,
    points,
)
from export.drawings.note_places import Along, Beside
from export.pen import XY
from export.recorder import Recorder
from export.text import is_bold, text_box
from geometry.model import Accessory, Cable, Enclosure, Finish, Job, Joist, OldPipe, Pipe, Stud, Wall
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from geometry.setting_out.holes import holes
from tests.samples import SAMPLES, sample_job

IN_THE_WALL = (
    Cable(id="lights", route=((200.0, 2400.0), (200.0, 1200.0), (330.0, 1200.0))),
    OldPipe(id="feed", route=((0.0, 500.0), (760.0, 560.0))),
    Accessory(id="point", kind="socket", x=690.0, height=300.0),
    Stud(id="upright", x=400.0),
    Joist(id="noggin", height=1500.0, left=0.0, right=760.0),
)


def plan_of(job: Job) -> Plan:
    return Plan(job, generic_parts(), standard_rules())


def alcove() -> Job:
    """A tray of 760 with valve at (380, 1030), head at (380, 2190), outlet and rail at x = 570."""
    return suggested_job(760, 760, "left")


def drawn(plan: Plan) -> Recorder:
    pen = Recorder()
    draw_marks(plan, pen)
    return pen


def strokes(plan: Plan) -> Recorder:
    pen = Recorder()
    draw_strokes(plan, pen)
    return pen


def words_on(pen: Recorder, *layers: str) -> list[str]:
    return [stroke.values["text"] for stroke in pen.on(*layers) if stroke.verb == "text"]


def box_of(pen: Recorder, index: int) -> shapely.Geometry:
    """Return what a text covers, less a hair on each side."""
    stroke = [stroke for stroke in pen.strokes if stroke.verb == "text"][index]
    at, height = stroke.values["at"], stroke.values["height"]
    box = shapely.box(*text_box(stroke.values["text"], height, bold=is_bold(stroke.layer)))
    turned = shapely.affinity.rotate(box, stroke.values["angle"], origin=(0, 0))
    return shapely.affinity.translate(turned, *at).buffer(-0.02 * height)


# where to cut and drill


def test_every_hole_is_a_cross_through_its_centre_and_a_circle_about_it() -> None:
    plan = plan_of(alcove())
    lines = [(s.values["start"], s.values["end"]) for s in strokes(plan).on("drill") if s.verb == "line"]
    circles = {s.values["centre"] for s in strokes(plan).on("drill") if s.verb == "circle"}
    for hole in holes(plan):
        x, y = hole.at
        assert hole.at in circles
        assert any(a[1] == b[1] == y and a[0] + b[0] == pytest.approx(2 * x) and a[0] < x for a, b in lines)
        assert any(a[0] == b[0] == x and a[1] + b[1] == pytest.approx(2 * y) and a[1] < y for a, b in lines)


def test_a_screw_has_the_circle_of_its_hole() -> None:
    circles = {
        s.values["centre"]: s.values["radius"]
        for s in strokes(plan_of(alcove())).on("drill")
        if s.verb == "circle"
    }
    assert circles[(325.0, 970.0)] == 3  # valve screw at (-55, -60) from (380, 1030), 6 mm
    assert circles[(550.0, 1030.0)] == 2.5  # outlet screw, 5 mm


def test_a_recess_has_square_corners_with_room_to_turn_a_nut() -> None:
    # The box of 130 x 140 about (380, 1030), and 25 mm where a pipe joins: below, above, on the right.
    outlines = [s.values["points"] for s in strokes(plan_of(alcove())).on("recess")]
    assert ((315, 935), (470, 935), (470, 1125), (315, 1125)) in outlines


def test_a_chase_is_as_wide_as_the_pipe_its_wrap_and_a_clip_each_side() -> None:
    # 15 + 2 x 4 + 2 x 8 = 39, from the floor to the recess at 935, about x = 380 - 45
    outlines = [set(s.values["points"]) for s in strokes(plan_of(alcove())).on("chase")]
    assert {(315.5, 0.0), (354.5, 0.0), (354.5, 935.0), (315.5, 935.0)} in outlines


def test_points_are_the_holes_and_the_corners_of_all_that_is_cut() -> None:
    found = set(points(plan_of(alcove())))
    assert {(380.0, 1030.0), (380.0, 2190.0), (570.0, 1030.0), (570.0, 1145.0), (570.0, 1795.0)} <= found
    assert {(315.0, 935.0), (470.0, 1125.0), (315.5, 0.0), (354.5, 935.0)} <= found
    # 9 holes, 3 recesses and 4 chases of 4 corners each
    assert len(points(plan_of(alcove()))) == 9 + 7 * 4


@pytest.mark.parametrize("name", SAMPLES)
def test_all_points_lie_in_the_area_that_is_marked(name: str) -> None:
    plan = plan_of(sample_job(name))
    area = shapely.buffer(marked(plan), 1e-6)
    assert shapely.intersects(area, shapely.points(points(plan))).all()


def test_what_lies_in_the_wall_already_needs_no_page() -> None:
    job = alcove()
    with_services = marked(plan_of(job.but(services=IN_THE_WALL)))
    assert shapely.equals(with_services, marked(plan_of(job)))


def test_what_lies_in_the_wall_is_drawn_over_what_is_cut() -> None:
    layers = [stroke.layer for stroke in strokes(plan_of(alcove().but(services=IN_THE_WALL))).strokes]
    cut = max(index for index, layer in enumerate(layers) if layer in ("chase", "recess"))
    assert all(index > cut for index, layer in enumerate(layers) if layer in ("service", "stud"))


# datum


def test_datum_lines_are_edge_centre_and_quarters_and_the_levels_of_valve_and_floor() -> None:
    held = {(line.axis, line.at, line.distance) for line in datum_lines(plan_of(alcove()))}
    assert held == {
        ("x", 0, 0),
        ("x", 190, 190),
        ("x", 380, 380),
        ("x", 570, 570),
        ("y", 30, 0),  # the finished tray floor
        ("y", 1030, 1000),
    }


def test_datum_lines_reach_over_the_wall_and_all_that_is_marked_beside_it() -> None:
    job = alcove().moved("head", 900.0, 2190.0)  # beyond the wall of 760
    levels = [line for line in datum_lines(plan_of(job)) if line.axis == "y"]
    assert all(line.low <= 0 and line.high >= 900 for line in levels)


# words


def test_beside_every_hole_stand_its_distances_to_both_datums() -> None:
    words = words_on(drawn(plan_of(alcove())), "text")
    for expected in (
        ("valve centre", "380 from tray edge", "1000 up"),
        ("head centre", "380 from tray edge", "2160 up"),  # 2190 less the tray floor at 30
        ("rail screw, 6 mm", "570 from tray edge", "1765 up"),  # 30 + 1090 + 675 less 30
    ):
        titles = [index for index, word in enumerate(words) if word == expected[0]]
        following = [" ".join(words[index + 1 : index + 3]) for index in titles]
        assert any(all(part in text for part in expected[1:]) for text in following)


def test_distances_beyond_the_datum_say_so() -> None:
    job = alcove().but(
        enclosure=Enclosure(left=400.0, width=300.0, projection=700.0, floor=1200.0, rim=1200.0)
    )
    words = " ".join(words_on(drawn(plan_of(job)), "text"))
    assert "20 left of tray edge" in words  # valve at 380, edge at 400
    assert "170 below tray floor" in words  # valve at 1030, floor at 1200


def test_a_recess_says_how_deep_it_is_cut_and_within_what() -> None:
    # Back of box 60 to 85 behind the face; the finish 1 + 4 +- 1 + 9: 60 - 13 = 47, 85 - 15 = 70, aim at 58.
    words = words_on(drawn(plan_of(alcove())), "text")
    index = words.index("cut 58 deep")
    assert words[index + 1] == "(47 to 70)"


def test_a_recess_for_which_no_depth_fits_says_so() -> None:
    thick = alcove().finish.areas[0].layers[0].but(thickness=200.0)
    area = alcove().finish.areas[0].but(layers=(thick,))
    words = words_on(drawn(plan_of(alcove().but(finish=Finish(areas=(area,))))), "text")
    assert "NO DEPTH FITS" in words


def test_pipes_are_told_apart_by_letter_and_line_style_and_outlets_by_number() -> None:
    plan = plan_of(alcove())
    words = words_on(drawn(plan), "text")
    # cover 5 + half of 23 is the axis, 16.5; depth 16.5 + 11.5 + 5 of clip
    for label in (
        "H hot: cut 39 wide, 33 deep",
        "C cold: cut 39 wide, 33 deep",
        "1 riser: cut 39 wide, 33 deep",
    ):
        assert label in words
    assert {stroke.layer for stroke in strokes(plan).strokes if stroke.layer.startswith("pipe")} == {
        "pipe-hot", "pipe-cold", "pipe-mixed",
    }  # fmt: skip


@pytest.mark.parametrize(
    ("service", "start", "letter"),
    [
        ("hot", None, "H"),
        ("cold", None, "C"),
        ("mixed", "valve.out2", "2"),
        ("mixed", "valve.spout", "spout"),
    ],
)
def test_a_pipe_of_mixed_water_has_the_number_of_its_outlet(
    service: str, start: str | None, letter: str
) -> None:
    pipe = Pipe(id="p", service=service, start=start, end="head.in", route=((0.0, 0.0),))  # type: ignore[arg-type]
    assert pipe_letter(pipe) == letter


def test_each_thing_known_in_the_wall_has_a_word_of_caution() -> None:
    words = " ".join(words_on(drawn(plan_of(alcove().but(services=IN_THE_WALL))), "caution"))
    for kind in ("cable", "old pipe", "socket", "stud", "noggin"):
        assert f"CAUTION {kind}" in words


def test_words_of_caution_must_be_there() -> None:
    cautions = [
        note for note in notes(plan_of(alcove().but(services=IN_THE_WALL))) if note.layer == "caution"
    ]
    assert cautions
    assert all(isinstance(note, Beside) or note.needed for note in cautions)
    assert any(isinstance(note, Along) for note in cautions)


@pytest.mark.parametrize("name", SAMPLES)
def test_no_words_cover_others(name: str) -> None:
    pen = drawn(plan_of(sample_job(name)))
    count = len(words_on(pen, *{stroke.layer for stroke in pen.strokes}))
    boxes = [box_of(pen, index) for index in range(count)]
    assert count > 10
    assert not [(a, b) for a, b in combinations(range(count), 2) if shapely.intersects(boxes[a], boxes[b])]


@pytest.mark.parametrize("name", SAMPLES)
def test_words_are_read_at_arms_length(name: str) -> None:
    heights = [s.values["height"] for s in drawn(plan_of(sample_job(name))).strokes if s.verb == "text"]
    assert TEXT == 5
    assert min(heights) >= 3.5
    assert sum(height >= 5 for height in heights) > 0.9 * len(heights)


def test_a_name_of_any_length_is_shortened() -> None:
    job = alcove()
    long = job.fittings[1].but(id="<b>&" + "W" * 56)
    pipes = tuple(pipe for pipe in job.pipes if pipe.id != "riser")
    words = words_on(
        drawn(plan_of(job.but(fittings=(job.fittings[0], long, *job.fittings[2:]), pipes=pipes))), "text"
    )
    [title] = [word for word in words if word.startswith("<b>&")]
    assert title.endswith("… centre")


def test_an_empty_job_is_only_a_wall_and_its_datum() -> None:
    job = Job(
        wall=Wall(width=900.0, height=2400.0),
        enclosure=Enclosure(left=0.0, width=900.0, projection=900.0),
    )
    plan = plan_of(job)
    assert shapely.is_empty(marked(plan))
    assert points(plan) == ()
    assert {stroke.layer for stroke in drawn(plan).strokes} <= {
        "wall", "datum", "centre-line", "quarter-line", "text", "leader",
    }  # fmt: skip


def test_the_corner_of_a_recess_is_plain_on_its_dashed_outline() -> None:
    strokes_at: list[XY] = [
        s.values["points"][1] for s in strokes(plan_of(alcove())).on("drill") if s.verb == "polyline"
    ]
    assert {(315.0, 935.0), (470.0, 935.0), (470.0, 1125.0), (315.0, 1125.0)} <= set(strokes_at)
