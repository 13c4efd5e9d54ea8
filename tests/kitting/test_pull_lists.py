"""A pull list holds the lines of a job or kit; it is asked for, counted and printed."""

import csv
import io
from datetime import UTC, datetime
from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext

from kitting.models import KitRevision, PullLine
from shop.models import Job
from tests.client import CheckedClient
from tests.factories import (
    AT,
    CodeFactory,
    JobOperationFactory,
    KitFactory,
    KitRevisionFactory,
    OfferFactory,
    PackFactory,
    SupplierFactory,
)
from tests.kitting.stage import Bench, Phone, list_of, need, rows_of, send

pytestmark = pytest.mark.once


def test_the_box_is_listed_by_carton_and_bag_with_what_is_not_for_this_vehicle_beside(bench: Bench) -> None:
    oil = PackFactory(shop=bench.cast.shop, number="OIL-5")
    pull_list = bench.opened(bench.turbo_kit(), needs=[need(oil, 2, operation="26")], transmission="manual")
    assert rows_of(pull_list) == [
        ("box", "BI-BOLT", "8", "C1", "1-01"),
        ("box", "BI-BRK-M", "1", "C1", "1-01"),
        ("beside", "BI-BRK-A", "1", "C1", "1-01"),
        ("box", "BI-PLUG-M", "1", "C1", ""),
        ("box", "BI-HOSE", "2.5", "C1", ""),
        ("box", "BI-CLAMP", "6", "C2", ""),
        ("box", "BI-BOOK", "1", "", ""),
        ("need", "OIL-5", "2", "", ""),
        ("reused", "Bumper bolts", "6", "", ""),
    ]
    first, *_, oil_line, bolts = PullLine.objects.filter(pull_list=pull_list).order_by("position")
    assert (first.operation, first.kit, oil_line.operation) == ("BI-TC35-A-20", "BI-TC35-A", "26")
    assert bolts.detail["off_at"] == bolts.detail["back_at"] == "BI-TC35-A-20"


def test_parts_that_wait_for_an_unstated_attribute_stay_beside(bench: Bench) -> None:
    kinds = {number: kind for kind, number, *_ in rows_of(bench.opened(bench.turbo_kit()))}
    assert kinds["BI-BRK-M"] == kinds["BI-BRK-A"] == "beside" and kinds["BI-BOLT"] == "box"
    assert "BI-PLUG-M" not in kinds  # left out of the box unless it is asked for


def test_a_replaced_part_is_listed_under_its_last_number(bench: Bench) -> None:
    old, middle, new = (bench.part(number) for number in ("BI-CLAMP", "BI-CLAMP-2", "BI-CLAMP-3"))
    for part, newer in ((old, middle), (middle, new)):
        part.superseded_by = newer
        part.save()
    pull_list = bench.opened(bench.turbo_kit())
    (line,) = PullLine.objects.filter(pull_list=pull_list, carton="C2")
    assert (line.number, line.part_id, line.title) == ("BI-CLAMP-3", new.pk, new.title)


def test_a_kit_whose_contents_nobody_knows_is_one_box(bench: Bench) -> None:
    plain_kit = KitRevisionFactory(shop=bench.cast.shop, kit=KitFactory(shop=bench.cast.shop, code="FV-BB356"))
    assert rows_of(bench.opened(plain_kit, plain_kit)) == [("box", "FV-BB356", "1", "", "")] * 2


def test_the_first_use_freezes_the_version_of_the_kit(bench: Bench) -> None:
    revision, used = bench.turbo_kit(), bench.turbo_kit("BI-OTHER")
    earlier = datetime(2026, 1, 1, tzinfo=UTC)
    KitRevision.objects.filter(pk=used.pk).update(used_at=earlier)
    bench.opened(revision, used)
    revision.refresh_from_db()
    used.refresh_from_db()
    assert (revision.used_at, used.used_at) == (AT, earlier)


def test_opening_asks_no_more_of_the_database_for_more_lines(bench: Bench, django_assert_num_queries: Any) -> None:
    small, kits = bench.turbo_kit("SMALL"), [bench.turbo_kit(f"BIG-{n}") for n in range(3)]
    parts = [PackFactory(shop=bench.cast.shop) for _ in range(3)]

    def query_count(*revisions: Any, needs: Any) -> int:
        with CaptureQueriesContext(connection) as queries:
            bench.opened(*revisions, needs=needs, transmission="manual")
        return len(queries)

    query_count(bench.turbo_kit("FIRST"), needs=[])  # the first list of a shop writes its change numbers
    few = query_count(small, needs=[need(parts[0])])
    assert query_count(*kits, needs=[need(part) for part in parts]) == few


def test_a_list_shows_its_lines_in_order_with_the_codes_on_their_parts(bench: Bench) -> None:
    revision = bench.turbo_kit()
    for code in ("09521234000013", "BOLT M8"):
        CodeFactory(shop=bench.cast.shop, code=code, part=bench.part("BI-BOLT"))
    pull_list = bench.opened(revision, transmission="manual")
    answer = bench.cast.signed_in("technician").get(f"pull-lists/{pull_list.pk}")
    body = answer.json()
    assert (body["state"], body["seq"], body["epoch"]) == ("open", 0, 1)
    assert body["job"] == {"id": str(pull_list.job_id), "number": f"J-{pull_list.job.number}"}
    assert body["vehicle"] == "Tessark T35 estate"
    assert [line["position"] for line in body["lines"]] == list(range(1, 9))
    bolt, hose = body["lines"][0], body["lines"][4]
    assert bolt["codes"] == ["09521234000013", "BOLT M8"]
    assert (bolt["quantity"], bolt["pieces"], hose["quantity"], hose["unit"], hose["pieces"]) == ("8", 8, "2.5", "m", 1)
    assert (
        bench.cast.signed_in("parts")
        .get(f"pull-lists/{pull_list.pk}", headers={"If-None-Match": answer["ETag"]})
        .status_code
        == 304
    )


def test_lists_say_how_far_they_are_counted(bench: Bench) -> None:
    client, revision = bench.cast.signed_in("parts"), bench.turbo_kit()
    first, second = bench.opened(revision, transmission="manual"), bench.opened(revision)
    lines = list(PullLine.objects.filter(pull_list=first).order_by("position"))
    phone, reused = Phone(first), lines[-1]
    taken_back = phone.event(lines[1])
    send(client, first, phone.event(lines[0]), phone.event(lines[0], "add", 1), taken_back, phone.undo(taken_back))
    send(bench.cast.signed_in("advisor"), first, phone.event(reused), phone.note(lines[2], "damage"))
    items = {item["id"]: item for item in client.get("pull-lists").json()["items"]}
    item = items[str(first.pk)]
    kits = [{"code": "BI-TC35-A", "title": revision.kit.title}]
    assert (item["counted"], item["lines"], item["kits"], item["state"]) == (1, 7, kits, "open")
    assert (items[str(second.pk)]["counted"], item["job"]) == (0, f"J-{first.job.number}")


def test_a_count_that_came_after_closing_or_is_not_understood_counts_no_line(bench: Bench) -> None:
    client, (pull_list, (line, other, _)) = bench.cast.signed_in("parts"), list_of(bench.cast)
    phone = Phone(pull_list)
    send(client, pull_list, {**phone.event(line), "v": 2})
    client.post(f"pull-lists/{pull_list.pk}/close", {"seq": 1})
    send(client, pull_list, phone.event(other))
    assert client.get("pull-lists").json()["items"][0]["counted"] == 0


def test_an_undo_by_somebody_else_leaves_the_line_counted(bench: Bench) -> None:
    pull_list, (line, *_) = list_of(bench.cast)
    his, hers = Phone(pull_list), Phone(pull_list)
    counted = his.event(line)
    client = bench.cast.signed_in("parts")
    send(client, pull_list, counted)
    send(bench.cast.signed_in("advisor"), pull_list, hers.undo(counted))
    assert client.get("pull-lists").json()["items"][0]["counted"] == 1


def test_lists_are_asked_for_by_state_newest_first(bench: Bench) -> None:
    client = bench.cast.signed_in("parts")
    closed, opened = list_of(bench.cast)[0], list_of(bench.cast)[0]
    assert client.post(f"pull-lists/{closed.pk}/close", {"seq": 0}).status_code == 200
    ids = lambda **query: [item["id"] for item in client.get("pull-lists", query).json()["items"]]  # noqa: E731
    assert ids() == [str(opened.pk), str(closed.pk)]
    assert (ids(state="open"), ids(state="closed")) == ([str(opened.pk)], [str(closed.pk)])
    assert ids(job=str(closed.job_id)) == [str(closed.pk)]
    assert client.get("pull-lists", {"state": "ajar"}).status_code == 400
    assert client.get("pull-lists", {"job": "x"}).status_code == 400
    assert client.get("pull-lists", {"job": str(opened.pk)}).status_code == 404


def test_a_list_of_an_open_job_is_found_however_many_are_newer(bench: Bench) -> None:
    """The bay shows as many open jobs as it asks for, each with its list."""
    client = bench.cast.signed_in("technician")
    open_list, done, called_off = (list_of(bench.cast)[0] for _ in range(3))
    Job.objects.filter(pk=done.job_id).update(state=Job.State.HANDED_OVER)
    Job.objects.filter(pk=called_off.job_id).update(state=Job.State.CALLED_OFF)
    ids = lambda **query: [item["id"] for item in client.get("pull-lists", query).json()["items"]]  # noqa: E731
    assert ids(jobs="open", limit="1") == [str(open_list.pk)]
    newer = list_of(bench.cast)[0]
    assert ids(jobs="open", limit="1") == [str(newer.pk)]
    assert ids(jobs="open") == [str(newer.pk), str(open_list.pk)]
    assert client.get("pull-lists", {"jobs": "closed"}).json()["errors"][0]["pointer"] == "/jobs"


def test_it_refuses_a_stranger(bench: Bench) -> None:
    pull_list, _ = list_of(bench.cast)
    client = CheckedClient(shop=bench.cast.elsewhere.slug)
    client.force_login(bench.cast.stranger.user)
    path = f"pull-lists/{pull_list.pk}"
    gets = [client.get(f"{path}{below}").status_code for below in ("", "/report", "/orders", "/paper")]
    posts = [client.post(f"{path}/close", {"seq": 0}).status_code, client.post(f"{path}/reopen").status_code]
    assert gets + posts == [404] * 6 and client.get("pull-lists").json()["items"] == []


def test_what_to_buy_is_proposed_by_supplier_and_costs_nothing_here(bench: Bench) -> None:
    shop = bench.cast.shop
    quillfen = SupplierFactory(shop=shop, name="Quillfen Supply")
    oil, seal, nut = PackFactory(shop=shop, number="OIL-5", preferred=quillfen), bench.part("SEAL"), bench.part("NUT")
    OfferFactory(shop=shop, part=seal, supplier=SupplierFactory(shop=shop, name="Ferrous & Vane"))
    OfferFactory(shop=shop, part=oil, supplier=SupplierFactory(shop=shop, name="Somebody dearer"))
    revision = bench.turbo_kit()
    needs = [need(oil, 2, operation="26"), need(seal), need(nut, 8)]
    pull_list = bench.opened(revision, revision, needs=needs, transmission="manual")
    phone, shelf = Phone(pull_list), PullLine.objects.filter(pull_list=pull_list, kind=PullLine.Kind.NEED)
    send(bench.cast.signed_in("parts"), pull_list, *(phone.event(line, total=0) for line in shelf))
    orders = lambda: bench.cast.signed_in("technician").get(f"pull-lists/{pull_list.pk}/orders").json()  # noqa: E731
    assert "step “26”" in str(orders())  # no step of this job: by its code
    step = JobOperationFactory(shop=shop, job=pull_list.job, code="26", title="Oil and filter")
    PullLine.objects.filter(operation="26").update(step=step)
    body = orders()
    lines = {supplier["supplier"]: supplier["lines"] for supplier in body["suppliers"]}
    assert list(lines) == ["Brightwater Induction", "Ferrous & Vane", "Quillfen Supply", None]
    (kit,) = lines["Brightwater Induction"]
    assert (kit["number"], kit["quantity"], kit["for"]) == ("BI-TC35-A", "2", "kit BI-TC35-A")
    (pack,) = lines["Quillfen Supply"]
    assert (pack["number"], pack["quantity"], pack["for"]) == ("OIL-5", "2", "step “Oil and filter”")
    assert not any(
        "cost" in key or "price" in key for supplier_lines in lines.values() for line in supplier_lines for key in line
    )
    path = f"pull-lists/{pull_list.pk}/orders/file"
    file = bench.cast.signed_in("technician").get(path, {"format": "csv"}).content.decode("utf-8-sig")
    heading, *rows = csv.reader(io.StringIO(file))
    assert heading == ["supplier", "part number", "description", "quantity", "unit", "for", "order not before"]
    assert [(row[0], row[1], row[3], row[5]) for row in rows] == [
        (name or "", line["number"], line["quantity"], line["for"]) for name, below in lines.items() for line in below
    ]


@pytest.mark.both
def test_questions_to_the_database_do_not_grow_with_lists_lines_or_events(bench: Bench) -> None:
    client = bench.cast.signed_in("parts")

    def query_counts(pull_list: Any) -> list[int]:
        counts = []
        for below in ("?jobs=open", f"/{pull_list.pk}", f"/{pull_list.pk}/events", f"/{pull_list.pk}/report"):
            with CaptureQueriesContext(connection) as queries:
                assert client.get(f"pull-lists{below}").status_code == 200
            counts.append(len(queries))
        phone = Phone(pull_list, n=500)
        with CaptureQueriesContext(connection) as queries:
            send(client, pull_list, *(phone.event(line) for line in PullLine.objects.filter(pull_list=pull_list)))
        return [*counts, len(queries) - 1]

    small, (line, *_) = list_of(bench.cast, 2)
    phone = Phone(small)
    undone = phone.event(line)
    send(client, small, undone, phone.undo(undone))
    few = query_counts(small)
    assert few[1] == 6, "session, person, member, list, codes, lines: what is read of the list is all that is shown"
    large, lines = list_of(bench.cast, 40)
    phone = Phone(large)
    events = [phone.event(line) for line in lines]
    send(client, large, *events, *(phone.undo(event) for event in events[:20]))
    for _ in range(5):
        list_of(bench.cast, 2)
    assert query_counts(large) == few


@pytest.mark.paper
def test_the_list_on_paper_is_the_same_bytes_each_time(bench: Bench) -> None:
    client, pull_list = bench.cast.signed_in("technician"), bench.opened(bench.turbo_kit(), transmission="manual")
    path = f"pull-lists/{pull_list.pk}/paper"
    first = client.get(path)
    line = PullLine.objects.filter(pull_list=pull_list).first()
    send(client, pull_list, Phone(pull_list).event(line))
    assert first["Content-Type"] == "application/pdf" and first.content.startswith(b"%PDF-")
    assert client.get(path).content == first.content
    assert Decimal(len(first.content)) > 5000
