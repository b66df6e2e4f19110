"""Making sheets off the window's thread: from a plan that nobody changes, into memory, then into a folder."""

from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from app.attached import missing, with_photographs
from app.panels.work import Work
from export.atomic import write_atomically
from export.pack import PAGES, Made, pack
from export.recorded import RecordedDocument
from export.sheets.options import SheetOptions
from geometry.finding import Finding
from geometry.plan import Plan


class Order(NamedTuple):
    """What is to be made: of which plan, with which choices, which sheets; and where the job lies."""

    plan: Plan
    findings: tuple[Finding, ...]
    options: SheetOptions
    names: tuple[str, ...]
    folder: Path | None = None
    """Of the job's file, beside which its photographs lie."""

    def whole(self) -> "Order":
        """Return the order with the photographs, which are read now."""
        options = with_photographs(self.options, self.plan.job, self.folder, self.names)
        return self._replace(options=options)


def make(order: Order, work: Work) -> list[Made]:
    """Make the sheets one after the other, until given up.

    Raises:
        ValueError: a choice cannot be drawn; says what would do.
    """
    made: list[Made] = []
    work.progress(0, len(order.names))
    for sheet in pack(order.plan, order.findings, order.options, order.names):
        made.append(sheet)
        work.progress(len(made), len(order.names))
        if work.is_given_up:
            break
    return made


class Written(NamedTuple):
    """What was written: where, which files, and how many of them were there before."""

    folder: Path
    files: tuple[Path, ...]
    replaced: int
    lacking: str = ""
    """One sentence about photographs that are not in the record, or nothing."""


def make_and_write(order: Order, folder: Path, work: Work) -> Written:
    """Make all sheets, then write them; nothing is written if one fails or the work is given up.

    Raises:
        ValueError: a choice cannot be drawn; says what would do.
        OSError: a file could not be written; names it.
    """
    order = order.whole()
    made = make(order, work)
    if work.is_given_up:
        return Written(folder, (), 0)
    folder.mkdir(parents=True, exist_ok=True)
    targets = tuple(folder / sheet.filename for sheet in made)
    replaced = sum(target.exists() for target in targets)
    for target, sheet in zip(targets, made, strict=True):
        write_atomically(target, sheet.data)
    return Written(folder, targets, replaced, missing(order.options.pictures))


def lay_out(order: Order, work: Work) -> tuple[Order, list[RecordedDocument]]:
    """Lay out the sheets that have pages, until given up; return them with the order that they answer.

    Raises:
        ValueError: a choice cannot be drawn; says what would do.
    """
    documents: list[RecordedDocument] = []
    names = with_pages(order.names)
    work.progress(0, len(names))
    options = order.whole().options
    for name in names:
        document = RecordedDocument()
        PAGES[name](order.plan, order.findings, options, document)
        documents.append(document)
        work.progress(len(documents), len(names))
        if work.is_given_up:
            break
    return order, documents


def with_pages(names: Sequence[str]) -> tuple[str, ...]:
    """Return those of the sheets that have pages of paper."""
    return tuple(name for name in names if name in PAGES)
