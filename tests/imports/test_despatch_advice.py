"""A DespatchAdvice is read as a table; hostile XML is refused before anything is built of it."""

from decimal import Decimal

import pytest

from shop.tables.despatch_advice import ROOT
from shop.tables.findings import FileError
from shop.tables.reading import MAX_BYTES, read_file
from shop.tables.sheets import RawFile
from shop.tables.xml_tree import MOST_ELEMENTS, MOST_LEVELS, read_xml
from tests import ubl
from tests.imports.despatch import HEAD, packed, slip
from tests.standards import folder

LAUGHS = (
    '<!DOCTYPE x [<!ENTITY a "ha">'
    + "".join(f'<!ENTITY {chr(98 + n)} "{f"&{chr(97 + n)};" * 10}">' for n in range(9))
    + "]>"
)
DECLARED, REST = HEAD.split("\n", 1)


def rows(file: RawFile) -> list[tuple[int, list[object]]]:
    (sheet,) = file.sheets
    return [(line.number, [cell.value for cell in line.cells]) for line in sheet.lines]


def refused(body: str | bytes, name: str = "slip.xml") -> tuple[str, dict[str, str]]:
    with pytest.raises(FileError) as error:
        read_file(name, body if isinstance(body, bytes) else body.encode())
    return error.value.code, dict(error.value.facts)


def test_a_slip_is_a_table_whose_rows_have_the_lines_of_the_file() -> None:
    body = slip("J-1004-1", "2026-12-04", [packed("=A-1", "4", title="Ring &amp; seal"), packed("B", "1.5", "MTR")])
    table = rows(read_file("slip.xml", body.encode()))
    assert table == [
        (4, ["Packing slip", "DN-417"]),
        (6, ["Order", "J-1004-1"]),
        (8, ["Supplier", "Quillfen Supply"]),
        (12, ["Arrives", "2026-12-04"]),
        (13, ["Carton", "Part number", "Description", "Quantity", "Unit"]),
        (14, [None, "=A-1", "Ring & seal", Decimal(4), "pc"]),
        (16, [None, "B", "A part", Decimal("1.5"), "m"]),
    ]
    assert body.splitlines()[13].startswith(" <cac:DespatchLine>")
    in_one = rows(read_file("slip.xml", body.replace("\n", " ").encode()))
    assert [number for number, _ in in_one] == [1, 2, 3, 4, 5, 6, 7]
    wide = rows(read_file("slip.csv", body.replace("UTF-8", "UTF-16").encode("utf-16")))
    assert [cells for _, cells in wide] == [cells for _, cells in table]


def test_each_line_that_cannot_be_read_is_named_by_its_place_in_the_file() -> None:
    lines = [
        packed("A", "", id=7),
        packed("B", "2", "XYZ"),
        packed("C", "two"),
        packed("", "3"),
        packed("D", "0"),
        packed("E", "1e9"),
        packed("F", "1", ""),
    ]
    file = read_file("slip.xml", slip("J-1", "2026-12-04", lines).encode())
    assert [(note.weight, note.code, dict(note.facts)["line"]) for note in file.notes] == [
        ("must_fix", "slip_without_quantity", "14"),
        ("must_fix", "slip_unit_unknown", "16"),
        ("must_fix", "slip_quantity_unreadable", "18"),
        ("must_fix", "slip_without_number", "20"),
        ("please_check", "slip_nothing_packed", "22"),
        ("must_fix", "slip_quantity_unreadable", "24"),
    ]
    assert dict(file.notes[0].facts)["id"] == "7"
    assert [cells[1] for _, cells in rows(file)[5:]] == ["F"]


def test_hostile_xml_is_refused_with_the_line() -> None:
    outside = '<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/passwd">]>'
    assert refused(f"{DECLARED}\n{LAUGHS}\n{REST}<cbc:Note>&j;</cbc:Note></DespatchAdvice>") == ("unsafe_xml", {})
    assert refused(f"{DECLARED}{outside}{REST}<cbc:Note>&a;</cbc:Note></DespatchAdvice>") == ("unsafe_xml", {})
    assert refused(f'{DECLARED}<!DOCTYPE x SYSTEM "http://example.invalid/x.dtd">{REST}</DespatchAdvice>')[0] == (
        "unsafe_xml"
    )
    assert refused(f"{HEAD}<cbc:Note>&nbsp;</cbc:Note></DespatchAdvice>") == ("broken_xml", {"line": "6"})
    deep = HEAD + "\n<a>" * 100_000
    assert refused(deep) == ("xml_too_large", {"line": str(6 + MOST_LEVELS)})
    assert refused(HEAD + "<a/>" * (MOST_ELEMENTS + 1)) == ("xml_too_large", {"line": "6"})
    assert refused(HEAD + "<a>\n</b>")[0] == refused(HEAD)[0] == "broken_xml"
    assert refused(HEAD.encode() + b"<a>\xff\xfe</a></DespatchAdvice>") == ("broken_xml", {"line": "6"})
    for encoding in ("no-such-code", "utf-7", "idna"):
        assert refused(HEAD.replace("UTF-8", encoding) + "</DespatchAdvice>")[0] == "broken_xml"
    assert refused("<?xml version='1.0'?>\n<Invoice/>") == ("another_xml", {"line": "2", "name": "Invoice"})
    assert refused(HEAD.replace("xsd:DespatchAdvice-2", "xsd:DespatchAdvice-3"))[0] == "another_xml"
    assert refused(HEAD + " " * MAX_BYTES)[0] == "too_many_bytes"
    assert refused("Part;Qty\nA;1\n") == ("broken_xml", {"line": "1"})


@pytest.mark.standards
def test_a_published_example_is_read_and_our_own_are_valid() -> None:
    where = folder()
    assert where is not None
    example = (where / "ubl-2.4/xml/UBL-DespatchAdvice-2.0-Example.xml").read_bytes()
    table = [cells for _, cells in rows(read_file("example.xml", example))]
    assert ["Order", "AEG012345"] in table and ["Arrives", "2005-06-21"] in table
    assert table[-1] == [None, "17589683", "beeswax", Decimal(90), "kg"]
    assert ubl.faults(slip("J-1", "2026-12-04", [packed("A", "4")]).encode(), "DespatchAdvice") == []
    assert read_xml(example, ROOT).first("DespatchLine/Item/Name")
