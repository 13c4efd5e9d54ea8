"""Downloaded lists: importing them unchanged changes nothing, and the examples can be imported."""

import io
import json
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any

import openpyxl
import pytest
from django.conf import settings
from django.core.management import CommandError, call_command

from kitting.models import Consumable, Kit, KitLine, KitRevision, Offer, Part, Supplier
from shop.calc.rule_changes import difference
from shop.calc.rules_schema import rules_schema
from shop.models import (
    Calendar,
    ClosedDay,
    Customer,
    LabourTemplate,
    Operation,
    OperationCaution,
    OperationPair,
    OperationValue,
    Rate,
    RuleSet,
    Shop,
    TemplateStep,
    Vehicle,
)
from shop.rows import ShopRow
from shop.services import imports
from shop.tables.registry import kinds
from tests.cast import Cast, new_session
from tests.client import CheckedClient
from tests.demo import KITS, saltmarsh_files, take_in
from tests.factories import (
    ConsumableFactory,
    OfferFactory,
    OperationFactory,
    PackFactory,
    SupplierFactory,
    VehicleFactory,
)
from tests.imports.files import workbook
from tests.prepared import prepared
from tests.quotes.stage import make_stage

pytestmark = pytest.mark.once

LISTS = ("customers", "vehicles", "labour", "suppliers", "consumables", "kits", "rules")
EXAMPLES = (*LISTS, "kit")
FOLDER = Path(settings.BASE_DIR) / "fixtures" / "rules"
FEES = [["Code", "Title", "Amount", "Tax class"], ["new", "Washing", "12.00", "fee"]]
PASSING = {"id", "shop_id", "version", "created_at", "changed_at", "updated_at"}
KEPT: dict[str, tuple[type[ShopRow], ...]] = {
    "customers": (Customer,),
    "vehicles": (Vehicle,),
    "labour": (Operation, OperationPair, OperationCaution, OperationValue, LabourTemplate, TemplateStep),
    "suppliers": (Supplier,),
    "kits": (Kit, KitRevision, KitLine, Part),
    "consumables": (Consumable, Part, Offer),
    "rules": (RuleSet, Calendar, ClosedDay, Rate),
}


def taken_out(cast: Cast, kind: str, path: str = "lists", **query: str) -> bytes:
    answer = cast.signed_in("manager").get(path, {"kind": kind, **query})
    assert answer.status_code == 200, answer.content
    return bytes(answer.content)


def rows(kind: str) -> dict[str, list[dict[str, Any]]]:
    """The rows of the list's tables without the names that they get when they are written again."""
    ids = {model._meta.label: [] for model in KEPT[kind]}
    for model in KEPT[kind]:
        for row in model.objects.order_by("id").values():
            ids[model._meta.label].append({name: value for name, value in row.items() if name not in PASSING})
    return {label: sorted(of_model, key=repr) for label, of_model in ids.items()}


@pytest.fixture
def saltmarsh(cast: Cast) -> Cast:
    prepared(_fill, cast.shop)
    return cast


def _fill(shop: Shop) -> None:
    take_in(shop.slug, saltmarsh_files())
    take_in(shop.slug, [("kit", KITS["brakes"]), ("kit", KITS["towing"])])
    Rate.objects.create(shop=shop, currency="NOK", valid_from=date(2026, 11, 2), rate=Decimal("0.0861"))


@pytest.mark.parametrize("kind", LISTS)
def test_a_list_that_comes_back_changes_nothing(saltmarsh: Cast, kind: str, tmp_path: Path) -> None:
    before, first = rows(kind), taken_out(saltmarsh, kind)
    assert all(before[model._meta.label] for model in KEPT[kind])
    file = tmp_path / "list.xlsx"
    file.write_bytes(first)
    call_command("import", kind, str(file), shop=saltmarsh.shop.slug)
    assert rows(kind) == before
    assert cells(taken_out(saltmarsh, kind)) == cells(first)
    text = taken_out(saltmarsh, kind, format="csv")
    assert text.count(b"\r\n\r\n") == sum(sheet.max_row > 1 for sheet in openpyxl.load_workbook(io.BytesIO(first))) - 1
    file = tmp_path / "list.csv"
    file.write_bytes(text)
    call_command("import", kind, str(file), shop=saltmarsh.shop.slug)
    assert rows(kind) == before


def cells(body: bytes) -> dict[str, list[tuple[Any, ...]]]:
    book = openpyxl.load_workbook(io.BytesIO(body))
    return {sheet.title: list(sheet.iter_rows(values_only=True)) for sheet in book}


def lines(cast: Cast, kind: str, sheet: str) -> list[dict[str, Any]]:
    heading, *below = cells(taken_out(cast, kind))[sheet]
    return [dict(zip(heading, row, strict=True)) for row in below]


def test_a_template_is_taken_out_as_its_newest_version_has_it(cast: Cast) -> None:
    work = [OperationFactory(shop=cast.shop, code=code) for code in ("OFF", "ON", "ALONE")]
    for number in (1, 2):
        template = LabourTemplate.objects.create(shop=cast.shop, code="KIT", number=number)
        steps = zip(work[: number + 1], ([], ["OFF"], []), strict=False)
        for position, (operation, after) in enumerate(steps, 1):
            TemplateStep.objects.create(
                shop=cast.shop, template=template, operation=operation, position=position, hours=1, after=after
            )
    written = [(row["operation"], row["after"]) for row in lines(cast, "labour", "templates")]
    assert written == [("OFF", "-"), ("ON", "OFF"), ("ALONE", "-")]  # an empty cell would mean the step above


def test_an_attribute_of_the_shops_own_is_a_column(cast: Cast) -> None:
    VehicleFactory(shop=cast.shop, attributes={"roof rack": "yes"})
    (vehicle,) = lines(cast, "vehicles", "vehicles")
    assert vehicle["attribute: roof rack"] == "yes"


@pytest.mark.parametrize("order", [(0, 1, 2), (2, 1, 0), (1, 0, 2)])
def test_a_pack_is_taken_out_with_its_form_and_the_price_of_its_preferred_supplier(
    cast: Cast, order: tuple[int, ...]
) -> None:
    suppliers = [SupplierFactory(shop=cast.shop, name=name) for name in ("Other", "Preferred", "Third")]
    oil = ConsumableFactory(shop=cast.shop, hazard={"form": "grease", "words": "none classified"})
    pack = PackFactory(shop=cast.shop, consumable=oil, preferred=suppliers[1])
    for day, at in enumerate(order, 1):
        supplier = suppliers[at]
        OfferFactory(shop=cast.shop, part=pack, supplier=supplier, unit_cost=at + 1, valid_from=date(2026, 1, day))
    (row,) = lines(cast, "consumables", "consumables")
    assert (row["form"], row["supplier"], Decimal(row["cost"])) == ("grease", "Preferred", Decimal(2))


def test_a_changed_cell_is_what_changes(saltmarsh: Cast, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    book = openpyxl.load_workbook(io.BytesIO(taken_out(saltmarsh, "labour")))
    sheet = book["operations"]
    headings = [cell.value for cell in sheet[1]]
    sheet.cell(2, headings.index("hours") + 1).value = "7.25"
    code = sheet.cell(2, headings.index("code") + 1).value
    file = tmp_path / "list.xlsx"
    book.save(file)
    before = {row.code: row.book_hours for row in Operation.objects.filter(shop=saltmarsh.shop)}
    call_command("import", "labour", str(file), shop=saltmarsh.shop.slug)
    after = {row.code: row.book_hours for row in Operation.objects.filter(shop=saltmarsh.shop)}
    assert {code: str(hours) for code, hours in after.items() if before[code] != hours} == {code: "7.25"}
    output = capsys.readouterr().out
    assert output.count("stays at version 1: the file changes none of it") == LabourTemplate.objects.count() > 0


@pytest.mark.parametrize("name", ["minimal", "saltmarsh", "copperfell"])
def test_a_sheet_of_rules_changes_what_it_names_and_nothing_else(
    cast: Cast, name: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """Every figure comes back; then a file of a fee and two rules makes the next set of all the others."""
    content = json.loads((FOLDER / f"{name}.json").read_text("utf-8"))
    content |= {"validity_days": 33, "ceiling": {"kind": "percent_capped", "share": "0.125", "cap": "250"}}
    kinds_of_words = set(rules_schema()["properties"]["words"]["properties"]) - {"cautions", "consents"}
    content["words"] = content.get("words", {}) | {kind: [f"Of {kind}."] for kind in kinds_of_words}
    content |= {"markup": content["markup"] | {"step": "0.05"}, "duty_base": "goods_and_freight", "offer": "estimate"}
    RuleSet.objects.create(shop=cast.shop, number=1, valid_from=date(2026, 1, 1), rules=content)
    file = tmp_path / "rules.xlsx"
    file.write_bytes(taken_out(cast, "rules"))
    call_command("import", "rules", str(file), shop=cast.shop.slug)
    assert RuleSet.objects.filter(shop=cast.shop).count() == 1
    file.write_bytes(
        workbook({"Rules": [["Rule", "Value"], ["Margin floor", "21 %"], ["Ceiling cap", "300"]], "Fees": FEES})
    )
    call_command("import", "rules", str(file), shop=cast.shop.slug)
    assert "At most: 250.00 \u2192 300.00" in capsys.readouterr().out
    (changed,) = RuleSet.objects.filter(shop=cast.shop, number=2)
    paths = {change.path for change in difference(content, changed.rules, cast.shop.exponent)}
    assert paths == {"margin_floor", "ceiling.cap", "fees"} and changed.rules["margin_floor"] == "0.21"


def test_a_part_of_rules_is_too_little_for_a_shop_without_any(cast: Cast, tmp_path: Path) -> None:
    file = tmp_path / "rules.xlsx"
    file.write_bytes(workbook({"Fees": FEES}))
    with pytest.raises(CommandError, match="1 problem to fix"):
        call_command("import", "rules", str(file), shop=cast.shop.slug)


@pytest.mark.parametrize("kind", EXAMPLES)
def test_an_example_can_be_imported_and_explains_each_heading(saltmarsh: Cast, kind: str, tmp_path: Path) -> None:
    if kind == "kit":  # its oil is that of the other example
        file = tmp_path / "oil.xlsx"
        file.write_bytes(taken_out(saltmarsh, "consumables", "lists/examples"))
        call_command("import", "consumables", str(file), shop=saltmarsh.shop.slug)
    body = taken_out(saltmarsh, kind, "lists/examples")
    reading = imports.understand(actor=saltmarsh.acting("manager"), kind=kinds()[kind], file_name="x.xlsx", body=body)
    _, findings = imports.look(actor=saltmarsh.acting("manager"), kind=kinds()[kind], reading=reading)
    assert [finding for finding in findings if finding.weight == "must_fix"] == []
    assert {row.table for row in reading.rows} == set(kinds()[kind].example or ()) - {"title"}
    explained = [line[1] for line in cells(body)["Headings"]]
    assert len(explained) == 1 + len(kinds()[kind].title) + sum(len(table.fields) for table in kinds()[kind].tables)


def test_a_text_that_xml_cannot_hold_leaves_the_workbook_whole(cast: Cast) -> None:
    Customer.objects.create(shop=cast.shop, name="A\x01d\ufffea", name_key="ada")
    sheet = openpyxl.load_workbook(io.BytesIO(taken_out(cast, "customers")))["customers"]
    assert sheet[2][0].value == "A\ufffdd\ufffda"


def test_no_text_of_a_list_is_a_formula(cast: Cast) -> None:
    Customer.objects.create(shop=cast.shop, name="=1+1", name_key="1 1", phone="+49 30 1234", phone_key="49301234")
    sheet = openpyxl.load_workbook(io.BytesIO(taken_out(cast, "customers")))["customers"]
    assert [(cell.value, cell.data_type) for cell in sheet[2]][:2] == [("=1+1", "s"), ("+49 30 1234", "s")]
    assert "'=1+1,'+49 30 1234" in taken_out(cast, "customers", format="csv").decode()


def test_a_text_like_a_formula_comes_back_from_csv_as_it_was(cast: Cast, tmp_path: Path) -> None:
    contacts = {"Quillfen Supply": "+49 30 1234", "Brightwater Induction": "= Oda", "Ferrous & Vane": "'s counter"}
    for name, contact in contacts.items():
        SupplierFactory(shop=cast.shop, name=name, contact=contact)
    file = tmp_path / "suppliers.csv"
    file.write_bytes(taken_out(cast, "suppliers", format="csv"))
    call_command("import", "suppliers", str(file), shop=cast.shop.slug)
    assert dict(Supplier.objects.values_list("name", "contact")) == contacts


def test_a_list_has_the_rows_of_its_shop_alone(cast: Cast) -> None:
    Customer.objects.create(shop=cast.elsewhere, name="Isolde Martens", name_key="isolde martens")
    assert len(cells(taken_out(cast, "customers"))["customers"]) == 1


@pytest.mark.parametrize(
    ("path", "query"),
    [
        ("lists", {}),
        ("lists", {"kind": "nothing"}),
        ("lists", {"kind": "kit"}),
        ("lists/examples", {"kind": "nothing"}),
    ],
)
def test_what_there_is_not_is_refused(cast: Cast, path: str, query: dict[str, str]) -> None:
    answer = cast.signed_in("manager").get(path, query)
    assert (answer.status_code, answer.json()["errors"][0]["pointer"]) == (400, "/kind")


def test_only_the_manager_takes_out_what_decides_prices(cast: Cast) -> None:
    for kind in ("labour", "rules", "suppliers"):
        assert cast.signed_in("advisor").get("lists", {"kind": kind}).status_code == 403
    assert cast.signed_in("advisor").get("lists", {"kind": "consumables"}).status_code == 200


OUT = ("jobs", "quotes")


def out_rows(client: CheckedClient, kind: str) -> list[dict[str, Any]]:
    body = client.get("lists", {"kind": kind}).content
    heading, *below = cells(body)[kind]
    return [dict(zip(heading, row, strict=True)) for row in below]


def test_quotes_and_jobs_leave_for_a_spreadsheet(cast: Cast) -> None:
    stage = make_stage(cast)
    sent, accepted = stage.sent()["quote"], stage.accepted()["quote"]
    advisor = cast.signed_in("advisor")
    quotes = {row["quote"]: row for row in out_rows(advisor, "quotes")}
    first, second = quotes[sent["number"]], quotes[accepted["number"]]
    assert (first["state"], first["customer"], first["job"]) == ("sent", "Maren Oldacre", None)
    assert Decimal(str(first["total"])) == Decimal(sent["totals"]["gross"])
    [job] = out_rows(advisor, "jobs")
    assert (second["state"], second["job"], second["state of the job"]) == ("accepted", job["job"], "accepted")
    assert job["customer"] == "Maren Oldacre" and job["hours sold"] > 0 and len(job["opened"]) == 10
    text = advisor.get("lists", {"kind": "quotes", "format": "csv"}).content.decode()
    assert text.startswith("\ufeffquote,version,state,customer") and sent["number"] in text


def test_no_text_of_a_quote_is_a_formula(cast: Cast) -> None:
    stage = make_stage(cast)
    stage.sent()
    Customer.objects.filter(shop=cast.shop).update(name='=HYPERLINK("a")')
    advisor = cast.signed_in("advisor")
    sheet = openpyxl.load_workbook(io.BytesIO(advisor.get("lists", {"kind": "quotes"}).content))["quotes"]
    assert [(cell.value, cell.data_type) for cell in sheet[2]][3] == ('=HYPERLINK("a")', "s")
    assert "'=HYPERLINK" in advisor.get("lists", {"kind": "quotes", "format": "csv"}).content.decode()


@pytest.mark.parametrize("kind", OUT)
def test_lists_of_a_shop_are_for_its_counter_alone_and_name_no_cost(cast: Cast, kind: str) -> None:
    make_stage(cast).accepted()
    for role in ("parts", "technician"):
        assert cast.signed_in(role).get("lists", {"kind": kind}).status_code == 403
    assert out_rows(cast.signed_in("advisor"), kind)
    headings = " ".join(out_rows(cast.signed_in("advisor"), kind)[0])
    assert not [word for word in ("cost", "margin", "profit") if word in headings]
    stranger = CheckedClient(shop=cast.elsewhere.slug)
    stranger.cookies["sessionid"] = new_session(cast.stranger.user)
    assert out_rows(stranger, kind) == []


def test_a_list_to_read_takes_as_many_queries_for_ten_quotes_as_for_one(
    cast: Cast, django_assert_max_num_queries: Any
) -> None:
    stage = make_stage(cast)
    stage.accepted()
    for _ in range(9):
        stage.sent()
    advisor = cast.signed_in("advisor")
    for kind in OUT:
        with django_assert_max_num_queries(12):
            assert advisor.get("lists", {"kind": kind}).status_code == 200


def test_a_list_of_any_length_takes_at_most_sixteen_queries(cast: Cast, django_assert_max_num_queries: Any) -> None:
    take_in(cast.shop.slug, saltmarsh_files())
    for kind in LISTS:
        with django_assert_max_num_queries(16):
            taken_out(cast, kind)
