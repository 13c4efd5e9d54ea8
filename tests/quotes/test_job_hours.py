"""The technician reads the same explanation of hours as the counter, without any price."""

import re
from typing import Any

import pytest

from quotes.models import Revision
from quotes.presenters.customer import for_customer
from quotes.queries import frozen
from shop.models import JobOperation, Operation
from tests.costs import texts_of
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

MONEY = re.compile(r"\d[.,]\d\d(?!\d| h)|price|\brate\b|paid|[€$£]", re.IGNORECASE)
BECAUSE = "Told 99.00 on the phone"


def send(stage: Stage, quote: dict[str, Any]) -> dict[str, Any]:
    body = {"version": quote["version"], "recipient": "01632 960 417"}
    answer = stage.client.post(f"quotes/{quote['id']}/send", body)
    assert answer.status_code == 201, answer.content
    return answer.json()


def accept(stage: Stage, sent: dict[str, Any], role: str = "technician") -> dict[str, Any]:
    """The job, as that person reads it."""
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    job = stage.client.get(f"quotes/{sent['quote']['id']}").json()["job"]["id"]
    answer = stage.cast.signed_in(role).get(f"jobs/{job}")
    assert answer.status_code == 200, answer.content
    return answer.json()


def corroded(stage: Stage) -> dict[str, Any]:
    first = stage.quote()
    return stage.client.patch(f"quotes/{first.json()['id']}", {"condition": "light"}, seen=first).json()


def explanation(stage: Stage, quote: dict[str, Any], code: str) -> dict[str, Any]:
    """The counter's explanation, of the draft or of what was sent."""
    return stage.client.get(f"quotes/{quote['id']}/how?key=labour:{code}").json()


def of(job: dict[str, Any], code: str) -> dict[str, Any]:
    return next(operation["how"] for operation in job["operations"] if operation["code"] == code)


def pairs(how: dict[str, Any]) -> list[tuple[str, str]]:
    return [(step["words"], step["figure"]) for step in how["steps"]]


def test_a_step_has_the_worked_numbers_of_its_hours(stage: Stage) -> None:
    job = accept(stage, send(stage, corroded(stage)))
    bumper = of(job, "BUMPER")
    assert bumper["title"] == "Front bumper off and on" and bumper["result"] == "2.1 h"
    assert pairs(bumper) == [
        ("A, Turbocharger kit, needs", "2.4 h"),
        ("B, Towing kit, needs", "2.0 h"),
        ("Done once: the longest of 2", "2.4 h"),
        ("Shared with Turbocharger fitted", "− 0.5 h"),
        ("+10 % for corroded fasteners", "2.09 h"),
        ("Rounded to 0.1 h", "2.1 h"),
    ]
    assert any("done once" in rule for rule in bumper["rule"])


def test_every_step_says_what_the_counter_says_and_leaves_out_the_price_alone(stage: Stage) -> None:
    sent = send(stage, corroded(stage))
    before = {
        operation["key"]: explanation(stage, sent["quote"], operation["key"].partition(":")[2])
        for operation in labour(sent)
    }
    job = accept(stage, sent)
    assert len(job["operations"]) == len(before) == 4
    for step in job["operations"]:
        counter, bay = before[f"labour:{step['code']}"], step["how"]
        assert bay["title"] == counter["title"] and bay["result"] == counter["result"].partition(",")[0]
        assert bay["rule"] == counter["rule"][:-1] and pairs(bay) == pairs(counter)[:-2]
        assert bay["result"] == f"{step['hours']} h"


def labour(sent: dict[str, Any]) -> list[dict[str, Any]]:
    return sent["quote"]["labour"]["operations"]


@pytest.mark.parametrize("role", ["technician", "parts", "advisor"])
def test_no_money_comes_with_it(stage: Stage, role: str) -> None:
    quote = corroded(stage)
    assert any(map(MONEY.search, texts_of(explanation(stage, quote, "BUMPER"))))  # so that it is there to be left out
    job = accept(stage, send(stage, quote), role)
    hows = [operation["how"] for operation in job["operations"]]
    assert not [text for text in texts_of(hows) if MONEY.search(text)]
    assert {figure.rpartition(" ")[2] for how in hows for _, figure in pairs(how)} == {"h"}


def test_hours_set_by_hand_are_worked_without_the_reason(stage: Stage) -> None:
    first = stage.quote()
    path = f"quotes/{first.json()['id']}/overrides/labour:TURBO"
    changed = stage.client.put(path, {"value": "5.0", "because": BECAUSE}, seen=first).json()
    assert BECAUSE in str(explanation(stage, changed, "TURBO"))
    job = accept(stage, send(stage, changed))
    turbo = of(job, "TURBO")
    assert pairs(turbo)[-2:] == [("Worked out", "3.0 h"), ("Replaced by hand", "5.0 h")]
    assert turbo["result"] == "5.0 h" and BECAUSE not in str(job)


def test_what_is_renamed_later_reads_as_it_was_sold(stage: Stage) -> None:
    sent = send(stage, corroded(stage))
    Operation.objects.filter(code="TURBO").update(title="Turbo on")
    assert ("Shared with Turbocharger fitted", "− 0.5 h") in pairs(of(accept(stage, sent), "BUMPER"))


def test_a_version_sent_before_they_were_kept_leaves_the_reasons(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    read = frozen.read
    monkeypatch.setattr(frozen, "read", lambda revision: {k: v for k, v in read(revision).items() if k != "hours"})
    job = accept(stage, send(stage, corroded(stage)))
    assert {operation["how"] for operation in job["operations"]} == {None}
    assert "once for two kits: longest is 2.4 h" in next(e["why"] for e in job["operations"] if e["code"] == "BUMPER")


def test_a_step_names_the_kits_it_is_for(stage: Stage) -> None:
    job = accept(stage, send(stage, corroded(stage)))
    titles = {operation["code"]: operation["kit_titles"] for operation in job["operations"]}
    assert titles["BUMPER"] == ["Turbocharger kit", "Towing kit"] and titles["WIRING"] == ["Towing kit"]


def test_the_customer_gets_none_of_it(stage: Stage) -> None:
    send(stage, corroded(stage))
    content = frozen.read(Revision.objects.get())
    assert "hours" in content and "hours" not in for_customer(content)


def test_a_step_of_a_job_keeps_no_more_of_it_than_is_told(stage: Stage) -> None:
    accept(stage, send(stage, corroded(stage)))
    for row in JobOperation.objects.all():
        assert set(row.sheet["how"]) == {"title", "rule", "steps", "result"}
