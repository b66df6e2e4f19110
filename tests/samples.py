"""The sample jobs, for tests that run on each."""

from pathlib import Path

from geometry.jobfile import read_job
from geometry.model import Job

FOLDER = Path(__file__).parent.parent / "samples"
SAMPLES = tuple(sorted(path.stem for path in FOLDER.glob("*.json")))
FAULTY = "planted-faults"
SOUND = tuple(name for name in SAMPLES if name != FAULTY)


def sample_path(name: str) -> Path:
    return FOLDER / f"{name}.json"


def sample_job(name: str) -> Job:
    return read_job(sample_path(name).read_bytes())
