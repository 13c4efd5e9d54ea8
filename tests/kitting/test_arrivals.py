"""Days on which missing parts arrive and the vehicle comes, by a person or by the supplier's lead days."""

import uuid
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest

from kitting.models import KitRevision, Offer, Part, PullLine, Supplier
from shop.models import Calendar, History, Job, RuleSet
from tests.factories import OfferFactory, PullLineFactory, SupplierFactory
from tests.kitting.floor import Floor, group, local
from tests.quotes.stage import RULES

pytestmark = pytest.mark.once

# What a person says of an arrival


def test_a_day_without_an_hour_is_the_moment_the_shop_closes(floor: Floor) -> None:
    answer = floor.due(floor.ring, floor.duct, day="2026-12-05").json()  # a Saturday
    assert [line.due_at for line in PullLine.objects.filter(due_at__isnull=False)] == [local(7, 17)] * 2
    assert answer["words"] == "Mon 7 Dec"
    assert answer["undo"] == [{"lines": [str(floor.ring.pk), str(floor.duct.pk)], "day": None, "time": None}]
    typed = [part for part in floor.readiness()["missing"] if part["typed"]]
    assert [(part["due_words"], len(part["lines"])) for part in typed] == [("due Mon 7 Dec", 2)]
    record = History.objects.get(verb="due", subject_id=floor.list.pk)
    assert record.changes[str(floor.ring.pk)] == [None, "2026-12-07T16:00:00Z"]


def test_what_was_said_can_be_taken_back_exactly(floor: Floor) -> None:
    floor.due(floor.ring, day="2026-12-04", time="10:15")
    changed = floor.due(floor.ring, floor.duct, day="2026-12-09").json()
    for back in changed["undo"]:
        floor.cast.signed_in("parts").post(f"pull-lists/{floor.list.pk}/due", back)
    floor.ring.refresh_from_db()
    floor.duct.refresh_from_db()
    assert (floor.ring.due_at, floor.duct.due_at) == (local(4, 10, 15), None)


def test_an_hour_that_the_clock_leaves_out_is_told_as_it_is_kept(floor: Floor) -> None:
    answer = floor.due(floor.ring, day="2027-03-28", time="02:30").json()
    floor.ring.refresh_from_db()
    assert floor.ring.due_at == datetime(2027, 3, 28, 1, 30, tzinfo=UTC) and "03:30" in answer["words"]


def test_a_day_that_is_over_is_said_and_not_counted_on(floor: Floor, clock: Any) -> None:
    floor.count_all(ring=2)
    floor.due(floor.ring, day="2026-12-08")
    clock(local(9, 8))
    readiness = floor.readiness()
    ring = group(readiness, "O-ring 14.0 x 2.5")
    assert (ring["overdue"], ring["due_words"]) == (True, "was due Tue 8 Dec")
    assert readiness["sentence"] == "Can start. Stop before step 2: Front off"
    sentence = "O-ring 14.0 x 2.5 was due Tue 8 Dec and is late; the date ignores it."
    assert readiness["promise"]["unknown"] == sentence
    assert readiness["to_order"][0]["lines"][0]["quantity"] == "2"


def test_what_has_a_day_is_not_proposed_for_order_again(floor: Floor) -> None:
    floor.count_all(ring=2)
    orders = lambda: floor.cast.signed_in("parts").get(f"pull-lists/{floor.list.pk}/orders").json()["suppliers"]  # noqa: E731
    assert [line["quantity"] for order in orders() for line in order["lines"]] == ["2"]
    assert orders() == floor.readiness()["to_order"]
    floor.due(floor.ring, day="2026-12-04")
    assert orders() == []


def test_what_came_and_cannot_be_used_is_proposed_before_its_day_is_over(floor: Floor) -> None:
    floor.count_all(ring=2)
    ordered = lambda: [line["quantity"] for order in floor.readiness()["to_order"] for line in order["lines"]]  # noqa: E731
    floor.due(floor.ring, day="2026-12-04")
    floor.count((floor.ring, 3))  # one of the two came
    assert ordered() == []
    floor.count((floor.ring, 4), damaged=1)  # and the other one, damaged
    assert ordered() == ["1"]
    assert group(floor.readiness(), "O-ring 14.0 x 2.5")["due_words"] == "no delivery date yet"
    floor.due(floor.ring, day="2026-12-09")
    assert ordered() == []
    floor.count((floor.ring, 5), damaged=2)  # the pieces that came for it are unusable too
    assert ordered() == ["1"]
    floor.due(floor.ring, day=None)
    assert floor.count((floor.ring, 5), damaged=1) is None and ordered() == []


def test_the_day_of_a_kit_is_over_once_one_line_of_it_is_counted(floor: Floor) -> None:
    """Parts that the box came without are missing, have no day, and are proposed for order on the same day."""
    ordered = lambda: [line["quantity"] for order in floor.readiness()["to_order"] for line in order["lines"]]  # noqa: E731
    floor.count((floor.pack, 2))
    floor.due(floor.ring, floor.duct, floor.clip, day="2026-12-04")
    assert group(floor.readiness(), "Turbocharger kit")["due_words"] == "due Fri 4 Dec" and ordered() == []
    floor.count((floor.ring, 1), (floor.clip, 6))
    assert group(floor.readiness(), "O-ring 14.0 x 2.5")["due_words"] == "no delivery date yet"
    assert group(floor.readiness(), "Duct, hot side")["typed"] is False  # not counted yet
    assert ordered() == ["3"]
    assert floor.due(floor.ring, day="2026-12-04").json()["undo"][0]["day"] is None
    assert ordered() == []  # this day is that of the missing pieces


def test_a_carton_that_has_not_come_keeps_its_day_beside_one_that_has(floor: Floor) -> None:
    hose = floor.line("Hose", "FIT", carton="2")
    floor.due(floor.ring, floor.duct, floor.clip, hose, day="2026-12-04")
    floor.count((floor.ring, 1))
    assert group(floor.readiness(), "O-ring 14.0 x 2.5")["due_words"] == "no delivery date yet"
    assert group(floor.readiness(), "Hose")["due_words"] == "due Fri 4 Dec"


def test_a_whole_kit_is_given_a_day_at_once_however_many_lines_it_has(floor: Floor) -> None:
    shop, part = floor.cast.shop, floor.ring.part
    lines = [
        PullLine(
            shop=shop,
            pull_list=floor.list,
            position=n,
            kind="box",
            part=part,
            title=f"Line {n}",
            quantity=1,
            kit="BI-T",
        )
        for n in range(100_000, 102_000)
    ]
    PullLine.objects.bulk_create(lines)
    answer = floor.due(*lines, day="2026-12-04")
    assert answer.status_code == 200 and len(answer.json()["undo"][0]["lines"]) == 2000
    assert PullLine.objects.filter(due_at=local(4, 17)).count() == 2000
    (back,) = answer.json()["undo"]
    assert floor.cast.signed_in("parts").post(f"pull-lists/{floor.list.pk}/due", back).status_code == 200
    assert not PullLine.objects.filter(due_at__isnull=False).exists()


def test_a_line_of_another_list_is_named_and_nothing_is_changed(floor: Floor) -> None:
    other = PullLineFactory(shop=floor.cast.shop)
    answer = floor.due(floor.ring, other, day="2026-12-04")
    assert answer.status_code == 400
    assert answer.json()["errors"] == [{"pointer": "/lines/1", "detail": f"{other.pk} is not a line of this list."}]
    assert PullLine.objects.filter(due_at__isnull=False).count() == History.objects.filter(verb="due").count() == 0


def test_a_line_that_was_retired_gets_no_day(floor: Floor) -> None:
    retired = floor.line("Old clip", "FIT", retired_at=local(1))
    assert floor.due(floor.ring, retired, day="2026-12-04").json()["errors"][0]["pointer"] == "/lines/1"


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        ({"lines": []}, "/lines"),
        ({"lines": ["x"]}, "/lines/0"),
        ({"lines": [str(uuid.uuid4())] * 5001}, "/lines"),
        ({"day": "2026-13-01"}, "/day"),
        ({"day": "2036-12-01"}, "/day"),
        ({"day": "9999-12-31"}, "/day"),
        ({"day": None, "time": "10:00"}, "/day"),
        ({"day": "2026-12-04", "time": "25:00"}, "/time"),
        ({"day": "2026-12-04", "time": "10:00:30"}, "/time"),
        ({"until": "2026-12-04"}, "/until"),
    ],
)
def test_a_day_that_cannot_be_is_refused(floor: Floor, body: dict[str, Any], pointer: str) -> None:
    answer = floor.due(floor.ring, **body)
    assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == pointer
    floor.ring.refresh_from_db()
    assert floor.ring.due_at is None


def test_without_opening_hours_an_hour_has_to_be_said(floor: Floor) -> None:
    Calendar.objects.all().delete()
    assert floor.due(floor.ring, day="2026-12-04").json()["errors"][0]["pointer"] == "/time"
    assert floor.due(floor.ring, day="2026-12-04", time="10:00").status_code == 200


# The day the vehicle comes


def test_work_begins_when_the_vehicle_comes(floor: Floor) -> None:
    floor.count_all()
    client, path = floor.cast.signed_in("advisor"), f"jobs/{floor.job.pk}"
    seen = client.get(f"{path}/readiness")
    changed = client.patch(path, {"here_from": "2026-12-14"}, seen=seen)
    assert (changed.status_code, changed.json()["here_from"]) == (200, "2026-12-14")
    readiness = floor.readiness()
    assert (readiness["here_from"], readiness["promise"]["words"][0]) == (
        "2026-12-14",
        "work starts when the vehicle arrives, Mon 14 Dec 08:00",
    )
    assert readiness["notes"] == ["The vehicle comes Mon 14 Dec."]
    assert History.objects.get(subject_id=floor.job.pk).changes == {"here_from": [None, "2026-12-14"]}
    assert client.patch(path, {"here_from": None}, seen=seen).status_code == 412
    assert client.patch(path, {"here_from": "2999-01-01"}, seen=changed).status_code == 400
    assert client.patch(path, {}, seen=changed).status_code == 400
    ticked = client.patch(path, {"here": True}, seen=changed)  # the tick takes the day back
    assert (ticked.json()["here"], ticked.json()["here_from"]) == (True, None)
    readiness = client.get(f"{path}/readiness").json()
    assert (readiness["here"], readiness["promise"]["bring"], readiness["notes"]) == (True, None, [])
    assert client.patch(path, {"here": False}, seen=ticked).json()["here"] is False


def test_a_vehicle_that_did_not_come_on_its_day_is_told(floor: Floor, clock: Any) -> None:
    floor.count_all()
    Job.objects.update(here_from=date(2026, 12, 2))
    assert floor.readiness()["notes"] == ["The vehicle comes Wed 2 Dec."]
    clock(local(2, 12))
    assert floor.readiness()["notes"] == ["The vehicle comes Wed 2 Dec."]
    clock(local(3, 8))
    assert floor.readiness()["notes"] == [
        "The vehicle was to come Wed 2 Dec. Tick that it is here, or enter a new day."
    ]
    Job.objects.update(state="in_bay", in_bay_on=date(2026, 12, 3))
    assert floor.readiness()["notes"] == []


def test_a_job_that_is_read_again_soon_is_not_sent_again(floor: Floor, clock: Any) -> None:
    path = f"jobs/{floor.job.pk}/readiness"
    clock(local(1, 9, 1))
    first = floor.cast.signed_in("advisor").get(path)
    clock(local(1, 9, 14))
    assert floor.cast.signed_in("advisor").get(path, headers={"If-None-Match": first["ETag"]}).status_code == 304


def test_the_house_rules_say_how_many_work_on_it(floor: Floor) -> None:
    floor.count_all()
    RuleSet.objects.create(
        shop=floor.cast.shop,
        number=1,
        valid_from=date(2026, 1, 1),
        rules={**RULES, "efficiency": "2"},
    )
    assert floor.readiness()["promise"]["ready"]["words"] == "Wed 2 Dec, in the morning"


def test_a_job_of_another_day_is_judged_from_the_day_it_was_opened(floor: Floor, clock: Any) -> None:
    Job.objects.filter(pk=floor.job.pk).update(opened_at=local(1, 8) - timedelta(days=7))
    kit = group(floor.readiness(), "Turbocharger kit")
    assert (kit["due_words"], kit["overdue"]) == ("expected Tue 1 Dec if ordered on Tue 24 Nov", False)
    clock(local(2, 8))
    assert (
        group(floor.readiness(), "Turbocharger kit")["due_words"] == "was expected Tue 1 Dec if ordered on Tue 24 Nov"
    )


def test_lead_days_are_those_of_the_preferred_supplier(floor: Floor) -> None:
    quicker = SupplierFactory(shop=floor.cast.shop, name="Ferrous & Vane")
    newer = date(2026, 6, 1)
    OfferFactory(shop=floor.cast.shop, supplier=quicker, part=floor.kit.part, lead_days=1, valid_from=newer)
    assert group(floor.readiness(), "Turbocharger kit")["due_words"] == "expected Tue 8 Dec if ordered today"


def test_lead_days_are_the_suppliers_own_where_an_offer_or_a_kit_names_none(floor: Floor) -> None:
    own = Supplier.objects.filter(shop=floor.cast.shop)
    offers = Offer.objects.filter(part=floor.kit.part)
    own.update(lead_days=2)
    assert group(floor.readiness(), "Turbocharger kit")["due_words"] == "expected Tue 8 Dec if ordered today"
    offers.update(lead_days=None)
    assert group(floor.readiness(), "Turbocharger kit")["due_words"] == "expected Thu 3 Dec if ordered today"
    offers.delete()
    Part.objects.filter(pk=floor.kit.part_id).update(preferred=own.get())
    assert group(floor.readiness(), "Turbocharger kit")["due_words"] == "expected Thu 3 Dec if ordered today"
    KitRevision.objects.filter(kit=floor.kit).update(lead_days=1)
    assert group(floor.readiness(), "Turbocharger kit")["due_words"] == "expected Wed 2 Dec if ordered today"
    KitRevision.objects.filter(kit=floor.kit).update(lead_days=None)
    own.update(archived=True)
    assert group(floor.readiness(), "Turbocharger kit")["due_words"] != "expected Thu 3 Dec if ordered today"


def test_each_thing_that_comes_in_time_is_named_once_and_the_tightest_in_the_sentence(floor: Floor) -> None:
    floor.count_all(ring=2, duct=0)
    floor.due(floor.ring, day="2026-12-01", time="10:00")
    floor.due(floor.duct, day="2026-12-01", time="12:00")
    readiness = floor.readiness()
    assert readiness["sentence"] == "Can start. Duct, hot side due Tue 1 Dec 12:00, and 1 more"
    assert [(arrival["title"], arrival["due_words"]) for arrival in readiness["arrivals"]] == [
        ("Duct, hot side", "due Tue 1 Dec 12:00"),
        ("O-ring 14.0 x 2.5", "due Tue 1 Dec 10:00"),
    ]
    assert [arrival["key"] for arrival in readiness["arrivals"]] == [str(floor.duct.pk), str(floor.ring.pk)]
