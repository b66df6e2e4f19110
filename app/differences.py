"""What differs between two jobs, in words, for somebody who must choose between them. Lengths are mm."""

from collections.abc import Iterator
from typing import Any

import msgspec

from geometry.edits.refs import things
from geometry.model import Job
from geometry.units import Display, shown

_CHOOSABLE = {"fittings", "hoses", "pipes", "services", "openings"}
"""Fields whose records are told one by one."""
_WORDS = {"make_up": "make-up", "x": "position from the left", "about": "title block", "house": "use"}


def differences(before: Job, after: Job, unit: Display = "mm") -> tuple[str, ...]:
    """Return one line for everything that is another in `after` than in `before`."""
    return (*_things(before, after, unit), *_rest(before, after, unit))


def _things(before: Job, after: Job, unit: Display) -> Iterator[str]:
    old, new = things(before), things(after)
    for ref, thing in new.items():
        if ref not in old:
            yield f"{ref.id}: added"
        elif type(thing) is not type(old[ref]):
            yield f"{ref.id}: is something else now"
        else:
            yield from _fields(ref.id, old[ref], thing, unit)
    for ref in old:
        if ref not in new:
            yield f"{ref.id}: removed"


def _rest(before: Job, after: Job, unit: Display) -> Iterator[str]:
    for name in Job.__struct_fields__:
        if name not in _CHOOSABLE:
            old, new = getattr(before, name), getattr(after, name)
            if isinstance(old, msgspec.Struct) and isinstance(new, msgspec.Struct):
                yield from _fields(_word(name), old, new, unit)
            elif old != new:
                yield f"{_word(name)}: changed"


def _fields(owner: str, old: msgspec.Struct, new: msgspec.Struct, unit: Display) -> Iterator[str]:
    for name in old.__struct_fields__:
        if name in _CHOOSABLE:
            continue
        was, now = getattr(old, name), getattr(new, name)
        if was != now:
            yield f"{owner}: {_word(name)} {_values(was, now, unit)}"


def _values(was: Any, now: Any, unit: Display) -> str:
    texts = [_value(value, unit) for value in (was, now)]
    if None in texts:
        return "changed"
    return f"was {texts[0]}, is {texts[1]}"


def _value(value: Any, unit: Display) -> str | None:
    """Write a plain value for people; None for what has no short form."""
    if value is None:
        return "not set"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return shown(value, unit) + ("" if unit == "in" else f" {unit}")
    if isinstance(value, str):
        return repr(value) if value else "empty"
    return None


def _word(name: str) -> str:
    return _WORDS.get(name, name.replace("_", " "))
