"""A person marks a step of a job as done, and takes it back; who did it, and when, stays with the step."""

from typing import Any

import pytest
from django.utils import timezone

from shop.models import Agreement, History, Job, JobOperation
from tests.cast import Cast
from tests.factories import JobFactory, JobOperationFactory

pytestmark = pytest.mark.once


@pytest.fixture
def step(cast: Cast) -> JobOperation:
    return JobOperationFactory(shop=cast.shop, job=JobFactory(shop=cast.shop))


def mark(cast: Cast, step: JobOperation, role: str = "technician", undo: bool = False) -> Any:
    path = f"jobs/{step.job_id}/steps/{step.pk}/done"
    return cast.signed_in(role).post(f"{path}/undo" if undo else path, {})


def test_a_technician_marks_a_step_as_done(cast: Cast, step: JobOperation) -> None:
    (answer,) = mark(cast, step).json()["operations"]
    assert (answer["id"], answer["done_by"]) == (str(step.pk), cast.technician.user.name)
    step.refresh_from_db()
    assert step.state == "done" and step.done_by == cast.technician and answer["done_at"] is not None
    line = History.objects.get(subject_id=step.pk)
    assert (line.verb, line.author, line.changes) == (
        "marked as done",
        cast.technician,
        {"state": ["open", "done"]},
    )


def test_a_second_tap_keeps_the_first_person(cast: Cast, step: JobOperation) -> None:
    mark(cast, step)
    assert mark(cast, step, "advisor").json()["operations"][0]["done_by"] == cast.technician.user.name
    assert History.objects.filter(subject_id=step.pk).count() == 1


@pytest.mark.parametrize("started", [False, True], ids=["open", "running"])
def test_a_step_that_is_taken_back_is_as_before(cast: Cast, step: JobOperation, started: bool) -> None:
    if started:
        JobOperation.objects.filter(pk=step.pk).update(state="running", started_at=timezone.now())
    mark(cast, step)
    answer = mark(cast, step, undo=True).json()["operations"][0]
    assert (answer["done_at"], answer["done_by"]) == (None, "")
    step.refresh_from_db()
    assert (step.state, step.done_by) == ("running" if started else "open", None)
    assert list(History.objects.filter(subject_id=step.pk).order_by("id").values_list("verb", flat=True)) == [
        "marked as done",
        "done taken back",
    ]


def test_taking_back_what_is_not_done_changes_nothing(cast: Cast, step: JobOperation) -> None:
    assert mark(cast, step, undo=True).status_code == 200
    assert not History.objects.filter(subject_id=step.pk).exists()


def test_a_step_that_an_agreement_took_off_is_refused(cast: Cast, step: JobOperation) -> None:
    off = Agreement.objects.create(shop=cast.shop, job=step.job, number=2, agreed_at=timezone.now())
    JobOperation.objects.filter(pk=step.pk).update(cancellation=off)
    refusal = mark(cast, step)
    assert (refusal.status_code, refusal.json()["type"].rpartition("/")[2]) == (409, "step-taken-off")


def test_a_step_of_another_job_is_not_there(cast: Cast, step: JobOperation) -> None:
    other = JobFactory(shop=cast.shop)
    path = f"jobs/{other.pk}/steps/{step.pk}/done"
    assert cast.signed_in("technician").post(path, {}).status_code == 404


def test_work_on_a_called_off_job_is_still_recorded(cast: Cast, step: JobOperation) -> None:
    Job.objects.filter(pk=step.job_id).update(
        state="called_off", called_off_on=timezone.now().date(), called_off_reason="Sold the vehicle"
    )
    assert mark(cast, step).status_code == 200
