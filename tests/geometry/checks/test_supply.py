"""The findings about the water: each with its value, limit and unit, and what would cure it."""

import math
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.checks.runner import check
from geometry.checks.supply import NOT_MEASURED, supply
from geometry.finding import Finding
from geometry.model import Booster, Branch, Drain, Job, Pipe, Reading, Spout, Supply, Upstream
from geometry.model.supply import BeyondPower, CheckValves, HotSource
from geometry.parts.catalogue import Catalogue, generic_parts
from geometry.parts.records import TubePart
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.checks.walls import plan_of, told
from tests.geometry.supply.shower_job import COLD, HOT, JOB, PIPES, SUPPLY, VALVE, with_branch


def of(rule: str, job: Job) -> list[Finding]:
    return [finding for finding in supply(plan_of(job)) if finding.rule == rule]


def one(rule: str, job: Job) -> Finding:
    (finding,) = of(rule, job)
    return finding


def with_supply(**changes: object) -> Job:
    return JOB.but(supply=SUPPLY.but(**changes))


# not measured, missing


def test_a_started_job_is_told_to_measure_and_nothing_fails() -> None:
    (finding,) = supply(plan_of(suggested_job(760, 760, "left")))
    assert (finding.status, finding.measured, finding.message) == ("refer", None, NOT_MEASURED)


def test_a_wall_without_a_valve_has_nothing_to_measure_for() -> None:
    assert list(supply(plan_of(JOB.but(fittings=(), pipes=(), hoses=(), supply=None)))) == []


def test_a_supply_without_a_flow_is_unchecked_and_says_what_is_missing() -> None:
    finding = one("supply.flow", with_branch(JOB, "hot", readings=()))
    assert told(finding) == ("unchecked", None)
    assert "supply.hot: needs at least one reading" in finding.message


def test_a_flowing_pressure_above_the_static_one_is_unchecked_and_never_a_number() -> None:
    job = with_branch(JOB, "cold", readings=(Reading(pressure=3.2, flow=9.0),))
    assert told(one("supply.flow", job)) == ("unchecked", None)


# flow and pressure


def test_a_supply_that_holds_its_pressure_feeds_head_and_handset() -> None:
    alone = [f for f in of("supply.flow", JOB) if "running too" not in f.message]
    assert [(f.parts[0], f.status, f.limit, f.unit) for f in alone] == [
        ("head", "clear", 10.0, "l/min"),
        ("outlet", "clear", 8.0, "l/min"),
    ]


@pytest.fixture
def weak() -> Job:
    """Half a bar that does not fall, through 30 m of 10 mm tube."""
    far = (Upstream(tube="copper-10", length=30_000),)
    job = with_branch(JOB, "cold", static=1.0, readings=(Reading(pressure=1.0, flow=9.0),), upstream=far)
    return with_branch(job, "hot", static=1.0, readings=(Reading(pressure=1.0, flow=9.0),), upstream=far)


def test_too_little_flow_is_a_clash_that_names_the_next_tube_size_and_its_gain(weak: Job) -> None:
    finding = of("supply.flow", weak)[0]
    assert (finding.status, finding.limit) == ("clash", 10.0)
    assert finding.measured is not None
    assert finding.measured < 10.0
    assert "pipe to the wall costs" in finding.message
    assert "Copper 15 x 0.7 for" in finding.message
    assert "would gain" in finding.message
    assert finding.place == ((1000, 2100),)
    assert str(finding.source) == "Part head-wall-200 stated flow (from memory: verify)"


def test_what_does_not_reach_the_head_gives_nothing() -> None:
    # 0.1 bar lifts water 1020 mm, and the head's mouth is 1040 over the gauge
    low = (Reading(pressure=0.1, flow=9.0),)
    job = with_branch(with_branch(JOB, "hot", static=0.1, readings=low), "cold", static=0.1, readings=low)
    finding = of("supply.flow", job)[0]
    assert told(finding) == ("clash", 0.0)
    assert "too little head" in finding.message


def test_two_at_once_are_no_clash_but_a_hint(weak: Job) -> None:
    together = [f for f in of("supply.flow", weak) if "running too" in f.message]
    assert [f.status for f in together] == ["tight"]
    assert "Run them one at a time" in together[0].message


def test_a_spout_that_fills_slowly_is_no_clash(weak: Job) -> None:
    spout = Spout(id="spout", part="spout-170", x=600, height=700)
    riser = Pipe(id="fill", service="mixed", start="valve.out1", end="spout.in")
    job = weak.but(fittings=(*weak.fittings, spout), pipes=(*weak.pipes[:2], riser, weak.pipes[3]))
    job = job.but(fittings=tuple(f for f in job.fittings if f.id != "head"))
    (finding,) = (f for f in of("supply.flow", job) if f.parts == ("spout",) and "too" not in f.message)
    assert (finding.status, finding.limit) == ("tight", 20.0)


def test_pressure_with_all_taps_shut_is_judged_at_the_lowest_outlet() -> None:
    # the handset's mouth is 775 over the gauge: 0.076 bar less
    for static, status in ((5.07, "tight"), (5.08, "clash")):
        job = with_branch(JOB, "cold", static=static)
        assert one("supply.static", job).status == status
    high = one("supply.static", with_branch(JOB, "cold", static=8.0))
    assert high.measured == pytest.approx(8.0 - 0.076, abs=0.006)
    assert "pressure reducing valve" in high.message
    assert one("supply.static", with_branch(JOB, "cold", static=8.0, regulated=3.0)).status == "clear"


@pytest.mark.parametrize(("cistern", "status"), [(3040.0, "tight"), (3039.0, "clash"), (3240.5, "clear")])
def test_a_cistern_stands_a_metre_over_the_head(cistern: float, status: str) -> None:
    # the head's mouth is at 2040
    gravity = HOT.but(static=0.1, readings=(), cistern=cistern)
    finding = one("supply.gravity_head", with_supply(source="stored_gravity", hot=gravity))
    assert finding.status == status
    assert finding.measured == pytest.approx(cistern - 2040, abs=0.1)


# hot and cold against each other


def test_a_weak_hot_supply_beside_a_strong_cold_one_is_beyond_the_valve() -> None:
    job = with_branch(JOB, "cold", static=4.0, readings=(Reading(pressure=4.0, flow=9.0),))
    job = with_branch(job, "hot", static=0.6, readings=(Reading(pressure=0.6, flow=9.0),))
    finding = one("supply.pressure_ratio", job)
    assert finding.status == "clash"
    assert finding.measured == pytest.approx(4.0 / 0.6, rel=0.05)  # what the pipes take is little
    assert "Balance them" in finding.message


@pytest.mark.parametrize(
    ("cold", "hot", "status"),
    [
        ("not_known", "not_known", "refer"),
        ("none", "none", "clash"),
        ("none", "single", "clear"),  # the cold is the stronger, and the hot side holds it off
        ("single", "single", "clear"),
        ("double", "double", "clear"),
    ],
)
def test_what_crosses_through_the_valve_wants_check_valves(cold: str, hot: str, status: str) -> None:
    job = with_branch(JOB, "cold", static=4.0, check_valves=cold)
    job = with_branch(with_branch(job, "hot", check_valves=hot), "cold", readings=COLD.readings)
    finding = one("supply.reverse", job)
    assert finding.status == status


def test_equal_supplies_do_not_cross() -> None:
    # equal at the gauge; the warm column is lighter by 0.1 x 16.5 kg/m3: 0.16 mbar
    finding = one("supply.reverse", with_branch(JOB, "hot", temperature=10.1))
    assert finding.measured is not None
    assert finding.measured <= 0.1


# velocity


def test_velocity_in_the_riser_is_flow_over_bore() -> None:
    finding = one("supply.velocity_connection", JOB)
    flow = next(f.measured for f in of("supply.flow", JOB) if f.parts == ("head",))
    assert flow is not None
    # l/min through 13.6 mm: 1.4527 cm2
    assert finding.measured == pytest.approx(flow / 60_000 / 1.4527e-4, abs=0.02)
    assert finding.unit == "m/s"


def test_plastic_is_judged_by_noise_only() -> None:
    pipes = tuple(pipe.but(tube="barrier-15") for pipe in PIPES)
    rules = {finding.rule for finding in supply(plan_of(JOB.but(pipes=pipes)))}
    assert {"supply.velocity", "supply.velocity_connection"} <= rules
    assert not rules & {"supply.velocity_hot", "supply.velocity_cold", "supply.velocity_hotter"}


def test_hotter_than_60_c_wears_copper_sooner() -> None:
    rules = {f.rule for f in supply(plan_of(with_branch(JOB, "hot", temperature=65.0)))}
    assert "supply.velocity_hotter" in rules


# heat


@pytest.mark.parametrize(("setting", "status"), [(41.0, "clear"), (42.0, "clash")])
def test_41_c_at_a_shower_passes_and_more_scalds(setting: float, status: str) -> None:
    assert told(one("supply.scald", with_supply(set_to=setting))) == (status, setting)


@pytest.mark.parametrize(("hot", "status"), [(60.0, "clear"), (59.0, "refer")])
def test_a_store_is_kept_at_60_c(hot: float, status: str) -> None:
    assert one("supply.store", with_branch(JOB, "hot", temperature=hot)).status == status


def test_an_instant_heater_stores_nothing() -> None:
    rules = {f.rule for f in supply(plan_of(with_supply(source="instant_heater", heater_kw=30.0)))}
    assert not rules & {"supply.store", "supply.stored_minutes", "supply.dead_leg_store"}


@pytest.mark.parametrize(("cold", "status"), [(19.0, "clear"), (20.0, "tight"), (21.0, "refer")])
def test_cold_water_is_cold(cold: float, status: str) -> None:
    assert one("supply.cold", with_branch(JOB, "cold", temperature=cold)).status == status


@pytest.mark.parametrize(("hot", "status"), [(50.0, "clear"), (48.0, "tight"), (47.0, "clash")])
def test_the_thermostat_needs_hot_water_10_k_above_its_setting(hot: float, status: str) -> None:
    assert told(one("supply.hot_margin", with_branch(JOB, "hot", temperature=hot))) == (status, hot - 38)


def test_the_heater_is_judged_by_what_the_head_is_made_for() -> None:
    # 10 l/min from 10 to 38 C: 10 / 60 x 0.9997 x 4.181 x 28 = 19.51 kW
    found = one("supply.heater", with_supply(source="instant_heater", heater_kw=19.0))
    assert (found.status, found.measured, found.unit) == ("clash", 19.0, "kW")
    assert found.limit == pytest.approx(19.51, abs=0.02)
    assert one("supply.heater", with_supply(source="instant_heater", heater_kw=90.0)).status == "clear"


def test_a_heater_that_a_full_flow_overcomes_is_a_hint_that_says_how_cool_it_gets() -> None:
    found = one("supply.heater", with_supply(source="instant_heater", heater_kw=22.0))
    assert found.status == "tight"
    assert "fully open" in found.message
    assert "throttle" in found.message


def test_minutes_of_hot_water_are_the_stores_usable_part_over_its_flow() -> None:
    flow = next(f.measured for f in of("supply.flow", JOB) if f.parts == ("head",))
    assert flow is not None
    # 80 % of 200 l; of the mix 28 of 50 K is hot, by mass, and hot water is 1 % lighter
    assert one("supply.stored_minutes", JOB).measured == pytest.approx(160 / (flow * 0.56 * 1.01), abs=0.15)


def test_a_cylinder_of_unknown_size_is_unchecked() -> None:
    assert told(one("supply.stored_minutes", with_supply(stored_litres=None))) == ("unchecked", None)


def test_a_long_hot_pipe_keeps_one_waiting() -> None:
    # 40 m of 22 mm hold 12.82 l, 1.03 m of 15 mm 0.15, 0.235 m more 0.03, the hose of 9 mm 0.10
    far = with_branch(JOB, "hot", upstream=(Upstream(tube="copper-22", length=40_000),))
    finding = one("supply.dead_leg", far)
    assert (finding.status, finding.unit) == ("tight", "s")
    assert "13.1 l" in finding.message
    assert one("supply.dead_leg_store", far).status == "refer"


# pumps and waste


@pytest.mark.parametrize(
    ("flow", "draws", "statuses"),
    [(12.0, "mains", ["clear"]), (12.5, "mains", ["refer"]), (40.0, "cistern", [])],
)
def test_a_pump_over_12_l_per_min_on_the_mains_is_told_to_the_water_company(
    flow: float, draws: str, statuses: list[str]
) -> None:
    job = with_branch(JOB, "cold", pump=Booster(pressure=1.0, flow=flow, draws_from=draws))  # type: ignore[arg-type]
    assert [finding.status for finding in of("supply.pump", job)] == statuses


def test_no_waste_asks_to_measure_it() -> None:
    assert told(one("supply.waste", JOB)) == ("tight", None)


def test_a_waste_is_judged_by_flow_fall_and_length() -> None:
    job = with_supply(drain=Drain(length=3500, fall=15.0, bore=36.0, capacity=10.0))
    carries = one("supply.waste", job)
    assert carries.status == "clash"
    assert "trap carries 10 l/min" in carries.message
    assert told(one("supply.fall_least", job)) == ("clash", 15.0)
    assert told(one("supply.fall_most", job)) == ("clear", 15.0)
    assert told(one("supply.waste_length", job)) == ("clash", 3500.0)


def test_a_waste_without_fall_carries_nothing() -> None:
    finding = one("supply.waste", with_supply(drain=Drain(length=1000, fall=0.0)))
    assert finding.status == "clash"
    assert "carries 0 l/min" in finding.message


# promises


@given(st.floats(0.2, 6.0), st.floats(0.2, 6.0), st.floats(0.1, 0.9))
def test_no_finding_has_a_status_that_its_value_gainsays(cold: float, hot: float, left: float) -> None:
    readings = (Reading(pressure=0.0, flow=20.0),)
    job = JOB.but(
        supply=Supply(
            cold=COLD.but(static=cold, readings=readings),
            hot=HOT.but(static=hot, readings=(Reading(pressure=hot * left, flow=12.0),)),
            stored_litres=150.0,
        )
    )
    plan = plan_of(job)
    for finding in supply(plan):
        if finding.measured is None or finding.limit is None:
            continue
        sense = plan.rules[finding.rule].sense
        within = (
            finding.measured >= finding.limit - 1e-6
            if sense == "at least"
            else finding.measured <= finding.limit + 1e-6
        )
        assert within or finding.status != "clear", finding
        assert finding.source is not None
        assert finding.message


def bars(least: float, most: float) -> st.SearchStrategy[float]:
    return st.floats(least, most)


BRANCHES = st.builds(
    Branch,
    static=bars(0.0, 12.0),
    readings=st.lists(st.builds(Reading, pressure=bars(0.0, 6.0), flow=st.floats(0.0, 60.0)), max_size=3).map(
        tuple
    ),
    temperature=st.floats(0.5, 98.0),
    upstream=st.lists(
        st.builds(
            Upstream,
            tube=st.sampled_from(("copper-10", "copper-28", "barrier-15", "multilayer-16")),
            length=st.floats(1.0, 500_000.0),
            elbows=st.floats(0.0, 100.0),
        ),
        max_size=2,
    ).map(tuple),
    gauge_height=st.floats(0.0, 8000.0),
    cistern=st.none() | st.floats(0.0, 12_000.0),
    regulated=st.none() | bars(0.0, 8.0),
    check_valves=st.sampled_from(get_args(CheckValves)),
    pump=st.none() | st.builds(Booster, pressure=bars(0.1, 6.0), flow=st.floats(1.0, 90.0)),
)
SUPPLIES = st.builds(
    Supply,
    cold=BRANCHES,
    hot=BRANCHES,
    source=st.sampled_from(get_args(HotSource)),
    heater_kw=st.none() | st.floats(0.0, 60.0),
    beyond_power=st.sampled_from(get_args(BeyondPower)),
    stored_litres=st.none() | st.floats(0.0, 500.0),
    set_to=st.floats(20.0, 60.0),
    drain=st.none()
    | st.builds(
        Drain,
        length=st.floats(1.0, 9000.0),
        fall=st.floats(0.0, 1000.0),
        bore=st.floats(1.0, 110.0),
        capacity=st.none() | st.floats(0.0, 60.0),
    ),
)


@given(SUPPLIES)
def test_any_supply_is_judged_or_refused_and_never_raises(anything: Supply) -> None:
    findings = list(supply(plan_of(JOB.but(supply=anything))))
    assert findings
    for finding in findings:
        assert finding.measured is None or math.isfinite(finding.measured)
        assert "nan" not in finding.message


def test_a_solver_that_does_not_settle_is_a_finding(monkeypatch: pytest.MonkeyPatch) -> None:
    def unsettled(_network: object) -> None:
        raise ArithmeticError("no root settled")

    monkeypatch.setattr("geometry.checks.supply.results", unsettled)
    (finding,) = (f for f in check(plan_of(JOB)) if f.rule.startswith("supply."))
    assert (finding.rule, finding.status, finding.measured) == ("supply.all", "unchecked", None)


def test_a_tube_rougher_than_any_formula_holds_for_is_said() -> None:
    rough = generic_parts().find("copper-15", TubePart).but(id="rough-15", roughness=5.0)
    pipes = tuple(pipe.but(tube="rough-15") for pipe in PIPES)
    findings = list(supply(plan_of(JOB.but(pipes=pipes), Catalogue((*generic_parts(), rough)))))
    assert findings[0].status == "unchecked"
    assert "too rough" in findings[0].message


def test_only_what_keeps_a_job_from_passing_has_a_place_on_the_wall(weak: Job) -> None:
    for finding in supply(plan_of(weak)):
        if finding.status not in ("clash", "unchecked"):
            assert finding.place == ()


def test_the_valve_is_named_where_a_finding_is_about_it() -> None:
    assert one("supply.static", JOB).parts == (VALVE.id,)
