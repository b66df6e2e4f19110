"""The units of a DXF file against the DXF header variable reference.

$INSUNITS: 0 none, 1 inches, 2 feet, 4 millimetres, 5 centimetres, 6 metres, 14 decimetres.
$MEASUREMENT: 0 imperial, 1 metric line types and hatches.
The file is read here as text, without the library that wrote it.
"""

from itertools import pairwise

import pytest

from export.dxf import DxfDocument


@pytest.fixture(scope="module")
def header() -> dict[str, tuple[int, str]]:
    """Return group code and value of each header variable that has one value."""
    document = DxfDocument(10)
    document.model.line("check-bar", (0, 0), (1000, 0))
    lines = [line.strip() for line in document.to_bytes().decode("utf-8").splitlines()]
    tags = list(zip(map(int, lines[::2]), lines[1::2], strict=True))
    return {name: value for (code, name), value in pairwise(tags) if code == 9}


def test_unit_is_the_millimetre(header: dict[str, tuple[int, str]]) -> None:
    assert header["$INSUNITS"] == (70, "4")  # DXF header variable reference: 4 = millimetres, group 70


def test_measurement_is_metric(header: dict[str, tuple[int, str]]) -> None:
    assert header["$MEASUREMENT"] == (70, "1")  # DXF header variable reference: 1 = metric, group 70


def test_version_is_that_of_2010(header: dict[str, tuple[int, str]]) -> None:
    assert header["$ACADVER"] == (1, "AC1024")  # DXF header variable reference: AC1024 = 2010


def test_dashes_of_the_model_keep_the_size_of_the_model(header: dict[str, tuple[int, str]]) -> None:
    assert header["$PSLTSCALE"] == (70, "0")  # DXF header variable reference: 0 = no special scaling


def test_coordinates_are_millimetres_at_full_size() -> None:
    # A coordinate has no unit of its own, only $INSUNITS states it: 1 m must be written as 1000.
    document = DxfDocument(10)
    document.model.line("check-bar", (0, 0), (1000, 0))
    lines = [line.strip() for line in document.to_bytes().decode("utf-8").splitlines()]
    start = lines.index("LINE")
    (end,) = [value for code, value in pairwise(lines[start : start + 24]) if code == "11"]
    assert float(end) == 1000
