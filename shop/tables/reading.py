"""Reads bytes and a file name into sheets of cells, without knowledge of their meaning."""

from dataclasses import replace
from pathlib import PurePath

from shop.tables import several
from shop.tables.findings import FileError, please_check
from shop.tables.sheets import RawFile

MAX_BYTES = 5 * 1024 * 1024
WORKBOOKS = (".xlsx", ".xlsm", ".xls")
TEXTS = (".csv", ".tsv", ".tab", ".txt")
XML = ".xml"


def read_file(name: str, body: bytes) -> RawFile:
    """Reads a file. Raises FileError if it is too large, empty, not a table, or could harm the reader.

    The content decides the format. A file name that contradicts it is a finding.
    """
    from shop.tables.despatch_advice import read_despatch_advice
    from shop.tables.textfile import read_text
    from shop.tables.workbook import read_workbook

    if not body.strip():
        raise FileError("empty_file")
    if len(body) > MAX_BYTES:
        raise FileError("too_many_bytes", limit=MAX_BYTES // 1024 // 1024)
    file_type = _type_by_first_bytes(body)
    if file_type not in ("zip", ""):
        raise FileError(file_type)
    extension = PurePath(name).suffix.casefold()
    if file_type == "zip" and extension == several.ENDING:
        return several.read_several(name, body, read_file, MAX_BYTES)
    if extension == XML or b"<?xml" in body[:24].replace(b"\0", b""):
        return read_despatch_advice(name, body)
    if extension and extension not in (*WORKBOOKS, *TEXTS):
        raise FileError("unknown_extension", extension=extension)
    file = read_workbook(name, body) if file_type else read_text(name, body)
    if extension in (TEXTS if file_type else WORKBOOKS):
        code = "workbook_named_as_text" if file_type else "text_named_as_workbook"
        return replace(file, notes=(*file.notes, please_check(code, extension=extension)))
    return file


def _type_by_first_bytes(body: bytes) -> str:
    for start, file_type in (
        (b"PK\x03\x04", "zip"),
        (b"PK\x05\x06", "not_a_workbook"),
        (b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1", "old_workbook"),
        (b"%PDF", "not_a_table"),
        (b"\x89PNG", "not_a_table"),
        (b"\xff\xd8\xff", "not_a_table"),
        (b"GIF8", "not_a_table"),
        (b"\x1f\x8b", "not_a_table"),
        (b"{\\rtf", "not_a_table"),
    ):
        if body.startswith(start):
            return file_type
    return ""
