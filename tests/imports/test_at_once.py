"""All problems of a file are reported at once: unreadable cells, and conflicts with the shop."""

import pytest

from shop.access import Actor
from shop.models import Operation, Rate, Shop
from shop.services.imports import look, understand
from shop.tables.registry import kinds
from tests.cast import make_shop
from tests.imports.files import workbook


@pytest.fixture
def bay(db: None) -> Shop:
    return make_shop("bay", "Bay")


def findings_of(shop: Shop, kind: str, body: str | bytes) -> list[tuple[str, str, str]]:
    actor = Actor(shop=shop, member=None, channel="command")
    body = body.encode() if isinstance(body, str) else body
    reading = understand(actor=actor, kind=kinds()[kind], file_name="list.csv", body=body)
    planned, findings = look(actor=actor, kind=kinds()[kind], reading=reading)
    if any(finding.weight == "must_fix" for finding in reading.findings):
        assert planned.becomes == ()
    return [(finding.weight, finding.code, finding.cell) for finding in findings if finding.weight != "done_for_you"]


KIT = "Kit number;K-1\n\nPart no;Qty;First needed at\n"


def test_a_quantity_that_is_none_and_an_operation_nobody_knows(bay: Shop) -> None:
    assert findings_of(bay, "kit", KIT + "A-1;a few;\nA-2;2;NONE-1\nA-3;some;NONE-2\n") == [
        ("must_fix", "not_a_number", "B4"),
        ("must_fix", "not_a_number", "B6"),
        ("please_check", "operation_not_known", "C5"),
        ("please_check", "operation_not_known", "C6"),
    ]


def test_a_problem_of_the_file_and_one_of_the_shop(bay: Shop) -> None:
    needs = "\nFamily;Quantity;Charged\nBrake fluid;1 L;pack\n"
    assert findings_of(bay, "kit", KIT + "A-1;a few;\n" + needs) == [
        ("must_fix", "not_a_number", "B4"),
        ("must_fix", "consumable_unknown", "A7"),
    ]


def test_a_row_that_cannot_be_read_is_not_compared_by_what_it_lacks(bay: Shop) -> None:
    needs = "\nFamily;Specification;Quantity;Charged\nBrake fluid;{};1 L;pack\n".format("x" * 81)
    assert findings_of(bay, "kit", KIT + "A-1;1;\n" + needs) == [("must_fix", "too_long", "B7")]


def test_a_unit_that_cannot_be_read_contradicts_no_other(bay: Shop) -> None:
    packs = "Family;Specification;Unit;Number;Pack size\nGel;blue;per m;C-1;1\nGel;blue;L;C-2;1\nGel;blue;g;C-3;1\n"
    assert findings_of(bay, "consumables", packs) == [
        ("must_fix", "unknown_unit", "C2"),
        ("must_fix", "unit_not_as_before", "C4"),
    ]
    lines = "Kit number;K-1\n\nBag;Part no;Qty;Unit\n1;H-1;1,5;per m\n2;H-1;3;m\n"
    assert findings_of(bay, "kit", lines) == [("must_fix", "unknown_unit", "D4")]


def test_an_owner_nobody_knows_beside_a_bad_capacity(bay: Shop) -> None:
    body = "Vehicle;Customer;Coolant\nTarn 35;;much\nMere 20;Ada Quill;6 L\n"
    assert findings_of(bay, "vehicles", body) == [
        ("must_fix", "not_a_number", "C2"),
        ("must_fix", "customer_unknown", "B3"),
    ]


def test_an_operation_in_a_row_with_bad_hours_is_there_all_the_same(bay: Shop) -> None:
    head = "Code;Title;Skill;Hours;Includes\n"
    body = head + 'TURBO;Fit;mechanical;long;\nALL;All;mechanical;2;"TURBO; NONE"\n'
    assert findings_of(bay, "labour", body) == [
        ("must_fix", "not_a_number", "D2"),
        ("must_fix", "operation_unknown", "E3"),
    ]
    assert not Operation.objects.exists()


def test_rows_without_a_code_overlap_nothing(bay: Shop) -> None:
    head = "Code;Title;Skill;Hours;Overlaps\n"
    body = head + ";One;mechanical;1;WASH 0.5\n;Two;mechanical;1;WASH 0.4\nWASH;Wash;mechanical;1;\n"
    assert [finding[1:] for finding in findings_of(bay, "labour", body)] == [
        ("missing_value", "A2"),
        ("missing_value", "A3"),
    ]


def test_a_rate_that_stands_already_beside_a_bad_one(bay: Shop) -> None:
    Rate.objects.create(shop=bay, currency="USD", valid_from="2026-11-02", rate="0.91")
    body = "Currency;Valid from;Rate\nUSD;2026-11-02;0.92\nCAD;2026-11-02;high\n"
    assert findings_of(bay, "rules", body) == [
        ("must_fix", "not_a_number", "C3"),
        ("must_fix", "rate_already_there", "C2"),
    ]


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (b"", "empty_file"),
        (b"%PDF-1.7", "not_a_table"),
        (workbook({"S": []}), "empty_file"),
        (b"alpha;beta\n1;2\n", "no_headings"),
    ],
)
@pytest.mark.parametrize(
    "kind", ["consumables", "customers", "kit", "kits", "labour", "rules", "suppliers", "vehicles"]
)
def test_a_file_that_cannot_be_read_has_one_problem(bay: Shop, kind: str, body: bytes, code: str) -> None:
    assert findings_of(bay, kind, body) == [("must_fix", code, "")]


def test_headings_without_rows_are_one_problem(bay: Shop) -> None:
    assert findings_of(bay, "rules", "Skill;Rate\n") == [("must_fix", "only_headings", "")]
    assert findings_of(bay, "kit", "Part no;Qty\n") == [("must_fix", "only_headings", "")]


def test_a_missing_column_and_a_missing_kit_number_are_two(bay: Shop) -> None:
    codes = [finding[1] for finding in findings_of(bay, "kit", "Part no;Description;Bag\nA;Bolt;1\n")]
    assert codes == ["column_missing", "kit_without_code"]
