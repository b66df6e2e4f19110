"""Thread sizes against ISO 228-1 and copper tubes against EN 1057, as public tables give them.

ISO 228-1 defines its threads in inches: the rows are such tables in inch and threads per inch, and again
in mm. The EN 1057 rows are the combinations usual in the UK, read from industry sheets and not from the
standard itself: verify before relying on a wall that is not listed here.
"""

from typing import get_args

import pytest

from geometry.parts.catalogue import generic_parts
from geometry.parts.records import Thread, TubePart
from geometry.parts.threads import THREADS

INCH_ROWS = [
    # thread, major and minor diameter in inches, threads per inch; G1 in inches from memory: verify
    ("G3/8", 0.6560, 0.5886, 19),
    ("G1/2", 0.8250, 0.7335, 14),
    ("G3/4", 1.0410, 0.9495, 14),
    ("G1", 1.3090, 1.1926, 11),
]
MM_ROWS = [
    # thread, major diameter and pitch in mm
    ("G3/8", 16.662, 1.337),
    ("G1/2", 20.955, 1.814),
    ("G3/4", 26.441, 1.814),
    ("G1", 33.249, 2.309),
]


@pytest.mark.parametrize(("name", "major", "minor", "per_inch"), INCH_ROWS)
def test_thread_in_inches(name: Thread, major: float, minor: float, per_inch: int) -> None:
    size = THREADS[name]
    assert size.major == pytest.approx(major * 25.4, abs=0.0015)  # four decimals of an inch
    assert size.minor == pytest.approx(minor * 25.4, abs=0.0015)
    assert size.per_inch == per_inch


@pytest.mark.parametrize(("name", "major", "pitch"), MM_ROWS)
def test_thread_in_mm(name: Thread, major: float, pitch: float) -> None:
    assert (THREADS[name].major, THREADS[name].pitch) == (major, pitch)


@pytest.mark.parametrize("name", get_args(Thread))
def test_depth_of_thread_is_that_of_the_whitworth_form(name: Thread) -> None:
    # ISO 228-1: 55 degrees, depth 0.640327 of the pitch on each side; sizes are rounded to 0.001 mm
    size = THREADS[name]
    assert size.major - size.minor == pytest.approx(2 * 0.640327 * 25.4 / size.per_inch, abs=0.002)


@pytest.mark.parametrize(
    ("tube", "outside", "wall", "bore"),
    [
        # EN 1057: outside and wall; the bore is the one less twice the other
        ("copper-10", 10, 0.7, 8.6),
        ("copper-15", 15, 0.7, 13.6),
        ("copper-22", 22, 0.9, 20.2),
        ("copper-28", 28, 0.9, 26.2),
    ],
)
def test_copper_tube(tube: str, outside: float, wall: float, bore: float) -> None:
    part = generic_parts().find(tube, TubePart)
    assert (part.outside, part.wall) == (outside, wall)
    assert part.bore == pytest.approx(bore, abs=1e-9)


@pytest.mark.parametrize(
    ("tube", "litres_a_metre"),
    [("copper-10", 0.0581), ("copper-15", 0.1453), ("copper-22", 0.3205), ("copper-28", 0.5391)],
)
def test_content_of_copper_tube(tube: str, litres_a_metre: float) -> None:
    # water per metre from a trade table of EN 1057 sizes: pi / 4 x bore^2 in mm2 / 1000
    bore = generic_parts().find(tube, TubePart).bore
    assert 3.14159265 / 4 * bore**2 / 1000 == pytest.approx(litres_a_metre, abs=0.00006)
