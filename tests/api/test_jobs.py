from datetime import date
from decimal import Decimal

import pytest

from shop.models import Job, RuleSet
from tests.cast import Cast
from tests.costs import keys_of
from tests.factories import JobFactory, JobOperationFactory, StepCautionFactory, StepValueFactory, VehicleFactory
from tests.quotes.stage import RULES

pytestmark = pytest.mark.once


def job_of(cast: Cast, *hours: str, **fields: object) -> Job:
    job = JobFactory(shop=cast.shop, **fields)
    for position, hour in enumerate(hours, start=1):
        step = JobOperationFactory(
            shop=cast.shop,
            job=job,
            position=position,
            code=f"OP-{position}",
            title=f"Step {position}",
            quoted_hours=Decimal(hour),
        )
        StepCautionFactory(shop=cast.shop, step=step, text="Let it cool first.")
        StepValueFactory(
            shop=cast.shop, step=step, position=2, kind="other", fastener="Run-out", value="at most 0.05 mm"
        )
        StepValueFactory(shop=cast.shop, step=step, position=1, fastener="M8", value="25 N·m")
    return job


def test_open_jobs_are_listed_newest_first_with_their_hours(cast: Cast) -> None:
    first, second = job_of(cast, "1.50", "2.00"), job_of(cast, "0.50")
    job_of(cast, "9.00", state=Job.State.HANDED_OVER)
    items = cast.signed_in("technician").get("jobs", {"state": "open"}).json()["items"]
    assert [(item["number"], item["hours"]) for item in items] == [(str(second), "0.5"), (str(first), "3.5")]


def test_a_technician_sees_the_work_and_no_price(cast: Cast) -> None:
    job = cast.signed_in("technician").get(f"jobs/{job_of(cast, '1.50').pk}").json()
    assert job["operations"][0]["cautions"] == ["Let it cool first."]
    values = [(torque["kind"], torque["fastener"], torque["value"]) for torque in job["operations"][0]["torques"]]
    assert values == [("torque", "M8", "25 N·m"), ("other", "Run-out", "at most 0.05 mm")]
    assert job["operations"][0]["how"] is None  # of a job from before it was kept
    assert not {key for key in keys_of(job) if "price" in key or "cost" in key or "margin" in key}


def notices(cast: Cast, attributes: dict[str, str]) -> list[str]:
    job = job_of(cast, "1.50", vehicle=VehicleFactory(shop=cast.shop, attributes=attributes))
    return cast.signed_in("technician").get(f"jobs/{job.pk}").json()["notices"]


@pytest.mark.parametrize(
    ("name", "value", "is_stated"),
    [
        ("high voltage", "yes", True),
        ("High-voltage system", "400 V", True),
        ("drive", "petrol, high voltage", True),
        ("high voltage", "No", False),
        ("high voltage", " none ", False),
        ("drive", "petrol", False),
    ],
)
def test_where_a_high_voltage_system_is_recorded_the_job_says_who_may_isolate_it(
    cast: Cast, name: str, value: str, is_stated: bool
) -> None:
    texts = notices(cast, {"transmission": "manual", name: value})
    assert [text.partition(".")[0] for text in texts] == (["High voltage"] if is_stated else [])


def test_what_the_rules_of_the_day_say_in_the_bay_stands_on_every_job(cast: Cast) -> None:
    days = {date(2026, 1, 1): "As it was.", date(2026, 2, 1): "Values are invented.", date(2999, 1, 1): "Not yet."}
    for number, (day, attribute) in enumerate(days.items(), start=1):
        rules = {**RULES, "words": {"bay": [attribute]}}
        RuleSet.objects.create(shop=cast.shop, number=number, valid_from=day, rules=rules)
    assert notices(cast, {"high voltage": "yes"})[1:] == ["Values are invented."]


def test_an_unknown_state_is_refused(cast: Cast) -> None:
    assert cast.signed_in("technician").get("jobs", {"state": "lost"}).status_code == 400
