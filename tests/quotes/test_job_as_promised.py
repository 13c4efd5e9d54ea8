"""The date of the job is the date of the acceptance, because it is worked out from what was promised."""

from typing import Any

import pytest

from kitting.models import Kit, KitLine, KitRevision, Need, Offer, PullLine
from shop.models import JobOperation, Operation, StepCaution, TemplateStep
from tests.factories import KitLineFactory, OperationCautionFactory, OperationFactory
from tests.kitting.stage import Phone as Counter
from tests.kitting.stage import send as send_counts
from tests.quotes import dated
from tests.quotes.dated import leads, send
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

clock, stage = dated.clock, dated.stage


def accepted(stage: Stage, *kits: Kit) -> tuple[dict[str, Any], dict[str, Any]]:
    """The promise of the accepted quote and the readiness of its job."""
    sent = send(stage, stage.quote(*kits).json())
    return said_yes(stage, sent)


def said_yes(stage: Stage, sent: dict[str, Any]) -> tuple[dict[str, Any], dict[str, Any]]:
    assert Phone(sent["link"]["url"]).answer().status_code == 303
    quote = stage.client.get(f"quotes/{sent['quote']['id']}").json()
    return quote["promise"], stage.client.get(f"jobs/{quote['job']['id']}/readiness").json()


def own_work_only(kit: Kit, *codes: str) -> None:
    """Gives the kit's template these steps and no others. Its parts are tied to no step."""
    revision = KitRevision.objects.get(kit=kit)
    TemplateStep.objects.filter(template=revision.labour).exclude(operation__code__in=codes).delete()
    KitLine.objects.filter(revision=revision).update(operation=None)


def test_what_a_kit_ties_to_no_step_is_needed_for_that_kits_first_step(stage: Stage) -> None:
    own_work_only(stage.towing, "WIRING")
    leads(stage.turbo, 0)
    promise, readiness = accepted(stage)
    box = PullLine.objects.filter(kit="QF-T", kind="box")
    assert set(box.values_list("operation", flat=True)) == {"WIRING"}
    assert readiness["promise"]["ready"] == promise["ready"]
    assert {readiness["step"]["code"] for readiness in readiness["missing"] if readiness["title"] == "Towing kit"} == {
        "WIRING"
    }


def test_what_it_ties_to_a_step_that_is_not_done_as_well_and_a_spare_to_none(stage: Stage) -> None:
    own_work_only(stage.towing, "WIRING")
    other = OperationFactory(shop=stage.cast.shop, code="GONE")
    revision = KitRevision.objects.get(kit=stage.towing)
    KitLine.objects.filter(revision=revision, kind="part").update(operation=other)
    KitLineFactory(shop=stage.cast.shop, revision=revision, position=90, role="spare")
    promise, readiness = accepted(stage)
    box = PullLine.objects.filter(kit="QF-T", kind="box").order_by("position")
    assert list(box.values_list("operation", flat=True)) == ["WIRING", "WIRING", "WIRING", ""]
    assert readiness["promise"]["ready"] == promise["ready"]


def test_a_need_that_is_tied_to_no_step_is_needed_for_its_kits_first(stage: Stage) -> None:
    own_work_only(stage.turbo, "TURBO")
    Need.objects.update(operation=None)
    promise, readiness = accepted(stage)
    assert set(PullLine.objects.filter(kind="need").values_list("operation", flat=True)) == {"TURBO"}
    assert readiness["promise"]["ready"] == promise["ready"]


def test_two_kits_that_ask_at_different_steps_are_served_for_the_first(stage: Stage) -> None:
    (oil,) = Need.objects.all()
    setup, revision = Operation.objects.get(code="SETUP"), KitRevision.objects.get(kit=stage.towing)
    Need.objects.create(
        shop=stage.cast.shop,
        revision=revision,
        position=1,
        consumable=oil.consumable,
        rule="fixed",
        quantity=1,
        operation=setup,
    )
    promise, readiness = accepted(stage)
    assert set(PullLine.objects.filter(kind="need").values_list("operation", flat=True)) == {"SETUP"}
    assert readiness["promise"]["ready"] == promise["ready"]


def test_quote_and_job_name_the_same_parts_without_a_delivery_date(stage: Stage) -> None:
    """Nobody has looked on the shelf, before the acceptance or after it; once the part is counted it is not named."""
    Offer.objects.exclude(part__in=[stage.turbo.part_id, stage.towing.part_id]).update(lead_days=None)
    promise, readiness = accepted(stage, stage.turbo)
    assert promise["headline"].endswith("; 1 part has no delivery date yet")
    assert readiness["promise"]["headline"] == promise["headline"]
    assert readiness["promise"]["unknown"].startswith("No delivery date for engine oil, 5W-30; the date ignores it.")
    packs = PullLine.objects.filter(kind="need").select_related("pull_list")
    counter = Counter(packs[0].pull_list)
    counts = [counter.event(pack, total=int(pack.quantity)) for pack in packs]
    send_counts(stage.cast.signed_in("parts"), counter.pull_list, *counts)
    job = stage.client.get(f"jobs/{counter.pull_list.job_id}/readiness").json()
    assert "; " not in job["promise"]["headline"]


def test_what_changes_in_the_templates_after_sending_does_not_move_the_job(stage: Stage) -> None:
    Operation.objects.filter(code="BUMPER").update(no_return=True, wait_after=60)
    sent = send(stage, stage.quote(stage.turbo).json())
    Operation.objects.filter(code="BUMPER").update(no_return=False, wait_after=7200)
    OperationCautionFactory(shop=stage.cast.shop, operation=Operation.objects.get(code="BUMPER"), text="Lift with two.")
    Operation.objects.filter(code="SETUP").update(no_return=True, mobile_again=True)
    promise, readiness = said_yes(stage, sent)
    assert readiness["promise"]["ready"] == promise["ready"]
    sheets = {row.code: row.sheet for row in JobOperation.objects.all()}
    assert sheets["BUMPER"]["wait_after"] == 60 and sheets["BUMPER"]["no_return"] is True
    assert sheets["SETUP"]["no_return"] is sheets["SETUP"]["mobile_again"] is False
    assert sheets["TURBO"]["after"] == ["BUMPER"]
    (caution,) = StepCaution.objects.filter(step__code="BUMPER")
    assert caution.text == "Lift with two."  # cautions are those of today, not those of the sale


def test_a_vehicle_that_is_changed_after_sending_leaves_the_pull_list_as_it_was_sold(stage: Stage) -> None:
    sent = send(stage, stage.quote(stage.turbo).json())
    stage.vehicle.attributes = {"transmission": "automatic"}
    stage.vehicle.save()
    said_yes(stage, sent)
    lines = KitLine.objects.filter(revision__kit=stage.turbo, kind="part").exclude(conditions=[])
    kinds = {line.conditions[0]["in"][0]: PullLine.objects.get(part=line.part).kind for line in lines}
    assert kinds == {"manual": "box", "automatic": "beside"}
