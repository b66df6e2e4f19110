"""Numbers on the model's grid, texts, names and ids of parts."""

from collections.abc import Iterator
from functools import cache
from itertools import count
from typing import Literal

from hypothesis import strategies as st

from geometry.parts.catalogue import generic_parts
from geometry.parts.records import Part

WORDS = ("head", "półka 2", "R&D <b>x</b>", "50%%c \\P", "راس", "[ 1, 2 ]", "淋浴", "Ünder 🚿 tap", "-7")
"""Titles, and styles of names but for their marks, that have harmed files and drawings."""
SIDES: st.SearchStrategy[Literal["left", "right"]] = st.sampled_from(("left", "right"))


@cache
def whole(low: int, high: int) -> st.SearchStrategy[int]:
    """Draw a whole number."""
    return st.integers(low, high)


@cache
def tenths(low: float, high: float) -> st.SearchStrategy[float]:
    """Draw a multiple of 0.1, as of a mm."""
    return st.integers(round(low * 10), round(high * 10)).map(lambda n: n / 10)


@cache
def perhaps(low: float, high: float) -> st.SearchStrategy[float | None]:
    """Draw a multiple of 0.1, or None."""
    return st.none() | tenths(low, high)


@cache
def texts() -> st.SearchStrategy[str]:
    """Draw a text of any script: as a title, it must come out as typed."""
    return st.sampled_from(WORDS) | st.text(st.characters(exclude_categories=("Cs", "Cc")), max_size=20)


@cache
def names() -> st.SearchStrategy[Iterator[str]]:
    """Draw an endless row of names, all different, of one style."""
    letters = st.characters(exclude_categories=("Cs", "Cc", "Zl", "Zp"), exclude_characters=".\"'/\\")
    words = st.sampled_from([word for word in WORDS if not set(word) & set("./\\")])
    styles = st.just("thing") | words | st.text(letters, max_size=8)
    return styles.map(lambda style: (f"{style}-{number}" for number in count(1)))


@cache
def part_ids(kind: type[Part]) -> st.SearchStrategy[str]:
    """Draw the id of a generic part of a kind."""
    return st.sampled_from([part.id for part in generic_parts() if isinstance(part, kind)])
