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
    return _column(height) * water(temperature).density


def _column(height: float) -> float:
    """Return bar per kg/m3 of a column of anything `height` mm high."""
    return height / 1000.0 * GRAVITY * PASCAL


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

    __slots__ = ("_density", "_line", "_viscosity")

    def __init__(self, pieces: tuple[Piece, ...], temperature: float) -> None:
        self._line = _line(pieces)
        self._density, self._viscosity = water(temperature)

    def at(self, temperature: float) -> "Path":
        """Return the same way with water at another temperature."""
        path = Path.__new__(Path)
        path._line = self._line
        path._density, path._viscosity = water(temperature)
        return path

    @property
    def litres(self) -> float:
        """How many l/min a kg/s is."""
        return 60_000.0 / self._density

    @property
    def square(self) -> float:
        """What all but pipes take, in bar per (kg/s) squared."""
        return self._line.devices / self._density**2

    @property
    def one_way(self) -> bool:
        """Whether nothing runs backwards."""
        return self._line.one_way

    @property
    def lift(self) -> float:
        """The height of the end over the start, in bar."""
        return self._line.rise * self._density

    @property
    def start(self) -> float:
        """What must be there before anything flows forward, in bar."""
        return self._line.rise * self._density + self._line.opening

    def friction(self, mass: float) -> float:
        """Return the loss in bar at a flow in kg/s, and with its sign; no height, no opening pressure."""
        size = abs(mass)
        if size == 0.0:
            return 0.0
        line, density, scale = self._line, self._density, size / self._viscosity
        taken = line.fittings
        for reynolds, touching, straight in line.pipes:
            taken += touching(reynolds * scale)[0] * straight
        return (line.devices / density + taken) / density * mass * size

    def needs(self, mass: float) -> float:
        """Return the pressure in bar by which the start must exceed the end for a flow in kg/s."""
        line = self._line
        return line.rise * self._density + (line.opening if mass >= 0.0 else 0.0) + self.friction(mass)

    def loses(self, mass: float) -> float:
        """Return the part in bar of what a flow in kg/s needs that is not height."""
        return (self._line.opening if mass >= 0.0 else 0.0) + self.friction(mass)

    def in_transition(self, mass: float) -> bool:
        """Return whether a flow in kg/s is neither laminar nor turbulent for certain, in any of the pipes."""
        scale = abs(mass) / self._viscosity
        return any(uncertain(reynolds * scale) for reynolds, _, _ in self._line.pipes)

    def touching(self, mass: float) -> Parabola:
        """Return what the start must exceed the end by as a parabola that touches it at a flow in kg/s."""
        devices, fittings, pipes, opening, _, rise = self._line
        density, scale = self._density, abs(mass) / self._viscosity
        taken, off = devices / density + fittings, 0.0
        for reynolds, touching, straight in pipes:
            factor, power = touching(reynolds * scale)
            lost = factor * straight
            taken += lost
            off += power * lost
        off *= 0.5
        if mass < 0.0:
            return Parabola(rise * density + off / density * mass * mass, -(taken + off) / density)
        return Parabola(rise * density + opening - off / density * mass * mass, (taken + off) / density)


class _Line(NamedTuple):
    """What pieces one after the other take, at any temperature."""

    devices: float
    """bar x density squared per (kg/s) squared, of what is stated by its flow."""
    fittings: float
    """K, as `pipes` have it, of all pipes together."""
    pipes: tuple[tuple[float, Callable[[float], tuple[float, float]], float], ...]
    """Of each: Reynolds number x viscosity per kg/s, its friction factor and power by the Reynolds number,
    and bar x density per (kg/s) squared at a friction factor of 1."""
    opening: float
    """bar that must be there before anything flows forward; negative where a pump gives it."""
    one_way: bool
    rise: float
    """bar per kg/m3, of the height of the end over the start."""


@lru_cache(maxsize=512)
def _line(pieces: tuple[Piece, ...]) -> _Line:
    devices = fittings = opening = rise = 0.0
    one_way = False
    pipes: dict[tuple[float, float], float] = {}
    for piece in pieces:
        if isinstance(piece, Stretch):
            rise += _column(piece.rise)
            key = piece.bore, piece.roughness
            fittings += piece.sum_k * _dynamic(piece.bore)
            pipes[key] = pipes.get(key, 0.0) + piece.length + piece.extra_length
        else:
            sign = -1.0 if isinstance(piece, Pump) else 1.0
            devices += piece.pressure * (60_000.0 / piece.flow) ** 2
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
