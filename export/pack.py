"""A job's whole set of sheets: made in memory first, so that a fault leaves nothing half-written."""

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from export.document import Document
from export.sheets.options import SheetOptions
from geometry.finding import Finding
from geometry.plan import Plan


class Made(NamedTuple):
    """One sheet as bytes, with the name of the file that it belongs in."""

    sheet: str
    filename: str
    data: bytes


LayOut = Callable[[Plan, tuple[Finding, ...], SheetOptions, Document], None]
"""Lays a sheet out on the pages of a document."""
Maker = Callable[[Plan, tuple[Finding, ...], SheetOptions], bytes]
"""Makes the bytes of a sheet's file."""


def _elevation(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document) -> None:
    from export.sheets.scaled import elevation_sheet

    elevation_sheet(plan, findings, options, document)


def _section(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document) -> None:
    from export.sheets.section import section_sheet

    section_sheet(plan, findings, options, document)


def _full_size(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document) -> None:
    from export.sheets.full_size import full_size_sheet

    full_size_sheet(plan, findings, options, document)


def _dxf(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.dxf_elevation import dxf_elevation

    return dxf_elevation(plan, findings, options)


def _supply(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document) -> None:
    from export.sheets.supply import supply_sheet

    supply_sheet(plan, findings, options, document)


def _cut_list(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document) -> None:
    from export.sheets.cut_list import cut_list_sheet

    cut_list_sheet(plan, findings, options, document)


def _order(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document) -> None:
    from export.sheets.order_list import order_sheet

    order_sheet(plan, findings, options, document)


def _order_csv(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.csv import order_csv
    from geometry.quantities.order import order

    return order_csv(order(plan))


def _first_fix(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document) -> None:
    from export.sheets.first_fix import first_fix_sheet

    first_fix_sheet(plan, findings, options, document)


def _as_fitted(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document) -> None:
    from export.sheets.as_fitted import as_fitted_sheet

    as_fitted_sheet(plan, findings, options, document)


def _tiler(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document) -> None:
    from export.sheets.tiler import tiler_sheet

    tiler_sheet(plan, findings, options, document)


def _tile_templates(
    plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document
) -> None:
    from export.sheets.tile_templates import tile_templates_sheet

    tile_templates_sheet(plan, findings, options, document)


def _tile_dxf(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.tile_dxf import tile_dxf

    return tile_dxf(plan, findings, options)


def _phone(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.html import phone_page

    return phone_page(plan, findings, options)


def _panels(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, document: Document) -> None:
    from export.sheets.panel_cutouts import panels_sheet

    panels_sheet(plan, findings, options, document)


PAGES: dict[str, LayOut] = {
    "elevation": _elevation,
    "section": _section,
    "full-size": _full_size,
    "supply": _supply,
    "cut-list": _cut_list,
    "order": _order,
    "first-fix": _first_fix,
    "as-fitted": _as_fitted,
    "tiler": _tiler,
    "tile-templates": _tile_templates,
    "panels": _panels,
}
"""The sheets of paper by name, and what lays each out."""


def _pdf(name: str) -> tuple[str, Maker]:
    """Return the file of a sheet of paper, and what makes it."""

    def make(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
        from export.pdf import PdfDocument

        document = PdfDocument()
        PAGES[name](plan, findings, options, document)
        return document.to_bytes()

    return f"{name}.pdf", make


SHEETS: dict[str, tuple[str, Maker]] = {
    "elevation": _pdf("elevation"),
    "section": _pdf("section"),
    "full-size": _pdf("full-size"),
    "supply": _pdf("supply"),
    "dxf": ("elevation_mm.dxf", _dxf),
    "cut-list": _pdf("cut-list"),
    "order": _pdf("order"),
    "order-csv": ("order.csv", _order_csv),
    "first-fix": _pdf("first-fix"),
    "as-fitted": _pdf("as-fitted"),
    "tiler": _pdf("tiler"),
    "tile-templates": _pdf("tile-templates"),
    "panels": _pdf("panels"),
    "tile-dxf": ("tiles_mm.dxf", _tile_dxf),
    "phone": ("phone.html", _phone),
}
"""All sheets by name: the file that each is written to, and what makes it."""


def pack(
    plan: Plan, findings: tuple[Finding, ...], options: SheetOptions, only: Sequence[str] = ()
) -> Iterator[Made]:
    """Make the sheets one after the other, so that a caller can show progress.

    Args:
        plan: the job with its parts.
        findings: of its checks, which the sheets list.
        options: paper, scale, stretch.
        only: names of sheets; all if empty.

    Raises:
        ValueError: a name is not a sheet, or a choice cannot be drawn; says which.
    """
    for name in only:
        if name not in SHEETS:
            raise ValueError(f"no sheet is called {name!r}; there are {', '.join(SHEETS)}")
    for name, (filename, make) in SHEETS.items():
        if not only or name in only:
            yield Made(name, filename, make(plan, findings, options))
