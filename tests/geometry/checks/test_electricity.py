"""Electricity as findings: cuts in the zones of cables, accessories near the water. Sums by hand, in mm.

The job: a wall 2600 wide, a tray from 0 to 760, no accessory. The chase of hot reaches from 315.5 to 354.5.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.checks.electricity import electricity
from geometry.edits.moves import mirrored_wall
from geometry.finding import Finding
from geometry.model import Accessory, Job
from geometry.model.services import AccessoryKind
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import Rulebook, standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.checks.cut_walls import ORDER

JOB = suggested_job(760, 760, "left", 2600)
RULES = standard_rules()


def found(job: Job, rule: str = "electricity.", rules: Rulebook = RULES) -> tuple[Finding, ...]:
    plan = Plan(job, generic_parts(), rules)
    return tuple(finding for finding in electricity(plan) if finding.rule.startswith(rule))


def of(job: Job, rule: str, part: str) -> Finding:
    (finding,) = (finding for finding in found(job, rule) if finding.parts[:1] == (part,))
    return finding


def with_point(kind: AccessoryKind, x: float, height: float, **changes: object) -> Job:
    return JOB.but(services=(Accessory(id="point", kind=kind, x=x, height=height).but(**changes),))


# cuts in zones


def test_suggested_job_is_clear_of_all_zones_and_says_so_part_by_part() -> None:
    findings = found(JOB, "electricity.zone")
    assert [finding.parts for finding in findings] == [
        ("hot",), ("cold",), ("riser",), ("branch",), ("valve",), ("head",), ("outlet",), ("rail",)
    ]  # fmt: skip
    assert {finding.status for finding in findings} == {"clear"}
    assert all("scan before cutting" in finding.message for finding in findings)


@pytest.mark.parametrize(("x", "status"), [(247.4, "clear"), (247.5, "clear"), (247.6, "refer")])
def test_chase_exactly_at_the_edge_of_an_accessorys_zone_is_clear(x: float, status: str) -> None:
    # 43 of the accessory and 25 of margin: 247.5 + 68 = 315.5
    finding = of(with_point("switch", x, 2000), "electricity.zone", "hot")
    assert finding.status == status


def test_cut_in_a_zone_is_referred_with_what_to_do_first() -> None:
    # the chase of hot lies 10 inside the band that ends at 257.5 + 68 = 325.5
    finding = of(with_point("switch", 257.5, 2000), "electricity.zone", "hot")
    assert (finding.status, finding.measured, finding.limit) == ("refer", -10, 0)
    assert finding.parts == ("hot", "point")
    assert finding.message == (
        "hot: chase up to 10 mm inside the zone above and below point, where cables may run out of sight. "
        "Detect, isolate and prove dead before cutting; a licensed electrician decides."
    )
    assert str(finding.source) == "BS 7671:2018 522.6.202 (published)"


def test_screws_in_a_zone_are_referred_too() -> None:
    # the rail's screws are 6 wide at x = 570; the band about 500 ends at 568, a mm beyond their edge at 567
    finding = of(with_point("socket", 500, 300), "electricity.zone", "rail")
    assert (finding.status, finding.measured) == ("refer", -1)
    assert finding.message.startswith("rail: screw up to 1 mm inside")


def test_pipes_of_a_stud_wall_are_judged_as_well() -> None:
    job = with_point("switch", 257.5, 2000)
    finding = of(job.but(wall=job.wall.but(make_up="timber_stud")), "electricity.zone", "hot")
    assert finding.message.startswith("hot: pipe up to 10 mm inside")


@pytest.mark.parametrize(("thickness", "status"), [(100.1, "clear"), (100, "refer"), (89, "refer")])
def test_zones_reach_through_a_wall_of_100_or_less(thickness: float, status: str) -> None:
    # BS 7671 522.6.202: walls of 100 mm or less
    (finding,) = found(JOB.but(wall=JOB.wall.but(thickness=thickness)), "electricity.through")
    assert finding.status == status


# accessories near the water


@pytest.mark.parametrize(("x", "status"), [(3303.1, "clear"), (3303, "clear"), (3302.9, "refer")])
def test_socket_keeps_2500_from_zone_1(x: float, status: str) -> None:
    # zone 1 ends with the tray at 760; the socket's near edge: 3303 - 43 = 3260 = 760 + 2500
    job = suggested_job(760, 760, "left", 5000)
    finding = of(job.but(services=(Accessory(id="point", x=x, height=400),)), "electricity.socket", "point")
    assert finding.status == status


def test_socket_too_near_is_referred_with_its_distance() -> None:
    finding = of(with_point("socket", 1400, 1100), "electricity.socket", "point")
    assert (finding.status, finding.measured, finding.limit) == ("refer", 597, 2500)  # 1400 - 43 - 760
    assert "socket point is 597 mm from zone 1, at least 2500 mm" in finding.message
    assert "A licensed electrician decides" in finding.message


def test_height_does_not_help_a_socket() -> None:
    assert (
        of(with_point("socket", 400, 2380), "electricity.socket", "point").measured == -403
    )  # 400 + 43 - 40


@pytest.mark.parametrize("kind", ["switch", "spur"])
@pytest.mark.parametrize(("x", "status"), [(1403.1, "clear"), (1403, "clear"), (1402.9, "refer")])
def test_switches_stay_outside_zone_2(kind: AccessoryKind, x: float, status: str) -> None:
    # zone 2 ends at 760 + 600 = 1360 = 1403 - 43
    assert of(with_point(kind, x, 1200), "electricity.switch", "point").status == status


@pytest.mark.parametrize("kind", ["light", "fan", "heater"])
@pytest.mark.parametrize(("height", "status"), [(2293, "clear"), (2292.9, "refer")])
def test_fixed_equipment_above_the_zones_is_clear(kind: AccessoryKind, height: float, status: str) -> None:
    # the zones end at 2250 = 2293 - 43
    finding = of(with_point(kind, 380, height), "electricity.equipment", "point")
    assert finding.status == status
    assert ("IPX4" in finding.message) == (status == "refer")


@pytest.mark.parametrize(("x", "status"), [(803, "clear"), (802.9, "refer")])
def test_shaver_point_may_stand_in_zone_2_but_not_in_zone_1(x: float, status: str) -> None:
    # 803 - 43 = 760
    assert of(with_point("shaver", x, 1500), "electricity.shaver", "point").status == status


def test_accessories_of_a_wet_floor_without_an_outlet_are_unchecked() -> None:
    job = with_point("fan", 380, 2350).but(fittings=(), hoses=(), pipes=())
    (finding,) = found(job.but(enclosure=job.enclosure.but(kind="wet_floor")), "electricity.socket")
    assert (finding.status, finding.parts) == ("unchecked", ("point",))


def test_wall_without_accessories_has_no_finding_on_them() -> None:
    rules = {finding.rule for finding in found(JOB)}
    assert rules == {"electricity.zone", "electricity.through"}


# what must hold for any wall

POINTS = st.builds(
    Accessory,
    id=st.just("point"),
    kind=st.sampled_from(["socket", "switch", "spur", "shaver", "light", "fan", "heater"]),
    x=st.integers(60, 2540).map(float),
    height=st.integers(60, 2340).map(float),
)
SETTINGS = [limit.rule for limit in RULES if limit.rule.startswith("electricity.")]


@given(POINTS, st.sampled_from(SETTINGS), st.floats(0, 400), st.sampled_from(["tray", "bath", "wet_floor"]))
def test_stricter_rule_never_clears_a_finding(point: Accessory, rule: str, more: float, kind: str) -> None:
    job = JOB.but(services=(point,), enclosure=JOB.enclosure.but(kind=kind))
    strict = RULES.with_own({rule: RULES[rule].but(value=RULES[rule].value + more)})
    before = {(f.rule, f.parts[:1]): ORDER.index(f.status) for f in found(job)}
    after = {(f.rule, f.parts[:1]): ORDER.index(f.status) for f in found(job, rules=strict)}
    assert before.keys() == after.keys()
    assert all(after[key] >= before[key] for key in before)


@given(POINTS, st.sampled_from(["tray", "bath", "wet_floor"]))
def test_mirrored_wall_has_the_mirrored_findings(point: Accessory, kind: str) -> None:
    job = JOB.but(services=(point,), enclosure=JOB.enclosure.but(kind=kind))

    def reduced(job: Job) -> list[tuple[object, ...]]:
        return sorted((f.rule, f.status, len(f.parts), round(f.measured or 0.0, 1)) for f in found(job))

    assert reduced(mirrored_wall(job)) == reduced(job)
