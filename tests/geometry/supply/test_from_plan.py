"""From the job to its water: lengths, heights and losses by hand sums, and what is missing said."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given

from geometry.jobfile import read_job, write_job
from geometry.model import Booster, House, Job, Pipe, Reading, Spout, Upstream, Valve
from geometry.supply.from_plan import Lacking, Shower, showers
from geometry.supply.pieces import Device, Pump, Stretch
from geometry.supply.results import results
from tests.geometry.checks.walls import plan_of
from tests.geometry.supply.shower_job import HEAD, HOT, JOB, OUTLET, PIPES, RAIL, SUPPLY, VALVE, with_branch
from tests.strategies import jobs


def shower(job: Job) -> Shower:
    (found,) = showers(plan_of(job))
    assert isinstance(found, Shower), found
    return found


def stretch(found: Shower, name: str) -> Stretch:
    (piece,) = (p for _, pieces in found.network.ways() for p in pieces if p.name == name)
    assert isinstance(piece, Stretch)
    return piece


# lengths, heights, losses


def test_a_riser_is_as_long_and_as_high_as_on_the_wall() -> None:
    # the port lies 70 over the valve's centre at 1100, from which heights count: 2100 - 1170, 2100 - 1100
    riser = stretch(shower(JOB), "riser pipe")
    assert (riser.length, riser.rise) == (930, 1000)
    assert riser.bore == pytest.approx(13.6)


def test_a_feed_climbs_from_the_gauge_and_not_from_the_floor() -> None:
    # 1030 of pipe from the floor to the port at 1100 - 70; the gauge stood at 1000, 100 under the valve
    cold = stretch(shower(JOB), "cold pipe")
    assert (cold.length, cold.rise) == (1030, 100)


def test_pipe_upstream_takes_the_climb_from_the_gauge_to_the_wall() -> None:
    job = with_branch(JOB, "cold", upstream=(Upstream(tube="copper-22", length=6000, elbows=3),))
    found = shower(job)
    first, pipe = stretch(found, "cold pipe to the wall"), stretch(found, "cold pipe")
    assert (first.length, first.rise, pipe.rise) == (6000, -1000, 1100)
    assert first.bore == pytest.approx(20.2)
    assert first.sum_k == pytest.approx(3 * 1.04)  # elbows of 1.04 each


def test_the_narrower_of_two_stretches_takes_the_change_of_bore() -> None:
    wide = (Upstream(tube="copper-22", length=6000),)
    without, narrowed = (
        stretch(shower(job), "cold pipe").sum_k for job in (JOB, with_branch(JOB, "cold", upstream=wide))
    )
    # sharp edge from 20.2 to 13.6: beta 0.673, jet 1 + 0.622 (1 - 0.0974 - 0.1086) = 1.494;
    # 0.0696 x 0.862 x 2.232 + 0.494² = 0.134 + 0.244
    assert narrowed - without == pytest.approx(0.378, abs=0.002)


def test_a_square_turn_is_an_elbow_unless_the_tube_is_bent() -> None:
    turned = PIPES[1].but(route=((1500, 0), (1500, 500), (1045, 500)))
    for turns, each in (("elbows", 1.04), ("bends", 0.33)):
        job = JOB.but(pipes=(PIPES[0], turned.but(turns=turns), *PIPES[2:]))
        # two turns, and a coupling of 0.08 at each end
        assert stretch(shower(job), "cold pipe").sum_k == pytest.approx(2 * each + 0.16)


def test_the_handset_is_as_high_as_its_slider_holds_it() -> None:
    # rail foot 1200, slider 500 up, the middle of the spray 130 - 55 over that: 1775
    found = shower(JOB)
    assert found.mouths["handset at outlet"] == 1775
    hose = stretch(found, "hose to the handset")
    assert (hose.length, hose.bore, hose.rise) == (1500, 9, 675)
    assert found.parts["handset at outlet"] == ("outlet", "hose", "rail")


def test_a_heads_water_falls_from_its_arm() -> None:
    found = shower(JOB)
    arm = stretch(found, "arm of head")
    assert (arm.length, arm.rise, found.mouths["head"]) == (410, -60, 2040)  # 350 out and 60 down


def test_a_head_set_nearer_to_the_wall_has_a_shorter_arm() -> None:
    found = shower(JOB.with_fitting(HEAD.but(reach=300)))
    assert stretch(found, "arm of head").length == 360


def test_the_rises_from_gauge_to_mouth_add_up_to_its_height_over_the_gauge() -> None:
    found = shower(JOB)
    ways = dict(found.network.ways())
    climbed = sum(p.rise for name in ("cold", "head") for p in ways[name] if isinstance(p, Stretch))
    assert climbed == pytest.approx(2040 - 1000)


def test_a_pipe_that_taps_another_takes_its_part_of_that() -> None:
    main = Pipe(id="main", service="cold", end="second.cold", route=((1245, 0),))
    tap = Pipe(id="cold", service="cold", end="valve.cold", route=((1245, 400), (1045, 400)))
    second = Valve(id="second", part="valve-two-round", x=1200, height=1100)
    job = JOB.but(fittings=(*JOB.fittings, second), pipes=(PIPES[0], tap, main, *PIPES[2:]))
    found = next(one for one in showers(plan_of(job)) if isinstance(one, Shower))
    before, own = stretch(found, "main pipe"), stretch(found, "cold pipe")
    assert (before.length, own.length) == (400, 200 + 630)
    assert own.sum_k == pytest.approx(2.0 + 1.04 + 0.16)  # out of a tee's branch, one elbow, two couplings


# supplies


def test_readings_bend_the_curve_and_a_cistern_stands_in_for_them() -> None:
    assert shower(JOB).network.cold.curve.pressure(20.0) == 3.0
    gravity = SUPPLY.but(
        source="stored_gravity", hot=HOT.but(static=0.3, readings=(), cistern=4000.0, temperature=60.0)
    )
    # 3000 over the gauge, water of 60 C at 983.2 kg/m3: 0.2893 bar
    curve = shower(JOB.but(supply=gravity)).network.hot.curve
    assert curve.static == pytest.approx(0.2893, abs=1e-4)


def test_pump_reducing_valve_and_check_valves_stand_in_their_branch() -> None:
    job = with_branch(
        JOB, "cold", pump=Booster(pressure=1.5, flow=40.0), regulated=2.0, check_valves="double"
    )
    feed = shower(job).network.cold
    assert feed.regulated == 2.0
    assert isinstance(feed.pieces[0], Pump)
    assert isinstance(feed.pieces[-1], Device)
    # twice K 5.6: 1 bar at sqrt(2e5 / 11200) = 4.226 m/s in 13.6 mm (1.4527 cm2): 36.83 l/min
    assert feed.pieces[-1].one_way
    assert feed.pieces[-1].flow == pytest.approx(36.83, abs=0.02)


def test_double_check_valves_stated_for_the_house_count_on_both() -> None:
    found = shower(JOB.but(house=House(backflow="double_check_supplies")))
    assert found.network.cold.pieces[-1].name == "cold check valve"
    assert found.network.hot.pieces[-1].name == "hot check valve"


def test_the_thermostat_is_set_as_stated() -> None:
    assert shower(JOB.but(supply=SUPPLY.but(set_to=40.0))).network.valve.setting == 40.0


# what does not matter is not computed again


def test_a_move_that_keeps_lengths_and_heights_keeps_the_results() -> None:
    aside = JOB.but(
        fittings=tuple(fitting.but(x=fitting.x + 400) for fitting in JOB.fittings),
        pipes=tuple(pipe.but(route=tuple((x + 400, y) for x, y in pipe.route)) for pipe in PIPES),
    )
    assert results(shower(aside).network) is results(shower(JOB).network)


def test_a_higher_head_gets_less() -> None:
    higher = JOB.with_fitting(HEAD.but(height=2300))
    low, high = (results(shower(job).network).alone["head"].flow for job in (JOB, higher))
    assert high < low


def test_where_nothing_falls_before_the_valve_the_head_gets_what_lies_between_two_hand_sums() -> None:
    # 3 bar less 1040 mm of water: 2.898. Half of a valve of 22 l/min at 1 bar, and no pipe, would give
    # sqrt(2.898 / (1 / 10² + 4 / 22²)) = 12.6; no valve at all sqrt(2.898) x 10 = 17.0
    flow = results(shower(JOB).network).alone["head"].flow
    assert 12.6 < flow < 17.0


# what is missing or cannot be


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (lambda job: job.but(pipes=job.pipes[1:]), "no pipe leads to valve.hot"),
        (lambda job: with_branch(job, "cold", readings=()), "supply.cold: needs at least one reading"),
        (
            lambda job: with_branch(job, "hot", readings=(Reading(pressure=3.1, flow=9.0),)),
            "supply.hot reading 1: 3.1 bar with water running cannot be above the static 3 bar",
        ),
        (
            lambda job: with_branch(job, "hot", readings=(Reading(pressure=2.0, flow=0.0),)),
            "the flow must be at least 0.1 l/min, got 0",
        ),
        (lambda job: with_branch(job, "hot", temperature=9.0), "must be above the cold 10 °C, got 9"),
        (
            lambda job: job.but(supply=SUPPLY.but(source="instant_heater")),
            "supply.heater_kw: the power of the instant heater is not stated",
        ),
        (
            lambda job: with_branch(job, "cold", upstream=(Upstream(tube="lead-1", length=900),)),
            "supply.cold.upstream[0].tube: no part is called 'lead-1'",
        ),
        (lambda job: job.but(hoses=()), "no hose hangs from outlet"),
        (
            lambda job: job.but(
                supply=SUPPLY.but(source="stored_gravity", hot=HOT.but(readings=(), cistern=500.0))
            ),
            "the cistern's water must stand above the place, got -500 mm",
        ),
    ],
)
def test_what_is_missing_or_impossible_is_said_and_never_a_number(
    change: Callable[[Job], Job], said: str
) -> None:
    found = [one for one in showers(plan_of(change(JOB))) if isinstance(one, Lacking)]
    assert len(found) == 1
    assert found[0].parts == ("valve",)
    assert said in found[0].message


def test_an_outlet_without_a_pipe_is_named() -> None:
    job = JOB.but(fittings=(*JOB.fittings, Spout(id="spout", part="spout-170", x=600, height=700)))
    lacking = [one for one in showers(plan_of(job)) if isinstance(one, Lacking)]
    assert [one.parts for one in lacking] == [("spout",)]


def test_names_that_are_taken_get_a_number() -> None:
    head = HEAD.but(id="cold")
    cold = PIPES[1].but(id="second")
    riser = PIPES[2].but(end="cold.in")
    job = JOB.but(fittings=(VALVE, head, OUTLET, RAIL), pipes=(PIPES[0], cold, riser, PIPES[3]))
    assert shower(job).parts["cold (2)"] == ("cold",)


def test_a_long_pipe_in_the_ground_can_be_stated() -> None:
    job = with_branch(JOB, "cold", upstream=(Upstream(tube="copper-22", length=500_000),))
    assert read_job(write_job(job)) == job
    assert math.isfinite(results(shower(job).network).alone["head"].flow)


@given(job=jobs())
def test_every_job_has_its_water_worked_out_or_says_why_not(job: Job) -> None:
    plan = plan_of(job)
    for one in showers(plan):
        if isinstance(one, Shower):
            for _, solution in results(one.network).running:
                assert all(outlet.flow >= 0.0 for outlet in solution.outlets)
        else:
            assert one.message.endswith(".")
