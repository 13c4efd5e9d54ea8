import json
import uuid
from datetime import UTC, datetime
from typing import Any

import pytest

from kitting.calc.counting import Event, digest, fold
from kitting.models import CountEvent, PullLine, PullList
from tests.cast import Cast
from tests.factories import PullLineFactory, PullListFactory
from tests.kitting.stage import Phone, list_of, pull, send


@pytest.fixture
def opened(cast: Cast) -> tuple[PullList, list[PullLine]]:
    return list_of(cast)


def test_what_a_phone_counted_comes_back_with_its_author_and_place(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    client, phone = cast.signed_in("parts"), Phone(pull_list)
    sent = phone.event(line, total=4, damaged=1, how="weighed")
    assert send(client, pull_list, sent) == [{"id": sent["id"], "status": "stored", "seq": 1, "problem": None}]
    pulled = pull(client, pull_list)
    assert (pulled["more"], pulled["seq"], pulled["state"], pulled["epoch"]) == (False, 1, "open", 1)
    (event,) = pulled["events"]
    assert {key: event[key] for key in sent if key != "made_at"} == {k: v for k, v in sent.items() if k != "made_at"}
    assert (event["author"], event["author_name"]) == (str(cast.parts.pk), "Parts")
    assert (event["late"], event["how"], event["note"]) == (False, "weighed", None)
    send(client, pull_list, phone.note(line, "damage"))
    (note,) = pull(client, pull_list, after=1)["events"]
    assert (note["how"], note["note"]) == (None, {"what": "damage"})


@pytest.mark.parametrize("role", ["advisor", "parts", "technician", "manager"])
def test_everyone_of_the_shop_counts(cast: Cast, opened: Any, role: str) -> None:
    pull_list, (line, *_) = opened
    (result,) = send(cast.signed_in(role), pull_list, Phone(pull_list).event(line))
    assert result["status"] == "stored"


def test_a_batch_sent_again_is_known_and_takes_no_second_place(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    client, phone = cast.signed_in("parts"), Phone(pull_list)
    events = [phone.event(line), phone.event(line, "add", 1)]
    send(client, pull_list, *events)
    again = send(client, pull_list, *events, phone.event(line))
    assert [(result["status"], result["seq"]) for result in again] == [
        ("duplicate", 1),
        ("duplicate", 2),
        ("stored", 3),
    ]
    assert list(CountEvent.objects.order_by("seq").values_list("seq", flat=True)) == [1, 2, 3]


def test_one_id_twice_in_a_batch_is_one_event(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    sent = Phone(pull_list).event(line)
    results = send(cast.signed_in("parts"), pull_list, sent, dict(sent), {**sent, "total": 3})
    assert [result["status"] for result in results] == ["stored", "duplicate", "rejected"]
    assert results[2]["problem"] == "id_reused" and CountEvent.objects.count() == 1


def test_an_id_of_another_list_or_shop_is_refused_without_a_word_about_where(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    foreign = PullListFactory(shop=cast.elsewhere)
    other_shop = Phone(foreign).event(PullLineFactory(shop=cast.elsewhere, pull_list=foreign))
    from tests.client import CheckedClient

    stranger = CheckedClient(shop=cast.elsewhere.slug)
    stranger.force_login(cast.stranger.user)
    assert send(stranger, foreign, other_shop)[0]["status"] == "stored"
    other, (elsewhere, *_) = list_of(cast)
    client = cast.signed_in("parts")
    other_job = Phone(other).event(elsewhere)
    send(client, other, other_job)
    for taken in (other_shop, other_job):
        sent = Phone(pull_list).event(line, id=taken["id"])
        refused = send(client, pull_list, sent)
        assert refused == [{"id": taken["id"], "status": "rejected", "seq": None, "problem": "id_reused"}]


def test_a_number_of_a_device_names_one_event_only(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    client, phone = cast.signed_in("parts"), Phone(pull_list)
    first = phone.event(line)
    send(client, pull_list, first)
    wiped = Phone(pull_list, device=phone.device).event(line)
    twice = phone.event(line)
    results = send(client, pull_list, wiped, twice, {**twice, "id": str(uuid.uuid4())})
    assert [result["problem"] for result in results] == ["number_reused", None, "number_reused"]


def test_what_comes_after_closing_is_kept_and_changes_nothing(cast: Cast, opened: Any) -> None:
    pull_list, (line, other, _) = opened
    client, phone = cast.signed_in("parts"), Phone(pull_list)
    before = phone.event(line)
    send(client, pull_list, before)
    before_closing = pull(client, pull_list)["digest"]
    assert client.post(f"pull-lists/{pull_list.pk}/close", {"seq": 1}).status_code == 200
    late = [phone.event(line, total=1), phone.event(other), phone.undo(before)]
    assert [result["status"] for result in send(client, pull_list, *late)] == ["late"] * 3
    pulled = pull(client, pull_list)
    assert [event["late"] for event in pulled["events"]] == [False, True, True, True]
    assert pulled["digest"] == before_closing and pulled["state"] == "closed"
    assert send(client, pull_list, late[0])[0]["status"] == "duplicate"


def test_a_count_of_a_retired_line_is_late_on_an_open_list(cast: Cast) -> None:
    pull_list, (line, *_) = list_of(cast, retired_at=datetime(2026, 11, 24, tzinfo=UTC))
    assert send(cast.signed_in("parts"), pull_list, Phone(pull_list).event(line))[0]["status"] == "late"


def test_an_own_count_can_be_taken_back_and_nobody_elses(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    parts, advisor = cast.signed_in("parts"), cast.signed_in("advisor")
    his, hers = Phone(pull_list), Phone(pull_list)
    counted = his.event(line)
    send(parts, pull_list, counted)
    untouched = digest({})
    assert pull(parts, pull_list)["digest"] != untouched
    send(advisor, pull_list, hers.undo(counted))
    assert pull(parts, pull_list)["digest"] != untouched
    send(parts, pull_list, his.undo(counted))
    assert pull(parts, pull_list)["digest"] == untouched


def test_the_digest_is_that_of_the_pulled_events_folded(cast: Cast, opened: Any) -> None:
    pull_list, (first, two, three) = opened
    client, a, b = cast.signed_in("parts"), Phone(pull_list), Phone(pull_list)
    send(client, pull_list, a.event(first, total=3), b.event(first, total=4), a.event(two), b.event(two, "add", 1))
    b.seen = 4
    send(client, pull_list, b.event(three, total=2, damaged=1), b.undo(b.event(two)))
    pulled = pull(client, pull_list)
    names = Event.__dataclass_fields__
    folded = fold(Event(**{name: event[name] for name in names}) for event in pulled["events"])
    assert folded[str(first.pk)].confirm and not folded[str(three.pk)].confirm
    assert pulled["digest"] == digest(folded)


def test_pulling_goes_on_where_the_phone_is(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    client, phone = cast.signed_in("parts"), Phone(pull_list)
    send(client, pull_list, *(phone.event(line, total=n) for n in range(5)))
    first = pull(client, pull_list, limit=2)
    assert [event["seq"] for event in first["events"]] == [1, 2]
    assert first["more"] and first["seq"] == 2 and "digest" not in first
    rest = pull(client, pull_list, after=2)
    assert [event["seq"] for event in rest["events"]] == [3, 4, 5] and not rest["more"] and "digest" in rest
    nothing = pull(client, pull_list, after=5)
    assert nothing["events"] == [] and nothing["seq"] == 5 and nothing["digest"] == rest["digest"]


@pytest.mark.parametrize(
    ("change", "problem"),
    [
        ({"total": -1}, "out_of_bounds"),
        ({"total": 100_000}, "out_of_bounds"),
        ({"total": 2, "damaged": 3}, "out_of_bounds"),
        ({"damaged": -1}, "out_of_bounds"),
        ({"kind": "add", "total": 1000}, "out_of_bounds"),
        ({"kind": "add", "total": 0, "damaged": -1000}, "out_of_bounds"),
        ({"kind": "add", "total": 0}, "out_of_bounds"),
        ({"total": "4"}, "malformed"),
        ({"total": 4.0}, "malformed"),
        ({"total": True}, "malformed"),
        ({"total": None}, "malformed"),
        ({"kind": "undo"}, "malformed"),
        ({"kind": ""}, "malformed"),
        ({"kind": "x" * 17}, "malformed"),
        ({"target": str(uuid.uuid4())}, "malformed"),
        ({"id": "7"}, "malformed"),
        ({"id": None}, "malformed"),
        ({"line": None}, "malformed"),
        ({"list": str(uuid.uuid4())}, "malformed"),
        ({"device": "shelf"}, "malformed"),
        ({"n": 0}, "malformed"),
        ({"n": 2**31}, "malformed"),
        ({"seen": -1}, "malformed"),
        ({"seen": "1"}, "malformed"),
        ({"epoch": 0}, "malformed"),
        ({"v": 0}, "malformed"),
        ({"made_at": "yesterday"}, "malformed"),
        ({"made_at": "2026-11-24T10:15:00"}, "malformed"),
        ({"made_at": "0001-01-01T00:00:00+14:00"}, "malformed"),
        ({"note": {"reason": "a\x00b"}}, "malformed"),
        ({"note": 2**60}, "malformed"),
        ({"line": str(uuid.uuid4())}, "unknown_line"),
    ],
)
def test_what_cannot_be_counted_is_refused_alone(cast: Cast, opened: Any, change: dict, problem: str) -> None:
    pull_list, (line, *_) = opened
    phone = Phone(pull_list)
    bad, good = phone.event(line, **change), phone.event(line)
    results = send(cast.signed_in("parts"), pull_list, bad, good)
    assert [(result["status"], result["problem"]) for result in results] == [("rejected", problem), ("stored", None)]
    assert results[1]["seq"] == 1


def test_a_line_of_another_list_is_refused_alone(cast: Cast, opened: Any) -> None:
    (pull_list, (line, *_)), (_, (elsewhere, *_)) = opened, list_of(cast)
    phone = Phone(pull_list)
    results = send(cast.signed_in("parts"), pull_list, phone.event(elsewhere), phone.event(line))
    assert [(result["status"], result["problem"]) for result in results] == [
        ("rejected", "unknown_line"),
        ("stored", None),
    ]


def test_half_a_letter_is_refused_and_not_stumbled_over(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    body = json.dumps({"events": [Phone(pull_list).event(line, note={"reason": "\ud800"})]})
    answer = cast.signed_in("parts").post(
        f"pull-lists/{pull_list.pk}/events", body, key=None, format=None, content_type="application/json"
    )
    assert answer.json()["results"][0]["problem"] == "malformed"


@pytest.mark.parametrize("sent", [None, 7, "x", [], {}])
def test_what_is_no_event_at_all_is_refused_alone(cast: Cast, opened: Any, sent: Any) -> None:
    pull_list, (line, *_) = opened
    results = send(cast.signed_in("parts"), pull_list, sent, Phone(pull_list).event(line))
    assert [result["status"] for result in results] == ["rejected", "stored"] and results[0]["id"] is None


@pytest.mark.parametrize(
    ("kind", "total", "damaged"), [("set", 0, 0), ("set", 99_999, 99_999), ("add", -999, 999), ("add", 0, -1)]
)
def test_the_bounds_themselves_are_good(cast: Cast, opened: Any, kind: str, total: int, damaged: int) -> None:
    pull_list, (line, *_) = opened
    (result,) = send(cast.signed_in("parts"), pull_list, Phone(pull_list).event(line, kind, total, damaged))
    assert result["status"] == "stored"


def test_what_a_newer_phone_says_is_kept_whole_and_not_counted(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    client, phone = cast.signed_in("parts"), Phone(pull_list)
    newer = phone.event(line, "staged", "many", None, v=2, shelf={"row": 3}, target="there")
    undo = phone.event(line, "undo", 3, v=2)
    event = phone.event(line, "lifted", 7)
    assert [result["status"] for result in send(client, pull_list, newer, undo, event)] == ["stored"] * 3
    pulled = pull(client, pull_list)
    assert pulled["digest"] == digest({})
    assert pulled["events"][0]["shelf"] == {"row": 3}
    assert pulled["events"][0]["sent"] == {"total": "many", "target": "there"}


def test_what_a_phone_claims_to_have_seen_is_held_to_the_log(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    client, phone = cast.signed_in("parts"), Phone(pull_list, seen=40)
    first, second = phone.event(line), phone.event(line)
    send(client, pull_list, first)
    send(client, pull_list, second)
    assert [event["seen"] for event in pull(client, pull_list)["events"]] == [0, 1]
    assert send(client, pull_list, first)[0]["status"] == "duplicate"


def test_after_a_restore_what_was_seen_before_is_held_to_where_the_log_was_cut(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    client, phone = cast.signed_in("parts"), Phone(pull_list)
    send(client, pull_list, *(phone.event(line) for _ in range(6)))
    PullList.objects.filter(pk=pull_list.pk).update(cuts=[[1, 4], [2, 3]])
    cast.shop.log_epoch = 3
    cast.shop.save()
    old, older = phone.event(line, seen=6, epoch=2), phone.event(line, seen=6, epoch=1)
    new = phone.event(line, seen=6, epoch=3)
    send(client, pull_list, old, older, new)
    assert [event["seen"] for event in pull(client, pull_list, after=6)["events"]] == [3, 3, 6]
    assert pull(client, pull_list)["epoch"] == 3


def test_the_author_is_who_is_signed_in_whatever_the_phone_says(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    sent = Phone(pull_list).event(line, author=str(cast.manager.pk), seq=77, late=True)
    client = cast.signed_in("technician")
    send(client, pull_list, sent)
    (event,) = pull(client, pull_list)["events"]
    assert (event["author"], event["seq"], event["late"]) == (str(cast.technician.pk), 1, False)


def test_an_event_put_back_in_the_queue_as_it_came_is_known(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    client, sent = cast.signed_in("parts"), Phone(pull_list).event(line)
    send(client, pull_list, sent)
    added = {"author": str(cast.parts.pk), "author_name": "Parts", "seq": 1, "late": False}
    assert send(client, pull_list, {**sent, **added})[0]["status"] == "duplicate"


def test_too_much_at_once_is_refused_whole(cast: Cast, opened: Any) -> None:
    pull_list, (line, *_) = opened
    client, phone = cast.signed_in("parts"), Phone(pull_list)
    path = f"pull-lists/{pull_list.pk}/events"
    many = client.post(path, {"events": [phone.event(line) for _ in range(201)]}, key=None)
    big = client.post(path, {"events": [phone.event(line, note={"reason": "x" * 262_144})]}, key=None)
    assert (many.status_code, big.status_code) == (413, 413)
    assert many.json()["type"] == "/problems/batch-too-large" and CountEvent.objects.count() == 0
    assert len(send(client, pull_list, *(phone.event(line) for _ in range(200)))) == 200


@pytest.mark.parametrize(("body", "pointer"), [({}, "/events"), ({"events": 3}, "/events"), ({"event": []}, "/event")])
def test_a_body_that_is_no_batch_names_the_field(cast: Cast, opened: Any, body: dict, pointer: str) -> None:
    answer = cast.signed_in("parts").post(f"pull-lists/{opened[0].pk}/events", body, key=None)
    assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == pointer


@pytest.mark.parametrize("query", [{"after": "-1"}, {"after": "x"}, {"limit": "0"}, {"limit": "1e3"}, {"since": "1"}])
def test_a_bad_question_to_the_log_is_refused(cast: Cast, opened: Any, query: dict) -> None:
    assert cast.signed_in("parts").get(f"pull-lists/{opened[0].pk}/events", query).status_code == 400


def test_it_refuses_a_stranger_and_whoever_is_signed_out(cast: Cast, opened: Any) -> None:
    from tests.client import CheckedClient

    pull_list, (line, *_) = opened
    body = {"events": [Phone(pull_list).event(line)]}
    path = f"pull-lists/{pull_list.pk}/events"
    signed_out, stranger = CheckedClient(), CheckedClient(shop=cast.elsewhere.slug)
    stranger.force_login(cast.stranger.user)
    assert signed_out.post(path, body, key=None).status_code == 401
    assert stranger.post(path, body, key=None).status_code == 404
    assert stranger.get(path).status_code == 404 and CountEvent.objects.count() == 0
