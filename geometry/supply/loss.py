"""Pressure lost along pipes and through devices, and the velocity in them.

Darcy and Weisbach: loss = (friction factor x length / bore + sum of K) x density x velocity squared / 2.
Bar, mm, l/min and Celsius outside; inside `Path` the flow is kg/s, since mass is what a branch keeps.
Pressures are total pressures: velocity pressure is not taken out, it is lost where the water leaves.
"""

import math
from collections.abc import Callable
from functools import lru_cache
from typing import NamedTuple

from geometry.supply.friction import bore_wall, uncertain
from geometry.supply.pieces import Device, Piece, Pump, Stretch
from geometry.supply.rounds import Parabola
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
    return _column(height, water(temperature).density)


def _column(height: float, density: float) -> float:
    return height / 1000.0 * density * GRAVITY * PASCAL


def piece_loss(piece: Piece, litres: float, temperature: float) -> float:
    """Return the pressure in bar that one piece takes at a flow in l/min; heights are not counted.

    A pump gives, so its loss is negative; so is any loss of a flow that runs backwards.
    """
    return Path((piece,), temperature).loses(mass_flow(litres, temperature))


class Path:
    """Pieces one after the other at one temperature, made ready to be asked for many flows.

    Pipes of one bore and roughness are taken together, whatever their order: their friction factor is the
    same, since the same water passes through all of them.
    """

    __slots__ = (
        "_fixed", "_line", "_per_mass", "_pipes", "_thin", "density", "lift", "one_way", "square", "start",
    )  # fmt: skip

    def __init__(self, pieces: tuple[Piece, ...], temperature: float) -> None:
        self._prepare(_line(pieces), temperature)

    def _prepare(self, line: "_Line", temperature: float) -> None:
        density, viscosity, _ = water(temperature)
        self._line, self._pipes, self.density = line, line.pipes, density
        self._thin, self._per_mass = 1.0 / density, 1.0 / viscosity
        self.square = line.devices * (60_000.0 / density) ** 2
        """bar per (kg/s) squared of everything but pipes."""
        self._fixed = self.square + line.fittings * self._thin
        self.one_way = line.one_way
        self.lift = _column(line.rise, density)
        """bar from the height of the end over the start."""
        self.start = self.lift + line.opening
        """bar that must be there before anything flows forward."""

    def at(self, temperature: float) -> "Path":
        """Return the same way with water at another temperature."""
        path = Path.__new__(Path)
        path._prepare(self._line, temperature)
        return path

    def friction(self, mass: float) -> float:
        """Return the loss in bar at a flow in kg/s, and with its sign; no height, no opening pressure."""
        size = abs(mass)
        if size == 0.0:
            return 0.0
        scale, straight = size * self._per_mass, 0.0
        for reynolds, touching, taken in self._pipes:
            straight += touching(reynolds * scale)[0] * taken
        return (self._fixed + straight * self._thin) * mass * size

    def needs(self, mass: float) -> float:
        """Return the pressure in bar by which the start must exceed the end for a flow in kg/s."""
        return (self.start if mass >= 0.0 else self.lift) + self.friction(mass)

    def loses(self, mass: float) -> float:
        """Return the part in bar of what a flow in kg/s needs that is not height."""
        return self.needs(mass) - self.lift

    def in_transition(self, mass: float) -> bool:
        """Return whether a flow in kg/s is neither laminar nor turbulent for certain, in any of the pipes."""
        scale = abs(mass) * self._per_mass
        return any(uncertain(reynolds * scale) for reynolds, _, _ in self._pipes)

    def touching(self, mass: float) -> Parabola:
        """Return what the start must exceed the end by as a parabola that touches it at a flow above zero."""
        scale, straight, off = mass * self._per_mass, 0.0, 0.0
        for reynolds, touching, taken in self._pipes:
            factor, power = touching(reynolds * scale)
            straight += factor * taken
            off += 0.5 * power * factor * taken
        square = self._fixed + (straight + off) * self._thin
        return Parabola(self.start - off * self._thin * mass * mass, square)


class _Line(NamedTuple):
    """What pieces one after the other take, at any temperature."""

    devices: float
    """bar per (l/min) squared, of what is stated by its flow."""
    fittings: float
    """K, as `pipes` have it, of all pipes together."""
    pipes: tuple[tuple[float, Callable[[float], tuple[float, float]], float], ...]
    """Of each: Reynolds number x viscosity per kg/s, its friction factor and power by the Reynolds number,
    and bar x density per (kg/s) squared at a friction factor of 1."""
    opening: float
    """bar that must be there before anything flows forward; negative where a pump gives it."""
    one_way: bool
    rise: float
    """mm."""


@lru_cache(maxsize=512)
def _line(pieces: tuple[Piece, ...]) -> _Line:
    devices = fittings = opening = rise = 0.0
    one_way = False
    pipes: dict[tuple[float, float], float] = {}
    for piece in pieces:
        if isinstance(piece, Stretch):
            rise += piece.rise
            key = piece.bore, piece.roughness
            fittings += piece.sum_k * _dynamic(piece.bore)
            pipes[key] = pipes.get(key, 0.0) + piece.length + piece.extra_length
        else:
            sign = -1.0 if isinstance(piece, Pump) else 1.0
            devices += piece.pressure / piece.flow**2
            opening += piece.opening if isinstance(piece, Device) else sign * piece.pressure
            one_way |= isinstance(piece, Pump) or piece.one_way
    straight = tuple(
        (4000.0 / (math.pi * bore), bore_wall(rough / bore).touching, length / bore * _dynamic(bore))
        for (bore, rough), length in pipes.items()
    )
    return _Line(devices, fittings, straight, opening, one_way, rise)


def _dynamic(bore: float) -> float:
    """Return velocity pressure x density per (kg/s) squared, in bar, in a bore in mm."""
    return PASCAL / (2.0 * (math.pi / 4.0 * (bore / 1000.0) ** 2) ** 2)
