"""First fix and commissioning: what to do in which order, what to test and how, boxes to tick and to sign."""

import math
from typing import NamedTuple

from export.document import Document
from export.drawings.cautions import cautions
from export.sheets.flow import Section, entry, paragraph
from export.sheets.listed import listed_sheet, reading_width
from export.sheets.options import SheetOptions
from export.sheets.paper import paper
from export.sheets.ticked import Column, blank_lines, table
from geometry.finding import Finding
from geometry.pipework.cut_list import Run, runs
from geometry.plan import Plan
from geometry.quantities.order import soldered
from geometry.supply.from_plan import Shower, showers
from geometry.supply.results import results
from geometry.units import number

KIND = "First fix and commissioning"
_STEPS = (Column("", 5.0), Column("No.", 8.0, "right"), Column("What to do", 0.0))
_TESTS = (
    Column("", 5.0),
    Column("Test", 38.0, layer="frame"),
    Column("How", 0.0),
    Column("Source", 44.0, layer="rule"),
)
_READINGS = (Column("What", 0.0), Column("Wanted", 44.0), Column("Measured", 40.0))


class _Test(NamedTuple):
    name: str
    how: str
    source: str


def first_fix_sheet(
    plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document
) -> None:
    """Lay out the page of the first fix and that of commissioning."""
    sheet = paper(options.paper)
    width = reading_width(sheet)
    chapters = (first_fix(plan, width), commissioning(plan, width))
    listed_sheet(document, sheet, plan.job.about, KIND, chapters)


def first_fix(plan: Plan, width: float) -> tuple[Section, ...]:
    """Return what to do before anything is covered."""
    made = runs(plan)
    rows = [["", str(index), text] for index, text in enumerate(_sequence(plan, made), 1)]
    tests = [["", *test] for test in _tests(plan, made)]
    signed = ("Test pressure, bar, and time held", "Photographs taken before covering", "Name, date, signed")
    return (
        table("First fix", _STEPS, rows, width),
        table("Which port serves what", _OUTLETS, [["", *row] for row in _outlets(plan)], width),
        table("Pressure test, before anything is covered", _TESTS, tests, width),
        Section("Cautions", tuple(entry(one.subject, one.text, width) for one in cautions(plan))),
        Section("First fix tested by", blank_lines(signed, width)),
    )


_OUTLETS = (Column("", 5.0), Column("Port", 40.0, layer="frame"), Column("Serves", 0.0))


def _outlets(plan: Plan) -> list[tuple[str, str]]:
    served = {pipe.start: pipe.end.partition(".")[0] for pipe in plan.job.pipes if pipe.start is not None}
    fed = {pipe.end: f"{pipe.service} supply" for pipe in plan.job.pipes if pipe.start is None}
    return [
        (port.words, served.get(port.name) or fed.get(port.name) or "nothing: blank it")
        for port in plan.ports.values()
        if port.direction is not None
    ]


def _sequence(plan: Plan, made: tuple[Run, ...]) -> list[str]:
    """Common practice, no source."""
    stud = plan.job.wall.is_stud_wall
    what = (
        "Fix noggins or boards for box, elbows and rail."
        if stud
        else "Cut recesses and chases; clean them out."
    )
    return [
        "Measure the wall again. Find cables and pipes with a detector; isolate, lock off, prove dead; shut "
        "off and drain.",
        "Mark centre lines, levels and outlines. Run cold water through the valve in the hand: mark which "
        "outlet port serves what.",
        what,
        *(["Make up what is soldered, away from the valve, and let it cool."] if soldered(made) else []),
        "Set box and elbows plumb and level, at their depth for this finish; fix them.",
        "Lay, wrap and clip the pipes; join them. Hot on the left as seen from the room, unless the maker "
        "says otherwise.",
        "Flush until the water runs clear, then plug every outlet.",
        "Test under pressure, with a witness where the water company wants one. Write the readings down.",
        "Photograph pipes, cables and joints with a tape in the picture.",
        "Fill round box and pipes; close the wall; seal the membrane to box and elbows.",
    ]


def _tests(plan: Plan, made: tuple[Run, ...]) -> list[_Test]:
    """Return how the pipes are tested, by what they are made of."""
    operating, known = _operating(plan)
    regs, standard = _upward(1.5 * operating), _upward(1.65 * operating)
    said = (
        f"the {number(operating)} bar at rest {'that was measured' if known else 'that was assumed: measure'}"
    )
    found = []
    if any(run.tube.material == "copper" for run in made):
        found.append(
            _Test(
                "Metal pipes",
                f"Fill slowly, let the air out, wait 30 min. Pump to {regs} bar (1.5 × {said}) and "
                "shut the pump off. Hold 1 h: no drop, no leak to be seen. Mains may stand higher at night: "
                "the highest that stands counts.",
                "Water Fittings Regs 1999 Sched 2 para 12(2)(a); the wait: a textbook",
            )
        )
        found.append(
            _Test(
                "Or by the standard",
                f"Pump to {standard} bar (1.1 × 1.5 × the same). Hold 10 min: no drop.",
                "EN 806-4 6.1; the 10 min from memory: verify",
            )
        )
    if any(run.tube.material != "copper" for run in made):
        found += [
            _Test(
                "With plastic, test A",
                f"Keep {regs} bar (1.5 × {said}) for 30 min by pumping. Let down to "
                f"{_upward(operating / 2)} bar and shut off. Hold 90 min: it may not fall below that.",
                "Water Fittings Regs 1999 Sched 2 para 12(2)(b), from memory: verify",
            ),
            _Test(
                "Or test B",
                f"Keep {regs} bar for 30 min by pumping, note it, shut off. It may fall by less than 0.6 bar "
                "in the next 30 min, or by less than 0.8 bar in 150 min.",
                "Same, from memory: verify. Which test applies the water company says (WRAS I03)",
            ),
        ]
    joints = [fitting for run in made for fitting in run.fittings]
    found.append(
        _Test(
            "Every joint",
            f"Look at and feel all {len(joints)} fittings while the pressure stands, with dry paper. Where "
            "in doubt leave it on overnight.",
            "common practice, no source",
        )
    )
    return found


def _upward(pressure: float) -> str:
    """Write a test pressure as a gauge is read, to 0.1 bar, and never below what is asked for."""
    return number(math.ceil(round(pressure * 10, 6)) / 10)


ASSUMED = 3.0
"""bar at rest where nothing was measured (common practice, no source)."""


def _operating(plan: Plan) -> tuple[float, bool]:
    supply = plan.job.supply
    return (max(supply.cold.static, supply.hot.static), True) if supply else (ASSUMED, False)


def commissioning(plan: Plan, width: float) -> tuple[Section, ...]:
    """Return what to do at second fix, when the wall is finished."""
    steps = (
        "Flush again; clean the filters; fit plates, head, rail, hose and handset.",
        "Open one outlet after the other: each must serve what its knob says.",
        "Set the stop of the thermostat, then measure at the outlet after two minutes.",
        "Shut the cold off while it runs mixed: the hot must stop within seconds. Open it again.",
        "Shut everything: no drip after five minutes, no meter turning.",
        "Check the fall to the waste with a bucket of water; look under the tray.",
        "Show the user how to shut off, set and clean it. Hand over cut list, as-fitted record, photographs.",
    )
    rows = [["", str(index), text] for index, text in enumerate(steps, 1)]
    pressure, _ = _operating(plan)
    readings = [
        ["Temperature at the handset or head, °C", "41 or less", ""],
        ["Pressure at rest, bar", f"about {number(pressure)}", ""],
        *([f"Flow at {name}, l/min", wanted, ""] for name, wanted in _flows(plan)),
    ]
    signed = ("Name", "Date", "Signed")
    return (
        table("Commissioning, at second fix", _STEPS, rows, width),
        table("Readings", _READINGS, readings, width),
        Section("Commissioned by", blank_lines(signed, width)),
        Section("Handed over to", blank_lines(signed, width)),
        Section(
            "Sources",
            paragraph(
                "41 °C: guidance for thermostatic mixing valves, from memory. Steps: common practice.", width
            ),
        ),
    )


def _flows(plan: Plan) -> list[tuple[str, str]]:
    """Return the outlets, and what comes out of each alone as far as that was worked out."""
    worked_out = {
        name: f"about {number(solution.flow)} alone"
        for shower in (showers(plan) if plan.job.supply else ())
        if isinstance(shower, Shower)
        for name, solution in results(shower.network).alone.items()
    }
    return sorted(worked_out.items()) or [(name, "") for name in sorted({p.fitting.id for p in plan.elbowed})]
