"""The bay records what happened; up to the cap it is charged as agreed, beyond it the advisor asks the customer."""

import json
from decimal import Decimal
from typing import Any

import pytest
from django.db import IntegrityError, connection, transaction
from django.test.utils import CaptureQueriesContext

from quotes.models import Occurrence
from shop.models import History
from tests.quotes.contingent import HOSE, STUD, STUD_ONCE, add, sent, with_stud
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once


class Happening:
    """A job whose quote charges a broken stud only if it happens, and the requests of the bay about it."""

    def __init__(self, stage: Stage, *more: dict[str, Any]) -> None:
        self.stage = stage
        self.quote = stage.as_before(_accepted, json.dumps(more))
        self.gross = Decimal(self.quote["totals"]["gross"])
        self.line = self.quote["contingencies"][0]["line"]
        self.path = f"jobs/{self.quote['job']['id']}"

    def record(self, count: int = 1, role: str = "technician", **fields: Any) -> Any:
        body = {"line": self.line, "count": count} | fields
        return self.stage.cast.signed_in(role).post(f"{self.path}/occurrences", body)

    def read(self, role: str = "technician") -> dict[str, Any]:
        return dict(self.stage.cast.signed_in(role).get(f"{self.path}/occurrences").json()["lines"][0])

    def account(self) -> dict[str, Any]:
        return dict(self.stage.client.get(f"{self.path}/account").json())


def _accepted(stage: Stage, _: Any, more: str) -> dict[str, Any]:
    draft = with_stud(stage)
    for line in json.loads(more):
        draft = add(stage, draft["id"], **line).json()
    quote = sent(stage, draft)
    assert Phone(quote["link"]["url"]).answer().status_code == 303
    return dict(stage.client.get(f"quotes/{quote['quote']['id']}").json())


@pytest.fixture
def happening(stage: Stage) -> Happening:
    return Happening(stage)


def test_nothing_is_charged_until_it_happens(happening: Happening) -> None:
    stud = happening.read()
    assert (stud["happened"], stud["rest"], stud["over"], stud["hours"]) == (0, 4, 0, "0.6")
    assert [row["kind"] for row in happening.account()["rows"]] == ["agreed"]


def test_what_happened_is_charged_as_agreed(happening: Happening) -> None:
    assert happening.record(2, note="Rusted through").status_code == 201
    stud = happening.read()
    assert (stud["happened"], stud["rest"], stud["words"]) == (2, 2, "Happened 2 times; 2 more times are agreed.")
    (record,) = stud["records"]
    assert (record["count"], record["note"]) == (2, "Rusted through")
    assert record["recorded_by"] == happening.stage.cast.technician.user.name
    account = happening.account()
    row = account["rows"][1]
    assert (row["kind"], row["amount"]) == ("happened", "198.00") and row["title"].startswith(STUD["event"])
    assert row["consent"].startswith("Maren Oldacre, ")
    assert Decimal(account["due"]) == happening.gross + 2 * Decimal(STUD_ONCE)
    assert History.objects.filter(subject="occurrence", verb="recorded").count() == 1


def test_beyond_the_cap_it_is_recorded_not_charged_and_said(happening: Happening) -> None:
    assert [happening.record(3).status_code, happening.record(3).status_code] == [201, 201]
    stud = happening.read()
    assert (stud["happened"], stud["rest"], stud["over"]) == (6, 0, 2)
    account = happening.account()
    assert account["rows"][1]["amount"] == "396.00"
    assert stud["words"] in account["rows"][1]["why"]
    (beyond,) = happening.stage.client.get("counter").json()["beyond"]
    assert (beyond["event"], beyond["quote"], beyond["words"]) == (STUD["event"], happening.quote["id"], stud["words"])


def test_up_to_the_cap_the_counter_is_not_disturbed(happening: Happening) -> None:
    happening.record(4)
    assert happening.stage.client.get("counter").json()["beyond"] == []


def test_an_opposite_row_takes_it_back_once(happening: Happening) -> None:
    happening.record(2)
    first = happening.read()["records"][0]["id"]
    address = f"{happening.path}/occurrences/{first}/reversal"
    technician = happening.stage.cast.signed_in("technician")
    assert technician.post(address, {}).status_code == 201
    stud = happening.read()
    assert stud["happened"] == 0 and [row["count"] for row in stud["records"]] == [2, -2]
    assert stud["records"][0]["reversed"] and stud["records"][1]["reverses"] == first
    for row in stud["records"]:
        again = technician.post(f"{happening.path}/occurrences/{row['id']}/reversal", {})
        assert (again.status_code, again.json()["type"].rpartition("/")[2]) == (409, "occurrence-reversed")
    assert [row["kind"] for row in happening.account()["rows"]] == ["agreed"]


@pytest.mark.both
def test_a_record_never_changes_nor_goes(happening: Happening) -> None:
    happening.record()
    for change in (lambda rows: rows.update(count=9), lambda rows: rows.delete()):
        with pytest.raises(IntegrityError), transaction.atomic():
            change(Occurrence.objects.all())
    assert Occurrence.objects.get().count == 1


def test_a_technician_reads_no_price(happening: Happening) -> None:
    answer = happening.record(2)
    assert '"198' not in answer.content.decode() and STUD_ONCE not in answer.content.decode()
    assert not {"price", "tax", "highest"} & set(answer.json()["lines"][0])


@pytest.mark.parametrize("fields", [{"count": 0}, {"count": 100}, {"note": "x" * 301}])
def test_it_refuses_what_cannot_have_happened(happening: Happening, fields: dict[str, Any]) -> None:
    assert happening.record(**fields).status_code == 400
    assert not Occurrence.objects.exists()


def test_only_what_was_agreed_can_be_recorded(happening: Happening) -> None:
    other = with_stud(happening.stage)  # a draft that nobody accepted
    assert happening.record(line=other["contingencies"][0]["line"]).status_code == 404
    assert happening.record(line=happening.quote["kits"][0]["line"]).status_code == 404


def test_a_closed_job_still_takes_a_fact_and_keeps_its_account(happening: Happening) -> None:
    happening.record()
    due = happening.account()["due"]
    assert happening.stage.client.post(f"{happening.path}/closing-account", {"due": due}).status_code == 201
    assert happening.record().status_code == 201
    assert happening.account()["due"] == due and happening.read()["happened"] == 2


def test_reading_takes_as_many_queries_for_many_lines_as_for_one(stage: Stage) -> None:
    technician = stage.cast.signed_in("technician")
    numbers = []
    for more in ((), (HOSE, HOSE, HOSE)):
        happening = Happening(stage, *more)
        for line in happening.stage.client.get(f"quotes/{happening.quote['id']}").json()["contingencies"]:
            happening.record(line=line["line"])
        technician.get(f"{happening.path}/occurrences")
        with CaptureQueriesContext(connection) as queries:
            technician.get(f"{happening.path}/occurrences")
        numbers.append(len(queries))
    assert numbers[0] == numbers[1]


def test_the_customer_reads_on_the_link_what_happened(happening: Happening) -> None:
    assert happening.record(5, note="Rusted through").status_code == 201  # four are agreed
    link = happening.stage.client.post(f"quotes/{happening.quote['id']}/links", {"recipient": "Maren"}).json()["url"]
    phone = Phone(link)
    words = f"{STUD['event']}: {STUD['title']}. It happened; charged as agreed 4 times, {STUD_ONCE} each with tax."
    receipt = phone.client.get(f"{phone.page}receipt").content.decode()
    assert words in phone.html and words in receipt
    assert "Rusted through" not in phone.html + receipt


def test_the_link_says_nothing_of_what_was_undone(happening: Happening) -> None:
    record = happening.record(1).json()["lines"][0]["records"][0]["id"]
    happening.stage.cast.signed_in("technician").post(f"{happening.path}/occurrences/{record}/reversal", {})
    link = happening.stage.client.post(f"quotes/{happening.quote['id']}/links", {"recipient": "Maren"}).json()["url"]
    assert "It happened" not in Phone(link).html
