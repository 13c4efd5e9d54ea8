"""The number of queries of a read must not grow with its rows."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from kitting.models import KitRevision, Need
from quotes.models import Link
from quotes.services.questions import ask
from tests.cast import Cast
from tests.factories import (
    ConsumableFactory,
    CustomerFactory,
    KitLineFactory,
    OfferFactory,
    PackFactory,
    PartFactory,
    VehicleFactory,
)
from tests.quotes.stage import Stage
from tests.quotes.test_outside import add


def queries(act: Callable[[], Any]) -> int:
    with CaptureQueriesContext(connection) as captured:
        assert act().status_code in (200, 201)
    return len(captured)


def grow(stage: Stage) -> None:
    """Many more lines, needs and packs in a kit that is not yet in use."""
    revision = KitRevision.objects.get(kit=stage.towing)
    for position in range(100, 140):
        KitLineFactory(shop=stage.cast.shop, revision=revision, position=position)
    for position in range(2, 12):
        oil = ConsumableFactory(shop=stage.cast.shop)
        pack = PackFactory(shop=stage.cast.shop, consumable=oil)
        OfferFactory(shop=stage.cast.shop, part=pack)
        Need.objects.create(
            shop=stage.cast.shop, revision=revision, position=position, consumable=oil, quantity=Decimal(3)
        )


def test_a_draft(stage: Stage) -> None:
    small = stage.quote(stage.turbo).json()
    few = queries(lambda: stage.client.get(f"quotes/{small['id']}"))
    grow(stage)
    large = stage.quote().json()
    assert len(large["needs"]) > 10
    assert queries(lambda: stage.client.get(f"quotes/{large['id']}")) <= few


def test_the_list_of_quotes_the_counter_and_the_search(stage: Stage) -> None:
    stage.sent(stage.turbo)
    stage.quote(stage.turbo)
    add(stage, stage.quote(stage.turbo).json())
    paths = ("quotes", "counter", "find?q=tarn", "find?q=kit", "find?q=oil", "find?q=lathe")
    reads = {path: (lambda path=path: stage.client.get(path)) for path in paths}
    few = {path: queries(act) for path, act in reads.items()}
    link = Link.objects.get()
    for n in range(5):
        ask(link=link, text=f"Is it loud? {n}", site="", now=timezone.now())
        add(stage, stage.quote().json())
        VehicleFactory(shop=stage.cast.shop)
        part = PartFactory(shop=stage.cast.shop, title="Oil cap")
        OfferFactory(shop=stage.cast.shop, part=part)
    assert {path: queries(act) for path, act in reads.items()} == few


def test_sending(stage: Stage) -> None:
    def send(quote: dict) -> Callable[[], Any]:
        body = {"version": quote["version"], "recipient": "x"}
        return lambda: stage.client.post(f"quotes/{quote['id']}/send", body)

    few = queries(send(stage.quote(stage.turbo).json()))
    grow(stage)
    assert queries(send(stage.quote().json())) <= few


def test_customers_and_vehicles(cast: Cast) -> None:
    client = cast.signed_in("advisor")

    def add() -> None:
        customer = CustomerFactory(shop=cast.shop)
        VehicleFactory(shop=cast.shop, customer=customer)

    add()
    reads = {path: (lambda path=path: client.get(path)) for path in ("customers", "vehicles", "jobs")}
    few = {path: queries(act) for path, act in reads.items()}
    for _ in range(6):
        add()
    assert {path: queries(act) for path, act in reads.items()} == few
