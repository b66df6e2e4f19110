"""Reading of jobs and of a user's own parts and limits. Every error is one line with the file's name."""

import os
from collections.abc import Iterator
from pathlib import Path
from typing import Literal

from geometry.jobfile import MOST_BYTES, read_job
from geometry.model import Job
from geometry.parts.catalogue import Catalogue, generic_parts, read_parts
from geometry.plan import Plan
from geometry.rules import Rulebook, standard_rules
from geometry.rules.own import read_own_rules

Own = Literal["parts", "rules"]
OWN_FOLDERS: dict[Own, str] = {"parts": "CHASEWRIGHT_PARTS", "rules": "CHASEWRIGHT_RULES"}
"""Environment variables: a folder of a user's own parts, and one of limits."""


class InputError(Exception):
    """Something that was given cannot be used; the message is one line for the user."""


def read_bytes(path: Path, most: int = MOST_BYTES) -> bytes:
    """Return what a file holds.

    Raises:
        InputError: it is missing, no file, unreadable or absurdly large.
    """
    try:
        size = path.stat().st_size
        if path.is_dir():
            raise InputError(f"{path}: is a folder, not a file")
        if size > most:
            raise InputError(f"{path}: too large: {size} bytes, at most {most}")
        with path.open("rb") as file:
            data = file.read(most + 1)
    except OSError as problem:
        raise InputError(f"{path}: {problem.strerror or problem}") from None
    except ValueError as problem:  # a name that no file can have
        raise InputError(f"{str(path)!r}: {problem}") from None
    if len(data) > most:
        raise InputError(f"{path}: too large: at most {most} bytes")
    return data


def open_job(path: Path) -> Job:
    """Read a job file; InputError names file, place and value."""
    try:
        return read_job(read_bytes(path))
    except ValueError as problem:
        raise InputError(f"{path}: {problem}") from None


def own_folders(kind: Own, job_path: Path | None = None) -> tuple[Path, ...]:
    """Return the folders in which a user may keep parts, or rules; later ones win.

    These are `chasewright/parts` in the user's data folder, the folder named by CHASEWRIGHT_PARTS, and
    `parts` beside the job file; likewise for rules.
    """
    data = os.environ.get("XDG_DATA_HOME") or os.path.join(os.path.expanduser("~"), ".local", "share")
    folders = [Path(data, "chasewright", kind)]
    if named := os.environ.get(OWN_FOLDERS[kind]):
        folders.append(Path(named))
    if job_path is not None:
        folders.append(job_path.resolve().parent / kind)
    return tuple(folders)


def load_catalogue(job_path: Path | None = None) -> Catalogue:
    """Return the generic parts and the user's own; InputError names file, place and value."""
    catalogue = generic_parts()
    for file in _own_files("parts", job_path):
        try:
            catalogue = catalogue.with_own(read_parts(read_bytes(file), str(file)))
        except ValueError as problem:
            raise InputError(str(problem)) from None
    return catalogue


def load_rules(job_path: Path | None = None) -> Rulebook:
    """Return the program's limits with the user's own; InputError names file, place and value."""
    rules = standard_rules()
    for file in _own_files("rules", job_path):
        try:
            rules = rules.with_own(read_own_rules(read_bytes(file), str(file), rules))
        except ValueError as problem:
            raise InputError(str(problem)) from None
    return rules


def _own_files(kind: Own, job_path: Path | None) -> Iterator[Path]:
    named = os.environ.get(OWN_FOLDERS[kind])
    for folder in own_folders(kind, job_path):
        if folder.is_dir():
            yield from sorted(folder.glob("*.toml"))
        elif named and folder == Path(named):
            raise InputError(f"{folder}: {OWN_FOLDERS[kind]} names no folder")


def open_plan(path: Path) -> Plan:
    """Read a job file and look up its parts; InputError names file, place and value."""
    job = open_job(path)
    catalogue, rules = load_catalogue(path), load_rules(path)
    try:
        return Plan(job, catalogue, rules)
    except ValueError as problem:
        raise InputError(f"{path}: {problem}") from None
