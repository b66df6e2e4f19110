"""Cures on 200 faulty jobs: how many are offered, how long each takes, and whether brute force finds more.

Run with `python -m pytest tests/benchmarks/test_cures_speed.py -s`. Times are of the processor, as other work
on the machine does not count there. Brute force tries every whole 5 mm of the same moves with all checks.
"""

import time
from collections import Counter
from statistics import mean, median

import pytest

from geometry.checks.runner import check
from geometry.cures import cures_for
from geometry.cures.heard import heard, planned
from geometry.cures.offers import moved_things, moves_for
from geometry.cures.trial import Trial
from geometry.finding import Finding
from tests.geometry.cures.brute_force import (
    any_at_5_mm,
    new_clashes,
    places,
    still_there,
    worse_parts,
)
from tests.geometry.cures.faulty import Faulty, faulty_jobs, plan_of

JOBS = 200
EVERY = 25
"""Brute force is timed on each so many clashes for which a move is offered: it takes seconds."""
MOST_SECONDS = 0.05
LEAST_RATIO = 10.0


@pytest.mark.timeout(3600)
def test_each_of_200_faulty_jobs_is_cured_by_what_is_offered_and_no_cure_is_missed() -> None:
    seconds, each, ratios, unmoved = [], [], [], 0
    offered: Counter[str] = Counter()
    for fault in faulty_jobs(JOBS):
        for target in fault.clashes:
            begun = time.process_time()
            cures = cures_for(fault.plan, fault.findings, target)
            seconds.append(time.process_time() - begun)
            each += [seconds[-1] / max(len(cures), 1)] * len(cures)
            for cure in cures:
                after = check(plan_of(cure.job))
                assert not still_there(target, after), cure.title
                assert not new_clashes(fault.findings, after), cure.title
                assert not (cure.title.startswith("Move ") and worse_parts(fault.findings, after)), cure.title
            moves = sum(cure.title.startswith("Move ") for cure in cures)
            offered.update(moves=moves, changes=len(cures) - moves, clashes=1)
            offered.update(cured=bool(cures), moved=moves > 0)
            if not moves:
                unmoved += 1
                assert any_at_5_mm(fault.plan, fault.findings, target) == []
            elif offered["moved"] % EVERY == 1:
                ratios.append(ratios_to_brute_force(fault, target))
    whole, first = zip(*ratios, strict=True)
    print(
        f"\n{JOBS} faulty jobs: {offered['clashes']} clashes, {offered['cured']} with a cure "
        f"({offered['moves']} moves, {offered['changes']} other changes), brute force finds none for the "
        f"{unmoved} without a move.\n"
        f"A cure takes {median(each) * 1e3:.0f} ms (median), all of a clash {median(seconds) * 1e3:.0f} ms "
        f"(median), {mean(seconds) * 1e3:.0f} ms (mean), {max(seconds) * 1e3:.0f} ms (most).\n"
        f"Brute force over all places takes {median(whole):.0f} times as long (median of {len(whole)}, least "
        f"{min(whole):.0f}); nearest first, up to the first cure of each thing, {median(first):.0f} times."
    )
    assert median(each) < MOST_SECONDS
    assert median(whole) >= LEAST_RATIO


def ratios_to_brute_force(fault: Faulty, target: Finding) -> tuple[float, float]:
    """Return how many times as long brute force takes: over all places, and up to a first cure."""
    heard.cache_clear()  # else the moves were only looked up, since they were just worked out
    planned.cache_clear()
    begun = time.process_time()
    moves_for(Trial(fault.plan, fault.findings, target))
    ours = time.process_time() - begun
    whole = first = 0.0
    for things in moved_things(fault.plan, target):
        found = False
        for tracks in things:
            in_order = sorted(
                (abs(place - track.at), index, place)
                for index, track in enumerate(tracks)
                for place in places(track, 5.0)
            )
            cured = False
            for _, index, place in in_order:
                begun = time.process_time()
                after = check(plan_of(tracks[index].to(place)))
                gone = not still_there(target, after) and not new_clashes(fault.findings, after)
                good = gone and not worse_parts(fault.findings, after)
                taken = time.process_time() - begun
                whole, first = whole + taken, first + (0.0 if cured else taken)
                cured = cured or good
            found = found or cured
        if found:
            break
    return whole / ours, first / ours
