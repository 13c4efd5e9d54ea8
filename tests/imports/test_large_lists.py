"""Lists of thousands of rows are written in few statements, and keep other writers waiting for those alone."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from threading import Thread
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from kitting.models import KitLine, Offer, Part, PartWord, Supplier
from shop.access import Actor
from shop.errors import RequestError
from shop.models import Customer, CustomerWord, FileRead, FileTask, History, Vehicle
from shop.services import file_work, imports
from shop.services.customer_lists import save_customers
from shop.serving.file_worker import work_next
from shop.tables.registry import kinds
from tests.cast import Cast, make_cast
from tests.factories import CustomerFactory, PartFactory

FEW, MANY = 30, 180
MOST_MORE_QUERIES = 9  # of 150 rows more


def customers(rows: int, version: int) -> str:
    lines = (
        f"Customer {n} of Long Lane;01632 {n:06};c{n}@example.org;{n + version} Quay Street\n" for n in range(rows)
    )
    return "Name;Phone;Email;Address\n" + "".join(lines)


def vehicles(rows: int, version: int) -> str:
    lines = (f"Tarn {n % 40};OT {n};{'manual' if (n + version) % 2 else 'automatic'}\n" for n in range(rows))
    return "Vehicle;Plate;Transmission\n" + "".join(lines)


def consumables(rows: int, version: int) -> str:
    lines = (
        f"oil;grade {n % 90};L;OIL-{n:05};Oil {n} mark {version};{version + 1} L;Ottermouth Oils;4.50\n"
        for n in range(rows)
    )
    return "Family;Specification;Unit;Number;Title;Pack size;Supplier;Cost\n" + "".join(lines)


def kit(rows: int, version: int) -> str:
    lines = (f"LG-{n:05};Bracket {n};{version + 1};Carton {n // 100};4.20;Ottermouth Metals\n" for n in range(rows))
    return "Kit number;LG-1\n\nPart no;Description;Qty;Carton;Cost;Supplier\n" + "".join(lines)


LISTS: dict[str, Callable[[int, int], str]] = {
    "customers": customers,
    "vehicles": vehicles,
    "consumables": consumables,
    "kit": kit,
}


def send(actor: Actor, kind: str, text: str) -> FileRead:
    return file_work.keep_unread(
        actor=actor, kind=kinds()[kind], file_name="list.csv", body=text.encode(), supplier="", mapping={}
    )


def take_in(actor: Actor, kind: str, text: str) -> int:
    """The number of queries of the import, without those of the reading."""
    file = send(actor, kind, text)
    assert work_next()
    file_work.take_in_later(actor=actor, file=FileRead.objects.get(pk=file.pk))
    with CaptureQueriesContext(connection) as queries:
        assert work_next()
    assert FileRead.objects.get(pk=file.pk).state == "taken", FileTask.objects.values_list("reason", flat=True)
    return len(queries)


@pytest.mark.once
@pytest.mark.parametrize("kind", LISTS)
def test_rows_cost_hardly_any_queries(cast: Cast, kind: str) -> None:
    actor, text = cast.acting("manager"), LISTS[kind]
    few = [take_in(actor, kind, text(FEW, version)) for version in range(2)]
    many = [take_in(actor, kind, text(MANY, version)) for version in range(2, 4)]
    for before, after in zip(few, many, strict=True):
        assert after - before <= MOST_MORE_QUERIES


def test_what_a_large_list_writes_is_what_stands_in_it(cast: Cast) -> None:
    actor = cast.acting("manager")
    for kind, text in LISTS.items():
        take_in(actor, kind, text(FEW, 0))
        take_in(actor, kind, text(FEW, 1))
    assert Customer.objects.get(phone="01632 000007").address == "8 Quay Street"
    assert CustomerWord.objects.filter(target__phone="01632 000007", word="000007").exists()
    assert Vehicle.objects.get(plate="OT 7").attributes == {"transmission": "automatic"}
    assert Part.objects.get(number="OIL-00007").pack_size == 2
    assert PartWord.objects.filter(target__number="OIL-00007", word="oil00007").count() == 1
    marks = PartWord.objects.filter(target__number="OIL-00007", word__in=("0", "1"))
    assert [*marks.values_list("word", flat=True)] == ["1"]
    assert Offer.objects.filter(part__number="OIL-00007").count() == 1
    assert {*KitLine.objects.filter(part__isnull=False, revision__number=2).values_list("quantity", flat=True)} == {2}
    changed = History.objects.filter(
        subject="customer", verb="changed", changes__address=["7 Quay Street", "8 Quay Street"]
    )
    assert changed.count() == 1


def test_a_customer_that_somebody_changed_meanwhile_is_not_overwritten(cast: Cast) -> None:
    actor, row = cast.acting("manager"), CustomerFactory(shop=cast.shop, name="Kester Vole", address="")
    customer = Customer.objects.get(pk=row.pk)
    Customer.objects.filter(pk=row.pk).update(version=2, address="1 Quay Street")
    customer.address = "2 Quay Street"
    with pytest.raises(RequestError, match="changed-meanwhile"):
        save_customers(actor=actor, customers=[customer])
    assert Customer.objects.get(pk=row.pk).address == "1 Quay Street"


@contextmanager
def during(monkeypatch: pytest.MonkeyPatch, names: tuple[str, ...], act: Callable[[], None]) -> Iterator[list[str]]:
    """Acts while each of these functions of `imports` works; their names as they are called."""
    called: list[str] = []
    with monkeypatch.context() as patched:
        for name in names:
            original = getattr(imports, name)

            def meanwhile(*args: Any, name: str = name, original: Any = original, **kw: Any) -> Any:
                called.append(name)
                act()
                return original(*args, **kw)

            patched.setattr(imports, name, meanwhile)
        yield called


def test_what_the_shop_became_meanwhile_stops_the_import(cast: Cast, monkeypatch: pytest.MonkeyPatch) -> None:
    actor, metres = cast.acting("manager"), []
    file = send(actor, "kit", kit(20, 0))
    assert work_next()
    file_work.take_in_later(actor=actor, file=FileRead.objects.get(pk=file.pk))

    def add_a_part() -> None:
        metres.append(PartFactory(shop=cast.shop, number="LG-00003", number_key="lg00003", unit="m"))

    with during(monkeypatch, ("lines_of",), lambda: metres or add_a_part()):
        assert work_next()
    task = FileTask.objects.get(file=file)
    assert task.state == "failed" and not KitLine.objects.exists()
    assert task.reason == "Nothing was imported: 1 problem to fix."


@pytest.mark.django_db(transaction=True)
def test_another_person_writes_while_a_large_file_is_read_planned_and_worded(monkeypatch: pytest.MonkeyPatch) -> None:
    cast = make_cast()
    actor, written = cast.acting("manager"), []

    def write() -> None:
        with connection.cursor() as cursor:
            if connection.vendor == "sqlite":
                cursor.execute("PRAGMA busy_timeout=50")
        written.append(Supplier.objects.create(shop=cast.shop, name=f"{len(written)}", currency="EUR"))
        connection.close()

    def beside() -> None:
        thread = Thread(target=write)
        thread.start()
        thread.join()

    file = send(actor, "kit", kit(20, 0))
    with during(monkeypatch, ("understand", "_plan", "result_of", "lines_of"), beside) as called:
        assert work_next()
        file_work.take_in_later(actor=actor, file=FileRead.objects.get(pk=file.pk))
        assert work_next()
    assert called == 2 * ["understand", "_plan", "result_of", "lines_of"]
    assert len(written) == len(called) and FileRead.objects.get(pk=file.pk).state == "taken"
