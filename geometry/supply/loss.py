"""Pressure lost along pipes and through devices, and the velocity in them.

Darcy and Weisbach: loss = (friction factor x length / bore + sum of K) x density x velocity squared / 2.
Bar, mm, l/min and Celsius outside; inside `Path` the flow is kg/s, since mass is what a branch keeps.
Pressures are total pressures: velocity pressure is not taken out, it is lost where the water leaves.
"""

import math
from collections.abc import Sequence

from geometry.supply.friction import friction_factor, uncertain
from geometry.supply.pieces import Device, Piece, Pump, Stretch
from geometry.supply.water import water

GRAVITY = 9.80665
"""m/s2, standard value."""
PASCAL = 1e-5
"""bar."""


def mass_flow(litres: float, temperature: float) -> float:
    """Return kg/s for l/min of water at a temperature in Celsius."""
    return litres * water(temperature).density / 60_000.0


def litre_flow(mass: float, temperature: float) -> float:
    """Return l/min for kg/s of water at a temperature in Celsius."""
    return mass * 60_000.0 / water(temperature).density


def velocity(litres: float, bore: float) -> float:
    """Return the mean velocity in m/s of a flow in l/min through a bore in mm."""
    return litres / 60_000.0 / (math.pi / 4.0 * (bore / 1000.0) ** 2)


def reynolds(litres: float, bore: float, temperature: float) -> float:
    """Return the Reynolds number of a flow in l/min through a bore in mm at a temperature in Celsius."""
    held = water(temperature)
    return velocity(litres, bore) * bore / 1000.0 * held.density / held.viscosity


def head(height: float, temperature: float) -> float:
    """Return the pressure in bar of a column of water `height` mm high."""
    return height / 1000.0 * water(temperature).density * GRAVITY * PASCAL


def piece_loss(piece: Piece, litres: float, temperature: float) -> float:
    """Return the pressure in bar that one piece takes at a flow in l/min; heights are not counted.

    A pump gives, so its loss is negative; so is any loss of a flow that runs backwards.
    """
    path = Path((piece,), temperature)
    return path.needs(mass_flow(litres, temperature)) - path.lift


def in_transition(piece: Piece, litres: float, temperature: float) -> bool:
    """Return whether a piece is a pipe in which the flow is neither laminar nor turbulent for certain."""
    return isinstance(piece, Stretch) and uncertain(reynolds(abs(litres), piece.bore, temperature))


class Path:
    """Pieces one after the other at one temperature, made ready to be asked for many flows.

    Pipes of one bore and roughness are taken together, whatever their order: their friction factor is the
    same, since the same water passes through all of them.
    """

    __slots__ = ("_pipes", "lift", "one_way", "opening", "square")

    def __init__(self, pieces: Sequence[Piece], temperature: float) -> None:
        held = water(temperature)
        litres_per_mass = 60_000.0 / held.density
        self.square = 0.0
        """bar per (kg/s) squared of everything but pipes."""
        self.opening = 0.0
        """bar that must be there before anything flows forward; negative where a pump gives it."""
        self.one_way = False
        rise = 0.0
        pipes: dict[tuple[float, float], tuple[float, float]] = {}
        for piece in pieces:
            if isinstance(piece, Stretch):
                rise += piece.rise
                key = piece.bore, piece.roughness
                length, k = pipes.get(key, (0.0, 0.0))
                pipes[key] = length + piece.length + piece.extra_length, k + piece.sum_k
            else:
                sign = -1.0 if isinstance(piece, Pump) else 1.0
                self.square += piece.pressure * (litres_per_mass / piece.flow) ** 2
                self.opening += piece.opening if isinstance(piece, Device) else sign * piece.pressure
                self.one_way |= isinstance(piece, Pump) or piece.one_way
        self.lift = head(rise, temperature)
        """bar from the height of the end over the start."""
        self._pipes = tuple(
            _pipe(bore, rough, length, k, held.density, held.viscosity)
            for (bore, rough), (length, k) in pipes.items()
        )

    def friction(self, mass: float) -> float:
        """Return the loss in bar at a flow in kg/s, and with its sign; no height, no opening pressure."""
        size = abs(mass)
        if size == 0.0:
            return 0.0
        factor = self.square
        for per_mass, relative, length, k, dynamic in self._pipes:
            factor += dynamic * (friction_factor(size * per_mass, relative) * length + k)
        return factor * mass * size

    def needs(self, mass: float) -> float:
        """Return the pressure in bar by which the start must exceed the end for a flow in kg/s."""
        rest = self.lift + (self.opening if mass >= 0.0 else 0.0)
        return rest + self.friction(mass)


def _pipe(
    bore: float, roughness: float, length: float, k: float, density: float, viscosity: float
) -> tuple[float, float, float, float, float]:
    """Return one pipe for `friction`.

    Returns:
        Reynolds number per kg/s, roughness / bore, length / bore, K, velocity pressure per (kg/s) squared.
    """
    wide = bore / 1000.0
    area = math.pi / 4.0 * wide**2
    per_mass = wide / (area * viscosity)
    return per_mass, roughness / bore, length / bore, k, PASCAL / (2.0 * density * area**2)
