"""Remembering what a check said, for as long as nothing that it read has changed.

A check runs on a plan that notes what is read from it: an attribute of the plan or of its job with its
value, a call with its arguments and its result. On the next plan the noted reads are made again; if each
gives an equal value, the check would say the same, so it is not run. What is compared are the values
themselves, never names or times of change, so a check cannot be forgotten about.

A check is the sum of its parts. What is `remembered` has a memory of its own: where a check runs again, only
those of its parts run that have read something else than before.
"""

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from functools import cache, lru_cache, wraps
from operator import attrgetter
from typing import Any, Concatenate, Final, Generic, ParamSpec, TypeVar, cast

from geometry.finding import Finding
from geometry.plan import Plan

T = TypeVar("T")
P = ParamSpec("P")
Check = Callable[[Plan], Iterator[Finding]]
KEPT = 3
"""Outcomes kept of each check: enough to go back and forth over a step or two."""
MOST_ARGUMENTS = 256
"""So many arguments of one part are told apart, the last ones."""
_Read = tuple[Callable[[Plan], Any], tuple[Any, ...] | None]
"""What reads an attribute such as `job.wall`, and the arguments if that was called."""
_Reads = dict[_Read, Any]
_reader: Final = cache(attrgetter)
"""What reads an attribute, by its name with dots: one for each name, so that equal reads are the same."""


class _Outcome(Generic[T]):
    """What was said once, and all that had been read for it."""

    def __init__(self, reads: _Reads, said: tuple[T, ...]) -> None:
        self.reads, self.said = reads, said
        self._first: _Read | None = None

    def holds(self, plan: Plan) -> bool:
        """Return whether each read, made again on another plan, gives an equal value.

        What differed last is read first: while something is dragged, it is always the same.
        """
        first = self._first
        if first is not None and _differs(plan, first, self.reads[first]):
            return False
        for read, value in self.reads.items():
            if _differs(plan, read, value):
                self._first = read
                return False
        return True


def _differs(plan: Plan, read: _Read, value: object) -> bool:
    """Return whether a read gives another value now, or fails."""
    attribute, arguments = read
    try:
        now = attribute(plan)
        if arguments is not None:
            now = now(*arguments)
    except (LookupError, ValueError):
        return True
    return now is not value and bool(now != value)


class Memory(Generic[T]):
    """What one check, or a part of one, said last, and what it had read."""

    def __init__(self, run: Callable[..., Iterable[T]]) -> None:
        self._run = run

        @lru_cache(maxsize=MOST_ARGUMENTS)
        def kept(*_arguments: object) -> deque[_Outcome[T]]:
            return deque(maxlen=KEPT)

        self._kept = kept

    def findings(self, plan: Plan, *arguments: object) -> tuple[T, ...]:
        """Return what is said of a plan, from memory if nothing that was read for it has changed."""
        watched = plan if isinstance(plan, _Watched) else None
        held = plan if watched is None else watched.held_plan
        kept = self._kept(*arguments)
        outcome = next((one for one in kept if one.holds(held)), None)
        if outcome is None:
            reads: _Reads = {}
            said = tuple(self._run(cast("Plan", _Watched(held, "", reads)), *arguments))
            outcome = _Outcome(reads, said)
            kept.appendleft(outcome)
        if watched is not None:
            watched.noted_reads.update(outcome.reads)
        return outcome.said


def remembered(
    run: Callable[Concatenate[Plan, P], Iterable[T]],
) -> Callable[Concatenate[Plan, P], tuple[T, ...]]:
    """Give a part of a check a memory of its own, by its arguments, for as long as the check is watched.

    On a plan that nobody watches the part is run: what is asked for once is not kept.
    """
    memory = Memory[T](run)

    @wraps(run)
    def part(plan: Plan, *arguments: P.args, **_none: P.kwargs) -> tuple[T, ...]:
        if isinstance(plan, _Watched):
            return memory.findings(cast("Plan", plan), *arguments)
        return tuple(run(plan, *arguments, **_none))

    return cast("Callable[Concatenate[Plan, P], tuple[T, ...]]", part)


class _Watched:
    """Stands for a plan, or its job, and notes what is read from it, each thing the first time."""

    def __init__(self, held: Any, before: str, reads: _Reads) -> None:
        self.held_plan, self._before, self.noted_reads = held, before, reads

    def __getattr__(self, name: str) -> Any:
        called, value = self._before + name, getattr(self.held_plan, name)
        if called == "job":
            value = _Watched(value, "job.", self.noted_reads)
        elif callable(value):
            value = self._call(_reader(called), value)
        else:
            self.noted_reads[_reader(called), None] = value
        setattr(self, name, value)
        return value

    def _call(self, attribute: Callable[[Plan], Any], method: Callable[..., Any]) -> Callable[..., Any]:
        def called(*arguments: Any) -> Any:
            result = method(*arguments)
            self.noted_reads[attribute, arguments] = result
            return result

        return called
