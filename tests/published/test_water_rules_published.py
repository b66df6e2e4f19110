"""Gaps, protection and joints, as published pages on the water regulations of the United Kingdom give them.

Type AUK3: waterregsuk.co.uk, assisted bathing, glossary of type AUK3 and air gap. Type AUK2: its steps by
size in installation requirement R040, wrasapprovals.co.uk (the table's cells are empty there: values from
memory). Rings: interpretation B20, wras.co.uk. Check valves: R020 and R040. Joints: Schedule 2 paragraph 7,
as quoted in a plumbing textbook. Notice: seswater.co.uk, developers, water regulations.
"""

import pytest

from geometry.checks.backflow import WORTH
from geometry.model.house import Backflow
from geometry.rules import standard_rules
from geometry.rules.tables import row
from geometry.supply.waste import least_air_gap

RULES = standard_rules()

# nominal size of the inlet and gap, as the guidance prints them
AUK3 = [(8, 20), (10, 20), (12, 24), (15, 30), (20, 40), (25, 50)]


@pytest.mark.parametrize(("size", "gap"), AUK3)
def test_gap_of_type_auk3_by_the_printed_table(size: float, gap: float) -> None:
    limit = row(RULES, "water.auk3_gap", size)
    assert limit is not None
    assert limit.value == gap
    assert (limit.source.standing, limit.source.clause) == ("published", "air gap type AUK3")
    # the definition in words: 20 mm or twice the diameter of the inlet, whichever is the greater
    assert least_air_gap(size) == gap


# not exceeding 1/2 in, exceeding 1/2 but not 3/4 in, exceeding 3/4 in: nominal 15, 20, 25
AUK2 = [(10, 20), (15, 20), (20, 25), (25, 70), (32, 70)]


@pytest.mark.parametrize(("size", "gap"), AUK2)
def test_gap_of_type_auk2_steps_where_the_requirement_does(size: float, gap: float) -> None:
    limit = row(RULES, "water.auk2_gap", size)
    assert limit is not None
    assert limit.value == gap
    assert limit.source.standing == "from memory: verify"


def test_gap_of_a_handset_in_a_dwelling_claims_no_standard() -> None:
    limit = RULES["water.handset_gap"]
    assert (limit.value, limit.source.standing) == (25, "common practice")


def test_rings_by_interpretation_b20() -> None:
    # "robust factory applied retaining rings ... acceptable in all types of premises"
    assert WORTH[3]["factory_ring"][0] == WORTH[5]["factory_ring"][0] == "clear"
    # "other types ... only ... domestic premises if ... the highest level of risk ... would be category 3"
    assert (WORTH[3]["retaining_ring"][0], WORTH[5]["retaining_ring"][0]) == ("clear", "clash")


def test_check_valves_and_gravity_feed_protect_up_to_category_3() -> None:
    # R020: double check valve at the connection to the hose; R040: immediately upstream of the inlet, or by
    # gravity only from a cistern; each "up to, and including, Fluid Category 3"
    ways: tuple[Backflow, ...] = ("double_check_outlet", "double_check_supplies", "gravity_feed")
    for way in ways:
        assert WORTH[3][way][0] == "clear"
        assert WORTH[5][way][0] != "clear"


@pytest.mark.parametrize(
    ("rule", "value", "clause"),
    [
        ("water.buried_joint", 0, "Schedule 2 paragraph 7"),
        ("water.isolation", 1, "Schedule 2 paragraph 11"),
        ("water.notice", 1, "regulation 5"),
    ],
)
def test_clauses_of_the_regulations(rule: str, value: float, clause: str) -> None:
    limit = RULES[rule]
    assert limit.value == value
    assert (limit.source.document, limit.source.edition, limit.source.clause) == (
        "Water Supply (Water Fittings) Regulations",
        "1999",
        clause,
    )
