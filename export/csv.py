"""Comma-separated lists, as spreadsheets read them: UTF-8 with its mark, CRLF, numbers with a point.

A text that a spreadsheet would take for a sum is kept a text by an apostrophe before it.
"""

import csv
import io
from collections.abc import Sequence

from geometry.quantities.order import Item
from geometry.units import number

_SUMS = ("=", "+", "-", "@", "\t", "\r")


def csv_bytes(head: Sequence[str], rows: Sequence[Sequence[str | float]]) -> bytes:
    """Return a table as a file's bytes."""
    held = io.StringIO(newline="")
    writer = csv.writer(held)
    writer.writerow(head)
    for row in rows:
        writer.writerow([number(cell, 3) if isinstance(cell, float | int) else _plain(cell) for cell in row])
    return held.getvalue().encode("utf-8-sig")


def order_csv(items: Sequence[Item]) -> bytes:
    """Return an order list."""
    head = ("Group", "Item", "Amount", "Unit", "Note")
    return csv_bytes(head, [(item.group, item.what, item.amount, item.unit, item.note) for item in items])


def _plain(text: str) -> str:
    return f"'{text}" if text.startswith(_SUMS) else text
