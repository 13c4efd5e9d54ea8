"""What the product costs beside the bare work it does. `make bench` prints the figures."""

import uuid
from dataclasses import replace
from decimal import Decimal
from typing import Any

import orjson
import pytest
from django.test import Client
from django.utils import timezone

from kitting.models import CountEvent, PullLine, PullList
from quotes import access
from quotes.calc.labour import KitOperation, Operation
from quotes.calc.pricing import price_quote, savings
from quotes.calc.quote_input import Extra
from quotes.figures import figures
from quotes.models import Quote
from tests.bench.ratios import milliseconds, ratio
from tests.cast import Cast
from tests.factories import PartFactory, PullListFactory
from tests.kitting.stage import Phone
from tests.quotes.stage import Stage, make_stage

pytestmark = pytest.mark.bench


def say(words: str) -> None:
    print(f"\n{words}", flush=True)


@pytest.fixture
def pull_list(cast: Cast) -> PullList:
    found = PullListFactory(shop=cast.shop)
    part = PartFactory(shop=cast.shop)
    PullLine.objects.bulk_create(
        PullLine(
            shop=cast.shop,
            list=found,
            position=at,
            kind="box",
            part=part,
            number=f"BI-{at:04}",
            title=f"Screw M8 x {at}, grade 10.9",
            quantity=Decimal(4),
            unit="pc",
            kit="BI-TC35-A",
            carton=f"Carton {at // 60}",
            bag=f"Bag {at // 12}",
            operation="TURBO",
        )
        for at in range(1, 301)
    )
    return found


def test_reading_a_pull_list_of_300_lines(cast: Cast, pull_list: PullList, settings: Any) -> None:
    settings.ROOT_URLCONF = "tests.bench.bare_urls"
    client = Client()
    client.force_login(cast.parts.user)
    ours, bare = f"/api/v1/shops/saltmarsh/pull-lists/{pull_list.pk}", f"/bare/{pull_list.pk}"
    assert len(client.get(ours).json()["lines"]) == len(client.get(bare).json()["lines"]) == 300
    found, first, second = ratio(lambda: client.get(ours), lambda: client.get(bare))
    say(f"GET pull list, 300 lines / bare JSON of the same rows: {found:.2f} (aim 1.5)  {first:.1f} / {second:.1f} ms")


@pytest.fixture
def stage(cast: Cast) -> Stage:
    return make_stage(cast)


def test_pricing_a_quote_of_three_kits(stage: Stage) -> None:
    answer = stage.quote(stage.turbo, stage.towing, stage.turbo).json()
    quote = Quote.objects.get(pk=answer["id"])
    now = timezone.now()
    given = figures(access.current(quote), now).loaded.input

    def pure() -> None:
        savings(given, price_quote(given))

    found, first, second = ratio(lambda: figures(access.current(quote), now), pure)
    say(f"a quote of three kits priced / the bare calculation: {found:.2f} (aim 3)  {first:.1f} / {second:.1f} ms")


def test_the_calculation_itself(stage: Stage) -> None:
    answer = stage.quote(stage.turbo, stage.towing, stage.turbo).json()
    small = figures(access.current(Quote.objects.get(pk=answer["id"])), timezone.now()).loaded.input
    operations = tuple(Operation(f"op-{at:02}", "mechanical", exposed=at % 3 == 0) for at in range(60))
    work = tuple(KitOperation(each.code, Decimal(5 + at % 20) / 10) for at, each in enumerate(operations))
    shares = (work[:30], work[20:50], work[30:])
    kits = tuple(
        replace(kit, code=f"kit-{at}", operations=share)
        for at, (kit, share) in enumerate(zip(small.kits, shares, strict=True))
    )
    extras = tuple(Extra(str(at), f"Line {at}", "part", Decimal("1.5"), Decimal("12.34")) for at in range(400))
    titles = {each.code: each.code for each in operations}
    given = replace(small, kits=kits, operations=operations, titles=titles, overlaps=(), extras=extras)
    took = milliseconds(lambda: price_quote(given))
    say(f"the calculation, 3 kits, 60 operations, 400 lines: {took:.1f} ms (aim 10)")


def test_uploading_200_counts(cast: Cast, pull_list: PullList) -> None:
    client = Client()
    client.force_login(cast.parts.user)
    address = f"/api/v1/shops/saltmarsh/pull-lists/{pull_list.pk}/events"
    lines = list(pull_list.lines.all()[:200])
    phone, device, number = Phone(pull_list), uuid.uuid4(), iter(range(1, 10_000_000))
    now = timezone.now()

    def upload() -> None:
        events = [phone.event(line) for line in lines]
        answer = client.post(address, orjson.dumps({"events": events}), content_type="application/json")
        assert answer.json()["results"][199]["status"] == "stored"

    def bare() -> None:
        pull_list.refresh_from_db()
        rows = [
            CountEvent(
                id=uuid.uuid4(),
                shop=cast.shop,
                list=pull_list,
                line=line,
                seq=pull_list.last_seq + at,
                kind="set",
                total=4,
                damaged=0,
                device=device,
                n=next(number),
                seen=0,
                author=cast.parts,
                made_at=now,
                stored_at=now,
                body_digest="0" * 64,
            )
            for at, line in enumerate(lines, start=1)
        ]
        CountEvent.objects.bulk_create(rows)
        PullList.objects.filter(pk=pull_list.pk).update(last_seq=pull_list.last_seq + len(rows))

    found, first, second = ratio(upload, bare)
    say(f"200 counts uploaded / a bare bulk insert: {found:.2f} (aim 1.6)  {first:.1f} / {second:.1f} ms")
