"""Adds as many rows of every kind to a workshop as a test asks for."""

import uuid
from datetime import timedelta
from decimal import Decimal
from typing import Any

from django.utils import timezone

from kitting.models import (
    Code,
    Consumable,
    CountEvent,
    Kit,
    KitLine,
    KitRevision,
    Need,
    Offer,
    Part,
    PullLine,
    PullList,
    Supplier,
)
from quotes.models import Decision, Line, OutsideWork, Quote, Revision
from shop.calc.keys import search_key
from shop.models import (
    Agreement,
    Customer,
    FileRead,
    Job,
    JobOperation,
    Member,
    Operation,
    OperationPair,
    RuleSet,
    Shop,
    Vehicle,
)
from tests.api.busy_money import grow_money
from tests.bulk import insert, with_words
from tests.quotes.stage import Stage

RESULT = {"becomes": {"title": "x"}, "counts": {"must_fix": 0}}
State = Revision.State
STATES = (State.DRAFT, State.SENT, State.ACCEPTED, State.DECLINED, State.WITHDRAWN)


def grow(stage: Stage, many: int) -> None:
    """Adds that many rows of every kind that a workshop keeps adding to. Those of `one_of_each` stay as they are."""
    people = grow_customers(stage, many)
    jobs = _jobs(stage, people)
    _lists(stage, jobs)
    grow_money(stage, jobs)
    _quotes(stage, people)
    _goods(stage, many)
    _labour(stage, many)
    _files(stage, many)


def grow_customers(stage: Stage, many: int) -> list[Vehicle]:
    """Adds that many customers, each with a vehicle."""
    shop = stage.cast.shop
    names = [f"Customer {uuid.uuid4().hex[:12]}" for _ in range(many)]
    customers = with_words(
        insert(Customer, (Customer(shop=shop, name=name, name_key=search_key(name)) for name in names))
    )
    vehicles = (
        Vehicle(
            shop=shop,
            customer=customer,
            title=f"Vehicle {at}",
            title_key=f"vehicle{at}",
            plate_key=customer.id.hex[-12:],
        )
        for at, customer in enumerate(customers)
    )
    return with_words(insert(Vehicle, vehicles))


def _jobs(stage: Stage, vehicles: list[Vehicle]) -> list[Job]:
    shop, now = stage.cast.shop, timezone.now()
    first = 1 + max(Job.objects.filter(shop=shop, number__lt=900_000).values_list("number", flat=True))
    jobs = insert(
        Job,
        (
            Job(shop=shop, number=first + at, customer_id=vehicle.customer_id, vehicle=vehicle, opened_at=now)
            for at, vehicle in enumerate(vehicles)
        ),
    )
    agreements = insert(Agreement, (Agreement(shop=shop, job=job, number=1, agreed_at=now) for job in jobs))
    insert(
        JobOperation,
        (
            JobOperation(
                shop=shop,
                job=agreement.job,
                position=at,
                code=f"op-{at}",
                title="x",
                quoted_hours=Decimal(1),
                origin=agreement,
            )
            for agreement in agreements
            for at in range(2)
        ),
    )
    return jobs


def _lists(stage: Stage, jobs: list[Job]) -> None:
    shop, now, part = stage.cast.shop, timezone.now(), Part.objects.filter(shop=stage.cast.shop)[0]
    lists = insert(
        PullList,
        (
            PullList(shop=shop, job=job, opened_at=now, last_seq=1, facts={"customer": "x", "vehicle": "x"})
            for job in jobs
        ),
    )
    lines = insert(
        PullLine,
        (
            PullLine(
                shop=shop,
                pull_list=pull_list,
                position=at,
                kind="box",
                part=part,
                title="x",
                quantity=Decimal(4),
                unit="pc",
            )
            for pull_list in lists
            for at in (1, 2)
        ),
    )
    device = uuid.uuid4()
    insert(
        CountEvent,
        (
            CountEvent(
                id=uuid.uuid4(),
                shop=shop,
                pull_list_id=line.pull_list_id,
                line=line,
                seq=1,
                kind="set",
                total=4,
                damaged=0,
                device=device,
                device_seq=at,
                seen=0,
                author=stage.cast.parts,
                made_at=now,
                stored_at=now,
                body_digest="0" * 64,
            )
            for at, line in enumerate(lines[::2], start=1)
        ),
    )


def _outside(stage: Stage, revisions: list[Revision]) -> None:
    shop, none = stage.cast.shop, Decimal(0)
    firm = Supplier.objects.create(shop=shop, name=f"Firm {uuid.uuid4().hex}", currency="EUR")
    lines = insert(
        Line,
        (
            Line(
                shop=shop,
                revision=revision,
                position=2,
                kind="outside",
                title="x",
                tax_class="part",
                quantity=Decimal(1),
            )
            for revision in revisions
        ),
    )
    with_words(
        insert(
            OutsideWork,
            (
                OutsideWork(
                    shop=shop, revision_id=line.revision_id, line=line, firm=firm, cost=none, markup=none, handling=none
                )
                for line in lines
            ),
        )
    )


def _quotes(stage: Stage, vehicles: list[Vehicle]) -> None:
    """A fifth each are drafts, sent (after another version) and long expired, accepted, declined, withdrawn."""
    shop, long_ago = stage.cast.shop, timezone.now() - timedelta(days=90)
    rules = RuleSet.objects.get(shop=shop, number=1)
    first = 1 + max(Quote.objects.filter(shop=shop).values_list("number", flat=True))
    quotes = insert(
        Quote,
        (
            Quote(
                shop=shop,
                number=first + at,
                customer_id=vehicle.customer_id,
                vehicle=vehicle,
                advisor=stage.cast.advisor,
                created_at=long_ago,
            )
            for at, vehicle in enumerate(vehicles)
        ),
    )
    revisions = insert(
        Revision,
        (
            Revision(
                shop=shop,
                quote=quote,
                number=number,
                rules=rules,
                changed_by=stage.cast.advisor,
                changed_at=long_ago + timedelta(seconds=at),
            )
            for at, quote in enumerate(quotes)
            for number in ((1, 2) if STATES[at % len(STATES)] == State.SENT else (2,))
        ),
    )
    replaced = [revision for revision in revisions if revision.number == 1]
    revisions = [revision for revision in revisions if revision.number == 2]
    turbo = KitRevision.objects.get(kit=stage.turbo)
    insert(
        Line,
        (
            Line(
                shop=shop,
                revision=revision,
                position=1,
                kind="kit",
                kit_revision=turbo,
                title="x",
                tax_class="part",
                quantity=Decimal(1),
            )
            for revision in revisions
        ),
    )
    _outside(stage, revisions)
    frozen = {"snapshot": "{}", "digest": "0" * 64, "pdf_sha256": "0" * 64, "net": 0, "tax": 0, "gross": 0}
    frozen |= {"sent_at": long_ago, "valid_until": long_ago + timedelta(days=14)}
    _become(replaced, State.REPLACED, frozen)
    member = Member.objects.filter(shop=shop)[0]
    for at, state in enumerate(STATES[1:], start=1):
        own = revisions[at :: len(STATES)]
        agreements = _agreements(shop, len(own)) if state == State.ACCEPTED else [None] * len(own)
        _become(own, state, frozen)
        if state in (State.ACCEPTED, State.DECLINED):
            insert(
                Decision,
                (
                    Decision(
                        shop=shop,
                        quote_id=own_revision.quote_id,
                        revision=own_revision,
                        agreement=agreement,
                        way=Decision.Way.COUNTER,
                        recorded_by=member,
                        answer=state,
                        answered_at=long_ago,
                        digest="0" * 64,
                        record={},
                    )
                    for own_revision, agreement in zip(own, agreements, strict=True)
                ),
            )


def _agreements(shop: Shop, n: int) -> list[Agreement]:
    """The agreements of one job with many changes."""
    job, first = Job.objects.filter(shop=shop)[0], 2 + Agreement.objects.filter(shop=shop).count()
    now = timezone.now()
    return insert(Agreement, (Agreement(shop=shop, job=job, number=first + at, agreed_at=now) for at in range(n)))


def _become(revisions: list[Revision], state: Revision.State, frozen: dict[str, Any]) -> None:
    Revision.objects.filter(pk__in=[revision.pk for revision in revisions]).update(state=state, **frozen)


def _goods(stage: Stage, many: int) -> None:
    """Parts with a supplier, an offer and a code each, packs of consumables, and kits of one part."""
    shop, since = stage.cast.shop, timezone.now().date() - timedelta(days=400)
    # Each first digit comes as often as any other, so that "p1" finds a whole page in the smaller shop too.
    names = [f"{at % 8}{uuid.uuid4().hex[:11]}" for at in range(many)]
    suppliers = insert(Supplier, (Supplier(shop=shop, name=f"Supplier {name}", currency="EUR") for name in names))
    consumables = insert(
        Consumable, (Consumable(shop=shop, family="engine oil", specification=name, unit="L") for name in names)
    )
    packs = insert(
        Part,
        (
            Part(
                shop=shop,
                number=f"PACK-{name}",
                number_key=f"pack{name}",
                title="x",
                kind="pack",
                consumable=consumable,
                pack_size=Decimal(5),
            )
            for name, consumable in zip(names, consumables, strict=True)
        ),
    )
    numbered = (Part(shop=shop, number=f"P-{name}", number_key=f"p{name}", title=f"Part {name}") for name in names)
    parts = with_words(insert(Part, numbered))
    insert(
        Offer,
        (
            Offer(shop=shop, part=part, supplier=supplier, currency="EUR", unit_cost=Decimal(10), valid_from=since)
            for goods in (parts, packs)
            for part, supplier in zip(goods, suppliers, strict=True)
        ),
    )
    insert(Code, (Code(shop=shop, part=part, code=f"C{name}") for name, part in zip(names, parts, strict=True)))
    kits = (
        Kit(shop=shop, code=f"K-{name}", title=f"Kit {name}", title_key=f"kit{name}", part=part)
        for name, part in zip(names, parts, strict=True)
    )
    kits = with_words(insert(Kit, kits))
    revisions = insert(KitRevision, (KitRevision(shop=shop, kit=kit, number=1) for kit in kits))
    insert(
        KitLine,
        (
            KitLine(shop=shop, revision=revision, position=at, kind="part", part=part, quantity=Decimal(1))
            for revision, part in zip(revisions, parts, strict=True)
            for at in (1, 2)
        ),
    )
    insert(
        Need,
        (
            Need(shop=shop, revision=revision, position=1, consumable=consumable, quantity=Decimal(1))
            for revision, consumable in zip(revisions, consumables, strict=True)
        ),
    )


def _labour(stage: Stage, many: int) -> None:
    """Pairs of operations that no template of the stage's kits names."""
    shop = stage.cast.shop
    names = [uuid.uuid4().hex[:12] for _ in range(many)]
    operations = insert(
        Operation,
        (
            Operation(shop=shop, code=name, title=f"Operation {name}", skill="mechanical", book_hours=Decimal(1))
            for name in names
        ),
    )
    insert(
        OperationPair,
        (
            OperationPair(shop=shop, kind="overlap", operation=first, other=other, hours=Decimal("0.10"))
            for first, other in zip(operations[::2], operations[1::2], strict=True)
        ),
    )


def _files(stage: Stage, many: int) -> None:
    shop, now = stage.cast.shop, timezone.now()
    insert(
        FileRead,
        (
            FileRead(
                shop=shop,
                kind="customers",
                file_name="x.csv",
                body=b"x",
                read_at=now - timedelta(minutes=at),
                author=stage.cast.parts,
                result=RESULT,
            )
            for at in range(many)
        ),
    )
