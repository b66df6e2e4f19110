"""DXF files as a receiver reads them."""

import io
from typing import Any

import ezdxf
from ezdxf import recover
from ezdxf.document import Drawing


def read(data: bytes, way: str = "read") -> Drawing:
    """Read a file back and hold it to the promise that it has no fault."""
    if way == "recover":
        drawing, audit = recover.read(io.BytesIO(data))
    else:
        drawing = ezdxf.read(io.StringIO(data.decode("utf-8")))  # type: ignore[attr-defined]
        audit = drawing.audit()
    assert not audit.errors
    assert not audit.fixes
    return drawing


def found(space: Any, kind: str) -> list[Any]:
    """Return the entities of one kind in a space, in the order of the file."""
    return list(space.query(kind))


def drawn_text(dimension: Any) -> list[Any]:
    """Return the texts that a dimension is drawn with."""
    return [entity for entity in dimension.get_geometry_block() if entity.dxftype() == "MTEXT"]
