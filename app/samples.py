"""Where the sample jobs lie: beside the packages in a checkout, among the shared data where installed."""

import sys
from pathlib import Path


def sample_files() -> tuple[Path, ...]:
    """Return the files of the sample jobs; none if they were left out."""
    for folder in (
        Path(__file__).parents[1] / "samples",
        Path(sys.prefix, "share", "chasewright", "samples"),
    ):
        if folder.is_dir():
            return tuple(sorted(folder.glob("*.json")))
    return ()


def sample_name(file: Path) -> str:
    """Return what a sample is called: its file's name as words."""
    words = file.stem.replace("-", " ")
    return words[:1].upper() + words[1:]
