"""Lengths as people type and read them, and the one comparison of a measured value with its limit."""

import locale
import math

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from geometry.units import Display, at_least, at_most, length, number, on_grid, shown

# reading


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("380", 380),
        ("380mm", 380),
        ("380 MM", 380),
        (" 380 ", 380),
        ("60cm", 600),
        ("1.2m", 1200),
        ("1,2 m", 1200),
        ("1.200 m", 1200),
        ("1,200 m", 1200),
        ("12,5", 12.5),
        ("12.5", 12.5),
        ("0,125", 0.125),
        (".5", 0.5),
        (",5", 0.5),
        ("5.", 5),
        ("-5", -5),
        ("- 60cm", -600),
        ("0", 0),
        ("00380", 380),
        ("٣٨٠", 380),
    ],
)
def test_a_number_with_and_without_a_unit(text: str, mm: float) -> None:
    assert length(text) == pytest.approx(mm)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ('1"', 25.4),
        ("1in", 25.4),
        ('1 1/2"', 38.1),  # 1.5 x 25.4
        ("1 1/2 in", 38.1),
        ('3/4"', 19.05),  # 0.75 x 25.4
        ('-1 1/2"', -38.1),
        ('0 15/16"', 23.8125),  # 0.9375 x 25.4
        ('2 1/2" + 10', 73.5),  # 63.5 + 10
        ("1/2cm", 5),
        ("1 1/2", 1.5),
    ],
)
def test_inches_and_fractions(text: str, mm: float) -> None:
    assert length(text) == pytest.approx(mm)


@pytest.mark.parametrize(
    ("text", "mm"),
    [
        ("380/2", 190),
        ("760 - 2*190", 380),
        ("(760-40)/2", 360),
        ("2*(5cm+10)", 120),
        ("1m - 1cm - 1mm", 989),
        ("760/2/2", 190),
        ("10-4-3", 3),  # from the left
        ("2+3*4", 14),  # products first
        ("--5", 5),
        ("60cm/2", 300),
        ("2*190", 380),
    ],
)
def test_sums(text: str, mm: float) -> None:
    assert length(text) == pytest.approx(mm)


@pytest.mark.parametrize(
    ("text", "display", "mm"),
    [
        ("38", "cm", 380),
        ("38", "mm", 38),
        ("1 1/2", "in", 38.1),
        ("3/8", "in", 9.525),
        ("2", "in", 50.8),
        ("2mm", "in", 2),
        ("2 + 1cm", "in", 60.8),  # 2 inches and 10 mm
        ("1 + 1", "cm", 20),
    ],
)
def test_a_number_without_a_unit_takes_that_of_the_display(text: str, display: Display, mm: float) -> None:
    assert length(text, display) == pytest.approx(mm)


NOT_LENGTHS = [
    "", " ", "mm", "x", "380x", "5 5", "1 200", "1'", "5ft", '"', "1e3", "nan", "inf", "0x10", "1_000",
    "1,2,3", "1.2.3", "1/0", '1/0"', "1 1/0", "0/0", "5/(1-1)", "2cm*2cm", "5/(2cm)", "1/2/2cm",
    "((1", "1)", "()", "+", "1+", "*2", "5 mm mm", "5\n6", "\x00", "½", "5min", '12/25.4"', "9" * 61,
    "1/" * 40 + "1", "(" * 500, "-" * 500, "9" * 5000, "9" * 400 + "/3in", "0." + "0" * 400 + "1",
    "1" + " " * 10_000 + "x",
]  # fmt: skip
THOUSANDS = ["1,200", "1,200mm", "1,200 mm", "12,000", "100,000", "2 * 1,200", "1,200,000"]


@pytest.mark.parametrize("text", NOT_LENGTHS)
def test_what_is_no_length_is_refused_and_quoted(text: str) -> None:
    with pytest.raises(ValueError, match=r"^not a length: ") as problem:
        length(text)
    assert str(problem.value).startswith(f"not a length: {text[:40]!r}")
    assert len(str(problem.value).splitlines()) == 1


@pytest.mark.parametrize(
    "text", ["1,200", "1,200mm", "1,200 mm", "12,000", "100,000", "2 * 1,200", "1,200,000"]
)
def test_a_comma_before_three_digits_is_refused_since_it_may_mean_a_thousand(text: str) -> None:
    # 1.2 mm where 1200 mm was meant would be found at the wall
    with pytest.raises(ValueError, match="leave out the comma between thousands"):
        length(text)


@given(st.text(st.sampled_from("0123456789.,+-*/() \tmcin\"x'"), max_size=30) | st.text(max_size=80))
def test_any_text_is_a_finite_length_or_a_value_error(text: str) -> None:
    for display in ("mm", "cm", "in"):
        try:
            read = length(text, display)
        except ValueError as problem:
            said = str(problem)
        else:
            assert math.isfinite(read)
            continue
        assert said.startswith("not a length: ")


def test_the_language_of_the_computer_changes_nothing() -> None:
    before = locale.setlocale(locale.LC_NUMERIC)
    try:
        for name in ("de_DE.UTF-8", "C.UTF-8", "C"):
            try:
                locale.setlocale(locale.LC_NUMERIC, name)
            except locale.Error:  # not installed here
                continue
            assert (length("12,5"), length("12.5")) == (12.5, 12.5)
            assert (shown(12.5), number(1234.5)) == ("12.5", "1234.5")
    finally:
        locale.setlocale(locale.LC_NUMERIC, before)


# writing


@pytest.mark.parametrize(
    ("value", "text"),
    [
        (380.0, "380"),
        (190.5, "190.5"),
        (0.0, "0"),
        (-0.0, "0"),
        (-0.04, "0"),
        (-0.06, "-0.1"),
        (1000.0, "1000"),
        (20000.0, "20000"),
        (99.96, "100"),
        (-12.5, "-12.5"),
    ],
)
def test_a_number_has_a_point_and_no_idle_zeros(value: float, text: str) -> None:
    assert number(value) == text
    assert shown(value) == text


def test_a_number_may_keep_more_or_no_places() -> None:
    assert number(12.345, 2) in ("12.35", "12.34")  # 12.345 has no exact binary value
    assert number(1200.0, 0) == "1200"
    assert number(-0.4, 0) == "0"


@pytest.mark.parametrize(
    ("mm", "display", "text"),
    [
        (380, "cm", "38"),
        (381.5, "cm", "38.15"),
        (25.4, "in", '1"'),
        (38.1, "in", '1 1/2"'),
        (19.05, "in", '3/4"'),
        (23.8125, "in", '15/16"'),
        (-38.1, "in", '-1 1/2"'),
        (0.5, "in", '0"'),  # nearer to 0 than to 1/16 in = 1.5875 mm
        (-0.5, "in", '0"'),
        (25.0, "in", '1"'),  # 15.75 sixteenths
        (50.8, "in", '2"'),
    ],
)
def test_a_length_in_the_unit_that_was_chosen(mm: float, display: Display, text: str) -> None:
    assert shown(mm, display) == text


ROUNDING = {"mm": 0.05, "cm": 0.05, "in": 25.4 / 32}
"""Half of the last place shown, in mm: 0.1 mm, 0.01 cm, 1/16 in."""


@given(st.floats(-20_000, 20_000), st.sampled_from(("mm", "cm", "in")))
@example(25.39, "in")
@example(-0.79, "in")
def test_what_is_shown_reads_back_within_its_rounding(mm: float, display: Display) -> None:
    text = shown(mm, display)
    assert abs(length(text, display) - mm) <= ROUNDING[display] + 1e-9
    assert shown(length(text, display), display) == text


@given(st.integers(-200_000, 200_000))
def test_a_position_on_the_grid_reads_back_exactly(tenth: int) -> None:
    for display in ("mm", "cm"):
        assert on_grid(length(shown(tenth / 10, display), display)) == tenth / 10


@given(st.floats(-20_000, 20_000))
def test_on_grid_is_the_nearest_tenth_and_never_minus_nothing(value: float) -> None:
    kept = on_grid(value)
    assert abs(kept - value) <= 0.05 + 1e-9
    assert on_grid(kept) == kept
    assert kept != 0 or math.copysign(1, kept) == 1


# against a limit


def test_exactly_at_the_limit_passes() -> None:
    assert at_least(20.0, 20.0)
    assert at_most(20.0, 20.0)


@given(st.integers(-200_000, 200_000), st.integers(1, 5000))
def test_a_gap_on_the_grid_that_is_exactly_the_limit_passes(start: int, gap: int) -> None:
    # such as 0.3 - 0.1, which is less than 0.2 in binary
    measured = (start + gap) / 10 - start / 10
    assert at_least(measured, gap / 10)
    assert at_most(measured, gap / 10)


@given(st.integers(-200_000, 200_000), st.integers(1, 5000))
def test_a_gap_on_the_grid_that_is_a_tenth_beyond_the_limit_fails(start: int, gap: int) -> None:
    measured = (start + gap) / 10 - start / 10
    assert not at_least(measured, (gap + 1) / 10)
    assert not at_most(measured, (gap - 1) / 10)


@pytest.mark.parametrize("limit", [-math.inf, -1.0, 0.0, 20.0, math.inf, math.nan])
def test_what_is_not_a_number_never_passes(limit: float) -> None:
    assert not at_least(math.nan, limit)
    assert not at_most(math.nan, limit)


def test_nothing_passes_a_limit_that_is_not_a_number() -> None:
    assert not at_least(1e9, math.nan)
    assert not at_most(-1e9, math.nan)
