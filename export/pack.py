"""A job's whole set of sheets: made in memory first, so that a fault leaves nothing half-written."""

from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

from export.sheets.options import SheetOptions
from geometry.finding import Finding
from geometry.plan import Plan


class Made(NamedTuple):
    """One sheet as bytes, with the name of the file that it belongs in."""

    sheet: str
    filename: str
    data: bytes


Maker = Callable[[Plan, tuple[Finding, ...], SheetOptions], bytes]


def _elevation(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.scaled import elevation_sheet

    return elevation_sheet(plan, findings, options)


def _section(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.section import section_sheet

    return section_sheet(plan, findings, options)


def _full_size(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.full_size import full_size_sheet

    return full_size_sheet(plan, findings, options)


def _dxf(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.dxf_elevation import dxf_elevation

    return dxf_elevation(plan, findings, options)


def _supply(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.supply import supply_sheet

    return supply_sheet(plan, findings, options)


def _cut_list(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.cut_list import cut_list_sheet

    return cut_list_sheet(plan, findings, options)


def _order(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.order_list import order_sheet

    return order_sheet(plan, findings, options)


def _order_csv(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.csv import order_csv
    from geometry.quantities.order import order

    return order_csv(order(plan))


def _first_fix(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.first_fix import first_fix_sheet

    return first_fix_sheet(plan, findings, options)


def _as_fitted(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.as_fitted import as_fitted_sheet

    return as_fitted_sheet(plan, findings, options)


def _tiler(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.tiler import tiler_sheet

    return tiler_sheet(plan, findings, options)


def _tile_templates(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.tile_templates import tile_templates_sheet

    return tile_templates_sheet(plan, findings, options)


def _tile_dxf(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.tile_dxf import tile_dxf

    return tile_dxf(plan, findings, options)


def _phone(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.html import phone_page

    return phone_page(plan, findings, options)


def _panels(plan: Plan, findings: tuple[Finding, ...], options: SheetOptions) -> bytes:
    from export.sheets.panel_cutouts import panels_sheet

    return panels_sheet(plan, findings, options)


SHEETS: dict[str, tuple[str, Maker]] = {
    "elevation": ("elevation.pdf", _elevation),
    "section": ("section.pdf", _section),
    "full-size": ("full-size.pdf", _full_size),
    "supply": ("supply.pdf", _supply),
    "dxf": ("elevation_mm.dxf", _dxf),
    "cut-list": ("cut-list.pdf", _cut_list),
    "order": ("order.pdf", _order),
    "order-csv": ("order.csv", _order_csv),
    "first-fix": ("first-fix.pdf", _first_fix),
    "as-fitted": ("as-fitted.pdf", _as_fitted),
    "tiler": ("tiler.pdf", _tiler),
    "tile-templates": ("tile-templates.pdf", _tile_templates),
    "panels": ("panels.pdf", _panels),
    "tile-dxf": ("tiles_mm.dxf", _tile_dxf),
    "phone": ("phone.html", _phone),
}
"""The sheets by name: the file that each is written to, and what makes it."""


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
