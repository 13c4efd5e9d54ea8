"""The demonstration files, imported by both shops, once and then again."""

import re
from collections.abc import Iterator
from datetime import UTC, date, datetime
from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest
from django.conf import settings
from django.core.management import CommandError, call_command
from django.db import transaction

from kitting.models import Code, Consumable, Kit, KitLine, KitRevision, Need, Offer, Part, ReusedPart, Supplier
from shop.calc.rules import Rules
from shop.models import (
    Calendar,
    Customer,
    FileRead,
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
from shop.tables.values import gtin_is_right
from tests.cast import make_shop
from tests.search_words import right_words, stored_words

DEMO = settings.BASE_DIR / "fixtures" / "demo"
OWN = ("rules", "customers", "vehicles", "labour", "operations", "templates", "consumables")
KITS = sorted((DEMO / "suppliers").iterdir())


def take_in(kind: str, file: Path, slug: str, **options: object) -> None:
    call_command("import", kind, file, shop=slug, **options)


def own_files(slug: str) -> list[tuple[str, Path]]:
    return [
        ("labour" if name in ("operations", "templates") else name, path)
        for name in OWN
        for path in sorted((DEMO / slug).glob(f"{name}.*"))
    ]


def load(slug: str, name: str, currency: str) -> None:
    make_shop(slug, name)
    Shop.objects.filter(slug=slug).update(currency=currency)
    for kind, path in own_files(slug):
        take_in(kind, path, slug)
    for path in KITS:
        take_in("kit", path, slug)


@pytest.fixture(scope="module")
def loaded(django_db_setup: None, django_db_blocker: Any) -> Iterator[None]:
    """Both workshops, imported once for this module. Each test's changes are rolled back to this state."""
    with django_db_blocker.unblock():
        around = transaction.atomic()
        around.__enter__()
        load("saltmarsh", "Saltmarsh Lane Motor Works", "EUR")
        load("copperfell", "Copper Fell Fitting", "USD")
    yield
    with django_db_blocker.unblock():
        transaction.set_rollback(True)
        around.__exit__(None, None, None)


@pytest.fixture
def saltmarsh(loaded: None, db: None) -> Shop:
    return Shop.objects.get(slug="saltmarsh")


@pytest.fixture
def copperfell(loaded: None, db: None) -> Shop:
    return Shop.objects.get(slug="copperfell")


@pytest.fixture
def bare(loaded: None, db: None) -> Shop:
    """An empty shop."""
    return make_shop("bare", "Bare Bay")


def test_a_workshop_comes_in_whole(saltmarsh: Shop) -> None:
    own = {"shop": saltmarsh}
    assert Customer.objects.filter(**own).count() == 14 and Vehicle.objects.filter(**own).count() == 15
    assert Operation.objects.filter(**own).count() == 65 and LabourTemplate.objects.filter(**own).count() == 3
    assert Consumable.objects.filter(**own).count() == 30 and Part.objects.filter(kind="pack", **own).count() == 48
    assert {kit.code: parts_of(kit) for kit in Kit.objects.filter(**own)} == {
        "BI-TC35-A": 190,
        "FV-BB356": 60,
        "QF-ATC45": 47,
    }
    assert FileRead.objects.filter(state="taken", **own).count() == 8
    assert Rules.from_json(RuleSet.objects.get(**own).rules).prices_include_tax
    assert Calendar.objects.get(**own).week["fri"] == [["08:00", "12:00"], ["13:00", "16:00"]]


def test_what_is_imported_is_found_by_its_words(saltmarsh: Shop, tmp_path: Path) -> None:
    assert stored_words() == right_words()
    take_in("kit", edited(tmp_path, ("big-brake", "large-brake")), "saltmarsh")
    take_in("consumables", DEMO / "saltmarsh" / "consumables.xlsx", "saltmarsh")
    assert stored_words() == right_words()
    assert Kit.objects.filter(shop=saltmarsh, search_words__word="large").exists()
    assert not Kit.objects.filter(shop=saltmarsh, search_words__word="bigbrake").exists()


def parts_of(kit: Kit) -> int:
    return KitLine.objects.filter(revision__kit=kit, kind="part").count()


def test_a_kit_is_a_tree_of_cartons_bags_and_parts(saltmarsh: Shop) -> None:
    rows = KitLine.objects.filter(shop=saltmarsh, revision__kit__code="BI-TC35-A").order_by("position")
    rows = rows.select_related("parent")
    kinds = [row.kind for row in rows]
    assert (kinds.count("carton"), kinds.count("bag"), kinds[:3]) == (5, 24, ["carton", "bag", "part"])
    for row in rows:
        assert row.parent is None or row.parent.position < row.position
        assert row.kind != "part" or row.parent is not None
    pipe = rows.get(part__number="BI-PIP-2220")
    assert pipe.conditions == [{"attribute": "transmission", "in": ["automatic"]}] and pipe.parent.label == "2-10"
    assert rows.get(part__number="002240").operation.code == "TC-06"
    assert rows.get(part__number="BI-TIE-3620", role="spare").quantity == Decimal(10)


def test_a_kit_brings_its_price_its_labour_and_what_else_it_needs(saltmarsh: Shop) -> None:
    revision = KitRevision.objects.get(shop=saltmarsh, kit__code="BI-TC35-A")
    assert (revision.labour.code, revision.labour.shop, revision.number) == ("TC35-FIT", saltmarsh, 1)
    assert revision.kit.fits == [{"attribute": "model", "in": ["T35"]}]
    offer = Offer.objects.get(part=revision.kit.part)
    assert (offer.unit_cost, offer.currency, offer.duty_rate) == (Decimal(4386), "EUR", Decimal("0.027"))
    assert revision.kit.part.preferred.name == offer.supplier.name == "Brightwater Induction"
    assert KitLine.objects.get(revision=revision, part__number="BI-TRB-3501").part.preferred == offer.supplier
    refill = Need.objects.get(revision=revision, rule="refill")
    assert (refill.consumable.family, refill.basis, refill.quantity) == (
        "Coolant concentrate",
        "coolant",
        Decimal("0.4"),
    )
    nut = Need.objects.get(revision=revision, part__number="T35-NUT-1008")
    assert nut.quantity == 3 and Offer.objects.get(part=nut.part).unit_cost == Decimal("1.15")
    assert nut.part.preferred.name == "Quillfen Supply"
    sensor = ReusedPart.objects.get(revision=revision, title="Oxygen sensor, front")
    assert (sensor.off_at.code, sensor.back_at.code) == ("TC-02", "TC-11")


def test_a_price_holds_from_the_shops_own_day(
    copperfell: Shop, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    Shop.objects.filter(pk=copperfell.pk).update(zone="America/Toronto")
    monkeypatch.setattr("django.utils.timezone.now", lambda: datetime(2026, 11, 25, 3, 0, tzinfo=UTC))
    (tmp_path / "kit.csv").write_text("Kit;K-5\nSupplier;Quillfen Supply\nPrice;10\n\nPart no;Qty\nA-1;2\n")
    take_in("kit", tmp_path / "kit.csv", "copperfell")
    assert Offer.objects.get(shop=copperfell, part__number="K-5").valid_from == date(2026, 11, 24)


def test_every_barcode_of_the_demonstration_is_a_right_one(saltmarsh: Shop) -> None:
    codes = list(Code.objects.filter(shop=saltmarsh).values_list("code", flat=True))
    assert len(codes) > 250
    assert all(len(code) == 14 and code.startswith("0952") and gtin_is_right(code) for code in codes)


def test_operations_include_and_overlap(saltmarsh: Shop) -> None:
    rows = OperationPair.objects.filter(shop=saltmarsh).select_related("operation", "other")
    pairs = {(pair.kind, pair.operation.code, pair.other.code): pair.hours for pair in rows}
    assert pairs["includes", "TC-10", "GEN-11"] is None and pairs["overlap", "QT-06", "TC-12"] == Decimal("0.4")
    step = TemplateStep.objects.get(shop=saltmarsh, template__code="TC35-FIT", operation__code="TC-21")
    assert step.conditions == [{"attribute": "transmission", "in": ["automatic"]}] and step.after == ["TC-12"]


def test_a_shop_that_buys_abroad_has_its_rates(copperfell: Shop) -> None:
    assert Rate.objects.filter(shop=copperfell).count() == 3 and Kit.objects.filter(shop=copperfell).count() == 3
    rules = Rules.from_json(RuleSet.objects.get(shop=copperfell).rules)
    assert not rules.prices_include_tax and len(rules.taxes) == 2
    assert "labour" not in rules.taxes[1].tax.classes and "fabrication" in rules.taxes[1].tax.classes


def test_the_demonstration_can_price_a_kit_and_its_labour(copperfell: Shop) -> None:
    """Every skill has a rate, and the rules have every tax class that is used."""
    rules = Rules.from_json(RuleSet.objects.get(shop=copperfell).rules)
    skills = set(Operation.objects.filter(shop=copperfell).values_list("skill", flat=True))
    assert skills == set(rules.labour_rates)
    used = set(Consumable.objects.filter(shop=copperfell).values_list("tax_class", flat=True)) - {""}
    assert used <= set(rules.tax_classes())


def test_taking_the_same_files_in_again_doubles_nothing(saltmarsh: Shop) -> None:
    before = counts()
    for kind, path in own_files("saltmarsh"):
        take_in(kind, path, "saltmarsh")
    assert counts() == before
    take_in("kit", KITS[0], "saltmarsh")
    assert counts()[:-1] == before[:-1] and counts()[-1] == before[-1] + 1


def counts() -> list[int]:
    labour = (Operation, OperationCaution, OperationPair, OperationValue, LabourTemplate)
    models = (Customer, Vehicle, *labour, RuleSet, Consumable, Part, Code, Offer)
    return [model.objects.count() for model in (*models, KitRevision)]


def test_one_shops_rows_do_not_mix_with_anothers(bare: Shop) -> None:
    with pytest.raises(CommandError):
        take_in("vehicles", DEMO / "saltmarsh" / "vehicles.xlsx", "bare")  # its customers are not there
    assert not Vehicle.objects.filter(shop=bare).exists()


def edited(tmp_path: Path, *changes: tuple[str, str]) -> Path:
    """The brake kit's file with one change."""
    text = KITS[1].read_text("utf-8-sig")
    for old, new in changes:
        assert old in text
        text = text.replace(old, new)
    (tmp_path / "kit.csv").write_text(text)
    return tmp_path / "kit.csv"


def test_nothing_is_taken_in_while_one_thing_must_be_fixed(saltmarsh: Shop, tmp_path: Path) -> None:
    before = counts()
    with pytest.raises(CommandError, match="1 problem to fix"):
        take_in("kit", edited(tmp_path, ("Dowel 8 x 16;4", "Dowel 8 x 16;a few")), "saltmarsh")
    assert counts() == before


def test_what_fails_half_way_leaves_nothing_behind(saltmarsh: Shop, monkeypatch: pytest.MonkeyPatch) -> None:
    before = counts()

    def fall(*args: object, **kw: object) -> None:
        raise RuntimeError("the power went")

    monkeypatch.setattr("kitting.services.kits._reused", fall)
    with pytest.raises(RuntimeError):
        take_in("kit", KITS[1], "saltmarsh")
    assert counts() == before and FileRead.objects.filter(shop=saltmarsh, state="read").count() == 1


def test_looking_writes_nothing(bare: Shop, capsys: pytest.CaptureFixture[str]) -> None:
    take_in("rules", DEMO / "saltmarsh" / "rules.xlsx", "bare", check=True)
    assert "Price rules version 1, valid from Tue 1 Sept 2026" in capsys.readouterr().out
    assert not RuleSet.objects.filter(shop=bare).exists() and not FileRead.objects.filter(shop=bare).exists()


def test_a_kit_before_its_labour_is_taken_without_and_says_so(bare: Shop, capsys: pytest.CaptureFixture[str]) -> None:
    take_in("consumables", DEMO / "saltmarsh" / "consumables.xlsx", "bare")
    take_in("kit", KITS[1], "bare")
    assert re.search(r"no labour template BB356-FIT yet", capsys.readouterr().out)
    assert KitRevision.objects.get(shop=bare).labour is None
    assert not KitLine.objects.filter(shop=bare, operation__isnull=False).exists()


def test_a_need_of_an_unknown_consumable_must_be_fixed(bare: Shop, capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(CommandError):
        take_in("kit", KITS[1], "bare")
    assert "there is no consumable Brake fluid, glycol, DOT 4 low viscosity" in capsys.readouterr().out


def test_a_need_is_kept_in_the_unit_of_its_consumable(saltmarsh: Shop, tmp_path: Path) -> None:
    needs = "Family;Specification;Quantity;Charged\nBrake fluid;glycol, DOT 5.1;850 mL;pack\n"
    (tmp_path / "kit.csv").write_text("Kit;K-5\n\nPart no;Qty\nA-1;2\n\n" + needs)
    take_in("kit", tmp_path / "kit.csv", "saltmarsh")
    assert Need.objects.get(shop=saltmarsh, revision__kit__code="K-5").quantity == Decimal("0.85")


def test_the_next_version_says_what_is_new_gone_and_changed(
    saltmarsh: Shop, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    changes = (("Dowel 8 x 16;4", "Dowel 8 x 16;6"), ("FV-PIN-631;Pad pin", "FV-PIN-699;Pad pin, longer"))
    take_in("kit", edited(tmp_path, *changes), "saltmarsh")
    output = capsys.readouterr().out
    assert (
        "Compared with version 1: 1 new, 1 gone, 1 changed" in output
        and "belongs to FV-PIN-631 and stays there" in output
    )
    assert KitRevision.objects.filter(shop=saltmarsh, kit__code="FV-BB356").count() == 2


def test_a_unit_may_not_change_under_a_known_part(saltmarsh: Shop, tmp_path: Path) -> None:
    with pytest.raises(CommandError):
        take_in("kit", edited(tmp_path, ("Dowel 8 x 16;4;pcs", "Dowel 8 x 16;4;m")), "saltmarsh")


def test_a_code_stands_for_one_part(bare: Shop, tmp_path: Path) -> None:
    rows = "Kit;K-9\n\nPart no;Qty;GTIN\n{};1;{}\n{};1;{}\n"
    (tmp_path / "kit.csv").write_text(rows.format("Z-1", "SAME", "Z-2", "SAME"))
    with pytest.raises(CommandError):
        take_in("kit", tmp_path / "kit.csv", "bare")
    for first, second in (("Z-1", "Z-2"), ("Z-3", "Z-4")):
        (tmp_path / "kit.csv").write_text(rows.format(first, "ONE", second, "TWO"))
        take_in("kit", tmp_path / "kit.csv", "bare")
    assert Code.objects.get(shop=bare, code="ONE").part.number == "Z-1"


def test_a_rate_once_taken_in_never_changes(bare: Shop, tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text("Currency,Valid from,Rate\nUSD,2026-11-02,0.91\n")
    take_in("rules", tmp_path / "a.csv", "bare")
    take_in("rules", tmp_path / "a.csv", "bare")
    assert Rate.objects.filter(shop=bare).count() == 1
    (tmp_path / "a.csv").write_text("Currency,Valid from,Rate\nUSD,2026-11-02,0.92\n")
    with pytest.raises(CommandError):
        take_in("rules", tmp_path / "a.csv", "bare")


def test_a_known_customer_is_completed_and_a_namesake_added(saltmarsh: Shop, tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text(
        "Name;Phone;Email\nKester Vole;01632 960 901;\nAnwen Holloway;01632 960 723;other@example.org\n"
    )
    take_in("customers", tmp_path / "a.csv", "saltmarsh")
    assert Customer.objects.get(shop=saltmarsh, name="Kester Vole").phone == "01632 960 901"
    assert Customer.objects.filter(shop=saltmarsh, name="Anwen Holloway").count() == 2


def test_columns_told_once_are_remembered_for_the_supplier(bare: Shop, tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text("Kit;K-7\n\nTeil;Menge\nA-1;2\n")
    with pytest.raises(CommandError):
        take_in("kit", tmp_path / "a.csv", "bare", supplier="Quillfen Supply")
    mapping = ["number=Teil", "quantity=Menge"]
    take_in("kit", tmp_path / "a.csv", "bare", supplier="Quillfen Supply", map=mapping)
    (tmp_path / "b.csv").write_text("Kit;K-8\n\nMenge;Teil\n3;A-2\n")
    take_in("kit", tmp_path / "b.csv", "bare", supplier="quillfen supply")
    assert KitLine.objects.get(shop=bare, revision__kit__code="K-8").quantity == 3
    remembered = Supplier.objects.get(shop=bare).columns
    assert remembered == {"kit": {"number": "Teil", "quantity": "Menge"}}


def test_letters_of_columns_are_remembered_for_files_without_headings(bare: Shop, tmp_path: Path) -> None:
    (tmp_path / "a.csv").write_text("grease;g;QF-G1;400\n")
    mapping = ["family=column A", "unit=column B", "number=column C", "pack_size=column D"]
    take_in("consumables", tmp_path / "a.csv", "bare", supplier="Quillfen Supply", map=mapping)
    (tmp_path / "b.csv").write_text("grease;g;QF-G2;900\n")
    take_in("consumables", tmp_path / "b.csv", "bare", supplier="quillfen supply")
    (tmp_path / "c.csv").write_text("Pack size;Number;Unit;Family\n100;QF-G3;g;grease\n")
    take_in("consumables", tmp_path / "c.csv", "bare", supplier="quillfen supply")
    packs = Part.objects.filter(shop=bare, number__startswith="QF-G").order_by("number")
    assert list(packs.values_list("number", "pack_size")) == [("QF-G1", 400), ("QF-G2", 900), ("QF-G3", 100)]


def test_many_customers_cost_few_queries(bare: Shop, django_assert_max_num_queries: Any, tmp_path: Path) -> None:
    rows = "".join(f"Customer {n};01632 96{n:04d}\n" for n in range(1500))
    (tmp_path / "a.csv").write_text("Name;Phone\n" + rows)
    with django_assert_max_num_queries(70):  # half of them write search words, 249 a query
        take_in("customers", tmp_path / "a.csv", "bare")
    assert Customer.objects.filter(shop=bare).count() == 1500


@pytest.mark.parametrize(
    ("options", "message"),
    [({"shop": "nowhere"}, "there is no shop 'nowhere'"), ({"map": ["quantity"]}, "write FIELD=HEADING")],
)
def test_the_command_says_what_is_wrong_with_it(bare: Shop, options: dict[str, Any], message: str) -> None:
    with pytest.raises(CommandError, match=re.escape(message)):
        call_command("import", "kit", KITS[0], **{"shop": "bare", **options})


def test_the_command_names_a_kind_or_file_it_does_not_find(bare: Shop, tmp_path: Path) -> None:
    kinds = "consumables, customers, kit, kits, labour, packing_slip, rules, suppliers, vehicles"
    with pytest.raises(CommandError, match=kinds):
        take_in("stock", KITS[0], "bare")
    with pytest.raises(CommandError, match="No such file"):
        take_in("kit", tmp_path / "none.csv", "bare")
