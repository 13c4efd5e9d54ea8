"""Labour that a person puts on a quote: an operation of the list, or hours at the rate of a skill."""

from decimal import Decimal
from typing import Any

import pytest

from shop.models import Job, JobOperation, Operation, StepCaution
from tests.quotes import dated
from tests.quotes.changing import accept, begin, off, send
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

clock, stage = dated.clock, dated.stage

SEARCH = {"title": "Search for the fault", "skill": "electrical", "hours": "1.2"}


def add(stage: Stage, quote: dict[str, Any], **fields: Any) -> Any:
    return stage.client.post(f"quotes/{quote['id']}/lines", {"kind": "labour"} | fields)


def added(stage: Stage, quote: dict[str, Any], **fields: Any) -> dict[str, Any]:
    answer = add(stage, quote, **fields)
    assert answer.status_code == 201, answer.content
    draft: dict[str, Any] = answer.json()
    return draft


def operation(stage: Stage, code: str) -> str:
    return str(Operation.objects.get(shop=stage.shop, code=code).pk)


def work(quote: dict[str, Any]) -> dict[str, tuple[str, str]]:
    return {row["title"]: (row["hours"], row["price"]) for row in quote["labour"]["operations"]}


def alone(stage: Stage, **fields: Any) -> dict[str, Any]:
    """A draft of the known customer with labour and nothing else."""
    people = {"customer": str(stage.customer.pk), "vehicle": str(stage.vehicle.pk)}
    return added(stage, stage.client.post("quotes", people).json(), **fields)


def test_hours_cost_the_rate_of_their_skill_and_go_as_they_came(stage: Stage) -> None:
    before = stage.quote(stage.towing).json()
    draft = added(stage, before, **SEARCH)
    assert work(draft)["Search for the fault"] == ("1.2", "216.00")  # 1.2 h at 180.00
    assert Decimal(draft["labour"]["hours"]) - Decimal(before["labour"]["hours"]) == Decimal("1.2")
    (row,) = [row for row in draft["labour"]["operations"] if "lines" in row]
    assert (row["kits"], row["code"], row["skill"]) == ([], "", "electrical")
    how = stage.client.get(f"quotes/{draft['id']}/how", {"key": row["key"]}).json()
    assert how["steps"][0] == {"words": "Added to the quote", "figure": "1.2 h"}
    whole = stage.client.get(f"quotes/{draft['id']}/how", {"key": "labour"}).json()["steps"]
    assert ("Search for the fault, on its own", "1.2 h") in [(step["words"], step["figure"]) for step in whole]
    own = {"value": "2.0", "because": "Two people"}
    changed = stage.client.put(f"quotes/{draft['id']}/overrides/{row['key']}", own, seen=f'"{draft["version"]}"').json()
    assert work(changed)["Search for the fault"] == ("2.0", "360.00")
    path = f"quotes/{draft['id']}/lines/{row['lines'][0]}"
    after = stage.client.delete(path, seen=f'"{changed["version"]}"').json()
    assert (work(after), after["totals"]) == (work(before), before["totals"])
    back = stage.client.post(f"quotes/{draft['id']}/undo", {"version": after["version"]}).json()
    assert work(back)["Search for the fault"] == ("2.0", "360.00")


def test_an_operation_of_the_list_is_shared_with_the_kits_that_need_it(stage: Stage) -> None:
    before = stage.quote().json()
    draft = added(stage, before, operation=operation(stage, "SETUP"), hours="2.0")
    title = "Set-up, protect, road test"
    assert (work(before)[title][0], work(draft)[title][0]) == ("1.8", "2.0")  # once, at the longest
    assert draft["labour"]["operations"][0]["kits"] == ["A", "B"]
    Operation.objects.filter(shop=stage.shop, code="WIRING").update(book_hours=Decimal("2.50"))
    wiring = added(stage, stage.quote(stage.turbo).json(), operation=operation(stage, "WIRING"))
    assert work(wiring)["Towing electrics"] == ("2.5", "450.00")  # its own hours


@pytest.mark.parametrize(
    ("fields", "pointer"),
    [
        ({"title": "Search", "skill": "magic", "hours": "1.0"}, "/skill"),
        ({"title": "  ", "skill": "electrical", "hours": "1.0"}, "/title"),
        ({"title": "Search", "skill": "electrical"}, "/hours"),
        ({"title": "Search", "skill": "electrical", "hours": "0"}, "/hours"),
        ({"title": "Search", "skill": "electrical", "hours": "1.25"}, "/hours"),
        ({"title": "Search", "skill": "electrical", "hours": "1000"}, "/hours"),
        ({"title": "Search", "hours": "1.0"}, "/skill"),
    ],
)
def test_it_refuses_what_is_no_labour(stage: Stage, fields: dict[str, str], pointer: str) -> None:
    answer = add(stage, stage.quote().json(), **fields)
    assert (answer.status_code, [error["pointer"] for error in answer.json()["errors"]]) == (400, [pointer])


def test_its_line_is_neither_priced_by_hand_nor_renamed(stage: Stage) -> None:
    draft = added(stage, stage.quote().json(), **SEARCH)
    (line,) = draft["labour"]["operations"][-1]["lines"]
    path = f"quotes/{draft['id']}/lines/{line}"
    answer = stage.client.patch(path, {"title": "Mine"}, seen=f'"{draft["version"]}"')
    assert (answer.status_code, answer.json()["type"]) == (409, "/problems/labour-line-fixed")


def test_a_quote_of_labour_alone_is_sent_becomes_steps_and_begins_the_next_version(stage: Stage) -> None:
    draft = added(stage, alone(stage, **SEARCH), operation=operation(stage, "TURBO"), hours="3.0")
    assert dated.ready(draft)  # its hours are in the plan
    margin = stage.client.get(f"quotes/{draft['id']}/margin").json()
    answer = send(stage, draft)
    frozen = stage.client.get(f"quotes/{draft['id']}/margin").json()
    assert frozen["cost"] == margin["cost"] == "252.00" and frozen["rate"] == margin["rate"] is not None
    page = Phone(answer["link"]["url"])
    assert "Search for the fault" in page.html and "Turbocharger fitted" in page.html
    revised = stage.client.post(f"quotes/{draft['id']}/revise", {}).json()
    assert work(revised) == work(draft) and revised["totals"]["gross"] == draft["totals"]["gross"]
    assert Phone(send(stage, revised)["link"]["url"]).answer().status_code == 303
    steps = JobOperation.objects.filter(job=Job.objects.get()).order_by("position")
    assert [(step.title, str(step.quoted_hours), step.operation and step.operation.code) for step in steps] == [
        ("Turbocharger fitted", "3.00", "TURBO"),
        ("Search for the fault", "1.20", None),
    ]
    assert [caution.text for caution in StepCaution.objects.filter(step=steps[0])] == ["Let it cool first."]


def test_as_part_of_an_option_it_is_work_only_if_it_is_chosen(stage: Stage) -> None:
    draft = added(stage, stage.quote().json(), **SEARCH)
    (line,) = draft["labour"]["operations"][-1]["lines"]
    choice = {"title": "Extras", "take": "any"}
    options = [{"title": "Search", "preselected": False, "lines": [line]}]
    answer = stage.client.post(f"quotes/{draft['id']}/choices", choice | {"options": options})
    assert answer.status_code == 201, answer.content
    chosen = answer.json()
    assert "Search for the fault" not in work(chosen)
    (option,) = chosen["choices"][0]["options"]
    assert (option["hours"], option["price"]) == ("1.2", "+216.00")  # the supplies are at their cap


def test_on_a_change_it_is_a_step_that_stays_when_a_kit_goes(stage: Stage) -> None:
    quote = added(stage, stage.quote(stage.towing).json(), operation=operation(stage, "WIRING"), hours="2.0")
    assert Phone(send(stage, quote)["link"]["url"]).answer().status_code == 303
    job = Job.objects.get()
    accept(stage, added(stage, begin(stage, job), **SEARCH))
    accept(stage, off(stage, begin(stage, job), "Towing kit"))
    standing = JobOperation.objects.filter(job=job, cancellation=None).order_by("position")
    assert [step.title for step in standing] == ["Towing electrics", "Search for the fault"]
