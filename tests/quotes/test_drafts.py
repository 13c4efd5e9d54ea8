from datetime import date, timedelta
from decimal import Decimal

import pytest
from django.utils import timezone

from kitting.models import KitRevision
from quotes.models import Line, Override
from quotes.queries.pricing import shop_day
from shop.models import History, RuleSet
from tests.costs import keys_of
from tests.factories import KitFactory, KitRevisionFactory, OfferFactory, PartFactory
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once


def lines(quote: dict) -> dict[str, str]:
    return {operation["code"]: operation["hours"] for operation in quote["labour"]["operations"]}


def test_two_kits_share_their_work_and_say_why(stage: Stage) -> None:
    answer = stage.quote()
    assert answer.status_code == 201
    quote = answer.json()
    # set-up once at 1.8; bumper once at 2.4 less 0.5 shared with the longer turbo; turbo 3.0; wiring 2.0
    assert lines(quote) == {"SETUP": "1.8", "BUMPER": "1.9", "TURBO": "3.0", "WIRING": "2.0"}
    assert (quote["labour"]["hours"], quote["labour"]["apart_hours"]) == ("8.7", "12.2")
    why = {operation["code"]: operation["why"] for operation in quote["labour"]["operations"]}
    assert why["SETUP"] == ["once for two kits: longest is 1.8 h"]
    assert why["BUMPER"] == ["once for two kits: longest is 2.4 h", "less 0.5 h shared with Turbocharger fitted"]


def test_every_figure_adds_up(stage: Stage) -> None:
    quote = stage.quote().json()
    # kits: 1000 USD x 0.9 = 900 -> 150 + 800 x 1.2 = 1110; 400 EUR -> 150 + 300 x 1.2 = 510
    assert [kit["price"] for kit in quote["kits"]] == ["1110.00", "510.00"]
    # oil 6.1 L: 5 + 1 + 1 at 45 + 12 + 12
    assert [(need["price"], need["why"][1]) for need in quote["needs"]] == [("69.00", "6.1 L: 5 + 1 + 1, 0.9 L left")]
    # labour 6.7 h x 165 + 2.0 h x 180; supplies 5 % of it, at most 48; used oil 6.1 x 0.80
    assert quote["labour"]["amount"] == "1465.50"
    assert [fee["price"] for fee in quote["fees"]] == ["4.88", "48.00"]
    totals = quote["totals"]
    assert totals["gross"] == "3207.38"
    assert (totals["net"], totals["tax"]) == ("2672.82", "534.56")


def test_dropping_a_kit_saves_less_than_it_costs_alone(stage: Stage) -> None:
    kits = stage.quote().json()["kits"]
    assert [(kit["alone_hours"], kit["saves_hours"]) for kit in kits] == [("6.4", "2.9"), ("5.8", "2.3")]
    # without the turbo: 1110 + 2.9 h x 165 + oil 69 + used oil 4.88
    assert kits[0]["saves_amount"] == "1662.38"


def test_condition_touches_only_what_rust_can_reach(stage: Stage) -> None:
    first = stage.quote()
    changed = stage.client.patch(f"quotes/{first.json()['id']}", {"condition": "light"}, seen=first)
    assert lines(changed.json()) == {"SETUP": "1.8", "BUMPER": "2.1", "TURBO": "3.0", "WIRING": "2.0"}


def test_a_kit_with_only_a_price_and_hours_can_be_quoted(stage: Stage) -> None:
    kit = KitFactory(shop=stage.cast.shop, title="Roof rails")
    KitRevisionFactory(shop=stage.cast.shop, kit=kit, price=Decimal("240.0000"), hours=Decimal("1.50"))
    quote = stage.quote(kit).json()
    assert quote["kits"][0]["price"] == "240.00"
    assert [(operation["title"], operation["hours"]) for operation in quote["labour"]["operations"]] == [
        ("Fitting: Roof rails", "1.5")
    ]


def test_a_quote_may_begin_with_a_kit_and_no_customer(stage: Stage) -> None:
    first = stage.quote(stage.turbo, customer=None, vehicle=None)
    quote = first.json()
    assert quote["customer"] is None and quote["totals"]["gross"] == "2214.00"  # 1110 + 6.4 h x 165 + 48
    assert quote["stops"] == ["Choose the customer.", "Choose the vehicle."]
    assert [question["attribute"] for question in quote["decide"]] == ["transmission"]
    assert "capacity_unknown" not in [notice["code"] for notice in quote["notices"]]  # of which vehicle?
    assert "without" not in quote["range"]["words"]  # of the known vehicle that it fits
    changed = stage.client.patch(f"quotes/{quote['id']}", {"vehicle": str(stage.vehicle.pk)}, seen=first).json()
    assert changed["customer"]["name"] == "Maren Oldacre" and changed["stops"] == [] and changed["decide"] == []


def test_a_figure_can_be_set_with_a_reason_and_computed_again(stage: Stage) -> None:
    first = stage.quote()
    path = f"quotes/{first.json()['id']}/overrides/labour:TURBO"
    changed = stage.client.put(path, {"value": "4.5", "because": "seized studs seen"}, seen=first)
    turbo = next(operation for operation in changed.json()["labour"]["operations"] if operation["code"] == "TURBO")
    assert (turbo["hours"], turbo["why"]) == ("4.5", ["seized studs seen; worked out as 3.0 h"])
    again = stage.client.delete(path, seen=changed)
    assert again.json()["totals"] == first.json()["totals"] and not Override.objects.exists()


def test_a_figure_that_nobody_set_is_dropped_without_a_new_version(stage: Stage) -> None:
    first = stage.quote()
    before = History.objects.count()
    for key in ("labour:TURBO", "labour:NONE"):
        again = stage.client.delete(f"quotes/{first.json()['id']}/overrides/{key}", seen=first)
        assert (again.status_code, again.json()["version"]) == (200, first.json()["version"])
    assert History.objects.count() == before


def test_history_keeps_the_figure_that_was_dropped(stage: Stage) -> None:
    path = f"quotes/{(first := stage.quote()).json()['id']}/overrides/labour:TURBO"
    changed = stage.client.put(path, {"value": "4.5", "because": "seized studs"}, seen=first)
    stage.client.delete(path, seen=changed)
    dropped = History.objects.get(verb="figure worked out again")
    assert dropped.changes == {"labour:TURBO": ["4.5: seized studs", ""]}


def test_lines_come_change_and_go(stage: Stage) -> None:
    quote = stage.quote(stage.turbo).json()
    path = f"quotes/{quote['id']}/lines"
    added = stage.client.post(
        path, {"kind": "text", "title": "Wheel alignment", "unit_price": "120", "tax_class": "labour"}
    )
    extra = added.json()["extras"][0]
    assert (added.status_code, extra["price"]) == (201, "120.00")
    changed = stage.client.patch(f"{path}/{extra['line']}", {"quantity": "2"}, seen=added)
    assert changed.json()["extras"][0]["price"] == "240.00"
    gone = stage.client.delete(f"{path}/{extra['line']}", seen=changed)
    assert gone.json()["extras"] == [] and gone.json()["totals"] == quote["totals"]


def test_taking_a_kit_off_and_putting_it_back(stage: Stage) -> None:
    first = stage.quote()
    quote = first.json()
    less = stage.client.delete(f"quotes/{quote['id']}/lines/{quote['kits'][1]['line']}", seen=first).json()
    assert less["totals"]["gross"] == f"{Decimal(quote['totals']['gross']) - Decimal(quote['kits'][1]['saves_amount'])}"
    back = stage.client.post(f"quotes/{quote['id']}/lines", {"kind": "kit", "kit": str(stage.towing.pk)}).json()
    assert back["totals"] == quote["totals"]


def test_a_new_price_moves_the_draft_at_its_day(stage: Stage) -> None:
    quote = stage.quote(stage.towing).json()
    supplier = stage.towing.part.preferred
    OfferFactory(
        shop=stage.cast.shop,
        supplier=supplier,
        part=stage.towing.part,
        unit_cost=Decimal(500),
        valid_from=date(2026, 11, 1),
    )
    OfferFactory(
        shop=stage.cast.shop,
        supplier=supplier,
        part=stage.towing.part,
        unit_cost=Decimal(1),
        valid_from=date(2099, 1, 1),
    )
    assert stage.client.get(f"quotes/{quote['id']}").json()["kits"][0]["price"] == "630.00"


def test_the_first_use_freezes_rules_kit_and_template(stage: Stage) -> None:
    stage.quote(stage.turbo)
    assert RuleSet.objects.get().used_at
    used = KitRevision.objects.select_related("labour").get(kit=stage.turbo)
    assert used.used_at and used.labour.used_at
    assert KitRevision.objects.get(kit=stage.towing).used_at is None


def test_costs_are_in_the_margin_and_nowhere_else(stage: Stage) -> None:
    quote = stage.quote()
    assert not {key for key in keys_of(quote.json()) if "cost" in key or "margin" in key}
    margin = stage.client.get(f"quotes/{quote.json()['id']}/margin").json()
    # 900 + 400 + oil 46 + 8.7 h x 60
    assert (margin["cost"], margin["revenue"], margin["profit"]) == ("1868.00", "2672.82", "804.82")
    assert margin["rate"] == "0.3011"
    assert (margin["floor"], margin["below"]) == ("0.24", False)


def test_a_margin_below_the_floor_says_so(stage: Stage) -> None:
    quote = stage.quote().json()
    for at, kit in enumerate(quote["kits"]):
        agreed = {"value": "400", "because": "agreed"}
        answer = stage.client.put(f"quotes/{quote['id']}/overrides/kit:{kit['line']}", agreed, seen=f'"{at + 1}"')
        assert answer.status_code == 200
    margin = stage.client.get(f"quotes/{quote['id']}/margin").json()
    assert margin["below"] and Decimal(margin["rate"]) < Decimal(margin["floor"])


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        ({"kind": "text", "title": "x", "tax_class": "part"}, "/unit_price"),
        ({"kind": "text", "title": "x", "unit_price": 1.5, "tax_class": "part"}, "/unit_price"),
        ({"kind": "text", "title": "x", "unit_price": "1.00001", "tax_class": "part"}, "/unit_price"),
        ({"kind": "text", "title": "x", "unit_price": "1", "quantity": "0", "tax_class": "part"}, "/quantity"),
        ({"kind": "kit"}, "/kit"),
        ({"kind": "lamp"}, "/kind"),
    ],
)
def test_a_bad_line_names_the_field_and_changes_nothing(stage: Stage, body: dict, pointer: str) -> None:
    quote = stage.quote(stage.turbo).json()
    answer = stage.client.post(f"quotes/{quote['id']}/lines", body)
    assert answer.status_code == 400 and [error["pointer"] for error in answer.json()["errors"]] == [pointer]
    assert Line.objects.count() == 1


def test_a_figure_that_is_not_there_cannot_be_set(stage: Stage) -> None:
    first = stage.quote()
    path = f"quotes/{first.json()['id']}/overrides/labour:NONE"
    assert stage.client.put(path, {"value": "1", "because": "x"}, seen=first).status_code == 400


def test_an_older_view_of_the_draft_is_refused(stage: Stage) -> None:
    first = stage.quote()
    path = f"quotes/{first.json()['id']}"
    assert stage.client.patch(path, {"condition": "light"}, seen=first).status_code == 200
    assert stage.client.patch(path, {"condition": "heavy"}, seen=first).status_code == 412
    assert stage.client.patch(path, {"condition": "rusty"}, seen='"2"').status_code == 400


def test_without_rules_there_is_no_quote(stage: Stage) -> None:
    RuleSet.objects.filter(used_at=None).delete()
    answer = stage.quote()
    assert answer.status_code == 409 and "rules file" in answer.json()["detail"]


def test_house_rules_of_another_shop_or_of_tomorrow_price_no_quote(stage: Stage) -> None:
    tomorrow = shop_day(stage.cast.shop, timezone.now()) + timedelta(days=1)
    RuleSet.objects.create(shop=stage.cast.elsewhere, number=7, valid_from=date(2026, 6, 1), rules=RULES)
    RuleSet.objects.create(shop=stage.cast.shop, number=2, valid_from=tomorrow, rules=RULES)
    answer = stage.quote()
    assert (answer.status_code, answer.json()["rules"]["number"]) == (201, 1)


def test_a_line_is_changed_through_its_own_quote_alone(stage: Stage) -> None:
    own, other = stage.quote(stage.turbo), stage.quote(stage.towing).json()
    polish = {"kind": "text", "title": "Polish", "unit_price": "40", "tax_class": "part"}
    line = stage.client.post(f"quotes/{other['id']}/lines", polish).json()["extras"][0]["line"]
    path = f"quotes/{own.json()['id']}/lines/{line}"
    assert stage.client.patch(path, {"title": "Wax"}, seen=own).status_code == 404
    assert stage.client.delete(path, seen=own).status_code == 404
    assert Line.objects.get(pk=line).title == "Polish"


def test_a_loose_part_without_a_price_is_not_given_away(stage: Stage) -> None:
    quote = stage.quote(stage.turbo).json()
    part = PartFactory(shop=stage.cast.shop, title="Boost gauge")
    added = stage.client.post(f"quotes/{quote['id']}/lines", {"kind": "part", "part": str(part.pk)})
    assert [notice["code"] for notice in added.json()["notices"]] == ["no_part_price"]
    assert "Boost gauge has no price yet" in added.json()["stops"][0]
    line = added.json()["extras"][0]
    assert line["part"] == str(part.pk)
    path = f"quotes/{quote['id']}/lines/{line['line']}"
    assert stage.client.patch(path, {"unit_price": "88", "because": "agreed"}, seen=added).json()["stops"] == []


def test_a_price_in_the_place_of_a_missing_pack_settles_it(stage: Stage) -> None:
    from kitting.models import Offer

    Offer.objects.filter(part__kind="pack").delete()
    first = stage.quote(stage.turbo)
    need = first.json()["needs"][0]
    assert first.json()["stops"] and need["price"] == "0.00"
    path = f"quotes/{first.json()['id']}/overrides/{need['key']}"
    settled = stage.client.put(path, {"value": "70", "because": "from the shelf"}, seen=first).json()
    assert settled["needs"][0]["price"] == "70.00" and settled["stops"] == []


def test_the_only_kit_saves_no_more_than_itself(stage: Stage) -> None:
    quote = stage.quote(stage.turbo).json()
    line = {"kind": "text", "title": "Storage", "unit_price": "500", "tax_class": "part"}
    kit = stage.client.post(f"quotes/{quote['id']}/lines", line).json()["kits"][0]
    assert kit["saves_amount"] == quote["totals"]["gross"]


def test_a_step_that_falls_away_needs_nothing(stage: Stage) -> None:
    from shop.models import TemplateStep

    only = [{"attribute": "transmission", "in": ["automatic"]}]
    TemplateStep.objects.filter(operation__code="TURBO").update(conditions=only)
    quote = stage.quote(stage.turbo).json()  # the vehicle is a manual, and the oil is the turbo's
    assert quote["needs"] == [] and "TURBO" not in lines(quote)


def test_only_what_the_vehicle_takes_is_counted(stage: Stage) -> None:
    assert [kit["parts"] for kit in stage.quote().json()["kits"]] == [3, 3]


def test_what_is_fitted_for_the_first_time_takes_longer_until_it_was_accepted(stage: Stage) -> None:
    from quotes.models import Revision

    rules = {**RULES, "first_fit_factor": "1.25"}
    RuleSet.objects.create(shop=stage.cast.shop, number=2, valid_from=date(2026, 2, 1), rules=rules)
    first = stage.quote(stage.turbo).json()
    assert lines(first)["TURBO"] == "3.8"
    sent = stage.client.post(f"quotes/{first['id']}/send", {"version": first["version"], "recipient": "x"})
    assert sent.status_code == 201
    Revision.objects.update(state="accepted")
    assert lines(stage.quote(stage.turbo).json())["TURBO"] == "3.0"


@pytest.mark.parametrize(("key", "value"), [("labour:TURBO", "1.25"), ("kit", "10.125")])
def test_a_figure_finer_than_it_is_charged_is_refused(stage: Stage, key: str, value: str) -> None:
    first = stage.quote()
    key = first.json()["kits"][0]["key"] if key == "kit" else key
    answer = stage.client.put(
        f"quotes/{first.json()['id']}/overrides/{key}", {"value": value, "because": "x"}, seen=first
    )
    assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == "/value"


def test_more_hours_than_a_piece_of_work_can_take_are_refused(stage: Stage) -> None:
    first = stage.quote()
    path = f"quotes/{first.json()['id']}/overrides/labour:TURBO"
    answer = stage.client.put(path, {"value": "999.1", "because": "x"}, seen=first)
    assert answer.status_code == 400 and "at most 999" in answer.json()["errors"][0]["detail"]
    assert stage.client.put(path, {"value": "999", "because": "x"}, seen=first).status_code == 200


def test_a_quote_takes_as_many_kits_as_there_are_letters(stage: Stage) -> None:
    quote = stage.quote(*[stage.towing] * 26).json()
    assert [kit["letter"] for kit in quote["kits"]][-1] == "Z"
    answer = stage.client.post(f"quotes/{quote['id']}/lines", {"kind": "kit", "kit": str(stage.towing.pk)})
    assert answer.status_code == 409 and len(stage.client.get(f"quotes/{quote['id']}").json()["kits"]) == 26


def test_an_attribute_may_have_any_name(stage: Stage) -> None:
    stage.vehicle.attributes = {"größe": "L", "transmission": "manual"}
    stage.vehicle.save()
    assert stage.sent()["quote"]["state"] == "sent"
