"""A person sets "in the bay" and "handed over", in that order, and undoes a wrong tap with a reason."""

from datetime import date, timedelta
from typing import Any

import pytest
from django.db import IntegrityError
from django.utils import timezone

from shop.models import History, Job
from tests.cast import Cast
from tests.factories import JobFactory

pytestmark = pytest.mark.once

TODAY = date.today()


@pytest.fixture
def job(cast: Cast) -> Job:
    return JobFactory(shop=cast.shop)


def move(cast: Cast, job: Job, to: str, role: str = "advisor", **body: Any) -> Any:
    body = {"because": "Wrong job"} if to.endswith("undo") else {"day": str(timezone.now().date()), **body}
    return cast.signed_in(role).post(f"jobs/{job.pk}/{to}", body)


def test_a_technician_takes_the_vehicle_into_the_bay(cast: Cast, job: Job) -> None:
    answer = move(cast, job, "in-bay", "technician", odometer=84_200).json()
    assert (answer["state"], answer["in_bay_on"], answer["odometer_in"]) == ("in_bay", str(TODAY), 84_200)
    line = History.objects.filter(subject="job", subject_id=job.pk).latest("recorded_at")
    assert (line.verb, line.author) == ("taken into the bay", cast.technician)
    assert line.changes["state"] == ["accepted", "in_bay"]


def test_the_advisor_hands_the_vehicle_over_and_the_job_leaves_the_open_ones(cast: Cast, job: Job) -> None:
    move(cast, job, "in-bay", odometer=84_200)
    answer = move(cast, job, "hand-over", odometer=84_231).json()
    assert (answer["state"], answer["handed_over_on"], answer["odometer_out"]) == ("handed_over", str(TODAY), 84_231)
    assert cast.signed_in("advisor").get("jobs", {"state": "open"}).json()["items"] == []


def test_the_odometer_need_not_be_read(cast: Cast, job: Job) -> None:
    move(cast, job, "in-bay", odometer=84_200)
    assert move(cast, job, "hand-over").json()["odometer_out"] is None


@pytest.mark.parametrize(
    ("path", "code"), [(["hand-over"], "job-not-in-bay"), (["in-bay", "in-bay"], "job-not-waiting")]
)
def test_a_state_out_of_order_is_refused(cast: Cast, job: Job, path: list[str], code: str) -> None:
    *first, last = path
    for step in first:
        move(cast, job, step)
    refusal = move(cast, job, last)
    assert (refusal.status_code, refusal.json()["type"].rpartition("/")[2]) == (409, code)


@pytest.mark.parametrize(
    ("body", "pointer"),
    [
        ({"day": str(TODAY + timedelta(days=2))}, "/day"),
        ({"day": str(TODAY - timedelta(days=3))}, "/day"),
        ({"odometer": 84_199}, "/odometer"),
    ],
)
def test_a_hand_over_before_the_bay_or_to_come_is_refused(
    cast: Cast, job: Job, body: dict[str, Any], pointer: str
) -> None:
    move(cast, job, "in-bay", odometer=84_200)
    refusal = move(cast, job, "hand-over", **body)
    assert refusal.status_code == 400 and refusal.json()["errors"][0]["pointer"] == pointer
    assert Job.objects.get().state == "in_bay"


def test_a_wrong_tap_is_undone_and_its_reason_stays_in_the_history(cast: Cast, job: Job) -> None:
    move(cast, job, "in-bay", odometer=84_200)
    move(cast, job, "hand-over", odometer=84_231)
    back = move(cast, job, "hand-over/undo").json()
    assert (back["state"], back["handed_over_on"], back["odometer_out"]) == ("in_bay", None, None)
    back = move(cast, job, "in-bay/undo", "technician").json()
    assert (back["state"], back["in_bay_on"], back["odometer_in"]) == ("accepted", None, None)
    reasons = [line.changes.get("reason") for line in History.objects.filter(verb="state undone")]
    assert reasons == [["", "Wrong job"]] * 2


def test_a_state_that_the_job_has_left_is_not_undone(cast: Cast, job: Job) -> None:
    move(cast, job, "in-bay")
    move(cast, job, "hand-over")
    assert move(cast, job, "in-bay/undo").status_code == 409
    assert Job.objects.get().state == "handed_over"


def test_a_vehicle_in_the_bay_is_here(cast: Cast, job: Job) -> None:
    assert not job.is_here
    move(cast, job, "in-bay")
    assert Job.objects.get().is_here


def test_another_shops_job_is_not_moved(cast: Cast) -> None:
    foreign_job = JobFactory(shop=cast.elsewhere)
    for to in ("in-bay", "in-bay/undo", "hand-over", "hand-over/undo"):
        assert move(cast, foreign_job, to).status_code == 404


@pytest.mark.both
@pytest.mark.django_db(transaction=False)
@pytest.mark.parametrize(
    "fields",
    [
        {"handed_over_on": TODAY},
        {"in_bay_on": TODAY, "handed_over_on": TODAY - timedelta(days=1)},
        {"odometer_in": 2, "odometer_out": 1},
        {"called_off_on": TODAY},
        {"called_off_reason": "Sold the car"},
    ],
)
def test_the_database_keeps_the_order_of_a_job(cast: Cast, job: Job, fields: dict[str, Any]) -> None:
    with pytest.raises(IntegrityError):
        Job.objects.filter(pk=job.pk).update(**fields)
