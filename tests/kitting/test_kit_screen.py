"""A kit changed, archived and copied on its screen."""

from decimal import Decimal
from typing import Any

import pytest

from kitting.imports.kit import KIND as KIT
from kitting.imports.kits import KIND as KITS
from kitting.imports.stored import kits as stored_kits
from kitting.models import Kit, KitRevision
from shop.models import History, LabourTemplate
from shop.tables.engine import FileKind
from tests.cast import Cast
from tests.factories import SupplierFactory
from tests.imports.test_kinds import planned
from tests.imports.test_kit_list import contents
from tests.imports.test_kit_outside import KIT_DAY
from tests.kit_form import change_kit
from tests.kitting.stage import Bench
from tests.quotes.stage import make_stage

pytestmark = pytest.mark.once


@pytest.fixture
def turbo(bench: Bench) -> Kit:
    return bench.turbo_kit().kit


def findings_of(cast: Cast, kind: FileKind, text: str) -> list[str]:
    """Imports the file and returns the codes of its findings about the archive."""
    plan, actor = planned(kind, text).plan, cast.acting("manager")
    preview = kind.check(actor, plan)
    kind.write(actor, plan, KIT_DAY)
    return [finding.code for finding in preview.findings if finding.code == "kit_comes_back"]


@pytest.mark.both
def test_an_archived_kit_is_offered_nowhere_and_a_file_brings_it_back(cast: Cast, turbo: Kit) -> None:
    manager, where = cast.signed_in("manager"), f"kits/{turbo.pk}"
    kit = manager.get(where)
    assert manager.patch(where, {"archived": True}, seen='"99"').status_code == 412
    gone = manager.patch(where, {"archived": True}, seen=kit["ETag"])
    assert (gone.status_code, gone.json()["archived"], kit.json()["archived"]) == (200, True, False)
    assert manager.get("kits").json()["items"] == [] and stored_kits(cast.acting("manager"))["kits"] == []
    assert [row["id"] for row in manager.get("kits", {"archived": "yes"}).json()["items"]] == [str(turbo.pk)]
    results = [manager.get("find", {"q": typed}).json()["items"] for typed in ("turbo", "charge", "BI-BOLT")]
    assert {(row["kind"], row["why"]) for rows in results for row in rows} == {("part", "")}
    count = {"lines": [{"carton": "", "bag": "A", "number": "BI-BOLT", "quantity": "4"}], "whole": True}
    assert manager.post(f"{where}/first-counts", count).json()["type"] == "/problems/kit-archived"

    assert findings_of(cast, KITS, f"Kit;Title\n{turbo.code};Turbo\n") == ["kit_comes_back"]
    assert findings_of(cast, KITS, f"Kit;Title\n{turbo.code};Turbo\n") == []
    Kit.objects.update(archived=True)
    file = f"Kit;{turbo.code}\nTitle;Turbo\n\nPart no.;Description;Qty\nA-1;Bolt;2\n"
    assert findings_of(cast, KIT, file) == ["kit_comes_back"]
    assert not Kit.objects.get(pk=turbo.pk).archived
    assert History.objects.filter(verb="brought back").count() == 2


def test_a_quote_keeps_an_archived_kit_and_gets_no_new_one(cast: Cast) -> None:
    stage = make_stage(cast)
    draft = stage.quote(stage.turbo).json()
    Kit.objects.update(archived=True)
    assert stage.quote(stage.turbo).json()["type"] == "/problems/kit-archived"
    notices = [row["words"] for row in stage.client.get(f"quotes/{draft['id']}").json()["notices"]]
    assert "Turbocharger kit is archived: it is offered on no new quote." in notices
    sent = stage.client.post(f"quotes/{draft['id']}/send", {"version": draft["version"], "recipient": "Maren"})
    assert sent.status_code == 201, sent.content


@pytest.mark.both
def test_a_changed_kit_keeps_its_contents(cast: Cast, turbo: Kit) -> None:
    advisor, first = cast.signed_in("advisor"), KitRevision.objects.get(kit=turbo)
    firm = SupplierFactory(shop=cast.shop, name="Fellview Parts")
    changes: dict[str, Any] = {"title": "Bigger turbo", "number": "FV-9", "supplier": str(firm.pk), "price": "2500.00"}
    answer = change_kit(advisor, turbo.pk, **changes, fits="engine=2.0; drive=rear / all", lead_days=9)
    kit = answer.json()
    assert (answer.status_code, kit["revision"], kit["supplier"], kit["lead_days"]) == (200, 2, "Fellview Parts", 9)
    assert (kit["title"], kit["number"], kit["price"]) == ("Bigger turbo", "FV-9", "2500.00")
    assert kit["conditions"] == "engine=2.0; drive=rear or all"
    second = KitRevision.objects.get(kit=turbo, number=2)
    assert contents(second) == contents(first) != []
    rows = advisor.get("find", {"q": "bigger"}).json()["items"]
    assert [row["title"] for row in rows if row["kind"] == "kit"] == ["Bigger turbo"]
    same = change_kit(advisor, turbo.pk, supplier=None, fits="").json()
    assert (same["revision"], same["supplier"], same["conditions"]) == (2, None, "")
    assert advisor.put(f"kits/{turbo.pk}", {**changes, "title": "Old"}, seen='"1"').status_code in (400, 412)
    assert change_kit(advisor, turbo.pk, price=None).json()["price"] is None


@pytest.mark.both
def test_the_order_of_the_work_is_chosen_among_the_templates(cast: Cast) -> None:
    stage = make_stage(cast)
    first = KitRevision.objects.filter(kit=stage.turbo).latest("number")
    old = first.labour
    assert old is not None
    other = LabourTemplate.objects.create(shop=cast.shop, code="FIT-2")
    read = stage.client.get(f"kits/{stage.turbo.pk}").json()
    assert (read["labour_id"], read["labour_number"]) == (str(old.pk), old.number)
    same = change_kit(stage.client, stage.turbo.pk, labour=str(old.pk)).json()
    assert same["revision"] == first.number
    kit = change_kit(stage.client, stage.turbo.pk, labour=str(other.pk)).json()
    assert (kit["revision"], kit["labour"], kit["labour_id"]) == (first.number + 1, "FIT-2", str(other.pk))
    second = KitRevision.objects.get(pk=KitRevision.objects.filter(kit=stage.turbo).latest("number").pk)
    assert contents(second) == contents(first) != []
    assert change_kit(stage.client, stage.turbo.pk, lead_days=4).json()["labour"] == "FIT-2"

    for template in (old, other):
        LabourTemplate.objects.filter(pk=template.pk).update(archived=True)
    refused = change_kit(stage.client, stage.turbo.pk, labour=str(old.pk))
    assert (refused.status_code, refused.json()["errors"][0]["pointer"]) == (400, "/labour")
    assert change_kit(stage.client, stage.turbo.pk, labour=str(other.pk), title="Turbo").status_code == 200
    elsewhere = LabourTemplate.objects.create(shop=cast.elsewhere, code="FIT-2")
    assert change_kit(stage.client, stage.turbo.pk, labour=str(elsewhere.pk)).status_code == 404
    assert change_kit(stage.client, stage.turbo.pk, labour=None).json()["labour"] is None


def test_a_new_version_makes_an_open_form_old(cast: Cast, turbo: Kit) -> None:
    manager = cast.signed_in("manager")
    read = manager.get(f"kits/{turbo.pk}")
    findings_of(cast, KIT, f"Kit;{turbo.code}\nTitle;Turbo\n\nPart no.;Description;Qty\nA-1;Bolt;2\n")
    assert manager.patch(f"kits/{turbo.pk}", {"archived": True}, seen=read["ETag"]).status_code == 412


def test_what_a_kit_needs_is_asked_for_at_its_field(cast: Cast) -> None:
    advisor = cast.signed_in("advisor")
    bare = advisor.post("kits", {"code": "OIL", "title": "Oil cooler kit", "price": "90", "hours": "2"}).json()
    wrong = {"price": None, "hours": None, "title": " ", "number": "", "fits": "rear drive", "supplier": "x"}
    for name, value in wrong.items():
        answer = change_kit(advisor, bare["id"], **{name: value})
        assert (answer.status_code, answer.json()["errors"][0]["pointer"]) == (400, f"/{name}"), answer.content
    cents = change_kit(advisor, bare["id"], price="90.001")
    assert cents.json()["errors"][0]["pointer"] == "/price"
    elsewhere = SupplierFactory(shop=cast.elsewhere)
    assert change_kit(advisor, bare["id"], supplier=str(elsewhere.pk)).status_code == 404
    read = advisor.get(f"kits/{bare['id']}")
    assert change_kit(advisor, bare["id"], title="Cooler").status_code == 200
    typed = {"title": "Late", "number": "OIL", "supplier": None, "price": "1", "hours": "1", "lead_days": None}
    late = advisor.put(f"kits/{bare['id']}", typed | {"fits": "", "fitted_before": 0}, seen=read["ETag"])
    assert (late.status_code, Kit.objects.get().title) == (412, "Cooler")


def test_a_copy_has_everything_but_the_code_and_the_offers(cast: Cast) -> None:
    stage = make_stage(cast)
    kit = stage.turbo
    kit.part.returnable, kit.part.preferred = False, SupplierFactory(shop=kit.shop, name="Fellview Parts")
    kit.part.save()
    answer = stage.client.post(f"kits/{kit.pk}/duplicates", {"code": "TC-36", "title": "Turbo, larger"})
    copy = answer.json()
    assert (answer.status_code, copy["code"], copy["number"], copy["revision"]) == (201, "TC-36", "TC-36", 1)
    first = KitRevision.objects.filter(kit=kit).latest("number")
    second = KitRevision.objects.get(kit=copy["id"])
    assert contents(second) == contents(first) != []
    assert (second.labour, second.price, second.hours) == (first.labour, first.price, first.hours)
    assert (copy["returnable"], copy["supplier"], copy["fitted_before"]) == (False, "Fellview Parts", 0)
    assert Kit.objects.get(pk=copy["id"]).fits == kit.fits
    taken = stage.client.post(f"kits/{kit.pk}/duplicates", {"code": "TC-36", "title": "Again"})
    assert (taken.status_code, Kit.objects.filter(code="TC-36").count()) == (409, 1)


@pytest.mark.both
def test_a_manager_changes_the_cost_that_was_typed_for_a_kit(cast: Cast) -> None:
    """Quotes that were sent or sold name the version before, whose cost stays."""
    advisor, manager = cast.signed_in("advisor"), cast.signed_in("manager")
    bare = {"code": "OIL", "title": "Oil cooler kit", "price": "900", "hours": "2", "cost": "512.5"}
    where = f"kits/{advisor.post('kits', bare).json()['id']}"
    read = advisor.get(f"{where}/cost")
    assert (read.json()["cost"], read.json()["is_offered"]) == ("512.50", False)
    assert advisor.put(f"{where}/cost", {"cost": "1"}, seen=read["ETag"]).status_code == 403
    changed = manager.put(f"{where}/cost", {"cost": "530.1255"}, seen=read["ETag"])
    assert (changed.status_code, changed.json()["cost"]) == (200, "530.1255")
    assert manager.put(f"{where}/cost", {"cost": "1"}, seen=read["ETag"]).status_code == 412
    figures = [(row.number, row.cost, row.price) for row in KitRevision.objects.order_by("number")]
    assert figures == [(1, Decimal("512.5"), Decimal(900)), (2, Decimal("530.1255"), Decimal(900))]
    same = manager.put(f"{where}/cost", {"cost": "530.1255"}, seen=changed["ETag"])
    assert same["ETag"] == changed["ETag"] and advisor.get(where).json()["revision"] == 2
    assert advisor.get(f"{where}/changes").json()["changes"] == ["Its own cost was changed."]
    assert cast.signed_in("parts").get(f"{where}/changes").json()["changes"] == []
    negative = manager.put(f"{where}/cost", {"cost": "-1"}, seen=same["ETag"])
    assert (negative.status_code, negative.json()["errors"][0]["pointer"]) == (400, "/cost")
    assert manager.put(f"{where}/cost", {"cost": None}, seen=same["ETag"]).json()["cost"] is None
    assert KitRevision.objects.get(number=3).hours == 2


@pytest.mark.both
def test_a_version_says_how_it_differs_from_the_one_before(cast: Cast, turbo: Kit) -> None:
    advisor, parts = cast.signed_in("advisor"), cast.signed_in("parts")
    change_kit(advisor, turbo.pk, price="2500.00", hours="7", lead_days=9)
    second = [client.get(f"kits/{turbo.pk}/changes").json()["changes"] for client in (advisor, parts)]
    hours_and_days = ["Its own hours: nothing → 7", "Lead days: nothing → 9"]
    assert second == [["Its own price: nothing → 2,500.00", *hours_and_days], hours_and_days]
    rows = "C1;1-01;BI-BOLT;Bolt;5\nC2;;BI-HOSE;Oil hose;1\nC1;;A-1;Nut;2"
    findings_of(cast, KIT, f"Kit;{turbo.code}\nTitle;Turbo\n\nCarton;Bag;Part no.;Description;Qty\n{rows}\n")
    changes = advisor.get(f"kits/{turbo.pk}/changes", {"version": "3"}).json()["changes"]
    assert changes[:4] == [
        "Its own price: 2,500.00 → nothing",
        "Its own hours: 7 → nothing",
        "Lead days: 9 → nothing",
        "BI-BRK-M Part BI-BRK-M was removed: carton C1, bag 1-01",
    ]
    assert changes[8:] == [
        "Bumper bolts was removed",
        "BI-BOLT Part BI-BOLT, quantity: 8 → 5",
        "BI-BOLT Part BI-BOLT, step: BI-TC35-A-20 → nothing",
        "A-1 Nut was added: 2, loose in carton C1",
        "BI-HOSE Part BI-HOSE, place: loose in carton C1 → loose in carton C2",
        "BI-HOSE Part BI-HOSE, quantity: 1 piece of 2.5 m → 1 piece of 1 m",
    ]
    assert advisor.get(f"kits/{turbo.pk}/changes", {"version": "1"}).json() == {"number": 1, "changes": []}
    assert advisor.get(f"kits/{turbo.pk}/changes", {"version": "4"}).status_code == 404
