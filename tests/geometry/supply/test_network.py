"""What a network refuses, what its limits say, and how fast it is solved."""

import pkgutil
import time

import pytest

from geometry.rules.rulebook import read_rules
from geometry.supply.network import Heater, Network
from geometry.supply.pieces import Device, Stretch
from geometry.supply.solve import solve
from tests.geometry.supply.houses import HANDSET, HEAD, any_house, feed, outlet, plain

MOST = 5.0  # ms


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: plain(hot=feed(3.0, 9.0)), r"\.hot\.temperature: must be above the cold 10 °C, got 9"),
        (lambda: plain(hot=feed(3.0, 10.0)), r"\.hot\.temperature: must be above the cold 10 °C, got 10"),
        (lambda: plain().but(outlets=()), r"\.outlets: must have one outlet or more"),
        (lambda: plain(outlets=(outlet(HEAD, 12), outlet(HEAD, 8))), "only once in a network: 'head'"),
        (lambda: plain(outlets=(outlet("hot", 12),)), "only once in a network: 'hot'"),
        (lambda: plain(outlets=(outlet("", 12),)), r"\.name: must not be empty"),
        (
            lambda: plain(cold=feed(3.0, 10.0, Device(name="filter", flow=9), Device(name="filter", flow=9))),
            "only once in a network: 'filter'",
        ),
        (lambda: feed(25.0, 10.0), r"\.static: must be at least -1 and at most 20 bar, got 25"),
        (lambda: Heater(power=0.0), r"\.power: must be above 0"),
    ],
)
def test_impossible_networks_are_refused(make: object, message: str) -> None:
    assert callable(make)
    with pytest.raises(ValueError, match=message):
        make()


def test_a_network_is_never_changed_by_solving() -> None:
    house, again = any_house(1), any_house(1)
    solve(house, HEAD)
    assert house == again


def test_the_limits_are_read_as_the_rulebook_reads_them() -> None:
    data = pkgutil.get_data("geometry.rules", "supply.toml")
    assert data is not None
    rules = read_rules(data, "supply.toml")
    assert len(rules) > 20
    assert all(name.startswith("supply.") for name in rules)
    for name, limit in rules.items():
        if limit.source.standing == "published":
            assert limit.source.document, name


def largest() -> Network:
    """Twelve pipes of six sizes on each branch, and long ways out."""

    def many(place: str) -> tuple[Stretch, ...]:
        return tuple(
            Stretch(name=f"{place} {i}", length=1500, bore=(12, 13.6, 16, 17.7, 20.2, 26.2)[i % 6], sum_k=3)
            for i in range(12)
        )

    house = any_house(1)
    return house.but(
        heater=None,
        cold=house.cold.but(pieces=many("cold")),
        hot=house.hot.but(pieces=many("hot")),
        outlets=tuple(o.but(pieces=(*o.pieces, *many(f"far {o.name}")[:4])) for o in house.outlets),
    )


@pytest.mark.parametrize(
    ("house", "running"),
    [
        (any_house(1).but(heater=None), (HEAD,)),
        (any_house(1).but(heater=None), (HEAD, HANDSET)),
        (any_house(1).but(heater=Heater(power=10.0)), (HEAD, HANDSET)),
        (largest(), (HEAD, HANDSET)),
    ],
    ids=["one outlet", "two outlets", "two outlets on a small heater", "many pipes"],
)
def test_a_solve_follows_a_drag(house: Network, running: tuple[str, ...]) -> None:
    taken = []
    for _ in range(12):  # the best of them: another program may be at work
        start = time.perf_counter()
        solve(house, *running)
        taken.append(1000 * (time.perf_counter() - start))
    assert min(taken) < MOST
