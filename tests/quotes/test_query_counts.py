"""The number of queries of a read must not grow with its rows."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any
from urllib.parse import quote

from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from kitting.models import Kit, KitRevision, Need, Offer, Part
from quotes.models import Link
from quotes.services.questions import ask
from shop.models import Job
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


def test_a_quotation_for_another_program(stage: Stage) -> None:
    def lines_and_queries(*kits: Kit) -> tuple[int, int]:
        path = f"quotes/{stage.sent(*kits)['quote']['id']}/ubl"
        answer = stage.client.get(path)
        return answer.content.count(b"<cac:QuotationLine>"), queries(lambda: stage.client.get(path))

    lines, few = lines_and_queries(stage.turbo)
    grow(stage)
    more_lines, more = lines_and_queries()
    assert more_lines >= lines + 10 and more <= few


def test_an_order_for_another_program(stage: Stage) -> None:
    parts = stage.cast.signed_in("parts")

    def lines_and_queries(*kits: Kit) -> tuple[int, int]:
        stage.accepted(*kits)
        job = Job.objects.latest("number")
        release = parts.post(f"jobs/{job.pk}/releases", {}).json()["releases"][0]
        order = max(release["suppliers"], key=lambda order: len(order["lines"]))
        path = f"jobs/{job.pk}/releases/{release['id']}/ubl?supplier={quote(order['supplier'])}"
        return len(order["lines"]), queries(lambda: parts.get(path))

    lines, few = lines_and_queries(stage.turbo)
    Part.objects.update(preferred=None)
    Offer.objects.update(supplier=stage.turbo.part.offers.get().supplier)
    more_lines, more = lines_and_queries()
    assert more_lines > lines and more <= few


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
