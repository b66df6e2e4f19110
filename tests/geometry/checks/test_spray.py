"""Whether the spray falls inside the enclosure. The head is 200 across, 350 out, its underside at 2040."""

import pytest

from geometry.checks.spray import spray
from geometry.model import Enclosure, Head, Screen, Wall
from geometry.model.record import XY
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.checks.walls import bare, found, only, plan_of, told


def head(x: float, name: str = "head") -> Head:
    return Head(id=name, part="head-wall-200", x=x, height=2100)


def tray(left: float = 500, width: float = 1000, projection: float = 900) -> Enclosure:
    return Enclosure(left=left, width=width, projection=projection)


def pane(start: XY, end: XY, top: float = 2100) -> Screen:
    return Screen(id="pane", start=start, end=end, top=top)


def test_a_spray_exactly_at_the_minimum_inside_the_left_edge_passes() -> None:
    # 650 - 100 - 500
    assert told(only(spray, "spray.inside", bare(head(650), enclosure=tray()))) == ("tight", 50)


def test_a_spray_a_tenth_nearer_to_the_left_edge_clashes() -> None:
    finding = only(spray, "spray.inside", bare(head(649.9), enclosure=tray()))
    assert told(finding) == ("clash", 49.9)
    assert finding.message == "Spray of head falls 49.9 mm inside the left edge of the tray; 50 mm is wanted."
    assert finding.place == ((649.9 - 100, 2040), (500, 2040))


def test_a_spray_beyond_the_right_edge_says_by_how_much() -> None:
    # 1500 - 1450 - 100
    finding = only(spray, "spray.inside", bare(head(1450), enclosure=tray()))
    assert told(finding) == ("clash", -50)
    assert finding.message == (
        "Spray of head falls 50 mm outside the right edge of the tray; 50 mm inside is wanted."
    )


def test_a_spray_keeps_inside_the_front_edge() -> None:
    # 500 - 350 - 100
    job = bare(head(1000), enclosure=tray(projection=500))
    assert told(only(spray, "spray.inside", job)) == ("tight", 50)
    finding = only(spray, "spray.inside", bare(head(1000), enclosure=tray(projection=499.9)))
    assert (told(finding), "front edge" in finding.message) == (("clash", 49.9), True)


def test_the_wall_itself_is_no_edge() -> None:
    # nearest to the front: 900 - 100 - 100; the wall is 0 from the spray
    near_wall = head(1000).but(reach=100)
    assert told(only(spray, "spray.inside", bare(near_wall, enclosure=tray()))) == ("clear", 400)


def test_only_the_least_margin_of_a_head_is_told() -> None:
    # left 30, right 20
    finding = only(spray, "spray.inside", bare(head(630), enclosure=tray(width=250)))
    assert told(finding) == ("clash", 20)


def test_each_head_that_sprays_outside_has_a_finding_of_its_own() -> None:
    job = bare(head(620), head(1410, name="other"), head(1000, name="middle"), enclosure=tray())
    assert [(f.parts, f.measured) for f in found(spray, "spray.inside", job)] == [
        (("other",), -10),
        (("head",), 20),
    ]


# walls and screens that close an edge


def corner_wall(left: str = "corner", right: str = "free_end") -> Wall:
    return Wall(width=4000, height=2400, left=left, right=right)  # type: ignore[arg-type]


@pytest.mark.parametrize(("left", "closed"), [(0, True), (30, True), (30.1, False)])
def test_an_edge_against_a_wall_at_a_corner_is_closed(left: float, closed: bool) -> None:
    # the spray is 10 past the edge; front: 900 - 450; right is farther
    job = bare(head(left + 90), enclosure=tray(left, width=2000), wall=corner_wall())
    assert told(only(spray, "spray.inside", job)) == (("clear", 450) if closed else ("clash", -10))


@pytest.mark.parametrize(("width", "closed"), [(1000, True), (970, True), (969.9, False)])
def test_the_right_edge_against_a_corner_is_closed_too(width: float, closed: bool) -> None:
    wall = corner_wall("free_end", "corner")
    job = bare(head(3000 + width - 90), enclosure=tray(3000, width), wall=wall)
    assert told(only(spray, "spray.inside", job)) == (("clear", 450) if closed else ("clash", -10))


def test_an_edge_at_a_free_end_is_open() -> None:
    assert told(only(spray, "spray.inside", bare(head(90), enclosure=tray(0)))) == ("clash", -10)


def test_the_right_edge_at_a_free_end_is_open() -> None:
    # 4000 - 3910 - 100
    assert told(only(spray, "spray.inside", bare(head(3910), enclosure=tray(3000)))) == ("clash", -10)


def test_a_screen_along_an_edge_up_to_the_head_closes_it() -> None:
    screens = [pane((500, 0), (500, 900))]
    job = bare(head(590), enclosure=tray(), screens=screens)
    assert told(only(spray, "spray.inside", job)) == ("clear", 450)


def test_a_screen_that_ends_under_the_head_leaves_the_edge_open() -> None:
    screens = [pane((500, 0), (500, 900), top=2039)]
    assert told(only(spray, "spray.inside", bare(head(590), enclosure=tray(), screens=screens))) == (
        "clash",
        -10,
    )


def test_a_screen_that_ends_before_the_spray_leaves_the_edge_open() -> None:
    # the spray reaches from 250 to 450 out
    screens = [pane((500, 0), (500, 440))]
    assert only(spray, "spray.inside", bare(head(590), enclosure=tray(), screens=screens)).status == "clash"


def test_a_screen_that_begins_after_the_spray_leaves_the_edge_open() -> None:
    screens = [pane((500, 260), (500, 900))]
    assert only(spray, "spray.inside", bare(head(590), enclosure=tray(), screens=screens)).status == "clash"


def test_a_screen_inside_the_edge_does_not_close_it() -> None:
    screens = [pane((531, 0), (531, 900))]
    assert only(spray, "spray.inside", bare(head(590), enclosure=tray(), screens=screens)).status == "clash"


def test_a_screen_across_the_front_closes_it() -> None:
    screens = [pane((500, 440), (1500, 440))]
    job = bare(head(1000), enclosure=tray(projection=440), screens=screens)
    # sides: 1000 - 100 - 500
    assert told(only(spray, "spray.inside", job)) == ("clear", 400)


def test_where_walls_and_screens_close_every_edge_the_list_says_so() -> None:
    wall = Wall(width=1000, height=2400)
    screens = [pane((0, 440), (1000, 440))]
    job = bare(head(500), enclosure=tray(0, 1000, 440), screens=screens, wall=wall)
    finding = only(spray, "spray.inside", job)
    assert told(finding) == ("clear", None)
    assert finding.message == "Walls and screens close every edge round the spray."


def test_a_wet_floor_is_judged_like_a_tray() -> None:
    floor = Enclosure(kind="wet_floor", left=500, width=1000, projection=900)
    finding = only(spray, "spray.inside", bare(head(620), enclosure=floor))
    assert told(finding) == ("clash", 20)
    assert "left edge of the wet floor" in finding.message


def test_without_a_head_the_list_says_that_there_was_nothing_to_compare() -> None:
    assert told(only(spray, "spray.inside", bare())) == ("clear", None)


def test_the_suggested_arrangement_sprays_inside_its_tray() -> None:
    # both sides are corners; front 760 - (14 + 350 + 100)
    (finding,) = spray(plan_of(suggested_job(760, 760, "left")))
    assert told(finding) == ("clear", 296)
