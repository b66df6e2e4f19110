"""Losses of pieces and of paths: sums by hand, order, direction, and what is refused."""

from itertools import permutations

import pytest
from fluids.fittings import bend_rounded, contraction_sharp, diffuser_sharp

from geometry.supply.fitting_losses import FITTING_LOSSES, change_k, equivalent_k, fitting_k
from geometry.supply.loss import Path, head, litre_flow, mass_flow, piece_loss, velocity
from geometry.supply.pieces import Device, Piece, Pump, Stretch
from geometry.supply.water import water

PIPE = Stretch(name="pipe", length=6000, bore=13.6)


def test_ten_metres_of_water() -> None:
    # 10 m x 999.7 kg/m3 x 9.80665 m/s2 = 0.9804 bar at 10 C
    assert head(10_000, 10) == pytest.approx(0.9804, abs=1e-4)
    assert head(-10_000, 10) == pytest.approx(-0.9804, abs=1e-4)


def test_velocity_in_15_mm_copper() -> None:
    # 0.2 l/s through 13.6 mm: 0.2e-3 / (pi / 4 x 0.0136²) = 1.3768 m/s
    assert velocity(12, 13.6) == pytest.approx(1.3768, abs=1e-4)


def test_mass_and_litres_undo_each_other() -> None:
    # 12 l/min at 60 C: 0.2 l/s x 983.2 g/l
    assert mass_flow(12, 60) == pytest.approx(0.19664, abs=1e-5)
    assert litre_flow(mass_flow(12, 60), 60) == pytest.approx(12, rel=1e-12)


def test_a_sum_of_k_takes_its_velocity_pressures() -> None:
    # 8 x 999.7 x 1.3768² / 2 = 7580 Pa, whatever the length
    fitted = PIPE.but(sum_k=8.0)
    assert piece_loss(fitted, 12, 10) - piece_loss(PIPE, 12, 10) == pytest.approx(0.0758, abs=1e-4)


def test_equivalent_length_counts_as_pipe_but_not_as_height() -> None:
    long, fitted = PIPE.but(length=9000), PIPE.but(extra_length=3000, rise=500)
    assert piece_loss(fitted, 12, 10) == pytest.approx(piece_loss(long, 12, 10), rel=1e-12)
    assert Path((fitted,), 10).lift == pytest.approx(head(500, 10), rel=1e-12)


def test_a_pump_gives_what_it_states() -> None:
    # 1.5 bar at no flow, none at 40 l/min, 1.5 x (1 - 1/4) = 1.125 at 20, takes 1.5 x 3 = 4.5 at 80
    pump = Pump(name="pump", pressure=1.5, flow=40)
    assert [-piece_loss(pump, flow, 10) for flow in (0, 20, 40, 80)] == pytest.approx([1.5, 1.125, 0, -4.5])


def test_a_check_valve_takes_its_spring_on_top() -> None:
    # 0.05 + 0.4 x (15 / 30)² = 0.15 bar
    valve = Device(name="check", flow=30, pressure=0.4, opening=0.05, one_way=True)
    assert piece_loss(valve, 15, 10) == pytest.approx(0.15)


def test_the_order_of_pieces_does_not_matter() -> None:
    pieces: tuple[Piece, ...] = (
        PIPE,
        Stretch(name="other", length=2000, bore=20.2, rise=700, sum_k=3),
        Stretch(name="third", length=900, bore=13.6, roughness=0.007),
        Device(name="filter", flow=25),
    )
    for mass in (1e-4, 0.02, 0.1, 0.4):
        needs = [Path(order, 45).needs(mass) for order in permutations(pieces)]
        assert needs == pytest.approx([needs[0]] * len(needs), rel=1e-12)
        parts = sum(piece_loss(piece, litre_flow(mass, 45), 45) for piece in pieces)
        assert needs[0] == pytest.approx(parts + head(700, 45), rel=1e-12)


def test_flow_backwards_loses_the_other_way() -> None:
    path = Path((PIPE.but(rise=1000), Device(name="filter", flow=25)), 10)
    assert path.friction(-0.2) == -path.friction(0.2)
    assert path.needs(-0.2) == pytest.approx(head(1000, 10) - path.friction(0.2))


def test_no_flow_takes_nothing_but_height() -> None:
    assert Path((PIPE.but(rise=1000),), 10).needs(0.0) == head(1000, 10)


def test_the_transition_is_told_of_pipes_only() -> None:
    # Re 3000 in 20.2 mm at 10 C is 3.73 l/min
    pipe = Stretch(name="pipe", length=1, bore=20.2)
    slow, fast = mass_flow(3.73, 10), mass_flow(12, 10)
    assert Path((pipe,), 10).in_transition(slow)
    assert Path((pipe,), 10).in_transition(-slow)
    assert not Path((pipe,), 10).in_transition(fast)
    assert not Path((Device(name="filter", flow=3.73),), 10).in_transition(slow)


@pytest.mark.parametrize(
    ("make", "message"),
    [
        (lambda: PIPE.but(bore=0.0), r"\.bore: must be above 0"),
        (lambda: PIPE.but(length=-1.0), r"\.length: must be at least 0"),
        (lambda: PIPE.but(sum_k=float("nan")), r"\.sum_k: must be at least 0"),
        (lambda: Device(name="valve", flow=0.0), r"\.flow: must be above 0"),
        (lambda: Device(name="valve", flow=1.0, pressure=0.0), r"\.pressure: must be above 0"),
        (lambda: Device(name="valve", flow=1.0, opening=0.1), r"only a one-way device .* got 0.1 bar"),
        (lambda: fitting_k("knot"), "no loss is known for a fitting of kind 'knot'; known are elbow,"),
        (lambda: change_k(0.0, 10.0), "bores must be above 0 mm, got 0 and 10"),
        (lambda: water(101.0), "water must be between 0 and 100 °C, got 101"),
        (lambda: water(float("nan")), "water must be between 0 and 100 °C, got nan"),
    ],
)
def test_impossible_pieces_are_refused(make: object, message: str) -> None:
    assert callable(make)
    with pytest.raises(ValueError, match=message):
        make()


def test_change_of_bore_is_the_reference_librarys() -> None:
    # reference library fluids 1.3.1, both for the velocity in the narrower pipe; 13.6 to 20.2: 0.299
    assert change_k(13.6, 20.2) == pytest.approx(0.299, abs=5e-4)
    assert change_k(13.6, 20.2) == pytest.approx(diffuser_sharp(0.0136, 0.0202), rel=1e-9)
    assert change_k(20.2, 13.6) == pytest.approx(contraction_sharp(0.0202, 0.0136), rel=1e-9)
    assert change_k(13.6, 13.6) == pytest.approx(0.0, abs=1e-12)


def test_a_pulled_bend_is_the_reference_librarys() -> None:
    # reference library fluids 1.3.1: 15 mm copper, 90 degrees, radius 4 diameters = 60 mm, 0.2 l/s at 10 C
    k = bend_rounded(Di=0.0136, angle=90, rc=0.060, roughness=1.5e-6, Re=14_340)
    assert fitting_k("bend") == pytest.approx(k, abs=0.03)


def test_an_elbow_is_its_equivalent_length() -> None:
    # 0.5 m of 15 mm at 0.2 l/s, friction factor 0.02833: 0.02833 x 500 / 13.6 = 1.0415
    assert equivalent_k(500, 13.6, 0.02833) == pytest.approx(1.0415, abs=1e-4)
    assert fitting_k("elbow") == pytest.approx(1.0415, abs=0.01)


def test_every_fitting_has_a_source() -> None:
    for kind, fitting in FITTING_LOSSES.items():
        assert fitting.k >= 0, kind
        assert fitting.source.document, kind
        assert fitting.title, kind
