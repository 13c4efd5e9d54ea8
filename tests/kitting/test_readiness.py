"""The readiness of a job, as the server answers it: what was counted, what is due, and the sentence they make."""

from decimal import Decimal
from typing import Any

import pytest

from kitting.models import Kit, Offer, PullLine, PullList
from shop.constraints import refusals_suspended
from shop.models import Calendar, JobOperation
from tests.factories import JobFactory, KitCopyFactory, KitFactory, PartFactory, PullListFactory
from tests.kitting.floor import Floor, group, local
from tests.kitting.stage import Phone, send

pytestmark = pytest.mark.once

# The five sentences


def test_all_is_here(floor: Floor) -> None:
    floor.count_all()
    readiness = floor.readiness()
    assert (readiness["verdict"], readiness["sentence"], readiness["missing"], readiness["to_order"]) == (
        "complete",
        "All here",
        [],
        [],
    )
    assert (readiness["cleared_hours"], readiness["total_hours"], readiness["hold_before"]) == ("18.0", "18.0", None)
    assert {step["state"] for step in readiness["steps"]} == {"clear"}
    assert readiness["promise"]["ready"]["words"] == "Thu 3 Dec, in the morning"


def test_it_may_start_though_something_is_short_where_the_vehicle_can_move(floor: Floor) -> None:
    floor.step(5, "TRIM", "Trim on", "1.00", after=["CLOSE"])
    PullLine.objects.filter(pk=floor.pack.pk).update(**floor.needed_at("TRIM"))
    floor.count_all(pack=1)
    readiness = floor.readiness()
    assert (readiness["verdict"], readiness["sentence"]) == ("start", "Can start")
    assert group(readiness, "Engine oil, 5 L")["stops"] == "stops step 5"


def test_a_stop_names_the_step_that_it_is_for_and_no_earlier_one_that_waits_as_well(floor: Floor) -> None:
    floor.step(0, "LAMP", "Work lamp fitted", "1.00", after=[])
    floor.line("Work lamp", "LAMP")
    floor.count_all(ring=2)
    readiness = floor.readiness()
    assert [step["position"] for step in readiness["steps"] if step["state"] == "waits"] == [
        1,
        4,
    ]
    assert (readiness["hold_before"]["position"], readiness["hold_before"]["waits_at"]) == (3, 4)


def test_it_may_start_and_must_stop_before_the_front_comes_off(floor: Floor) -> None:
    floor.count_all(ring=2)
    readiness = floor.readiness()
    assert (readiness["verdict"], readiness["sentence"]) == (
        "start_to_hold",
        "Can start. Stop before step 2: Front off",
    )
    assert (
        readiness["hold_before"]["words"]
        == "Stop before step 2: 1 part missing: O-ring 14.0 x 2.5, no delivery date yet."
    )
    assert [(step["position"], step["state"], step["words"]) for step in readiness["steps"]] == [
        (1, "clear", "all here"),
        (2, "clear", "no parts needed"),
        (3, "waits", "waiting"),
        (4, "after", "after step 3"),
    ]
    assert readiness["steps"][2]["missing"] == ["Missing 2 of 4: O-ring 14.0 x 2.5, no delivery date yet"]
    ring = group(readiness, "O-ring 14.0 x 2.5")
    assert (ring["have"], ring["need"], ring["words"], ring["due"]) == (2, 4, "short 2", None)
    assert (readiness["cleared_hours"], readiness["counted"], readiness["lines"]) == ("8.0", 4, 4)
    assert readiness["hours_before_hold"] == "2.0"
    assert readiness["promise"]["unknown"] == "No delivery date for O-ring 14.0 x 2.5; the date ignores it."


def test_it_may_start_when_what_is_short_comes_in_time(floor: Floor) -> None:
    floor.count_all(ring=2)
    assert floor.due(floor.ring, day="2026-12-02", time="07:30").status_code == 200
    readiness = floor.readiness()
    assert readiness["verdict"] == "start_on_arrivals"
    assert readiness["sentence"] == "Can start. O-ring 14.0 x 2.5 due Wed 2 Dec 07:30"
    assert [(arrival["title"], arrival["words"]) for arrival in readiness["arrivals"]] == [
        ("O-ring 14.0 x 2.5", "if nothing delayed the work, step 3 would need it Wed 2 Dec 08:00: 30 min to spare")
    ]
    assert readiness["steps"][2]["state"] == "comes"
    assert floor.due(floor.ring, day="2026-12-02", time="08:01").status_code == 200
    assert floor.readiness()["verdict"] == "start_to_hold"


def test_it_does_not_start_without_what_the_first_step_takes(floor: Floor) -> None:
    floor.count_all(clip=5)
    readiness = floor.readiness()
    assert (readiness["verdict"], readiness["sentence"], readiness["cleared_hours"]) == ("hold", "Do not start", "0.0")
    assert readiness["steps"][1]["words"] == "after step 1"


# Before anything is counted


def test_an_untouched_kit_is_one_entry_that_comes_with_its_suppliers_lead_days(floor: Floor) -> None:
    readiness = floor.readiness()
    assert readiness["sentence"] == "Do not start. 1 line from the shelf not counted yet: count it"
    assert (readiness["counted"], readiness["notes"]) == (0, [])  # the sentence says what to count
    oil, kit = readiness["missing"]
    assert (kit["kind"], kit["title"], kit["words"], kit["stops"]) == (
        "kit",
        "Turbocharger kit",
        "3 lines, none counted yet",
        "stops step 1",
    )
    assert (kit["due"], kit["due_words"], kit["typed"]) == (
        "2026-12-08T16:00:00Z",
        "expected Tue 8 Dec if ordered today",
        False,
    )
    assert (oil["kind"], oil["uncounted"], oil["due"], oil["due_words"]) == ("line", True, None, "count it")
    assert readiness["to_order"] == [
        {
            "supplier": "Brightwater Induction",
            "lines": [
                {"number": "BI-T", "title": "Turbocharger kit", "quantity": "1", "unit": "pc", "for": "kit BI-T"}
            ],
        }
    ]
    assert readiness["promise"]["words"][0] == "Turbocharger kit is here Tue 8 Dec 17:00"


def test_a_kit_that_is_opened_comes_carton_by_carton_and_what_it_lacks_does_not_come_with_it(floor: Floor) -> None:
    floor.line("Intercooler", "FIT", carton="2")
    floor.line("Bracket", "FIT", carton="2")
    floor.count((floor.ring, 0), (floor.duct, 1), (floor.clip, 6))
    readiness = floor.readiness()
    assert group(readiness, "O-ring 14.0 x 2.5")["due_words"] == "no delivery date yet"
    carton = group(readiness, "Turbocharger kit, carton 2")
    assert (carton["words"], carton["due_words"]) == (
        "2 lines, none counted yet",
        "expected Tue 8 Dec if ordered today",
    )
    assert bought(readiness) == [floor.ring.part.title]
    floor.count((floor.pack, 0))
    readiness = floor.readiness()
    assert group(readiness, "Engine oil, 5 L")["due_words"] == "expected Fri 4 Dec if ordered today"
    assert bought(readiness) == ["Engine oil, 5 L", floor.ring.part.title]


def bought(readiness: dict[str, Any]) -> list[str]:
    return sorted(line["title"] for order in readiness["to_order"] for line in order["lines"])


def test_lines_of_a_carton_that_has_come_only_have_to_be_counted(floor: Floor) -> None:
    """44 of the 47 lines of a kit are counted: the others may well be here."""
    floor.count_all()
    PullLine.objects.filter(pull_list=floor.list).update(carton="")
    counted = [floor.line(f"Bolt {n}", "FIT", carton="", bag="F", quantity=1) for n in range(41)]
    floor.count(*((line, 1) for line in counted))
    floor.line("Edge strip", "FIT", carton="", bag="Bag G: wiring")
    for n in range(2):
        floor.line(f"Paper {n}", "", carton="", bag="Bag G: wiring", detail={"role": "paper"})
    readiness = floor.readiness()
    first = readiness["missing"][0]
    assert (
        readiness["sentence"]
        == "Can start. Stop before step 2: Front off. 3 lines of Bag G not counted yet: count them"
    )
    assert readiness["hold_before"]["words"] == "Stop before step 2: 3 lines of Bag G not counted yet: count them."
    assert (first["title"], first["words"], first["due"], first["due_words"], first["uncounted"]) == (
        "Turbocharger kit, Bag G",
        "3 lines not counted yet, 1 of them needed",
        None,
        "count them",
        True,
    )
    assert readiness["steps"][2]["missing"] == ["Not counted yet: Edge strip"]
    assert (len(readiness["missing"]), readiness["to_order"], readiness["arrivals"]) == (1, [], [])
    assert readiness["promise"]["headline"] == "Expected ready Thu 3 Dec, morning"
    assert readiness["promise"]["unknown"] == (
        "1 line that the work needs is not counted yet. The date does not wait for it."
    )


def test_lines_that_only_have_to_be_counted_are_named_before_what_is_missing(floor: Floor) -> None:
    floor.count((floor.ring, 2), (floor.clip, 6))
    readiness = floor.readiness()
    assert [part["title"] for part in readiness["missing"]] == [
        "Duct, hot side",
        "Engine oil, 5 L",
        "O-ring 14.0 x 2.5",
    ]
    assert readiness["hold_before"]["words"] == (
        "Stop before step 2: 1 line loose in carton 1 not counted yet: count it, "
        "and 1 more line that the work from there needs; "
        "1 part missing: O-ring 14.0 x 2.5, no delivery date yet."
    )
    figures = {step["words"]: step["figure"] for step in readiness["how"]["steps"]}
    assert figures["Lines that the work needs and that only have to be counted"] == "2"
    assert figures["Lines missing, without a delivery date or past it"] == "1"


def test_a_line_beside_the_vehicles_parts_tells_that_its_carton_has_come(floor: Floor) -> None:
    beside = floor.line("Bracket, automatic", "FIT", kind="beside")
    assert not group(floor.readiness(), "Turbocharger kit")["uncounted"]
    floor.count((beside, 1))
    assert floor.readiness()["missing"][0]["words"] == "3 lines not counted yet"


def test_boxes_of_one_kit_are_told_apart_and_what_lies_in_bags_is_not_loose(floor: Floor) -> None:
    first, second = floor.copy, KitCopyFactory(shop=floor.job.shop, job=floor.job, kit=floor.kit, number=2)
    for copy, bag in ((first, "B"), (first, "C"), (second, "B"), (second, "C")):
        floor.line(f"Bolt {copy.number} {bag}", "FIT", carton="", bag=bag, copy=copy)
    floor.count_all()
    titles = {part["title"] for part in floor.readiness()["missing"]}
    assert titles == {"Turbocharger kit, box 1, in its bags", "Turbocharger kit, box 2"}


def test_what_nobody_has_counted_on_the_shelf_is_one_entry(floor: Floor) -> None:
    floor.count_all()
    lines = [floor.line(f"Clip {n}", "FIT", kit="", kind="need") for n in range(2)]
    shelf = group(floor.readiness(), "From the shelf")
    assert (shelf["words"], shelf["due_words"], shelf["uncounted"]) == ("2 lines not counted yet", "count them", True)
    assert floor.readiness()["promise"]["unknown"] == (
        "No delivery date for these; the date ignores them: Clip 0 and Clip 1. "
        "2 lines that the work needs are not counted yet. The date does not wait for them."
    )
    floor.count(*((line, 0) for line in lines))
    assert floor.readiness()["promise"]["unknown"].endswith("the date ignores them: Clip 0 and Clip 1.")


def test_spares_and_papers_stop_no_step(floor: Floor) -> None:
    manual = floor.line("Manual", "", detail={"role": "paper"})
    floor.count_all()
    floor.count((manual, 0))
    readiness = floor.readiness()
    assert (readiness["verdict"], readiness["sentence"]) == ("complete", "Can start")
    assert group(readiness, "Manual")["stops"] == "stops no step"


# What counts as here


def test_what_the_shop_supplies_cover_stops_no_step(floor: Floor) -> None:
    PullLine.objects.filter(pk=floor.pack.pk).update(**floor.needed_at("STRIP"), detail={"charge": "supplies"})
    floor.count_all(pack=0)
    readiness = floor.readiness()
    assert (readiness["verdict"], readiness["sentence"]) == ("complete", "Can start")
    PullLine.objects.filter(pk=floor.pack.pk).update(detail={"charge": "pack"})
    assert floor.readiness()["verdict"] != "complete"


def test_a_bolt_from_another_bag_serves_the_step_that_comes_first(floor: Floor) -> None:
    """Only the lines of one part, and of hose only pieces of one length."""
    floor.step(5, "TRIM", "Trim on", "1.00", after=["CLOSE"])
    bolt = PartFactory(shop=floor.cast.shop, title="Bolt M8")
    front = floor.line("Bolt M8", "FIT", bag="A", part=bolt, quantity=Decimal(4))
    rear = floor.line("Bolt M8", "TRIM", bag="B", part=bolt, quantity=Decimal(4))
    hose = PartFactory(shop=floor.cast.shop, title="Hose", unit="m")
    long, short = (
        floor.line(f"Hose {length} m", code, part=hose, quantity=Decimal(length), unit="m")
        for code, length in (("FIT", "2"), ("TRIM", "1.5"))
    )
    floor.count_all()
    floor.count((front, 2), (rear, 4), (long, 1), (short, 1))
    readiness = floor.readiness()
    assert (readiness["verdict"], readiness["sentence"]) == ("start", "Can start")
    assert [step["state"] for step in readiness["steps"]] == ["clear", "clear", "clear", "clear", "waits"]
    assert readiness["steps"][4]["missing"] == ["Missing 2 of 4: Bolt M8, no delivery date yet"]
    missing = group(readiness, "Bolt M8")
    assert (missing["have"], missing["need"], missing["words"], missing["stops"]) == (2, 4, "short 2", "stops step 5")
    floor.count((long, 0))
    assert floor.readiness()["steps"][2]["missing"] == ["Missing 1 of 1: Hose 2 m, no delivery date yet"]
    floor.count((rear, 6))
    assert [line["title"] for order in floor.readiness()["to_order"] for line in order["lines"]] == ["Hose"]


def test_two_counts_that_differ_count_as_the_lower_one(floor: Floor) -> None:
    floor.count_all()
    other = Phone(floor.list)
    send(floor.cast.signed_in("advisor"), floor.list, other.event(floor.ring, total=3))
    ring = group(floor.readiness(), "O-ring 14.0 x 2.5")
    assert (ring["have"], ring["words"]) == (3, "count again: 3 or 4")
    assert floor.readiness()["steps"][2]["missing"] == [
        "Missing 1 of 4 by the lower count: O-ring 14.0 x 2.5. Count it again: 3 or 4"
    ]


def test_damaged_and_wrong_parts_are_not_here_and_sealed_bags_are(floor: Floor) -> None:
    client = floor.cast.signed_in("parts")
    floor.count((floor.clip, 6))
    floor.count((floor.duct, 1), damaged=1)
    floor.count((floor.ring, 4))
    send(client, floor.list, floor.phone.note(floor.ring, "wrong_part"), floor.phone.note(floor.pack, "sealed"))
    readiness = floor.readiness()
    assert {part["title"]: part["words"] for part in readiness["missing"]} == {
        "O-ring 14.0 x 2.5": "wrong part 1",
        "Duct, hot side": "damaged 1",
    }
    assert group(readiness, "O-ring 14.0 x 2.5")["have"] == 3
    floor.count((floor.ring, 4))  # the right ones have come
    assert "O-ring 14.0 x 2.5" not in {part["title"] for part in floor.readiness()["missing"]}


def test_what_lies_beside_what_was_retired_and_what_is_on_the_vehicle_is_not_asked_for(floor: Floor) -> None:
    floor.line("Bracket, automatic", "FIT", kind="beside")
    floor.line("Old clip", "FIT", retired_at=local(1))
    floor.line("Bumper bolts", "FIT", kind="reused", part=None)
    floor.count_all()
    assert floor.readiness()["sentence"] == "All here"


# What is not there


def test_a_job_without_a_pull_list_says_so(floor: Floor) -> None:
    job = JobFactory(shop=floor.cast.shop, opened_at=local(1, 8))
    readiness = floor.cast.signed_in("technician").get(f"jobs/{job.pk}/readiness").json()
    assert (readiness["verdict"], readiness["list"], readiness["steps"]) == (None, None, [])
    assert readiness["sentence"] == "No pull list was found for this job, so the parts it needs are not known."
    assert readiness["no_promise"] == "No date: there is no work on it yet."


def test_a_line_is_for_the_step_of_its_key_whatever_code_was_written(floor: Floor) -> None:
    before = floor.readiness()
    PullLine.objects.update(operation="RENAMED")
    after = floor.readiness()
    assert after["steps"] == before["steps"] and after["missing"] == before["missing"]


def test_a_kit_that_got_another_code_is_still_ordered_as_itself(floor: Floor) -> None:
    before = floor.readiness()
    assert "BI-T" in str(before["to_order"])
    Kit.objects.update(code="BI-TURBO")
    assert floor.readiness() == before


def test_a_job_without_steps_needs_all_at_once(floor: Floor) -> None:
    PullLine.objects.update(step=None)
    with refusals_suspended():
        JobOperation.objects.all().delete()
    assert floor.readiness()["sentence"].startswith("Do not start. ") and floor.readiness()["promise"] is None
    floor.count_all()
    readiness = floor.readiness()
    assert (readiness["sentence"], readiness["total_hours"]) == ("All here", "0.0")
    assert readiness["notes"] == ["No work is recorded for this job, so every part is needed at the start."]
    manual = floor.line("Manual", "", detail={"role": "paper"})
    floor.count((floor.ring, 2), (manual, 0))
    stops = {part["title"]: part["stops"] for part in floor.readiness()["missing"]}
    assert stops == {"O-ring 14.0 x 2.5": "stops the work", "Manual": "stops no step"}


@pytest.mark.parametrize("week", [None, {}, {"mon": [["08:00", "08:00"]]}])
def test_a_shop_without_opening_hours_has_no_date_but_a_verdict(floor: Floor, week: Any) -> None:
    Calendar.objects.all().delete()
    if week is not None:
        Calendar.objects.create(shop=floor.cast.shop, week=week)
    floor.count_all(ring=2)
    readiness = floor.readiness()
    assert readiness["sentence"] == "Can start. Stop before step 2: Front off"
    assert (readiness["promise"], readiness["no_promise"][:8]) == (None, "No date:")


def test_steps_in_a_circle_are_named_and_nothing_breaks(floor: Floor) -> None:
    with refusals_suspended():
        JobOperation.objects.filter(code="SETUP").update(sheet={"after": ["FIT"]})
    readiness = floor.readiness()
    assert readiness["verdict"] is None and "SETUP" in readiness["sentence"] and "FIT" in readiness["sentence"]
    assert (readiness["steps"], readiness["promise"], readiness["no_promise"]) == ([], None, readiness["sentence"])
    assert len(readiness["missing"]) == 2


def test_a_list_that_takes_nothing_is_all_here(floor: Floor) -> None:
    job = JobFactory(shop=floor.cast.shop)
    PullListFactory(shop=floor.cast.shop, job=job)
    readiness = floor.cast.signed_in("parts").get(f"jobs/{job.pk}/readiness").json()
    assert (readiness["sentence"], readiness["lines"]) == ("All here", 0)


def test_without_the_day_of_a_whole_kit_there_is_no_date(floor: Floor) -> None:
    Offer.objects.filter(part=floor.kit.part).update(lead_days=None)
    readiness = floor.readiness()
    assert readiness["promise"] is None and "Turbocharger kit has no delivery date" in readiness["no_promise"]


def test_a_kit_has_the_name_that_its_own_shop_gave_it(floor: Floor) -> None:
    KitFactory(shop=floor.cast.elsewhere, code=floor.kit.code, title="Towing kit")
    assert "Turbocharger kit" in {part["title"] for part in floor.readiness()["missing"]}


def test_a_kit_without_a_copy_on_record_is_called_by_its_number(floor: Floor) -> None:
    with refusals_suspended():
        PullLine.objects.update(copy=None)
    assert group(floor.readiness(), "BI-T")["due_words"] == "no delivery date yet"
    assert PullList.objects.count() == 1
