"""The first list of a kit: two counts by hand that agree, each made without the other in sight."""

from decimal import Decimal
from typing import Any

import pytest

from kitting.models import FirstCount, Kit, KitLine, KitRevision, Need, Part
from kitting.services.kits import NewNeed, NewRevision, add_kit
from shop.models import History, LabourTemplate
from tests.cast import Cast
from tests.factories import ConsumableFactory, PartFactory, SupplierFactory

pytestmark = pytest.mark.once

Line = dict[str, str]
BAGS = (("1", "A", "QF-101", "4"), ("1", "B", "QF-102", "2"), ("1", "B", "QF-103", "1.5 m"))


def lines(*rows: tuple[str, str, str, str]) -> list[Line]:
    return [dict(zip(("carton", "bag", "number", "quantity"), row, strict=True)) for row in rows]


@pytest.fixture
def kit(cast: Cast) -> Kit:
    supplier = SupplierFactory(shop=cast.shop, name="Quillfen Supply")
    labour = LabourTemplate.objects.create(shop=cast.shop, code="FIT", number=1)
    oil = ConsumableFactory(shop=cast.shop)
    contents = NewRevision(
        price=Decimal("480.00"),
        hours=Decimal("3.5"),
        cost=Decimal("300.00"),
        lead_days=5,
        labour=labour,
        needs=[NewNeed(Decimal(1), consumable=oil)],
    )
    actor = cast.acting("manager")
    return add_kit(actor=actor, code="QF-K", title="Tow kit", contents=contents, number="QF-KIT", supplier=supplier).kit


def count(cast: Cast, kit: Kit, role: str, *rows: tuple[str, str, str, str], **more: Any) -> dict[str, Any]:
    body = {"lines": lines(*rows), "whole": True} | more
    answer = cast.signed_in(role).post(f"kits/{kit.pk}/first-counts", body)
    assert answer.status_code == 201, answer.content
    content: dict[str, Any] = answer.json()
    return content


def contents(kit: Kit) -> list[tuple[str, str, str, Decimal, str]]:
    """(carton, bag, number, quantity, unit) of the newest revision"""
    revision = KitRevision.objects.filter(kit=kit).latest("number")
    rows = KitLine.objects.filter(revision=revision).select_related("part", "parent", "parent__parent")
    return [
        (row.parent.parent.label, row.parent.label, row.part.number, row.quantity, row.part.unit)
        for row in rows.order_by("position")
        if row.part
    ]


@pytest.mark.both
def test_two_counts_that_agree_make_the_list(cast: Cast, kit: Kit) -> None:
    first = count(cast, kit, "parts", *BAGS)
    assert (first["state"], first["differences"], first["agreed"]) == ("waiting", [], 0)
    second = count(cast, kit, "manager", *reversed(BAGS))
    assert (second["state"], second["revision"]) == ("made", 2)
    assert [(row["by"], row["lines"]) for row in second["counts"]] == [("Parts", 3), ("Manager", 3)]
    assert contents(kit) == [
        ("1", "A", "QF-101", Decimal(4), "pc"),
        ("1", "B", "QF-102", Decimal(2), "pc"),
        ("1", "B", "QF-103", Decimal("1.5"), "m"),
    ]
    authors = [row.author for row in FirstCount.objects.filter(kit=kit).order_by("number")]
    assert authors == [cast.parts, cast.manager]
    assert History.objects.filter(subject="firstcount", verb="counted").count() == 2


def test_the_list_keeps_what_the_kit_had(cast: Cast, kit: Kit) -> None:
    for role in ("parts", "parts"):
        count(cast, kit, role, *BAGS)
    kit = Kit.objects.select_related("part").get(pk=kit.pk)
    revision = KitRevision.objects.filter(kit=kit).latest("number")
    assert (kit.title, kit.part.number, revision.labour and revision.labour.code) == ("Tow kit", "QF-KIT", "FIT")
    assert (revision.price, revision.hours) == (Decimal(480), Decimal("3.5"))
    assert (revision.cost, revision.lead_days) == (Decimal(300), 5)
    assert Need.objects.filter(revision=revision).count() == 1
    preferred = Part.objects.select_related("preferred").get(shop=cast.shop, number="QF-101").preferred
    assert preferred and preferred.name == "Quillfen Supply"


def test_the_second_count_is_made_blind(cast: Cast, kit: Kit) -> None:
    count(cast, kit, "parts", *BAGS)
    seen = cast.signed_in("manager").get(f"kits/{kit.pk}/first-counts").json()
    assert (seen["state"], seen["differences"], [row["lines"] for row in seen["counts"]]) == ("waiting", [], [3])
    assert "QF-101" not in str(seen)


@pytest.mark.both
def test_lines_that_differ_are_shown_and_counted_once_more(cast: Cast, kit: Kit) -> None:
    count(cast, kit, "parts", *BAGS)
    differ = count(cast, kit, "manager", BAGS[0], ("1", "B", "QF-102", "3"), BAGS[2], ("1", "B", "QF-104", "1"))
    assert (differ["state"], differ["agreed"]) == ("differ", 2)
    differences = [(row["bag"], row["number"], row["counted"]) for row in differ["differences"]]
    assert differences == [("B", "QF-102", ["2", "3"]), ("B", "QF-104", ["0", "1"])]
    assert not KitLine.objects.filter(revision__kit=kit).exists()
    again = count(cast, kit, "parts", ("1", "B", "QF-102", "3"), whole=False)
    assert [(row["number"], row["counted"]) for row in again["differences"]] == [("QF-104", ["0", "1", None])]
    last = count(cast, kit, "parts", ("1", "B", "QF-104", "0"), whole=False)
    assert last["state"] == "made"
    assert [(number, quantity) for _, _, number, quantity, _ in contents(kit)] == [
        ("QF-101", Decimal(4)),
        ("QF-102", Decimal(3)),
        ("QF-103", Decimal("1.5")),
    ]


def test_a_third_count_that_agrees_with_neither_leaves_the_line_open(cast: Cast, kit: Kit) -> None:
    count(cast, kit, "parts", ("", "A", "QF-101", "4"))
    count(cast, kit, "manager", ("", "A", "QF-101", "5"))
    third = count(cast, kit, "parts", ("", "A", "QF-101", "6"), whole=False)
    assert [row["counted"] for row in third["differences"]] == [["4", "5", "6"]]
    assert count(cast, kit, "parts", ("", "A", "QF-101", "5"), whole=False)["state"] == "made"


def test_a_part_that_both_overlooked_needs_two_who_saw_it(cast: Cast, kit: Kit) -> None:
    count(cast, kit, "parts", ("", "A", "QF-101", "4"))
    count(cast, kit, "manager", ("", "A", "QF-101", "5"))
    third = count(cast, kit, "parts", ("", "A", "QF-101", "4"), ("", "A", "QF-109", "1"), whole=False)
    assert [(row["number"], row["counted"]) for row in third["differences"]] == [("QF-109", [None, None, "1"])]
    assert count(cast, kit, "manager", ("", "A", "QF-109", "1"), whole=False)["state"] == "made"
    assert [row[2] for row in contents_without_carton(kit)] == ["QF-101", "QF-109"]


def contents_without_carton(kit: Kit) -> list[tuple[str, str, str]]:
    revision = KitRevision.objects.filter(kit=kit).latest("number")
    rows = KitLine.objects.filter(revision=revision, part__isnull=False).select_related("part", "parent")
    return [("", row.parent.label if row.parent else "", row.part.number) for row in rows.order_by("position")]


def test_a_bag_is_the_same_whatever_stands_before_its_number(cast: Cast, kit: Kit) -> None:
    count(cast, kit, "parts", ("Carton 1", "Bag 3", "qf 101", "4"))
    assert count(cast, kit, "manager", ("1", "3", "QF-101", "4"))["state"] == "made"


def test_whoever_begins_again_is_compared_with_nothing_before(cast: Cast, kit: Kit) -> None:
    count(cast, kit, "parts", ("", "A", "QF-101", "4"))
    count(cast, kit, "parts", ("", "A", "QF-101", "5"))
    anew = count(cast, kit, "manager", *BAGS, again=True)
    assert (anew["state"], len(anew["counts"])) == ("waiting", 1)
    assert count(cast, kit, "parts", *BAGS)["state"] == "made"
    assert FirstCount.objects.filter(kit=kit).count() == 4


def test_two_counts_of_nothing_make_no_list(cast: Cast, kit: Kit) -> None:
    count(cast, kit, "parts", ("", "A", "QF-101", "4"))
    count(cast, kit, "manager", ("", "A", "QF-102", "4"))
    nothing = count(cast, kit, "parts", ("", "A", "QF-101", "0"), ("", "A", "QF-102", "0"), whole=False)
    assert (nothing["state"], nothing["agreed"]) == ("nothing", 0)


@pytest.mark.parametrize(
    ("rows", "pointer"),
    [
        ((("", "A", "QF-101", "many"),), "/lines/0/quantity"),
        ((("", "A", "QF-100", "0"), ("", "A", "QF-101", "2.5")), "/lines/1/quantity"),
        ((("", "A", "QF-101", "2"), ("", "A", "QF-101", "2")), "/lines/1/number"),
        ((("", "A", "HOSE", "2"),), "/lines/0/quantity"),
    ],
)
def test_what_a_file_may_not_say_a_count_may_not_say(
    cast: Cast, kit: Kit, rows: tuple[tuple[str, str, str, str], ...], pointer: str
) -> None:
    PartFactory(shop=cast.shop, number="HOSE", number_key="hose", unit="m")
    body = {"lines": lines(*rows), "whole": True}
    answer = cast.signed_in("parts").post(f"kits/{kit.pk}/first-counts", body)
    assert (answer.status_code, [error["pointer"] for error in answer.json()["errors"]]) == (400, [pointer])
    assert not FirstCount.objects.exists()


def test_a_kit_that_has_its_list_is_not_counted(cast: Cast, kit: Kit) -> None:
    for role in ("parts", "manager"):
        count(cast, kit, role, *BAGS)
    body = {"lines": lines(*BAGS), "whole": True}
    answer = cast.signed_in("parts").post(f"kits/{kit.pk}/first-counts", body)
    assert (answer.status_code, answer.json()["type"].rsplit("/", 1)[-1]) == (409, "kit-has-contents")


def test_a_kit_is_not_counted_more_than_fifty_times(cast: Cast, kit: Kit, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("kitting.services.first_counts.MOST_COUNTS", 1)
    count(cast, kit, "parts", *BAGS)
    answer = cast.signed_in("parts").post(f"kits/{kit.pk}/first-counts", {"lines": lines(*BAGS), "whole": True})
    assert (answer.status_code, answer.json()["type"].rsplit("/", 1)[-1]) == (409, "too-many-first-counts")
