"""Small files for tests: text in any encoding, and workbooks with formulas as a spreadsheet saves them."""

import io
import zipfile
from collections.abc import Iterable, Mapping
from typing import Any

import openpyxl

KIT_HEAD = "Kit number;K-1\nSupplier;Quillfen Supply\n\n"
LINES = "Carton;Bag;Part no.;Description;Qty;Unit;Fits;First needed at\n"


def workbook(
    sheets: Mapping[str, Iterable[Iterable[Any]]],
    merged: Mapping[str, Iterable[str]] | None = None,
    hidden: Iterable[str] = (),
    values: Mapping[str, str] | None = None,
) -> bytes:
    """A workbook. `values` is {formula without "=": its last value}."""
    book = openpyxl.Workbook()
    book.remove(book.active)
    for name, rows in sheets.items():
        page = book.create_sheet(name)
        for row in rows:
            page.append(list(row))
        for reference in (merged or {}).get(name, ()):
            page.merge_cells(reference)
        page.sheet_state = "hidden" if name in hidden else "visible"
    out = io.BytesIO()
    book.save(out)
    return _with_values(out.getvalue(), values) if values else out.getvalue()


def _with_values(body: bytes, values: Mapping[str, str]) -> bytes:
    def seen(name: str, data: bytes) -> bytes:
        for formula, value in values.items():
            for empty in ("<v></v>", "<v />", "<v/>"):
                data = data.replace(f"<f>{formula}</f>{empty}".encode(), f"<f>{formula}</f><v>{value}</v>".encode())
        return data

    return repacked(body, seen)


def repacked(body: bytes, change: Any = None, extra: Mapping[str, bytes] | None = None) -> bytes:
    """The archive with each part replaced by `change(name, data)`, and with `extra` parts."""
    out = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(body)) as old, zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as new:
        for entry in old.infolist():
            data = old.read(entry)
            new.writestr(entry.filename, change(entry.filename, data) if change else data)
        for name, data in (extra or {}).items():
            new.writestr(name, data)
    return out.getvalue()
