"""What runs through each way at most, and the shuttle's way by hand sums."""

import math

import pytest

from geometry.supply.hydraulics import way_needed
from geometry.supply.results import results
from tests.geometry.supply.houses import HANDSET, HEAD, outlet, plain


def test_the_shuttle_gives_each_side_what_its_flow_needs() -> None:
    # 0.1 x sqrt(25 / (2.0 - 1.0)) + 0.2 x sqrt(25 / (1.5 - 1.0)) = 0.5 + 1.41421
    sides = [(0.1, 2.0, 25.0), (0.2, 1.5, 25.0)]
    assert way_needed(sides, 1.0) == pytest.approx(1.91421, abs=1e-5)


def test_no_way_is_enough_uphill() -> None:
    assert way_needed([(0.1, 1.0, 25.0)], 1.0) == math.inf


def test_most_runs_through_branches_with_two_open_and_through_outlets_alone() -> None:
    found = results(plain(outlets=(outlet(HEAD, 12.0), outlet(HANDSET, 8.0))))
    most = found.most
    both = (HEAD, HANDSET)
    assert list(most) == ["hot", "cold", HEAD, HANDSET]
    assert [running for _, running in most.values()] == [both, both, (HEAD,), (HANDSET,)]
    assert most["cold"][0] == found.pairs[both].cold_flow
    assert most[HANDSET][0] == found.alone[HANDSET].flow
