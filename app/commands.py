"""What the commands of the command line do. Each returns an exit code; InputError is for the caller."""

import os
import re
import sys
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

import msgspec

from app.files import InputError, load_catalogue, load_rules, open_plan
from geometry.checks.runner import check as check_plan
from geometry.checks.runner import passes
from geometry.finding import STATUSES, Finding, Limit
from geometry.jobfile import write_job
from geometry.model import Job
from geometry.model.enclosure import Entry
from geometry.parts.catalogue import kind_of
from geometry.plan import Plan
from geometry.questions import open_questions
from geometry.rules import standard_rules
from geometry.rules.rulebook import quantity
from geometry.units import length

if TYPE_CHECKING:
    from export.pack import Made
    from export.sheets.options import SheetOptions


def start(file: Path, tray: str, entry: Entry, wall: str | None) -> int:
    """Write a new job, set out by the trade's rule; a file that is there already is not touched."""
    from export.atomic import write_atomically
    from geometry.setting_out.arrangement import suggested_job

    if os.path.exists(file):
        raise InputError(f"{file}: is there already; choose another name")
    tray_width, projection = _two_sizes("--tray", tray)
    try:
        if wall is None:
            job = suggested_job(tray_width, projection, entry, title=_title(file))
        else:
            job = suggested_job(
                tray_width, projection, entry, *_two_sizes("--wall", wall), title=_title(file)
            )
        write_atomically(file, write_job(job))
    except ValueError as problem:
        raise InputError(f"{file}: {str(problem).lstrip('.')}") from None
    except OSError as problem:
        raise InputError(str(problem)) from None
    print(file)
    return 0


def _title(file: Path) -> str:
    return file.stem[:100] or "Concealed shower"


def _two_sizes(option: str, text: str) -> tuple[float, float]:
    """Read two sizes in mm; a unit that stands behind the second alone is meant for both."""
    parts = re.split(r"[x×X]", text)
    unit = re.search(r'[a-z"]+\s*$', parts[-1], re.IGNORECASE)
    if unit and re.search(r"[\d)]\s*$", parts[0]):
        parts[0] += unit[0]
    try:
        first, second = (length(part) for part in parts)
    except ValueError:
        raise InputError(f"{option}: must be two sizes such as 760x760, got {text[:40]!r}") from None
    return first, second


def check(file: Path, *, whole: bool, as_json: bool) -> int:
    """List the findings of a job: those that want attention, or as a whole with those that are clear."""
    plan = open_plan(file)
    findings = check_plan(plan)
    if as_json:
        report = {
            "job": {"file": str(file), "title": plan.job.about.title},
            "findings": [_plain(finding) for finding in findings],
        }
        print(msgspec.json.format(msgspec.json.encode(report), indent=2).decode())
    else:
        lines = (*_questions(plan.job, findings), *_lines(findings, whole=whole))
        print("\n".join(_wrapped(lines) if sys.stdout and sys.stdout.isatty() else lines))
    return 0 if passes(findings) else 1


def _questions(job: Job, findings: tuple[Finding, ...]) -> Iterator[str]:
    """Yield one line with all that is to be found out at the house, and where in the file it is entered."""
    asked = open_questions(job, findings)
    if asked:
        words = " ".join(f"{one.asked.capitalize()} ({one.answer})" for one in asked)
        yield f"{'ASK':9} {'answer these first':20} {words}"


def _wrapped(lines: Iterable[str]) -> Iterator[str]:
    """Break lines at the terminal's width; what goes on stands under the rule."""
    import shutil
    import textwrap

    wrapper = textwrap.TextWrapper(
        max(shutil.get_terminal_size().columns, 30),
        subsequent_indent=" " * 10,
        break_long_words=False,
        break_on_hyphens=False,
    )
    for line in lines:
        yield from wrapper.wrap(line)


def _plain(finding: Finding) -> dict[str, object]:
    return {
        "rule": finding.rule,
        "status": finding.status,
        "parts": finding.parts,
        "measured": finding.measured,
        "limit": finding.limit,
        "unit": finding.unit,
        "message": finding.message,
        "source": None if finding.source is None else str(finding.source),
    }


def _lines(findings: tuple[Finding, ...], *, whole: bool) -> Iterator[str]:
    for finding in findings:
        if finding.status == "clear" and not whole:
            continue
        values = ""
        if finding.measured is not None and finding.limit is not None:
            measured, limit = (quantity(value, finding.unit) for value in (finding.measured, finding.limit))
            values = f" [{measured} against {limit}; {finding.source}]"
        yield f"{finding.status.upper():9} {finding.rule:20} {finding.message}{values}"
    counts = {status: sum(finding.status == status for finding in findings) for status in STATUSES}
    told = ", ".join(f"{count} {status}" for status, count in counts.items() if count)
    hidden = bool(counts["clear"]) and not whole
    yield (told or "nothing to check") + (" (--all lists what is clear)" if hidden else "")


def pack(
    file: Path,
    folder: Path,
    paper: str,
    scale: int | None,
    only: Sequence[str],
    stretch: tuple[float, float],
) -> int:
    """Write the sheets of a job: all are made before the first is written."""
    from app.attached import missing, with_photographs
    from export.atomic import write_together
    from export.sheets.options import SheetOptions

    plan = open_plan(file)
    try:
        options = SheetOptions(paper=paper, scale=scale, stretch_x=stretch[0], stretch_y=stretch[1])
        options = with_photographs(options, plan.job, file.parent, only)
        made = _made(plan, check_plan(plan), options, only)
    except ValueError as problem:
        raise InputError(f"{file}: {problem}") from None
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except FileExistsError:
        raise InputError(f"{folder}: is a file, not a folder") from None
    except OSError as problem:
        raise InputError(f"{folder}: {problem.strerror or problem}") from None
    if told := missing(options.pictures):
        print(f"{file}: photographs {told}", file=sys.stderr)
    targets = [folder / sheet.filename for sheet in made]
    try:
        write_together(zip(targets, (sheet.data for sheet in made), strict=True))
    except OSError as problem:
        raise InputError(str(problem)) from None
    print(*targets, sep="\n")
    return 0


def _made(
    plan: Plan, findings: tuple[Finding, ...], options: "SheetOptions", only: Sequence[str]
) -> "list[Made]":
    """Make the sheets, the drawing files beside the others: their library takes longest to load."""
    from app.beside import beside
    from export.pack import SHEETS, pack

    asked = tuple(only or SHEETS)
    drawings = [name for name in asked if name in SHEETS and SHEETS[name][0].endswith(".dxf")]
    others = [name for name in asked if name not in drawings]
    if not drawings or not others:
        return list(pack(plan, findings, options, asked))
    with beside(lambda: list(pack(plan, findings, options, drawings))) as drawn:
        made = [*pack(plan, findings, options, others), *drawn()]
    return sorted(made, key=lambda sheet: tuple(SHEETS).index(sheet.sheet))


def parts(*, as_json: bool) -> int:
    """List the parts there are."""
    catalogue = load_catalogue()
    if as_json:
        print(msgspec.json.format(msgspec.json.encode({"parts": list(catalogue)}), indent=2).decode())
    else:
        print("\n".join(f"{part.id:22} {kind_of(part):12} {part.name}" for part in catalogue))
    return 0


def rules(file: Path | None, *, as_json: bool) -> int:
    """List the limits in force: the program's, and those of the user's that override or add to them."""
    if file is not None and not os.path.exists(file):
        raise InputError(f"{file}: No such file or directory")
    limits = [(limit, _is_own(limit)) for limit in load_rules(file)]
    if as_json:
        plain = [_plain_limit(limit, own) for limit, own in limits]
        print(msgspec.json.format(msgspec.json.encode({"rules": plain}), indent=2).decode())
    else:
        wide = max(len(limit.rule) for limit, _ in limits)
        print("\n".join(_limit_line(limit, own, wide) for limit, own in limits))
    return 0


def _is_own(limit: Limit) -> bool:
    standard = standard_rules()
    return limit.rule not in standard or standard[limit.rule] != limit


def _plain_limit(limit: Limit, own: bool) -> dict[str, object]:
    plain: dict[str, object] = msgspec.to_builtins(limit)
    return plain | {"source": str(limit.source), **msgspec.to_builtins(limit.source), "own": own}


def _limit_line(limit: Limit, own: bool, wide: int) -> str:
    bound = f"{limit.sense} {quantity(limit.value, limit.unit, 4)}"
    return f"{limit.rule:{wide}}  {bound:42}  {limit.title} [{limit.source}{', your own' if own else ''}]"
