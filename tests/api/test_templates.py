"""Templates changed on a screen: a new version each time, read like rows of a file, never under what was sold."""

from decimal import Decimal
from typing import Any

import pytest
from django.utils import timezone

from kitting.imports.kit import KIND as KIT
from kitting.models import KitRevision
from quotes.models import Revision
from shop.calc.template_changes import OrderedStep, StepChange, template_changes
from shop.imports.labour import KIND as LABOUR
from shop.imports.stored import labour
from shop.models import History, LabourTemplate, Operation, OperationPair
from shop.queries.entries import read_entries
from shop.queries.templates import step_texts
from tests.cast import Cast
from tests.factories import OperationFactory
from tests.imports.test_kinds import planned
from tests.imports.test_kit_outside import KIT_DAY
from tests.quotes.stage import make_stage

pytestmark = pytest.mark.once

STRIP = {"operation": "STRIP", "hours": "", "stage": "Front", "after": [], "when": ""}
TURBO = {"operation": "TURBO", "hours": "3.5", "stage": "Engine", "after": ["STRIP"], "when": "drive=all"}
FILE = "Code;Title;Skill;Hours\nSTRIP;Strip;mechanical;1\nNEW;New;mechanical;1\n"
BUILD = {"operation": "BUILD", "hours": "1", "stage": "Front", "after": ["TURBO"], "when": ""}


@pytest.fixture
def manager(cast: Cast) -> Any:
    for code in ("STRIP", "TURBO", "BUILD", "FILL"):
        OperationFactory(shop=cast.shop, code=code, title=f"Do {code}", book_hours=Decimal("1.25"))
    return cast.signed_in("manager")


def added(manager: Any, *steps: dict[str, Any]) -> dict[str, Any]:
    answer = manager.post("templates", {"code": "TK", "steps": steps or (STRIP, TURBO, BUILD)})
    assert answer.status_code == 201, answer.content
    body: dict[str, Any] = answer.json()
    return body


def next_version(manager: Any, template: dict[str, Any], *steps: dict[str, Any]) -> Any:
    return manager.post(f"templates/{template['id']}/versions", {"steps": steps})


def fault(answer: Any) -> dict[str, str]:
    assert answer.status_code == 400, answer.content
    return {error["pointer"]: error["detail"] for error in answer.json()["errors"]}


def test_a_template_is_added_as_it_was_typed_and_listed(cast: Cast, manager: Any) -> None:
    template = added(manager)
    steps = [{name: step[name] for name in STRIP} for step in template["steps"]]
    assert steps == [STRIP | {"hours": "1.25"}, TURBO | {"hours": "3.50"}, BUILD | {"hours": "1.00"}]
    strip, turbo, fill = (Operation.objects.get(shop=cast.shop, code=code) for code in ("STRIP", "TURBO", "FILL"))
    OperationPair.objects.create(shop=cast.shop, operation=turbo, other=strip, kind="includes")
    OperationPair.objects.create(shop=cast.shop, operation=turbo, other=fill, kind="overlap", hours=Decimal("0.3"))
    pairs = [
        (step["includes"], step["overlaps"]) for step in manager.get(f"templates/{template['id']}").json()["steps"]
    ]
    assert pairs == [([], []), (["STRIP"], [{"operation": "FILL", "hours": "0.30"}]), ([], [])]
    (row,) = cast.signed_in("advisor").get("templates", {"q": "tk"}).json()["items"]
    assert (row["code"], row["number"], row["steps"], row["hours"]) == ("TK", 1, 3, "5.75")
    assert "template TK already" in fault(manager.post("templates", {"code": "TK", "steps": [STRIP]}))["/code"]
    assert "at least one" in fault(manager.post("templates", {"code": "X", "steps": []}))["/steps"]


def test_a_change_is_the_next_version_with_its_differences(manager: Any) -> None:
    first = added(manager)
    fill = {"operation": "FILL", "hours": "0.5", "after": ["TURBO"]}
    second = next_version(manager, first, STRIP, TURBO | {"hours": "4"}, fill).json()
    assert (second["number"], second["newest"], second["changes"]) == (
        2,
        True,
        ["BUILD was removed", "TURBO, hours: 3.5 → 4", "FILL was added"],
    )
    assert manager.get(f"templates/{first['id']}").json()["steps"] == first["steps"]
    assert next_version(manager, first, STRIP).status_code == 412
    unchanged = next_version(manager, second, STRIP, TURBO | {"hours": "4"}, fill)
    assert (unchanged.status_code, unchanged.json()["type"]) == (409, "/problems/template-unchanged")
    third = next_version(manager, second, TURBO | {"hours": "4", "after": []}, STRIP, fill).json()
    assert third["changes"] == [
        "TURBO waits for: STRIP → nothing",
        "TURBO follows: STRIP → nothing",
        "STRIP follows: nothing → TURBO",
        "FILL follows: TURBO → STRIP",
    ]
    assert [row["number"] for row in manager.get("templates").json()["items"]] == [3]
    assert [version["number"] for version in third["versions"]] == [3, 2, 1]


@pytest.mark.parametrize(
    ("steps", "pointer", "words"),
    [
        ([STRIP | {"after": ["BUILD"]}, TURBO, BUILD], "/steps/0/after", "in a loop: "),
        ([STRIP, TURBO | {"after": ["GHOST"]}], "/steps/1/after", "GHOST is not a step"),
        ([STRIP, TURBO | {"operation": "GHOST"}], "/steps/1/operation", "no operation GHOST"),
        ([STRIP, STRIP | {"hours": "9"}], "/steps/1/operation", "STRIP"),
        ([STRIP, TURBO | {"hours": "soon"}], "/steps/1/hours", "number"),
    ],
)
def test_an_order_that_cannot_be_worked_is_refused_at_its_step(
    manager: Any, steps: list[dict[str, Any]], pointer: str, words: str
) -> None:
    template = added(manager)
    faults = fault(next_version(manager, template, *steps))
    assert any(words in detail for where, detail in faults.items() if where.endswith(pointer.rsplit("/", 1)[1])), faults
    if "loop" not in words:
        assert words in faults[pointer]
    assert LabourTemplate.objects.filter(code="TK").count() == 1


def test_what_was_sold_keeps_its_version(cast: Cast) -> None:
    stage, manager = make_stage(cast), cast.signed_in("manager")
    sent = stage.sent()["quote"]
    template = next(row for row in manager.get("templates").json()["items"] if row["steps"] > 1)
    steps = manager.get(f"templates/{template['id']}").json()["steps"]
    text = Revision.objects.get(quote=sent["id"]).snapshot
    shorter = [{name: step[name] for name in STRIP} | {"after": []} for step in steps[1:]]
    assert next_version(manager, template, *shorter).status_code == 201
    assert Revision.objects.get(quote=sent["id"]).snapshot == text
    assert manager.get(f"templates/{template['id']}").json()["steps"] == steps


def named_in_a_file(cast: Cast, kit: str) -> list[str]:
    """Imports a file of the kit that names the template TK. Returns its findings about it."""
    text = f"Kit;{kit}\nTitle;Kit\nLabour template;TK\n\nPart no.;Description;Qty\nA-1;Bolt;2\n"
    plan, actor = planned(KIT, text).plan, cast.acting("manager")
    preview = KIT.check(actor, plan)
    KIT.write(actor, plan, KIT_DAY)
    return [finding.code for finding in preview.findings if finding.code.startswith("template")]


@pytest.mark.both
def test_an_archived_template_stays_with_its_kits_and_is_offered_to_no_other(cast: Cast, manager: Any) -> None:
    first = added(manager)
    assert (first["archived"], first["kits"], named_in_a_file(cast, "OLD")) == (False, 0, [])
    template = next_version(manager, first, STRIP).json()
    where = f"templates/{template['id']}"
    LabourTemplate.objects.update(used_at=timezone.now())  # the database refuses a change of its steps from now on
    assert manager.patch(f"templates/{first['id']}", {"archived": True}, seen='"1"').status_code == 412
    gone = manager.patch(where, {"archived": True}, seen='"1"')
    assert (gone.status_code, gone.json()["archived"], gone.json()["kits"]) == (200, True, 1)
    assert manager.patch(where, {"archived": False}, seen='"1"').status_code == 412
    assert manager.get("templates").json()["items"] == []
    assert labour(cast.acting("manager"))["templates"] == []
    (row,) = manager.get("templates", {"archived": "yes"}).json()["items"]
    assert (row["code"], row["number"], row["archived"]) == ("TK", 2, True)
    assert named_in_a_file(cast, "OLD") == ["template_archived_stays"]
    assert named_in_a_file(cast, "NEW") == ["template_archived"]
    kits = manager.get("kits").json()["items"]
    fitted = {kit["code"]: manager.get(f"kits/{kit['id']}").json()["labour"] for kit in kits}
    assert fitted == {"OLD": "TK", "NEW": None}
    back = manager.patch(where, {"archived": False}, seen=gone)
    assert (back.status_code, back.json()["archived"], named_in_a_file(cast, "NEW")) == (200, False, [])
    assert manager.get(where).json()["kits"] == 2
    assert manager.patch(where, {"archived": True}, seen=back).status_code == 200
    rows = [step_texts(STRIP, "TK", 1)]
    labour_file = read_entries(actor=cast.acting("manager"), kind="labour", table="templates", rows=rows)
    assert [finding.code for finding in labour_file.to_check] == ["template_comes_back"]
    labour_file.kind.write(cast.acting("manager"), labour_file.plan, KIT_DAY)
    template = manager.get(where).json()
    assert (template["archived"], template["newest"]) == (False, True)
    verbs = History.objects.filter(subject="labourtemplate").order_by("recorded_at").values_list("verb", flat=True)
    assert list(verbs)[-4:] == ["archived", "brought back", "archived", "brought back"]


def test_the_operations_of_a_template_that_no_kit_uses_are_archived_after_it(cast: Cast, manager: Any) -> None:
    template = added(manager, STRIP)
    where, strip = f"templates/{template['id']}", f"operations/{Operation.objects.get(code='STRIP').pk}"
    assert manager.patch(strip, {"archived": True}, seen='"1"').status_code == 409
    named_in_a_file(cast, "OLD")
    assert manager.patch(where, {"archived": True}, seen='"1"').status_code == 200
    assert manager.patch(strip, {"archived": True}, seen='"1"').status_code == 409  # the kit is still fitted by it
    KitRevision.objects.update(labour=None)
    gone = manager.patch(strip, {"archived": True}, seen='"1"')
    assert gone.status_code == 200, gone.content
    refused = manager.patch(where, {"archived": False}, seen='"2"').json()
    assert refused["type"] == "/problems/template-with-archived-operations" and "TK: STRIP." in refused["detail"]
    preview = LABOUR.check(cast.acting("manager"), planned(LABOUR, FILE).plan)
    assert [(finding.code, finding.row) for finding in preview.findings] == [("operation_comes_back", 2)]
    assert manager.patch(strip, {"archived": False}, seen=gone).status_code == 200
    assert manager.patch(where, {"archived": False}, seen='"2"').status_code == 200


def test_a_step_that_others_left_has_not_moved() -> None:
    strip, turbo, build = (OrderedStep(code, Decimal(1), "", (), "") for code in ("STRIP", "TURBO", "BUILD"))
    assert template_changes((strip, turbo, build), (strip, build)) == (StepChange("removed", "TURBO"),)
    assert template_changes((strip, build), (strip, turbo, build)) == (StepChange("added", "TURBO"),)
    assert template_changes((strip, turbo), (turbo, strip)) == (
        StepChange("order", "TURBO", "STRIP"),
        StepChange("order", "STRIP", None, "TURBO"),
    )
