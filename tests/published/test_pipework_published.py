"""Bends, a textbook's cut lengths, engagement lengths and clip spacings, as public sources give them.

What is marked "from memory" stands in standards that were not at hand: verify before relying on it.
"""

import pytest

from geometry.parts.catalogue import generic_parts
from geometry.parts.records import TubePart
from geometry.pipework.bends import arc, gain, radius
from geometry.pipework.clips import spacing
from geometry.pipework.joints import typical_joints


def tube(name: str) -> TubePart:
    return generic_parts().find(name, TubePart)


def test_a_textbooks_elbow_and_the_cut_it_makes() -> None:
    # City & Guilds, Plumbing Book 1, pages 148-149: centre of a 15 end-feed elbow to its stop 12 mm
    assert typical_joints().find(tube("copper-15"), "capillary").elbow == 12.0


def test_a_textbooks_pipe_of_four_bends() -> None:
    # the same pages: 888 + 890 + 350 + 450 + 488 = 3066 along the corners, each bend 21.5 less: cut 2980.
    # (2 - pi / 2) R = 21.5 makes its radius 50
    assert gain(50, 90) == pytest.approx(21.5, abs=0.05)
    assert 3066 - 4 * gain(50, 90) == pytest.approx(2980, abs=0.5)


@pytest.mark.parametrize(("name", "held", "taken"), [("copper-15", 60, 94.2), ("copper-22", 88, 138.2)])
def test_bends_of_four_diameters(name: str, held: float, taken: float) -> None:
    # the same book, pages 107-109: radius 60 and 88, tube in a square bend 94.2; 138.2 follows
    assert radius(tube(name)) == held
    assert arc(held, 90) == pytest.approx(taken, abs=0.05)


@pytest.mark.parametrize(("name", "held"), [("10", 7.8), ("15", 10.6), ("22", 15.4), ("28", 18.4)])
def test_least_engagement_of_capillary_joints(name: str, held: float) -> None:
    # EN 1254-1, from memory
    assert typical_joints().find(tube(f"copper-{name}"), "capillary").insertion >= held


@pytest.mark.parametrize(
    ("name", "level", "upright"),
    [
        # City & Guilds, Plumbing Book 1, table 2.36: polybutylene, metres
        ("barrier-15", 0.3, 0.5),
        ("barrier-22", 0.5, 0.8),
        # BS 8558 / BS EN 806-4 tables, from memory: copper
        ("copper-15", 1.2, 1.8),
        ("copper-22", 1.8, 2.4),
        ("copper-28", 1.8, 2.4),
    ],
)
def test_spacing_of_clips(name: str, level: float, upright: float) -> None:
    held = spacing(tube(name))
    assert (held.level, held.upright) == (level * 1000, upright * 1000)
