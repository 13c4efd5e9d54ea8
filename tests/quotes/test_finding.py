"""The one box that finds everything, as each role may see it."""

from decimal import Decimal
from typing import Any

import pytest

from quotes.models import Line, OutsideWork
from shop.queries import search
from tests.factories import (
    CodeFactory,
    CustomerFactory,
    KitFactory,
    KitLineFactory,
    KitRevisionFactory,
    PartFactory,
    VehicleFactory,
)
from tests.quotes import test_outside as outside
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage
from tests.quotes.test_draft_list import discard


def kinds(stage: Stage, role: str, typed: str) -> set[str]:
    items = stage.cast.signed_in(role).get("find", {"q": typed}).json()["items"]
    return {item["kind"] for item in items}


@pytest.mark.once
@pytest.mark.parametrize("role", ["technician", "parts"])
def test_who_does_not_quote_finds_no_quote_no_total_and_no_owner(stage: Stage, role: str) -> None:
    owner, vehicle = stage.customer, stage.vehicle
    quote = stage.quote().json()
    assert kinds(stage, "advisor", quote["number"]) == {"quote"}
    assert kinds(stage, "advisor", owner.name) == {"customer"}
    assert kinds(stage, role, vehicle.title) == {"vehicle"}
    for typed in (quote["number"], owner.name, owner.phone, vehicle.title, vehicle.plate, stage.turbo.title):
        answer = stage.cast.signed_in(role).get("find", {"q": typed})
        assert not {"quote", "customer"} & kinds(stage, role, typed), typed
        for secret in (owner.name, owner.phone, str(owner.pk), quote["totals"]["gross"]):
            assert secret and secret.encode() not in answer.content, (typed, secret)


def titles(stage: Stage, typed: str) -> list[str]:
    return [item["title"] for item in stage.client.get("find", {"q": typed}).json()["items"]]


def customers(stage: Stage, *names: str, **fields: Any) -> None:
    for name in names:
        CustomerFactory(shop=stage.cast.shop, name=name, **fields)


def test_what_begins_so_comes_before_what_holds_it_and_each_by_name(stage: Stage) -> None:
    customers(stage, "Fella Dee", "Cy Felling", "Bo Felling", "Fell Ada")
    customers(stage, "Felling, gone", archived=True)
    assert titles(stage, "fell") == ["Fell Ada", "Fella Dee", "Bo Felling", "Cy Felling"]
    assert titles(stage, "ll i") == ["Bo Felling", "Cy Felling"]


def test_a_handful_of_one_kind_is_six_and_none_stands_twice(stage: Stage) -> None:
    customers(stage, *(f"Tarn Tarn {at}" for at in range(8)), phone_key="tarn")
    assert titles(stage, "tarn") == [f"Tarn Tarn {at}" for at in range(6)]
    assert titles(stage, "tarn 7") == ["Tarn Tarn 7"]
    customers(stage, *(f"Ada Quor{at}a Quor{at}b" for at in range(8)))
    assert titles(stage, "quor") == [f"Ada Quor{at}a Quor{at}b" for at in range(6)]


def test_the_middle_of_a_word_is_looked_for_among_so_many_and_its_beginning_among_all(
    stage: Stage, monkeypatch: pytest.MonkeyPatch
) -> None:
    customers(stage, "Ada Quillback", "Bo Quillback", "Cy Quillback")
    with monkeypatch.context() as patch:
        patch.setattr(search, "LOOKED_THROUGH", 2)
        assert titles(stage, "illback") == ["Ada Quillback", "Bo Quillback"]
    assert titles(stage, "quillback") == ["Ada Quillback", "Bo Quillback", "Cy Quillback"]
    assert titles(stage, "cy quill") == ["Cy Quillback"]


def test_the_middle_of_a_word_is_looked_for_only_where_nothing_begins_so(stage: Stage) -> None:
    customers(stage, "Ada Quill", "Bo Tranquill")
    assert titles(stage, "quill") == ["Ada Quill"]
    assert titles(stage, "anquill") == ["Bo Tranquill"]


@pytest.mark.parametrize(
    ("title", "typed"),
    [
        ("Front brake kit", "brakes"),
        ("Front brake kit", "front brakes"),
        ("Brakes, front", "brake front"),
        ("Throttle bodies and bushes", "body bush"),
        ("Throttle body and bush", "bushes bodies"),
    ],
)
def test_a_word_is_found_in_the_other_number(stage: Stage, title: str, typed: str) -> None:
    kit = KitFactory(shop=stage.cast.shop, title=title)
    KitFactory(shop=stage.cast.shop, title="Glass roof")
    assert titles(stage, typed) == [title]
    assert [item["id"] for item in stage.client.get("kits", {"q": typed}).json()["items"]] == [str(kit.pk)]


def test_a_word_as_it_was_typed_is_found_first(stage: Stage) -> None:
    customers(stage, "Ada Brakes", "Bo Brake")
    assert titles(stage, "brakes") == ["Ada Brakes", "Bo Brake"]


def with_vin(stage: Stage) -> None:
    answer = stage.client.patch(f"vehicles/{stage.vehicle.pk}", {"vin": "WTXT354417"}, seen='"1"')
    assert answer.status_code == 200


@pytest.mark.parametrize("typed", ["4417", "5-4417", "T35-4417", "tx t35-4417", "WTX T35-4417", "4417 tessark"])
def test_a_vehicle_is_found_by_the_end_of_its_vin(stage: Stage, typed: str) -> None:
    with_vin(stage)
    assert titles(stage, typed) == [stage.vehicle.title]


@pytest.mark.parametrize("typed", ["%%%%", "____", "4_17", "VTX T35-4417", "417"])
def test_no_sign_stands_for_others_and_three_letters_of_a_vin_are_too_few(stage: Stage, typed: str) -> None:
    with_vin(stage)
    assert "vehicle" not in kinds(stage, "advisor", typed)


def test_a_kit_is_found_by_the_end_of_its_number_and_a_part_by_its_code(stage: Stage) -> None:
    shop = stage.cast.shop
    part = PartFactory(shop=shop, number="QF-7781")
    KitFactory(shop=shop, part=part, title="Strut brace")
    CodeFactory(shop=shop, part=part, code="09520000000011")
    assert titles(stage, "7781") == ["Strut brace", "QF-7781"]
    assert titles(stage, "781") == ["Strut brace"]
    assert titles(stage, "9520000000011") == ["QF-7781"]


T35 = [{"attribute": "model", "in": ["T35"]}]


def test_every_word_that_is_typed_begins_a_word_of_what_is_found(stage: Stage) -> None:
    shop = stage.cast.shop
    KitFactory(shop=shop, code="FV-BB356", title="Front big-brake kit, 356 mm", fits=T35)
    KitFactory(shop=shop, code="FV-RB330", title="Rear brake kit")
    PartFactory(shop=shop, number="BI-4711", title="Stud M10x40, zinc")
    VehicleFactory(shop=shop, title="Vell 2.4 coupe", plate="CF-0117")
    customers(stage, "Philippa Saltonstall-Reed")
    for typed, title in (
        ("brake T35", "Front big-brake kit, 356 mm"),
        ("356 bigbrake", "Front big-brake kit, 356 mm"),
        ("fv-bb front", "Front big-brake kit, 356 mm"),
        ("stud", "BI-4711"),
        ("zinc, M10", "BI-4711"),
        ("coupe cf-01", "Vell 2.4 coupe"),
        ("reed phil", "Philippa Saltonstall-Reed"),
    ):
        assert titles(stage, typed) == [title], typed
    for typed in ("brake T36", "stud M12", "coupe cf-02", "reed phill", "rake T35"):
        assert titles(stage, typed) == [], typed
    assert titles(stage, "kit brake") == ["Front big-brake kit, 356 mm", "Rear brake kit"]


def test_the_rare_word_leads_to_the_common_one(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    """'Quillback' is the longer word, and more rows have it than are looked through."""
    customers(stage, *(f"Quillback {at}" for at in range(6)), "Tarn Quillback")
    monkeypatch.setattr(search, "RARE", 3)
    monkeypatch.setattr(search, "LOOKED_THROUGH", 4)
    assert titles(stage, "quillback tarn") == ["Tarn Quillback"]


def test_a_list_finds_by_every_word_that_is_typed(stage: Stage) -> None:
    shop = stage.cast.shop
    KitFactory(shop=shop, code="FV-BB356", title="Front big-brake kit, 356 mm")
    customers(stage, "Ada Quill", "Bo Quill")
    for path, typed, field, expected in (
        ("kits", "kit brake", "title", ["Front big-brake kit, 356 mm"]),
        ("kits", "kit brake rear", "title", []),
        ("customers", "quill ada", "name", ["Ada Quill"]),
    ):
        items = stage.client.get(path, {"q": typed}).json()["items"]
        assert [item[field] for item in items] == expected, typed


def test_what_is_renamed_is_found_by_its_new_words_alone(stage: Stage) -> None:
    path = f"customers/{stage.customer.pk}"
    assert stage.client.patch(path, {"name": "Tilda Quill-Marsh"}, seen='"1"').status_code == 200
    assert [titles(stage, typed) for typed in ("marsh til", "oldacre")] == [["Tilda Quill-Marsh"], []]


@pytest.mark.once
def test_what_is_found_says_where_it_leads(stage: Stage) -> None:
    shop = stage.cast.shop
    part = PartFactory(shop=shop, number="QF-7781", title="Brace bolt")
    old = KitRevisionFactory(shop=shop, kit=KitFactory(shop=shop, title="Strut brace"))
    KitLineFactory(shop=shop, revision=old, part=part)
    new = KitRevisionFactory(shop=shop, kit=KitFactory(shop=shop, title="Tower brace"))
    KitLineFactory(shop=shop, revision=new, part=part)
    KitRevisionFactory(shop=shop, kit=old.kit, number=2)
    with_vin(stage)
    for role in ("advisor", "parts", "technician"):
        (item,) = stage.cast.signed_in(role).get("find", {"q": "qf-7781"}).json()["items"]
        assert (item["detail"], item["why"], item["amount"]) == ("Brace bolt", "In: Tower brace", None)
    (item,) = stage.client.get("find", {"q": "oldacre"}).json()["items"]
    assert item["detail"] == "01632 960 417; Tessark T35 estate, VIN \u2026 354417"


NAME = "Calibration by Lathe & Lambda"
TYPED = ("oldacre", "tessark", "Q-1", "bi-t", "J-1", "lathe calib")
MAY_SELL = {"customer", "vehicle", "quote", "kit", "part", "job", "outside"}
SEEN = {
    "advisor": MAY_SELL,
    "manager": MAY_SELL,
    "parts": {"vehicle", "kit", "part", "job"},
    "technician": {"vehicle", "kit", "part", "job"},
}
PART_SELLS_FOR, PART_COSTS, WORK_COSTS = "1110.00", "900", "480"


def everything_sold(stage: Stage) -> str:
    """A quote with another firm's work, accepted; its total."""
    quote = outside.draft(stage)
    body = {"version": quote["version"], "recipient": "x", "below_floor": True}
    sent = stage.client.post(f"quotes/{quote['id']}/send", body).json()
    Phone(sent["link"]["url"]).answer()
    total: str = sent["quote"]["totals"]["gross"]
    return total


@pytest.mark.once
def test_each_role_finds_the_kinds_and_the_figures_that_are_its_own(stage: Stage) -> None:
    total = everything_sold(stage)
    for role, kinds_seen in SEEN.items():
        client, items, bodies = stage.cast.signed_in(role), [], b""
        for typed in TYPED:
            answer = client.get("find", {"q": typed})
            items += answer.json()["items"]
            bodies += answer.content
        assert {item["kind"] for item in items} == kinds_seen, role
        sells = "quote" in kinds_seen
        figures = {(item["kind"], item["amount"]) for item in items if item["amount"] is not None}
        assert figures == ({("quote", total), ("part", PART_SELLS_FOR)} if sells else set()), role
        for secret in (stage.customer.phone, str(stage.customer.pk), total, PART_SELLS_FOR, "Lathe"):
            assert sells or secret.encode() not in bodies, (role, secret)
        for cost in (PART_COSTS, WORK_COSTS):
            assert f'"{cost}' not in bodies.decode() and f" {cost}" not in bodies.decode(), (role, cost)


def test_work_of_other_firms_leads_to_the_newest_quote_with_it(stage: Stage) -> None:
    first, second, third = (outside.draft(stage) for _ in range(3))
    outside.add(stage, second, title="Wheel alignment", firm="Truefall Frames")
    for typed, title in (("calib", NAME), ("lambda cal", NAME), ("align true", "Wheel alignment by Truefall Frames")):
        (item,) = stage.client.get("find", {"q": typed}).json()["items"]
        newest = second if "align" in typed else third
        assert (item["kind"], item["title"], item["id"]) == ("outside", title, newest["id"])
        assert (item["detail"], item["why"]) == ("Takes 3 working days", f"Last on {newest['number']}")
    assert discard(stage, third).status_code == 204
    (item,) = stage.client.get("find", {"q": "calib"}).json()["items"]
    assert item["id"] == second["id"] != first["id"]
    assert titles(stage, "calib truefall") == []


def test_work_of_other_firms_is_found_by_its_words_among_all(stage: Stage) -> None:
    """Also behind many newer works, and by the words of its last change."""
    quote = outside.draft(stage)
    work = OutsideWork.objects.select_related("firm").get()
    lines = [Line(shop=work.shop, revision_id=work.revision_id, position=100 + at, kind="outside") for at in range(60)]
    for line in lines:
        line.title, line.tax_class, line.quantity = "Wheel alignment", "labour", Decimal(1)
    Line.objects.bulk_create(lines)
    terms = {name: getattr(work, name) for name in OutsideWork.TERMS}
    OutsideWork.objects.bulk_create(
        OutsideWork(shop=work.shop, revision_id=work.revision_id, line=line, firm=work.firm, **terms) for line in lines
    )
    assert titles(stage, "lathe calib") == [NAME]
    OutsideWork.objects.filter(line__in=lines).delete()
    Line.objects.filter(pk__in=[line.pk for line in lines]).delete()
    answer = stage.client.put(outside.path_of(stage, quote), outside.FILE | {"title": "Glazing"}, seen='"2"')
    assert answer.status_code == 200, answer.content
    assert (titles(stage, "calib"), titles(stage, "glaz lambda")) == ([], ["Glazing by Lathe & Lambda"])


@pytest.mark.once
def test_a_quote_begins_with_a_part_that_was_found(stage: Stage) -> None:
    (item,) = [item for item in stage.client.get("find", {"q": "oil-5"}).json()["items"] if item["kind"] == "part"]
    quote = stage.client.post("quotes", {"parts": [item["id"]]}).json()
    (extra,) = quote["extras"]
    assert (extra["part"], extra["quantity"], extra["price"]) == (item["id"], "1", item["amount"])
    assert item["amount"] == "45.00" and quote["number"]


@pytest.mark.once
def test_an_archived_pack_that_is_scanned_says_so_and_begins_no_quote(stage: Stage) -> None:
    """Its whole number or its code finds it; part of a number finds what is sold alone."""
    part = PartFactory(shop=stage.shop, number="QF-7781", title="Brace bolt", archived=True)
    CodeFactory(shop=stage.shop, part=part, code="09520000000011")
    for typed in ("9520000000011", "qf 7781"):
        (item,) = stage.client.get("find", {"q": typed}).json()["items"]
        assert (item["title"], item["archived"], item["amount"]) == ("QF-7781", True, None)
        assert item["why"] == "Archived: not bought or quoted any more."
    assert stage.client.get("find", {"q": "QF-77"}).json()["items"] == []
