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
from functools import lru_cache, wraps
from typing import Any, Concatenate, Generic, ParamSpec, TypeVar, cast

from geometry.finding import Finding
from geometry.plan import Plan

T = TypeVar("T")
P = ParamSpec("P")
Check = Callable[[Plan], Iterator[Finding]]
KEPT = 3
"""Outcomes kept of each check: enough to go back and forth over a step or two."""
MOST_ARGUMENTS = 256
"""So many arguments of one part are told apart, the last ones."""
_Read = tuple[tuple[str, ...], tuple[Any, ...] | None]
"""An attribute such as `job`, `wall`, and the arguments if it was called."""
_Reads = dict[_Read, Any]


class Memory(Generic[T]):
    """What one check, or a part of one, said last, and what it had read."""

    def __init__(self, run: Callable[..., Iterable[T]]) -> None:
        self._run = run

        @lru_cache(maxsize=MOST_ARGUMENTS)
        def kept(*_arguments: object) -> deque[tuple[_Reads, tuple[T, ...]]]:
            return deque(maxlen=KEPT)

        self._kept = kept

    def findings(self, plan: Plan, *arguments: object) -> tuple[T, ...]:
        """Return what is said of a plan, from memory if nothing that was read for it has changed."""
        watched = plan if isinstance(plan, _Watched) else None
        held = plan if watched is None else watched.held_plan
        kept = self._kept(*arguments)
        reads, said = next((one for one in kept if _holds(held, one[0])), (None, ()))
        if reads is None:
            reads = {}
            said = tuple(self._run(cast("Plan", _Watched(held, (), reads)), *arguments))
            kept.appendleft((reads, said))
        if watched is not None:
            watched.noted_reads.update(reads)
        return said


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

    def __init__(self, held: Any, path: tuple[str, ...], reads: _Reads) -> None:
        self.held_plan, self._path, self.noted_reads = held, path, reads

    def __getattr__(self, name: str) -> Any:
        path, value = (*self._path, name), getattr(self.held_plan, name)
        if path == ("job",):
            value = _Watched(value, path, self.noted_reads)
        elif callable(value):
            value = self._call(path, value)
        else:
            self.noted_reads[path, None] = value
        setattr(self, name, value)
        return value

    def _call(self, path: tuple[str, ...], method: Callable[..., Any]) -> Callable[..., Any]:
        def called(*arguments: Any) -> Any:
            result = method(*arguments)
            self.noted_reads[path, arguments] = result
            return result

        return called


def _holds(plan: Plan, reads: _Reads) -> bool:
    """Make all reads that were noted on another plan again, and return whether each gives an equal value.

    What fails now differs from what was read then.
    """
    for (path, arguments), value in reads.items():
        now: Any = plan
        try:
            for name in path:
                now = getattr(now, name)
            if arguments is not None:
                now = now(*arguments)
        except (LookupError, ValueError):
            return False
        if now is not value and now != value:
            return False
    return True
