"""The photographs of a job's record, read from beside its file: each a picture, or why there is none."""

import dataclasses
import os
from collections.abc import Mapping, Sequence
from pathlib import Path

from export.picture import Picture, read_picture
from export.sheets.options import SheetOptions
from geometry.model import Job

MOST_BYTES = 40_000_000
"""A photograph of a phone is 3 to 15 MB."""
RECORD = "as-fitted"
"""The sheet on which the photographs stand."""


def with_photographs(
    options: SheetOptions, job: Job, folder: Path | None, names: Sequence[str]
) -> SheetOptions:
    """Return choices with the photographs of a job, if the sheet on which they stand is among these names.

    Args:
        options: the choices.
        job: names the files.
        folder: that of the job's file; None if it has none yet.
        names: of sheets; all if empty.
    """
    if names and RECORD not in names:
        return options
    files = dict.fromkeys(photograph.file for photograph in job.pipework.photographs)
    return dataclasses.replace(options, pictures={file: _read(folder, file) for file in files})


def missing(pictures: Mapping[str, Picture | str]) -> str:
    """Return one sentence about the photographs of which there is no picture, or nothing."""
    told = [f"{file} ({held})" for file, held in pictures.items() if isinstance(held, str)]
    return f"not shown in the record: {', '.join(told)}" if told else ""


def read_attached(path: Path) -> Picture:
    """Read a photograph; OSError or ValueError says in a few words why it cannot be shown."""
    if not path.is_file():
        raise ValueError("not found")
    with path.open("rb") as file:
        data = file.read(MOST_BYTES + 1)
    if len(data) > MOST_BYTES:
        raise ValueError(f"too large: at most {MOST_BYTES // 1_000_000} MB")
    return read_picture(data)


def is_within(folder: Path, path: Path) -> bool:
    """Return whether a file lies in a folder, or deeper in it, after every link is followed."""
    return Path(os.path.realpath(path)).is_relative_to(os.path.realpath(folder))


def _read(folder: Path | None, file: str) -> Picture | str:
    if folder is None:
        return "not found: the job is not saved"
    path = folder / file
    if not is_within(folder, path):
        return "outside the folder of the job"
    try:
        return read_attached(path)
    except OSError as problem:
        return problem.strerror or "cannot be read"
    except ValueError as problem:
        return str(problem)
