"""Bytes to a Job and back. Nothing here opens a file.

A job file is JSON: `{"format": "chasewright job", "version": 2, ...}` and then the fields of a Job, keys in
the order of the records, numbers as they are kept, so that two versions of a job compare line by line.
Older versions are migrated, newer ones refused; an unknown key is refused with its path, never dropped.
"""

import json
import re
from collections.abc import Callable
from typing import Any, NamedTuple

import msgspec

from geometry.decoding import decoded, path_to, shown, step_text, utf8_text
from geometry.model import Job
from geometry.model.record import duplicate

FORMAT = "chasewright job"
VERSION = 2
MOST_BYTES = 4_000_000
"""A job is a few kilobytes; anything far beyond is not one."""
MOST_DEPTH = 40
"""Brackets within brackets; a job has fewer than ten."""
MOST_BRACKETS = 200_000
"""Brackets in all; a job has some hundred. More would take far more memory than the file."""


class JobFileError(ValueError):
    """The bytes are not a job; the message names the path of the bad value and the value."""


class _Header(msgspec.Struct):
    format: str
    version: int


class _File(Job, frozen=True, kw_only=True):
    format: str
    version: int


def write_job(job: Job) -> bytes:
    """Return the bytes of a job file: deterministic, indented, ending in a line feed."""
    header = {"format": FORMAT, "version": VERSION}
    body = msgspec.json.encode(header | {name: getattr(job, name) for name in job.__struct_fields__})
    return _compact_points(msgspec.json.format(body, indent=2)) + b"\n"


def read_job(data: bytes) -> Job:
    """Read a job file of this version or an older one.

    Raises:
        JobFileError: the bytes are no job file, are newer than this program, or hold a value that
            cannot be; the message is one line that names path and value.
    """
    plain = _plain(_text(data))
    migrations = _MIGRATIONS[_version(plain) - 1 :]
    for migration in migrations:
        plain = migration.apply(plain)
    try:
        file = decoded(plain, _File)
    except ValueError as problem:
        raise JobFileError(_as_written(str(problem), migrations)) from None
    return Job(**{name: getattr(file, name) for name in Job.__struct_fields__})


def _version(plain: object) -> int:
    try:
        header = decoded(plain, _Header)
    except ValueError as problem:
        raise JobFileError(str(problem)) from None
    if header.format != FORMAT:
        raise JobFileError(f"$.format: must be {FORMAT!r}, got {shown(header.format)}")
    if header.version > VERSION:
        newer = f"version {shown(header.version)}, this one reads up to {VERSION}"
        raise JobFileError(f"$.version: written by a newer program ({newer})")
    if header.version < 1:
        raise JobFileError(f"$.version: must be at least 1, got {shown(header.version)}")
    return header.version


# from bytes to plain data


def _text(data: bytes) -> str:
    if len(data) > MOST_BYTES:
        raise JobFileError(f"$: too large for a job: {len(data)} bytes, at most {MOST_BYTES}")
    try:
        text = utf8_text(data)
    except ValueError as problem:
        raise JobFileError(f"$: {problem}") from None
    _refuse_deep(text)
    return text


def _refuse_deep(text: str) -> None:
    """Refuse brackets in number or depth beyond all use; those within quotes do not count."""
    unescaped = text.replace("\\\\", "").replace('\\"', "")
    brackets = re.sub(r"[^][{}]+", "", "".join(unescaped.split('"')[::2]))
    depth = 0
    for bracket in brackets[:MOST_BRACKETS]:
        depth += 1 if bracket in "[{" else -1
        if depth > MOST_DEPTH:
            raise JobFileError(f"$: brackets nested more than {MOST_DEPTH} deep")
    if len(brackets) > MOST_BRACKETS:
        raise JobFileError(f"$: too many brackets for a job: {len(brackets)}, at most {MOST_BRACKETS}")


def _plain(text: str) -> object:
    """Return what the JSON holds. NaN and numbers beyond all bounds come out as such; records refuse them."""
    twice: list[tuple[object, str]] = []

    def table(pairs: list[tuple[str, object]]) -> object:
        held = dict(pairs)
        if len(held) < len(pairs):
            index = duplicate(tuple(key for key, _ in pairs))
            twice.append((held, pairs[index or 0][0]))
        return held

    try:
        plain = json.loads(text, object_pairs_hook=table, parse_int=_whole)
    except json.JSONDecodeError as problem:
        place = f"line {problem.lineno} column {problem.colno}"
        raise JobFileError(
            f"$: not JSON, or cut short: {problem.msg.removesuffix(' at')} at {place}"
        ) from None
    if twice:  # the last is the outermost, so it is part of what was kept
        bad, key = twice[-1]
        raise JobFileError(f"{path_to(plain, lambda value: value is bad)}{step_text(key)}: stands twice")
    return plain


def _whole(digits: str) -> int | float:
    return int(digits) if len(digits) < 20 else float(digits)


def _compact_points(data: bytes) -> bytes:
    """Put a point on one line: `[380.0, 1000.0]`; a list of points keeps a line for each.

    A line feed stands only between values, never within a text, so texts stay as they are.
    """
    return re.sub(rb"\[\n\s+(-?[\d.eE+-]+),\n\s+(-?[\d.eE+-]+)\n\s+\]", rb"[\1, \2]", data)


# from older versions


class _Migration(NamedTuple):
    """One version to the next, and what moved: its path in the newer version and in the older one."""

    apply: Callable[[Any], Any]
    moved: tuple[str, str]


def _one_area_to_many(job: Any) -> Any:
    """Version 1 had one list of layers for the whole wall; version 2 has layers by area."""
    finish = job.get("finish")
    if not isinstance(finish, dict):
        return job
    if "areas" in finish:
        raise JobFileError("$.finish.areas: unknown key in version 1")
    rest = {key: value for key, value in finish.items() if key != "layers"}
    areas = [{"id": "wall", "layers": finish["layers"]}] if "layers" in finish else []
    return {**job, "version": 2, "finish": {"areas": areas, **rest}}


_MIGRATIONS = (_Migration(_one_area_to_many, ("$.finish.areas[0].layers", "$.finish.layers")),)
"""The first leads from version 1 to 2, and so on."""


def _as_written(complaint: str, migrations: tuple[_Migration, ...]) -> str:
    """Return a complaint with the path that the value had in the file, before it was migrated."""
    for migration in reversed(migrations):
        newer, older = migration.moved
        if complaint.startswith(newer):
            complaint = older + complaint.removeprefix(newer)
    return complaint
