"""The water of a house and who uses it."""

from functools import cache
from typing import get_args

from hypothesis import strategies as st

from geometry.model import Branch, House, Reading, Supply, Upstream
from geometry.model.house import Backflow, Isolation, User
from geometry.parts.records import TubePart
from tests.strategies.values import part_ids, perhaps, tenths


@cache
def supplies() -> st.SearchStrategy[Supply]:
    """Draw what was measured at a house."""
    reading = st.builds(Reading, pressure=tenths(0, 0.4), flow=tenths(1, 30))
    stretch = st.builds(Upstream, tube=part_ids(TubePart), length=tenths(100, 9000))
    branch = st.builds(
        Branch,
        static=tenths(0.5, 8),
        readings=st.lists(reading, max_size=2).map(tuple),
        temperature=tenths(5, 65),
        upstream=st.lists(stretch, max_size=2).map(tuple),
    )
    sources = st.sampled_from(("instant_heater", "stored_mains", "stored_gravity", "boosted"))
    return st.builds(Supply, cold=branch, hot=branch, source=sources, heater_kw=perhaps(3, 40))


@cache
def houses() -> st.SearchStrategy[House]:
    """Draw who uses the shower and how its water is protected."""
    return st.builds(
        House,
        dwelling=st.booleans(),
        users=st.lists(st.sampled_from(get_args(User)), min_size=1, unique=True).map(tuple),
        backflow=st.sampled_from(get_args(Backflow)),
        isolation=st.sampled_from(get_args(Isolation)),
    )
