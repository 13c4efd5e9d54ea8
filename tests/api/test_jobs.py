from decimal import Decimal

from shop.models import Job, JobOperation
from tests.cast import Cast
from tests.costs import keys_of
from tests.factories import JobFactory

SHEET_VALUES = [
    {"fastener": "M8", "value": "25 N·m"},  # as kept before there were others
    {"fastener": "Run-out", "value": "at most 0.05 mm", "kind": "other"},
]


def job_of(cast: Cast, *hours: str, **given: object) -> Job:
    job = JobFactory(shop=cast.shop, **given)
    for position, each in enumerate(hours, start=1):
        JobOperation.objects.create(
            shop=cast.shop,
            job=job,
            position=position,
            code=f"OP-{position}",
            title=f"Step {position}",
            quoted_hours=Decimal(each),
            sheet={"cautions": ["Let it cool first."], "torques": SHEET_VALUES},
        )
    return job


def test_open_jobs_are_listed_newest_first_with_their_hours(cast: Cast) -> None:
    first, second = job_of(cast, "1.50", "2.00"), job_of(cast, "0.50")
    job_of(cast, "9.00", state=Job.State.HANDED_OVER)
    items = cast.signed_in("technician").get("jobs", {"state": "open"}).json()["items"]
    assert [(each["number"], each["hours"]) for each in items] == [(str(second), "0.5"), (str(first), "3.5")]


def test_a_technician_sees_the_work_and_no_price(cast: Cast) -> None:
    job = cast.signed_in("technician").get(f"jobs/{job_of(cast, '1.50').pk}").json()
    assert job["operations"][0]["cautions"] == ["Let it cool first."]
    values = [(each["kind"], each["fastener"], each["value"]) for each in job["operations"][0]["torques"]]
    assert values == [("torque", "M8", "25 N·m"), ("other", "Run-out", "at most 0.05 mm")]
    assert job["operations"][0]["how"] is None  # of a job from before it was kept
    assert not {key for key in keys_of(job) if "price" in key or "cost" in key or "margin" in key}


def test_an_unknown_state_is_refused(cast: Cast) -> None:
    assert cast.signed_in("technician").get("jobs", {"state": "lost"}).status_code == 400
