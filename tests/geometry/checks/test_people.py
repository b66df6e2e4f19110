"""Heights for the people who use the shower, reach with dry hands, the standing place, scalding.

The tray floor is at 30. The wall is bare, so that controls of the valve stand 70 and 65 out of it: its
temperature is 35 below its centre, its flow 35 above. Heads: 200 wide, axis 350 out, underside 60 lower.
"""

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from geometry.checks.dry_hands import dry_hands, open_entry
from geometry.checks.people import BANDS, people
from geometry.edits.moves import mirrored_wall
from geometry.finding import Finding, Status
from geometry.model import Enclosure, Fitting, Head, Hose, HoseOutlet, House, Job, Rail, Screen, Spout, Valve
from geometry.model.enclosure import Entry
from geometry.model.house import User
from geometry.model.record import XY
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.geometry.checks.walls import bare, found, only, plan_of, told

FLOOR = 30.0
BATH = Enclosure(kind="bath", left=0, width=1700, projection=700, floor=150, rim=560)
USUAL = ("clear", "tight")


def valve(centre: float, x: float = 2000) -> Valve:
    """A valve so far above the tray floor."""
    return Valve(id="valve", part="valve-two-round", x=x, height=FLOOR + centre)


def head(under: float, x: float = 2000, reach: float | None = None) -> Head:
    """A head with its underside so far above the tray floor."""
    return Head(id="head", part="head-wall-200", x=x, height=FLOOR + under + 60, reach=reach)


def rail(foot: float) -> Rail:
    """A rail with its foot so far above the tray floor: its slider goes from 80 to 620 above that."""
    return Rail(id="rail", part="rail-700", x=2500, height=FLOOR + foot)


def for_a(user: User, *fittings: Fitting) -> Job:
    return bare(*fittings).but(house=House(users=(user,)))


def judged(user: User, fitting: Fitting, rules: tuple[str, ...]) -> Finding:
    """Return what is said of a fitting by one band of a user."""
    (finding,) = [f for f in people(plan_of(for_a(user, fitting))) if f.rule in rules]
    return finding


# at, just under and just over each limit: the user, what is fitted at a height, the rules, the status beyond

VALVE = ("people.valve_low", "people.valve_high")
HEAD = ("people.head_low", "people.head_high")
ADA = ("people.controls_seated_low", "people.controls_seated_high")
AUSTRALIA = ("people.controls_australia_low", "people.controls_australia_high")
ENGLAND = ("people.controls_england_low", "people.controls_england_high")
CASES: list[tuple[User, str, tuple[str, ...], float, Status]] = [
    # common practice, no source: valve 1000 to 1200, underside of head 2000 to 2200, slider up to 1700
    ("usual", "valve", VALVE, 1000, "tight"),
    ("usual", "valve", VALVE, 1200, "tight"),
    ("usual", "head", HEAD, 2000, "tight"),
    ("usual", "head", HEAD, 2200, "tight"),
    ("usual", "slider up", ("people.slide_top",), 1700, "tight"),
    # from memory: men of the 99th percentile are 1920 tall
    ("tall", "head", ("people.head_tall",), 2050, "clash"),
    ("tall", "slider up", ("people.slide_top_tall",), 1900, "tight"),
    # ADA 2010 advisory 308.1, ages 9 to 12: 44 in
    ("child", "upper control", ("people.controls_child",), 1120, "clash"),
    ("child", "slider down", ("people.slide_foot_child",), 1120, "tight"),
    # ADA 2010 608.5: 38 to 48 in
    ("seated", "lower control", ADA, 965, "clash"),
    ("seated", "upper control", ADA, 1220, "clash"),
    ("seated", "slider down", ("people.slide_foot_seated",), 1220, "clash"),
    # AS 1428.1: taps 900 to 1100, handset from 1000 or lower to 1800 or higher
    ("seated", "lower control", AUSTRALIA, 900, "refer"),
    ("seated", "upper control", AUSTRALIA, 1100, "refer"),
    ("seated", "slider down", ("people.slide_foot_australia",), 1000, "refer"),
    ("seated", "slider up", ("people.slide_top_australia",), 1800, "refer"),
    # Approved Document M volume 2, from memory: controls 750 to 1000
    ("seated", "lower control", ENGLAND, 750, "refer"),
    ("seated", "upper control", ENGLAND, 1000, "refer"),
]


def placed(what: str, height: float) -> Fitting:
    """Put a fitting so that what is measured lies so far above the tray floor."""
    match what:
        case "valve":
            return valve(height)
        case "lower control":
            return valve(height + 35)
        case "upper control":
            return valve(height - 35)
        case "head":
            return head(height)
        case "slider up":
            return rail(height - 620)
    return rail(height - 80)


@pytest.mark.parametrize(("user", "what", "rules", "limit", "failing"), CASES)
def test_height_at_its_limit_passes_and_a_tenth_beyond_does_not(
    user: User, what: str, rules: tuple[str, ...], limit: float, failing: Status
) -> None:
    at = judged(user, placed(what, limit), rules)
    assert (at.status in USUAL, at.measured, at.limit) == (True, limit, limit)
    least = standard_rules()[at.rule].sense == "at least"
    beyond = judged(user, placed(what, limit - 0.1 if least else limit + 0.1), rules)
    within = judged(user, placed(what, limit + 0.1 if least else limit - 0.1), rules)
    assert beyond.status == failing
    assert within.status in USUAL


def test_every_band_is_among_the_cases() -> None:
    hose = ("people.hose_seated",)  # judged below
    assert {band.rules for band in BANDS} == {rules for _, _, rules, _, _ in CASES} | {hose}


@pytest.mark.parametrize(("length", "status"), [(1250, "clash"), (1500, "clear"), (1750, "clear")])
def test_a_seated_user_wants_a_hose_of_1500(length: int, status: Status) -> None:
    # ADA 2010 608.6: 59 in
    outlet = HoseOutlet(id="outlet", part="outlet-round", x=2500, height=1000)
    hose = Hose(id="hose", part=f"hose-{length}", outlet="outlet", rail="rail")
    job = for_a("seated", outlet, rail(1000)).but(hoses=(hose,))
    assert told(only(people, "people.hose_seated", job)) == (status, length)


def test_only_the_users_named_are_judged() -> None:
    fitted = (valve(1000), head(2100), rail(1090))
    usual = {f.rule for f in people(plan_of(for_a("usual", *fitted)))}
    seated = {f.rule for f in people(plan_of(for_a("seated", *fitted)))}
    assert usual & seated == {"people.scald"}


def test_heights_count_from_the_floor_of_the_bath() -> None:
    # 1030 - 150
    finding = only(people, "people.valve_low", bare(valve(1000), enclosure=BATH))
    assert told(finding) == ("tight", 880)
    assert finding.message == "Centre of valve 880 mm above the bath floor; 1000 to 1200 mm is wanted."


def test_a_ceiling_arm_is_judged_by_its_underside() -> None:
    # ceiling 2400, drop 220, floor 30
    ceiling = Head(id="head", part="head-ceiling-250", x=2000, height=2400)
    assert told(only(people, "people.head_high", for_a("usual", ceiling))) == ("clear", 2150)


def test_a_second_rule_for_a_seated_user_names_its_document() -> None:
    finding = judged("seated", valve(1100), ("people.controls_england_high",))
    assert finding.message == (
        "Seated user: controls of valve 1065 to 1135 mm above the tray floor; 750 to 1000 mm is wanted. "
        "Where Approved Document M, volume 2 holds, building control decides."
    )


@pytest.mark.parametrize("entry", get_args(Entry))
@pytest.mark.parametrize("tray", [(700, 700), (760, 760), (900, 760), (1200, 800), (1700, 700)])
def test_a_started_job_does_not_clash_for_a_usual_user(tray: tuple[int, int], entry: Entry) -> None:
    plan = plan_of(suggested_job(*tray, entry))
    assert {f.status for f in (*people(plan), *dry_hands(plan))} <= {"clear", "tight", "refer"}
    assert {f.rule for f in people(plan) if f.status == "refer"} == {"people.scald"}


# reach: front edge at 900, the controls 70 and 65 out


def reach(job: Job) -> Finding:
    return only(dry_hands, "people.reach", job)


def tray(entry: Entry, projection: float = 900, screens: tuple[Screen, ...] = ()) -> Enclosure:
    return Enclosure(left=500, width=3000, projection=projection, entry=entry, screens=screens)


@pytest.mark.parametrize(
    ("entry", "x", "projection", "expected"),
    [
        ("front", 2000, 765, 700),  # 765 - 65
        ("left", 1200, 900, 700),  # 1200 - 500
        ("right", 2800, 900, 700),  # 3500 - 2800
    ],
)
def test_controls_exactly_an_arm_from_the_entry_pass(
    entry: Entry, x: float, projection: float, expected: float
) -> None:
    job = bare(valve(1000, x)).but(enclosure=tray(entry, projection))
    assert told(reach(job)) == ("clear", expected)


def test_controls_beyond_an_arm_are_a_hint() -> None:
    job = bare(valve(1000, 1200.1)).but(enclosure=tray("left"))
    finding = reach(job)
    assert told(finding) == ("tight", 700.1)
    assert "move the valve towards the entry" in finding.message


def pane(start: XY, end: XY) -> Screen:
    return Screen(id="pane", start=start, end=end)


def test_a_screen_in_the_way_is_reached_round() -> None:
    # the front is open from 2300 on: 300 beside; 465 - 65 = 400 out: 3-4-5
    job = bare(valve(1000)).but(enclosure=tray("front", 465, (pane((500, 465), (2300, 465)),)))
    assert told(reach(job)) == ("clear", 500)


@pytest.mark.parametrize(("off", "closed"), [(30, True), (30.1, False)])
def test_a_screen_closes_an_edge_within_30_of_it(off: float, closed: bool) -> None:
    job = bare(valve(1000)).but(enclosure=tray("front", 765, (pane((500, 765 - off), (3500, 765 - off)),)))
    assert reach(job).status == ("unchecked" if closed else "clear")


def test_two_screens_leave_a_gap() -> None:
    screens = (pane((500, 900), (1000, 900)), pane((1600, 900), (3500, 900)))
    assert open_entry(tray("front", screens=screens)) == (((1000, 900), (1600, 900)),)


def test_a_screen_across_the_tray_does_not_close_its_edge() -> None:
    screens = (pane((500, 900), (2000, 0)),)
    assert open_entry(tray("front", screens=screens)) == (((500, 900), (3500, 900)),)


def test_screens_along_other_edges_do_not_count() -> None:
    screens = (pane((500, 0), (500, 900)), pane((3500, 0), (3500, 900)))
    assert open_entry(tray("front", screens=screens)) == (((500, 900), (3500, 900)),)
    assert open_entry(tray("left", screens=screens)) == ()


# under the water: the plate's edge is 350 - 100 = 250 out, the nearer control 70


def dry(job: Job) -> Finding:
    return only(dry_hands, "people.dry", job)


def test_controls_exactly_beside_the_water_pass() -> None:
    # 270 - 100 - 70
    assert told(dry(bare(valve(1000), head(2100, reach=270)))) == ("clear", 100)


def test_controls_nearer_to_the_water_are_a_hint() -> None:
    finding = dry(bare(valve(1000), head(2100, reach=269.9)))
    assert told(finding) == ("tight", 99.9)
    assert finding.message.endswith("Hands get wet on them.")


def test_controls_under_the_water_say_so() -> None:
    finding = dry(bare(valve(1000), head(2100, reach=100)))
    assert finding.status == "tight"
    assert "under the water" in finding.message


def test_without_a_head_hands_stay_dry() -> None:
    assert told(dry(bare(valve(1000)))) == ("clear", None)


def test_a_head_to_the_side_of_the_controls_keeps_them_dry() -> None:
    # the wider control ends at 2000 + 27.5, the plate begins at 2400 - 100
    assert told(dry(bare(valve(1000), head(2100, x=2400, reach=50)))) == ("clear", 272.5)


# standing place


@pytest.mark.parametrize(
    ("projection", "reach_out", "status", "percent"),
    [
        (1000, 500, "clear", 0),
        (1000, 300, "clear", 20),  # 500 - 300 of 1000
        (1000, 299, "tight", 20.1),
        (1000, 700, "clear", 20),
        (1000, 701, "tight", 20.1),
        (760, 350, "clear", 3.9),  # 30 of 760
    ],
)
def test_head_over_the_standing_place(
    projection: float, reach_out: float, status: Status, percent: float
) -> None:
    job = bare(head(2100, reach=reach_out)).but(enclosure=tray("front", projection))
    assert told(only(dry_hands, "people.standing", job)) == (status, percent)


# scalding


def test_a_shower_says_to_what_its_thermostat_is_set() -> None:
    finding = only(people, "people.scald", bare(valve(1000)))
    assert (finding.status, finding.limit, finding.unit) == ("refer", 41, "°C")
    assert finding.source is not None
    assert finding.source.standing == "from memory: verify"


def test_a_spout_over_a_bath_has_a_limit_of_its_own() -> None:
    spout = Spout(id="spout", part="spout-170", x=800, height=700)
    assert only(people, "people.scald_bath", bare(valve(1000), spout, enclosure=BATH)).limit == 44
    assert found(people, "people.scald_bath", bare(valve(1000), spout)) == []


def test_without_a_valve_there_is_no_thermostat() -> None:
    assert found(people, "people.scald", bare()) == []


# properties


def everything(job: Job) -> list[tuple[object, ...]]:
    plan = plan_of(job)
    return sorted((f.rule, f.status, f.parts, f.measured) for f in (*people(plan), *dry_hands(plan)))


@given(
    st.integers(300, 2000), st.integers(300, 3700), st.integers(500, 3500), st.sampled_from(get_args(Entry))
)
def test_mirrored_it_says_the_same(height: int, x: int, head_x: int, entry: Entry) -> None:
    job = bare(valve(height, x), head(2100, head_x), rail(1090)).but(
        enclosure=tray(entry), house=House(users=get_args(User))
    )
    assert everything(job) == everything(mirrored_wall(job))


@given(st.integers(300, 2000), st.integers(-500, 500), st.integers(-1000, 1000))
def test_raised_or_moved_with_its_tray_it_says_the_same(height: int, up: int, dx: int) -> None:
    job = bare(valve(height), head(1900), rail(1000)).but(
        enclosure=Enclosure(left=1500, width=900, projection=900, floor=530, rim=540),
        house=House(users=get_args(User)),
    )
    moved = job.but(
        enclosure=job.enclosure.but(left=1500 + dx, floor=530 + up, rim=540 + up),
        fittings=tuple(f.but(x=f.x + dx, height=f.height + up) for f in job.fittings),
    )
    assert everything(job) == everything(moved)


@given(st.integers(1900, 2400), st.integers(0, 300))
def test_a_stricter_rule_never_clears_a_finding(height: int, stricter: int) -> None:
    order = ("clear", "tight", "refer", "clash")
    job = bare(valve(height - 1000), head(height), rail(height - 900)).but(house=House(users=get_args(User)))
    strict = {
        limit.rule: limit.value + (stricter if limit.sense == "at least" else -stricter)
        for limit in standard_rules()
        if limit.rule in {rule for band in BANDS for rule in band.rules}
    }
    before, after = (
        [order.index(f.status) for f in people(plan_of(job, limits=limits))] for limits in ({}, strict)
    )
    assert all(now >= then for then, now in zip(before, after, strict=True))
