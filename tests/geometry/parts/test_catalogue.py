"""The parts that come with the program, and a user's own."""

from collections import Counter

import pytest

from geometry.parts.catalogue import Catalogue, generic_parts, kind_of, read_parts
from geometry.parts.records import (
    Disc,
    EnclosurePart,
    HandsetPart,
    HeadPart,
    HosePart,
    OutletPart,
    Part,
    Port,
    RailPart,
    Slab,
    SpoutPart,
    TubePart,
    ValvePart,
)

PARTS = generic_parts()
VALVES = [part for part in PARTS if isinstance(part, ValvePart)]


def own(text: str) -> tuple[Part, ...]:
    return read_parts(text.encode(), "own.toml")


def refusal(text: str | bytes) -> str:
    with pytest.raises(ValueError, match=r"^own\.toml: ") as problem:
        read_parts(text if isinstance(text, bytes) else text.encode(), "own.toml")
    said = str(problem.value)
    assert len(said.splitlines()) == 1
    assert len(said) < 300
    return said


# what there is


@pytest.mark.parametrize("outlets", [1, 2, 3])
@pytest.mark.parametrize("plate", [Disc, Slab])
def test_there_is_a_valve_of_each_number_of_outlets_with_a_round_and_a_square_plate(
    outlets: int, plate: type[Disc | Slab]
) -> None:
    found = [
        valve
        for valve in VALVES
        if isinstance(valve.plate, plate) and sum(port.service == "mixed" for port in valve.ports) == outlets
    ]
    assert len(found) == 1
    assert Counter(port.service for port in found[0].ports) == {"hot": 1, "cold": 1, "mixed": outlets}


WANTED: dict[type[Part], int] = {
    HeadPart: 4,  # three on wall arms, one on a ceiling arm
    OutletPart: 1,
    RailPart: 2,
    HandsetPart: 1,
    HosePart: 3,
    SpoutPart: 1,
    EnclosurePart: 2,
    TubePart: 2,
}


@pytest.mark.parametrize("kind", WANTED, ids=kind_of)
def test_there_are_parts_of_every_kind(kind: type[Part]) -> None:
    assert sum(isinstance(part, kind) for part in PARTS) >= WANTED[kind]


def test_heads_come_on_wall_arms_of_three_sizes_and_on_a_ceiling_arm() -> None:
    heads = [part for part in PARTS if isinstance(part, HeadPart)]
    assert len({head.diameter for head in heads if head.mount == "wall"}) >= 3
    assert any(head.mount == "ceiling" for head in heads)


def test_hoses_and_rails_come_in_different_lengths() -> None:
    assert len({part.length for part in PARTS if isinstance(part, HosePart)}) >= 3
    assert len({part.length for part in PARTS if isinstance(part, RailPart)}) >= 2


def test_there_are_trays_and_a_bath() -> None:
    kinds = {part.kind for part in PARTS if isinstance(part, EnclosurePart)}
    assert kinds == {"tray", "bath"}
    assert PARTS.find("tray-760x760", EnclosurePart).width == 760


def test_every_rail_carries_a_handset_that_there_is() -> None:
    for rail in (part for part in PARTS if isinstance(part, RailPart)):
        assert PARTS.find(rail.handset, HandsetPart).id == rail.handset


def test_no_two_parts_have_one_id() -> None:
    assert max(Counter(part.id for part in PARTS).values()) == 1


def test_ids_and_names_say_what_a_part_is_and_nothing_else() -> None:
    # the words of the trade; a maker's name would stand out here
    words = {
        "valve", "concealed", "one", "two", "three", "outlet", "outlets", "round", "square", "plate", "head",
        "wall", "ceiling", "on", "a", "arm", "hose", "flange", "bath", "spout", "reach", "rail", "handset",
        "tray", "x", "copper", "barrier", "multilayer", "plastic", "pipe",
    }  # fmt: skip
    for part in PARTS:
        for text in (part.id.replace("-", " "), part.name.replace(",", " ")):
            said = {word for word in text.lower().split() if word.strip("0123456789.x")}
            assert said <= words, part.id


# sizes that hang together: a wrong digit in the data would show


@pytest.mark.parametrize("valve", VALVES, ids=lambda valve: valve.id)
def test_a_valve_has_its_ports_on_the_edge_of_its_box(valve: ValvePart) -> None:
    assert isinstance(valve.box, Slab)
    edges = {
        "left": ("x", -valve.box.wide / 2),
        "right": ("x", valve.box.wide / 2),
        "up": ("y", valve.box.high / 2),
        "down": ("y", -valve.box.high / 2),
    }
    for port in valve.ports:
        axis, edge = edges[port.direction]
        assert getattr(port, axis) == edge, port.name
        assert abs(port.x) <= valve.box.wide / 2
        assert abs(port.y) <= valve.box.high / 2


@pytest.mark.parametrize("valve", VALVES, ids=lambda valve: valve.id)
def test_hot_enters_a_valve_on_the_left_and_cold_on_the_right(valve: ValvePart) -> None:
    # as seen from the room: the usual order of inlets (common practice, no source)
    at = {port.service: port.x for port in valve.ports if port.service != "mixed"}
    assert at["hot"] < 0 < at["cold"]


@pytest.mark.parametrize("valve", VALVES, ids=lambda valve: valve.id)
def test_a_plate_covers_the_hole_and_carries_the_controls(valve: ValvePart) -> None:
    half = (valve.plate.diameter if isinstance(valve.plate, Disc) else valve.plate.wide) / 2
    assert valve.hole / 2 < half
    for control in valve.controls:
        assert abs(control.x) + control.diameter / 2 <= half


FLANGED = [part for part in PARTS if isinstance(part, HeadPart | OutletPart | SpoutPart)]


@pytest.mark.parametrize("part", FLANGED, ids=lambda part: part.id)
def test_a_flange_covers_its_hole_in_the_finish(part: HeadPart | OutletPart | SpoutPart) -> None:
    assert part.hole < part.flange
    assert part.depth_least < part.depth_most


@pytest.mark.parametrize("tube", [p for p in PARTS if isinstance(p, TubePart)], ids=lambda p: p.id)
def test_a_tube_has_a_bore(tube: TubePart) -> None:
    assert tube.bore == pytest.approx(tube.outside - 2 * tube.wall)
    assert tube.bore > 0


# looking up


def test_a_part_that_is_not_there_is_named() -> None:
    with pytest.raises(ValueError, match=r"^no part is called 'valve-nine'$"):
        PARTS.find("valve-nine", ValvePart)


def test_a_part_of_another_kind_is_named_with_both_kinds() -> None:
    with pytest.raises(
        ValueError, match=r"^the part 'outlet-round' is of the kind 'hose outlet', not 'valve'$"
    ):
        PARTS.find("outlet-round", ValvePart)


# a user's own

HOSE = '[[part]]\ntype = "hose"\nid = "{}"\nname = "Mine"\nlength = {}\n'


def test_a_user_s_part_is_added_after_the_generic_ones() -> None:
    mine = PARTS.with_own(own(HOSE.format("hose-2000", 2000)))
    assert mine.find("hose-2000", HosePart).length == 2000
    assert [part.id for part in mine] == [*(part.id for part in PARTS), "hose-2000"]
    assert "hose-2000" not in {part.id for part in PARTS}


def test_a_user_s_part_replaces_the_generic_one_of_its_id() -> None:
    mine = PARTS.with_own(own(HOSE.format("hose-1500", 1480)))
    assert mine.find("hose-1500", HosePart).length == 1480
    assert len(list(mine)) == len(list(PARTS))


def test_the_later_of_two_files_wins() -> None:
    both = Catalogue(()).with_own(own(HOSE.format("h", 1))).with_own(own(HOSE.format("h", 2)))
    assert both.find("h", HosePart).length == 2


def test_sizes_are_read_as_typed_and_the_rest_takes_its_default() -> None:
    assert own(HOSE.format("h", 1500)) == (HosePart(id="h", name="Mine", length=1500.0),)


def test_a_file_without_parts_and_one_with_a_byte_order_mark_are_read() -> None:
    assert own("# nothing yet\n") == ()
    assert len(read_parts(b"\xef\xbb\xbf" + HOSE.format("h", 1).encode(), "own.toml")) == 1


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (HOSE.format("h", "nan"), "$.part[0].length: must be above 0 and at most 20000 mm, got nan"),
        (HOSE.format("h", "inf"), "$.part[0].length: must be above 0 and at most 20000 mm, got inf"),
        (HOSE.format("h", -1), "$.part[0].length: must be above 0 and at most 20000 mm, got -1"),
        (HOSE.format("h", "'long'"), "$.part[0].length: must be a number, got 'long'"),
        (HOSE.format("h", "true"), "$.part[0].length: must be a number, got true"),
        (HOSE.format("h", "1979-05-27"), "$.part[0].length: must be a number, got 1979-05-27"),
        (HOSE.format("h", "[1]"), "$.part[0].length: must be a number, got a list of 1"),
        (HOSE.format("h", "1\nspeed = 3"), "$.part[0].speed: unknown key"),
        (HOSE.format("h", 1) * 2, "$.part[1].id: stands twice: 'h'"),
        (HOSE.format("a.b", 1), "$.part[0].id: must not hold '.', got 'a.b'"),
        ("part = 1", "$.part: must be a list, got 1"),
        ("[[parts]]", "$.parts: unknown key"),
        (
            "[[part]]\ntype = 'howse'",
            "$.part[0].type: must be one of valve, head, hose_outlet, rail, handset, hose, spout, enclosure, "
            "tube, got 'howse'",
        ),
        ("[[part]]\ntype = 'hose'", "$.part[0].id: is missing"),
        (
            "[[part]]\ntype = 'spout'\nid = 's'\nname = ''\nreach = 9\ndepth_least = 60\ndepth_most = 40\n",
            "$.part[0].depth_most: must be at least depth_least 60 mm, got 40",
        ),
        (
            "[[part]]\ntype = 'rail'\nid = 'r'\nname = ''\nlength = 700\nfixing_low = 25\nfixing_high = 675\n"
            "slide_low = 80\nslide_high = 720\nhandset = 'h'\n",
            "$.part[0].slide_high: must lie above slide_low and within the length, got 720",
        ),
        (b"\xff", "not UTF-8: byte 0 is 0xff"),
        ("a = " + "[" * 100_000, "not TOML: brackets nested too deep"),
    ],
)
def test_a_wrong_file_is_refused_with_its_name_the_place_and_the_value(text: str | bytes, said: str) -> None:
    assert refusal(text) == f"own.toml: {said}"


@pytest.mark.parametrize(
    "text",
    ["a = ", "a = 1\na = 2", '{"part": []}', "\x00", HOSE.format("h", "9" * 5000), HOSE.format("h", 2**70)],
)
def test_what_is_no_toml_is_refused_on_one_line(text: str) -> None:
    assert refusal(text).startswith(("own.toml: not TOML: ", "own.toml: $.part[0].length: "))


def test_a_port_that_stands_twice_on_a_valve_is_refused() -> None:
    # pipes name ports: the second of a name could never be reached
    valve = VALVES[0]
    twice = (*valve.ports, Port(name="hot", service="hot", direction="down"))
    with pytest.raises(ValueError, match=r"^\.ports\[3\]\.name: stands twice: 'hot'$"):
        valve.but(ports=twice)
