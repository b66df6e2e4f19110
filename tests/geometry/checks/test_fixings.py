"""Fixing screws whatever the job: none, mirrored, deeper, in thinner walls, by stricter rules."""

from hypothesis import given
from hypothesis import strategies as st

from geometry.checks.fixings import fixings
from geometry.edits.moves import mirrored_wall
from geometry.model import Finish, Job, Tiling
from geometry.rules import standard_rules
from tests.geometry.checks.screwed import TILED, outlet, rail, said, wall
from tests.geometry.checks.walls import bare, jobs, plan_of, told


def test_without_screws_nothing_is_fixed() -> None:
    assert told(said(bare(), "hold")) == ("clear", None)


def everything(job: Job) -> list[tuple[object, ...]]:
    return sorted(
        (f.rule, f.status, f.measured is None or f.measured)
        for f in fixings(plan_of(job))
        if f.rule != "fixings.filled"  # hot and cold change places in the mirror
    )


@given(st.integers(100, 3900), st.integers(1000, 1700), st.integers(0, 302), st.booleans())
def test_mirrored_it_says_the_same(x: int, foot: int, start: int, tiles: bool) -> None:
    finish = Finish(areas=(TILED,), tiling=Tiling(start_x=start) if tiles else None)
    job = bare(rail(x, foot)).but(finish=finish)
    assert everything(job) == everything(mirrored_wall(job))


@given(st.integers(0, 60), st.integers(60, 200), st.integers(1, 60))
def test_a_deeper_recess_or_a_thinner_wall_never_clears_a_finding(deep: int, thickness: int, by: int) -> None:
    order = ("clear", "tight", "refer", "clash")

    def worst(job: Job) -> int:
        return max(order.index(f.status) for f in fixings(plan_of(job)))

    before = worst(bare(outlet(deep), wall=wall(thickness)))
    assert worst(bare(outlet(deep + by), wall=wall(thickness))) >= before
    assert worst(bare(outlet(deep), wall=wall(max(10, thickness - by)))) >= before


@given(jobs(), st.integers(0, 50))
def test_a_stricter_rule_leaves_no_fewer_faults(job: Job, stricter: int) -> None:
    limits = {
        rule.rule: rule.value + stricter
        for rule in standard_rules()
        if rule.rule in ("fixings.hold", "fixings.leaf", "fixings.filled", "fixings.edge")
    }
    loose, strict = (
        {
            (f.rule, owner)
            for f in fixings(plan_of(job, limits=held))
            if f.status == "clash"
            for owner in f.parts
        }
        for held in ({}, limits)
    )
    assert loose <= strict
