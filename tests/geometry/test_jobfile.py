"""Job files: what is written comes back, and whatever is wrong is named in one line with path and value."""

import json
import time
import tracemalloc
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.jobfile import FORMAT, MOST_BYTES, VERSION, JobFileError, read_job, write_job
from geometry.model import About, Job, Layer
from geometry.setting_out.arrangement import suggested_job
from tests.strategies import jobs

V1 = Path(__file__).parents[1] / "data" / "job_v1.json"
JOB = suggested_job(760, 760, "left")
GOOD = write_job(JOB)
Change = Callable[[Any], object]


def changed(change: Change) -> bytes:
    """Return a good file after one change to its plain data."""
    plain = json.loads(GOOD)
    change(plain)
    return json.dumps(plain).encode()


def complaint(data: bytes) -> str:
    with pytest.raises(JobFileError) as problem:
        read_job(data)
    text = str(problem.value)
    assert len(text.splitlines()) == 1
    assert len(text) < 400
    return text


# what is written


@given(jobs())
def test_what_is_written_comes_back_the_same(job: Job) -> None:
    assert read_job(write_job(job)) == job


@given(jobs())
def test_writing_again_gives_the_same_bytes(job: Job) -> None:
    data = write_job(job)
    assert write_job(read_job(data)) == data


def test_the_file_says_what_it_is_on_its_first_lines() -> None:
    assert GOOD.startswith(b'{\n  "format": "chasewright job",\n  "version": 2,\n  "about": {\n')
    assert GOOD.endswith(b"\n}\n")


def test_moving_one_fitting_changes_two_lines() -> None:
    before, after = GOOD.splitlines(), write_job(JOB.moved("head", 400.0, 2180.5)).splitlines()
    assert len(before) == len(after)
    differing = [new.strip() for old, new in zip(before, after, strict=True) if old != new]
    assert differing == [b'"x": 400.0,', b'"height": 2180.5,']


def test_a_point_stands_on_one_line() -> None:
    assert b'      "route": [\n        [335.0, 0.0]\n      ],\n' in GOOD


@pytest.mark.parametrize(
    "title", ["[ 1, 2 ]", "[\n  1.0,\n  2.0\n]", '"', "\\", "</b> & %%c \\P", "دش Łódź 🚿"]
)
def test_a_title_comes_back_as_typed(title: str) -> None:
    assert read_job(write_job(JOB.but(about=About(title=title)))).about.title == title


def test_a_byte_order_mark_is_passed_over() -> None:
    assert read_job(b"\xef\xbb\xbf" + GOOD) == JOB


def test_line_ends_of_another_system_are_read() -> None:
    assert read_job(GOOD.replace(b"\n", b"\r\n")) == JOB


def test_a_whole_number_is_read_as_one_with_a_fraction() -> None:
    assert read_job(changed(lambda job: job["wall"].update(width=760))) == JOB


def test_what_a_file_leaves_out_takes_its_default() -> None:
    assert read_job(changed(lambda job: job.pop("about"))).about == About(title="Concealed shower")


# versions


def test_the_frozen_file_of_version_1_is_read_whole() -> None:
    plain = json.loads(V1.read_bytes())
    job = read_job(V1.read_bytes())
    assert [layer.name for layer in job.finish.areas[0].layers] == ["cement board", "tile"]
    assert job.finish.areas[0].region is None
    assert job.finish.areas[0].layers[1] == Layer(kind="tile", thickness=8.0, tolerance=0.5, name="tile")
    # all else is in version 2 as it was in version 1
    newer = json.loads(write_job(job))
    assert plain["finish"]["tiling"].items() <= newer["finish"]["tiling"].items()
    for field in set(plain) - {"version", "finish"}:
        assert _without(newer[field], _added_later(plain[field], newer[field])) == plain[field], field


def _added_later(old: Any, new: Any) -> set[str]:
    """Return the keys that records have gained since, at any depth."""
    if isinstance(old, dict):
        gained = set(new) - set(old)
        return gained.union(*(_added_later(old[key], new[key]) for key in old))
    if isinstance(old, list):
        return set().union(*(_added_later(a, b) for a, b in zip(old, new, strict=True)))
    return set()


def _without(value: Any, keys: set[str]) -> Any:
    if isinstance(value, dict):
        return {key: _without(held, keys) for key, held in value.items() if key not in keys}
    return [_without(held, keys) for held in value] if isinstance(value, list) else value


def v1(change: Change) -> bytes:
    plain = json.loads(V1.read_bytes())
    change(plain)
    return json.dumps(plain).encode()


def test_version_1_without_layers_means_a_bare_wall() -> None:
    assert read_job(v1(lambda job: job["finish"].pop("layers"))).finish.areas == ()
    assert read_job(v1(lambda job: job.pop("finish"))).finish.areas == ()


def test_a_wrong_value_in_version_1_is_named_by_its_place_in_that_file() -> None:
    data = v1(lambda job: job["finish"]["layers"][1].update(thickness="thin"))
    assert complaint(data) == "$.finish.layers[1].thickness: must be a number, got 'thin'"


def test_version_1_beside_a_field_of_version_2_is_refused_rather_than_half_lost() -> None:
    assert (
        complaint(v1(lambda job: job["finish"].update(areas=[])))
        == "$.finish.areas: unknown key in version 1"
    )


@pytest.mark.parametrize("finish", [5, [], None, "tiled", {"layers": 3}, {"layers": None}])
def test_version_1_with_a_strange_finish_is_refused(finish: object) -> None:
    assert complaint(v1(lambda job: job.update(finish=finish))).startswith("$.finish")


def test_a_newer_version_is_refused_before_anything_else_is_looked_at() -> None:
    data = changed(lambda job: (job.update(version=VERSION + 1), job.update(wall="new kind of wall")))
    assert complaint(data) == "$.version: written by a newer program (version 3, this one reads up to 2)"


@pytest.mark.parametrize("version", [0, -1, "2", 2.5, None, True, 10**30, [2]])
def test_a_version_that_cannot_be_is_named(version: object) -> None:
    assert complaint(changed(lambda job: job.update(version=version))).startswith("$.version: must be ")


def test_another_format_is_refused() -> None:
    data = changed(lambda job: job.update(format="knitting pattern"))
    assert complaint(data) == f"$.format: must be {FORMAT!r}, got 'knitting pattern'"


# wrong values: the path, and the value

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


@pytest.mark.parametrize(("place", "value", "said"), WRONG)
def test_a_wrong_value_is_named_with_its_path(place: tuple[str | int, ...], value: object, said: str) -> None:
    path = "".join(f"[{step}]" if isinstance(step, int) else f".{step}" for step in place)
    assert (
        complaint(changed(lambda job: inside(job, place[:-1]).__setitem__(place[-1], value)))
        == f"${path}: {said}"
    )


def inside(plain: Any, place: tuple[str | int, ...]) -> Any:
    for step in place:
        plain = plain[step]
    return plain


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


@pytest.mark.parametrize("place", [(), ("fittings", 1), ("wall",)])
def test_half_a_character_is_refused_wherever_it_stands(place: tuple[str | int, ...]) -> None:
    path = {0: "$", 1: "$.wall", 2: "$.fittings[1]"}[len(place)]
    data = changed(lambda job: inside(job, place).update({"a\ud800": 1}))
    assert complaint(data) == f"{path}['a\\ud800']: must not hold '\\ud800'"


def test_half_a_character_in_a_word_of_a_list_is_refused() -> None:
    data = changed(lambda job: job["wall"].update(make_up="\udfffx"))
    assert complaint(data) == "$.wall.make_up: must not hold '\\udfff'"


def test_an_area_that_stands_twice_is_named() -> None:
    data = changed(lambda job: job["finish"]["areas"].append(job["finish"]["areas"][0]))
    assert complaint(data) == "$.finish.areas[1].id: stands twice: 'wall'"


@pytest.mark.parametrize(
    ("token", "value"),
    [("NaN", "nan"), ("Infinity", "inf"), ("-Infinity", "-inf"), ("1e400", "inf"), ("1e-400", "0")],
)
def test_a_number_that_is_none_is_refused_where_it_stands(token: str, value: str) -> None:
    data = GOOD.replace(b'"width": 760.0', f'"width": {token}'.encode(), 1)
    assert complaint(data) == f"$.wall.width: {SIZE}{value}"


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


# bytes that are no job file

NOT_JSON = "$: not JSON, or cut short: "
BAD_BYTES = {
    b"": NOT_JSON + "Expecting value at line 1 column 1",
    b"\x00": NOT_JSON + "Expecting value at line 1 column 1",
    b"// a job\n{}": NOT_JSON + "Expecting value at line 1 column 1",
    b"[]": "$: must be a table of fields, got a list of 0",
    b"null": "$: must be a table of fields, got null",
    b"{}": "$.format: is missing",
    b"\xff\xfe{\x00}\x00": "$: not UTF-8: byte 0 is 0xff",
    b"{}\n x": NOT_JSON + "Extra data at line 2 column 2",
    GOOD[:30]: NOT_JSON + "Unterminated string starting at line 2 column 13",
}


@pytest.mark.parametrize("data", BAD_BYTES)
def test_bytes_that_are_no_job_are_refused(data: bytes) -> None:
    assert complaint(data) == BAD_BYTES[data]


def test_a_file_cut_short_anywhere_is_refused() -> None:
    for end in range(0, len(GOOD) - 2, 7):
        complaint(GOOD[:end])


HOSTILE = {
    "50 MB of brackets": b"[" * 50_000_000,
    "brackets": b"[" * MOST_BYTES,
    "objects": b'{"a":' * (MOST_BYTES // 5),
    "open text": b'"' + b"a" * (MOST_BYTES - 1),
    "backslashes": b'"' + b"\\\\" * (MOST_BYTES // 2 - 1),
    "quotes": b'"' * MOST_BYTES,
    "escaped quotes outside a text": b'\\"' * (MOST_BYTES // 2),
    "open and escape": b'"\\' * (MOST_BYTES // 2),
    "escaped line feeds": b'"' + b"\\\n" * (MOST_BYTES // 2 - 1),
    "digits": b'{"version":' + b"9" * (MOST_BYTES - 20) + b"}",
    "pairs of brackets": b"[" + b"[]," * (MOST_BYTES // 3 - 2) + b"[]]",
    "one key many times": b"{" + b'"a":1,' * (MOST_BYTES // 6 - 2) + b'"a":1}',
    "blanks": b" " * MOST_BYTES,
}


@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_bytes_are_refused_at_once(name: str) -> None:
    started = time.process_time()
    complaint(HOSTILE[name])
    assert time.process_time() - started < 2  # seconds; a scan that goes back takes hours


def test_refusing_50_mb_of_brackets_takes_no_memory_of_that_size() -> None:
    data = HOSTILE["50 MB of brackets"]
    tracemalloc.start()
    try:
        assert complaint(data) == f"$: too large for a job: 50000000 bytes, at most {MOST_BYTES}"
        assert tracemalloc.get_traced_memory()[1] < 1_000_000
    finally:
        tracemalloc.stop()


def test_brackets_in_a_text_are_not_nesting() -> None:
    title = "[" * 100 + '\\"' + "{" * 100
    assert read_job(write_job(JOB.but(about=About(title=title)))).about.title == title


# no bytes make it raise anything else


@given(st.binary(max_size=200))
def test_any_bytes_are_read_or_refused(data: bytes) -> None:
    complaint(data)


@given(st.data())
def test_a_file_with_some_bytes_changed_is_read_or_refused(data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(GOOD)))
    length = data.draw(st.integers(0, 20))
    put = data.draw(
        st.binary(max_size=6) | st.sampled_from([b'"', b"[", b"}", b"\\", b"null", b"1e999", b"-"])
    )
    _read_or_refused(GOOD[:start] + put + GOOD[start + length :])


VALUES = (
    st.none()
    | st.booleans()
    | st.integers(-(10**30), 10**30)
    | st.floats()
    | st.text(st.characters(), max_size=8)
    | st.sampled_from(
        ["valve.hot", "head", "", "x - at `$.y`", "type", 10**400, [], {}, [[]], {"type": "valve"}]
    )
)


@given(st.data())
def test_a_file_with_one_value_changed_is_read_or_refused_with_a_path(data: st.DataObject) -> None:
    plain = json.loads(GOOD)
    place: Any = plain
    while True:  # down to some depth
        keys = list(place) if isinstance(place, dict) else list(range(len(place)))
        key = data.draw(st.sampled_from(keys))
        if not (isinstance(place[key], dict | list) and place[key] and data.draw(st.integers(0, 3))):
            break
        place = place[key]
    how = data.draw(st.sampled_from(["set", "drop", "add"]))
    if how == "drop":
        del place[key]
    elif how == "set" or isinstance(place, list):
        place[key] = data.draw(VALUES)
    else:
        place[data.draw(st.text(st.characters(), max_size=8))] = data.draw(VALUES)
    _read_or_refused(json.dumps(plain).encode())


def _read_or_refused(data: bytes) -> None:
    """Hold a file to its promise: it is read and can be written, or is refused in one line with a path."""
    try:
        job = read_job(data)
    except JobFileError as problem:
        said = str(problem)
    else:
        assert read_job(write_job(job)) == job
        return
    assert said.startswith("$")
    assert len(said.splitlines()) == 1
