"""The photographs of a job's record, read from beside its file: each a picture, or why there is none."""

import dataclasses
import os
from collections.abc import Mapping, Sequence
from itertools import chain, count
from pathlib import Path

from export.atomic import write_atomically
from export.picture import Picture, read_picture
from export.sheets.options import SheetOptions
from geometry.model import Job, Photograph

MOST_BYTES = 40_000_000
"""A photograph of a phone is 3 to 15 MB."""
PRINTED = (".jpeg", ".jpg", ".png")
"""How the names of the files end that can stand in the record."""
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


def attach(folder: Path, path: Path) -> Photograph:
    """Return a photograph as a job in this folder holds it; one that lies elsewhere is copied there.

    The copy has a number if another file has its name.

    Raises:
        OSError: it cannot be read or copied.
        ValueError: it cannot be shown, or its name cannot be kept; says why in a few words.
    """
    data = read_attached(path).data
    if is_within(folder, path):
        return Photograph(file=_real(path).relative_to(_real(folder)).as_posix())
    names = chain([path.name], (f"{path.stem} {number}{path.suffix}" for number in count(2)))
    held = next(one for one in (Photograph(file=name) for name in names) if _fits(folder / one.file, data))
    if not (folder / held.file).exists():
        write_atomically(folder / held.file, data)
    return held


def bring_along(job: Job, before: Path, folder: Path) -> str:
    """Copy the photographs of a job from the folder that it was in to another one.

    Returns:
        One sentence about those that could not be copied, or nothing. Nothing that lies there is replaced,
        and what could not be shown before is left where it is.
    """
    left = []
    for file in dict.fromkeys(photograph.file for photograph in job.pipework.photographs):
        held, target = _read(before, file), folder / file
        if isinstance(held, str):
            continue
        try:
            if not is_within(folder, target) or not _fits(target, held.data):
                left.append(f"{file} (another file has its name)")
            elif not target.exists():
                target.parent.mkdir(parents=True, exist_ok=True)
                write_atomically(target, held.data)
        except OSError as problem:
            left.append(f"{file} ({problem.strerror or 'cannot be written'})")
    return f"Photographs of the record that stayed in {before}: {', '.join(left)}." if left else ""


def is_within(folder: Path, path: Path) -> bool:
    """Return whether a file lies in a folder, or deeper in it, after every link is followed."""
    return _real(path).is_relative_to(_real(folder))


def _fits(target: Path, data: bytes) -> bool:
    """Return whether nothing lies here, or the very same file."""
    if not os.path.lexists(target):
        return True
    return target.is_file() and target.stat().st_size == len(data) and target.read_bytes() == data


def _real(path: Path) -> Path:
    return Path(os.path.realpath(path))


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
