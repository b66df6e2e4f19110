"""Liquid water between 0 and 100 C at house pressures: density, viscosity, heat capacity.

SI units: kg/m3, Pa s, J/(kg K); temperatures in Celsius. The formulas are for 0.1 MPa; at 0.3 MPa water is
0.01 % denser and all else the same within their own error. Between 1 and 80 C they keep to IAPWS-95 at
0.3 MPa within 0.011 % (density), 0.03 % (viscosity) and 0.08 % (heat capacity).
"""

import math
from functools import lru_cache
from typing import NamedTuple

COLDEST, HOTTEST = 0.0, 100.0
"""Celsius; the formulas are not asked outside this."""


class Water(NamedTuple):
    """Water at one temperature."""

    density: float
    """kg/m3."""
    viscosity: float
    """Dynamic, Pa s."""


@lru_cache(maxsize=256)
def water(temperature: float) -> Water:
    """Return water at a temperature in Celsius.

    Raises:
        ValueError: the temperature is not between 0 and 100 C.
    """
    if not COLDEST <= temperature <= HOTTEST:
        raise ValueError(f"water must be between 0 and 100 °C, got {temperature:g}")
    return Water(density(temperature), viscosity(temperature))


def density(t: float) -> float:
    """Return the density in kg/m3 at t Celsius.

    Source: Kell, Journal of Chemical and Engineering Data 20 (1975) 97, equation 16.
    """
    above = 999.83952 + t * (
        16.945176 + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12)))
    )
    return above / (1.0 + 16.879850e-3 * t)


def viscosity(t: float) -> float:
    """Return the dynamic viscosity in Pa s at t Celsius.

    Source: IAPWS SR6-08, properties of liquid water at 0.1 MPa, viscosity equation.
    """
    r = (t + 273.15) / 300.0
    thick: float = 280.68 * r**-1.9 + 511.45 * r**-7.7 + 61.131 * r**-19.6 + 0.45903 * r**-40.0
    return 1e-6 * thick


def heat_capacity(t: float) -> float:
    """Return the heat capacity at constant pressure in J/(kg K) at t Celsius.

    Source: Popiel and Wojtkowiak, Heat Transfer Engineering 19 (1998) 87, for 0 to 150 C.
    """
    root = math.sqrt(t)
    return 1e3 * (
        4.2174356 + t * (-0.0056181625 + root * (0.0012992528 + root * (-0.00011535353 + root * 4.14964e-6)))
    )
