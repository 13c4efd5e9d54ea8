"""Rows for tests, each sound by itself: name what the test is about, the rest is made."""

from datetime import UTC, date, datetime
from decimal import Decimal
from typing import Any

import factory
from factory.django import DjangoModelFactory

from kitting.models import (
    Code,
    Consumable,
    Kit,
    KitCopy,
    KitLine,
    KitRevision,
    Offer,
    Part,
    PullLine,
    PullList,
    Supplier,
)
from shop.calc.keys import search_key
from shop.models import (
    Agreement,
    Customer,
    Job,
    JobOperation,
    Operation,
    OperationCaution,
    StepCaution,
    StepValue,
    Vehicle,
)
from shop.services.search_words import keep_words

AT = datetime(2026, 11, 24, 9, 0, tzinfo=UTC)


class OfShop(DjangoModelFactory):
    """`shop` is always given; rows made on the way are of the same shop."""

    class Meta:
        abstract = True


class SearchedFactory(OfShop):
    """Makes the row with the words by which it is found."""

    class Meta:
        abstract = True

    @classmethod
    def _create(cls, model_class: Any, *args: Any, **kwargs: Any) -> Any:
        row = super()._create(model_class, *args, **kwargs)
        keep_words([row])
        return row


def same_shop(of: type[DjangoModelFactory]) -> Any:
    return factory.SubFactory(of, shop=factory.SelfAttribute("..shop"))


class CustomerFactory(SearchedFactory):
    name = factory.Sequence(lambda n: f"Maren Oldacre {n}")
    name_key = factory.LazyAttribute(lambda row: search_key(row.name))

    class Meta:
        model = Customer


class VehicleFactory(SearchedFactory):
    title = "Tessark T35 estate"
    title_key = factory.LazyAttribute(lambda row: search_key(row.title))
    vin = ""
    vin_tail = factory.LazyAttribute(lambda row: row.vin[-8:])
    customer = same_shop(CustomerFactory)

    class Meta:
        model = Vehicle


class JobFactory(OfShop):
    number = factory.Sequence(lambda n: n + 1)
    customer = same_shop(CustomerFactory)
    vehicle = factory.SubFactory(
        VehicleFactory, shop=factory.SelfAttribute("..shop"), customer=factory.SelfAttribute("..customer")
    )
    opened_at = AT

    class Meta:
        model = Job


def agreement_of(job: Job) -> Agreement:
    """The agreement that opened the job."""
    return Agreement.objects.get_or_create(shop=job.shop, job=job, number=1, defaults={"agreed_at": AT})[0]


class JobOperationFactory(OfShop):
    position = factory.Sequence(lambda n: n + 1)
    code = factory.Sequence(lambda n: f"step-{n}")
    title = factory.LazyAttribute(lambda row: f"Step {row.code}")
    quoted_hours = Decimal("1.00")
    origin = factory.LazyAttribute(lambda row: agreement_of(row.job))

    class Meta:
        model = JobOperation


class StepCautionFactory(OfShop):
    position = factory.Sequence(lambda n: n + 1)
    text = "Let it cool first."

    class Meta:
        model = StepCaution


class StepValueFactory(OfShop):
    position = factory.Sequence(lambda n: n + 1)
    fastener = "Drain plug"
    value = "35 N·m"

    class Meta:
        model = StepValue


class OperationCautionFactory(OfShop):
    position = factory.Sequence(lambda n: n + 1)
    text = "Let it cool first."

    class Meta:
        model = OperationCaution


class OperationFactory(OfShop):
    code = factory.Sequence(lambda n: f"op-{n}")
    title = factory.LazyAttribute(lambda row: f"Operation {row.code}")
    skill = "mechanical"
    book_hours = Decimal("1.00")

    class Meta:
        model = Operation


class SupplierFactory(OfShop):
    name = factory.Sequence(lambda n: f"Brightwater Induction {n}")
    currency = "EUR"

    class Meta:
        model = Supplier


class PartFactory(SearchedFactory):
    number = factory.Sequence(lambda n: f"BI-{n:04}")
    number_key = factory.LazyAttribute(lambda row: search_key(row.number))
    title = factory.LazyAttribute(lambda row: f"Part {row.number}")

    class Meta:
        model = Part


class ConsumableFactory(OfShop):
    family = "engine oil"
    specification = factory.Sequence(lambda n: f"5W-30 low-ash {n}")
    unit = "L"

    class Meta:
        model = Consumable


class PackFactory(PartFactory):
    kind = "pack"
    consumable = same_shop(ConsumableFactory)
    pack_size = Decimal(5)


class CodeFactory(OfShop):
    code = factory.Sequence(lambda n: f"0952{n:010}")
    part = same_shop(PartFactory)

    class Meta:
        model = Code


class OfferFactory(OfShop):
    supplier = same_shop(SupplierFactory)
    part = same_shop(PartFactory)
    currency = "EUR"
    unit_cost = Decimal("10.0000")
    valid_from = date(2026, 1, 1)

    class Meta:
        model = Offer


class KitFactory(SearchedFactory):
    code = factory.Sequence(lambda n: f"KIT-{n}")
    title = factory.LazyAttribute(lambda row: f"Kit {row.code}")
    title_key = factory.LazyAttribute(lambda row: search_key(row.title))
    part = factory.SubFactory(PartFactory, shop=factory.SelfAttribute("..shop"), number=factory.SelfAttribute("..code"))

    class Meta:
        model = Kit


class KitRevisionFactory(OfShop):
    kit = same_shop(KitFactory)
    number = 1

    class Meta:
        model = KitRevision


class KitLineFactory(OfShop):
    revision = same_shop(KitRevisionFactory)
    position = factory.Sequence(lambda n: n + 1)
    kind = "part"
    part = factory.Maybe("is_part", same_shop(PartFactory), None)
    quantity = Decimal(1)

    class Meta:
        model = KitLine

    class Params:
        is_part = factory.LazyAttribute(lambda row: row.kind == "part")


class KitCopyFactory(OfShop):
    job = same_shop(JobFactory)
    kit = same_shop(KitFactory)
    revision = factory.SubFactory(
        KitRevisionFactory,
        shop=factory.SelfAttribute("..shop"),
        kit=factory.SelfAttribute("..kit"),
        number=factory.Sequence(lambda n: n + 1),
    )
    number = factory.Sequence(lambda n: n + 1)
    purpose = "job"

    class Meta:
        model = KitCopy


class PullListFactory(OfShop):
    job = same_shop(JobFactory)
    facts = factory.LazyAttribute(
        lambda row: {
            "customer": row.job.customer.name,
            "vehicle": row.job.vehicle.title,
            "kits": {"KIT": "Turbocharger and charge-cooler kit"},
        }
    )
    opened_at = AT

    class Meta:
        model = PullList


class PullLineFactory(OfShop):
    pull_list = same_shop(PullListFactory)
    position = factory.Sequence(lambda n: n + 1)
    kind = "box"
    part = same_shop(PartFactory)
    number = factory.LazyAttribute(lambda row: row.part.number if row.part else "")
    title = factory.LazyAttribute(lambda row: row.part.title if row.part else "Bumper bolts")
    quantity = Decimal(4)
    unit = "pc"
    kit = "KIT"
    operation = ""
    step = factory.LazyAttribute(
        lambda row: JobOperation.objects.filter(shop=row.shop, job=row.pull_list.job, code=row.operation).first()
    )

    class Meta:
        model = PullLine
