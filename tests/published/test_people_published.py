"""Heights, as published pages give them; what is from memory or common practice claims no more.

ADA 2010 608: accessts.net/blog/?p=24; advisory 308.1: the same table in the Texas standards of 2012,
corada.com/documents/2012-tas/308-1-general. AS 1428.1:2009: plumbingconnection.com.au PC2-2015, page 79,
read from a drawing; AS 1428.1:2021 12.5.6: buildingtools.co/tool/disabled-accessible-shower. Approved
Document M and the temperatures of the mixing valve scheme: from memory, verify.
"""

import pytest

from geometry.finding import Standing
from geometry.rules import standard_rules

INCH = 25.4
"""mm; exact."""

# rule, value, document, clause, standing
VALUES: list[tuple[str, float, str, str, Standing]] = [
    ("controls_seated_low", 965, "ADA Standards", "608.5.1", "published"),  # 38 in
    ("controls_seated_high", 1220, "ADA Standards", "608.5", "published"),  # 48 in
    ("slide_foot_seated", 1220, "ADA Standards", "608.5", "published"),
    ("hose_seated", 1500, "ADA Standards", "608.6", "published"),  # 59 in
    ("controls_child", 1120, "ADA Standards", "advisory 308.1", "published"),  # 44 in, ages 9 to 12
    ("slide_foot_child", 1120, "ADA Standards", "advisory 308.1", "published"),
    ("controls_australia_low", 900, "AS 1428.1", "15.5 as drawn in a trade journal", "published"),
    ("controls_australia_high", 1100, "AS 1428.1", "15.5 as drawn in a trade journal", "published"),
    ("slide_foot_australia", 1000, "AS 1428.1", "12.5.6", "published"),
    ("slide_top_australia", 1800, "AS 1428.1", "12.5.6", "published"),
    ("controls_england_low", 750, "Approved Document M, volume 2", "", "from memory: verify"),
    ("controls_england_high", 1000, "Approved Document M, volume 2", "", "from memory: verify"),
    ("scald", 41, "HTM 04-01, mixing valve scheme", "", "from memory: verify"),
    ("scald_bath", 44, "HTM 04-01, mixing valve scheme", "", "from memory: verify"),
]


@pytest.mark.parametrize(("rule", "value", "document", "clause", "standing"), VALUES)
def test_limit_is_the_one_given_and_says_how_well_it_is_known(
    rule: str, value: float, document: str, clause: str, standing: Standing
) -> None:
    limit = standard_rules()[f"people.{rule}"]
    assert limit.value == value
    assert (limit.source.document, limit.source.clause, limit.source.standing) == (document, clause, standing)


@pytest.mark.parametrize(
    ("rule", "inches"),
    [("controls_seated_low", 38), ("controls_seated_high", 48), ("hose_seated", 59), ("controls_child", 44)],
)
def test_the_printed_millimetres_are_the_printed_inches(rule: str, inches: float) -> None:
    # printed to the nearest 5 mm
    assert standard_rules()[f"people.{rule}"].value == pytest.approx(inches * INCH, abs=5)


@pytest.mark.parametrize(
    "rule", ["valve_low", "valve_high", "head_low", "head_high", "slide_top", "dry", "standing"]
)
def test_what_suits_a_usual_user_claims_no_standard(rule: str) -> None:
    assert standard_rules()[f"people.{rule}"].source.standing == "common practice"
