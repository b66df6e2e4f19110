"""The DXF elevation, read back by ezdxf and measured against the job that it was made from."""

import io

import ezdxf.recover
import pytest
from ezdxf.document import Drawing
from ezdxf.entities import Dimension
from ezdxf.entities.insert import Insert

from export.sheets.dxf_elevation import dxf_elevation
from export.sheets.options import SheetOptions
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from tests.samples import SAMPLES, sample_job


def plan_of(name: str) -> Plan:
    return Plan(sample_job(name), generic_parts(), standard_rules())


def read_back(plan: Plan, paper: str = "A4") -> Drawing:
    data = dxf_elevation(plan, (), SheetOptions(paper=paper))
    document, auditor = ezdxf.recover.read(io.BytesIO(data))
    assert not auditor.errors
    assert not auditor.fixes
    return document


def inserts(document: Drawing) -> dict[str, Insert]:
    """The blocks in the model, by the id of the fitting that each stands for."""
    found = {}
    for entity in document.modelspace().query("INSERT"):
        assert isinstance(entity, Insert)
        found[next(a.dxf.text for a in entity.attribs if a.dxf.tag == "ID")] = entity
    return found


def measurements(document: Drawing) -> list[float]:
    dimensions = document.modelspace().query("DIMENSION")
    return [measurement(entity) for entity in dimensions if isinstance(entity, Dimension)]


def measurement(dimension: Dimension) -> float:
    """What a dimension measures: an ordinate one counts along x if its flag 64 is set, else along y."""
    value = dimension.get_measurement()
    if isinstance(value, float):
        return value
    return float(value.x if dimension.dxf.dimtype & 64 else value.y)


@pytest.mark.parametrize("name", SAMPLES)
def test_the_file_has_no_faults_says_millimetres_and_has_each_part_at_its_place(name: str) -> None:
    plan = plan_of(name)
    document = read_back(plan, "A3")
    assert document.header["$INSUNITS"] == 4  # mm, DXF reference
    assert document.modelspace().units == 4
    placed = inserts(document)
    for fitting in plan.job.fittings:
        insert = placed[fitting.id]
        assert insert.dxf.name in document.blocks
        assert insert.dxf.name.startswith(fitting.part.upper())
        assert (insert.dxf.insert.x, insert.dxf.insert.y) == pytest.approx(fitting.at, abs=0.01)


def test_dimensions_measure_from_the_tray_edge_and_the_tray_floor() -> None:
    measured = measurements(read_back(plan_of("alcove-760")))
    # 760 tray: quarter lines 190 and 570, centre line 380, far edge 760 from its left edge. Heights above
    # the tray floor at 30: valve and outlet 1030 - 30 = 1000, rail fixings 1120 + 25 - 30 = 1115 and
    # 1120 + 675 - 30 = 1765, head 2190 - 30 = 2160.
    for wanted in (190.0, 380.0, 570.0, 760.0, 1000.0, 1115.0, 1765.0, 2160.0):
        assert any(abs(value - wanted) < 0.01 for value in measured), wanted


def test_layers_of_what_is_drawn_are_there() -> None:
    used = {entity.dxf.layer for entity in read_back(plan_of("alcove-760")).modelspace()}
    wanted = {
        "WALL",
        "TRAY",
        "CENTRE-LINE",
        "QUARTER-LINE",
        "RECESS",
        "CHASE",
        "PIPE-HOT",
        "PIPE-COLD",
        "HOSE",
    }
    assert wanted <= used


def test_the_distance_of_two_parts_is_that_of_the_job() -> None:
    placed = {name: insert.dxf.insert for name, insert in inserts(read_back(plan_of("alcove-760"))).items()}
    # valve at x 380, rail at x 570: 190 mm
    assert placed["rail"].x - placed["valve"].x == pytest.approx(190.0, abs=0.01)


def test_a_reference_line_of_one_metre_says_what_a_unit_is() -> None:
    space = read_back(plan_of("alcove-760")).modelspace()
    lines = [line for line in space.query("LINE") if line.dxf.layer == "CHECK-BAR"]
    assert any(abs((line.dxf.end - line.dxf.start).magnitude - 1000.0) < 0.001 for line in lines)
    assert any("1 unit = 1 mm" in text.dxf.text for text in space.query("TEXT"))


def test_the_sheet_has_a_locked_window_at_the_drawing_scale() -> None:
    document = read_back(plan_of("alcove-760"))
    window = next(v for v in document.paperspace("SHEET").viewports() if v.dxf.id != 1)
    assert window.dxf.flags & 16384  # locked, DXF reference
    scale = round(1 / window.get_scale())
    assert scale in (10, 20, 25)


def test_a_paper_that_is_too_small_says_what_would_do() -> None:
    with pytest.raises(ValueError, match="would do"):
        dxf_elevation(plan_of("corner-1200x800"), (), SheetOptions(paper="A5", scale=5))
