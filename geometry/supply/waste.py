"""Where the water goes: what a waste pipe carries at its fall, and the air gap over where it spills.

mm, mm per metre of fall, l/min.
"""

import math

from geometry.supply.loss import GRAVITY
from geometry.supply.water import water

USUAL_ROUGHNESS = 1.0
"""mm, of a waste pipe in use; EN 12056-2 Annex B, from memory: verify."""
WASTE_TEMPERATURE = 38.0
"""Celsius; what a shower leaves."""


def fall_per_metre(drop: float, length: float) -> float:
    """Return the fall in mm per metre of a waste that drops `drop` mm over `length` mm.

    Raises:
        ValueError: the length is not above zero.
    """
    if not length > 0.0:
        raise ValueError(f"a waste's fall needs a length above 0 mm, got {length:g}")
    return 1000.0 * drop / length


def waste_capacity(
    bore: float, fall: float, filled: float = 0.5, roughness: float = USUAL_ROUGHNESS
) -> float:
    """Return the l/min that a waste pipe carries running part full, steadily and with air above.

    Colebrook's equation with the hydraulic diameter, solved for the velocity. The trap and the grating often
    carry less: their maker's figure is the other limit.

    Args:
        bore: inside diameter in mm.
        fall: in mm per metre, above zero.
        filled: depth of the water over the bore, above 0 and at most 1.
        roughness: of the pipe in use, in mm.

    Raises:
        ValueError: a value lies outside its bounds.
    """
    if not (bore > 0.0 and fall > 0.0 and 0.0 < filled <= 1.0 and roughness >= 0.0):
        raise ValueError(
            "a waste needs a bore and a fall above 0, filled above 0 to 1, and a roughness of 0 or more;"
            f" got {bore:g} mm, {fall:g} mm/m, {filled:g}, {roughness:g} mm"
        )
    wide = bore / 1000.0
    angle = 2.0 * math.acos(1.0 - 2.0 * filled)  # of the wetted arc
    area = wide**2 / 8.0 * (angle - math.sin(angle))
    across = 4.0 * area / (wide / 2.0 * angle)  # hydraulic diameter, m
    held = water(WASTE_TEMPERATURE)
    pull = math.sqrt(2.0 * GRAVITY * across * fall / 1000.0)
    smooth = 2.51 * held.viscosity / held.density / (across * pull)
    speed = -2.0 * pull * math.log10(roughness / 1000.0 / (3.71 * across) + smooth)
    return area * speed * 60_000.0


def least_air_gap(bore: float) -> float:
    """Return the air gap in mm that must stay between an outlet and the spill-over level below it.

    Type AUK3: 20 mm or twice the inlet's bore, whichever is more (Water Regulations guidance on air gaps).
    """
    return max(20.0, 2.0 * bore)
