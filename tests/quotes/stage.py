"""A small workshop with two kits that share work, so that every figure can be checked by hand."""

import json
from collections.abc import Callable, Iterator
from contextlib import contextmanager, nullcontext
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal
from inspect import signature
from typing import Any, TypeVar

from django.db import connection
from django.utils import timezone

from kitting.models import Kit, KitLine, KitRevision, Need
from quotes.queries.pricing import shop_day
from shop.documents import pdf
from shop.models import LabourTemplate, OperationPair, Rate, RuleSet, Shop, TemplateStep
from tests.cast import Cast
from tests.factories import (
    ConsumableFactory,
    CustomerFactory,
    KitFactory,
    KitLineFactory,
    KitRevisionFactory,
    OfferFactory,
    OperationCautionFactory,
    OperationFactory,
    PackFactory,
    PartFactory,
    SupplierFactory,
    VehicleFactory,
)
from tests.prepared import Watch, prepared
from tests.quotes.phone import Phone

Made = TypeVar("Made")
RULES: dict[str, Any] = {
    "labour_rates": {"mechanical": "165.00", "electrical": "180.00"},
    "labour_costs": {"mechanical": "60.00", "electrical": "60.00"},
    "condition_factors": {"light": "1.10", "heavy": "1.40"},
    "markup": {"mode": "graduated", "bands": [{"up_to": "100", "x": "1.50"}, {"x": "1.20"}]},
    "supplies": {"basis": ["labour"], "rate": "0.05", "cap": "48.00", "tax_class": "supplies"},
    "fees": [{"code": "oil", "title": "Used oil", "amount": "0.80", "tax_class": "fee", "per": "engine oil"}],
    "taxes": [
        {
            "code": "VAT",
            "title": "Value added tax",
            "rate": "0.20",
            "classes": ["part", "labour", "supplies", "fee"],
            "on_top_of": [],
        }
    ],
    "prices_include_tax": True,
    "validity_days": 14,
    "margin_floor": "0.24",
    "words": {
        "standing": ["Removed parts are yours."],
        "cautions": ["More power may matter to your insurer."],
        "consents": [{"code": "road", "text": "I have read what this may mean for road use."}],
    },
}


@dataclass(frozen=True)
class Answer:
    """The interface of an answer that tests use."""

    status_code: int
    content: bytes
    headers: dict[str, str]

    def __getitem__(self, header: str) -> str:
        return self.headers[header]

    def json(self) -> Any:
        return json.loads(self.content)


@dataclass
class Stage:
    """Kit A: set-up 1.5 h, bumper 2.4 h, turbo 3.0 h, and oil. Kit B: set-up 1.8 h, bumper 2.0 h, wiring 2.0 h."""

    cast: Cast
    turbo: Kit
    towing: Kit
    customer: Any
    vehicle: Any
    watch: Watch | None = None

    @property
    def shop(self) -> Shop:
        return self.cast.shop

    @property
    def client(self) -> Any:
        return self.cast.signed_in("advisor")

    def quote(self, *kits: Kit, **fields: Any) -> Answer:
        """The answer to a new quote for the known customer and vehicle."""
        return self.as_before(_quoted, self._body(kits, fields))

    def sent(self, *kits: Kit, below_floor: bool = False) -> dict[str, Any]:
        """Answer of sending a new quote: {quote, link}."""
        sent: dict[str, Any] = self.as_before(_sent, self._body(kits, {}), below_floor).json()
        return sent

    def accepted(self, *kits: Kit) -> dict[str, Any]:
        """Answer of sending a new quote, which the customer has accepted."""
        accepted: dict[str, Any] = self.as_before(_accepted, self._body(kits, {})).json()
        return accepted

    def enact(self, rules: dict[str, Any]) -> None:
        """Adds the next price rules, which follow those in force."""
        self.as_before(_enact, json.dumps(rules))

    def _body(self, kits: tuple[Kit, ...], fields: dict[str, Any]) -> str:
        body = {"kits": [str(kit.pk) for kit in kits or (self.turbo, self.towing)]}
        return json.dumps(body | {"customer": str(self.customer.pk), "vehicle": str(self.vehicle.pk)} | fields)

    def as_before(self, make: Callable[..., Made], *arguments: Any) -> Made:
        """`make(stage, what sets the pages of a paper, *arguments)`.

        Where the test has done nothing but such steps, the rows that the same steps wrote for a test before come back.
        """
        watch = self.watch
        if watch is None or watch.written or not connection.in_atomic_block:
            return make(self, pdf.render, *arguments)
        watch.written = True  # what `make` does is one step
        result = prepared(make, self, pdf.render, *arguments, after=watch.done)
        watch.written, watch.done = False, (*watch.done, (make, *arguments))
        return result


def _quoted(stage: Stage, _: Any, body: str) -> Answer:
    answer = stage.client.post("quotes", json.loads(body))
    return Answer(answer.status_code, answer.content, dict(answer.headers))


def _sent(stage: Stage, render: Any, body: str, below_floor: bool) -> Answer:
    """`render` sets the pages of the paper, which is kept with the quote."""
    draft = _quoted(stage, render, body).json()
    recipient = {"version": draft["version"], "recipient": "01632 960 417", "below_floor": below_floor}
    answer = stage.client.post(f"quotes/{draft['id']}/send", recipient)
    assert answer.status_code == 201, answer.content
    return Answer(answer.status_code, answer.content, dict(answer.headers))


def _enact(stage: Stage, _: Any, rules: str) -> None:
    number = RuleSet.objects.filter(shop=stage.shop).count() + 1
    RuleSet.objects.create(shop=stage.shop, number=number, valid_from=date(2026, 1, number), rules=json.loads(rules))


def _accepted(stage: Stage, render: Any, body: str) -> Answer:

    answer = _sent(stage, render, body, below_floor=False)
    assert Phone(answer.json()["link"]["url"]).answer().status_code == 303
    return answer


def make_stage(cast: Cast) -> Stage:
    return prepared(_make_stage, cast)


@contextmanager
def watched(stage: Stage, test: Callable[..., None]) -> Iterator[Stage]:
    """Lets the stage repeat what it did for another test, unless this one puts something in place of our code."""
    stage.watch = None if "monkeypatch" in signature(test).parameters else Watch()
    with connection.execute_wrapper(stage.watch.note) if stage.watch else nullcontext():
        yield stage


def _make_stage(cast: Cast) -> Stage:
    shop = cast.shop
    RuleSet.objects.create(shop=shop, number=1, valid_from=date(2026, 1, 1), rules=RULES)
    five_days_ago = shop_day(shop, timezone.now()) - timedelta(days=5)
    Rate.objects.create(shop=shop, currency="USD", valid_from=five_days_ago, rate=Decimal("0.900000"))
    setup = OperationFactory(shop=shop, code="SETUP", title="Set-up, protect, road test")
    bumper = OperationFactory(shop=shop, code="BUMPER", title="Front bumper off and on", exposed=True)
    turbo = OperationFactory(shop=shop, code="TURBO", title="Turbocharger fitted")
    OperationCautionFactory(shop=shop, operation=turbo, text="Let it cool first.")
    wiring = OperationFactory(shop=shop, code="WIRING", title="Towing electrics", skill="electrical")
    OperationPair.objects.create(shop=shop, kind="overlap", operation=bumper, other=turbo, hours=Decimal("0.50"))
    a = _kit(shop, "BI-T", "Turbocharger kit", [(setup, "1.50"), (bumper, "2.40"), (turbo, "3.00")], "USD", "1000.0000")
    b = _kit(shop, "QF-T", "Towing kit", [(setup, "1.80"), (bumper, "2.00"), (wiring, "2.00")], "EUR", "400.0000")
    _contents(shop, a, bumper, turbo)
    _contents(shop, b, bumper, wiring)
    _oil(shop, a, turbo)
    customer = CustomerFactory(shop=shop, name="Maren Oldacre", phone="01632 960 417")
    vehicle = VehicleFactory(
        shop=shop,
        customer=customer,
        vin="OBX4417",
        attributes={"transmission": "manual"},
        capacities={"engine oil": "6.1"},
    )
    return Stage(cast, a.kit, b.kit, customer, vehicle)


def _kit(shop: Any, code: str, title: str, work: list[Any], currency: str, cost: str) -> KitRevision:
    supplier = SupplierFactory(shop=shop, currency=currency)
    part = PartFactory(shop=shop, number=code, title=title, preferred=supplier)
    OfferFactory(shop=shop, supplier=supplier, part=part, currency=currency, unit_cost=Decimal(cost), lead_days=5)
    template = LabourTemplate.objects.create(shop=shop, code=code)
    for position, (operation, hours) in enumerate(work, start=1):
        TemplateStep.objects.create(
            shop=shop, template=template, operation=operation, position=position, hours=Decimal(hours)
        )
    kit = KitFactory(shop=shop, code=code, title=title, part=part)
    return KitRevisionFactory(shop=shop, kit=kit, labour=template)


def _contents(shop: Any, revision: KitRevision, first: Any, second: Any) -> None:
    carton = KitLineFactory(shop=shop, revision=revision, position=1, kind="carton", label="Carton 1")
    bag = KitLineFactory(shop=shop, revision=revision, position=2, kind="bag", label="Bag 1-01", parent=carton)
    for position, (operation, quantity, when) in enumerate(
        [
            (first, 4, []),
            (second, 1, []),
            (second, 2, [{"attribute": "transmission", "in": ["manual"]}]),
            (second, 2, [{"attribute": "transmission", "in": ["automatic"]}]),
        ],
        start=3,
    ):
        KitLineFactory(
            shop=shop,
            revision=revision,
            position=position,
            parent=bag,
            quantity=Decimal(quantity),
            operation=operation,
            conditions=when,
        )
    assert KitLine.objects.filter(revision=revision, kind="part").count() == 4


def _oil(shop: Any, revision: KitRevision, operation: Any) -> None:
    oil = ConsumableFactory(shop=shop, family="engine oil", specification="5W-30")
    for number, size, cost in [("OIL-1", "1", "8.0000"), ("OIL-5", "5", "30.0000")]:
        supplier = SupplierFactory(shop=shop)
        pack = PackFactory(shop=shop, number=number, consumable=oil, pack_size=Decimal(size), preferred=supplier)
        OfferFactory(shop=shop, supplier=supplier, part=pack, unit_cost=Decimal(cost))
    Need.objects.create(
        shop=shop,
        revision=revision,
        position=1,
        consumable=oil,
        rule="of_capacity",
        quantity=Decimal(1),
        basis="engine oil",
        operation=operation,
    )
