"""The outside work of a job: proposed with the acceptance, sent, asked for again, late, come back."""

from typing import Any

import pytest
from django.db import IntegrityError, transaction

from kitting.models import OutsideEvent, PullLine
from shop.models import Job
from tests.costs import figure_in, texts_of
from tests.quotes import dated
from tests.quotes.changing import accept, begin, off
from tests.quotes.dated import Clock, local
from tests.quotes.stage import Stage
from tests.quotes.test_outside import NAME, accepted
from tests.quotes.test_query_counts import queries

pytestmark = pytest.mark.once

clock, stage = dated.clock, dated.stage
TITLE = "Calibration"


def path() -> str:
    return f"jobs/{Job.objects.get().pk}/outside"


def read(stage: Stage) -> dict[str, Any]:
    (work,) = stage.client.get(path()).json()["items"]
    return work


def read_as(stage: Stage, role: str) -> dict[str, Any]:
    (work,) = stage.cast.signed_in(role).get(path()).json()["items"]
    return work


def record(stage: Stage, kind: str, day: str, role: str = "parts", **fields: Any) -> Any:
    body = {"work": read(stage)["work"], "kind": kind, "happened_on": f"2026-12-{day}"} | fields
    return stage.cast.signed_in(role).post(path(), body)


def turbo(stage: Stage) -> list[str]:
    """The words on the missing result, at the step that needs it, as the bay reads them."""
    readiness = stage.cast.signed_in("technician").get(f"jobs/{Job.objects.get().pk}/readiness").json()
    assert not any(figure_in("480", text) for text in texts_of(readiness))
    return next(step["missing"] for step in readiness["steps"] if step["code"] == "TURBO")


def test_an_acceptance_proposes_it_and_sends_nothing(stage: Stage) -> None:
    accepted(stage, starts_after="")
    work = read(stage)
    assert (work["title"], work["firm"], work["state"], work["words"]) == (
        NAME,
        "Lathe & Lambda",
        "proposed",
        "Not sent yet",
    )
    assert work["they_need"] == "original file, build sheet" and work["log"] == []
    assert not OutsideEvent.objects.exists()


def test_from_sent_to_come_back_with_who_and_when(stage: Stage, clock: Clock) -> None:
    accepted(stage, starts_after="")
    PullLine.objects.update(due_at="2026-12-10T16:00:00Z")  # so that only the outside work can be late
    answer = record(stage, "sent", "01", reference="LL-417")
    assert answer.status_code == 201, answer.content
    (work,) = answer.json()["items"]
    assert (work["state"], work["words"], work["due_on"], work["reference"]) == (
        "sent",
        "Sent Tue 1 Dec, due back Fri 4 Dec",
        "2026-12-04",
        "LL-417",
    )
    assert f"Waits for: {NAME}, sent Tue 1 Dec, back Fri 4 Dec" in turbo(stage)
    clock(local(4, 17))
    assert (read(stage)["state"], read(stage)["words"]) == ("late", "Sent Tue 1 Dec; it was due back Fri 4 Dec")
    assert f"Waits for: {NAME}, sent Tue 1 Dec, late: it was due Fri 4 Dec. Ask Lathe & Lambda" in turbo(stage)
    readiness = stage.client.get(f"jobs/{Job.objects.get().pk}/readiness").json()
    assert readiness["no_promise"] == f"No date yet. {NAME} is late. Ask Lathe & Lambda when to expect it."
    clock(local(7, 9))
    (work,) = record(stage, "asked", "07", expected_on="2026-12-09", note="Tess, by telephone").json()["items"]
    assert (work["state"], work["words"]) == ("sent", "Sent Tue 1 Dec, due back Wed 9 Dec. Asked again Mon 7 Dec")
    clock(local(9, 10))
    (work,) = record(stage, "back", "09", role="advisor").json()["items"]
    assert (work["state"], work["words"]) == ("back", "Came back Wed 9 Dec")
    assert not any(NAME in words for words in turbo(stage))
    assert [(entry["kind"], entry["recorded_by"]) for entry in work["log"]] == [
        ("sent", stage.cast.parts.user.name),
        ("asked", stage.cast.parts.user.name),
        ("back", stage.cast.advisor.user.name),
    ]


def test_a_further_round_is_sent_again_and_waited_for(stage: Stage) -> None:
    accepted(stage, starts_after="SETUP")
    assert f"Waits for: {NAME}, 3 working days after step 1" in turbo(stage)
    record(stage, "sent", "01")
    record(stage, "back", "01")
    assert not any(NAME in words for words in turbo(stage))
    (work,) = record(stage, "sent", "01").json()["items"]
    assert (work["rounds"], work["words"]) == (2, "Sent again Tue 1 Dec, round 2, due back Fri 4 Dec")
    assert f"Waits for: {NAME}, sent Tue 1 Dec, back Fri 4 Dec" in turbo(stage)


def test_a_wrong_tap_is_undone_and_stays_in_the_log(stage: Stage) -> None:
    accepted(stage, starts_after="")
    record(stage, "sent", "01")
    entry = read_as(stage, "parts")["undo"]
    (work,) = record(stage, "undone", "01", entry=entry, note="The wrong job").json()["items"]
    assert work["state"] == "proposed" and [entry["kind"] for entry in work["log"]] == ["sent", "undone"]


def code_of(refused: Any) -> tuple[int, str]:
    return refused.status_code, refused.json()["type"].rpartition("/")[2]


def test_nobody_takes_back_the_entry_of_a_colleague_but_a_manager(stage: Stage) -> None:
    """The parts counter sends it, the advisor asks again, and the parts counter's undo is late."""
    accepted(stage, starts_after="")
    record(stage, "sent", "01")
    own = read_as(stage, "parts")["undo"]
    assert own and read_as(stage, "advisor")["undo"] is None
    refused = record(stage, "undone", "01", role="advisor", entry=own)
    assert code_of(refused) == (409, "outside-of-colleague")
    assert f"{stage.cast.parts.user.name} recorded it." in refused.json()["detail"]
    record(stage, "asked", "01", role="advisor")
    assert code_of(record(stage, "undone", "01", entry=own)) == (409, "outside-moved")
    again = read_as(stage, "advisor")["undo"]
    assert again not in (None, own) and read_as(stage, "parts")["undo"] is None
    assert record(stage, "undone", "01", role="advisor", entry=again).status_code == 201
    assert read_as(stage, "parts")["undo"] == own == read_as(stage, "manager")["undo"]
    assert record(stage, "undone", "01", role="manager", entry=own).status_code == 201
    assert read(stage)["state"] == "proposed"


def test_an_entry_to_undo_has_to_be_named(stage: Stage) -> None:
    accepted(stage, starts_after="")
    record(stage, "sent", "01")
    assert record(stage, "undone", "01").json()["errors"][0]["pointer"] == "/entry"


@pytest.mark.parametrize(
    ("kind", "fields", "status", "where"),
    [
        ("asked", {}, 409, "outside-moved"),
        ("undone", {}, 409, "outside-moved"),
        ("sent", {"work": "outside:gone"}, 400, "/work"),
        ("sent", {"happened_on": "2026-12-02"}, 400, "/happened_on"),
        ("sent", {"happened_on": "1926-12-01"}, 400, "/happened_on"),
        ("sent", {"expected_on": "2126-12-01"}, 400, "/expected_on"),
        ("lost", {}, 400, "/kind"),
    ],
)
def test_it_refuses_what_cannot_be(stage: Stage, kind: str, fields: dict[str, Any], status: int, where: str) -> None:
    accepted(stage, starts_after="")
    refused = record(stage, kind, "01", **fields)
    problem = refused.json()
    reason = problem["errors"][0]["pointer"] if status == 400 else problem["type"].rpartition("/")[2]
    assert (refused.status_code, reason) == (status, where)
    assert not OutsideEvent.objects.exists()


@pytest.mark.both
def test_the_log_never_changes(stage: Stage) -> None:
    accepted(stage, starts_after="")
    record(stage, "sent", "01")
    for act in (lambda: OutsideEvent.objects.update(kind="back"), lambda: OutsideEvent.objects.all().delete()):
        with pytest.raises(IntegrityError, match="outside_event_never_changes"), transaction.atomic():
            act()


def test_reading_asks_no_more_for_a_longer_log(stage: Stage) -> None:
    accepted(stage, starts_after="")
    record(stage, "sent", "01")
    few = queries(lambda: stage.client.get(path()))
    for kind in ("back", "sent", "asked", "asked"):
        assert record(stage, kind, "01").status_code == 201
    assert queries(lambda: stage.client.get(path())) == few


def test_work_that_a_change_removes_is_neither_released_nor_waited_for(stage: Stage) -> None:
    accepted(stage, starts_after="")
    job = Job.objects.get()

    def orders() -> list[str]:
        return [work["title"] for work in stage.client.get(f"jobs/{job.pk}/releases").json()["proposed"]["outside"]]

    assert orders() == [TITLE] and NAME in readiness_text(stage)
    sent = record(stage, "sent", "01").json()["items"][0]
    accept(stage, off(stage, begin(stage, job), TITLE))
    assert orders() == [] and read(stage)["state"] == "sent", "what the firm has must come back"
    undo = {"work": sent["work"], "kind": "undone", "entry": sent["undo"], "happened_on": "2026-12-01"}
    assert stage.cast.signed_in("parts").post(path(), undo).json()["items"] == []
    assert NAME not in readiness_text(stage)
    assert send_back(stage, sent["work"]).status_code == 400


def readiness_text(stage: Stage) -> str:
    return str(stage.cast.signed_in("technician").get(f"jobs/{Job.objects.get().pk}/readiness").json())


def send_back(stage: Stage, work: str) -> Any:
    return stage.cast.signed_in("parts").post(path(), {"work": work, "kind": "back", "happened_on": "2026-12-01"})
