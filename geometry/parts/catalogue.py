"""The parts that a job may name: the generic ones beside this file, and a user's own.

Parts are TOML: tables `[[part]]` with `type` and the fields of `records.py`. This module takes bytes;
who opens a user's folder is the program.
"""

import pkgutil
from collections.abc import Iterable, Iterator, Mapping
from functools import cache
from typing import TypeVar

import msgspec

from geometry.decoding import decoded, toml_tables
from geometry.model.record import duplicate
from geometry.parts.records import Part

_FILES = ("valves", "heads", "rails_and_hoses", "enclosures", "tubes")
P = TypeVar("P", bound=Part)


class _File(msgspec.Struct, frozen=True, forbid_unknown_fields=True):
    part: tuple[Part, ...] = ()


class Catalogue:
    """Parts by id."""

    def __init__(self, parts: Iterable[Part]) -> None:
        self._parts: Mapping[str, Part] = {part.id: part for part in parts}

    def __iter__(self) -> Iterator[Part]:
        """Go through the parts in the order in which they were read."""
        return iter(self._parts.values())

    def find(self, name: str, kind: type[P]) -> P:
        """Return the part of this id and kind.

        Raises:
            ValueError: there is none, or it is of another kind; the message names it.
        """
        part = self._parts.get(name)
        if part is None:
            raise ValueError(f"no part is called {name!r}")
        if not isinstance(part, kind):
            raise ValueError(f"the part {name!r} is of the kind {kind_of(part)!r}, not {kind_of(kind)!r}")
        return part

    def with_own(self, parts: Iterable[Part]) -> "Catalogue":
        """Return a catalogue in which a user's own parts are added, or replace those of the same id."""
        return Catalogue((*self, *parts))


def kind_of(part: msgspec.Struct | type[msgspec.Struct]) -> str:
    """Return what kind a part is, in words: `hose outlet`."""
    return str(part.__struct_config__.tag).replace("_", " ")


def read_parts(data: bytes, name: str) -> tuple[Part, ...]:
    """Read parts from TOML.

    Raises:
        ValueError: the text is not TOML, or a part is wrong; names the file, the place and the value.
    """
    try:
        parts = decoded(toml_tables(data), _File).part
    except ValueError as problem:
        raise ValueError(f"{name}: {problem}") from None
    again = duplicate(tuple(part.id for part in parts))
    if again is not None:
        raise ValueError(f"{name}: $.part[{again}].id: stands twice: {parts[again].id!r}")
    return parts


@cache
def generic_parts() -> Catalogue:
    """Return the parts that come with the program."""
    parts: list[Part] = []
    for name in _FILES:
        data = pkgutil.get_data("geometry.parts", f"{name}.toml")
        assert data is not None, f"{name}.toml is part of the package"
        parts.extend(read_parts(data, f"{name}.toml"))
    return Catalogue(parts)
