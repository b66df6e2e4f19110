"""Invented houses for the tests of the supply; `plain` has no pipes, so that hand sums have a closed form."""

from random import Random

from geometry.supply.network import Feed, Heater, MixingValve, Network, Outlet
from geometry.supply.pieces import Device, Piece, Stretch
from geometry.supply.supply_curve import SupplyCurve

HEAD, HANDSET = "head", "handset"
BORES = (8.6, 11.6, 12.0, 13.6, 16.0, 17.7, 20.2, 26.2)  # mm, usual copper and plastic


def feed(static: float, celsius: float, *pieces: Piece, fall: float = 0.0) -> Feed:
    return Feed(curve=SupplyCurve(static=static, fall=fall), temperature=celsius, pieces=pieces)


def outlet(name: str, flow: float, *pieces: Piece, submerged: bool = False) -> Outlet:
    """One whose head passes `flow` l/min at 1 bar."""
    return Outlet(
        name=name, pieces=pieces, head=Device(name=f"{name} itself", flow=flow), submerged=submerged
    )


def plain(
    *,
    cold: Feed | None = None,
    hot: Feed | None = None,
    setting: float = 38.0,
    heater: Heater | None = None,
    outlets: tuple[Outlet, ...] | None = None,
) -> Network:
    """3 bar on both sides whatever flows, 10 and 60 C, a valve of 22 and a head of 12 l/min at 1 bar."""
    return Network(
        cold=cold or feed(3.0, 10.0),
        hot=hot or feed(3.0, 60.0),
        heater=heater,
        valve=MixingValve(setting=setting, hot_flow=22.0, cold_flow=22.0),
        outlets=outlets or (outlet(HEAD, 12.0),),
    )


def pipes(chance: Random, place: str, count: int, rise: float) -> tuple[Piece, ...]:
    """Stretches that climb `rise` mm together, and a filter with a check valve."""
    stretches = [
        Stretch(
            name=f"{place} {index}", length=chance.uniform(200, 9000), bore=chance.choice(BORES[3:]),
            roughness=chance.choice((0.0015, 0.007)), rise=rise / count, sum_k=chance.uniform(0, 12),
            extra_length=chance.choice((0.0, 500.0)),
        )
        for index in range(count)
    ]  # fmt: skip
    guard = Device(
        name=f"{place} check valve", flow=chance.uniform(25, 40), pressure=0.4,
        opening=chance.choice((0.0, 0.02)), one_way=True,
    )  # fmt: skip
    return (*stretches, guard)


def any_house(seed: int) -> Network:
    """A house as it might be: two branches with pipes, a head above, a handset, sometimes a heater."""
    chance = Random(seed)
    cold_static = chance.uniform(1.5, 6.0)
    hot_static = cold_static * chance.uniform(0.5, 1.1)
    feeds = [
        Feed(
            curve=SupplyCurve(
                static=static, exponent=chance.uniform(1.7, 2.0),
                fall=chance.uniform(0.1, 0.5) * static / 20.0**1.85,
            ),
            temperature=celsius,
            pieces=pipes(chance, place, chance.randint(1, 4), chance.uniform(-1000, 2500)),
            regulated=chance.choice((None, None, None, 0.8 * static)),
        )
        for place, static, celsius in (
            ("cold", cold_static, chance.uniform(4, 20)),
            ("hot", hot_static, chance.uniform(48, 70)),
        )
    ]  # fmt: skip
    riser = pipes(chance, HEAD, 2, chance.uniform(600, 1200))[:2]
    stub = pipes(chance, HANDSET, 1, chance.uniform(-300, 300))[:1]
    hose = Device(name="hose", flow=chance.uniform(10, 20))
    limited = Heater(power=chance.uniform(8, 40), beyond=chance.choice(("cooler", "slower")))
    heater = chance.choice((None, limited))
    return Network(
        cold=feeds[0],
        hot=feeds[1],
        heater=heater,
        valve=MixingValve(
            setting=chance.uniform(36, 42), hot_flow=chance.uniform(14, 30), cold_flow=chance.uniform(14, 30)
        ),
        outlets=(
            outlet(HEAD, chance.uniform(7, 16), *riser),
            outlet(HANDSET, chance.uniform(5, 12), *stub, hose),
        ),
    )
