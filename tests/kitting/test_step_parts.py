"""The parts of a step for the technician, and the hazard texts of its packs."""

from decimal import Decimal
from typing import Any

import pytest

from kitting.models import PullLine
from tests.factories import ConsumableFactory, KitFactory, PackFactory, PartFactory
from tests.kitting.floor import Floor

pytestmark = pytest.mark.once


def at(floor: Floor, position: int) -> dict[str, Any]:
    return floor.readiness()["steps"][position - 1]


def in_hand(floor: Floor, position: int) -> list[tuple[str, int, int, list[str]]]:
    return [(part["title"], part["here"], part["need"], part["places"]) for part in at(floor, position)["parts"]]


def test_the_parts_of_a_step_are_listed_also_where_all_of_them_are_here(floor: Floor) -> None:
    PullLine.objects.filter(pk=floor.ring.pk).update(bag="2-07")
    floor.count_all()
    assert in_hand(floor, 1) == [("Clip", 6, 6, ["loose in carton 1"])]
    assert in_hand(floor, 2) == []
    assert in_hand(floor, 3) == [
        ("O-ring 14.0 x 2.5", 4, 4, ["carton 1, bag 2-07"]),
        ("Duct, hot side", 1, 1, ["loose in carton 1"]),
    ]
    assert in_hand(floor, 4) == [("Engine oil, 5 L", 2, 2, ["from the shelf"])]


def test_a_part_that_is_not_here_is_listed_where_it_will_lie(floor: Floor) -> None:
    floor.count((floor.ring, 1))
    assert in_hand(floor, 3) == [
        ("O-ring 14.0 x 2.5", 1, 4, ["loose in carton 1"]),
        ("Duct, hot side", 0, 1, ["loose in carton 1"]),
    ]


def test_one_part_out_of_two_bags_is_one_entry_that_says_how_many_from_each(floor: Floor) -> None:
    floor.step(5, "TRIM", "Trim on", "1.00", after=["CLOSE"])
    bolt = PartFactory(shop=floor.cast.shop, title="Bolt M8")
    lines = [
        floor.line("Bolt M8", code, carton="", bag=bag, part=bolt, quantity=Decimal(4))
        for bag, code in (("A", "FIT"), ("B", "FIT"), ("C", "TRIM"))
    ]
    floor.count_all()
    floor.count((lines[0], 4), (lines[1], 3), (lines[2], 4))
    assert in_hand(floor, 3)[-1] == ("Bolt M8", 8, 8, ["4 from bag A", "3 from bag B", "1 from bag C"])
    assert in_hand(floor, 5) == [("Bolt M8", 3, 4, ["bag C"])]


def test_with_two_kits_the_kit_is_named_too(floor: Floor) -> None:
    """Both have a bag 1-02."""
    assert at(floor, 3)["parts"][0]["kit"] is None
    other = KitFactory(shop=floor.cast.shop, code="FV-B", title="Brake kit")
    bolt = PartFactory(shop=floor.cast.shop, title="Bolt M8")
    lines = [
        floor.line("Bolt M8", "FIT", kit=kit, carton="", bag="1-02", part=bolt, quantity=Decimal(2))
        for kit in ("BI-T", other.code)
    ]
    floor.line("Caliper", "FIT", kit=other.code, carton="", bag="1-02")
    floor.count(*((line, 2) for line in lines))
    ring, _, bolts, caliper = at(floor, 3)["parts"]
    assert (ring["kit"], caliper["kit"], caliper["places"]) == ("Turbocharger kit", "Brake kit", ["bag 1-02"])
    assert (bolts["kit"], bolts["places"]) == (
        None,
        ["2 from Turbocharger kit, bag 1-02", "2 from Brake kit, bag 1-02"],
    )
    assert at(floor, 4)["parts"][0]["kit"] is None  # from the shelf


def test_a_leaflet_lies_at_its_step_and_a_spare_at_none(floor: Floor) -> None:
    floor.line("Instructions", "FIT", detail={"role": "paper"})
    floor.line("Spare clip", "FIT", detail={"role": "spare"})
    assert [title for title, *_ in in_hand(floor, 3)][2:] == ["Instructions"]


def pack(floor: Floor, family: str, warns: str, amount: str, **more: Any) -> PullLine:
    of = ConsumableFactory(shop=floor.cast.shop, family=family, specification="", hazard={"words": warns})
    part = PackFactory(shop=floor.cast.shop, title=f"{family}, pack", consumable=of)
    detail = {"need": family, "quantity": amount, "unit": "L"} | more
    return floor.line(f"{family}, pack", "STRIP", kind="need", kit="", carton="", part=part, detail=detail)


def test_a_pack_says_how_much_of_it_the_step_takes_and_what_it_warns_of(floor: Floor) -> None:
    pack(floor, "Brake cleaner", "danger: extremely flammable aerosol", "0.4", charge="supplies")
    pack(floor, "Gear oil", "none classified", "2.2")
    pack(floor, "Engine oil", "none classified; used oil harms skin", "8.2")
    step = at(floor, 2)
    amounts = [f"bought for {n} L in all, allowance included; not the filling amount" for n in ("0.4", "2.2", "8.2")]
    assert [part["amount"] for part in step["parts"]] == amounts
    assert step["hazards"] == [
        "Brake cleaner – danger: extremely flammable aerosol.",
        "Engine oil – used oil harms skin.",
    ]


@pytest.mark.parametrize(("quantity", "amount"), [("4", "for 4 pieces"), ("1", "for 1 piece")])
def test_what_is_not_filled_says_only_what_it_is_for(floor: Floor, quantity: str, amount: str) -> None:
    of = ConsumableFactory(shop=floor.cast.shop, family="Nitrile glove", specification="")
    part = PackFactory(shop=floor.cast.shop, title="Nitrile glove, 100 pcs", consumable=of)
    detail = {"need": "Nitrile glove", "quantity": quantity, "unit": "pc"}
    floor.line("Nitrile glove, 100 pcs", "STRIP", kind="need", kit="", carton="", part=part, detail=detail)
    assert [part["amount"] for part in at(floor, 2)["parts"]] == [amount]


@pytest.mark.parametrize(
    ("unit", "quantity", "amount"), [("pc", "4", None), ("m", "1.5", "1.5 m"), ("set", "2", "2 sets")]
)
def test_what_is_not_counted_in_pieces_says_its_unit(
    floor: Floor, unit: str, quantity: str, amount: str | None
) -> None:
    floor.line("Hose", "STRIP", unit=unit, quantity=Decimal(quantity))
    assert [part["amount"] for part in at(floor, 2)["parts"]] == [amount]
