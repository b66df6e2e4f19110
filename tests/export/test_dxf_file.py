"""The DXF file as a whole: no fault, millimetres, equal bytes, and nothing written that is wrong."""

import subprocess
import sys
from pathlib import Path

import ezdxf
import pytest
from ezdxf.document import Drawing

from export.dxf import DxfDocument
from tests.export.dxf_sample import a_drawing


def test_a_file_on_disk_has_no_fault(tmp_path: Path) -> None:
    path = tmp_path / "wall_mm.dxf"
    path.write_bytes(a_drawing().to_bytes())
    audit = ezdxf.readfile(path).audit()  # type: ignore[attr-defined]
    assert not audit.errors
    assert not audit.fixes


def test_everything_is_in_millimetres(drawing: Drawing) -> None:
    assert drawing.dxfversion == "AC1024"  # R2010
    assert drawing.header["$INSUNITS"] == 4
    assert drawing.header["$MEASUREMENT"] == 1
    assert drawing.modelspace().units == 4
    assert drawing.layout("SHEET").units == 4
    assert drawing.blocks.get("VALVE").units == 4


def test_same_drawing_gives_the_same_bytes() -> None:
    document = a_drawing()
    first = document.to_bytes()
    assert document.to_bytes() == first
    assert a_drawing().to_bytes() == first
    assert a_drawing(20).to_bytes() != first


def test_writing_leaves_the_library_as_it_was() -> None:
    before = ezdxf.options.write_fixed_meta_data_for_testing  # type: ignore[attr-defined]
    a_drawing().to_bytes()
    assert ezdxf.options.write_fixed_meta_data_for_testing == before  # type: ignore[attr-defined]
    assert before is False


def test_file_with_a_fault_is_not_written() -> None:
    document = a_drawing()
    model = document._document.modelspace()
    model.add_linear_dim((0, -150), (0, 0), (600, 0))  # never drawn: readers drop it
    with pytest.raises(RuntimeError, match=r"1 fault: .*DIMENSION"):
        document.to_bytes()


def test_empty_drawing_is_not_written() -> None:
    with pytest.raises(ValueError, match="nothing has been drawn"):
        DxfDocument(10).to_bytes()


def test_library_is_not_loaded_before_a_drawing_is_begun() -> None:
    code = "import export.dxf, sys; sys.exit('ezdxf' in sys.modules)"
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
