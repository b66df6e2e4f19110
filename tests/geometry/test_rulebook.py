"""The limits as data, and how a value is judged against one."""

import math
import pkgutil

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.finding import STATUSES, Finding, Limit, Source, attention
from geometry.rules import Rulebook, standard_rules
from geometry.rules.rulebook import joined, read_rules

RULES = standard_rules()
LIMITS = tuple(RULES)
PRACTICE = Source(standing="common practice")
LEAST = Limit(rule="a.least", title="", value=20, unit="mm", sense="at least", tight=10, source=PRACTICE)
MOST = Limit(rule="a.most", title="", value=20, unit="bar", sense="at most", tight=5, source=PRACTICE)
OWN = Rulebook({limit.rule: limit for limit in (LEAST, MOST)})


def toml(rule: str, **fields: str) -> str:
    """Return one table of a file of limits, with some fields changed or, if empty, left out."""
    usual = {
        "title": '"Gap"',
        "value": "20.0",
        "unit": '"mm"',
        "sense": '"at least"',
        "source": '{ standing = "common practice" }',
    }
    lines = (f"{key} = {value}\n" for key, value in (usual | fields).items() if value)
    return f"[{rule}]\n{''.join(lines)}"


# the limits that come with the program


@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: limit.rule)
def test_every_limit_says_where_it_comes_from(limit: Limit) -> None:
    if limit.source.standing == "published":
        assert limit.source.document
    assert limit.source.standing in str(limit.source)


@pytest.mark.parametrize("limit", LIMITS, ids=lambda limit: limit.rule)
def test_every_limit_is_a_number_with_a_title(limit: Limit) -> None:
    assert math.isfinite(limit.value)
    assert limit.title
    assert limit.tight >= 0
    subject, _, name = limit.rule.partition(".")
    assert subject
    assert name


def test_a_limit_is_found_by_the_name_of_its_rule() -> None:
    assert RULES["front.head_rail"].rule == "front.head_rail"
    with pytest.raises(KeyError, match=r"front\.nothing"):
        RULES["front.nothing"]


def test_the_values_that_the_trade_goes_by() -> None:
    # common practice, no source: what the checks were agreed to keep
    assert (RULES["front.head_rail"].value, RULES["front.head_rail"].sense) == (50, "at least")
    assert (RULES["hose.valve"].value, RULES["hose.valve"].tight) == (20, 10)


def test_every_file_of_limits_beside_the_code_is_read() -> None:
    from importlib.resources import files

    for file in files("geometry.rules").iterdir():
        if file.name.endswith(".toml"):
            assert read_rules(file.read_bytes(), file.name).keys() <= {limit.rule for limit in RULES}, (
                file.name
            )


def test_the_file_of_the_clearances_keeps_its_order() -> None:
    data = pkgutil.get_data("geometry.rules", "limits.toml")
    assert data is not None
    read = list(read_rules(data, "limits.toml"))
    assert [limit.rule for limit in RULES][: len(read)] == read


# how a source is cited


@pytest.mark.parametrize(
    ("source", "text"),
    [
        (PRACTICE, "common practice, no source"),
        (Source(standing="common practice", document="Trade sheet"), "Trade sheet (common practice)"),
        (
            Source(standing="published", document="EN 1057", edition="2006+A1:2010", clause="Table 3"),
            "EN 1057:2006+A1:2010 Table 3 (published)",
        ),
        (Source(standing="from memory: verify", document="EN 806-2"), "EN 806-2 (from memory: verify)"),
        (Source(standing="from memory: verify"), "from memory: verify"),
    ],
)
def test_a_source_is_cited_with_its_standing_last(source: Source, text: str) -> None:
    assert str(source) == text


# judging


@pytest.mark.parametrize(
    ("measured", "status"),
    [
        (-5.0, "clash"),
        (19.9, "clash"),
        (20.0, "tight"),  # exactly at the limit passes
        (20.0 - 1e-9, "tight"),  # what binary fractions lose
        (29.9, "tight"),
        (30.0, "clear"),  # 20 + 10: exactly out of the tight band
        (1e6, "clear"),
        (math.inf, "clear"),
    ],
)
def test_a_value_against_a_limit_that_is_the_least(measured: float, status: str) -> None:
    assert OWN.judge("a.least", measured, "", ()).status == status


@pytest.mark.parametrize(
    ("measured", "status"),
    [
        (20.1, "clash"),
        (20.0, "tight"),
        (20.0 + 1e-9, "tight"),
        (15.1, "tight"),
        (15.0, "clear"),
        (-5.0, "clear"),
    ],
)
def test_a_value_against_a_limit_that_is_the_most(measured: float, status: str) -> None:
    assert OWN.judge("a.most", measured, "", ()).status == status


@given(st.integers(-100_000, 100_000), st.integers(0, 1000))
def test_a_gap_on_the_grid_that_is_just_the_limit_passes(start: int, limit: int) -> None:
    gap = (start + limit) / 10 - start / 10
    assert OWN.judge("a.least", gap, "", (), limit=limit / 10).status != "clash"


@given(st.floats(-1000, 1000), st.floats(-1000, 1000))
def test_a_stricter_limit_never_clears_a_finding(measured: float, limit: float) -> None:
    for rule, stricter in (("a.least", limit + 1), ("a.most", limit - 1)):
        loose = OWN.judge(rule, measured, "", (), limit=limit).status
        strict = OWN.judge(rule, measured, "", (), limit=stricter).status
        assert STATUSES.index(strict) <= STATUSES.index(loose)  # clash comes first, clear last


def test_a_limit_worked_out_for_the_place_takes_the_rule_s_place() -> None:
    found = OWN.judge("a.least", 45.0, "", (), limit=50.0)
    assert (found.status, found.limit, found.measured) == ("clash", 50.0, 45.0)
    assert OWN.judge("a.least", 55.0, "", (), limit=50.0).status == "tight"  # the rule's band moves along
    assert OWN.judge("a.least", 60.0, "", (), limit=50.0).status == "clear"


def test_a_limit_of_nothing_is_a_limit() -> None:
    assert OWN.judge("a.least", -0.1, "", (), limit=0.0).status == "clash"
    assert OWN.judge("a.least", 10.0, "", (), limit=0.0).status == "clear"  # and not the rule's 20


def test_who_decides_beyond_the_limit_can_be_another() -> None:
    assert OWN.judge("a.least", 5.0, "", (), failing="refer").status == "refer"
    assert OWN.judge("a.least", 25.0, "", (), failing="refer").status == "tight"


@pytest.mark.parametrize("rule", ["a.least", "a.most"])
def test_a_value_that_could_not_be_worked_out_is_unchecked_and_not_a_pass(rule: str) -> None:
    found = OWN.judge(rule, math.nan, "No height.", ("head",))
    assert (found.status, found.measured, found.message) == ("unchecked", None, "No height.")
    assert OWN.judge(rule, 25.0, "", (), limit=math.nan).status == "unchecked"


def test_a_finding_carries_what_was_said_where_and_by_which_limit() -> None:
    place = ((1.0, 2.0), (3.0, 4.0))
    found = OWN.judge("a.most", 12.34, "Too much.", ("a", "b"), place)
    assert found == Finding(
        rule="a.most", status="clear", parts=("a", "b"), message="Too much.", unit="bar",
        measured=12.34, limit=20.0, source=PRACTICE, place=place,
    )  # fmt: skip


def test_findings_are_listed_by_the_attention_they_want_and_otherwise_as_they_came() -> None:
    came = ["clear", "tight", "clash", "clear", "unchecked", "refer", "clash"]
    findings = tuple(
        Finding(rule=str(index), status=status, parts=(), message="")  # type: ignore[arg-type]
        for index, status in enumerate(came)
    )
    assert [found.rule for found in attention(findings)] == ["2", "6", "4", "5", "1", "0", "3"]


# reading

STANDINGS = "one of common practice, from memory: verify, published"


def test_limits_of_several_files_are_put_together_in_their_order() -> None:
    files = (("one.toml", toml("b.x").encode()), ("two.toml", toml("a.y", value="7").encode()))
    assert [(limit.rule, limit.value) for limit in joined(files)] == [("b.x", 20.0), ("a.y", 7.0)]


def test_a_rule_in_two_files_is_refused() -> None:
    files = (("one.toml", toml("b.x").encode()), ("two.toml", (toml("a.y") + toml("b.x")).encode()))
    with pytest.raises(ValueError, match=r"^two\.toml: b\.x: stands in an earlier file too$"):
        joined(files)


def test_a_limit_is_read_with_all_that_it_says() -> None:
    source = '{ standing = "published", document = "EN 1", edition = "2001", clause = "4" }'
    read = read_rules(toml("b.x", sense='"at most"', tight="3", source=source).encode(), "own.toml")
    assert read["b.x"] == Limit(
        rule="b.x", title="Gap", value=20.0, unit="mm", sense="at most", tight=3.0,
        source=Source(standing="published", document="EN 1", edition="2001", clause="4"),
    )  # fmt: skip


@pytest.mark.parametrize(
    ("text", "said"),
    [
        (toml("b.x", value=""), "b.x.value: is missing"),
        (toml("b.x", source=""), "b.x.source: is missing"),
        (toml("b.x", source="{}"), f"b.x.source.standing: is missing: {STANDINGS}"),
        (
            toml("b.x", source='{ standing = "hearsay" }'),
            f"b.x.source.standing: must be {STANDINGS}, got 'hearsay'",
        ),
        (toml("b.x", sense='"about"'), "b.x.sense: must be one of at least, at most, got 'about'"),
        (toml("b.x", value="nan"), "b.x.value: must be at least -1000000 and at most 1000000, got nan"),
        (toml("b.x", value="inf"), "b.x.value: must be at least -1000000 and at most 1000000, got inf"),
        (toml("b.x", value="'20'"), "b.x.value: must be a number, got '20'"),
        (toml("b.x", tight="-1"), "b.x.tight: must be at least 0 and at most 1000000, got -1"),
        (toml("b.x", colour="1"), "b.x.colour: unknown key"),
        (toml("b.x") + "rule = 'b.y'\n", "b.x.rule: unknown key"),
        ("b = 1", "b: must be a table of rules"),
        ("[b]\nx = 1", "b.x: must be a table"),
    ],
)
def test_a_wrong_limit_is_refused_with_file_and_place(text: str, said: str) -> None:
    with pytest.raises(ValueError, match=r"^own\.toml: ") as problem:
        read_rules(text.encode(), "own.toml")
    assert str(problem.value) == f"own.toml: {said}"


@pytest.mark.parametrize("data", [b"\xff", b"a = ", b"[b.x]\n[b.x]", b"a = " + b"[" * 100_000])
def test_what_is_no_toml_is_refused_on_one_line(data: bytes) -> None:
    with pytest.raises(ValueError, match=r"^own\.toml: not (TOML|UTF-8): ") as problem:
        read_rules(data, "own.toml")
    assert len(str(problem.value).splitlines()) == 1
