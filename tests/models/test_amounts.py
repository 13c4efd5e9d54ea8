"""The database stores money, hours and quantities as whole numbers of a fixed scale, in every column."""

import json
import random
from collections.abc import Iterator
from decimal import Decimal
from typing import Any, NoReturn

import pytest
from django.apps import apps
from django.core.exceptions import ValidationError
from django.db import connection, models
from django.db.models import Sum
from django.utils import timezone

from kitting.models import KitRevision, Offer, Part, PullLine, PullList
from kitting.services.kits import NewOutside, NewReusedPart, NewRevision, add_kit
from quotes.models import Line, Revision, WorkedHours
from quotes.queries.pricing import shop_day
from shop.constraints import refusals_suspended
from shop.models import JobOperation, Rate
from shop.rows import ExactDecimalField
from tests.cast import make_cast
from tests.examples import many
from tests.factories import SupplierFactory
from tests.kitting.stage import Phone as CountingPhone
from tests.kitting.stage import send as send_counts
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage, make_stage
from tests.shared import made_once

TYPES = {"sqlite": ("typeof", "integer"), "postgresql": ("pg_typeof", "bigint")}
ROWS = many(200_000)


@pytest.fixture(scope="module")
def once(django_db_setup: None, django_db_blocker: Any) -> Iterator[Stage]:
    yield from made_once(django_db_blocker, lambda: use(make_stage(make_cast())))


@pytest.fixture
def used(once: Stage, db: None) -> Stage:
    """A workshop that has quoted, sold and counted, so that no column of an amount is empty."""
    return once


def use(stage: Stage) -> Stage:
    draft = stage.quote().json()
    path = f"quotes/{draft['id']}"
    line = {"kind": "text", "title": "Wheel alignment", "quantity": "1.5", "unit_price": "79.99", "tax_class": "labour"}
    assert stage.client.post(f"{path}/lines", line).status_code == 201
    work = {"title": "Calibration", "firm": "Lathe & Lambda", "cost": "480.50", "markup": "0.15", "handling": "9.90"}
    assert stage.client.post(f"{path}/outside", work | {"tax_class": "labour", "days": 3}).status_code == 201
    agreed = {"value": "1.4", "because": "agreed"}
    seen = stage.client.get(path)
    assert stage.client.put(f"{path}/overrides/labour:SETUP", agreed, seen=seen).status_code == 200
    version = stage.client.get(path).json()["version"]
    sent = stage.client.post(f"{path}/send", {"version": version, "recipient": "01632 960 417"}).json()
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    count_everything(stage)
    settle(stage)
    rare(stage)
    return stage


def settle(stage: Stage) -> None:
    """A payment, a core that came back and the closing account of the job."""
    job = f"jobs/{PullList.objects.get().job_id}"
    today = shop_day(stage.shop, timezone.now()).isoformat()
    paid = {"amount": "10.01", "received_on": today, "means": "card", "reference": "slip 000417"}
    core = {"title": "Turbocharger", "amount": "12.34", "returned_on": today}
    for path, body in (("payments", paid), ("core-returns", core)):
        assert stage.client.post(f"{job}/{path}", body).status_code == 201
    due = stage.client.get(f"{job}/account").json()["due"]
    assert stage.client.post(f"{job}/closing-account", {"due": due}).status_code == 201


def count_everything(stage: Stage) -> None:
    pull_list = PullList.objects.get()
    phone = CountingPhone(pull_list)
    counts = [phone.event(line, total=int(line.quantity)) for line in PullLine.objects.filter(pull_list=pull_list)]
    assert {count["status"] for count in send_counts(stage.cast.signed_in("technician"), pull_list, *counts)} == {
        "stored"
    }


def rare(stage: Stage) -> None:
    """Fills the columns that the usual fixtures leave empty."""
    shop, part = stage.cast.shop, stage.turbo.part
    firm = SupplierFactory(shop=shop)
    away = NewOutside("Balancing", firm, Decimal("90.5555"), "labour", Decimal("0.125"), Decimal("9.99"))
    bolts = NewReusedPart("Bolts", Decimal("6.5"))
    contents = NewRevision(price=Decimal("12.34"), hours=Decimal("0.25"), reused=(bolts,), outside=(away,))
    add_kit(actor=stage.cast.acting("parts"), code="SPARE", title="Spare wheel kit", contents=contents)
    JobOperation.objects.update(credited_hours=Decimal("1.25"), actual_hours=Decimal("1.75"))
    recording = {"recorded_at": timezone.now(), "recorded_by": stage.cast.advisor}
    step = JobOperation.objects.filter(shop=shop)[0]
    WorkedHours.objects.create(shop=shop, step=step, hours=Decimal("1.75"), reason="Half done", **recording)
    KitRevision.objects.filter(kit__part__number="SPARE").update(cost=Decimal("8.8888"))
    Part.objects.filter(shop=shop, number="SPARE").update(selling_price=Decimal("7.7777"))
    Revision.objects.filter(pk=revision_of(stage)).update(discount_percent=Decimal("2.5"), discount_reason="Regular")
    Revision.objects.filter(pk=revision_of(stage)).update(discount_amount=Decimal("5.25"), discount_reason="Regular")
    with refusals_suspended():
        Revision.objects.exclude(snapshot="").update(agreed=Decimal("6.543"), gross_high=Decimal("9.876"))
    draft = Revision.objects.get(pk=revision_of(stage))
    Line.objects.create(
        shop=shop,
        revision=draft,
        position=90,
        kind=Line.Kind.TEXT,
        title="Seized bolts",
        tax_class="labour",
        quantity=Decimal("0.0001"),
        unit_price=Decimal("0.0001"),
        certain=False,
        cap=Decimal("99999999999999.9999"),
        event="A bolt is seized",
    )
    assert Offer.objects.filter(part=part).exists() and KitRevision.objects.filter(price__isnull=False).exists()


def revision_of(stage: Stage) -> str:
    """The revision of a new draft."""
    return str(Revision.objects.get(quote_id=stage.quote().json()["id"]).pk)


def columns() -> Iterator[tuple[type[models.Model], ExactDecimalField]]:
    for model in apps.get_models():
        for field in model._meta.local_fields:
            if isinstance(field, ExactDecimalField):
                yield model, field


def kept_as(model: type[models.Model], column: str) -> dict[str, int]:
    """{type of the stored value: how many}, nulls aside."""
    kind, _ = TYPES[connection.vendor]
    table = connection.ops.quote_name(model._meta.db_table)
    with connection.cursor() as cursor:
        cursor.execute(
            f"SELECT CAST({kind}({column}) AS varchar(20)), count(*) FROM {table} WHERE {column} IS NOT NULL GROUP BY 1"
        )
        return dict(cursor.fetchall())


def test_every_stored_amount_is_a_whole_number(used: Stage) -> None:
    whole = TYPES[connection.vendor][1]
    kind_by_column = {f"{model.__name__}.{field.name}": kept_as(model, field.column) for model, field in columns()}
    assert len(kind_by_column) >= 27
    assert {name: kinds for name, kinds in kind_by_column.items() if kinds.keys() != {whole}} == {}


def test_a_stored_fraction_would_be_seen(used: Stage) -> None:
    """SQLite takes what it is given; PostgreSQL's column takes whole numbers only."""
    with connection.cursor() as cursor:
        cursor.execute("UPDATE shop_joboperation SET actual_hours = 1.75")
    assert kept_as(JobOperation, "actual_hours").keys() == {"real" if connection.vendor == "sqlite" else "bigint"}


def test_no_column_of_any_other_kind_could_hold_an_amount() -> None:
    binary = (models.FloatField, models.DecimalField)
    assert [f for model in apps.get_models() for f in model._meta.local_fields if isinstance(f, binary)] == []


def test_no_json_that_is_stored_holds_a_float(used: Stage) -> None:
    seen = 0
    for model in apps.get_models():
        names = [field.name for field in model._meta.local_fields if isinstance(field, models.JSONField)]
        for row in model._default_manager.all() if names else ():
            for name in names:
                seen += 1
                assert list(floats_in(getattr(row, name))) == [], f"{model.__name__}.{name}"
    assert seen > 50


def test_the_frozen_text_holds_no_fraction_as_a_number(used: Stage) -> None:
    revision = Revision.objects.exclude(snapshot="").get()
    assert json.loads(revision.snapshot, parse_float=refuse)["shown"]["totals"]["gross"] == f"{revision.gross:.2f}"


def test_the_sum_of_many_thousand_amounts_is_exact(used: Stage) -> None:
    chance = random.Random(20_261_125)
    units = [chance.randrange(10**11, 10**12) for _ in range(ROWS)]
    revision = revision_of(used)
    insert_lines(used, revision, units)
    lines = Line.objects.filter(revision=revision, kind=Line.Kind.FEE)
    exact = sum((Decimal(unit).scaleb(-3) for unit in units), Decimal(0))
    assert lines.count() == ROWS
    assert lines.aggregate(total=Sum("amount"))["total"] == exact
    assert sum(lines.values_list("amount", flat=True), Decimal(0)) == exact
    assert Decimal(sum(unit / 1000 for unit in units)) != exact  # what binary floats would have given
    assert kept_as(Line, "amount").keys() == {TYPES[connection.vendor][1]}


def insert_lines(stage: Stage, revision: str, units: list[int]) -> None:
    """One statement; `units` are the whole numbers that the column keeps."""
    sqlite = connection.vendor == "sqlite"
    id, rows = (
        ("lower(hex(randomblob(16)))", "json_each(%s)")
        if sqlite
        else (
            "gen_random_uuid()",
            "jsonb_array_elements_text(%s::jsonb) WITH ORDINALITY AS given(value, key)",
        )
    )
    shop_id, revision_id = (
        row_id.replace("-", "") if sqlite else row_id for row_id in (str(stage.cast.shop.pk), revision)
    )
    yes, no = ("1", "0") if sqlite else ("true", "false")
    with connection.cursor() as cursor:
        cursor.execute(
            "INSERT INTO quotes_line (id, shop_id, revision_id, position, kind, certain, title, tax_class, "
            "quantity, amount, override_reason, fitted_before, part_condition, original, core, supplied, "
            "returnable, event, skill) "
            f"SELECT {id}, %s, %s, key + 100, 'fee', {yes}, 'Fee', 'fee', 10000, "
            f"CAST(value AS bigint), '', {no}, 'new', {no}, {no}, {no}, {yes}, '', '' FROM {rows}",
            [shop_id, revision_id, json.dumps(units)],
        )


@pytest.mark.parametrize("value", [0.1, float("nan"), True, "1.0000001", "1e30", "NaN", "one"])
def test_what_is_no_exact_decimal_of_the_scale_is_refused(value: Any, used: Stage) -> None:
    rate = Rate(shop=used.cast.shop, currency="USD", valid_from="2026-01-01", rate=value)
    with pytest.raises(ValidationError) as refused:
        rate.clean_fields()
    assert refused.value.message_dict.keys() == {"rate"}


def floats_in(value: Any) -> Iterator[float]:
    if isinstance(value, float):
        yield value
    for part in value.values() if isinstance(value, dict) else value if isinstance(value, list) else ():
        yield from floats_in(part)


def refuse(text: str) -> NoReturn:
    raise AssertionError(f"{text} is no exact number")
