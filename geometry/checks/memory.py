"""Remembering what a check said, for as long as nothing that it read has changed.

A check runs on a plan that notes what is read from it: an attribute of the plan or of its job with its
value, a call with its arguments and its result. On the next plan the noted reads are made again; if each
gives an equal value, the check would say the same, so it is not run. What is compared are the values
themselves, never names or times of change, so a check cannot be forgotten about.
"""

from collections import deque
from collections.abc import Callable, Iterator
from typing import Any, cast

from geometry.finding import Finding
from geometry.plan import Plan

Check = Callable[[Plan], Iterator[Finding]]
KEPT = 3
"""Outcomes kept of each check: enough to go back and forth over a step or two."""
_Read = tuple[str, tuple[Any, ...] | None]
"""An attribute such as `job.wall`, and the arguments if it was called."""


class Memory:
    """What one check said last, and what it had read."""

    def __init__(self, run: Check) -> None:
        self._run = run
        self._kept: deque[tuple[dict[_Read, Any], tuple[Finding, ...]]] = deque(maxlen=KEPT)

    def findings(self, plan: Plan) -> tuple[Finding, ...]:
        """Return what the check says of a plan, from memory if nothing that it read has changed."""
        for reads, said in self._kept:
            if all(_again(plan, read) == value for read, value in reads.items()):
                return said
        reads = {}
        said = tuple(self._run(cast("Plan", _Watched(plan, "", reads))))
        self._kept.appendleft((reads, said))
        return said


class _Watched:
    """Stands for a plan, or its job, and notes what is read from it."""

    def __init__(self, held: object, prefix: str, reads: dict[_Read, Any]) -> None:
        self._held, self._prefix, self._reads = held, prefix, reads

    def __getattr__(self, name: str) -> Any:
        path = self._prefix + name
        value = getattr(self._held, name)
        if path == "job":
            return _Watched(value, "job.", self._reads)
        if not callable(value):
            self._reads[path, None] = value
            return value

        def called(*arguments: Any) -> Any:
            result = value(*arguments)
            self._reads[path, arguments] = result
            return result

        return called


def _again(plan: Plan, read: _Read) -> Any:
    """Make a read that was noted on another plan; what fails now differs from what was read then."""
    path, arguments = read
    held: Any = plan
    try:
        for name in path.split("."):
            held = getattr(held, name)
        return held if arguments is None else held(*arguments)
    except (LookupError, ValueError) as problem:
        return problem
