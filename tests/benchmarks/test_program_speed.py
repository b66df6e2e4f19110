"""How long the program takes, as ratios to a bare-library baseline in the same run.

Run with `python -m pytest tests/benchmarks -s`; the machines differ, the ratios should not.
"""

import os
import subprocess
import sys
import time
from pathlib import Path

import pytest

from geometry.checks.runner import check
from geometry.model import Job, Wall
from geometry.parts.catalogue import generic_parts
from geometry.plan import Plan
from geometry.rules import standard_rules
from geometry.setting_out.arrangement import suggested_job
from tests.samples import SAMPLES, sample_job, sample_path

RUNS = 7


def seconds(*codes: str) -> list[float]:
    """The least time that a fresh Python takes for each, run in turns so that noise meets all alike.

    Modules are kept compiled, as they are for users.
    """
    environment = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    times: list[list[float]] = [[] for _ in codes]
    for _ in range(RUNS + 1):
        for code, taken in zip(codes, times, strict=True):
            begun = time.perf_counter()
            subprocess.run(
                [sys.executable, "-c", code], check=True, stdout=subprocess.DEVNULL, env=environment
            )
            taken.append(time.perf_counter() - begun)
    return [min(taken[1:]) for taken in times]


def program(*arguments: str) -> str:
    """What the console script does with these arguments."""
    return f"import sys; sys.argv[1:] = {list(arguments)!r}; from app.cli import run; run()"


def test_check_takes_at_most_twice_starting_python_and_importing_shapely() -> None:
    bare, ours = seconds("import shapely", program("check", str(sample_path("alcove-760"))))
    print(f"\ncheck: {ours * 1000:.0f} ms, bare {bare * 1000:.0f} ms, ratio {ours / bare:.2f}")
    assert ours <= 2 * bare


BARE_PACK = """
import io, shapely, ezdxf
from reportlab.pdfgen.canvas import Canvas
for pages, lines in {pdfs}:
    canvas = Canvas(io.BytesIO())
    for _ in range(pages):
        for i in range(lines // pages + 1):
            canvas.line(i, 0, i, 100)
        canvas.showPage()
    canvas.save()
for lines in {dxfs}:
    document = ezdxf.new()
    space = document.modelspace()
    for i in range(lines):
        space.add_line((i, 0), (i, 100))
    document.write(io.StringIO())
"""
"""As many files of each kind, pages and lines as the pack has, by the bare libraries."""


MAIN = ("elevation", "section", "full-size", "dxf")
"""The sheets of the main job: what is marked on the wall, and its drawing file."""


@pytest.mark.parametrize("only", [MAIN, ()], ids=["main sheets", "whole pack"])
def test_pack_takes_at_most_twice_the_libraries_and_as_many_bare_lines(
    only: tuple[str, ...], tmp_path: Path
) -> None:
    command = ["pack", str(sample_path("alcove-760")), "-o", str(tmp_path)]
    command += ["--only", *only] if only else []
    subprocess.run([sys.executable, "-c", program(*command)], check=True, stdout=subprocess.DEVNULL)
    bare, ours = seconds(
        BARE_PACK.format(pdfs=_pages_and_lines(tmp_path), dxfs=_entities(tmp_path)), program(*command)
    )
    print(f"\npack: {ours * 1000:.0f} ms, bare {bare * 1000:.0f} ms, ratio {ours / bare:.2f}")
    assert ours <= 2 * bare


def _pages_and_lines(folder: Path) -> list[tuple[int, int]]:
    """How many pages each PDF has, and how many straight lines and lines of text stand on them."""
    import pdfplumber

    found = []
    for path in sorted(folder.glob("*.pdf")):
        with pdfplumber.open(path) as document:
            drawn = [each for page in document.pages for each in (*page.lines, *page.curves, *page.rects)]
            straight = sum(len(each["pts"]) - 1 for each in drawn)
            texts = sum(len(page.extract_text_lines(strip=False)) for page in document.pages)
            found.append((len(document.pages), straight + texts))
    return found


def _entities(folder: Path) -> list[int]:
    """How many entities each DXF has in its model, sheet and blocks; a polyline counts for its lines."""
    from ezdxf.entities.lwpolyline import LWPolyline
    from ezdxf.filemanagement import readfile

    return [
        sum(
            max(1, len(entity) - 1) if isinstance(entity, LWPolyline) else 1
            for block in readfile(path).blocks
            for entity in block
        )
        for path in sorted(folder.glob("*.dxf"))
    ]


def many(count: int) -> Job:
    """A wall with so many showers side by side, 900 mm apart."""
    one = suggested_job(760, 760, "left", 1500)
    fittings, hoses, pipes = [], [], []
    for number in range(count):
        dx, names = 900.0 * number, {f.id: f"{f.id}-{number}" for f in one.fittings}

        def renamed(end: str | None, names: dict[str, str] = names) -> str | None:
            return None if end is None else f"{names[end.partition('.')[0]]}.{end.partition('.')[2]}"

        fittings += [f.but(id=names[f.id], x=f.x + dx) for f in one.fittings]
        hoses += [h.but(id=f"{h.id}-{number}", outlet=names[h.outlet], rail=names[h.rail]) for h in one.hoses]
        pipes += [
            p.but(
                id=f"{p.id}-{number}",
                start=renamed(p.start),
                end=renamed(p.end),
                route=tuple((x + dx, y) for x, y in p.route),
            )
            for p in one.pipes
        ]
    return one.but(
        wall=Wall(width=min(20_000.0, 900.0 * count + 200), height=2400, thickness=140),
        fittings=tuple(fittings),
        hoses=tuple(hoses),
        pipes=tuple(pipes),
    )


def warm_milliseconds(job: Job) -> float:
    """The best time of deriving and checking a job in which one fitting has just moved."""
    catalogue, rules = generic_parts(), standard_rules()
    rail = next(f for f in job.fittings if f.id.startswith("rail"))
    times = []
    for step in range(12):
        moved = job.moved(rail.id, rail.x + 0.1 * step, rail.height)
        begun = time.perf_counter()
        check(Plan(moved, catalogue, rules))
        times.append(time.perf_counter() - begun)
    return 1000 * min(times)


@pytest.mark.parametrize("name", SAMPLES)
def test_a_warm_job_is_derived_and_checked_at_drag_speed(name: str) -> None:
    taken = warm_milliseconds(sample_job(name))
    print(f"\n{name}: {taken:.1f} ms")
    assert taken < 16


def test_ten_times_as_much_takes_at_most_twelve_times_as_long() -> None:
    one, ten = warm_milliseconds(many(2)), warm_milliseconds(many(20))
    print(f"\n2 showers {one:.1f} ms, 20 showers {ten:.1f} ms, ratio {ten / one:.1f}")
    assert ten <= 12 * one
