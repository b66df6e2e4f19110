"""Parts in DXF: blocks under legal names, placed with their data."""

import pytest
from ezdxf.document import Drawing

from export.dxf import DxfDocument
from export.dxf_text import table_name
from export.pen import Pen
from tests.export.dxf_reader import found, read


def test_part_is_a_block_placed_on_the_wall_with_its_data(drawing: Drawing) -> None:
    (reference,) = found(drawing.modelspace(), "INSERT")
    assert (reference.dxf.name, reference.dxf.insert) == ("VALVE", (375, 1100, 0))
    assert reference.get_attrib_text("PART") == "thermostatic valve"
    assert reference.get_attrib("PART").is_invisible
    block = drawing.blocks.get("VALVE")
    assert block.get_attdef("PART") is not None
    assert [entity.dxf.layer for entity in found(block, "CIRCLE")] == ["BODY"]


def test_block_names_are_legal_and_never_taken_twice() -> None:
    document = DxfDocument(10)

    def draw(pen: Pen) -> None:
        pen.circle("head", (0, 0), 100)

    names = [document.block(name, draw) for name in ("Head: 200/8*", "head- 200|8", "מקלח", "_oblique")]
    assert names == ["HEAD- 200-8", "HEAD- 200-8-2", "מקלח", "OBLIQUE"]
    for name in names:
        document.insert(name, (0, 0), "head")
    blocks = {block.name for block in read(document.to_bytes()).blocks}
    assert set(names) <= blocks


def test_unknown_block_is_refused_by_name() -> None:
    with pytest.raises(ValueError, match="no block 'bidet'"):
        DxfDocument(10).insert("bidet", (0, 0), "body")


def test_name_of_nothing_but_illegal_characters_is_refused() -> None:
    with pytest.raises(ValueError, match="no letter"):
        table_name("*/?")
