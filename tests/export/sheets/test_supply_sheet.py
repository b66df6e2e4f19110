"""The page about the water: legible, whole, and saying what was measured or what is to be measured."""

import io

import pdfplumber
import pytest

from export.drawings.balloons import numbered
from export.recorded import RecordedDocument
from export.sheets.options import SheetOptions
from export.sheets.supply import supply_sheet
from geometry.checks.runner import check
from geometry.plan import Plan
from tests.export.jobs import crowded, planned, sample, usual
from tests.export.measured import as_pdf, assert_legible, laid_out, words
from tests.geometry.supply.shower_job import JOB, SUPPLY
from tests.samples import SAMPLES


def recorded(plan: Plan, options: SheetOptions) -> RecordedDocument:
    return laid_out(supply_sheet, plan, check(plan), options)


def said(pages: RecordedDocument) -> str:
    return "\n".join(text.text for page in pages.pages for text in words(page))


@pytest.mark.parametrize("name", SAMPLES)
@pytest.mark.parametrize("size", ["A4", "A3"])
def test_samples_are_legible(name: str, size: str) -> None:
    assert_legible(recorded(sample(name), SheetOptions(paper=size)))


def test_what_was_measured_comes_first() -> None:
    text = said(recorded(sample("corner-1200x800"), SheetOptions()))
    for part in (
        "Measured at the house", "2.1 bar at 14 l/min", "Instant heater, 28 kW", "What comes out",
        "Where the pressure goes, with head running", "Flow against supply pressure",
        "Other tubes on one stretch: l/min at head", "Pump on both supplies", "Findings", "Legionella", "Gas",
        "The heater's power bounds this flow, so no tube changes it.",
    ):  # fmt: skip
        assert part in text


def test_a_job_without_a_supply_gets_a_page_to_fill_in() -> None:
    pages = recorded(usual(), SheetOptions())
    text = said(pages)
    assert len(pages.pages) == 1
    assert "To be measured at the house" in text
    assert "All taps shut, bar" in text
    assert "The supply is not measured yet" in text
    assert "Flow against supply pressure" not in text


def test_what_cannot_be_worked_out_is_a_caution_and_no_number() -> None:
    plan = planned(JOB.but(supply=SUPPLY.but(hot=SUPPLY.hot.but(readings=()))))
    pages = recorded(plan, SheetOptions())
    cautions = [stroke.values["text"] for page in pages.pages for stroke in page.on("caution")]
    assert any("cannot be worked out" in text for text in cautions)
    assert "What comes out" not in said(pages)


def test_findings_have_the_numbers_of_the_elevation() -> None:
    plan = sample("bath-stud-wall")
    findings = check(plan)
    data = as_pdf(supply_sheet, plan, findings, SheetOptions())
    with pdfplumber.open(io.BytesIO(data)) as document:
        text = "\n".join(page.extract_text() for page in document.pages)
    water = [index for index, one in enumerate(numbered(findings), 1) if one.rule.startswith("supply.")]
    assert water
    for index in water:
        assert f"\n{index} " in text


def test_many_valves_each_have_their_tables() -> None:
    plan = planned(crowded(2, 3000).job.but(supply=SUPPLY))
    text = said(recorded(plan, SheetOptions()))
    assert "What comes out at valve-0" in text
    assert "What comes out at valve-1" in text


def test_equal_jobs_give_equal_files() -> None:
    plan = sample("alcove-760")
    first, second = (as_pdf(supply_sheet, plan) for _ in range(2))
    assert first == second


def test_tubes_have_their_names_and_what_is_laid_is_said_to_be() -> None:
    rows = said(recorded(sample("corner-1200x800"), SheetOptions())).splitlines()
    assert "Copper 22 x 0.9, 6 m, no elbow" in rows
    assert not any("copper-22" in row or "upstream" in row for row in rows)
    # hot is laid in 22, the larger of the two usual sizes, the riser in 15, the smaller
    assert any(row.startswith("as laid: ") for row in rows)
    assert not any(
        row.startswith("Copper 22 x 0.9:") for row in rows[rows.index("hot pipe to the wall") :][:4]
    )
