"""Where to start the tiles: the starts that earn the most points, ranked, each with its reasons.

Every whole millimetre of a start is tried, and the places that put a centre exactly on the middle of a tile
or joint, all at once: fast enough to follow a drag. Moving all fittings together by a little can be allowed.
"""

from collections.abc import Iterator
from typing import NamedTuple

import numpy as np

from geometry.arrays import Floats, Indices
from geometry.model import XY, Tiling
from geometry.plan import Plan
from geometry.tiling.herringbone import Band, apart, band
from geometry.tiling.score import cuts, lies, points, symmetric, touched
from geometry.tiling.setting import Setting, setting_of, targets_of
from geometry.units import on_grid, shown

STEPS = 5
"""Places tried on each axis, from one end of a tolerance to the other."""
MOVE = 0.5
"""Points that each mm costs by which the fittings would be moved."""
APART = 0.1
"""Of a tile and joint: starts nearer to each other are one proposal."""


class Start(NamedTuple):
    """One proposal: the lower left corner of the first tile, what it earns, and why."""

    x: float
    y: float
    points: float
    narrowest: float
    """What is left of a tile at the edge that leaves least, in mm; a pier narrower than that stays one."""
    reasons: tuple[str, ...]
    move: XY = (0.0, 0.0)
    """By how much all fittings are to be moved; nothing unless that was allowed."""


def best_starts(plan: Plan, *, many: int = 5, tolerance: float = 0.0) -> tuple[Start, ...]:
    """Return the best starts, the best one first; none if every start brings a hole too near to an edge.

    Args:
        plan: the job with its parts.
        many: proposals at most.
        tolerance: by how much all fittings may be moved together, either way along and up, in mm.

    Raises:
        ValueError: nothing is tiled.
    """
    tiling = plan.job.finish.tiling
    if tiling is not None and tiling.bond == "herringbone":
        return _of_herringbone(plan, tiling, many, tolerance)
    held = setting_of(plan)
    along, up = offsets(held, along=True), offsets(held, along=False)
    moves = sorted(_moves(tolerance), key=lambda move: abs(move[0]) + abs(move[1]))
    best = np.full((len(along), len(up)), -np.inf)
    which = np.zeros(best.shape, dtype=np.int64)
    for index, move in enumerate(moves):
        cost = MOVE * (abs(move[0]) + abs(move[1]))
        earned = points(moved(held, move), along, up) - cost
        better = earned > best
        best[better], which[better] = earned[better], index
    found: list[Start] = []
    while len(found) < many and np.isfinite(best).any():
        i, j = np.unravel_index(int(np.argmax(best)), best.shape)
        a, b = float(along[i]), float(up[j])
        found.append(_start(held, a, b, float(best[i, j]), moves[int(which[i, j])]))
        best[np.ix_(_beside(along, a, held, along=True), _beside(up, b, held, along=False))] = -np.inf
    return tuple(found)


def _of_herringbone(plan: Plan, tiling: Tiling, many: int, tolerance: float) -> tuple[Start, ...]:
    moves = sorted(_moves(tolerance), key=lambda move: abs(move[0]) + abs(move[1]))
    held = band(plan, moves[0])
    x, y, best = held.x, held.y, held.points
    which = np.zeros(best.shape, dtype=np.int64)
    for index, move in enumerate(moves[1:], 1):
        earned = band(plan, move).points - MOVE * (abs(move[0]) + abs(move[1]))
        better = earned > best
        best[better], which[better] = earned[better], index
    found: list[Start] = []
    while len(found) < many and np.isfinite(best).any():
        i, j = (int(index) for index in np.unravel_index(int(np.argmax(best)), best.shape))
        move = moves[int(which[i, j])]
        held = held if move == held.move else band(plan, move)
        points, narrowest = round(float(best[i, j]), 1), float(held.narrowest[i, j])
        reasons = tuple(_reasons_in(plan, held, i, j))
        found.append(Start(float(x[i]), float(y[j]), points, narrowest, reasons, move))
        off = apart(tiling, (x - x[i])[:, None], (y - y[j])[None, :])
        best[off <= APART * min(tiling.wide, tiling.high)] = -np.inf
    return tuple(found)


def _reasons_in(plan: Plan, held: Band, i: int, j: int) -> Iterator[str]:
    """Go through the reasons for one start of a herringbone."""
    yield f"{shown(float(held.narrowest[i, j]))} mm or more of a tile at every edge"
    owners = [target.owner for target in targets_of(plan)]
    middle = (owner for owner, on in zip(owners, held.centred, strict=True) if on[i, j] > 0)
    yield from (f"{owner} on the middle of a tile" for owner in dict.fromkeys(middle))
    split = dict.fromkeys(owner for owner, is_split in zip(owners, held.split, strict=True) if is_split[i, j])
    yield f"across a joint: {', '.join(split)}" if split else "every hole clear of the joints"


def offsets(setting: Setting, *, along: bool, exact: bool = True) -> Floats:
    """Return the starts that are tried on one axis: every mm of a tile and joint, and exact middles."""
    size, pitch = (setting.along if along else setting.up), setting.pitch(along=along)
    whole = np.arange(0.0, pitch)
    if not exact:
        return whole
    middles = [setting.centre] if setting.centre is not None and along == setting.rows_up else []
    for target in setting.targets:
        if along and target.centred_along:
            middles += [target.along - moved for moved in setting.shifts]
        elif not along and target.centred_up:
            middles.append(target.up)
    exactly = [on_grid((at - off) % pitch) for at in middles for off in (size / 2, -setting.joint / 2)]
    return np.array(sorted({*whole.tolist(), *exactly}))


def moved(setting: Setting, move: XY) -> Setting:
    """Return the setting with all holes elsewhere; `move` is along and up the rows."""
    if move == (0.0, 0.0):
        return setting
    return setting._replace(
        targets=tuple(
            target._replace(along=target.along + move[0], up=target.up + move[1])
            for target in setting.targets
        )
    )


def _moves(tolerance: float) -> list[XY]:
    if tolerance <= 0:
        return [(0.0, 0.0)]
    steps = [on_grid(step) for step in np.linspace(-tolerance, tolerance, STEPS).tolist()]
    return [(a, b) for a in steps for b in steps]


def _beside(starts: Floats, at: float, setting: Setting, *, along: bool) -> Indices:
    pitch = setting.pitch(along=along)
    off = np.abs(starts - at)
    return np.flatnonzero(np.minimum(off, pitch - off) <= APART * pitch)


def _start(held: Setting, along: float, up: float, earned: float, move: XY) -> Start:
    setting = moved(held, move)
    one, other = np.array([along]), np.array([up])
    size_along = cuts(setting.edges_along, setting.along, setting.pitch(along=True), one, setting.shifts)
    size_up = cuts(setting.edges_up, setting.up, setting.pitch(along=False), other, (0.0,))
    narrowest = float(min(size_along[0], size_up[0]))
    x, y = (along, up) if setting.rows_up else (up, along)
    shifted = move if setting.rows_up else (move[1], move[0])
    reasons = tuple(_reasons(setting, one, other, narrowest))
    return Start(on_grid(x), on_grid(y), round(earned, 1), narrowest, reasons, shifted)


def _reasons(setting: Setting, along: Floats, up: Floats, narrowest: float) -> list[str]:
    found = [f"{shown(narrowest)} mm or more of a tile at every edge"]
    if symmetric(setting, along if setting.rows_up else up, along=setting.rows_up)[0]:
        found.append("alike on both sides of the centre line")
    centred: dict[str, list[str]] = {}
    across: list[str] = []
    ways = ("across", "up") if setting.rows_up else ("up", "across")
    for target in setting.targets:
        rows = [moved for row, moved in enumerate(setting.shifts) if touched(setting, target, up, row)[0]]
        held = [
            lies(setting, target.along - moved, target.radius, False, along, along=True) for moved in rows
        ]
        own = lies(setting, target.up, target.radius, False, up, along=False)
        if target.centred_along and held and all(one.centred[0] for one in held):
            centred.setdefault(target.owner, []).append(ways[0])
        if target.centred_up and own.centred[0]:
            centred.setdefault(target.owner, []).append(ways[1])
        if own.across[0] or any(one.across[0] for one in held):
            across.append(target.owner)
    for owner, axes in centred.items():
        found.append(f"{owner} on the middle of a tile or joint, {' and '.join(sorted(set(axes)))}")
    if across:
        found.append(f"across a joint, off its middle: {', '.join(dict.fromkeys(across))}")
    else:
        found.append("every hole clear of the joints or on the middle of one")
    return found
