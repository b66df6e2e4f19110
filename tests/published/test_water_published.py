"""Water against reference libraries and handbooks; each row names its source and its status."""

import pytest
from iapws import IAPWS95

from geometry.supply.water import density, heat_capacity, viscosity

# reference library iapws, IAPWS-95 at 0.3 MPa, a usual house pressure (status: published formulation)
CELSIUS = [*range(1, 81)]


@pytest.mark.parametrize("celsius", CELSIUS)
def test_water_keeps_to_the_reference_formulation(celsius: int) -> None:
    held = IAPWS95(T=celsius + 273.15, P=0.3)
    assert density(celsius) == pytest.approx(held.rho, rel=1e-3)
    assert viscosity(celsius) == pytest.approx(held.mu, rel=1e-2)
    assert heat_capacity(celsius) == pytest.approx(1000 * held.cp, rel=1e-3)


# what the module's own docstring promises, which is closer than a shower needs
@pytest.mark.parametrize("celsius", [1, 10, 25, 38, 41, 60, 80])
def test_water_is_as_close_as_the_module_says(celsius: int) -> None:
    held = IAPWS95(T=celsius + 273.15, P=0.3)
    assert density(celsius) == pytest.approx(held.rho, rel=1.1e-4)
    assert viscosity(celsius) == pytest.approx(held.mu, rel=3e-4)
    assert heat_capacity(celsius) == pytest.approx(1000 * held.cp, rel=8e-4)


# found (two public pages agree): www1.lsbu.ac.uk/water/data1.html and MWH Table C-1, at 0.1 MPa;
# Celsius, kg/m3, mPa s; the last digit of each is rounded
HANDBOOK = [(10, 999.7, 1.307), (20, 998.2, 1.002), (40, 992.2, 0.653), (60, 983.2, 0.4665)]


@pytest.mark.parametrize(("celsius", "rho", "mu"), HANDBOOK)
def test_handbook_rows(celsius: float, rho: float, mu: float) -> None:
    assert density(celsius) == pytest.approx(rho, abs=0.06)
    assert 1000 * viscosity(celsius) == pytest.approx(mu, abs=1.5e-3)


# computed (status: reference library): IAPWS SR6-08's own viscosity at 25 and 38 C, mPa s
@pytest.mark.parametrize(("celsius", "mu"), [(25, 0.890), (38, 0.678)])
def test_viscosity_at_room_and_shower_temperature(celsius: float, mu: float) -> None:
    assert 1000 * viscosity(celsius) == pytest.approx(mu, abs=6e-4)
