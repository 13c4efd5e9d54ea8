"""Operations changed on a screen: read like a row of a file, one version at a time, and never under what was sold."""

from typing import Any

import pytest

from shop.models import History, JobOperation, Operation
from tests.cast import Cast
from tests.factories import JobFactory, JobOperationFactory, OperationFactory
from tests.quotes.stage import make_stage

pytestmark = pytest.mark.once

SETUP = {
    "title": "Set up the geometry",
    "skill": "Mechanical",
    "hours": "1.50",
    "wheels_off": True,
    "wait_after": "2 h",
    "overlaps": "TURBO 0.3",
    "cautions": "Hot parts: let it cool\nSupport the vehicle",
    "torques": "Hub nut: 180 N·m",
    "others": "Run-out: 0.05 mm",
}


@pytest.fixture
def manager(cast: Cast) -> Any:
    OperationFactory(shop=cast.shop, code="TURBO")
    return cast.signed_in("manager")


def added(manager: Any, **fields: Any) -> dict[str, Any]:
    answer = manager.post("operations", SETUP | {"code": "SETUP"} | fields)
    assert answer.status_code == 201, answer.content
    body: dict[str, Any] = answer.json()
    return body


def plain_fields(operation: dict[str, Any]) -> dict[str, Any]:
    return {name: operation[name] for name in (*SETUP, "sharing", "includes", "no_return")}


def fault(answer: Any) -> dict[str, str]:
    assert answer.status_code == 400, answer.content
    return {error["pointer"]: error["detail"] for error in answer.json()["errors"]}


def test_an_operation_is_added_as_it_was_typed_and_found_by_its_words(cast: Cast, manager: Any) -> None:
    operation = added(manager)
    assert plain_fields(operation) == SETUP | {
        "skill": "mechanical",
        "sharing": "once",
        "includes": "",
        "no_return": False,
        "wait_after": "120",
    }
    turbo = Operation.objects.get(code="TURBO")
    assert manager.get(f"operations/{turbo.pk}").json()["overlaps"] == "SETUP 0.3"
    items = cast.signed_in("advisor").get("operations", {"q": "geometry set"}).json()["items"]
    assert [item["code"] for item in items] == ["SETUP"]
    assert fault(manager.post("operations", SETUP | {"code": "SETUP"}))["/code"].startswith(
        "There is an operation SETUP"
    )


def test_two_people_never_overwrite_one_another(manager: Any) -> None:
    operation = added(manager)
    where = f"operations/{operation['id']}"
    first = manager.put(where, SETUP | {"hours": "2"}, seen='"1"')
    assert (first.status_code, first.json()["hours"], first.json()["version"]) == (200, "2.00", 2)
    assert manager.put(where, SETUP | {"hours": "9"}, seen='"1"').status_code == 412
    assert manager.put(where, SETUP).status_code == 428
    assert manager.get(where).json()["hours"] == "2.00"
    entry = History.objects.get(subject="operation", verb="changed")
    assert entry.changes == {"hours": ["1.5", "2"]}


@pytest.mark.parametrize(
    ("fields", "pointer", "words"),
    [
        ({"hours": "soon"}, "/hours", "number"),
        ({"hours": "1000"}, "/hours", "999"),
        ({"includes": "TURBO\nGHOST"}, "/includes", "there is no operation GHOST. Add it"),
        ({"overlaps": "SETUP 0.2"}, "/overlaps", "SETUP cannot overlap itself"),
        ({"torques": "Run-out: 0.05 mm"}, "/torques", "is not a torque"),
    ],
)
def test_what_a_file_may_not_say_a_form_may_not_either(
    manager: Any, fields: dict[str, str], pointer: str, words: str
) -> None:
    operation = added(manager)
    assert words in fault(manager.put(f"operations/{operation['id']}", SETUP | fields, seen='"1"'))[pointer]
    assert plain_fields(manager.get(f"operations/{operation['id']}").json()) == plain_fields(operation)


def test_a_circle_of_inclusions_is_refused_by_the_names_of_its_operations(cast: Cast, manager: Any) -> None:
    operation = added(manager, includes="TURBO", overlaps="")
    turbo = Operation.objects.get(code="TURBO")
    body = {"title": "Turbo", "skill": "mechanical", "hours": "1", "includes": "SETUP"}
    refused = fault(manager.put(f"operations/{turbo.pk}", body, seen='"1"'))
    assert "in a loop: TURBO > SETUP > TURBO. Remove" in refused["/includes"]
    assert manager.get(f"operations/{operation['id']}").json()["includes"] == "TURBO"


def test_an_archived_operation_is_out_of_sight_until_it_comes_back(cast: Cast, manager: Any) -> None:
    operation = added(manager, includes="TURBO", overlaps="")
    turbo = Operation.objects.get(code="TURBO")
    refused = manager.patch(f"operations/{turbo.pk}", {"archived": True}, seen='"1"')
    assert (refused.status_code, refused.json()["type"]) == (409, "/problems/operation-is-included")
    where = f"operations/{operation['id']}"
    gone = manager.patch(where, {"archived": True}, seen='"1"')
    assert (gone.status_code, gone.json()["archived"], gone.json()["notices"]) == (200, True, [])
    codes = [item["code"] for item in manager.get("operations").json()["items"]]
    archived = [item["code"] for item in manager.get("operations", {"archived": "yes"}).json()["items"]]
    assert (codes, archived) == (["TURBO"], ["SETUP"])
    assert (
        "no operation SETUP"
        in fault(manager.post("operations", SETUP | {"code": "X", "includes": "SETUP"}))["/includes"]
    )
    back = manager.patch(where, {"archived": False}, seen=gone)
    assert (back.status_code, back.json()["archived"]) == (200, False)


def test_the_work_of_a_job_and_of_a_sent_quote_stays_as_it_was(cast: Cast) -> None:
    stage, manager = make_stage(cast), cast.signed_in("manager")
    sent = stage.sent()["quote"]
    before = manager.get(f"quotes/{sent['id']}").json()["labour"]["operations"]
    operation = Operation.objects.filter(shop=cast.shop, code=before[0]["code"]).get()
    step = JobOperationFactory(shop=cast.shop, job=JobFactory(shop=cast.shop), operation=operation)
    body = {"title": "Something else", "skill": "mechanical", "hours": "77"}
    changed = manager.put(f"operations/{operation.pk}", body, seen=f'"{operation.version}"')
    assert changed.status_code == 200 and changed.json()["templates"], changed.content
    assert manager.get(f"quotes/{sent['id']}").json()["labour"]["operations"] == before
    row = JobOperation.objects.get(pk=step.pk)
    assert (row.title, row.quoted_hours) == (step.title, step.quoted_hours)
    refused = manager.patch(f"operations/{operation.pk}", {"archived": True}, seen=changed)
    assert (refused.status_code, refused.json()["type"]) == (409, "/problems/operation-in-a-template")
