"""Whatever is wrong in a job file is named in one line with its path and its value."""

from typing import Any

import pytest

from tests.geometry.job_bytes import GOOD, changed, complaint

SIZE = "must be above 0 and at most 20000 mm, got "
PLACE = "must be at least -20000 and at most 20000 mm, got "
KINDS = "one of valve, head, hose_outlet, rail, spout"
MAKE_UPS = "aerated_block, brick, dense_block, hollow_block, metal_stud, timber_stud"
WRONG: list[tuple[tuple[str | int, ...], object, str]] = [
    (("fittings", 2, "height"), "5", "must be a number, got '5'"),
    (("fittings", 2, "height"), None, "must be a number, got null"),
    (("fittings", 2, "height"), True, "must be a number, got true"),
    (("fittings", 2, "height"), [1], "must be a number, got a list of 1"),
    (("fittings", 2, "height"), {}, "must be a number, got a table of fields"),
    (("fittings", 2, "height"), 20000.1, PLACE + "20000.1"),
    (("fittings", 0, "recess"), "x", "must be a number or null, got 'x'"),
    (("fittings", 2, "colour"), "red", "unknown key"),
    (("fittings",), {}, "must be a list, got a table of fields"),
    (("fittings", 1), 5, "must be a table of fields, got 5"),
    (("fittings", 0, "type"), "vlave", f"must be {KINDS}, got 'vlave'"),
    (("fittings", 0, "type"), 3, f"must be {KINDS}, got 3"),
    (("fittings", 0, "side"), "middle", "must be one of left, right, got 'middle'"),
    (("wall", "width"), -760, SIZE + "-760"),
    (("wall", "width"), 0, SIZE + "0"),
    (("wall", "width"), 1e300, SIZE + "1e+300"),
    (("wall", "width"), 2**64, SIZE + "1.84467440737e+19"),
    (("wall", "width"), 10**400, SIZE + "inf"),
    (("wall", "make_up"), "straw", f"must be one of {MAKE_UPS}, got 'straw'"),
    (("wall", "make_up"), 7, f"must be one of {MAKE_UPS}, got 7"),
    (("enclosure", "entry"), "up", "must be one of front, left, right, got 'up'"),
    (("enclosure", "rim"), 0, "must not lie below the floor at 30 mm, got 0"),
    (("pipes", 0, "route", 0), [1, 2, 3], "must be a list of 2, got a list of 3"),
    (("pipes", 0, "route", 0, 1), "a", "must be a number, got 'a'"),
    (("pipes", 0, "route", 0, 1), 1e9, PLACE + "1000000000"),
    (("pipes", 0, "route"), [], "must have the place of its supply as its first point, has none"),
    (("pipes", 2, "start"), "gone.x", "no such fitting and port: 'gone.x'"),
    (("pipes", 2, "id"), "head", "stands twice: 'head', as in fittings[1]"),
    (("fittings", 1, "id"), "valve", "stands twice: 'valve', as in fittings[0]"),
    (("fittings", 0, "id"), "", "must not be empty"),
    (("fittings", 0, "id"), "a.b", "must not hold '.', got 'a.b'"),
    (("about", "title"), "\ud800", "must not hold '\\ud800', got '\\ud800'"),
    (("about", "title"), "x" * 301, "must have at most 300 characters, has 301"),
    (("hoses", 0, "outlet"), "gone", "no such fitting: 'gone'"),
    (("hoses", 0, "rail"), "outlet", "no such fitting: 'outlet'"),
]


def inside(plain: Any, place: tuple[str | int, ...]) -> Any:
    for step in place:
        plain = plain[step]
    return plain


# values


@pytest.mark.parametrize(("place", "value", "said"), WRONG)
def test_a_wrong_value_is_named_with_its_path(place: tuple[str | int, ...], value: object, said: str) -> None:
    path = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in place)
    assert (
        complaint(changed(lambda job: inside(job, place[:-1]).__setitem__(place[-1], value)))
        == f"${path}: {said}"
    )


@pytest.mark.parametrize(
    ("token", "value"),
    [("NaN", "nan"), ("Infinity", "inf"), ("-Infinity", "-inf"), ("1e400", "inf"), ("1e-400", "0")],
)
def test_a_number_that_is_none_is_refused_where_it_stands(token: str, value: str) -> None:
    data = GOOD.replace(b'"width": 760.0', f'"width": {token}'.encode(), 1)
    assert complaint(data) == f"$.wall.width: {SIZE}{value}"


@pytest.mark.parametrize("place", [(), ("fittings", 1), ("wall",)])
def test_half_a_character_is_refused_wherever_it_stands(place: tuple[str | int, ...]) -> None:
    path = {0: "$", 1: "$.wall", 2: "$.fittings[1]"}[len(place)]
    data = changed(lambda job: inside(job, place).update({"a\ud800": 1}))
    assert complaint(data) == f"{path}['a\\ud800']: must not hold '\\ud800'"


def test_half_a_character_in_a_word_of_a_list_is_refused() -> None:
    data = changed(lambda job: job["wall"].update(make_up="\udfffx"))
    assert complaint(data) == "$.wall.make_up: must not hold '\\udfff'"


# fields that are missing or unknown


def test_a_part_without_its_kind_is_told_the_kinds() -> None:
    assert (
        complaint(changed(lambda job: job["fittings"][0].pop("type")))
        == f"$.fittings[0].type: is missing: {KINDS}"
    )
    services = "one of accessory, cable, old_pipe, stud, joist"
    assert (
        complaint(changed(lambda job: job["services"].append({})))
        == f"$.services[0].type: is missing: {services}"
    )


def test_a_field_that_is_missing_is_named() -> None:
    assert (
        complaint(changed(lambda job: job["fittings"][2].pop("height"))) == "$.fittings[2].height: is missing"
    )
    assert complaint(changed(lambda job: job.pop("wall"))) == "$.wall: is missing"


@pytest.mark.parametrize(
    ("key", "step"),
    [("a\nb", "['a\\nb']"), ("", "['']"), ("a b", "['a b']"), ("x - at `$.wall", "['x - at `$.wall']"),
     ("x` - at `$.wall", "['x` - at `$.wall']"), ("k" * 1000, f"['{'k' * 56}...]")],
)  # fmt: skip
def test_an_unknown_key_is_quoted_on_one_line(key: str, step: str) -> None:
    assert complaint(changed(lambda job: job.update({key: 1}))) == f"${step}: unknown key"
    assert (
        complaint(changed(lambda job: job["fittings"][2].update({key: 1})))
        == f"$.fittings[2]{step}: unknown key"
    )


# what stands twice


def test_an_area_that_stands_twice_is_named() -> None:
    data = changed(lambda job: job["finish"]["areas"].append(job["finish"]["areas"][0]))
    assert complaint(data) == "$.finish.areas[1].id: stands twice: 'wall'"


def test_a_key_that_stands_twice_is_refused_rather_than_half_lost() -> None:
    data = GOOD.replace(b'"width": 760.0', b'"width": 760.0, "width": 900.0', 1)
    assert complaint(data) == "$.wall.width: stands twice"


def test_of_two_keys_that_stand_twice_the_outer_one_is_named() -> None:
    # the inner one is in the value that the outer one throws away
    data = GOOD.replace(b'"wall": {', b'"wall": {"width": 1, "width": 2}, "wall": {', 1)
    assert complaint(data) == "$.wall: stands twice"


def test_a_key_that_stands_twice_in_a_list_is_found() -> None:
    data = GOOD.replace(b'"part": "head-wall-200"', b'"part": "head-wall-200", "part": "x"', 1)
    assert complaint(data) == "$.fittings[1].part: stands twice"
