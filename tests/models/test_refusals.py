"""Refusals by the database itself, on both databases and by name: the safety net below the services."""

import uuid
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from django.core.exceptions import ValidationError
from django.db import IntegrityError, connection, transaction
from django.utils import timezone

from kitting.models import CountEvent, KitCopy, KitLine, KitRevision, Need, Offer, Part, PullLine, PullList
from quotes.models import Decision, Line, Link, Override, Revision
from shop.api.constraint_names import ROW_OF_THIS_SHOP, refusal
from shop.models import (
    Agreement,
    Command,
    History,
    JobOperation,
    Member,
    OperationPair,
    Rate,
    RuleSet,
    Shop,
    StepCaution,
    StepValue,
    StoredFile,
    TemplateStep,
    Vehicle,
)
from shop.queries.steps import standing_steps
from shop.rows import ExactDecimalField
from shop.services.files import record_file
from tests.cast import Cast, make_cast
from tests.factories import (
    ConsumableFactory,
    CustomerFactory,
    JobFactory,
    JobOperationFactory,
    KitCopyFactory,
    KitFactory,
    KitLineFactory,
    KitRevisionFactory,
    OperationFactory,
    PackFactory,
    PartFactory,
    PullLineFactory,
    PullListFactory,
    StepCautionFactory,
    StepValueFactory,
    SupplierFactory,
    agreement_of,
)
from tests.quotes.stage import make_stage

NOW = timezone.now()
FROZEN = ("sent_at", "valid_until", "net", "tax", "gross", "snapshot", "digest", "pdf_sha256")


def refused(act: Callable[[], Any]) -> str:
    """The name of the constraint that refused; a deferred key refuses at the end of an outermost transaction."""
    with pytest.raises(IntegrityError) as error, transaction.atomic():
        act()
    return refusal(error.value)


def key_name(name: str) -> str:
    """SQLite does not say which key was broken."""
    return ROW_OF_THIS_SHOP if connection.vendor == "sqlite" else name


def test_a_key_cannot_leave_the_shop(transactional_db: None) -> None:
    cast = make_cast()
    elsewhere = CustomerFactory(shop=cast.elsewhere)
    row = Vehicle(shop=cast.shop, title="T35", title_key="t35", customer=elsewhere)
    assert refused(row.save) == key_name("vehicle_customer_is_of_its_shop")
    offer = Offer(shop=cast.shop, supplier=SupplierFactory(shop=cast.elsewhere), part=PartFactory(shop=cast.shop))
    offer.currency, offer.unit_cost, offer.valid_from = "EUR", Decimal(1), date(2026, 1, 1)
    assert refused(offer.save) == key_name("offer_supplier_is_of_its_shop")


def test_a_kit_line_hangs_in_its_own_kit(transactional_db: None) -> None:
    shop = make_cast().shop
    parent = KitLineFactory(shop=shop, kind="carton", position=1)
    elsewhere = KitRevisionFactory(shop=shop)
    line = KitLine(shop=shop, revision=elsewhere, parent=parent, position=1, kind="bag", quantity=Decimal(1))
    assert refused(line.save) == key_name("kit_line_parent_is_in_its_revision")


def test_a_count_is_of_a_line_of_its_list(transactional_db: None) -> None:
    cast = make_cast()
    line, other = PullLineFactory(shop=cast.shop), PullListFactory(shop=cast.shop)
    event = count(cast, line)
    event.pull_list = other
    assert refused(event.save) == key_name("count_line_is_in_its_list")


def count(cast: Cast, line: PullLine, **changes: Any) -> CountEvent:
    fields = {"seq": 1, "kind": "set", "total": 4, "damaged": 0, "device": uuid.uuid4(), "device_seq": 1, "seen": 0}
    return CountEvent(
        id=uuid.uuid4(),
        shop=cast.shop,
        pull_list=line.pull_list,
        line=line,
        author=cast.parts,
        made_at=NOW,
        stored_at=NOW,
        body_digest="0" * 64,
        **{**fields, **changes},
    )


@pytest.mark.parametrize(
    ("fields", "name"),
    [
        ({"total": 1, "damaged": 2}, "count_event_has_the_fields_of_its_kind"),
        ({"total": None, "damaged": None}, "count_event_has_the_fields_of_its_kind"),
        ({"kind": "undo"}, "count_event_has_the_fields_of_its_kind"),
        ({"kind": "add", "total": None}, "count_event_has_the_fields_of_its_kind"),
    ],
)
def test_a_count_has_the_fields_of_its_kind(cast: Cast, fields: dict, name: str) -> None:
    assert refused(count(cast, PullLineFactory(shop=cast.shop), **fields).save) == name


def test_an_event_of_a_kind_from_tomorrow_is_kept(cast: Cast) -> None:
    count(cast, PullLineFactory(shop=cast.shop), kind="weigh", total=None, damaged=None).save()


def test_counts_are_numbered_once_and_never_change(cast: Cast) -> None:
    line = PullLineFactory(shop=cast.shop)
    count(cast, line).save()
    assert refused(count(cast, line).save) == "count_seq_is_once_in_a_list"
    assert refused(lambda: CountEvent.objects.update(total=9)) == "count_event_never_changes"
    assert refused(CountEvent.objects.all().delete) == "count_event_never_changes"
    assert refused(lambda: PullLine.objects.update(quantity=Decimal(9))) == "pull_line_never_changes"
    PullLine.objects.update(retired_at=NOW)


def test_a_copy_of_a_kit_stays_that_copy_and_is_in_one_place(cast: Cast) -> None:
    copy = KitCopyFactory(shop=cast.shop)
    rows = KitCopy.objects.filter(pk=copy.pk)
    assert refused(lambda: rows.update(number=9)) == "kit_copy_stays_that_copy"
    assert refused(rows.delete) == "kit_copy_stays_that_copy"
    for change in ({"purpose": "shelf"}, {"job": None}, {"purpose": "lost", "job": None}):
        assert refused(lambda change=change: rows.update(**change)) == "kit_copy_is_for_a_job_or_stands_somewhere"
    rows.update(purpose="quarantine", job=None, place="Shelf C")
    line = PullLineFactory(shop=cast.shop, copy=copy)
    lines = PullLine.objects.filter(pk=line.pk)
    assert refused(lambda: lines.update(copy=None)) == "pull_line_keeps_its_copy"
    assert refused(lambda: PullList.objects.update(copy=copy)) == "pull_list_is_of_a_job_or_a_copy"
    assert refused(lambda: PullList.objects.update(job=None)) == "pull_list_is_of_a_job_or_a_copy"


def test_a_copy_holds_a_revision_of_its_own_kit(transactional_db: None) -> None:
    shop = make_cast().shop
    other = KitRevisionFactory(shop=shop)
    copy = KitCopy(shop=shop, kit=KitFactory(shop=shop), revision=other, number=1, purpose="shelf")
    assert refused(copy.save) == key_name("kit_copy_revision_is_of_its_kit")


def test_history_commands_and_rates_are_only_added_to(cast: Cast) -> None:
    shop = cast.shop
    History.objects.create(
        shop=shop, recorded_at=NOW, channel="session", verb="x", subject="quote", subject_id=uuid.uuid4()
    )
    Command.objects.create(id=uuid.uuid4(), shop=shop, name="x", body_digest="0" * 64, status=200, done_at=NOW)
    Rate.objects.create(shop=shop, currency="USD", valid_from=date(2026, 1, 1), rate=Decimal("0.9"))
    for model, change, name in [
        (History, {"verb": "y"}, "history_never_changes"),
        (Command, {"status": 500}, "command_never_changes"),
        (Rate, {"rate": Decimal(2)}, "rate_never_changes"),
    ]:
        assert refused(lambda model=model, change=change: model.objects.update(**change)) == name
        assert refused(model.objects.all().delete) == name


def test_a_stored_file_is_one_row_and_never_changes(cast: Cast) -> None:
    fields = {"shop": cast.shop, "body": b"%PDF-1.7", "media_type": "application/pdf", "now": NOW}
    first, again = record_file(path="papers/a.pdf", **fields), record_file(path="papers/b.pdf", **fields)
    assert first == again and StoredFile.objects.get().path == "papers/a.pdf"
    elsewhere = record_file(path="papers/a.pdf", **fields | {"shop": cast.elsewhere})
    assert elsewhere != first
    assert refused(lambda: StoredFile.objects.update(size=1)) == "stored_file_never_changes"
    row = StoredFile(shop=cast.shop, sha256="0" * 64, size=1, media_type="", path="x", stored_at=NOW)
    assert refused(row.save) == "stored_file_is_described"


def test_a_sent_revision_keeps_its_paper(cast: Cast) -> None:
    make_stage(cast).sent()
    assert refused(lambda: Revision.objects.update(paper=None)) == "sent_revision_keeps_its_paper"


def test_a_link_keeps_its_secret_and_stays_revoked(cast: Cast) -> None:
    make_stage(cast).sent()
    link = Link.objects.all()
    assert refused(lambda: link.update(token_hash="0" * 64)) == "link_never_changes"
    assert refused(link.delete) == "link_never_changes"
    link.update(revoked_at=NOW)
    assert refused(lambda: link.update(revoked_at=None)) == "link_stays_revoked"


@pytest.mark.parametrize("change", [{"sheet": {}}, {"quoted_hours": Decimal(9)}, {"title": "x"}])
def test_a_step_of_a_job_stays_as_it_was_accepted(cast: Cast, change: dict[str, Any]) -> None:
    job = JobFactory(shop=cast.shop)
    JobOperationFactory(shop=cast.shop, job=job, position=1, code="A", title="A", quoted_hours=Decimal(1))
    steps = JobOperation.objects.all()
    assert refused(lambda: steps.update(**change)) == "job_operation_stays_as_accepted"
    assert refused(steps.delete) == "job_operation_stays_as_accepted"
    steps.update(credited_hours=Decimal(1), actual_hours=Decimal(2))
    steps.update(cancellation=Agreement.objects.create(shop=cast.shop, job=job, number=2, agreed_at=NOW))
    assert refused(lambda: steps.update(cancellation=None)) == "job_operation_stays_cancelled"


def test_what_a_step_warns_of_and_has_to_keep_stays_as_accepted(cast: Cast) -> None:
    step = JobOperationFactory(shop=cast.shop, job=JobFactory(shop=cast.shop))
    StepCautionFactory(shop=cast.shop, step=step, position=1)
    StepValueFactory(shop=cast.shop, step=step, position=1)
    assert refused(lambda: StepCaution.objects.update(text="x")) == "step_caution_never_changes"
    assert refused(StepValue.objects.all().delete) == "step_value_never_changes"
    again = {"shop": cast.shop, "step": step, "position": 1}
    assert refused(lambda: StepCautionFactory(**again)) == "step_caution_position_is_once"
    assert refused(lambda: StepValueFactory(**again | {"kind": "angle", "position": 2})) == "step_value_kind_is_known"


def test_a_step_comes_again_once_it_was_cancelled(cast: Cast) -> None:
    job = JobFactory(shop=cast.shop)
    JobOperationFactory(shop=cast.shop, job=job, code="A")
    assert refused(lambda: JobOperationFactory(shop=cast.shop, job=job, code="A")) == (
        "code_is_once_among_the_steps_of_a_job"
    )
    change = Agreement.objects.create(shop=cast.shop, job=job, number=2, agreed_at=NOW)
    JobOperation.objects.update(cancellation=change)
    JobOperationFactory(shop=cast.shop, job=job, code="A", origin=change)
    assert [step.origin for step in standing_steps(cast.shop, job)] == [change]


def test_a_step_is_of_an_agreement_to_its_own_job(transactional_db: None) -> None:
    shop = make_cast().shop
    job, other = JobFactory(shop=shop), JobFactory(shop=shop)
    step = JobOperation(shop=shop, job=job, position=1, code="A", title="A", quoted_hours=1, origin=agreement_of(other))
    assert refused(step.save) == key_name("job_operation_origin_is_of_its_job")


def test_a_cancelled_pull_line_is_retired(cast: Cast) -> None:
    line = PullLineFactory(shop=cast.shop)
    cancelled = {"cancellation": agreement_of(line.pull_list.job)}
    lines = PullLine.objects.all()
    assert refused(lambda: lines.update(**cancelled)) == "cancelled_pull_line_is_retired"
    lines.update(retired_at=NOW, **cancelled)
    assert refused(lambda: lines.update(origin=agreement_of(line.pull_list.job))) == "pull_line_never_changes"


def test_what_is_in_use_is_frozen_with_its_children(cast: Cast) -> None:
    stage = make_stage(cast)
    stage.quote(stage.turbo)
    revision = KitRevision.objects.get(kit=stage.turbo)
    assert refused(lambda: RuleSet.objects.update(rules={})) == "rule_set_in_use_never_changes"
    assert refused(lambda: KitRevision.objects.filter(pk=revision.pk).update(price=1)) == (
        "kit_revision_in_use_never_changes"
    )
    assert refused(lambda: KitLineFactory(shop=cast.shop, revision=revision, position=99)) == (
        "kit_line_added_only_to_a_draft"
    )
    lines, needs = KitLine.objects.filter(revision=revision), Need.objects.filter(revision=revision)
    assert refused(lambda: lines.update(quantity=Decimal(9))) == "kit_line_changes_only_in_a_draft"
    assert refused(lambda: needs.delete()) == "need_removed_only_from_a_draft"
    steps = TemplateStep.objects.filter(template=revision.labour)
    assert refused(lambda: steps.update(hours=Decimal(9))) == "template_step_changes_only_in_a_draft"
    KitLineFactory(shop=cast.shop, revision=KitRevision.objects.get(kit=stage.towing), position=99)


def test_one_version_is_out_and_one_yes_counts(cast: Cast) -> None:
    stage = make_stage(cast)
    quote = stage.sent()["quote"]
    stage.client.post(f"quotes/{quote['id']}/revise")
    sent, draft = Revision.objects.order_by("number")
    rows = Revision.objects.filter(pk=draft.pk)
    fields = {name: getattr(sent, name) for name in FROZEN}
    assert refused(lambda: rows.update(state="sent", **fields)) == "quote_has_one_live_revision"
    assert refused(lambda: rows.update(state="withdrawn")) == "sent_revision_has_a_snapshot"
    assert refused(lambda: rows.update(net=1, tax=1, gross=3)) == "revision_gross_is_net_and_tax"
    first, second = (agreement_of(JobFactory(shop=cast.shop)) for _ in range(2))
    yes = {
        "shop": cast.shop,
        "quote": sent.quote,
        "way": "phone",
        "recorded_by": cast.advisor,
        "answer": "accepted",
        "answered_at": NOW,
        "digest": "0" * 64,
        "record": {},
    }
    Decision.objects.create(revision=sent, agreement=first, **yes)
    again = {"revision": draft, "agreement": second, **yes}
    assert refused(lambda: Decision.objects.create(**again)) == "quote_has_one_acceptance"
    assert refused(lambda: Decision.objects.update(answer="declined")) == "decision_never_changes"
    no = again | {"answer": "declined"}
    assert refused(lambda: Decision.objects.create(**no)) == "acceptance_is_an_agreement"


@pytest.mark.parametrize(
    ("make", "name"),
    [
        (lambda c: Member.objects.create(shop=c.shop, user=c.stranger.user, role="owner"), "member_role_is_known"),
        (lambda c: Member.objects.create(shop=c.shop, user=c.advisor.user, role="parts"), "member_is_once_in_a_shop"),
        (lambda c: Shop.objects.update(language=""), "shop_has_a_language"),
        (lambda c: OperationFactory(shop=c.shop, book_hours=Decimal(-1)), "operation_hours_are_not_negative"),
        (lambda c: PartFactory(shop=c.shop, kind="pack"), "pack_has_a_consumable_and_a_size"),
        (lambda c: PackFactory(shop=c.shop, pack_size=None), "pack_has_a_consumable_and_a_size"),
        (lambda c: KitLineFactory(shop=c.shop, quantity=Decimal(0)), "kit_line_quantity_is_positive"),
        (lambda c: KitLineFactory(shop=c.shop, kind="bag", part=PartFactory(shop=c.shop)), "kit_line_part_has_a_part"),
        (lambda c: pair(c, "overlap", None), "operation_pair_has_hours_when_overlap"),
        (lambda c: pair(c, "includes", Decimal(1)), "operation_pair_has_hours_when_overlap"),
        (lambda c: PartFactory(shop=c.shop, unit="h"), "part_unit_is_known"),
        (lambda c: ConsumableFactory(shop=c.shop, unit="oz"), "consumable_unit_is_known"),
        (lambda c: JobOperationFactory(shop=c.shop, job=JobFactory(shop=c.shop), state="lost"), "step_state_is_known"),
        (lambda c: running_step(c, started_at=None), "running_step_has_a_start"),
        (lambda c: running_step(c, done_at=NOW), "step_is_done_by_a_person_at_a_time"),
        (lambda c: running_step(c, state="done"), "step_is_done_by_a_person_at_a_time"),
        (lambda c: twice(KitFactory, c, code="K"), "kit_code_is_once_in_a_shop"),
        (lambda c: twice(PartFactory, c, number="P-1"), "part_number_is_once_in_a_shop"),
    ],
)
def test_a_row_that_cannot_be_is_refused_by_name(cast: Cast, make: Callable[[Cast], Any], name: str) -> None:
    assert refused(lambda: make(cast)) == name


def running_step(cast: Cast, **changes: Any) -> JobOperation:
    fields = {"state": "running", "started_at": NOW} | changes
    step: JobOperation = JobOperationFactory(shop=cast.shop, job=JobFactory(shop=cast.shop), **fields)
    return step


def test_a_step_is_begun_and_done(cast: Cast) -> None:
    running_step(cast)
    running_step(cast, state="done", done_at=NOW, done_by=cast.technician)
    step = running_step(cast, operation=OperationFactory(shop=cast.shop))
    rows = JobOperation.objects.filter(pk=step.pk)
    assert refused(lambda: rows.update(operation=None)) == "job_operation_keeps_its_operation"


def pair(cast: Cast, kind: str, hours: Decimal | None) -> OperationPair:
    a, b = OperationFactory(shop=cast.shop), OperationFactory(shop=cast.shop)
    return OperationPair.objects.create(shop=cast.shop, kind=kind, operation=a, other=b, hours=hours)


def twice(make: Any, cast: Cast, **triggers: Any) -> None:
    part = {"part": PartFactory(shop=cast.shop)} if make is KitFactory else {}
    make(shop=cast.elsewhere, **triggers)  # another shop may have the same
    make(shop=cast.shop, **triggers, **part)
    make(shop=cast.shop, **triggers, **part)


def test_a_part_cannot_replace_itself(cast: Cast) -> None:
    part = PartFactory(shop=cast.shop)
    assert (
        refused(lambda: Part.objects.filter(pk=part.pk).update(superseded_by=part)) == "part_does_not_supersede_itself"
    )


def test_an_override_needs_a_reason(cast: Cast) -> None:
    stage = make_stage(cast)
    stage.quote()
    row = Override(
        shop=cast.shop, revision=Revision.objects.get(), figure="labour:SETUP", own_value=Decimal(1), reason=""
    )
    assert refused(row.save) == "override_has_a_reason"
    assert refused(lambda: Line.objects.update(certain=False)) == "conditional_line_has_a_cap"


@pytest.mark.parametrize("bad", ["1.2345", "x", 1.5, "NaN", "Infinity", True, "1" * 20])
def test_an_exact_decimal_takes_no_more_than_it_can_hold(bad: Any) -> None:
    with pytest.raises(ValidationError):
        ExactDecimalField(scale=3).clean(bad, None)
