"""What an engineer would say of three cuts in twenty-five walls, written out.

The cuts: an upright chase 25 deep and 40 wide; a level one 15 deep, 40 wide and 600 long, 200 above the
floor, cut by machine; a recess 58 deep, 155 wide and 190 tall. The walls carry load, nothing is cut into
their other face, and a hollow block's face shell is 32. `yes` may be cut without a calculation, `no` is for
an engineer.

Sources, and sums in mm:
- EN 1996-1-1 Table 8.1: below 85 no row; from 85 on 30 deep, at most 100, 125, 150, 175, 200 wide by row.
- EN 1996-1-1 Table 8.2 (from memory: verify), up to 1250 long: 0 (85-115), 15 (116-175), 20, 25, 30; above
  175 another 10 if cut by machine; width at most half of what is left: (140 - 15) / 2 = 62.5 or more.
- Approved Document A 2C30: a third and a sixth of the leaf: 75: 25 and 12.5; 100: 33.3 and 16.7; 140: 46.7
  and 23.3; 215: 71.7 and 35.8; 330: 110 and 55. A recess counts as upright.
- Hollow block: specification practice never cuts it, so an engineer decides whatever the depth (P31/650).
- A stud wall is no masonry: none of these rules speaks of it.
"""

import pytest

from geometry.checks.strength import strength
from geometry.model.wall import MakeUp, StrengthRules
from tests.geometry.checks.cut_walls import fitted, worst

# make-up, thickness: EN upright, level, recess; Approved Document A upright, level, recess
MATRIX = """
aerated_block   75   no  no  no    yes no  no
aerated_block  100   yes no  no    yes yes no
aerated_block  140   yes yes no    yes yes no
aerated_block  215   yes yes no    yes yes yes
aerated_block  330   yes yes no    yes yes yes
dense_block     75   no  no  no    yes no  no
dense_block    100   yes no  no    yes yes no
dense_block    140   yes yes no    yes yes no
dense_block    215   yes yes no    yes yes yes
dense_block    330   yes yes no    yes yes yes
brick           75   no  no  no    yes no  no
brick          100   yes no  no    yes yes no
brick          140   yes yes no    yes yes no
brick          215   yes yes no    yes yes yes
brick          330   yes yes no    yes yes yes
hollow_block    75   no  no  no    no  no  no
hollow_block   100   no  no  no    no  no  no
hollow_block   140   no  no  no    no  no  no
hollow_block   215   no  no  no    no  no  no
hollow_block   330   no  no  no    no  no  no
timber_stud     75   -   -   -     -   -   -
timber_stud    100   -   -   -     -   -   -
timber_stud    140   -   -   -     -   -   -
timber_stud    215   -   -   -     -   -   -
timber_stud    330   -   -   -     -   -   -
"""
ROWS = [line.split() for line in MATRIX.strip().splitlines()]


@pytest.mark.parametrize("row", ROWS, ids=lambda row: f"{row[0]}-{row[1]}")
@pytest.mark.parametrize(("rules", "first"), [("en_1996", 2), ("approved_document_a", 5)])
def test_status_that_an_engineer_would_expect(rules: StrengthRules, first: int, row: list[str]) -> None:
    make_up: MakeUp = row[0]  # type: ignore[assignment]
    shell = 32 if make_up == "hollow_block" else None
    plan = fitted(float(row[1]), make_up=make_up, shell=shell, strength_rules=(rules,))
    findings = tuple(strength(plan))
    said = []
    for part in ("hot", "branch", "valve"):
        named = tuple(finding for finding in findings if part in finding.parts)
        bad = findings if any(finding.rule == "strength.en_thickness" for finding in findings) else named
        said.append("-" if not findings else "no" if worst(bad) == "refer" else "yes")
    assert said == row[first : first + 3]


@pytest.mark.parametrize("thickness", [75, 100, 140, 215, 330])
def test_wall_that_carries_no_load_is_held_to_the_fractions_alone(thickness: float) -> None:
    # the columns of Approved Document A, whichever rule sets are chosen; no published relief is known
    row = next(row for row in ROWS if row[:2] == ["dense_block", str(thickness)])
    findings = tuple(strength(fitted(thickness, loadbearing="no", strength_rules=("en_1996",))))
    said = ["no" if worst(findings, part) == "refer" else "yes" for part in ("hot", "branch", "valve")]
    assert said == row[5:]
    assert not [
        finding for finding in findings if finding.rule.startswith(("strength.en_", "strength.part_a_up"))
    ]
