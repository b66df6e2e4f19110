"""Job files of other versions: the first one is read whole, and what is neither is refused."""

import json
from pathlib import Path
from typing import Any

import pytest

from geometry.jobfile import FORMAT, VERSION, read_job, write_job
from geometry.model import Layer
from tests.geometry.job_bytes import Change, changed, complaint

V1 = Path(__file__).parents[1] / "data" / "job_v1.json"


# version 1


def test_the_frozen_file_of_version_1_is_read_whole() -> None:
    plain = json.loads(V1.read_bytes())
    job = read_job(V1.read_bytes())
    assert [layer.name for layer in job.finish.areas[0].layers] == ["cement board", "tile"]
    assert job.finish.areas[0].region is None
    assert job.finish.areas[0].layers[1] == Layer(kind="tile", thickness=8.0, tolerance=0.5, name="tile")
    # all else is in version 2 as it was in version 1
    newer = json.loads(write_job(job))
    assert plain["finish"]["tiling"].items() <= newer["finish"]["tiling"].items()
    for field in set(plain) - {"version", "finish"}:
        assert _without(newer[field], _added_later(plain[field], newer[field])) == plain[field], field


def _added_later(old: Any, new: Any) -> set[str]:
    """Return the keys that records have gained since, at any depth."""
    if isinstance(old, dict):
        gained = set(new) - set(old)
        return gained.union(*(_added_later(old[key], new[key]) for key in old))
    if isinstance(old, list):
        return set().union(*(_added_later(a, b) for a, b in zip(old, new, strict=True)))
    return set()


def _without(value: Any, keys: set[str]) -> Any:
    if isinstance(value, dict):
        return {key: _without(held, keys) for key, held in value.items() if key not in keys}
    return [_without(held, keys) for held in value] if isinstance(value, list) else value


def v1(change: Change) -> bytes:
    plain = json.loads(V1.read_bytes())
    change(plain)
    return json.dumps(plain).encode()


def test_version_1_without_layers_means_a_bare_wall() -> None:
    assert read_job(v1(lambda job: job["finish"].pop("layers"))).finish.areas == ()
    assert read_job(v1(lambda job: job.pop("finish"))).finish.areas == ()


def test_a_wrong_value_in_version_1_is_named_by_its_place_in_that_file() -> None:
    data = v1(lambda job: job["finish"]["layers"][1].update(thickness="thin"))
    assert complaint(data) == "$.finish.layers[1].thickness: must be a number, got 'thin'"


def test_version_1_beside_a_field_of_version_2_is_refused_rather_than_half_lost() -> None:
    assert (
        complaint(v1(lambda job: job["finish"].update(areas=[])))
        == "$.finish.areas: unknown key in version 1"
    )


@pytest.mark.parametrize("finish", [5, [], None, "tiled", {"layers": 3}, {"layers": None}])
def test_version_1_with_a_strange_finish_is_refused(finish: object) -> None:
    assert complaint(v1(lambda job: job.update(finish=finish))).startswith("$.finish")


# others


def test_a_newer_version_is_refused_before_anything_else_is_looked_at() -> None:
    data = changed(lambda job: (job.update(version=VERSION + 1), job.update(wall="new kind of wall")))
    assert complaint(data) == "$.version: written by a newer program (version 3, this one reads up to 2)"


@pytest.mark.parametrize("version", [0, -1, "2", 2.5, None, True, 10**30, [2]])
def test_a_version_that_cannot_be_is_named(version: object) -> None:
    assert complaint(changed(lambda job: job.update(version=version))).startswith("$.version: must be ")


def test_another_format_is_refused() -> None:
    data = changed(lambda job: job.update(format="knitting pattern"))
    assert complaint(data) == f"$.format: must be {FORMAT!r}, got 'knitting pattern'"
