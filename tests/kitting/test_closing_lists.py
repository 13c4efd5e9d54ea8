"""Closing a pull list: its report, the roles that may close it, and events that come afterwards."""

import csv
import io

import openpyxl
import pytest

from kitting.models import PullLine
from shop.models import History
from tests.factories import AT
from tests.kitting.stage import Bench, Phone, list_of, pull, send

pytestmark = pytest.mark.once


def test_closing_answers_with_every_line_that_is_not_all_here(bench: Bench) -> None:
    client, (pull_list, lines) = bench.cast.signed_in("parts"), list_of(bench.cast, 8)
    good, short, hurt, over, untouched, unsure, sealed, wrong = lines
    here, away = Phone(pull_list), Phone(pull_list)
    send(
        client,
        pull_list,
        here.event(good),
        here.event(short, total=3, how="weighed"),
        here.event(hurt, total=4, damaged=1),
        here.event(over, total=5),
        here.event(unsure, total=4),
        away.event(unsure, total=3),
        here.event(sealed, how="sealed"),
        here.event(wrong),
        here.note(wrong, "wrong_part"),
    )
    answer = client.post(f"pull-lists/{pull_list.pk}/close", {"seq": 9})
    report = answer.json()
    words = {
        difference["line"]: [state["words"] for state in difference["states"]] for difference in report["differences"]
    }
    assert words == {
        str(short.pk): ["short 1"],
        str(hurt.pk): ["damaged 1"],
        str(over.pk): ["over 1"],
        str(untouched.pk): ["not counted"],
        str(unsure.pk): ["count again: 3 or 4"],
        str(sealed.pk): ["accepted sealed"],
        str(wrong.pk): ["wrong part 1"],
    }
    assert [difference["line"] for difference in report["differences"] if difference["weighed"]] == [str(short.pk)]
    assert (report["lines"], report["counted"], report["state"], report["closed_by"]) == (8, 7, "closed", "Parts")
    assert (report["not_counted"], report["differ"], report["count_again"], report["sealed"]) == (1, 4, 1, 1)
    assert {difference["line"] for difference in report["differences"] if difference["differs"]} == {
        str(line.pk) for line in (short, hurt, over, wrong)
    }
    assert History.objects.filter(verb="closed", subject_id=pull_list.pk).count() == 1
    assert client.get(f"pull-lists/{pull_list.pk}/report").json() == report
    file = client.get(f"pull-lists/{pull_list.pk}/file", {"format": "csv"}).content.decode("utf-8-sig")
    rows = [(row["counted"], row["damaged"], row["difference"]) for row in csv.DictReader(io.StringIO(file))]
    assert rows == [
        *(("4", "0", ""), ("3", "0", "short 1"), ("4", "1", "damaged 1"), ("5", "0", "over 1")),
        *(("", "", "not counted"), ("3–4", "0", "count again: 3 or 4")),
        *(("4", "0", "accepted sealed"), ("4", "0", "wrong part 1")),
    ]
    book = client.get(f"pull-lists/{pull_list.pk}/file").content
    heading, _, line, *_ = openpyxl.load_workbook(io.BytesIO(book)).active.iter_rows(values_only=True)
    cells = dict(zip(heading, line, strict=True))
    assert (cells["quantity"], cells["counted"], cells["part number"]) == (4, 3, short.number)
    assert cells["counted by"].startswith("Parts")


def test_the_report_tells_of_what_came_after_closing_and_of_parts_beside(bench: Bench) -> None:
    client = bench.cast.signed_in("manager")
    pull_list, (counted, other) = list_of(bench.cast, 2, kind="beside")
    phone = Phone(pull_list)
    send(client, pull_list, phone.event(counted))
    client.post(f"pull-lists/{pull_list.pk}/close", {"seq": 1})
    send(client, pull_list, phone.event(counted, total=2))
    report = client.get(f"pull-lists/{pull_list.pk}/report").json()
    differences = report["differences"]
    assert [[state["code"] for state in difference["states"]] for difference in differences] == [
        ["late", "beside"],
        ["beside"],
    ]
    assert (report["counted"], report["not_counted"], report["differ"], report["late"]) == (1, 1, 0, 1)
    assert (differences[0]["total"], differences[1]["total"]) == (4, None)


def test_a_seal_that_was_opened_and_counted_is_a_seal_no_more(bench: Bench) -> None:
    client, (pull_list, (line, other)) = bench.cast.signed_in("parts"), list_of(bench.cast, 2)
    phone = Phone(pull_list)
    send(client, pull_list, phone.note(line, "sealed"), phone.note(other, "sealed"), phone.event(line))
    differences = client.get(f"pull-lists/{pull_list.pk}/report").json()["differences"]
    assert [(difference["line"], difference["states"][0]["code"]) for difference in differences] == [
        (str(other.pk), "sealed")
    ]


def test_notes_count_until_taken_back_in_time_and_only_as_far_as_they_are_understood(bench: Bench) -> None:
    client, (pull_list, (stays, gone, newer)) = bench.cast.signed_in("parts"), list_of(bench.cast)
    phone = Phone(pull_list)
    notes = {line: phone.note(line, "wrong_part") for line in (stays, gone)}
    later_kind = {**phone.note(newer, "wrong_part"), "v": 2}
    send(client, pull_list, *notes.values(), phone.undo(notes[gone]), later_kind)
    client.post(f"pull-lists/{pull_list.pk}/close", {"seq": 4})
    send(client, pull_list, phone.undo(notes[stays]))
    differences = client.get(f"pull-lists/{pull_list.pk}/report").json()["differences"]
    assert {difference["line"]: [state["code"] for state in difference["states"]] for difference in differences} == {
        str(stays.pk): ["wrong_part"],
        str(gone.pk): ["untouched"],
        str(newer.pk): ["untouched"],
    }


def test_a_line_that_was_retired_is_neither_shown_nor_asked_for(bench: Bench) -> None:
    client, (pull_list, (line, retired)) = bench.cast.signed_in("parts"), list_of(bench.cast, 2)
    PullLine.objects.filter(pk=retired.pk).update(retired_at=AT)
    path = f"pull-lists/{pull_list.pk}"
    assert [line["id"] for line in client.get(path).json()["lines"]] == [str(line.pk)]
    assert client.get(f"{path}/report").json()["lines"] == client.get("pull-lists").json()["items"][0]["lines"] == 1


def test_what_is_on_the_vehicle_is_no_difference(bench: Bench) -> None:
    pull_list = bench.opened(bench.turbo_kit(), transmission="manual")
    report = bench.cast.signed_in("technician").get(f"pull-lists/{pull_list.pk}/report").json()
    assert report["lines"] == len(report["differences"]) == 7
    assert "reused" not in {difference["kind"] for difference in report["differences"]}


def test_a_list_on_which_more_has_come_is_not_closed(bench: Bench) -> None:
    client, (pull_list, (line, *_)) = bench.cast.signed_in("parts"), list_of(bench.cast)
    send(client, pull_list, Phone(pull_list).event(line))
    for seq in (0, 2):
        refused = client.post(f"pull-lists/{pull_list.pk}/close", {"seq": seq})
        assert (refused.status_code, refused.json()["type"]) == (409, "/problems/more-has-come")
    assert client.post(f"pull-lists/{pull_list.pk}/close", {"seq": 1}).status_code == 200
    again = client.post(f"pull-lists/{pull_list.pk}/close", {"seq": 1})
    assert (again.status_code, again.json()["type"]) == (409, "/problems/list-is-closed")


@pytest.mark.parametrize(("body", "pointer"), [({}, "/seq"), ({"seq": -1}, "/seq"), ({"seq": 0, "x": 1}, "/x")])
def test_closing_needs_what_was_seen(bench: Bench, body: dict, pointer: str) -> None:
    pull_list, _ = list_of(bench.cast)
    answer = bench.cast.signed_in("parts").post(f"pull-lists/{pull_list.pk}/close", body)
    assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == pointer


def test_a_reopened_list_is_counted_on_and_what_was_late_stays_late(bench: Bench) -> None:
    client, (pull_list, (line, *_)) = bench.cast.signed_in("parts"), list_of(bench.cast)
    phone = Phone(pull_list)
    client.post(f"pull-lists/{pull_list.pk}/close", {"seq": 0})
    send(client, pull_list, phone.event(line))
    reopened = client.post(f"pull-lists/{pull_list.pk}/reopen")
    assert (reopened.status_code, reopened.json()["state"], reopened.json()["version"]) == (200, "open", 3)
    assert send(client, pull_list, phone.event(line))[0]["status"] == "stored"
    assert [event["late"] for event in pull(client, pull_list)["events"]] == [True, False]
    assert client.post(f"pull-lists/{pull_list.pk}/reopen").json()["version"] == 3
    assert client.get(f"pull-lists/{pull_list.pk}/report").json()["closed_at"] is None


@pytest.mark.parametrize(
    ("action", "role", "status"),
    [
        ("close", "technician", 403),
        ("close", "parts", 200),
        ("close", "advisor", 200),
        ("close", "manager", 200),
        ("reopen", "technician", 403),
        ("reopen", "advisor", 403),
        ("reopen", "parts", 200),
        ("reopen", "manager", 200),
    ],
)
def test_who_closes_and_who_reopens(bench: Bench, action: str, role: str, status: int) -> None:
    pull_list, _ = list_of(bench.cast)
    body = {"seq": 0} if action == "close" else {}
    assert bench.cast.signed_in(role).post(f"pull-lists/{pull_list.pk}/{action}", body).status_code == status
