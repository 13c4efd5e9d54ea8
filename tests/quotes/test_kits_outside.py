"""Outside work that goes with a kit: offered on a draft with its terms until the draft has it."""

from decimal import Decimal
from typing import Any

import pytest
from django.db import IntegrityError, connection, transaction
from django.test.utils import CaptureQueriesContext

from kitting.models import KitOutside, KitRevision
from kitting.services.kits import NewOutside, NewRevision, revise_kit
from quotes.models import Line
from shop.models import Operation
from tests.api.test_permissions import COUNTER
from tests.costs import figure_in, keys_of
from tests.factories import SupplierFactory
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


def with_calibration(stage: Stage, **terms: Any) -> KitRevision:
    """The turbocharger kit's next version, with a calibration by another firm."""
    old = KitRevision.objects.filter(kit=stage.turbo).order_by("-number")[0]
    operations = {row.code: row for row in Operation.objects.filter(shop=stage.shop)}
    work = {
        "title": "Calibration",
        "cost": Decimal("623.45"),
        "tax_class": "labour",
        "markup": Decimal("0.15"),
        "days": 3,
        "starts_after": operations["SETUP"],
        "needed_by": operations["TURBO"],
        "they_need": "build sheet",
        "rounds": 2,
    } | terms
    if "firm" not in work:
        work["firm"] = SupplierFactory(shop=stage.shop, name="Lathe & Lambda")
    contents = NewRevision(labour=old.labour, outside=[NewOutside(**work)])
    return revise_kit(actor=stage.cast.acting("manager"), kit=stage.turbo, contents=contents)


def offered(stage: Stage, quote: dict[str, Any]) -> list[dict[str, Any]]:
    answer = stage.client.get(f"quotes/{quote['id']}/kits-outside")
    assert answer.status_code == 200
    items: list[dict[str, Any]] = answer.json()["items"]
    return items


def take(stage: Stage, quote: dict[str, Any], work: dict[str, Any]) -> dict[str, Any]:
    terms = {name: value for name, value in work.items() if name not in ("line", "kit")}
    answer = stage.client.post(f"quotes/{quote['id']}/outside", terms)
    assert answer.status_code == 201, answer.content
    taken: dict[str, Any] = answer.json()
    return taken


def test_a_picked_kit_offers_its_outside_work_as_it_can_be_added(stage: Stage) -> None:
    with_calibration(stage)
    quote = stage.quote(stage.turbo, stage.towing).json()
    [work] = offered(stage, quote)
    assert (work["kit"], work["line"]) == (stage.turbo.title, quote["kits"][0]["line"])
    assert (work["firm"], work["cost"], work["markup"], work["days"]) == ("Lathe & Lambda", "623.45", "0.15", 3)
    assert (work["starts_after"], work["needed_by"], work["rounds"]) == ("SETUP", "TURBO", 2)
    [line] = take(stage, quote, work)["outside"]
    assert (line["name"], line["they_need"], line["days"]) == (
        "Calibration by Lathe & Lambda",
        "build sheet",
        3,
    )
    assert offered(stage, quote) == []


def test_it_is_offered_again_once_its_line_is_gone_and_never_twice(stage: Stage) -> None:
    with_calibration(stage)
    quote = stage.quote(stage.turbo, stage.turbo).json()
    [work] = offered(stage, quote)
    taken = take(stage, quote, work)
    path = f"quotes/{quote['id']}/lines/{taken['outside'][0]['line']}"
    assert stage.client.delete(path, seen=f'"{taken["version"]}"').status_code == 200
    assert len(offered(stage, quote)) == 1


def test_two_kits_that_bring_the_same_work_offer_it_once(stage: Stage) -> None:
    firm = KitOutside.objects.get(revision=with_calibration(stage)).firm
    work = NewOutside("calibration ", firm, Decimal("500"), "labour")
    revise_kit(actor=stage.cast.acting("manager"), kit=stage.towing, contents=NewRevision(outside=[work]))
    [first] = offered(stage, stage.quote(stage.turbo, stage.towing).json())
    assert (first["kit"], first["cost"]) == (stage.turbo.title, "623.45")


def test_a_kit_keeps_the_version_that_was_picked(stage: Stage) -> None:
    revision = with_calibration(stage)
    quote = stage.quote(stage.turbo).json()
    firm = KitOutside.objects.get(revision=revision).firm
    with_calibration(stage, firm=firm, cost=Decimal("700"))
    assert offered(stage, quote)[0]["cost"] == "623.45"
    assert offered(stage, stage.quote(stage.turbo).json())[0]["cost"] == "700.00"


@pytest.mark.both
def test_the_outside_work_of_a_version_in_use_never_changes(stage: Stage) -> None:
    revision = with_calibration(stage)
    stage.quote(stage.turbo)
    for change in (
        lambda rows: rows.update(cost=Decimal(1)),
        lambda rows: rows.delete(),
    ):
        with pytest.raises(IntegrityError), transaction.atomic():
            change(KitOutside.objects.filter(revision=revision))


def test_a_sent_quote_offers_nothing(stage: Stage) -> None:
    with_calibration(stage)
    quote = stage.sent(stage.turbo, below_floor=True)["quote"]
    assert offered(stage, quote) == []


def test_a_kit_without_outside_work_offers_none(stage: Stage) -> None:
    assert offered(stage, stage.quote(stage.towing).json()) == []


@pytest.mark.parametrize("role", ["advisor", "manager", "parts", "technician"])
def test_only_those_who_quote_read_what_it_costs(stage: Stage, role: str) -> None:
    with_calibration(stage)
    quote = stage.quote(stage.turbo).json()
    client = stage.cast.signed_in(role)
    assert client.get(f"quotes/{quote['id']}/kits-outside").status_code == (200 if role in COUNTER else 403)
    kit = client.get(f"kits/{stage.turbo.pk}")
    [work] = kit.json()["outside"]
    assert (work["title"], work["firm"], work["days"], work["rounds"]) == ("Calibration", "Lathe & Lambda", 3, 2)
    assert not {"cost", "markup", "handling"} & set(keys_of(kit.json()["outside"]))
    assert not figure_in("623.45", kit.content.decode())


def test_the_number_of_queries_does_not_grow_with_the_lines(stage: Stage, django_assert_num_queries: Any) -> None:
    with_calibration(stage)
    quote = stage.quote(stage.turbo).json()
    path = f"quotes/{quote['id']}/kits-outside"
    client = stage.client
    client.get(path)
    with CaptureQueriesContext(connection) as few:
        client.get(path)
        n = len(few)
    for _ in range(5):
        client.post(f"quotes/{quote['id']}/lines", {"kind": "kit", "kit": str(stage.towing.pk)})
    assert Line.objects.filter(revision__quote=quote["id"]).count() == 6
    with django_assert_num_queries(n):
        client.get(path)
