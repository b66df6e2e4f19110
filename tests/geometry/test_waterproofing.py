import pytest
import shapely

from geometry.model import Enclosure, FinishArea, HoseOutlet, Job, Layer, Niche, Opening, Region, Tiling, Wall
from geometry.waterproofing import LAP, tanked_shape, tanking
from tests.geometry.checks.walls import plan_of
from tests.geometry.tiling.walls import TILED, tiled

TANKED = (Layer(kind="tanking", thickness=1.0), *TILED)


def job(**rest: object) -> Job:
    """A wall of 2000 x 2400, its tray of 800 in the left corner with its rim at 40, tanked all over."""
    made = tiled(Tiling(), width=2000, height=2400, layers=TANKED, **rest)  # type: ignore[arg-type]
    return made.but(enclosure=Enclosure(left=0.0, width=800.0, projection=800.0, floor=30.0, rim=40.0))


def test_the_zones_by_hand() -> None:
    # over the rim 800 x 2360 = 1.888 m2; beside it 300 x 2400 = 0.72 m2, the other side is a corner
    wet, splash = tanking(plan_of(job())).zones
    assert (wet.area, wet.tanked) == pytest.approx((1.888, 1.888))
    assert (splash.area, splash.open) == pytest.approx((0.72, 0.0))


def test_only_areas_with_a_tanking_layer_are_tanked() -> None:
    whole = job()
    dry = FinishArea(id="dry", layers=TILED, region=Region(x=0, y=1240, width=2000, height=1160))
    part = whole.but(finish=whole.finish.but(areas=(dry, *whole.finish.areas)))
    wet, splash = tanking(plan_of(part)).zones
    assert (wet.tanked, wet.open) == pytest.approx((0.96, 0.928))  # 800 x 1200 and 800 x 1160
    assert splash.tanked == pytest.approx(0.372)  # 300 x 1240


def test_membrane_goes_by_the_rate() -> None:
    # 2000 x 2400 less the tray's 800 x 40: 4.768 m2, 1.0 to 1.5 kg each
    held = tanking(plan_of(job()))
    assert (held.least, held.most) == pytest.approx((4.768, 7.152))


def test_band_in_corners_and_along_the_rim_with_laps() -> None:
    # left corner above the rim 2360, right corner 2400, rim 800, each 50 longer at both ends
    held = tanking(plan_of(job()))
    assert dict(held.bands) == pytest.approx(
        {"left corner": 2360 + 2 * LAP, "right corner": 2400 + 2 * LAP, "rim": 800 + 2 * LAP}
    )
    assert held.band == pytest.approx(5.86)


def test_a_free_end_takes_no_band_and_a_niche_takes_its_edges() -> None:
    whole = job(niches=(Niche(id="niche", x=200, y=1300, width=300, height=200, depth=90),))
    free = whole.but(wall=whole.wall.but(right="free_end"))
    bands = dict(tanking(plan_of(free)).bands)
    assert "right corner" not in bands
    assert bands["niche"] == pytest.approx(2 * 2 * (300 + 200) + 4 * 90 + 2 * LAP)


def test_pipes_want_collars_and_screws_are_sealed() -> None:
    outlet = HoseOutlet(id="outlet", part="outlet-round", x=400, height=1000)
    wet = job().but(fittings=(outlet,))
    held = tanking(plan_of(wet))
    assert [hole.owner for hole in held.collars] == ["outlet"]
    assert held.sealed == 2  # its two fixing screws
    bare = wet.but(finish=wet.finish.but(areas=(FinishArea(id="dry", layers=TILED),)))
    assert tanking(plan_of(bare)).collars == ()


def test_openings_are_not_tanked() -> None:
    shape = tanked_shape(job(openings=(Opening(id="window", x=1000, y=1000, width=500, height=600),)))
    assert float(shapely.area(shape)) == pytest.approx(2000 * 2400 - 800 * 40 - 500 * 600)


def test_a_bare_wall_takes_nothing() -> None:
    held = tanking(
        plan_of(
            Job(wall=Wall(width=1000, height=2400), enclosure=Enclosure(left=0, width=800, projection=800))
        )
    )
    assert (held.most, held.bands, held.collars) == (0.0, (), ())
