"""A workshop that began with version 0.0.1 has all its rows after the upgrade, and works on with them."""

import hashlib
from collections.abc import Iterator
from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from django.apps import apps
from django.conf import settings
from django.core.files.base import ContentFile
from django.core.files.storage import default_storage
from django.db import connection
from django.test import override_settings
from django.utils import timezone

from kitting.models import KitCopy, PullLine, PullList
from quotes.models import Decision, Line, Quote, Revision
from shop.models import Agreement, Calendar, Job, JobOperation, Member, OperationCaution, OperationValue, StoredFile
from tests.cast import new_session
from tests.client import CheckedClient
from tests.quotes.phone import Phone
from tests.upgrades.released import empty_database, make_upgraded_database, released

PAPER = next(row[-1] for row in released()["tables"]["quotes.revision"]["rows"] if row[-1])
"""The digest of one of the papers: the only one that is still in the storage."""


@pytest.fixture(scope="module")
def upgraded(
    django_db_setup: None, django_db_blocker: Any, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[dict[str, Any]]:
    """The released rows in a database of their own that was migrated to today."""
    storage = {"default": {"BACKEND": "django.core.files.storage.InMemoryStorage"}}
    with (
        override_settings(STORAGES=settings.STORAGES | storage),
        django_db_blocker.unblock(),
        empty_database(tmp_path_factory.mktemp("upgrade")),
    ):
        default_storage.save(f"papers/{PAPER[:2]}/{PAPER}.pdf", ContentFile(b"%PDF-1.7"))
        make_upgraded_database()
        yield released()


@pytest.fixture(autouse=True)
def soon_after(upgraded: dict[str, Any], db: None, monkeypatch: pytest.MonkeyPatch) -> None:
    """The first minute after the upgrade. Each test takes back what it writes."""
    then = datetime.fromisoformat(upgraded["made_at"]).astimezone(UTC) + timedelta(minutes=1)
    monkeypatch.setattr(timezone, "now", lambda: then)


def client_of(role: str, shop: str = "saltmarsh") -> CheckedClient:
    member = Member.objects.get(shop__slug=shop, role=role)
    client = CheckedClient(shop=shop)
    client.cookies["sessionid"] = new_session(member.user)
    return client


def test_no_row_is_lost(upgraded: dict[str, Any]) -> None:
    counts = {label: apps.get_model(label).objects.count() for label in upgraded["tables"]}
    assert counts == {label: len(table["rows"]) for label, table in upgraded["tables"].items()}


def test_opening_hours_apply_from_the_day_on_which_they_were_recorded() -> None:
    assert set(Calendar.objects.values_list("valid_from", flat=True)) == {date(2026, 11, 27)}


def test_every_key_leads_to_a_row() -> None:
    if connection.vendor == "sqlite":  # PostgreSQL has looked when each key was made
        with connection.cursor() as cursor:
            assert not cursor.execute("PRAGMA foreign_key_check").fetchall()


def test_texts_that_were_sent_are_the_same_bytes(upgraded: dict[str, Any]) -> None:
    table = upgraded["tables"]["quotes.revision"]
    before = {row[0]: row for row in table["rows"]}
    digest, snapshot = table["fields"].index("digest"), table["fields"].index("snapshot")
    sent = Revision.objects.exclude(state="draft")
    assert sent.count() == 6
    for row in sent:
        assert (row.digest, row.snapshot) == (before[str(row.pk)][digest], before[str(row.pk)][snapshot])
        assert hashlib.sha256(row.snapshot.encode()).hexdigest() == row.digest


def test_counts_that_a_phone_had_not_sent_are_taken(upgraded: dict[str, Any]) -> None:
    parts, where = client_of("parts"), f"pull-lists/{upgraded['list']}/events"
    before = parts.get(where, {"after": 0}).json()
    assert (before["seq"], before["digest"]) == (23, upgraded["fold"])
    results = parts.post(where, {"events": upgraded["counts_waiting"]}).json()["results"]
    assert [(result["status"], result["seq"]) for result in results] == [("stored", seq) for seq in (24, 25, 26, 27)]
    after = parts.get(where, {"after": 23}).json()
    assert [event["id"] for event in after["events"]] == [count["id"] for count in upgraded["counts_waiting"]]
    assert after["digest"] != upgraded["fold"]


def test_each_kit_of_a_job_is_a_copy_of_what_was_sold() -> None:
    job = Job.objects.get(shop__slug="saltmarsh")
    sold = Line.objects.filter(revision__quote__job=job, revision__state="accepted", kind="kit").order_by("position")
    copies = KitCopy.objects.filter(shop=job.shop, job=job).order_by("number")
    assert [copy.revision_id for copy in copies] == [sold_kit.kit_revision_id for sold_kit in sold] and len(copies) == 2
    assert [(copy.number, copy.purpose, copy.received_at) for copy in copies] == [(1, "job", None), (2, "job", None)]
    lines = PullLine.objects.filter(pull_list__job=job)
    assert {(line.detail["copy"], line.copy_number) for line in lines.exclude(kit="")} == {(1, 1), (2, 2)}
    assert not lines.filter(kit="", copy__isnull=False).exists()
    assert KitCopy.objects.filter(shop__slug="copperfell").count() == 1


def test_the_screens_of_job_and_list_open(upgraded: dict[str, Any]) -> None:
    technician, job = client_of("technician"), Job.objects.get(shop__slug="saltmarsh")
    report = technician.get(f"pull-lists/{upgraded['list']}/report").json()
    assert (report["lines"], report["counted"]) == (upgraded["report"]["lines"], upgraded["report"]["counted"])
    for path in (f"jobs/{job.pk}", f"jobs/{job.pk}/readiness", f"pull-lists/{upgraded['list']}", "pull-lists", "jobs"):
        assert technician.get(path).status_code == 200, path


def test_a_quote_sent_before_is_accepted_after() -> None:
    revision = Revision.objects.get(shop__slug="saltmarsh", state="sent")
    link = client_of("advisor").post(f"quotes/{revision.quote_id}/links", {"recipient": "Maren Oldacre"}).json()
    phone = Phone(link["url"])
    consents = tuple(part.split('"')[0] for part in phone.html.split('name="consent" value="')[1:])
    answer = phone.answer(consent=consents)
    assert answer.status_code == 303, answer.content
    job = Quote.objects.get(pk=revision.quote_id).job
    assert [kit_copy.number for kit_copy in KitCopy.objects.filter(shop=revision.shop, job=job)] == [3]
    lines = PullList.objects.get(shop=revision.shop, job=job).lines.select_related("step")
    assert len(lines) > 10 and {line.origin.number for line in lines if line.origin} == {1}
    steps = JobOperation.objects.filter(shop=revision.shop, job=job).select_related("operation")
    assert steps and all(step.operation and step.operation.code == step.code for step in steps)
    assert any(line.step for line in lines) and all(line.step.code == line.operation for line in lines if line.step)


def test_all_work_so_far_came_of_the_agreement_that_opened_the_job() -> None:
    for job in Job.objects.all():
        (agreement,) = Agreement.objects.filter(shop=job.shop, job=job)
        decision = Decision.objects.get(shop=job.shop, agreement=agreement)
        assert decision.quote.job == job and agreement.number == 1 and agreement.agreed_at == decision.answered_at
        parts = PullLine.objects.filter(shop=job.shop, pull_list__job=job)
        for rows in (JobOperation.objects.filter(shop=job.shop, job=job), parts):
            assert {(row.origin, row.cancellation) for row in rows} == {(agreement, None)}
    assert not Decision.objects.filter(answer="declined", agreement__isnull=False).exists()


def test_a_paper_that_is_still_there_has_its_row() -> None:
    (paper,) = StoredFile.objects.all()
    assert (paper.sha256, paper.size, paper.media_type) == (PAPER, 8, "application/pdf")
    revision = Revision.objects.get(paper=paper)
    assert revision.pdf_sha256 == PAPER and paper.stored_at == revision.sent_at
    assert Revision.objects.filter(paper__isnull=True).count() == Revision.objects.count() - 1


def test_steps_and_lines_have_keys_where_they_had_codes() -> None:
    for step in JobOperation.objects.select_related("operation"):
        assert (step.operation and step.operation.code, step.state) == (step.code, "open")
    codes = {(step.job_id, step.code): step for step in JobOperation.objects.all()}
    lines = list(PullLine.objects.select_related("step", "pull_list"))
    assert [line.step for line in lines] == [codes.get((line.pull_list.job_id, line.operation)) for line in lines]
    assert sum(line.step is not None for line in lines) > len(lines) / 2


def test_cautions_and_values_of_operations_are_rows(upgraded: dict[str, Any]) -> None:
    table = upgraded["tables"]["shop.operation"]
    key, cautions, values = (table["fields"].index(name) for name in ("id", "cautions", "torques"))
    before = {
        row[key]: (row[cautions], [(value["fastener"], value["value"]) for value in row[values]])
        for row in table["rows"]
    }
    after: dict[str, tuple[list[str], list[tuple[str, str]]]] = {key: ([], []) for key in before}
    for caution in OperationCaution.objects.order_by("position"):
        after[str(caution.operation_id)][0].append(caution.text)
    for value in OperationValue.objects.order_by("position"):
        after[str(value.operation_id)][1].append((value.fastener, value.value))
    assert after == before and any(cautions and values for cautions, values in after.values())


def test_a_step_has_rows_for_what_stood_in_its_sheet(upgraded: dict[str, Any]) -> None:
    table = upgraded["tables"]["shop.joboperation"]
    sheets = {row[table["fields"].index("id")]: row[table["fields"].index("sheet")] for row in table["rows"]}
    job = Job.objects.get(shop__slug="saltmarsh")
    operations = client_of("technician").get(f"jobs/{job.pk}").json()["operations"]
    steps = JobOperation.objects.filter(job=job).order_by("position")
    for step, answer in zip(steps, operations, strict=True):
        sheet = sheets[str(step.pk)]
        assert answer["cautions"] == sheet["cautions"]
        assert answer["torques"] == [{"kind": "torque", **value} for value in sheet["torques"]]
        assert step.sheet == {name: value for name, value in sheet.items() if name not in ("cautions", "torques")}
    assert any(answer["cautions"] for answer in operations) and any(answer["torques"] for answer in operations)
