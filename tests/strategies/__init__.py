"""Hypothesis strategies for valid jobs on the model's 0.1 mm grid, with the generic parts.

`jobs()` draws a whole job that a Plan accepts. Its sense on a wall is not promised: fittings may overlap
and pipes may cross, since checks and drawings must bear that too. A strategy that is made anew for every
example is slow, so they are made once, and plain functions that take `draw` put together what they draw.
"""

from tests.strategies.job import jobs
from tests.strategies.values import tenths

__all__ = ["jobs", "tenths"]
