"""Bytes to a Job and back. Nothing here opens a file.

A job file is JSON: `{"format": "chasewright job", "version": 2, ...}` and then the fields of a Job, keys in
the order of the records, numbers as they are kept, so that two versions of a job compare line by line.
Older versions are migrated, newer ones refused; an unknown key is refused with its path, never dropped.
"""

import re
from collections.abc import Callable
from typing import Any

import msgspec

from geometry.model import Job

FORMAT = "chasewright job"
VERSION = 2
MOST_BYTES = 8_000_000
"""A job is a few kilobytes; anything far beyond is not one."""
MOST_DEPTH = 40
"""Brackets within brackets; a job has fewer than ten."""


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
    _refuse_absurd(data)
    try:
        header = msgspec.json.decode(data, type=_Header)
        _refuse_strange(header)
        if header.version == VERSION:
            return _job(msgspec.json.decode(data, type=_File))
        plain = msgspec.json.decode(data)
        for version in range(header.version, VERSION):
            plain = _MIGRATIONS[version](plain)
        return _job(msgspec.convert(plain, _File))
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError) as problem:
        raise JobFileError(_one_line(problem, data)) from None


def _job(file: _File) -> Job:
    return Job(**{name: getattr(file, name) for name in Job.__struct_fields__})


def _refuse_strange(header: _Header) -> None:
    if header.format != FORMAT:
        raise JobFileError(f"$.format: not a job file of this program, got {header.format[:40]!r}")
    if header.version > VERSION:
        newer = f"version {header.version}, this one reads up to {VERSION}"
        raise JobFileError(f"$.version: written by a newer program ({newer})")
    if header.version < 1:
        raise JobFileError(f"$.version: must be at least 1, got {header.version}")


def _refuse_absurd(data: bytes) -> None:
    if len(data) > MOST_BYTES:
        raise JobFileError(f"$: too large for a job: {len(data)} bytes, at most {MOST_BYTES}")
    depth = 0
    for mark in re.finditer(rb'"(?:[^"\\]|\\.)*"|[\[{]|[\]}]', data):
        first = mark.group()[:1]
        if first in b"[{":
            depth += 1
            if depth > MOST_DEPTH:
                raise JobFileError(f"$: brackets nested more than {MOST_DEPTH} deep")
        elif first in b"]}":
            depth -= 1


def _one_line(problem: Exception, data: bytes) -> str:
    """Turn a decoder's complaint into `path: what is wrong, got value`."""
    text = " ".join(str(problem).split())
    match = re.fullmatch(r"(?P<what>.*) - at `(?P<path>\$.*)`", text)
    what, path = (match["what"], match["path"]) if match else (text, "$")
    own = re.match(r"(?P<field>\.[\w.\[\]]+): (?P<rest>.*)", what)
    if own:  # our records name the field, and the value, by themselves
        return f"{path}{own['field']}: {own['rest']}"
    value = _value_at(data, path)
    return f"{path}: {what[:1].lower()}{what[1:]}{value}"


def _value_at(data: bytes, path: str) -> str:
    """Return `, got ...` for the value at a path such as `$.fittings[2].height`, or nothing."""
    try:
        value: Any = msgspec.json.decode(data)
        for key, index in re.findall(r"\.(\w+)|\[(\d+)\]", path):
            value = value[key] if key else value[int(index)]
    except (msgspec.DecodeError, UnicodeDecodeError, RecursionError, LookupError, TypeError):
        return ""
    if isinstance(value, dict | list):
        return ""
    text = msgspec.json.encode(value).decode()
    return f", got {text if len(text) <= 60 else text[:57] + '...'}"


def _compact_points(data: bytes) -> bytes:
    """Put a point on one line: `[380.0, 1000.0]`; a list of points keeps a line for each."""
    return re.sub(rb"\[\s+(-?[\d.eE+-]+),\s+(-?[\d.eE+-]+)\s+\]", rb"[\1, \2]", data)


def _one_area_to_many(job: Any) -> Any:
    """Version 1 had one list of layers for the whole wall; version 2 has layers by area."""
    finish = job.get("finish") if isinstance(job, dict) else None
    if not isinstance(finish, dict) or "layers" not in finish:
        return job
    layers = finish["layers"]
    rest = {key: value for key, value in finish.items() if key != "layers"}
    return {**job, "finish": {"areas": [{"id": "wall", "layers": layers}], **rest}}


_MIGRATIONS: dict[int, Callable[[Any], Any]] = {1: _one_area_to_many}
