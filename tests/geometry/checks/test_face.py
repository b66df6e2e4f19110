"""What sits on the face, and everything on or in the wall against what is there already.

Sizes in the sums: valve's plate 160 across, its recess 120 wide, its screws 6 across, 50 either side of
the centre and 100 deep; head's pocket 50 x 50 and, on a bare wall, 50 deep; rail's brackets 50 across, 25
above its foot and 25 below its top at 700; a 15 mm pipe with 4 of wrap and 8 for clips: chase 39 wide.
"""

from geometry.checks.face import face
from geometry.model import (
    Accessory,
    Cable,
    Enclosure,
    Head,
    OldPipe,
    Opening,
    Pipe,
    Rail,
    Stud,
    Valve,
    Wall,
)
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.checks.walls import bare, found, only, plan_of, told


def valve(x: float, height: float = 1200, name: str = "valve") -> Valve:
    return Valve(id=name, part="valve-one-round", x=x, height=height)


def head(x: float, height: float = 2000) -> Head:
    return Head(id="head", part="head-wall-200", x=x, height=height)


def rail(x: float, height: float = 1100) -> Rail:
    return Rail(id="rail", part="rail-700", x=x, height=height)


def feed(x: float, to: str = "valve.cold") -> Pipe:
    """Return a pipe from the floor, plumb up to the height of its port and level to it."""
    return Pipe(id="pipe", service="cold", end=to, route=((x, 0), (x, 1000)))


# each other


def test_plates_exactly_at_the_minimum_from_each_other_pass() -> None:
    # 170 between centres, less 80 and 80
    assert told(only(face, "face.plates", bare(valve(1000), valve(1170, name="other")))) == ("tight", 10)


def test_plates_a_tenth_nearer_clash() -> None:
    finding = only(face, "face.plates", bare(valve(1000), valve(1169.9, name="other")))
    assert told(finding) == ("clash", 9.9)
    assert finding.message == "Plate of valve is 9.9 mm from the plate of other; 10 mm is wanted."
    assert finding.place == ((1080, 1200), (1169.9 - 80, 1200))


def test_a_bracket_is_measured_to_a_plate_askew() -> None:
    # bracket's centre 60 along and 80 up from the plate's (3-4-5): 100 less 25 and 80
    finding = only(face, "face.plates", bare(valve(1000, 1200), rail(1060, 1255)))
    assert told(finding) == ("clash", -5)
    assert finding.message == (
        "Plate of valve and bracket of rail overlap by 5 mm; 10 mm between them is wanted."
    )


def test_only_the_worst_of_two_owners_is_told() -> None:
    # plate and control both lie on the plate of the other; the plates are nearer to each other
    assert len(found(face, "face.plates", bare(valve(1000), valve(1100, name="other")))) == 1


def test_three_plates_in_a_row_make_two_findings() -> None:
    job = bare(valve(1000), valve(1165, name="b"), valve(1330, name="c"))
    findings = found(face, "face.plates", job)
    assert {finding.parts for finding in findings} == {("valve", "b"), ("b", "c")}
    assert {finding.measured for finding in findings} == {5}


def test_plates_that_are_clear_are_listed_by_the_nearest() -> None:
    job = bare(valve(1000), valve(1500, name="b"), valve(2500, name="c"))
    finding = only(face, "face.plates", job)
    assert told(finding) == ("clear", 340)
    assert finding.parts == ("valve", "b")
    assert finding.message == "Nearest: plate of valve is 340 mm from the plate of b; 10 mm is wanted."


# edges


def test_a_plate_exactly_at_the_minimum_from_the_end_of_the_wall_passes() -> None:
    assert told(only(face, "face.edge", bare(valve(100)))) == ("tight", 20)
    assert told(only(face, "face.edge", bare(valve(3900)))) == ("tight", 20)


def test_a_plate_a_tenth_nearer_to_the_end_of_the_wall_clashes() -> None:
    finding = only(face, "face.edge", bare(valve(3900.1)))
    assert told(finding) == ("clash", 19.9)
    assert finding.message == "Plate of valve is 19.9 mm from the right end of the wall; 20 mm is wanted."


def test_a_plate_past_a_corner_says_by_how_much() -> None:
    wall = Wall(width=4000, height=2400, left="corner")
    finding = only(face, "face.edge", bare(valve(70), wall=wall))
    assert told(finding) == ("clash", -10)
    assert finding.message == (
        "Plate of valve reaches 10 mm past the wall at the left corner; 20 mm short of it is wanted."
    )
    assert finding.place == ((-10, 1200), (0, 1200))


def test_a_plate_keeps_inside_the_edges_of_a_tray_that_ends_on_the_wall() -> None:
    tray = Enclosure(left=500, width=1000, projection=900)
    assert told(only(face, "face.edge", bare(valve(600), enclosure=tray))) == ("tight", 20)
    left = only(face, "face.edge", bare(valve(599.9), enclosure=tray))
    assert (told(left), "left edge of the tray" in left.message) == (("clash", 19.9), True)
    right = only(face, "face.edge", bare(valve(1400.1), enclosure=tray))
    assert (told(right), "right edge of the tray" in right.message) == (("clash", 19.9), True)


def test_a_tray_edge_against_the_end_of_the_wall_is_not_told_twice() -> None:
    assert len(found(face, "face.edge", bare(valve(90)))) == 1


def test_each_edge_that_is_too_near_has_a_finding_of_its_own() -> None:
    tray = Enclosure(left=1000, width=190, projection=900)
    findings = found(face, "face.edge", bare(valve(1095), enclosure=tray))
    # 1095 - 80 - 1000 and 1190 - 1095 - 80
    assert [finding.measured for finding in findings] == [15, 15]


def test_plates_keep_off_ceiling_and_rim() -> None:
    # 2400 - 2310 - 80 and 120 - 80 - 40
    high = only(face, "face.edge", bare(valve(1000, 2310)))
    assert (told(high), "ceiling" in high.message) == (("clash", 10), True)
    low = only(face, "face.edge", bare(valve(1000, 120)))
    assert (told(low), "rim of the tray" in low.message) == (("clash", 0), True)


def test_the_rim_counts_only_where_the_tray_is() -> None:
    tray = Enclosure(left=2000, width=1000, projection=900)
    findings = found(face, "face.edge", bare(valve(1000, 120), enclosure=tray))
    assert not any("rim" in finding.message for finding in findings)


# openings


def window(left: float) -> Opening:
    return Opening(id="window", x=left, y=1000, width=500, height=1000)


def test_a_plate_exactly_at_the_minimum_from_an_opening_passes() -> None:
    # 1000 + 80 + 50
    assert told(only(face, "face.opening", bare(valve(1000, 1500), openings=[window(1130)]))) == (
        "tight",
        50,
    )


def test_a_plate_a_tenth_nearer_to_an_opening_clashes() -> None:
    finding = only(face, "face.opening", bare(valve(1000, 1500), openings=[window(1129.9)]))
    assert told(finding) == ("clash", 49.9)
    assert finding.parts == ("valve", "window")
    assert finding.message == "Plate of valve is 49.9 mm from the opening window; 50 mm is wanted."


def test_a_bracket_off_the_corner_of_an_opening_is_measured_to_the_corner() -> None:
    # the corner (1060, 1000) lies 60 and 80 from the upper bracket's centre at 245 + 675 (3-4-5): 100 - 25
    finding = only(face, "face.opening", bare(rail(1000, 245), openings=[window(1060)]))
    assert told(finding) == ("clear", 75)


def test_a_chase_keeps_off_an_opening() -> None:
    # a pipe plumb 69.4 left of the opening, less half of its chase
    job = bare(valve(800, 2200), pipes=[feed(930.6)], openings=[window(1000)])
    finding = only(face, "face.opening", job)
    assert told(finding) == ("clash", 49.9)
    assert finding.message == "Chase of pipe is 49.9 mm from the opening window; 50 mm is wanted."


def test_a_chase_is_square_at_its_corners() -> None:
    # It turns at (900, 1000) from plumb to level, to the left: its outer corner is (919.5, 1019.5). The
    # opening's corner (959.5, 1049.5) lies 40 and 30 from that; a round turn would be 8 mm farther away.
    corner = Opening(id="window", x=959.5, y=1049.5, width=500, height=900)
    pipe = Pipe(id="pipe", service="mixed", end="head.in", route=((900, 0), (900, 1000), (500, 1000)))
    finding = only(face, "face.opening", bare(head(500, 2000), pipes=[pipe], openings=[corner]))
    assert told(finding) == ("tight", 50)


# what is there already


def test_a_recess_exactly_at_the_minimum_from_a_cable_passes() -> None:
    # cable 10 across at 1000: 1000 - 5 - 50 - 60
    cable = Cable(id="cable", route=((1000, 2400), (1000, 1000)))
    assert told(only(face, "face.service", bare(valve(885), services=[cable]))) == ("tight", 50)
    finding = only(face, "face.service", bare(valve(885.1), services=[cable]))
    assert told(finding) == ("clash", 49.9)
    assert finding.message == "Recess of valve is 49.9 mm from the cable; 50 mm is wanted."


def test_a_cable_behind_a_pocket_is_measured_in_depth() -> None:
    # pocket 50 deep, cable's centre 105 deep less 5
    def cable(depth: float) -> Cable:
        return Cable(id="cable", route=((1000, 2400), (1000, 1000)), depth=depth)

    assert told(only(face, "face.service", bare(head(1000), services=[cable(105)]))) == ("tight", 50)
    assert told(only(face, "face.service", bare(head(1000), services=[cable(104.9)]))) == ("clash", 49.9)


def test_a_screw_into_a_cable_is_told() -> None:
    # the bracket's screw is 6 across and 45 deep, the cable's front 30 - 5 deep beside it: 20 - 3 - 5
    cable = Cable(id="cable", route=((1020, 2400), (1020, 1000)), depth=30)
    finding = only(face, "face.service", bare(rail(1000), services=[cable]))
    assert told(finding) == ("clash", 12)
    assert finding.message == "Screw of rail is 12 mm from the cable; 50 mm is wanted."


def test_a_plate_over_a_cable_that_nothing_reaches_is_no_fault() -> None:
    # the brackets lie over a cable whose front is 130 - 5 deep; the screws end 45 deep, 80 short of it
    cable = Cable(id="cable", route=((1000, 2400), (1000, 1000)), depth=130)
    assert told(only(face, "face.service", bare(rail(1000), services=[cable]))) == ("clear", 80)


def test_a_plate_exactly_at_the_minimum_from_an_accessory_passes() -> None:
    # accessory 86 wide: 1000 - 43 - 50 - 80
    socket = Accessory(id="socket", x=1000, height=1200)
    assert told(only(face, "face.service", bare(valve(827), services=[socket]))) == ("tight", 50)
    finding = only(face, "face.service", bare(valve(827.1), services=[socket]))
    assert told(finding) == ("clash", 49.9)
    assert finding.message == "Plate of valve is 49.9 mm from the socket; 50 mm is wanted."


def test_a_chase_is_measured_to_the_box_of_an_accessory() -> None:
    # 1000 - 43 - 50 - 19.5; the box is deeper than the chase
    socket = Accessory(id="socket", x=1000, height=500)
    job = bare(valve(600, 2000), pipes=[feed(887.5)], services=[socket])
    assert told(only(face, "face.service", job)) == ("tight", 50)
    finding = only(face, "face.service", bare(valve(600, 2000), pipes=[feed(887.6)], services=[socket]))
    assert told(finding) == ("clash", 49.9)
    assert finding.message == "Chase of pipe is 49.9 mm from the socket; 50 mm is wanted."


def test_a_chase_is_measured_to_an_old_pipe() -> None:
    # 100 between the axes, less half of 39 and half of 15
    old = OldPipe(id="old", route=((1100, 0), (1100, 900)))
    job = bare(valve(800, 2000), pipes=[feed(1000)], services=[old])
    finding = only(face, "face.service", job)
    assert told(finding) == ("tight", 73)
    assert finding.message == "Chase of pipe is 73 mm from the old pipe old; 50 mm is wanted."


def test_a_pipe_that_is_fed_from_an_old_pipe_may_meet_it() -> None:
    old = OldPipe(id="old", route=((0, 0), (4000, 0)), depth=16.5)
    assert told(only(face, "face.service", bare(valve(1000), pipes=[feed(1045)], services=[old]))) == (
        "clear",
        # what is left is the recess: 1200 - 60 - 25 for the nut, less half of the old pipe
        1115 - 7.5,
    )


def test_a_pipe_that_only_passes_an_old_pipe_does_not_meet_it() -> None:
    old = OldPipe(id="old", route=((0, 300), (4000, 300)), depth=16.5)
    assert only(face, "face.service", bare(valve(1000), pipes=[feed(1045)], services=[old])).status == "clash"


def test_timbers_are_left_to_the_checks_behind_the_face() -> None:
    assert told(only(face, "face.service", bare(valve(1000), services=[Stud(id="stud", x=1000)]))) == (
        "clear",
        None,
    )


# a whole job


def test_the_suggested_arrangement_is_clear_on_the_face() -> None:
    findings = list(face(plan_of(suggested_job(760, 760, "right"))))
    assert [finding.rule for finding in findings] == [
        "face.plates", "face.edge", "face.opening", "face.service",
    ]  # fmt: skip
    assert {finding.status for finding in findings} == {"clear"}
    # outlet's flange to the bracket above it: 1030 + 30 to 1120; its flange to the corner: 190 - 30
    assert [finding.measured for finding in findings] == [60, 160, None, None]
